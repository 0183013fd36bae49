/**
 * Everything about one part on one brake that the search asks over and over, remembered: what a piece of sheet meets depends only on the bends between it and the
 * face that is held, so it is worked out once for each state of those.
 */
import type { Blank } from '../blank/types.js';
import type { Brake, Sheet, Trial } from '../model/shop.js';
import type { Convex } from '../shape/convex.js';
import { type Clasher, clasher, type HalfName, type Meeting, swung, type Which } from './clash.js';
import { chooseFingers, gapsAreNarrow } from './fingers.js';
import { type Half, type Hold, holdOf, type Member, reachIn } from './hold.js';
import { type ItselfMeeting, itselfChecker } from './itself.js';
import { crossing, type Operation, type Pieces, piecesOf, shareIn } from './pieces.js';
import { type Extent, type Placed, placing, seenAlong } from './section.js';
import { staticFaults } from './static.js';
import { type Tools, toolsOf } from './tools.js';
import { type TurnToSet, turnsOf } from './turns.js';
import type { ChosenFingers, Obstacle, Side } from './types.js';

export const LENGTH_TOLERANCE = 0.001;
/** A wall that stands no further than about square can be tilted in. Common practice, no source. */
const TILTS = (91 * Math.PI) / 180;
/** How closely the place is found up to which a tool may reach, mm; and by how much a piece that ends just there is left out. */
export const CLOSENESS = 0.05;
/** Length in the middle of a bend that the fingers always cover, mm. */
const MIDDLE = 10;

/** How a group of tools stands to a piece: struck where the tools must be, or free as far as these places to the left and right. */
export interface Clear {
  readonly struck: Meeting | undefined;
  readonly from: number;
  readonly to: number;
}
/** A piece in one state, and what is known of it. */
export interface Lying {
  readonly placed: Placed;
  clear?: { readonly long: Clear; readonly fingers: Clear };
  /** Lowest and highest of it between the bend's ends (fingers) or altogether, by turn of the leaf. */
  heights?: Map<number, readonly [number, number]>;
}
export interface SideVerdict {
  readonly struck: boolean;
  readonly long: Extent;
  readonly fingers: Extent;
}
export interface Way {
  readonly hold: Hold;
  readonly turn: TurnToSet;
  readonly wanted: number;
  /** What stands against it in any state. */
  readonly always: readonly Obstacle[];
  readonly tools: Tools;
  readonly clasher: Clasher;
  readonly lying: (member: Member, done: number) => Lying;
  readonly verdicts: Readonly<Record<HalfName, Map<number, SideVerdict>>>;
  readonly itself: (done: number) => ItselfMeeting | undefined;
}
export interface Feasible {
  readonly fingers: ChosenFingers | undefined;
  readonly hangsOff: 'left' | 'right' | 'both' | undefined;
  readonly tiltIn: boolean;
  readonly fromBack: boolean;
}
export interface Jaw {
  readonly passes: boolean;
  readonly tilt: boolean;
  readonly back: boolean;
  readonly height: number;
}
/** How both sides together leave room along the brake. */
export interface Room {
  readonly fits: boolean;
  readonly free: Extent;
  readonly hangsOff: Feasible['hangsOff'];
  readonly fingers: ChosenFingers | undefined;
  readonly fingersFit: boolean;
  readonly fingerRoom: number;
}
export interface Job {
  readonly blank: Blank;
  readonly brake: Brake;
  readonly sheet: Sheet;
  readonly pieces: Pieces;
  readonly operations: readonly Operation[];
  /** By operation: the ways of holding it, parent's side clamped, then child's. Empty for handwork. */
  readonly ways: readonly (readonly Way[])[];
  /** How it goes in this state, or undefined when something stops it. `done` is a set of operations. */
  readonly tryStep: (way: Way, done: number) => Feasible | undefined;
  /** The questions that `tryStep` asks, for telling what stops it. */
  readonly clearOf: (way: Way, name: HalfName, member: Member, done: number) => { readonly long: Clear; readonly fingers: Clear };
  readonly side: (way: Way, name: HalfName, done: number) => SideVerdict;
  readonly room: (way: Way, clamped: SideVerdict, leaf: SideVerdict) => Room;
  readonly jaw: (way: Way, done: number) => Jaw;
  readonly tooDeep: (way: Way, done: number) => Extract<Obstacle, { kind: 'depth' }> | undefined;
}
export interface JobInput {
  readonly blank: Blank;
  readonly brake: Brake;
  readonly sheet: Sheet;
  readonly trials: readonly Trial[];
  readonly operations?: readonly Operation[];
}

