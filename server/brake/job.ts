/** Everything about one part on one brake that the search asks over and over, remembered. */
import type { Blank } from '../blank/types.js';
import type { Brake, Sheet, Trial } from '../model/shop.js';
import type { Convex } from '../shape/convex.js';
import { type Clasher, clasher, type HalfName, swung } from './clash.js';
import { type Clearance, clearanceOf, halfOf, type SideVerdict } from './clear.js';
import { chooseFingers, gapsAreNarrow } from './fingers.js';
import { type Hold, holdOf, reachIn } from './hold.js';
import { type ItselfMeeting, itselfChecker } from './itself.js';
import { type Along, type Jaw, type JawChecker, jawOf, MOST_WAYS, type Passes } from './jaw.js';
import { crossing, type Operation, type Pieces, piecesOf } from './pieces.js';
import { type Extent, placing } from './section.js';
import { staticFaults } from './static.js';
import { LENGTH_TOLERANCE, type Tools, toolsOf } from './tools.js';
import { type TurnToSet, turnsOf } from './turns.js';
import type { ChosenFingers, Obstacle, Side } from './types.js';

export interface Way {
  readonly hold: Hold;
  readonly turn: TurnToSet;
  readonly wanted: number;
  /** What stands against it in any state. */
  readonly always: readonly Obstacle[];
  readonly tools: Tools;
  readonly clasher: Clasher;
  readonly clearance: Clearance;
  readonly itself: (done: number) => ItselfMeeting | undefined;
  readonly jaw: JawChecker;
}
export interface Feasible {
  readonly fingers: ChosenFingers | undefined;
  readonly hangsOff: 'left' | 'right' | 'both' | undefined;
  readonly jaw: Jaw;
}
/** How both sides together leave room along the brake. */
export interface Room {
  readonly fits: boolean;
  readonly free: Extent;
  readonly hangsOff: Feasible['hangsOff'];
  readonly fingers: ChosenFingers | undefined;
  readonly fingersFit: boolean;
  readonly fingerRoom: number;
  /** Where fingers may stand along the brake; everywhere on a leaf brake. */
  readonly fingerSpan: Extent;
}
export interface Job {
  readonly blank: Blank;
  readonly brake: Brake;
  readonly sheet: Sheet;
  readonly pieces: Pieces;
  readonly operations: readonly Operation[];
  /** By operation: the ways of holding it, parent's side clamped, then child's. Empty for handwork. */
  readonly ways: readonly (readonly Way[])[];
  /** Whether it may go in this state: all but the part's striking itself, and getting it into the brake and out of it. `done` is a set of operations. */
  readonly mayGo: (way: Way, done: number) => boolean;
  /** Whether it goes in this state. */
  readonly goes: (way: Way, done: number) => boolean;
  /** The same, past the nose by any way that is found; and whether all were looked for that were asked about. */
  readonly goesSomehow: (way: Way, done: number) => boolean;
  readonly lookedForAll: () => boolean;
  /** Whether `goes` has refused anything for the jaw alone. */
  readonly refusedByJaw: () => boolean;
  /** How it goes in this state, or undefined when something stops it. */
  readonly tryStep: (way: Way, done: number) => Feasible | undefined;
  /** Questions that `tryStep` asks, for telling what stops it. */
  readonly room: (way: Way, clamped: SideVerdict, leaf: SideVerdict) => Room;
  readonly tooDeep: (way: Way, done: number) => Extract<Obstacle, { kind: 'depth' }> | undefined;
}
export interface JobInput {
  readonly blank: Blank;
  readonly brake: Brake;
  readonly sheet: Sheet;
  readonly trials: readonly Trial[];
  readonly operations?: readonly Operation[];
}

