/** Whether the part strikes itself while the leaf swings: faces that go with the leaf against faces in the clamp. */
import { type Around, anglesMeet, around, type Convex, hullOf, slid } from '../shape/convex.js';
import type { Point } from '../shape/path.js';
import { ringOf, sweepOnto } from './clash.js';
import type { Clearance } from './clear.js';
import type { Branch, Half, Hold, Member } from './hold.js';
import type { Pieces, Slab } from './pieces.js';
import { type Crossing, extentOf, type Placed, placing, seenAlong } from './section.js';
import { remembered } from './steps.js';

/**
 * Faces are drawn in by this much, and judged up to the wanted turn and not the over-bent one: corners that close without a gap touch as they should, and
 * sheet gives by as much. mm. Common practice, no source.
 */
const GIVE = 0.15;
/** Length of the brake within which two sections that meet count as meeting at one place, mm. */
const SLICE = 0.2;

export interface ItselfMeeting {
  readonly leaf: string;
  readonly clamped: string;
  readonly from: number;
}
interface Stretch {
  readonly low: number;
  readonly high: number;
}
/** A face in one state, and how it lies around the bend's middle. */
interface Lying {
  readonly placed: Placed;
  readonly around: readonly Around[];
}

export interface ItselfInput {
  readonly pieces: Pieces;
  readonly crossing: Crossing;
  readonly hold: Hold;
  /** Turn that the bend is to have, rad. */
  readonly wanted: number;
  readonly clearance: Clearance;
}