/** How high a section reaches behind the line, where the fingers are. */
const highestBehind = (section: Convex): number => {
  let most = 0;
  for (const [i, p] of section.entries()) {
    const q = section[(i + 1) % section.length] ?? p;
    if (p.x <= 0) most = Math.max(most, p.y);
    if (p.x < 0 !== q.x < 0) most = Math.max(most, p.y + ((q.y - p.y) * p.x) / (p.x - q.x));
  }
  return most;
};

const FREE: Clear = { struck: undefined, from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
const BOTH_FREE = { long: FREE, fingers: FREE };
export const halfOf = (hold: Hold, name: HalfName): Half => (name === 'clamped' ? hold.clamped : hold.leaf);

export const jobOf = (input: JobInput): Job => {
  const { blank, brake, sheet, trials } = input;
  const pieces = piecesOf(blank, input.operations);
  const { operations } = pieces;
  const cross = crossing(pieces);
  const fingered = brake.type === 'fingers';
  const toolsByRadius = new Map<number, Tools>();
  const toolsFor = (inside: number): Tools => {
    const known = toolsByRadius.get(inside) ?? toolsOf(brake, blank.thickness, inside);
    toolsByRadius.set(inside, known);
    return known;
  };

  const wayOf = (operation: Operation, index: number, side: Side): Way | undefined => {
    const bend = blank.bends[operation.bends[0] ?? -1];
    if (bend === undefined) return undefined;
    const { from, wanted, set } = turnsOf(operation, bend, sheet, brake, trials);
    const hold = holdOf(pieces, index, side, { from, set: Math.max(set.set, from + 1e-6) });
    if (hold === undefined) return undefined;
    const tools = toolsFor(bend.radius);
    const always = staticFaults(brake, sheet, blank.thickness, bend, operation, set.set);
    const place = placing(pieces, cross, hold);
    const known = new Map<Member, Map<number, Lying>>();
    const lying = (member: Member, done: number): Lying => {
      let states = known.get(member);
      if (states === undefined) {
        states = new Map();
        known.set(member, states);
      }
      const key = done & member.moves;
      let answer = states.get(key);
      if (answer === undefined) {
        answer = { placed: place(member, done) };
        states.set(key, answer);
      }
      return answer;
    };
    const itself = itselfChecker(pieces, cross, hold, wanted);
    const verdicts = { clamped: new Map<number, SideVerdict>(), leaf: new Map<number, SideVerdict>() };
    return { hold, turn: set, wanted, always, tools, clasher: clasher(hold, tools, fingered), lying, verdicts, itself };
  };
  const ways = operations.map((operation, index) => {
    if (operation.make === 'hand') return [];
    return (['parent', 'child'] as const).flatMap((side) => wayOf(operation, index, side) ?? []);
  });

  const groupClear = (way: Way, name: HalfName, which: Which, { placed }: Lying): Clear => {
    let any = false;
    for (const section of placed.sections) any ||= way.clasher.first(name, section, which) !== undefined;
    if (!any) return FREE;
    const [left, right] = way.hold.ends;
    // Fingers may leave a little of the ends bare, so for them only the middle must be clear.
    const middle = (left + right) / 2;
    const span = which === 'fingers' ? Math.min(MIDDLE, right - left) : right - left;
    const [from, to] = [middle - span / 2 + CLOSENESS, middle + span / 2 - CLOSENESS];
    const slabs = placed.slabs();
    const meets = (low: number, high: number): Meeting | undefined => {
      for (const slab of slabs) {
        const section = seenAlong(slab, low, high);
        const meeting = section === undefined ? undefined : way.clasher.first(name, section, which);
        if (meeting !== undefined) return meeting;
      }
      return undefined;
    };
    const { extent } = placed;
    const struck = extent.to > from && extent.from < to ? meets(from, to) : undefined;
    if (struck !== undefined) return { struck, from: left, to: right };
    // Beside the bend: the farthest that a tool may go is where it first meets the piece; more of the piece only meets it more.
    const limit = (inside: number, outside: number): number => {
      const hit = (at: number): boolean => meets(Math.min(at, inside), Math.max(at, inside)) !== undefined;
      if (!hit(outside)) return inside < outside ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
      let [clear, met] = [inside, outside];
      while (Math.abs(met - clear) > CLOSENESS) {
        const half = (clear + met) / 2;
        if (hit(half)) met = half;
        else clear = half;
      }
      return clear;
    };
    return {
      struck: undefined,
      from: extent.from < from ? limit(from, extent.from) : Number.NEGATIVE_INFINITY,
      to: extent.to > to ? limit(to, extent.to) : Number.POSITIVE_INFINITY,
    };
  };
  const clearOf: Job['clearOf'] = (way, name, member, done) => {
    const lying = way.lying(member, done);
    if (lying.clear === undefined) {
      const long = groupClear(way, name, 'long', lying);
      const fingers = fingered && long.struck === undefined ? groupClear(way, name, 'fingers', lying) : FREE;
      lying.clear = long === FREE && fingers === FREE ? BOTH_FREE : { long, fingers };
    }
    return lying.clear;
  };

  const side: Job['side'] = (way, name, done) => {
    const memory = way.verdicts[name];
    const half = halfOf(way.hold, name);
    const key = done & half.moves;
    const known = memory.get(key);
    if (known !== undefined) return known;
    let struck = false;
    const long = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
    const fingers = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
    for (const member of half.members) {
      const clear = clearOf(way, name, member, done);
      if (clear === BOTH_FREE) continue;
      if (clear.long.struck !== undefined || clear.fingers.struck !== undefined) {
        struck = true;
        break;
      }
      long.from = Math.max(long.from, clear.long.from);
      long.to = Math.min(long.to, clear.long.to);
      fingers.from = Math.max(fingers.from, clear.fingers.from);
      fingers.to = Math.min(fingers.to, clear.fingers.to);
    }
    const verdict = { struck, long, fingers };
    memory.set(key, verdict);
    return verdict;
  };

  /** Lowest and highest of a piece, cut to the bend's length where there are fingers. */
  const rangeOf = (way: Way, member: Member, done: number, turn: number): readonly [number, number] => {
    const lying = way.lying(member, done);
    lying.heights ??= new Map();
    const known = lying.heights.get(turn);
    if (known !== undefined) return known;
    let [low, high] = [0, 0];
    const { placed } = lying;
    const [from, to] = [way.hold.ends[0] + CLOSENESS, way.hold.ends[1] - CLOSENESS];
    const sections =
      fingered && (placed.extent.from < from || placed.extent.to > to)
        ? placed.slabs().flatMap((slab) => {
            const section = seenAlong(slab, from, to);
            return section === undefined ? [] : [section];
          })
        : placed.sections;
    for (const section of sections) {
      for (const p of turn === 0 ? section : swung(way.hold, section, turn)) {
        if (p.y < low) low = p.y;
        if (p.y > high) high = p.y;
      }
    }
    lying.heights.set(turn, [low, high]);
    return [low, high];
  };
  /** Height of a side in the brake, its own sheet included; of the leaf's side at a turn. */
  const heightOf = (way: Way, name: HalfName, done: number, turn: number): number => {
    let [low, high] = [0, way.hold.thickness];
    for (const member of halfOf(way.hold, name).members) {
      const [own, top] = rangeOf(way, member, done, turn);
      if (own < low) low = own;
      if (top > high) high = top;
    }
    return high - low;
  };
  /**
   * Whether what stands behind the nose goes in tilted: each wall laid flat, one after the other, passes the jaw with what hangs on it. Walls that run across
   * the brake don't, unless they are beside the fingers.
   */
  const tilts = (way: Way, done: number, opening: number): boolean => {
    const { hold } = way;
    const walls = new Map<number, { low: number; high: number }>();
    for (const member of hold.clamped.members) {
      const { placed } = way.lying(member, done);
      if (fingered && (placed.extent.to <= hold.ends[0] + CLOSENESS || placed.extent.from >= hold.ends[1] - CLOSENESS)) continue;
      const index = [...member.path.map(({ joint }) => joint)].find((one) => {
        const joint = pieces.joints[one];
        return joint !== undefined && joint.line.make !== 'hem' && shareIn(joint, done) > 0;
      });
      const joint = index === undefined ? undefined : pieces.joints[index];
      if (index === undefined || joint === undefined) continue;
      const { line } = joint;
      const across = (line.to.x - line.from.x) * hold.toward.x + (line.to.y - line.from.y) * hold.toward.y;
      if (line.turn > TILTS || Math.abs(across) > 1e-6) return false;
      const angle = line.turn * shareIn(joint, done) * ((line.direction === 'up') === hold.faceUp ? 1 : -1);
      const wall = walls.get(index) ?? { low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY };
      walls.set(index, wall);
      for (const section of placed.sections) {
        for (const p of section) {
          const y = Math.sin(angle) * p.x + Math.cos(angle) * p.y;
          wall.low = Math.min(wall.low, y);
          wall.high = Math.max(wall.high, y);
        }
      }
    }
    return [...walls.values()].every(({ low, high }) => high - low <= opening + LENGTH_TOLERANCE);
  };
  const jaw: Job['jaw'] = (way, done) => {
    const opening = brake.jaw;
    if (opening === undefined) return { passes: true, tilt: false, back: false, height: 0 };
    const { hold } = way;
    const height = heightOf(way, 'clamped', done, 0);
    if (height <= opening + LENGTH_TOLERANCE) return { passes: true, tilt: false, back: false, height };
    const tilt = tilts(way, done, opening);
    const passes = (turn: number): boolean => heightOf(way, 'leaf', done, turn) <= opening + LENGTH_TOLERANCE;
    const back = !tilt && passes(hold.fromTurn) && passes(hold.setTurn);
    return { passes: tilt || back, tilt, back, height };
  };

  const tooDeep: Job['tooDeep'] = (way, done) => {
    if (!fingered || brake.depth === undefined || brake.nose !== undefined) return undefined;
    const [left, right] = way.hold.ends;
    let best = { height: 0, feature: '' };
    const consider = (name: HalfName, turn: number): void => {
      for (const member of halfOf(way.hold, name).members) {
        const { placed } = way.lying(member, done);
        if (placed.extent.from >= left && placed.extent.to <= right) continue;
        for (const section of placed.sections) {
          const height = highestBehind(name === 'leaf' ? swung(way.hold, section, turn) : section) - blank.thickness;
          if (height > best.height) best = { height, feature: member.piece.feature };
        }
      }
    };
    consider('clamped', 0);
    // What swings comes to stand beside the fingers as well.
    for (let i = 1; i <= 6; i++) consider('leaf', (way.hold.setTurn * i) / 6);
    return best.height > brake.depth + LENGTH_TOLERANCE ? { kind: 'depth', depth: brake.depth, ...best } : undefined;
  };

  const fingersKnown = new Map<string, ChosenFingers | undefined>();
  const fingersFor = (bend: number, space: number): ChosenFingers | undefined => {
    const key = `${bend.toFixed(3)}:${space.toFixed(2)}`;
    if (!fingersKnown.has(key)) fingersKnown.set(key, chooseFingers(brake.fingers, bend, space));
    return fingersKnown.get(key);
  };
  const room: Job['room'] = ({ hold }, clamped, leaf) => {
    const free = { from: Math.max(clamped.long.from, leaf.long.from), to: Math.min(clamped.long.to, leaf.long.to) };
    const [boundLeft, boundRight] = [Number.isFinite(free.from), Number.isFinite(free.to)];
    // Between two things that stand, the whole brake must fit; past one of them the part hangs off its end.
    const fits = !(boundLeft && boundRight) || free.to - free.from >= (brake.length ?? Number.POSITIVE_INFINITY) - LENGTH_TOLERANCE;
    const hangsOff = boundLeft ? (boundRight ? 'both' : 'left') : boundRight ? 'right' : undefined;
    if (!fingered) return { fits, free, hangsOff, fingers: undefined, fingersFit: true, fingerRoom: Number.POSITIVE_INFINITY };
    const from = Math.max(clamped.fingers.from, leaf.fingers.from, free.from);
    const to = Math.min(clamped.fingers.to, leaf.fingers.to, free.to);
    const fingerRoom = to - from;
    if (brake.fingers.length === 0)
      return { fits, free, hangsOff, fingers: undefined, fingersFit: !Number.isFinite(fingerRoom), fingerRoom };
    const fingers = fingersFor(hold.ends[1] - hold.ends[0], fingerRoom);
    /** What of the bend no finger can cover, at the end where that is more. */
    const bare = Math.max(0, from - hold.ends[0], hold.ends[1] - to);
    return { fits, free, hangsOff, fingers, fingersFit: fingers !== undefined && gapsAreNarrow(fingers, bare), fingerRoom };
  };

  const tryStep: Job['tryStep'] = (way, done) => {
    const { hold } = way;
    if (way.always.length > 0) return undefined;
    const least = brake.leastFlange;
    if (least !== undefined) {
      if (reachIn(hold.leaf, done) < least - LENGTH_TOLERANCE || reachIn(hold.clamped, done) < least - LENGTH_TOLERANCE) return undefined;
    }
    const clamped = side(way, 'clamped', done);
    if (clamped.struck) return undefined;
    const leaf = side(way, 'leaf', done);
    if (leaf.struck) return undefined;
    const { fits, hangsOff, fingers, fingersFit } = room(way, clamped, leaf);
    if (!fits || !fingersFit || tooDeep(way, done) !== undefined) return undefined;
    const { passes, tilt, back } = jaw(way, done);
    if (!passes || way.itself(done) !== undefined) return undefined;
    return { fingers, hangsOff, tiltIn: tilt, fromBack: back };
  };

  return { blank, brake, sheet, pieces, operations, ways, tryStep, clearOf, side, room, jaw, tooDeep };
};
