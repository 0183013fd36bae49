/** The part as the brake sees it: pieces of sheet (faces, and bend zones) hung on one another, and the operations that turn the bends between them. */
import type { BendLine, Blank } from '../blank/types.js';
import { type Convex, convexPieces } from '../shape/convex.js';
import { type Hinge, hang, pipeOf, pipeToSpace } from '../shape/hinges.js';
import { tessellate } from '../shape/index.js';
import type { Point } from '../shape/path.js';
import { type Frame, inverse, pointFrom, pointInto, type Vector, WORLD } from '../shape/space.js';

/** What is done at one go: a bend of the brake, a hem (turned, then pressed), or handwork. */
export interface Operation {
  readonly step: string;
  readonly make: 'brake' | 'hem' | 'hand';
  /** Indices of the blank's bends that it turns. */
  readonly bends: readonly number[];
  readonly fromShare: number;
  readonly toShare: number;
  /** Operations that must be done before, as a set. */
  readonly after: number;
}
/** One piece of sheet, flat. */
export interface Piece {
  /** `face:top.1`, `bend:top.1`. */
  readonly feature: string;
  /** Index of the face it lies in or hangs at. */
  readonly face: number;
  /** Of a bend zone: index of its bend. */
  readonly bend: number | undefined;
  readonly convex: readonly Convex[];
}
export interface Joint {
  readonly line: BendLine;
  readonly hinge: Hinge;
  /** Index in `faces` of its two sides. */
  readonly parent: number;
  readonly child: number;
  /** Operations that turn it, in their order, with the share each leaves. */
  readonly turnedBy: readonly { readonly operation: number; readonly share: number }[];
}
export interface Pieces {
  readonly blank: Blank;
  readonly thickness: number;
  /** Ids, also of faces that have no width. */
  readonly faces: readonly string[];
  readonly joints: readonly Joint[];
  readonly operations: readonly Operation[];
  readonly pieces: readonly Piece[];
  /** Joints at each face. */
  readonly at: readonly (readonly number[])[];
}

/** How finely arcs of outlines are followed, and bend zones: the sheet stands out by no more than this. mm. */
const FINENESS = 0.05;

/**
 * One operation for each written step: a joggle's two bends go together. A double hem is two: its inner fold is a hem like any other, the outer one is then
 * turned over by hand, since the doubled edge lies where the nose would have to stand.
 */
const plainOperations = (blank: Blank): readonly Operation[] => {
  const byStep = new Map<string, number[]>();
  for (const [i, bend] of blank.bends.entries()) {
    const key = bend.make === 'hem' ? bend.id : bend.step;
    byStep.set(key, [...(byStep.get(key) ?? []), i]);
  }
  const steps = [...byStep];
  return steps.map(([step, bends]) => {
    const bend = blank.bends[bends[0] ?? 0];
    const inner = bend?.make === 'hem' ? blank.bends.find((other) => other.step === bend.step && other.parent === bend.child) : undefined;
    const make = bend?.make === 'turn' ? 'brake' : bend?.make === 'hem' && inner === undefined ? 'hem' : 'hand';
    const before = steps.findIndex(([id]) => id === inner?.id);
    return { step, make, bends, fromShare: 0, toShare: 1, after: before < 0 ? 0 : 1 << before };
  });
};

/** The same with one bend made in two goes: first to `share`, the rest at any later time. */
export const inTwoGoes = (operations: readonly Operation[], which: number, share: number): readonly Operation[] => {
  const whole = operations[which];
  if (whole === undefined) return operations;
  const first = operations.map((one, i) => (i === which ? { ...whole, toShare: share } : one));
  return [...first, { ...whole, fromShare: share, after: whole.after | (1 << which) }];
};

export const piecesOf = (blank: Blank, operations: readonly Operation[] = plainOperations(blank)): Pieces => {
  const faces: string[] = [];
  const indexOf = (id: string): number => {
    const known = faces.indexOf(id);
    return known >= 0 ? known : faces.push(id) - 1;
  };
  for (const face of blank.faces) indexOf(face.id);
  const joints = blank.bends.map((line, index): Joint => {
    const turnedBy = operations
      .flatMap((one, operation) => (one.bends.includes(index) ? [{ operation, share: one.toShare }] : []))
      .sort((a, b) => a.share - b.share);
    return { line, hinge: hingeOf(line, blank.thickness), parent: indexOf(line.parent), child: indexOf(line.child), turnedBy };
  });
  const at = faces.map((_, face) => joints.flatMap((joint, i) => (joint.parent === face || joint.child === face ? [i] : [])));
  const pieces = [
    ...blank.faces.map((face): Piece => piece(`face:${face.id}`, indexOf(face.id), undefined, tessellate(face.polygon, FINENESS))),
    ...joints.map((joint, i): Piece => piece(`bend:${joint.line.id}`, joint.parent, i, tessellate(joint.line.zone, FINENESS))),
  ].filter((one) => one.convex.length > 0);
  return { blank, thickness: blank.thickness, faces, joints, operations, pieces, at };
};