/** For one hold: the first meeting in a state, and only of faces that are apart in the finished part; those that are not, the folded part tells of. */
export const itselfChecker = (input: ItselfInput): ((done: number) => ItselfMeeting | undefined) => {
  const { pieces, crossing, hold, wanted, clearance } = input;
  const thin: Pieces = { ...pieces, thickness: Math.max(0.1, pieces.thickness - 2 * GIVE) };
  const drawnIn = (half: Half): readonly Member[] =>
    half.members.flatMap((member) => {
      if (member.piece.bend !== undefined) return [];
      const convex = member.piece.convex.map(inset).filter((corners) => corners.length > 2);
      return convex.length === 0 ? [] : [{ ...member, piece: { ...member.piece, convex } }];
    });
  const [leaves, clampeds] = [drawnIn(hold.leaf), drawnIn(hold.clamped)];
  const place = placing(thin, crossing, hold).placed;
  const all = 2 ** pieces.operations.length - 1;
  // With all that the leaf's side creeps by, and before it is turned, so that turning it is all that is left.
  const crept = (section: Convex, ofLeaf: boolean): Convex => (ofLeaf ? slid(section, -hold.allowance) : section);
  const lyingOf = (ofLeaf: boolean) =>
    remembered((member: Member, done): Lying => {
      const placed = place(member, done);
      return { placed, around: placed.sections().map((section) => around(crept(section, ofLeaf), hold.about)) };
    });
  const lying = { leaf: lyingOf(true), clamped: lyingOf(false) };
  /** Could they meet, by their distances and angles about the bend's middle alone? */
  const mayMeet = (leaf: Lying, clamped: Lying): boolean => {
    if (leaf.placed.extent.to <= clamped.placed.extent.from || clamped.placed.extent.to <= leaf.placed.extent.from) return false;
    return leaf.around.some((a) =>
      clamped.around.some(
        (b) => a.far >= b.near && b.far >= a.near && anglesMeet(a.start + hold.fromTurn, swept(a.width), b.start, b.width),
      ),
    );
  };
  const swept = (width: number): number => Math.min(2 * Math.PI, width + wanted - hold.fromTurn);

  /** The angles that a whole side takes up about the bend's middle, as a stretch around `centre`; by circles round its pieces, or closer. */
  const stretchOf = (name: 'leaf' | 'clamped', closely: boolean) => {
    const centre = name === 'leaf' ? 0 : Math.PI;
    const angles = (member: Member, done: number): Pick<Around, 'start' | 'width'> => {
      if (closely) return around(crept(clearance.placed(member, done).hull(), name === 'leaf'), hold.about);
      const creep = name === 'leaf' ? hold.allowance / 2 : 0;
      return ringOf(clearance.circle(member, done), hold.about, -creep, creep);
    };
    const ofMember = remembered((member: Member, done): Stretch => {
      const { start, width } = angles(member, done);
      const middle = start + width / 2;
      const nearest = middle - 2 * Math.PI * Math.round((middle - centre) / (2 * Math.PI));
      return { low: nearest - width / 2, high: nearest + width / 2 };
    });
    const ofBranch = remembered((branch: Branch, done): Stretch => {
      let [low, high] = [centre, centre];
      for (const member of branch.members) {
        if (member.piece.bend !== undefined) continue;
        const own = ofMember(member, done);
        if (own.low < low) low = own.low;
        if (own.high > high) high = own.high;
      }
      return { low, high };
    });
    return (done: number): Stretch => {
      let [low, high] = [centre, centre];
      for (const branch of hold[name].branches) {
        const own = ofBranch(branch, done);
        low = Math.min(low, own.low);
        high = Math.max(high, own.high);
      }
      return { low, high };
    };
  };
  const stretches = [false, true].map((closely) => ({ leaf: stretchOf('leaf', closely), clamped: stretchOf('clamped', closely) }));
  const sidesMayMeet = (done: number): boolean =>
    stretches.every(({ leaf, clamped }) => {
      const [swings, stays] = [leaf(done), clamped(done)];
      const width = (one: Stretch): number => Math.min(2 * Math.PI, one.high - one.low);
      return anglesMeet(swings.low + hold.fromTurn, swept(width(swings)), stays.low, width(stays));
    });

  const meet = (a: Placed, b: Placed, from: number): number | undefined => {
    for (const one of a.slabs()) {
      for (const other of b.slabs()) {
        const [left, right] = [extentOf([one]), extentOf([other])];
        const first = meetWithin(one, other, Math.max(left.from, right.from), Math.min(left.to, right.to), from);
        if (first !== undefined) return first;
      }
    }
    return undefined;
  };
  /** Along the brake nothing moves, so two slabs meet exactly when their sections at one place do: stretches in which they don't are left out by halves. */
  const meetWithin = (a: Slab, b: Slab, left: number, right: number, from: number): number | undefined => {
    if (right <= left) return undefined;
    const [one, other] = [seenAlong(a, left, right), seenAlong(b, left, right)];
    if (one === undefined || other === undefined) return undefined;
    const first = sweepOnto(hold, one, around(other, hold.about), from, wanted);
    if (first === undefined || right - left < SLICE || (isExtruded(a) && isExtruded(b))) return first;
    const middle = (left + right) / 2;
    return meetWithin(a, b, left, middle, from) ?? meetWithin(a, b, middle, right, from);
  };

  const pairs = new Map<Member, Map<Member, Map<number, number>>>();
  const pairMeets = (leaf: Member, clamped: Member, done: number): number | undefined => {
    const [a, b] = [lying.leaf(leaf, done), lying.clamped(clamped, done)];
    if (!mayMeet(a, b)) return undefined;
    const byOther = pairs.get(leaf) ?? new Map<Member, Map<number, number>>();
    pairs.set(leaf, byOther);
    const states = byOther.get(clamped) ?? new Map<number, number>();
    byOther.set(clamped, states);
    const key = done & (leaf.moves | clamped.moves);
    const answer = states.get(key) ?? meet(a.placed, b.placed, hold.fromTurn) ?? -1;
    states.set(key, answer);
    return answer < 0 ? undefined : answer;
  };
  const meetsWhenFinished = (leaf: Member, clamped: Member): boolean =>
    meet(lying.leaf(leaf, all).placed, lying.clamped(clamped, all).placed, wanted) !== undefined;

  return (done) => {
    // Two flat sides can't meet.
    if ((done & (hold.leaf.moves | hold.clamped.moves)) === 0) return undefined;
    if (!sidesMayMeet(done)) return undefined;
    for (const leaf of leaves) {
      for (const clamped of clampeds) {
        if ((done & (leaf.moves | clamped.moves)) === 0 || (leaf.path.length === 0 && clamped.path.length === 0)) continue;
        const from = pairMeets(leaf, clamped, done);
        if (from === undefined || meetsWhenFinished(leaf, clamped)) continue;
        return { leaf: leaf.piece.feature, clamped: clamped.piece.feature, from };
      }
    }
    return undefined;
  };
};

/** The same section all along the brake: two ends square to it. */
const isExtruded = (slab: Slab): boolean => {
  const { from, to } = extentOf([slab]);
  return (
    [...slab.back, ...slab.face].every((p) => p.z - from < 1e-6 || to - p.z < 1e-6) &&
    slab.back.every((p, i) => Math.abs(p.z - (slab.face[i]?.z ?? p.z)) < 1e-6)
  );
};

/** A convex polygon less a margin along its edges. */
const inset = (corners: readonly Point[]): readonly Point[] => {
  let left: readonly Point[] = corners;
  for (const [i, p] of corners.entries()) {
    const q = corners[(i + 1) % corners.length] ?? p;
    const length = Math.hypot(q.x - p.x, q.y - p.y);
    if (length < 1e-12) continue;
    const [nx, ny] = [-(q.y - p.y) / length, (q.x - p.x) / length];
    const inner = (r: Point): number => (r.x - p.x) * nx + (r.y - p.y) * ny - GIVE;
    const kept: Point[] = [];
    for (const [k, a] of left.entries()) {
      const b = left[(k + 1) % left.length] ?? a;
      const [da, db] = [inner(a), inner(b)];
      if (da >= 0) kept.push(a);
      if ((da > 0 && db < 0) || (da < 0 && db > 0)) {
        const share = da / (da - db);
        kept.push({ x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) });
      }
    }
    left = kept;
  }
  return hullOf(left);
};
