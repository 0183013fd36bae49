/** One way of holding the part for one operation: which side lies under the nose, which face is up, and what hangs on either side. */
import type { Direction } from '../model/part.js';
import type { Point } from '../shape/path.js';
import type { Frame } from '../shape/space.js';
import { type Joint, operationsOf, type Piece, type Pieces } from './pieces.js';
import type { Side } from './types.js';

/** A step from one face to the next on the way from the face that is held. */
export interface Step {
  readonly joint: number;
  readonly outward: boolean;
  readonly before: Step | undefined;
  /** Operations that bear on it and on all before it, as a set. */
  readonly moves: number;
}
/** A piece of one side, and the bends between it and the face that is held. */
export interface Member {
  readonly piece: Piece;
  readonly path: readonly Step[];
  /** Operations that move it against the held face, as a set. */
  readonly moves: number;
}
/** The pieces beyond one bend of the held face, or that face alone: they move together, and apart from those of other branches. */
export interface Branch {
  readonly members: readonly Member[];
  /** Operations that move any of them, as a set. */
  readonly moves: number;
}
/** What hangs at one step from the held face, its bend's zone and the face beyond; the first node is the held face itself. */
export interface Node {
  readonly members: readonly Member[];
  readonly before: Node | undefined;
  /** Operations that move any of these or of those before, as a set. */
  readonly moves: number;
}
export interface Half {
  readonly face: number;
  readonly members: readonly Member[];
  readonly branches: readonly Branch[];
  /** The nodes that nothing hangs beyond: the ways to them hold every member. */
  readonly ends: readonly Node[];
  /** Operations that move anything on this side, as a set. */
  readonly moves: number;
  /** Flat distance from the line under the nose to the farthest of this side. */
  readonly extent: number;
  /** What bears on leaf or clamp, by state: `reach` counts while none of `blocks` is done and, where it is given, `when` is. */
  readonly reaches: readonly Reach[];
}
interface Reach {
  readonly reach: number;
  readonly blocks: number;
  readonly when: number;
}
export interface Hold {
  readonly operation: number;
  readonly joint: number;
  readonly side: Side;
  readonly faceUp: boolean;
  readonly clamped: Half;
  readonly leaf: Half;
  /** From the held face's flat coordinates: x toward the leaf, y up, z to the operator's right; left-handed, so only ever read into. */
  readonly machine: Frame;
  /** Direction toward the leaf, in the flat blank. */
  readonly toward: Point;
  /** The bend's ends to the operator's right. */
  readonly ends: readonly [number, number];
  readonly inside: number;
  readonly thickness: number;
  readonly allowance: number;
  /** Middle of the bend in section. */
  readonly about: Point;
  /** How far the leaf has turned when it begins and when it stops, over-bent, rad. */
  readonly fromTurn: number;
  readonly setTurn: number;
}

const other = (side: Side): Side => (side === 'parent' ? 'child' : 'parent');

export const holdOf = (
  pieces: Pieces,
  operation: number,
  side: Side,
  turns: { readonly from: number; readonly set: number },
): Hold | undefined => {
  const done = pieces.operations[operation];
  const index = done?.bends[0];
  const joint = index === undefined ? undefined : pieces.joints[index];
  if (done === undefined || index === undefined || joint === undefined) return undefined;
  const { line } = joint;
  const [near, far] = side === 'parent' ? [line.tangentParent, line.tangentChild] : [line.tangentChild, line.tangentParent];
  const along = unit(line.from, line.to);
  // from → to runs with the parent on its left, so the child's side is to the right.
  const toward = side === 'parent' ? { x: along.y, y: -along.x } : { x: -along.y, y: along.x };
  const faceUp = faceIsUp(line.direction);
  const up = faceUp ? 1 : -1;
  const right = { x: -toward.y * up, y: toward.x * up };
  const { radius: inside } = line;
  const { thickness } = pieces;
  const origin = { x: near[0].x + toward.x * inside, y: near[0].y + toward.y * inside };
  const machine: Frame = {
    origin: { x: origin.x, y: origin.y, z: (-up * thickness) / 2 },
    x: { x: toward.x, y: toward.y, z: 0 },
    y: { x: 0, y: 0, z: up },
    z: { x: right.x, y: right.y, z: 0 },
  };
  const across = (p: Point): number => (p.x - origin.x) * right.x + (p.y - origin.y) * right.y;
  const [a, b] = [across(near[0]), across(near[1])];
  const [held, swung] = side === 'parent' ? [joint.parent, joint.child] : [joint.child, joint.parent];
  const awayFrom = (tangent: Point, sense: 1 | -1) => (p: Point) => sense * ((p.x - tangent.x) * toward.x + (p.y - tangent.y) * toward.y);
  return {
    operation,
    joint: index,
    side,
    faceUp,
    clamped: halfOf(pieces, index, held, awayFrom(near[0], -1), inside),
    leaf: halfOf(pieces, index, swung, awayFrom(far[0], 1), line.allowance - inside),
    machine,
    toward,
    ends: [Math.min(a, b), Math.max(a, b)],
    inside,
    thickness,
    allowance: line.allowance,
    about: { x: -inside, y: thickness + inside },
    fromTurn: turns.from,
    setTurn: turns.set,
  };
};