export const alongOf = ({ hangsOff, fingerSpan }: Room): Along => ({ hangsOff, fingers: fingerSpan });

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
  const waysOutKnown = new Map<string, Passes | undefined>();

  const wayOf = (operation: Operation, index: number, side: Side): Way | undefined => {
    const bend = blank.bends[operation.bends[0] ?? -1];
    if (bend === undefined) return undefined;
    const { from, wanted, set } = turnsOf(operation, bend, sheet, brake, trials);
    const hold = holdOf(pieces, index, side, { from, set: Math.max(set.set, from + 1e-6) });
    if (hold === undefined) return undefined;
    const tools = toolsFor(bend.radius);
    const clashes = clasher(hold, tools, fingered);
    const clearance = clearanceOf(hold, clashes, placing(pieces, cross, hold), fingered);
    const jaw = { brake, pieces, hold, wanted, tools, clearance, known: waysOutKnown };
    return {
      hold,
      turn: set,
      wanted,
      always: staticFaults(brake, sheet, blank.thickness, bend, operation, set.set),
      tools,
      clasher: clashes,
      clearance,
      itself: itselfChecker({ pieces, crossing: cross, hold, wanted, clearance }),
      jaw: jawOf(jaw, brake.jaw),
    };
  };
  const ways = operations.map((operation, index) => {
    if (operation.make === 'hand') return [];
    return (['parent', 'child'] as const).flatMap((side) => wayOf(operation, index, side) ?? []);
  });

  const tooDeep: Job['tooDeep'] = (way, done) => {
    if (!fingered || brake.depth === undefined || brake.nose !== undefined) return undefined;
    const [left, right] = way.hold.ends;
    let best = { height: 0, feature: '' };
    const consider = (name: HalfName, turn: number): void => {
      for (const member of halfOf(way.hold, name).members) {
        const placed = way.clearance.placed(member, done);
        if (placed.extent.from >= left && placed.extent.to <= right) continue;
        for (const section of placed.sections()) {
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

  const fingersKnown = new Map<number, Map<number, ChosenFingers | undefined>>();
  const fingersFor = (bend: number, space: number): ChosenFingers | undefined => {
    const spaces = fingersKnown.get(bend) ?? new Map<number, ChosenFingers | undefined>();
    fingersKnown.set(bend, spaces);
    const known = spaces.get(space);
    if (known !== undefined || spaces.has(space)) return known;
    const made = chooseFingers(brake.fingers, bend, space);
    spaces.set(space, made);
    return made;
  };
  const room: Job['room'] = ({ hold }, clamped, leaf) => {
    const free = { from: Math.max(clamped.long.from, leaf.long.from), to: Math.min(clamped.long.to, leaf.long.to) };
    const [boundLeft, boundRight] = [Number.isFinite(free.from), Number.isFinite(free.to)];
    // Between two things that stand, the whole brake must fit; past one of them the part hangs off its end.
    const fits = !(boundLeft && boundRight) || free.to - free.from >= (brake.length ?? Number.POSITIVE_INFINITY) - LENGTH_TOLERANCE;
    const hangsOff = boundLeft ? (boundRight ? 'both' : 'left') : boundRight ? 'right' : undefined;
    if (!fingered)
      return { fits, free, hangsOff, fingers: undefined, fingersFit: true, fingerRoom: Number.POSITIVE_INFINITY, fingerSpan: free };
    const from = Math.max(clamped.fingers.from, leaf.fingers.from, free.from);
    const to = Math.min(clamped.fingers.to, leaf.fingers.to, free.to);
    const [fingerRoom, fingerSpan] = [to - from, { from, to }];
    if (brake.fingers.length === 0)
      return { fits, free, hangsOff, fingers: undefined, fingersFit: !Number.isFinite(fingerRoom), fingerRoom, fingerSpan };
    const fingers = fingersFor(hold.ends[1] - hold.ends[0], fingerRoom);
    /** What of the bend no finger can cover, at the end where that is more. */
    const bare = Math.max(0, from - hold.ends[0], hold.ends[1] - to);
    return { fits, free, hangsOff, fingers, fingersFit: fingers !== undefined && gapsAreNarrow(fingers, bare), fingerRoom, fingerSpan };
  };

  const roomIn = (way: Way, done: number): Room | undefined => {
    const { hold, clearance } = way;
    if (way.always.length > 0) return undefined;
    const least = brake.leastFlange;
    if (least !== undefined) {
      if (reachIn(hold.leaf, done) < least - LENGTH_TOLERANCE || reachIn(hold.clamped, done) < least - LENGTH_TOLERANCE) return undefined;
    }
    const clamped = clearance.side('clamped', done);
    if (clamped.struck) return undefined;
    const leaf = clearance.side('leaf', done);
    if (leaf.struck) return undefined;
    const free = room(way, clamped, leaf);
    return free.fits && free.fingersFit && tooDeep(way, done) === undefined ? free : undefined;
  };
  const mayGo: Job['mayGo'] = (way, done) => roomIn(way, done) !== undefined;
  let jawRefused = false;
  const goes: Job['goes'] = (way, done) => {
    const free = roomIn(way, done);
    if (free === undefined || way.itself(done) !== undefined) return false;
    const passes = way.jaw.passes(done, alongOf(free));
    jawRefused ||= !passes;
    return passes;
  };
  const goesSomehow: Job['goesSomehow'] = (way, done) => {
    const free = roomIn(way, done);
    return free !== undefined && way.itself(done) === undefined && way.jaw.passesSomehow(done, alongOf(free));
  };
  const lookedForAll: Job['lookedForAll'] = () => waysOutKnown.size < MOST_WAYS;
  const tryStep: Job['tryStep'] = (way, done) => {
    const free = roomIn(way, done);
    if (free === undefined || way.itself(done) !== undefined) return undefined;
    const { fingers, hangsOff } = free;
    const jaw = way.jaw.passing(done, alongOf(free));
    return jaw.passes ? { fingers, hangsOff, jaw } : undefined;
  };

  return {
    blank,
    brake,
    sheet,
    pieces,
    operations,
    ways,
    mayGo,
    goes,
    goesSomehow,
    lookedForAll,
    refusedByJaw: () => jawRefused,
    tryStep,
    room,
    tooDeep,
  };
};
