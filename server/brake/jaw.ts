/** Whether the part gets into the opened brake before a bend and out of it after: most by plain shifts told at once, the rest by looking for a way (passage.ts). */
import type { Brake } from '../model/shop.js';
import { type Convex, hullOf, overlapDepth, turned } from '../shape/convex.js';
import type { Point } from '../shape/path.js';
import { swung } from './clash.js';
import { CLOSENESS, type Clearance } from './clear.js';
import type { Branch, Half, Hold, Member } from './hold.js';
import { outermost, wayOut } from './passage.js';
import { type Pieces, shareIn } from './pieces.js';
import { type Extent, seenAlong } from './section.js';
import { remembered } from './steps.js';
import type { Tools } from './tools.js';

/** A wall that stands no further than about square can be tilted in. Common practice, no source. */
const TILTS = (91 * Math.PI) / 180;
const LENGTH_TOLERANCE = 0.001;

export interface Jaw {
  readonly passes: boolean;
  /** Walls go in tilted, or out. */
  readonly tilt: boolean;
  readonly tiltOut: boolean;
  /** Put in from the back, or taken out to it. */
  readonly back: boolean;
  readonly backOut: boolean;
  /** Of what lies behind the nose. */
  readonly height: number;
  /** It goes in, but once bent it does not come out. */
  readonly trapped: boolean;
}
export interface JawInput {
  readonly brake: Brake;
  readonly pieces: Pieces;
  readonly hold: Hold;
  /** The turn that the bend has when it is taken out, rad. */
  readonly wanted: number;
  readonly tools: Tools;
  readonly clearance: Clearance;
  /** Ways out known from other states, by what they were asked. */
  readonly known: Map<string, Passes | undefined>;
}
export interface Passes {
  readonly tilted: boolean;
  readonly back: boolean;
}
type Hangs = 'left' | 'right' | 'both' | undefined;

const PASSES: Jaw = { passes: true, tilt: false, tiltOut: false, back: false, backOut: false, height: 0, trapped: false };

export interface JawChecker {
  /** For a state and the end of the brake that the part hangs off: how it gets in and out. */
  readonly passing: (done: number, hangs: Hangs) => Jaw;
  /** Whether it does at all. */
  readonly passes: (done: number, hangs: Hangs) => boolean;
  /** What of the part is in the way of the plain shifts, the leaf's side first. */
  readonly hook: (done: number) => string | undefined;
}

