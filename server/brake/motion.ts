/**
 * One step seen from the end of the brake, to be moved: what stands still, what goes with the leaf, and how. Plain geometry, as in `picture.ts`; whoever shows it
 * needs no more than a slide and a turn. What swings lies flat as given; with the leaf at a turn t it is slid by `allowance · min(1, t / set)` toward the clamp and
 * then turned by t about `about`. The apron only turns.
 */
import type { Convex } from '../shape/convex.js';
import type { Point } from '../shape/path.js';
import { blockedPicture, type SectionPicture, sectionPicture } from './picture.js';
import type { Planned } from './plan.js';
import type { Side, Tool } from './types.js';

export interface MovedSheet {
  readonly feature: string;
  readonly outline: Convex;
  /** Beyond the length of the bend: it passes the brake's sections by. */
  readonly beyond: boolean;
  readonly strikes: Tool | undefined;
}
export interface BendMotion {
  readonly machine: SectionPicture['machine'];
  readonly held: readonly MovedSheet[];
  readonly swings: readonly MovedSheet[];
  readonly about: Point;
  /** Radii of the bend, inside and outside, mm. */
  readonly inside: number;
  readonly outside: number;
  /** Length of sheet that the bend takes up, mm. */
  readonly allowance: number;
  /** Turns, rad: where the sheet is before, how far the leaf goes, and where the sheet stays when it has sprung back. */
  readonly from: number;
  readonly set: number;
  readonly rests: number;
}

interface Turns {
  readonly from: number;
  readonly set: number;
  readonly rests: number;
  readonly allowance: number;
}

/** @param shown turn at which what strikes is looked for, rad */
const motionOf = (pictureAt: (turn: number) => SectionPicture | undefined, turns: Turns, shown: number): BendMotion | undefined => {
  // With the leaf down everything lies where it is moved from.
  const flat = pictureAt(0);
  const struck = pictureAt(shown);
  if (flat === undefined || struck === undefined) return undefined;
  const sheets = (half: 'held' | 'swings'): readonly MovedSheet[] => {
    const wanted = half === 'held' ? 'clamped' : 'leaf';
    return [
      ...flat.part.flatMap(({ feature, half: own, outline }, i) =>
        own === wanted ? [{ feature, outline, beyond: false, strikes: struck.part[i]?.strikes }] : [],
      ),
      ...flat.beyond.flatMap(({ feature, half: own, outline }) =>
        own === wanted ? [{ feature, outline, beyond: true, strikes: undefined }] : [],
      ),
    ];
  };
  const { about, inside, outside } = flat.bend;
  return { machine: flat.machine, held: sheets('held'), swings: sheets('swings'), about, inside, outside, ...turns };
};

/**
 * A step of the plan.
 *
 * @param index of the step, from 0
 * @returns undefined for handwork
 */
export const stepMotion = (planned: Planned, index: number): BendMotion | undefined => {
  const hold = planned.chosen[index]?.way?.hold;
  const step = planned.plan.steps[index];
  if (hold === undefined || step === undefined) return undefined;
  const { fromTurn: from, setTurn: set, allowance } = hold;
  return motionOf((turn) => sectionPicture(planned, index, turn), { from, set, rests: Math.min(step.turn, set), allowance }, set);
};

/**
 * A bend that can't be made, from the state it is told from, held as said: it goes as far as `set` and is shown where the most strikes.
 *
 * @param which of the plan's blocked bends, from 0
 */
export const blockedMotion = (planned: Planned, which: number, clamped: Side): BendMotion | undefined => {
  const blocked = planned.plan.blocked[which];
  const { job } = planned;
  const operation = job.operations.findIndex(({ step, fromShare }) => step === blocked?.step && fromShare === 0);
  const hold = job.ways[operation]?.find((way) => way.hold.side === clamped)?.hold;
  if (blocked === undefined || hold === undefined) return undefined;
  const { main } = blocked;
  const shown = main.kind === 'touch' ? main.at : main.kind === 'itself' ? main.from : hold.setTurn;
  const { fromTurn: from, setTurn: set, allowance } = hold;
  return motionOf((turn) => blockedPicture(planned, which, clamped, turn), { from, set, rests: shown, allowance }, shown);
};
