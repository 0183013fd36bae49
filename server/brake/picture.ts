/**
 * One step seen from the end of the brake, as plain geometry: the machine's sections, the part's, and what strikes what, at any turn of the leaf. x toward the
 * operator, y up, the origin where the nose meets the bed at the bend line. Drawing is for others.
 */
import { type Convex, overlapDepth, turned } from '../shape/convex.js';
import type { Point } from '../shape/path.js';
import { swung } from './clash.js';
import type { Job, Way } from './job.js';
import type { Planned } from './plan.js';
import { type Extent, seenAlong } from './section.js';
import { raisedNose } from './tools.js';
import type { Side, Tool } from './types.js';

export interface SectionPicture {
  /** The machine as described, the nose on the sheet, the apron swung. */
  readonly machine: readonly { readonly tool: Tool; readonly outline: readonly Point[] }[];
  /** Slabs of sheet within the used length; several for one feature. */
  readonly part: readonly {
    readonly feature: string;
    readonly half: 'clamped' | 'leaf';
    readonly outline: Convex;
    readonly strikes: Tool | undefined;
  }[];
  /** Of the bend that is made, in its place: its middle, inside radius and the turn so far; it runs from −90° (down) to that. */
  readonly bend: { readonly about: Point; readonly inside: number; readonly outside: number; readonly turn: number };
  /** What lies in the brake beyond the used length, to be drawn faint. */
  readonly beyond: readonly { readonly feature: string; readonly half: 'clamped' | 'leaf'; readonly outline: Convex }[];
}

const doneOf = (planned: Planned, index: number): number =>
  planned.chosen.slice(0, index).reduce((set, { operation }) => set | (1 << operation), 0);

/**
 * The picture of a step of the plan.
 *
 * @param index of the step, from 0
 * @param turn of the leaf, rad; the set angle when left out
 * @returns undefined for handwork
 */
export const sectionPicture = (planned: Planned, index: number, turn?: number): SectionPicture | undefined => {
  const way = planned.chosen[index]?.way;
  return way === undefined ? undefined : pictureOf(planned.job, way, doneOf(planned, index), turn ?? way.hold.setTurn);
};

/**
 * The picture of a bend that can't be made: the state it is told from, held as said.
 *
 * @param which of the plan's blocked bends, from 0
 */
export const blockedPicture = (planned: Planned, which: number, clamped: Side, turn?: number): SectionPicture | undefined => {
  const blocked = planned.plan.blocked[which];
  const { job } = planned;
  const operation = job.operations.findIndex(({ step, fromShare }) => step === blocked?.step && fromShare === 0);
  const way = job.ways[operation]?.find(({ hold }) => hold.side === clamped);
  if (blocked === undefined || way === undefined) return undefined;
  const done = job.operations.reduce(
    (set, one, i) => (one.bends.every((bend) => blocked.done.includes(job.blank.bends[bend]?.id ?? '')) ? set | (1 << i) : set),
    0,
  );
  return pictureOf(job, way, done, turn ?? way.hold.setTurn);
};

const pictureOf = (job: Job, way: Way, done: number, turn: number): SectionPicture => {
  const { hold, tools } = way;
  const { brake } = job;
  const swing = (outline: readonly Point[]): readonly Point[] => turned(outline, hold.about, turn);
  const nose = raisedNose(brake, hold.thickness);
  const machine = [
    ...(nose === undefined ? [] : [{ tool: 'nose' as const, outline: nose }]),
    ...(brake.bed === undefined ? [] : [{ tool: 'bed' as const, outline: brake.bed }]),
    ...(brake.apron === undefined ? [] : [{ tool: 'apron' as const, outline: swing(brake.apron) }]),
  ];
  const standing: readonly (readonly [Tool, readonly Convex[]])[] = [
    ['nose', tools.nose],
    ['beam', tools.beam],
    ['bed', tools.bed],
    ['apron', tools.apron.map((piece) => turned(piece, hold.about, turn))],
  ];
  const struck = (outline: Convex): Tool | undefined =>
    standing.find(([, pieces]) => pieces.some((piece) => overlapDepth(outline, piece) > 0))?.[0];
  const used: Extent = { from: hold.ends[0], to: hold.ends[1] };
  const part: SectionPicture['part'][number][] = [];
  const beyond: SectionPicture['beyond'][number][] = [];
  for (const half of ['clamped', 'leaf'] as const) {
    const placed = (section: Convex): Convex => (half === 'leaf' ? swung(hold, section, turn) : section);
    for (const member of (half === 'leaf' ? hold.leaf : hold.clamped).members) {
      const { feature } = member.piece;
      for (const slab of way.clearance.placed(member, done).slabs()) {
        const within = seenAlong(slab, used.from, used.to);
        const whole = seenAlong(slab, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
        if (within !== undefined) {
          const outline = placed(within);
          part.push({ feature, half, outline, strikes: struck(outline) });
        } else if (whole !== undefined) beyond.push({ feature, half, outline: placed(whole) });
      }
    }
  }
  const bend = { about: hold.about, inside: hold.inside, outside: hold.inside + hold.thickness, turn };
  return { machine, part, bend, beyond };
};
