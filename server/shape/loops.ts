/** Whole loops: their size, and loops made of other loops. */
import { doubleArea, moveBox, moveLength, startOf, wrap } from './arcs.js';
import type { Box, Circle, Loop, Move, Placement, Point } from './path.js';

/** Area of a loop, arcs exact, mm²: positive when it runs anticlockwise. */
export const signedArea = (loop: Loop): number => {
  let double = 0;
  for (let i = 0; i < loop.length; i++) double += doubleArea(startOf(loop, i), loop[i] as Move);
  return double / 2;
};

export const loopLength = (loop: Loop): number => {
  let length = 0;
  for (let i = 0; i < loop.length; i++) length += moveLength(startOf(loop, i), loop[i] as Move);
  return length;
};

/** The smallest upright box round a loop, arcs with their quarter points. */
export const boundingBox = (loop: Loop): Box => {
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < loop.length; i++) {
    const move = loop[i] as Move;
    if (move.kind === 'line') {
      if (move.to.x < minX) minX = move.to.x;
      if (move.to.x > maxX) maxX = move.to.x;
      if (move.to.y < minY) minY = move.to.y;
      if (move.to.y > maxY) maxY = move.to.y;
    } else {
      const box = moveBox(startOf(loop, i), move);
      minX = Math.min(minX, box.min.x);
      minY = Math.min(minY, box.min.y);
      maxX = Math.max(maxX, box.max.x);
      maxY = Math.max(maxY, box.max.y);
    }
  }
  return { min: { x: minX, y: minY }, max: { x: maxX, y: maxY } };
};

/** A point carried by a placement: flipped in y first when the placement is mirrored, then turned, then moved. */
export const place = (by: Placement, p: Point): Point => {
  const y = by.mirrored === true ? -p.y : p.y;
  return { x: by.cos * p.x - by.sin * y + by.tx, y: by.sin * p.x + by.cos * y + by.ty };
};

/** A loop carried by a placement. A mirrored one turns every arc over, so an anticlockwise loop comes out clockwise. */
export const placeLoop = (by: Placement, loop: Loop): Loop =>
  loop.map((move): Move => {
    const to = place(by, move.to);
    if (move.kind === 'line') return move.id === undefined ? { kind: 'line', to } : { kind: 'line', to, id: move.id };
    const turn = by.mirrored === true ? opposite(move.turn) : move.turn;
    const centre = place(by, move.centre);
    return move.id === undefined ? { kind: 'arc', to, centre, turn } : { kind: 'arc', to, centre, turn, id: move.id };
  });

const opposite = (turn: 'left' | 'right'): 'left' | 'right' => (turn === 'left' ? 'right' : 'left');

/** A loop shifted without turning it. */
export const movedBy = (loop: Loop, dx: number, dy: number): Loop =>
  loop.map((move): Move => {
    const to = { x: move.to.x + dx, y: move.to.y + dy };
    if (move.kind === 'line') return { kind: 'line', to, id: move.id };
    return { kind: 'arc', to, centre: { x: move.centre.x + dx, y: move.centre.y + dy }, turn: move.turn, id: move.id };
  });

/** The same loop walked the other way round. */
export const reversed = (loop: Loop): Loop => {
  const back: Move[] = [];
  for (let i = loop.length - 1; i >= 0; i--) {
    const move = loop[i] as Move;
    const to = startOf(loop, i);
    back.push(move.kind === 'line' ? { ...move, to } : { ...move, to, turn: opposite(move.turn) });
  }
  return back;
};

/** The same loop, beginning at the lowest of its corners, and of those at the leftmost. */
export const fromLowerLeft = (loop: Loop): Loop => {
  let last = 0;
  for (let i = 1; i < loop.length; i++) {
    const p = (loop[i] as Move).to;
    const best = (loop[last] as Move).to;
    if (p.y < best.y - 1e-9 || (p.y <= best.y + 1e-9 && p.x < best.x)) last = i;
  }
  return [...loop.slice(last + 1), ...loop.slice(0, last + 1)];
};

/** A closed loop of straight lines through points. */
export const polygon = (points: readonly Point[]): Loop => {
  const lines = points.map((to): Move => ({ kind: 'line', to }));
  const first = lines[0];
  return first === undefined ? [] : [...lines.slice(1), first];
};

/** A circle as two half arcs, anticlockwise. */
export const circleLoop = ({ centre, radius }: Circle): Loop => {
  const right = { x: centre.x + radius, y: centre.y };
  const left = { x: centre.x - radius, y: centre.y };
  return [
    { kind: 'arc', to: left, centre, turn: 'left' },
    { kind: 'arc', to: right, centre, turn: 'left' },
  ];
};

/**
 * Straight chords that stay within `tolerance` of every arc; lines keep their ends.
 *
 * @returns the corners in order, without repeating the first
 */
export const tessellate = (loop: Loop, tolerance: number): readonly Point[] => {
  const points: Point[] = [];
  for (let i = 0; i < loop.length; i++) {
    const move = loop[i] as Move;
    if (move.kind === 'arc') pushArc(points, startOf(loop, i), move, tolerance);
    points.push(move.to);
  }
  return points;
};

const pushArc = (points: Point[], from: Point, arc: Extract<Move, { kind: 'arc' }>, tolerance: number): void => {
  const radius = Math.hypot(from.x - arc.centre.x, from.y - arc.centre.y);
  const start = Math.atan2(from.y - arc.centre.y, from.x - arc.centre.x);
  const end = Math.atan2(arc.to.y - arc.centre.y, arc.to.x - arc.centre.x);
  const swept = arc.turn === 'left' ? wrap(end - start) : wrap(start - end);
  const sweep = swept < 1e-12 ? 2 * Math.PI : swept;
  const step = 2 * Math.acos(Math.max(0, 1 - tolerance / radius));
  const count = Math.max(1, Math.ceil(sweep / Math.max(step, 1e-4)));
  const sign = arc.turn === 'left' ? 1 : -1;
  for (let k = 1; k < count; k++) {
    const angle = start + (sign * sweep * k) / count;
    points.push({ x: arc.centre.x + radius * Math.cos(angle), y: arc.centre.y + radius * Math.sin(angle) });
  }
};
