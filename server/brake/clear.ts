/**
 * How far the tools may reach along the brake before they meet the part. What a piece of sheet meets depends only on the bends between it and the face that is held,
 * so it is worked out once for each state of those, and so again for each branch and each side.
 */
import type { Convex } from '../shape/convex.js';
import type { Clasher, HalfName, Meeting, Which } from './clash.js';
import type { Half, Hold, Member, Node } from './hold.js';
import { type Circle, type Extent, type Placed, type Placing, seenAlong } from './section.js';
import { remembered } from './steps.js';

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
export interface BothClear {
  readonly long: Clear;
  readonly fingers: Clear;
}
export interface SideVerdict {
  readonly struck: boolean;
  readonly long: Extent;
  readonly fingers: Extent;
}
export interface Clearance {
  readonly placed: (member: Member, done: number) => Placed;
  readonly circle: (member: Member, done: number) => Circle;
  readonly clearOf: (name: HalfName, member: Member, done: number) => BothClear;
  readonly side: (name: HalfName, done: number) => SideVerdict;
}

const FREE: Clear = { struck: undefined, from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
const BOTH_FREE: BothClear = { long: FREE, fingers: FREE };
const EVERYWHERE: Extent = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
const NOTHING_MET: SideVerdict = { struck: false, long: EVERYWHERE, fingers: EVERYWHERE };
const STRUCK: SideVerdict = { struck: true, long: EVERYWHERE, fingers: EVERYWHERE };

export const halfOf = (hold: Hold, name: HalfName): Half => (name === 'clamped' ? hold.clamped : hold.leaf);

/** @param fingered the nose is only as long as the fingers chosen */
export const clearanceOf = (hold: Hold, clasher: Clasher, placing: Placing, fingered: boolean): Clearance => {
  const placed = remembered(placing.placed);
  const { circle } = placing;
  const clearAs = {
    clamped: remembered((member: Member, done) => clearNow('clamped', member, done)),
    leaf: remembered((member: Member, done) => clearNow('leaf', member, done)),
  };
  const clearNow = (name: HalfName, member: Member, done: number): BothClear => {
    const around = circle(member, done);
    if (!clasher.mayMeet(name, around, 'long') && !(fingered && clasher.mayMeet(name, around, 'fingers'))) return BOTH_FREE;
    const there = placed(member, done);
    const long = groupClear(hold, clasher, name, 'long', there);
    const fingers = fingered && long.struck === undefined ? groupClear(hold, clasher, name, 'fingers', there) : FREE;
    return long === FREE && fingers === FREE ? BOTH_FREE : { long, fingers };
  };
  /** Of the pieces on the way to a node of the tree, itself included. */
  const wayTo = (name: HalfName) => {
    const own = remembered((node: Node, done: number): SideVerdict => {
      let verdict = node.before === undefined ? NOTHING_MET : own(node.before, done);
      for (const member of node.members) {
        if (verdict === STRUCK) return STRUCK;
        const clear = clearAs[name](member, done);
        if (clear === BOTH_FREE) continue;
        if (clear.long.struck !== undefined || clear.fingers.struck !== undefined) return STRUCK;
        verdict = bothOf(verdict, { struck: false, ...clear });
      }
      return verdict;
    });
    return own;
  };
  const sideOf = (name: HalfName) => {
    const verdictAt = wayTo(name);
    return remembered((half: Half, done) => {
      let verdict = NOTHING_MET;
      for (const end of half.ends) {
        const own = verdictAt(end, done);
        if (own === STRUCK) return STRUCK;
        verdict = bothOf(verdict, own);
      }
      return verdict;
    });
  };
  const sideAs = { clamped: sideOf('clamped'), leaf: sideOf('leaf') };
  return {
    placed,
    circle,
    clearOf: (name, member, done) => clearAs[name](member, done),
    side: (name, done) => sideAs[name](halfOf(hold, name), done),
  };
};

const bothOf = (a: SideVerdict, b: SideVerdict): SideVerdict => {
  if (a === NOTHING_MET || b === NOTHING_MET) return a === NOTHING_MET ? b : a;
  return {
    struck: false,
    long: { from: Math.max(a.long.from, b.long.from), to: Math.min(a.long.to, b.long.to) },
    fingers: { from: Math.max(a.fingers.from, b.fingers.from), to: Math.min(a.fingers.to, b.fingers.to) },
  };
};

const groupClear = (hold: Hold, clasher: Clasher, name: HalfName, which: Which, placed: Placed): Clear => {
  if (clasher.first(name, placed.hull(), which) === undefined) return FREE;
  const meeting = (section: Convex): Meeting | undefined => clasher.first(name, section, which);
  if (!placed.sections().some((section) => meeting(section) !== undefined)) return FREE;
  const [left, right] = hold.ends;
  // Fingers may leave a little of the ends bare, so for them only the middle must be clear.
  const middle = (left + right) / 2;
  const span = which === 'fingers' ? Math.min(MIDDLE, right - left) : right - left;
  const [from, to] = [middle - span / 2 + CLOSENESS, middle + span / 2 - CLOSENESS];
  const slabs = placed.slabs();
  const meets = (low: number, high: number): Meeting | undefined => {
    for (const slab of slabs) {
      const section = seenAlong(slab, low, high);
      const found = section === undefined ? undefined : meeting(section);
      if (found !== undefined) return found;
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