/** @param opening of the jaw; undefined where the shop has not said, then everything passes */
export const jawOf = (input: JawInput, opening: number | undefined): JawChecker => {
  const { brake, hold, wanted, tools, clearance } = input;
  if (opening === undefined) return { passing: () => PASSES, passes: () => true, hook: () => undefined };
  const { thickness, fromTurn } = hold;
  const fingered = brake.type === 'fingers';
  const rise = Math.max(0, opening - thickness);
  const { clamp, still } = gateOf(tools);

  /** The leaf's side as it stands, not pressed against anything. */
  const standing = (section: Convex, turn: number): Convex =>
    turn === 0 ? section : turned(section, hold.about, turn, -hold.allowance, 0);
  /** What of a piece lies within a stretch of the brake. */
  const within = (member: Member, done: number, span: Extent): Convex | undefined => {
    const placed = clearance.placed(member, done);
    const { extent } = placed;
    if (extent.to <= span.from || extent.from >= span.to) return undefined;
    if (extent.from >= span.from && extent.to <= span.to) return placed.hull();
    const hull = hullOf(placed.slabs().flatMap((slab) => seenAlong(slab, span.from, span.to) ?? []));
    return hull.length < 3 ? undefined : hull;
  };
  const used: Extent = { from: hold.ends[0] + CLOSENESS, to: hold.ends[1] - CLOSENESS };
  /** Where the brake may go on beyond the bend. */
  const open = (hangs: Hangs): Extent => ({
    from: hangs === 'left' || hangs === 'both' ? used.from : Number.NEGATIVE_INFINITY,
    to: hangs === 'right' || hangs === 'both' ? used.to : Number.POSITIVE_INFINITY,
  });

  const shiftsOf = (turn: number, hangs: Hangs) =>
    remembered((branch: Branch, done: number): Shifts => {
      let shifts = ALL_FREE;
      const meet = (piece: Convex | undefined, clamp: readonly Convex[], others: readonly Convex[]): void => {
        if (piece !== undefined) shifts = bothShifts(shifts, shiftsPast(standing(piece, turn), clamp, others, rise));
      };
      for (const member of branch.members) {
        const whole = within(member, done, open(hangs));
        if (!fingered) meet(whole, clamp, still);
        else {
          meet(whole, tools.beam, still);
          meet(within(member, done, used), tools.nose, []);
        }
        if (shifts === NONE_FREE) break;
      }
      return shifts;
    });
  const shiftsFor = (['left', 'right', 'both', undefined] as const).map((hangs) => ({
    hangs,
    clamped: shiftsOf(0, hangs),
    before: shiftsOf(fromTurn, hangs),
    after: shiftsOf(wanted, hangs),
  }));
  const plainShifts = (done: number, hangs: Hangs, leaf: 'before' | 'after'): Shifts => {
    let shifts = ALL_FREE;
    const own = shiftsFor.find((one) => one.hangs === hangs);
    if (own === undefined) return NONE_FREE;
    for (const branch of hold.clamped.branches) shifts = bothShifts(shifts, own.clamped(branch, done));
    for (const branch of hold.leaf.branches) shifts = bothShifts(shifts, own[leaf](branch, done));
    return shifts;
  };
  const isFree = ({ eased, raised, directions }: Shifts, to: number): boolean => eased || (raised && (directions & to) !== 0);

  const range = (member: Member, done: number, turn: number): readonly [number, number] => {
    const placed = clearance.placed(member, done);
    const [from, to] = [hold.ends[0] + CLOSENESS, hold.ends[1] - CLOSENESS];
    const clipped = fingered && (placed.extent.from < from || placed.extent.to > to);
    const sections = clipped ? placed.slabs().flatMap((slab) => [seenAlong(slab, from, to) ?? []]) : [placed.hull()];
    const heights = sections.flatMap((section) => (turn === 0 ? section : swung(hold, section, turn)).map(({ y }) => y));
    return [Math.min(0, ...heights), Math.max(0, ...heights)];
  };
  /** Height of a side in the brake, its own sheet included, cut to the bend's length where there are fingers. */
  const heightAt = (turn: number) => {
    const ofBranch = remembered((branch: Branch, done: number): readonly [number, number] => {
      const all = branch.members.map((member) => range(member, done, turn));
      return [Math.min(...all.map(([low]) => low)), Math.max(...all.map(([, high]) => high))];
    });
    return (half: Half, done: number): number => {
      let [low, high] = [0, thickness];
      for (const branch of half.branches) {
        const [own, top] = ofBranch(branch, done);
        low = Math.min(low, own);
        high = Math.max(high, top);
      }
      return high - low;
    };
  };
  const clampedHeight = heightAt(0);
  const leafHeights = [heightAt(fromTurn), heightAt(hold.setTurn)];
  const fits = (height: number): boolean => height <= opening + LENGTH_TOLERANCE;

  /** Without a nose only heights tell: it goes in as it is, with its walls laid flat one after another, or from the back. */
  const byHeight = (done: number, height: number): Jaw => {
    if (fits(height)) return { ...PASSES, height };
    const tilt = layFlat(input, done, fingered).every(fits);
    const back = !tilt && leafHeights.every((heightOf) => fits(heightOf(hold.leaf, done)));
    return { passes: tilt || back, tilt, tiltOut: false, back, backOut: back, height, trapped: false };
  };

  const piecesIn = (done: number, turn: number, span: Extent): readonly Convex[] =>
    outermost(
      (['clamped', 'leaf'] as const).flatMap((name) =>
        hold[name].members.flatMap((member) => {
          const piece = within(member, done, span);
          return piece === undefined ? [] : [name === 'leaf' ? standing(piece, turn) : piece];
        }),
      ),
    );
  const way = (done: number, turn: number, hangs: Hangs, any: boolean): Passes | undefined => {
    const atRest = piecesIn(done, turn, open(hangs));
    const atNose = fingered ? piecesIn(done, turn, used) : atRest;
    const key = [any, opening, hold.inside.toFixed(3), written(atRest), fingered ? written(atNose) : ''].join('|');
    if (!input.known.has(key)) input.known.set(key, wayOut({ atNose, atRest }, { nose: tools.nose, beam: tools.beam, still, rise }, any));
    return input.known.get(key);
  };

  const passing: JawChecker['passing'] = (done, hangs) => {
    const height = clampedHeight(hold.clamped, done);
    if (tools.leastNose) return byHeight(done, height);
    const found = (leaf: 'before' | 'after'): Passes | undefined =>
      isFree(plainShifts(done, hangs, leaf), TO_FRONT) ? STRAIGHT : way(done, leaf === 'before' ? fromTurn : wanted, hangs, false);
    const into = found('before');
    const out = into === undefined ? undefined : found('after');
    return {
      passes: out !== undefined,
      tilt: into?.tilted ?? false,
      tiltOut: out?.tilted ?? false,
      back: into?.back ?? false,
      backOut: out?.back ?? false,
      height,
      trapped: into !== undefined && out === undefined,
    };
  };
  const passes: JawChecker['passes'] = (done, hangs) => {
    if (tools.leastNose) return byHeight(done, clampedHeight(hold.clamped, done)).passes;
    const passesAt = (leaf: 'before' | 'after'): boolean =>
      isFree(plainShifts(done, hangs, leaf), TO_FRONT) || way(done, leaf === 'before' ? fromTurn : wanted, hangs, true) !== undefined;
    return passesAt('before') && passesAt('after');
  };
  const hook: JawChecker['hook'] = (done) => {
    const own = shiftsFor[3];
    const isStuck = (shifts: ((branch: Branch, done: number) => Shifts) | undefined) => (member: Member) =>
      shifts !== undefined && !isFree(shifts({ members: [member], moves: member.moves }, done), TO_FRONT);
    const stuck =
      hold.leaf.members.find(isStuck(own?.after)) ??
      hold.leaf.members.find(isStuck(own?.before)) ??
      hold.clamped.members.find(isStuck(own?.clamped));
    return stuck?.piece.feature;
  };
  return { passing, passes, hook };
};

