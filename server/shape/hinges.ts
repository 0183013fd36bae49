/**
 * Flat pieces hung on one another by bends, and where each stands when every bend is turned by some share of its own turn.
 *
 * A bend's zone is a piece of a pipe. Its neutral line, a share `k` of the thickness from the inside, keeps its length whatever the share, so a bend that is
 * half turned is rounder than a finished one: (inside + k·T)·turn = allowance. Mid planes lie at height 0 of their frames, the face side toward +z.
 */
import type { Point } from './path.js';
import { blend, directionFrom, type Frame, pointFrom, pointInto, type Vector, WORLD } from './space.js';

export interface Hinge {
  readonly id: string;
  /** The piece it hangs on, and the piece beyond it, by name. A piece may be nothing but a line between two bends. */
  readonly parent: string;
  readonly child: string;
  /** Flat coordinates; from → to with the parent on the left. The child's line lies `allowance` to the right of the parent's. */
  readonly tangentParent: readonly [Point, Point];
  /** Signed turn when finished, rad: positive folds toward the face. */
  readonly turn: number;
  /** Sheet the bend uses up along its neutral line, mm, > 0. */
  readonly allowance: number;
  readonly thickness: number;
  /** Neutral line from the inside, as a share of the thickness: what the allowance amounts to. */
  readonly k: number;
}

/** A bend zone as it stands. */
export interface Pipe {
  readonly hinge: Hinge;
  /** Where the zone begins: origin on the parent's tangent line at its first point, x across the zone (away from the parent), y along the bend, z toward the face. */
  readonly start: Frame;
  /** Signed turn now, rad. */
  readonly turn: number;
  /** Radius of the mid plane; Infinity when flat. */
  readonly middle: number;
  /** Inside radius; Infinity when flat. */
  readonly inside: number;
}

export interface HungPieces {
  /** From flat coordinates (x, y) and height to space, by the piece's name. */
  readonly frames: ReadonlyMap<string, Frame>;
  /** By hinge id, in the order given. */
  readonly pipes: ReadonlyMap<string, Pipe>;
}

/** Turns smaller than this (rad) are flat: a metre of sheet rises by less than a millionth of a millimetre. */
const FLAT = 1e-9;

/**
 * Where every piece stands.
 *
 * @param root the piece that lies still, its flat coordinates being space's
 * @param share of its own turn for each hinge: 0 flat, 1 finished
 * @returns pieces and hinges that hang, by whatever chain, on the root; others are left out
 */
export const hang = (root: string, hinges: readonly Hinge[], share: (hinge: Hinge) => number, still: Frame = WORLD): HungPieces => {
  const frames = new Map<string, Frame>([[root, still]]);
  const pipes = new Map<string, Pipe>();
  // In one pass where parents come first, as they do in a blank.
  let waiting: readonly Hinge[] = hinges;
  while (waiting.length > 0) {
    const later: Hinge[] = [];
    for (const hinge of waiting) {
      const parent = frames.get(hinge.parent);
      if (parent === undefined) {
        later.push(hinge);
        continue;
      }
      const pipe = pipeOf(hinge, parent, share(hinge));
      pipes.set(hinge.id, pipe);
      if (!frames.has(hinge.child)) frames.set(hinge.child, beyond(pipe));
    }
    if (later.length === waiting.length) break;
    waiting = later;
  }
  return { frames, pipes };
};

/** One bend on a parent that stands in `parent`. */
export const pipeOf = (hinge: Hinge, parent: Frame, share: number): Pipe => {
  const [from, to] = hinge.tangentParent;
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const ux = length < 1e-12 ? 1 : (to.x - from.x) / length;
  const uy = length < 1e-12 ? 0 : (to.y - from.y) / length;
  const start: Frame = {
    origin: pointFrom(parent, from.x, from.y, 0),
    x: directionFrom(parent, uy, -ux, 0),
    y: directionFrom(parent, ux, uy, 0),
    z: parent.z,
  };
  const turn = hinge.turn * share;
  const round = Math.abs(turn);
  if (round < FLAT) return { hinge, start, turn: 0, middle: Number.POSITIVE_INFINITY, inside: Number.POSITIVE_INFINITY };
  // Turned past its own turn, a closed bend can't be tighter than closed.
  const inside = Math.max(0, hinge.allowance / round - hinge.k * hinge.thickness);
  return { hinge, start, turn, inside, middle: inside + hinge.thickness / 2 };
};

