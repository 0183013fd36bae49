/** A plan as plain data for programs: mm and degrees. */
import type { BendStep, Change, Cost, Obstacle, Plan } from './types.js';

const degrees = (turn: number): number => Math.round((turn * 180e6) / Math.PI) / 1e6;
const rounded = (mm: number): number => Math.round(mm * 1e6) / 1e6;

export interface BendingReport {
  readonly possible: boolean;
  readonly brake: string;
  /** Steps of the part in the order they are made. */
  readonly order: readonly string[];
  readonly steps: readonly StepReport[];
  readonly cost:
    | {
        readonly turn_overs: number;
        readonly rotations: number;
        readonly long_swings: number;
        readonly handling_mm: number;
        readonly unlike: number;
      }
    | undefined;
  readonly all_orders_weighed: boolean;
  readonly made_in_two_goes: string | undefined;
  readonly blocked: readonly {
    readonly bend: string;
    readonly done: readonly string[];
    readonly tried: readonly { readonly clamped: string; readonly obstacles: readonly ObstacleReport[] }[];
  }[];
  readonly suggestions: readonly (Readonly<Record<string, unknown>> & { readonly kind: Change['kind'] })[];
  readonly not_checked: readonly string[];
}
/** Lengths in mm; turns, and what is set or told by a turn of the leaf, in degrees. */
type ObstacleReport = Readonly<Record<string, unknown>> & { readonly kind: Obstacle['kind'] };
type Way = 'straight' | 'tilted' | 'back' | 'tilted, back' | 'not found';

interface StepReport {
  readonly number: number;
  readonly step: string;
  readonly bends: readonly string[];
  readonly make: string;
  readonly clamped: string | undefined;
  readonly face_up: boolean | undefined;
  readonly turned_over: boolean;
  readonly turned_end_for_end: boolean;
  readonly rotated_deg: number;
  readonly turn_deg: number;
  readonly set_deg: number;
  readonly set_by: string;
  readonly press_flat: boolean;
  readonly mark_offset_mm: number;
  readonly from_free_edge_mm: number;
  readonly from_back_mm: number;
  readonly line_mm: readonly (readonly [number, number])[] | undefined;
  readonly fingers_mm: readonly number[] | undefined;
  readonly gap_mm: number | undefined;
  readonly hangs_off: string | undefined;
  /** How it gets into the brake and, once bent, out of it. */
  readonly into: Way | undefined;
  readonly out: Way | undefined;
}

/** What `measure --json` carries as `bending`, and `plan --json` for each part. */
export const bendingReport = (plan: Plan): BendingReport => ({
  possible: plan.possible,
  brake: plan.brake.name,
  order: plan.order,
  steps: plan.steps.map((step) => ({
    number: step.number,
    step: step.step,
    bends: step.bends,
    make: step.make,
    clamped: step.clamped?.face,
    face_up: step.faceUp,
    turned_over: step.turnedOver,
    turned_end_for_end: step.turnedEndForEnd,
    rotated_deg: degrees(step.rotated),
    turn_deg: degrees(step.turn),
    set_deg: degrees(step.setAngle),
    set_by: step.setBy === 'trial' ? `trial ${step.trial}` : step.setBy,
    press_flat: step.flatten,
    mark_offset_mm: rounded(step.markOffset),
    from_free_edge_mm: rounded(step.swings),
    from_back_mm: rounded(step.toBack),
    line_mm: step.line?.map((p) => [rounded(p.x), rounded(p.y)] as const),
    fingers_mm: step.fingers?.widths.map(rounded),
    gap_mm: step.fingers === undefined ? undefined : rounded(step.fingers.gap),
    hangs_off: step.hangsOff,
    ...waysOf(step),
  })),
  cost: plan.cost === undefined ? undefined : costReport(plan.cost),
  all_orders_weighed: plan.best,
  made_in_two_goes: plan.preBent,
  blocked: plan.blocked.map(({ bend, done, tried }) => ({
    bend,
    done,
    tried: tried.map(({ clamped, obstacles }) => ({ clamped, obstacles: obstacles.map(obstacleReport) })),
  })),
  suggestions: plan.suggestions.map(changeReport),
  not_checked: plan.notChecked,
});

const waysOf = (step: BendStep): Pick<StepReport, 'into' | 'out'> => {
  if (step.make === 'hand') return { into: undefined, out: undefined };
  const way = (tilted: boolean, back: boolean): Way => (tilted ? (back ? 'tilted, back' : 'tilted') : back ? 'back' : 'straight');
  return {
    into: step.noWay === 'in' ? 'not found' : way(step.tiltIn, step.fromBack),
    // Where no way in was found, none out was looked for.
    out: step.noWay === undefined ? way(step.tiltOut, step.outBack) : 'not found',
  };
};

const costReport = ({ turnOvers, rotations, longSwings, handling, unlike }: Cost): NonNullable<BendingReport['cost']> => ({
  turn_overs: turnOvers,
  rotations,
  long_swings: longSwings,
  handling_mm: rounded(handling),
  unlike,
});

/** Whether a number is a turn. */
const inDegrees = (one: Obstacle | Change, name: string): boolean =>
  one.kind === 'turn' ||
  one.kind === 'itself' ||
  (one.kind === 'touch' && (name === 'from' || name === 'at')) ||
  (one.kind === 'brake' && one.property === 'greatest turn');

const numbersTold = (one: Obstacle | Change): Readonly<Record<string, unknown>> =>
  Object.fromEntries(
    Object.entries(one).map(([name, value]) => {
      if (typeof value !== 'number' || !Number.isFinite(value)) return [name, typeof value === 'number' ? undefined : value];
      return [name, inDegrees(one, name) ? degrees(value) : rounded(value)];
    }),
  );
const obstacleReport = (one: Obstacle): ObstacleReport => ({ ...numbersTold(one), kind: one.kind });
const changeReport = (one: Change): BendingReport['suggestions'][number] => ({ ...numbersTold(one), kind: one.kind });
