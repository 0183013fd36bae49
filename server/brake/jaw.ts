/**
 * Whether the part gets into the opened brake before a bend and out of it after. What stands behind the nose must fit the jaw by its height, as it is, tilted or from
 * the back; what does not may still find a way past the nose as it really is: most by plain shifts told at once, the rest by looking for one (passage.ts). Of a part that
 * fits by its height the way is looked for as well, and where none is found that is said, not held against it: sliding along the brake is not looked through.
 */
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
import { LENGTH_TOLERANCE, type Tools } from './tools.js';

/** A wall that stands no further than about square can be tilted in. Common practice, no source. */
const TILTS = (91 * Math.PI) / 180;

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
  /** Fits by its height, but no way past the nose was found by shifting and tilting it: in before the bend, or out once bent. */
  readonly noWay: NoWay | undefined;
}
export type NoWay = 'in' | 'out';
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
/** Ways past the nose looked for at most in one search. */
export const MOST_WAYS = 400;
type Hangs = 'left' | 'right' | 'both' | undefined;
/** How the part lies along the brake: the end it hangs off, and what of the bend the fingers stand on. */
export interface Along {
  readonly hangsOff: Hangs;
  readonly fingers: Extent;
}

const PASSES: Jaw = { passes: true, tilt: false, tiltOut: false, back: false, backOut: false, height: 0, noWay: undefined };

export interface JawChecker {
  /** For a state, and how the part lies along the brake: how it gets in and out. */
  readonly passing: (done: number, along: Along) => Jaw;
  /** Whether it does by its height, as it is, tilted or from the back, or else by one plain shift. */
  readonly passes: (done: number, along: Along) => boolean;
  /** Or by any way that is found past the nose: a long look. */
  readonly passesSomehow: (done: number, along: Along) => boolean;
}

/** @param opening of the jaw; undefined where the shop has not said, then everything passes */
export const jawOf = (input: JawInput, opening: number | undefined): JawChecker => {
  const { brake, hold, wanted, tools, clearance } = input;
  if (opening === undefined) return { passing: () => PASSES, passes: () => true, passesSomehow: () => true };
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
  /** Where the bend is clamped. */
  const whole: Extent = { from: hold.ends[0] + CLOSENESS, to: hold.ends[1] - CLOSENESS };
  /** And where fingers stand on it. */
  const usedOf = ({ fingers }: Along): Extent =>
    fingered ? { from: Math.max(whole.from, fingers.from + CLOSENESS), to: Math.min(whole.to, fingers.to - CLOSENESS) } : whole;
  /** Where the brake may go on beyond the bend. */
  const open = ({ hangsOff }: Along): Extent => ({
    from: hangsOff === 'left' || hangsOff === 'both' ? whole.from : Number.NEGATIVE_INFINITY,
    to: hangsOff === 'right' || hangsOff === 'both' ? whole.to : Number.POSITIVE_INFINITY,
  });

  const memberShifts = (member: Member, done: number, turn: number, room: Extent, used: Extent): Shifts => {
    let shifts = ALL_FREE;
    const meet = (piece: Convex | undefined, clamp: readonly Convex[], others: readonly Convex[]): void => {
      if (piece !== undefined) shifts = bothShifts(shifts, shiftsPast(standing(piece, turn), clamp, others, rise));
    };
    const beside = within(member, done, room);
    if (!fingered) meet(beside, clamp, still);
    else {
      meet(beside, tools.beam, still);
      meet(within(member, done, used), tools.nose, []);
    }
    return shifts;
  };
  /** Where fingers stand all along the bend, a piece has the same answer in many states. */
  const knownShifts = new Map<string, (member: Member, done: number) => Shifts>();
  const shiftsOf = (turn: number, along: Along): ((member: Member, done: number) => Shifts) => {
    const [room, used] = [open(along), usedOf(along)];
    const answer = (member: Member, done: number): Shifts => memberShifts(member, done, turn, room, used);
    if (used.from !== whole.from || used.to !== whole.to) return answer;
    const key = `${turn} ${along.hangsOff}`;
    const known = knownShifts.get(key) ?? remembered(answer);
    knownShifts.set(key, known);
    return known;
  };
  const plainShifts = (done: number, along: Along, leafTurn: number): Shifts => {
    let shifts = ALL_FREE;
    for (const name of ['clamped', 'leaf'] as const) {
      const ofMember = shiftsOf(name === 'leaf' ? leafTurn : 0, along);
      for (const member of hold[name].members) {
        shifts = bothShifts(shifts, ofMember(member, done));
        if (shifts === NONE_FREE) return shifts;
      }
    }
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
    const ofMember = remembered((member: Member, done: number) => range(member, done, turn));
    const ofBranch = remembered((branch: Branch, done: number): readonly [number, number] => {
      let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
      for (const member of branch.members) {
        const [from, to] = ofMember(member, done);
        if (from < low) low = from;
        if (to > high) high = to;
      }
      return [low, high];
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

  const laidFlat = remembered((_: Half, done: number): boolean => layFlat(input, done, fingered).every(fits));
  const fitsFromBack = (done: number): boolean => leafHeights.every((heightOf) => fits(heightOf(hold.leaf, done)));
  /** By heights alone: it goes in as it is, with its walls laid flat one after another, or from the back. */
  const byHeight = (done: number, height: number): Jaw => {
    if (fits(height)) return { ...PASSES, height };
    const tilt = laidFlat(hold.clamped, done);
    const back = !tilt && fitsFromBack(done);
    return { passes: tilt || back, tilt, tiltOut: false, back, backOut: back, height, noWay: undefined };
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
  const way = (done: number, turn: number, along: Along, any: boolean): Passes | undefined => {
    const atRest = piecesIn(done, turn, open(along));
    const atNose = fingered ? piecesIn(done, turn, usedOf(along)) : atRest;
    const key = [any, opening, hold.inside.toFixed(3), written(atRest), fingered ? written(atNose) : ''].join('|');
    if (!input.known.has(key)) input.known.set(key, wayOut({ atNose, atRest }, { nose: tools.nose, beam: tools.beam, still, rise }, any));
    return input.known.get(key);
  };

  const passing: JawChecker['passing'] = (done, along) => {
    const plain = byHeight(done, clampedHeight(hold.clamped, done));
    if (tools.leastNose) return plain;
    const found = (turn: number): Passes | undefined =>
      isFree(plainShifts(done, along, turn), TO_FRONT) ? STRAIGHT : way(done, turn, along, false);
    const into = found(fromTurn);
    const out = into === undefined ? undefined : found(wanted);
    if (into === undefined || out === undefined) return { ...plain, noWay: into === undefined ? 'in' : 'out' };
    return {
      passes: true,
      tilt: into.tilted,
      tiltOut: out.tilted,
      back: into.back,
      backOut: out.back,
      height: plain.height,
      noWay: undefined,
    };
  };
  const passes: JawChecker['passes'] = (done, along) => {
    if (fits(clampedHeight(hold.clamped, done)) || fitsFromBack(done) || laidFlat(hold.clamped, done)) return true;
    if (tools.leastNose) return false;
    return [fromTurn, wanted].every((turn) => isFree(plainShifts(done, along, turn), TO_FRONT));
  };
  const passesSomehow: JawChecker['passesSomehow'] = (done, along) => {
    if (passes(done, along)) return true;
    if (tools.leastNose) return false;
    return [fromTurn, wanted].every((turn) => {
      if (isFree(plainShifts(done, along, turn), TO_FRONT)) return true;
      return input.known.size < MOST_WAYS && way(done, turn, along, true) !== undefined;
    });
  };
  return { passing, passes, passesSomehow };
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