/** Ways to shift a piece in one line, or in two: straight toward the operator with the clamp just eased; or the clamp is raised first. */
interface Shifts {
  readonly eased: boolean;
  /** Nothing is struck while the clamp rises. */
  readonly raised: boolean;
  /** Then, a bit for each of `DIRECTIONS` that is free. */
  readonly directions: number;
}
/** Straight ways out of the raised clamp: 15 to the front, from the level one 10° apart, and as many to the back. */
const DIRECTIONS: readonly Point[] = [0, 180].flatMap((middle) =>
  Array.from({ length: 15 }, (_, i) => {
    const angle = ((middle + (i - 7) * 10) * Math.PI) / 180;
    return { x: Math.cos(angle), y: Math.sin(angle) };
  }),
);
const TO_FRONT = 2 ** 15 - 1;
const STRAIGHT: Passes = { tilted: false, back: false };
const ALL_FREE: Shifts = { eased: true, raised: true, directions: 2 ** DIRECTIONS.length - 1 };
const NONE_FREE: Shifts = { eased: false, raised: false, directions: 0 };
const bothShifts = (a: Shifts, b: Shifts): Shifts => {
  if (a === ALL_FREE) return b;
  if (b === ALL_FREE || a === NONE_FREE) return a;
  const both = { eased: a.eased && b.eased, raised: a.raised && b.raised, directions: a.directions & b.directions };
  return both.eased || (both.raised && both.directions !== 0) ? both : NONE_FREE;
};

const shiftsPast = (piece: Convex, clamp: readonly Convex[], still: readonly Convex[], rise: number): Shifts => {
  let eased = true;
  let directions = ALL_FREE.directions;
  const risen = (tool: Convex): Convex => tool.map(({ x, y }) => ({ x, y: y + rise }));
  let raised = true;
  for (const tool of clamp) {
    eased &&= (freeDirections(piece, tool) & LEVEL) !== 0;
    const up = risen(tool);
    raised &&= overlapDepth(piece, hullOf([...tool, ...up])) <= 0;
    if (raised) directions &= freeDirections(piece, up);
  }
  for (const tool of still) {
    const free = freeDirections(piece, tool);
    eased &&= (free & LEVEL) !== 0;
    directions &= free;
  }
  return bothShifts(ALL_FREE, eased || (raised && directions !== 0) ? { eased, raised, directions } : NONE_FREE);
};
const LEVEL = 1 << 7;

