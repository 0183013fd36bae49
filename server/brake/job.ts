/**
 * Everything about one part on one brake that the search asks over and over, remembered: what a piece of sheet meets depends only on the bends between it and the
 * face that is held, so it is worked out once for each state of those.
 */
import type { Blank } from '../blank/types.js';
import type { Brake, Sheet, Trial } from '../model/shop.js';
import type { Convex } from '../shape/convex.js';
import { type Clasher, clasher, type Meeting, swung, type Which } from './clash.js';
import { chooseFingers, gapsAreNarrow } from './fingers.js';
import { type Half, type Hold, holdOf, type Member, reachIn } from './hold.js';
import { crossing, type Joint, type Operation, type Pieces, piecesOf, type Slab, shareIn } from './pieces.js';
import { type Extent, extentOf, seenAlong, slabsIn } from './section.js';
import { staticFaults } from './static.js';
import { type Tools, toolsOf } from './tools.js';
import { type TurnToSet, turnsOf } from './turns.js';
import type { ChosenFingers, Obstacle, Side } from './types.js';

const LENGTH_TOLERANCE = 0.001;
/** A clamped side that stands up once, no further than about square, goes in tilted. Common practice, no source. */
const TILTS = (91 * Math.PI) / 180;

/** How a group of tools stands to a piece: struck between the bend's ends, or free as far as these places to the left and right. */
interface Clear {
  readonly struck: Meeting | undefined;
  readonly from: number;
  readonly to: number;
}
interface PieceVerdict {
  readonly long: Clear;
  readonly fingers: Clear;
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
  readonly verdicts: readonly [Map<number, SideVerdict>, Map<number, SideVerdict>];
}
export interface Feasible {
  readonly fingers: ChosenFingers | undefined;
  readonly hangsOff: 'left' | 'right' | 'both' | undefined;
  readonly tiltIn: boolean;
  readonly fromBack: boolean;
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
  /** All that stops it in this state. */
  readonly obstacles: (way: Way, done: number) => readonly Obstacle[];
  /** The slabs of a side in a state, for pictures. */
  readonly slabs: (way: Way, half: Half, done: number) => readonly { readonly member: Member; readonly slabs: readonly Slab[] }[];
}
export interface JobInput {
  readonly blank: Blank;
  readonly brake: Brake;
  readonly sheet: Sheet;
  readonly trials: readonly Trial[];
  readonly operations?: readonly Operation[];
}