/** A place in a bend zone to space: `across` runs from 0 at the parent's tangent line to the allowance at the child's, flat. */
export const pipeToSpace = (pipe: Pipe, across: number, along: number, height: number): Vector => {
  const { start, turn, middle, hinge } = pipe;
  if (turn === 0) return pointFrom(start, across, along, height);
  const side = turn > 0 ? 1 : -1;
  const angle = (Math.abs(turn) * across) / hinge.allowance;
  const radius = middle - side * height;
  // side·(middle − radius·cos) without the loss of figures that a nearly flat bend's great radius would bring
  const rise = side * middle * versine(angle) + height * Math.cos(angle);
  return pointFrom(start, radius * Math.sin(angle), along, rise);
};

/**
 * The same on a zone made of flat strips. A place within a strip, in the bite of a relief, lies on the strip's own plane, so that the strip stays flat.
 *
 * @param strips into how many strips of equal width the zone is parted, ≥ 1
 */
export const stripToSpace = (pipe: Pipe, strips: number, across: number, along: number, height: number): Vector => {
  const width = pipe.hinge.allowance / strips;
  const strip = Math.floor(across / width);
  const share = across / width - strip;
  if (share < 1e-6 || share > 1 - 1e-6) return pipeToSpace(pipe, across, along, height);
  const low = pipeToSpace(pipe, strip * width, along, height);
  return blend(low, 1 - share, pipeToSpace(pipe, (strip + 1) * width, along, height), share);
};

/** A point of space in the zone's own flat coordinates: x across from the parent's tangent line, y along the bend, z height. */
export const spaceToPipe = (pipe: Pipe, p: Vector): Vector => {
  const { start, turn, middle, hinge } = pipe;
  const local = pointInto(start, p);
  if (turn === 0) return local;
  const side = turn > 0 ? 1 : -1;
  const round = Math.abs(turn);
  const toward = middle - side * local.z;
  let angle = Math.atan2(local.x, toward);
  // Seen from the middle of the zone, so that turns beyond a half circle come out right.
  if (angle < round / 2 - Math.PI) angle += 2 * Math.PI;
  const radius = Math.hypot(local.x, toward);
  // side·(middle − radius), as the difference of their squares over their sum: a nearly flat bend's great radius would leave few figures of it.
  const height = (2 * middle * local.z - side * (local.x * local.x + local.z * local.z)) / (middle + radius);
  return { x: (angle * hinge.allowance) / round, y: local.y, z: height };
};

/** The normal of the face side at this share of the zone, in space. */
export const pipeNormal = (pipe: Pipe, across: number): Vector => {
  const { start, turn, hinge } = pipe;
  const angle = (turn * across) / hinge.allowance;
  return blend(start.z, Math.cos(angle), start.x, -Math.sin(angle));
};

/** The pipe's axis: a point of it level with the zone's first end. Undefined when flat. */
export const pipeAxis = (pipe: Pipe): Vector | undefined =>
  pipe.turn === 0 ? undefined : pointFrom(pipe.start, 0, 0, pipe.turn > 0 ? pipe.middle : -pipe.middle);

/** The frame of what follows the bend: flat coordinates to space. */
const beyond = (pipe: Pipe): Frame => {
  const { hinge, start, turn } = pipe;
  const [from, to] = hinge.tangentParent;
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const ux = length < 1e-12 ? 1 : (to.x - from.x) / length;
  const uy = length < 1e-12 ? 0 : (to.y - from.y) / length;
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const out = blend(start.x, cos, start.z, sin);
  const z = blend(start.z, cos, start.x, -sin);
  const x = blend(start.y, ux, out, uy);
  const y = blend(start.y, uy, out, -ux);
  const at = pipeToSpace(pipe, hinge.allowance, 0, 0);
  // The child's tangent line begins at this place of the flat sheet.
  const flatX = from.x + uy * hinge.allowance;
  const flatY = from.y - ux * hinge.allowance;
  const shift = blend(x, -flatX, y, -flatY);
  return { origin: { x: at.x + shift.x, y: at.y + shift.y, z: at.z + shift.z }, x, y, z };
};

/** 1 − cos, with all its figures near 0. */
const versine = (angle: number): number => {
  const half = Math.sin(angle / 2);
  return 2 * half * half;
};