const piece = (feature: string, face: number, bend: number | undefined, polygon: readonly Point[]): Piece => ({
  feature,
  face,
  bend,
  convex: convexPieces(polygon),
});

const hingeOf = (bend: BendLine, thickness: number): Hinge => ({
  id: bend.id,
  parent: bend.parent,
  child: bend.child,
  tangentParent: bend.tangentParent,
  turn: bend.direction === 'up' ? bend.turn : -bend.turn,
  allowance: bend.allowance,
  thickness,
  k: bend.k,
});

/** The share of its turn that a bend has in a state. */
export const shareIn = (joint: Joint, done: number): number => {
  let share = 0;
  for (const by of joint.turnedBy) if ((done & (1 << by.operation)) !== 0) share = by.share;
  return share;
};
/** The operations that bear on a bend, as a set. */
export const operationsOf = (joint: Joint): number => joint.turnedBy.reduce((set, by) => set | (1 << by.operation), 0);

/** From the child's flat coordinates to the parent's, the bend turned by a share. */
const acrossJoint = (joint: Joint, share: number): Frame =>
  share === 0 ? WORLD : (hang(joint.line.parent, [joint.hinge], () => share).frames.get(joint.line.child) ?? WORLD);

/** The step over a joint, either way, remembered by share. */
export const crossing = (pieces: Pieces): ((joint: number, share: number, outward: boolean) => Frame) => {
  const known = new Map<string, Frame>();
  return (index, share, outward) => {
    const joint = pieces.joints[index];
    if (share === 0 || joint === undefined) return WORLD;
    const key = `${index}:${share}:${outward}`;
    const made = known.get(key) ?? (outward ? acrossJoint(joint, share) : inverse(acrossJoint(joint, share)));
    known.set(key, made);
    return made;
  };
};

/** A slab of sheet in space: its corners on the back and on the face side, in turn round it. */
export interface Slab {
  readonly back: readonly Vector[];
  readonly face: readonly Vector[];
}

/** A flat piece as slabs, in the flat coordinates of its face. */
export const flatSlabs = (one: Piece, thickness: number): readonly Slab[] =>
  one.convex.map((corners) => ({
    back: corners.map((p) => ({ x: p.x, y: p.y, z: -thickness / 2 })),
    face: corners.map((p) => ({ x: p.x, y: p.y, z: thickness / 2 })),
  }));

/** A bend zone as it is bent, in the coordinates of its parent: strips narrow enough that no arc stands out by more than the fineness. */
export const bentSlabs = (one: Piece, joint: Joint, share: number, thickness: number): readonly Slab[] => {
  if (share === 0) return flatSlabs(one, thickness);
  const pipe = pipeOf(joint.hinge, WORLD, share);
  const outer = pipe.inside + thickness;
  const widest = 2 * Math.acos(Math.max(0.5, 1 - FINENESS / outer));
  const strips = Math.max(1, Math.ceil(Math.abs(pipe.turn) / widest));
  const across = joint.hinge.allowance / strips;
  const slabs: Slab[] = [];
  for (const corners of one.convex) {
    const local = corners.map((p) => pointInto(pipe.start, { x: p.x, y: p.y, z: 0 }));
    for (let i = 0; i < strips; i++) {
      const strip = between(local, i * across, (i + 1) * across);
      if (strip.length < 3) continue;
      const at = (height: number): readonly Vector[] => strip.map((p) => pipeToSpace(pipe, p.x, p.y, height));
      slabs.push({ back: at(-thickness / 2), face: at(thickness / 2) });
    }
  }
  return slabs;
};

/** The part of a convex polygon between two lines x = from and x = to. */
const between = (polygon: readonly Point[], from: number, to: number): readonly Point[] => beside(beside(polygon, from, 1), to, -1);
const beside = (polygon: readonly Point[], at: number, sense: 1 | -1): readonly Point[] => {
  const kept: Point[] = [];
  for (const [i, p] of polygon.entries()) {
    const q = polygon[(i + 1) % polygon.length] ?? p;
    const [a, b] = [sense * (p.x - at), sense * (q.x - at)];
    if (a >= 0) kept.push(p);
    if ((a > 0 && b < 0) || (a < 0 && b > 0)) {
      const share = a / (a - b);
      kept.push({ x: at, y: p.y + share * (q.y - p.y) });
    }
  }
  return kept;
};

/** Slabs carried into another frame. */
export const carried = (slabs: readonly Slab[], frame: Frame): readonly Slab[] =>
  slabs.map((slab) => ({
    back: slab.back.map((p) => pointFrom(frame, p.x, p.y, p.z)),
    face: slab.face.map((p) => pointFrom(frame, p.x, p.y, p.z)),
  }));