const FREE: Clear = { struck: undefined, from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
/** How closely the place is found up to which a tool may reach, mm; and by how much a piece that ends just there is left out. */
const CLOSENESS = 0.05;

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
    return { hold, turn: set, wanted, always, tools, clasher: clasher(hold, tools, fingered), verdicts: [new Map(), new Map()] };
  };
  const ways = operations.map((operation, index) => {
    if (operation.make === 'hand') return [];
    return (['parent', 'child'] as const).flatMap((side) => wayOf(operation, index, side) ?? []);
  });

  const meets = (way: Way, half: Half, which: Which, slabs: readonly Slab[], from: number, to: number): Meeting | undefined => {
    const test = half === way.hold.clamped ? way.clasher.clamped : way.clasher.leaf;
    for (const slab of slabs) {
      const section = seenAlong(slab, from, to);
      const meeting = section === undefined ? undefined : test(section, which);
      if (meeting !== undefined) return meeting;
    }
    return undefined;
  };

  const clearOf = (way: Way, half: Half, which: Which, slabs: readonly Slab[], extent: Extent): Clear => {
    const [left, right] = way.hold.ends;
    if (meets(way, half, which, slabs, extent.from, extent.to) === undefined) return FREE;
    const inner = [left + CLOSENESS, right - CLOSENESS] as const;
    const struck = extent.to > inner[0] && extent.from < inner[1] ? meets(way, half, which, slabs, ...inner) : undefined;
    if (struck !== undefined) return { struck, from: left, to: right };
    // Beside the bend: the farthest that a tool may go is where it first meets the piece; more of the piece only meets it more.
    const limit = (inside: number, outside: number): number => {
      const hit = (at: number): boolean => meets(way, half, which, slabs, Math.min(at, inside), Math.max(at, inside)) !== undefined;
      if (!hit(outside)) return inside < outside ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
      let [clear, met] = [inside, outside];
      while (Math.abs(met - clear) > CLOSENESS) {
        const middle = (clear + met) / 2;
        if (hit(middle)) met = middle;
        else clear = middle;
      }
      return clear;
    };
    return {
      struck: undefined,
      from: extent.from < inner[0] ? limit(inner[0], extent.from) : Number.NEGATIVE_INFINITY,
      to: extent.to > inner[1] ? limit(inner[1], extent.to) : Number.POSITIVE_INFINITY,
    };
  };

  const pieceVerdicts = new Map<Member, Map<number, PieceVerdict>>();
  const verdictOf = (way: Way, half: Half, member: Member, done: number): PieceVerdict => {
    const states = pieceVerdicts.get(member) ?? new Map<number, PieceVerdict>();
    pieceVerdicts.set(member, states);
    const known = states.get(done & member.moves);
    if (known !== undefined) return known;
    const slabs = slabsIn(pieces, cross, way.hold, member, done);
    const extent = extentOf(slabs);
    const verdict = {
      long: clearOf(way, half, 'long', slabs, extent),
      fingers: fingered ? clearOf(way, half, 'fingers', slabs, extent) : FREE,
    };
    states.set(done & member.moves, verdict);
    return verdict;
  };

  const sideVerdict = (way: Way, half: Half, done: number): SideVerdict => {
    const memory = way.verdicts[half === way.hold.clamped ? 0 : 1];
    const key = done & half.moves;
    const known = memory.get(key);
    if (known !== undefined) return known;
    let struck = false;
    const long = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
    const fingers = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
    for (const member of half.members) {
      const verdict = verdictOf(way, half, member, done);
      if (verdict.long.struck !== undefined || verdict.fingers.struck !== undefined) {
        struck = true;
        break;
      }
      long.from = Math.max(long.from, verdict.long.from);
      long.to = Math.min(long.to, verdict.long.to);
      fingers.from = Math.max(fingers.from, verdict.fingers.from);
      fingers.to = Math.min(fingers.to, verdict.fingers.to);
    }
    const verdict = { struck, long, fingers };
    memory.set(key, verdict);
    return verdict;
  };

  const slabsOf: Job['slabs'] = (way, half, done) =>
    half.members.map((member) => ({ member, slabs: slabsIn(pieces, cross, way.hold, member, done) }));

  /** Height of a side in the brake, its own sheet included; of the leaf's side also when it is turned. `within` cuts it to a length of the brake. */
  const heightOf = (way: Way, half: Half, done: number, turn: number, within: Extent | undefined): number => {
    let [low, high] = [0, way.hold.thickness];
    for (const { slabs } of slabsOf(way, half, done)) {
      for (const slab of slabs) {
        const section = seenAlong(slab, within?.from ?? Number.NEGATIVE_INFINITY, within?.to ?? Number.POSITIVE_INFINITY);
        const placed = section === undefined || turn === 0 ? section : swung(way.hold, section, turn);
        for (const p of placed ?? []) [low, high] = [Math.min(low, p.y), Math.max(high, p.y)];
      }
    }
    return high - low;
  };
  const jaws = new WeakMap<
    Way,
    Map<number, { readonly passes: boolean; readonly tilt: boolean; readonly back: boolean; readonly height: number }>
  >();
  /** Whether the work gets in and out between nose and bed. */
  const throughJaw = (way: Way, done: number) => {
    const opening = brake.jaw;
    if (opening === undefined) return { passes: true, tilt: false, back: false, height: 0 };
    const memory = jaws.get(way) ?? new Map<number, { passes: boolean; tilt: boolean; back: boolean; height: number }>();
    jaws.set(way, memory);
    const key = done & (way.hold.clamped.moves | way.hold.leaf.moves);
    const known = memory.get(key);
    if (known !== undefined) return known;
    const { hold } = way;
    const within = fingered ? { from: hold.ends[0] + CLOSENESS, to: hold.ends[1] - CLOSENESS } : undefined;
    const height = heightOf(way, hold.clamped, done, 0, within);
    const front = height <= opening + LENGTH_TOLERANCE;
    const tilt = !front && tilts(hold, done) && 4 * hold.thickness + 2 * hold.inside <= opening;
    const back =
      !front &&
      !tilt &&
      heightOf(way, hold.leaf, done, hold.fromTurn, within) <= opening + LENGTH_TOLERANCE &&
      heightOf(way, hold.leaf, done, hold.setTurn, within) <= opening + LENGTH_TOLERANCE;
    const answer = { passes: front || tilt || back, tilt, back, height };
    memory.set(key, answer);
    return answer;
  };
  const tilts = (hold: Hold, done: number): boolean =>
    hold.clamped.members.every(({ path, piece }) => {
      const joints = [...path.map(({ joint }) => joint), ...(piece.bend === undefined ? [] : [piece.bend])];
      const standing = joints
        .map((index) => pieces.joints[index] as Joint)
        .filter((joint) => shareIn(joint, done) > 0 && joint.line.make !== 'hem');
      return standing.length === 0 || (standing.length === 1 && (standing[0] as Joint).line.turn <= TILTS);
    });

  /** The highest of the clamped side beyond the bend's ends: what stands beside the fingers. */
  const besideFingers = (way: Way, done: number): { readonly height: number; readonly feature: string } => {
    let best = { height: 0, feature: '' };
    const [left, right] = way.hold.ends;
    for (const { member, slabs } of slabsOf(way, way.hold.clamped, done)) {
      for (const slab of slabs) {
        for (const p of [...slab.back, ...slab.face])
          if ((p.z < left || p.z > right) && p.y > best.height) best = { height: p.y, feature: member.piece.feature };
      }
    }
    return best;
  };
  const tooDeep = (way: Way, done: number) => {
    if (!fingered || brake.depth === undefined || brake.nose !== undefined) return undefined;
    const { height, feature } = besideFingers(way, done);
    return height > brake.depth + blank.thickness + LENGTH_TOLERANCE
      ? { depth: brake.depth, height: height - blank.thickness, feature }
      : undefined;
  };

  const fingersKnown = new Map<string, ChosenFingers | undefined>();
  const fingersFor = (bend: number, room: number): ChosenFingers | undefined => {
    const key = `${bend.toFixed(3)}:${room.toFixed(2)}`;
    if (!fingersKnown.has(key)) fingersKnown.set(key, chooseFingers(brake.fingers, bend, room));
    return fingersKnown.get(key);
  };
  const alongBrake = (way: Way, clamped: SideVerdict, leaf: SideVerdict) => {
    const [left, right] = way.hold.ends;
    const from = Math.max(clamped.long.from, leaf.long.from);
    const to = Math.min(clamped.long.to, leaf.long.to);
    const length = brake.length ?? Number.POSITIVE_INFINITY;
    const fits = to - from >= length - LENGTH_TOLERANCE || (!Number.isFinite(from) && !Number.isFinite(to));
    const hangsOff: Feasible['hangsOff'] = Number.isFinite(from)
      ? Number.isFinite(to)
        ? 'both'
        : 'left'
      : Number.isFinite(to)
        ? 'right'
        : undefined;
    return { fits: fits || !Number.isFinite(from) !== !Number.isFinite(to), from, to, hangsOff, bend: right - left };
  };
  const fingerRoom = (clamped: SideVerdict, leaf: SideVerdict): number =>
    Math.min(clamped.fingers.to, leaf.fingers.to, clamped.long.to, leaf.long.to) -
    Math.max(clamped.fingers.from, leaf.fingers.from, clamped.long.from, leaf.long.from);

  const tryStep: Job['tryStep'] = (way, done) => {
    const { hold } = way;
    if (way.always.length > 0) return undefined;
    const least = brake.leastFlange;
    if (least !== undefined) {
      if (reachIn(hold.leaf, done) < least - LENGTH_TOLERANCE || reachIn(hold.clamped, done) < least - LENGTH_TOLERANCE) return undefined;
    }
    const clamped = sideVerdict(way, hold.clamped, done);
    if (clamped.struck) return undefined;
    const leaf = sideVerdict(way, hold.leaf, done);
    if (leaf.struck) return undefined;
    const along = alongBrake(way, clamped, leaf);
    if (!along.fits) return undefined;
    let fingers: ChosenFingers | undefined;
    if (fingered && brake.fingers.length > 0) {
      fingers = fingersFor(along.bend, fingerRoom(clamped, leaf));
      if (fingers === undefined || !gapsAreNarrow(fingers)) return undefined;
    } else if (fingered && Number.isFinite(fingerRoom(clamped, leaf))) return undefined;
    if (tooDeep(way, done) !== undefined) return undefined;
    const jaw = throughJaw(way, done);
    if (!jaw.passes) return undefined;
    return { fingers, hangsOff: along.hangsOff, tiltIn: jaw.tilt, fromBack: jaw.back };
  };

  const touchesOf = (way: Way, half: Half, done: number): readonly Obstacle[] => {
    const found = new Map<string, Extract<Obstacle, { kind: 'touch' }>>();
    const name = half === way.hold.clamped ? 'clamped' : 'leaf';
    const [left, right] = [way.hold.ends[0] + CLOSENESS, way.hold.ends[1] - CLOSENESS];
    for (const { member, slabs } of slabsOf(way, half, done)) {
      for (const slab of slabs) {
        const section = seenAlong(slab, left, right);
        if (section === undefined) continue;
        for (const which of fingered ? (['long', 'fingers'] as const) : (['long'] as const)) {
          const meeting = way.clasher[name](section, which);
          if (meeting === undefined) continue;
          const { depth, at } = way.clasher.deepest(name, section, meeting);
          const key = `${member.piece.feature}:${meeting.tool}`;
          const before = found.get(key);
          const from = Math.min(before?.from ?? Number.POSITIVE_INFINITY, meeting.from);
          const deeper = before !== undefined && before.depth > depth ? before : { depth, at };
          const { feature } = member.piece;
          found.set(key, { kind: 'touch', feature, tool: meeting.tool, from, at: deeper.at, depth: deeper.depth });
        }
      }
    }
    return [...found.values()].sort((a, b) => a.from - b.from || b.depth - a.depth);
  };
  /** Which piece ends the room beside the bend. */
  const besideOf = (way: Way, done: number, which: Which): { readonly feature: string; readonly tool: Meeting['tool'] } => {
    let nearest = { feature: '', tool: 'nose' as Meeting['tool'], away: Number.POSITIVE_INFINITY };
    const [left, right] = way.hold.ends;
    for (const half of [way.hold.clamped, way.hold.leaf]) {
      for (const member of half.members) {
        const clear = verdictOf(way, half, member, done)[which];
        const away = Math.min(left - clear.from, clear.to - right);
        if (away >= nearest.away) continue;
        const slabs = slabsIn(pieces, cross, way.hold, member, done);
        const extent = extentOf(slabs);
        const meeting = meets(way, half, which, slabs, extent.from, extent.to);
        nearest = { feature: member.piece.feature, tool: meeting?.tool ?? 'nose', away };
      }
    }
    return nearest;
  };

  const obstacles: Job['obstacles'] = (way, done) => {
    const { hold } = way;
    const all: Obstacle[] = [...way.always];
    const least = brake.leastFlange;
    if (least !== undefined) {
      for (const [where, half] of [
        ['leaf', hold.leaf],
        ['clamp', hold.clamped],
      ] as const) {
        const reach = reachIn(half, done);
        if (reach < least - LENGTH_TOLERANCE) all.push({ kind: 'grip', where, least, reach });
      }
    }
    all.push(...touchesOf(way, hold.clamped, done), ...touchesOf(way, hold.leaf, done));
    const clamped = sideVerdict(way, hold.clamped, done);
    const leaf = sideVerdict(way, hold.leaf, done);
    if (!clamped.struck && !leaf.struck) {
      const along = alongBrake(way, clamped, leaf);
      if (!along.fits)
        all.push({ kind: 'beside', ...besideOf(way, done, 'long'), clear: along.to - along.from, needs: brake.length ?? along.bend });
      const room = fingerRoom(clamped, leaf);
      if (fingered && along.fits) {
        const fingers = brake.fingers.length === 0 ? undefined : fingersFor(along.bend, room);
        if (fingers === undefined ? brake.fingers.length > 0 || Number.isFinite(room) : !gapsAreNarrow(fingers)) {
          const best = fingers?.widths.reduce((sum, width) => sum + width, 0) ?? 0;
          all.push({ kind: 'fingers', room, bend: along.bend, best, gap: fingers?.gap ?? along.bend });
        }
      }
    }
    const deep = tooDeep(way, done);
    if (deep !== undefined) all.push({ kind: 'depth', ...deep });
    const jaw = throughJaw(way, done);
    if (!jaw.passes && brake.jaw !== undefined) all.push({ kind: 'jaw', opening: brake.jaw, height: jaw.height });
    return all;
  };

  return { blank, brake, sheet, pieces, operations, ways, tryStep, obstacles, slabs: slabsOf };
};

export type { Convex };