/** The leaf swings up, so a bend toward the face is made with the face up. */
const faceIsUp = (direction: Direction): boolean => direction === 'up';
export const leafSide = (hold: Hold): Side => other(hold.side);

const unit = (from: Point, to: Point): Point => {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  return length < 1e-12 ? { x: 1, y: 0 } : { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
};

/** Everything that hangs on one face without crossing the joint that is bent. `away` measures from that side's tangent line, flat; `more` from there to the nose's line. */
const halfOf = (pieces: Pieces, held: number, face: number, away: (p: Point) => number, more: number): Half => {
  const paths = new Map<number, Member['path']>([[face, []]]);
  const queue = [face];
  for (const at of queue) {
    for (const index of pieces.at[at] ?? []) {
      const joint = pieces.joints[index];
      if (index === held || joint === undefined) continue;
      const outward = joint.parent === at;
      const next = outward ? joint.child : joint.parent;
      if (paths.has(next)) continue;
      const way = paths.get(at) ?? [];
      const before = way[way.length - 1];
      paths.set(next, [...way, { joint: index, outward, before, moves: operationsOf(joint) | (before?.moves ?? 0) }]);
      queue.push(next);
    }
  }
  const movesOver = (path: Member['path']): number => path.reduce((set, { joint }) => set | operationsOf(pieces.joints[joint] as Joint), 0);
  // Near ones first: they have fewer states and are struck more often.
  const members = pieces.pieces
    .flatMap((piece): Member[] => {
      const path = paths.get(piece.face);
      if (path === undefined || piece.bend === held) return [];
      const bent = piece.bend === undefined ? undefined : pieces.joints[piece.bend];
      return [{ piece, path, moves: movesOver(path) | (bent === undefined ? 0 : operationsOf(bent)) }];
    })
    .sort((a, b) => a.path.length - b.path.length);
  const setback = pieces.joints[held]?.line.setback ?? 0;
  const farthest = (piece: Piece): number => Math.max(0, ...piece.convex.flatMap((corners) => corners.map(away)));
  const reaches: Reach[] = [];
  // A flat face counts as far as its edge; up to a bend that stands, as far as that bend's outside.
  for (const { piece, moves } of members) {
    if (piece.bend === undefined) reaches.push({ reach: farthest(piece) + setback, blocks: moves, when: 0 });
  }
  for (const [at, path] of paths) {
    for (const index of pieces.at[at] ?? []) {
      const joint = pieces.joints[index];
      if (index === held || joint === undefined || path.some((step) => step.joint === index)) continue;
      const tangent = joint.parent === at ? joint.line.tangentParent : joint.line.tangentChild;
      const reach = Math.max(away(tangent[0]), away(tangent[1])) + joint.line.setback + setback;
      reaches.push({ reach, blocks: movesOver(path), when: operationsOf(joint) });
    }
  }
  const ends = endsOf(members, [...paths.values()]);
  const byBend = new Map<number, Member[]>();
  for (const member of members) {
    const bend = member.path[0]?.joint ?? member.piece.bend ?? -1;
    byBend.set(bend, [...(byBend.get(bend) ?? []), member]);
  }
  return {
    face,
    members,
    ends,
    branches: [...byBend.values()].map((own) => ({ members: own, moves: own.reduce((set, { moves }) => set | moves, 0) })),
    moves: members.reduce((set, one) => set | one.moves, 0),
    extent: Math.max(0, ...members.map(({ piece }) => farthest(piece))) + more,
    reaches,
  };
};

const endsOf = (members: readonly Member[], paths: readonly Member['path'][]): readonly Node[] => {
  const byBend = new Map<number | undefined, Member[]>();
  for (const member of members) {
    // A zone that is reached from its own bend's near side belongs to that bend all the same.
    const bend = member.piece.bend ?? member.path[member.path.length - 1]?.joint;
    byBend.set(bend, [...(byBend.get(bend) ?? []), member]);
  }
  const nodes = new Map<Step | undefined, Node>();
  const nodeAt = (step: Step | undefined): Node => {
    const known = nodes.get(step);
    if (known !== undefined) return known;
    const before = step === undefined ? undefined : nodeAt(step.before);
    const made = { members: byBend.get(step?.joint) ?? [], before, moves: step?.moves ?? 0 };
    nodes.set(step, made);
    return made;
  };
  const all = paths.map((path) => nodeAt(path[path.length - 1]));
  const inner = new Set(all.map(({ before }) => before));
  return all.filter((node) => !inner.has(node));
};

/** How much of a side lies flat beside the bend in a state, from the outside of the bend. mm. */
export const reachIn = (half: Half, done: number): number => {
  let most = 0;
  for (const { reach, blocks, when } of half.reaches) {
    if ((blocks & done) === 0 && (when === 0 || (when & done) !== 0) && reach > most) most = reach;
  }
  return most;
};