/** Which straight ways a convex piece can go for good without meeting a convex tool: all but those within the angle that their difference is seen under. */
const freeDirections = (piece: Convex, tool: Convex): number => {
  if (overlapDepth(piece, tool) > 0) return 0;
  let [leftX, leftY, rightX, rightY] = [0, 0, 0, 0];
  let first = true;
  for (const t of tool) {
    for (const p of piece) {
      const [x, y] = [t.x - p.x, t.y - p.y];
      if (first) {
        [leftX, leftY, rightX, rightY] = [x, y, x, y];
        first = false;
        continue;
      }
      if (leftX * y - leftY * x > 0) [leftX, leftY] = [x, y];
      if (rightX * y - rightY * x < 0) [rightX, rightY] = [x, y];
    }
  }
  let free = 0;
  for (let i = 0; i < DIRECTIONS.length; i++) {
    const { x, y } = DIRECTIONS[i] as Point;
    if (!(rightX * y - rightY * x > 1e-9 && leftX * y - leftY * x < -1e-9)) free |= 1 << i;
  }
  return free;
};

/** How far back the bed is taken to go where it is not described: as far as the nose. */
const gateOf = (tools: Tools): { readonly clamp: readonly Convex[]; readonly still: readonly Convex[] } => {
  const clamp = [...tools.nose, ...tools.beam];
  const rear = Math.min(0, ...clamp.flatMap((piece) => piece.map(({ x }) => x)));
  const floor: Convex = [
    { x: rear, y: -1 },
    { x: 0, y: -1 },
    { x: 0, y: -CLOSENESS },
    { x: rear, y: -CLOSENESS },
  ];
  return { clamp, still: [...(tools.bed.length > 0 ? tools.bed : [floor]), ...tools.apron] };
};

const written = (polygons: readonly Convex[]): string =>
  polygons.map((polygon) => polygon.map(({ x, y }) => `${Math.round(x * 100)},${Math.round(y * 100)}`).join(' ')).join(';');

/**
 * Heights of what stands behind the nose when each wall in turn is laid flat, with what hangs on it. Walls that run across the brake can't be laid, unless they are
 * beside the fingers: Infinity.
 */
const layFlat = ({ pieces, hold, clearance }: JawInput, done: number, fingered: boolean): readonly number[] => {
  const walls = new Map<number, { low: number; high: number }>();
  for (const member of hold.clamped.members) {
    const placed = clearance.placed(member, done);
    if (fingered && (placed.extent.to <= hold.ends[0] + CLOSENESS || placed.extent.from >= hold.ends[1] - CLOSENESS)) continue;
    const index = member.path
      .map(({ joint }) => joint)
      .find((one) => {
        const joint = pieces.joints[one];
        return joint !== undefined && joint.line.make !== 'hem' && shareIn(joint, done) > 0;
      });
    const joint = index === undefined ? undefined : pieces.joints[index];
    if (index === undefined || joint === undefined) continue;
    const { line } = joint;
    const across = (line.to.x - line.from.x) * hold.toward.x + (line.to.y - line.from.y) * hold.toward.y;
    if (line.turn > TILTS || Math.abs(across) > 1e-6) return [Number.POSITIVE_INFINITY];
    const angle = line.turn * shareIn(joint, done) * ((line.direction === 'up') === hold.faceUp ? 1 : -1);
    const wall = walls.get(index) ?? { low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY };
    walls.set(index, wall);
    for (const section of placed.sections()) {
      for (const p of section) {
        const y = Math.sin(angle) * p.x + Math.cos(angle) * p.y;
        wall.low = Math.min(wall.low, y);
        wall.high = Math.max(wall.high, y);
      }
    }
  }
  return [...walls.values()].map(({ low, high }) => high - low);
};
