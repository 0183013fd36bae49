/** Holes, slots and cut-outs, carried from the finished face they lie on to the blank. */
import type { Cut, CutShape, OutlineEdge } from '../model/part.js';
import { circleLoop, place, placeLoop, polygon, reversed, signedArea } from '../shape/loops.js';
import type { Loop, Move, Placement, Point } from '../shape/path.js';
import type { BlankCut, Face } from './types.js';

/**
 * The cut in the blank's coordinates, clockwise.
 *
 * @returns undefined when nothing is left to cut (a size of zero)
 */
export const cutOnBlank = (cut: Cut, face: Face): BlankCut | undefined => {
  const centre = place(face.place, cut.at);
  const common = { id: cut.id, face: face.id, centre, span: cut.span };
  const round = roundDiameter(cut.shape);
  if (round !== undefined) {
    if (!(round > 0)) return undefined;
    const circle = { centre, radius: round / 2 };
    return { ...common, loop: reversed(circleLoop(circle)), circle };
  }
  const shape = aboutCentre(cut.shape);
  if (shape.length === 0) return undefined;
  const turned: Placement = { cos: Math.cos(cut.turned), sin: Math.sin(cut.turned), tx: cut.at.x, ty: cut.at.y };
  const loop = placeLoop(
    face.place,
    cut.turned === 0 ? placeLoop({ cos: 1, sin: 0, tx: cut.at.x, ty: cut.at.y }, shape) : placeLoop(turned, shape),
  );
  return { ...common, loop: signedArea(loop) > 0 ? reversed(loop) : loop, circle: undefined };
};

/** A hole, or a slot no longer than it is wide. */
const roundDiameter = (shape: CutShape): number | undefined => {
  if (shape.kind === 'hole') return shape.diameter;
  return shape.kind === 'slot' && shape.length <= shape.width + 1e-9 ? shape.width : undefined;
};

const aboutCentre = (shape: CutShape): Loop => {
  switch (shape.kind) {
    case 'hole':
      return circleLoop({ centre: { x: 0, y: 0 }, radius: shape.diameter / 2 });
    case 'slot':
      return slotLoop(shape.width / 2, shape.length / 2);
    case 'rectangle':
      return rectangleLoop(shape.width / 2, shape.height / 2, shape.corner);
    case 'drawn':
      return drawnLoop(shape.start, shape.edges);
  }
};

/** Overall length along x, two half circles at the ends. */
const slotLoop = (radius: number, half: number): Loop => {
  const straight = half - radius;
  if (!(radius > 0)) return [];
  return [
    { kind: 'line', to: { x: straight, y: -radius } },
    { kind: 'arc', to: { x: straight, y: radius }, centre: { x: straight, y: 0 }, turn: 'left' },
    { kind: 'line', to: { x: -straight, y: radius } },
    { kind: 'arc', to: { x: -straight, y: -radius }, centre: { x: -straight, y: 0 }, turn: 'left' },
  ];
};

const rectangleLoop = (x: number, y: number, corner: number): Loop => {
  if (!(x > 0 && y > 0)) return [];
  const r = Math.min(corner, x, y);
  if (!(r > 0)) {
    return polygon([
      { x: -x, y: -y },
      { x, y: -y },
      { x, y },
      { x: -x, y },
    ]);
  }
  const moves: Move[] = [
    { kind: 'line', to: { x: x - r, y: -y } },
    { kind: 'arc', to: { x, y: -y + r }, centre: { x: x - r, y: -y + r }, turn: 'left' },
    { kind: 'line', to: { x, y: y - r } },
    { kind: 'arc', to: { x: x - r, y }, centre: { x: x - r, y: y - r }, turn: 'left' },
    { kind: 'line', to: { x: -x + r, y } },
    { kind: 'arc', to: { x: -x, y: y - r }, centre: { x: -x + r, y: y - r }, turn: 'left' },
    { kind: 'line', to: { x: -x, y: -y + r } },
    { kind: 'arc', to: { x: -x + r, y: -y }, centre: { x: -x + r, y: -y + r }, turn: 'left' },
  ];
  // A corner radius of half a side leaves no straight between two of the arcs.
  return moves.filter((move, i) => {
    const from = (moves[(i + moves.length - 1) % moves.length] as Move).to;
    return move.kind === 'arc' || Math.hypot(move.to.x - from.x, move.to.y - from.y) > 1e-9;
  });
};

const drawnLoop = (start: Point, edges: readonly OutlineEdge[]): Loop => {
  const moves = edges.map(
    (edge): Move => (edge.arc === undefined ? { kind: 'line', to: edge.to } : { kind: 'arc', to: edge.to, ...edge.arc }),
  );
  const last = moves.at(-1);
  if (last === undefined) return [];
  return Math.hypot(last.to.x - start.x, last.to.y - start.y) > 1e-9 ? [...moves, { kind: 'line', to: start }] : moves;
};
