/** A plan as plain data for programs: mm and degrees. */
import type { Cost, Obstacle, Plan } from './types.js';

const degrees = (turn: number): number => Math.round((turn * 180e6) / Math.PI) / 1e6;
const rounded = (mm: number): number => Math.round(mm * 1e6) / 1e6;

export interface BendingReport {
  readonly possible: boolean;
  readonly brake: string;
  /** Steps of the part in the order they are made. */
  readonly order: readonly string[];
  readonly steps: readonly StepReport[];
  readonly cost: Cost | undefined;
  readonly all_orders_weighed: boolean;
  readonly made_in_two_goes: string | undefined;
  readonly blocked: readonly {
    readonly bend: string;
    readonly done: readonly string[];
    readonly tried: readonly { readonly clamped: string; readonly obstacles: readonly Obstacle[] }[];
  }[];
  readonly suggestions: Plan['suggestions'];
  readonly not_checked: readonly string[];
}
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
  })),
  cost: plan.cost,
  all_orders_weighed: plan.best,
  made_in_two_goes: plan.preBent,
  blocked: plan.blocked.map(({ bend, done, tried }) => ({ bend, done, tried })),
  suggestions: plan.suggestions,
  not_checked: plan.notChecked,
});
