/** The exact box of a piece in space: extremes of true arcs and of pipes, never of sampled points. */
import { angleAbout, apart, holdsDirection, radiusOf, startOf } from '../shape/arcs.js';
import { type Pipe, pipeToSpace } from '../shape/hinges.js';
import { lineMeetsCircle } from '../shape/meetings.js';
import type { Loop, Move, Point } from '../shape/path.js';
import { type Box3, boxAround, type Frame, pointFrom, type Vector } from '../shape/space.js';
import { type OnZone, zoneCoordinates } from './zone.js';

/** Box of a flat piece of sheet that stands in `frame`. */
export const faceExtent = (frame: Frame, outer: Loop, thickness: number): Box3 => {
  const points: Vector[] = [];
  const add = (p: Point): void => {
    points.push(pointFrom(frame, p.x, p.y, thickness / 2), pointFrom(frame, p.x, p.y, -thickness / 2));
  };
  for (let i = 0; i < outer.length; i++) {
    const move = outer[i] as Move;
    add(move.to);
    if (move.kind === 'line') continue;
    const from = startOf(outer, i);
    const radius = radiusOf(from, move);
    // An arc is furthest along an axis of space where its radius points along that axis's shadow on the face.
    for (const shadow of shadows(frame)) {
      const length = Math.hypot(shadow.x, shadow.y);
      if (length < 1e-12) continue;
      for (const sign of [radius / length, -radius / length]) {
        const p = { x: move.centre.x + sign * shadow.x, y: move.centre.y + sign * shadow.y };
        if (holdsDirection(from, move, angleAbout(move.centre, p))) add(p);
      }
    }
  }
  return boxAround(points);
};

const shadows = ({ x, y }: Frame): readonly Point[] => [
  { x: x.x, y: y.x },
  { x: x.y, y: y.y },
  { x: x.z, y: y.z },
];

/** Box of a piece of a bend zone. */
export const zoneExtent = (pipe: Pipe, outer: Loop, thickness: number): Box3 => {
  const on = zoneCoordinates(pipe.hinge);
  const points: Vector[] = [];
  const add = (p: Point): void => {
    const { x, y } = on.into(p);
    points.push(pipeToSpace(pipe, x, y, thickness / 2), pipeToSpace(pipe, x, y, -thickness / 2));
  };
  const levels = crests(pipe);
  for (let i = 0; i < outer.length; i++) {
    const from = startOf(outer, i);
    const move = outer[i] as Move;
    add(move.to);
    for (const level of levels) for (const p of atLevel(on, from, move, level)) add(p);
    for (const p of arcEnds(on, from, move)) add(p);
    for (const p of slantedExtremes(pipe, on, from, move, thickness)) add(p);
  }
  return boxAround(points);
};

/** Distances across the zone at which the pipe is furthest along an axis of space. */
const crests = ({ start, turn, hinge }: Pipe): readonly number[] => {
  if (turn === 0) return [];
  const side = turn > 0 ? 1 : -1;
  const round = Math.abs(turn);
  const found: number[] = [];
  for (const axis of ['x', 'y', 'z'] as const) {
    const ex = start.x[axis];
    const ez = start.z[axis];
    if (Math.hypot(ex, ez) < 1e-12) continue;
    // d/da of r·sin a·ex − side·r·cos a·ez is nought where tan a = −ex / (side·ez)
    const first = Math.atan2(ex, -side * ez);
    for (let angle = first - 2 * Math.PI; angle < round; angle += Math.PI) if (angle > 0) found.push((angle * hinge.allowance) / round);
  }
  return found;
};

/** Where a move of the zone's outline passes a distance across the zone. */
const atLevel = (on: OnZone, from: Point, move: Move, level: number): readonly Point[] => {
  const a = on.into(from);
  const b = on.into(move.to);
  if (move.kind === 'line') {
    if (a.x > level === b.x > level || a.x === b.x) return [];
    const s = (level - a.x) / (b.x - a.x);
    return [{ x: from.x + (move.to.x - from.x) * s, y: from.y + (move.to.y - from.y) * s }];
  }
  const line = { at: on.outOf({ x: level, y: 0 }), along: on.along };
  return lineMeetsCircle(line, { centre: move.centre, radius: radiusOf(from, move) }).filter((p) =>
    holdsDirection(from, move, angleAbout(move.centre, p)),
  );
};

/** The places where an arc of the outline goes furthest across the zone and along it. */
const arcEnds = (on: OnZone, from: Point, move: Move): readonly Point[] => {
  if (move.kind === 'line') return [];
  const radius = radiusOf(from, move);
  const { x, y } = on.along;
  return [
    { x: move.centre.x + radius * x, y: move.centre.y + radius * y },
    { x: move.centre.x - radius * x, y: move.centre.y - radius * y },
    { x: move.centre.x + radius * y, y: move.centre.y - radius * x },
    { x: move.centre.x - radius * y, y: move.centre.y + radius * x },
  ].filter((p) => holdsDirection(from, move, angleAbout(move.centre, p)));
};

const SAMPLES = 12;
/**
 * A move that runs aslant over a pipe which itself stands aslant to an axis of space has its extremes somewhere along it: bracketed by samples, then narrowed
 * to 1e-9 of its length. Elsewhere the ends, the crests and the arcs' own extremes hold them all.
 */
const slantedExtremes = (pipe: Pipe, on: OnZone, from: Point, move: Move, thickness: number): readonly Point[] => {
  if (pipe.turn === 0) return [];
  const { start } = pipe;
  const aslant = (['x', 'y', 'z'] as const).filter((axis) => {
    const along = Math.abs(start.y[axis]);
    return along > 1e-9 && along < 1 - 1e-9;
  });
  if (aslant.length === 0) return [];
  const a = on.into(from);
  const b = on.into(move.to);
  if (move.kind === 'line' && (Math.abs(a.x - b.x) < 1e-9 || Math.abs(a.y - b.y) < 1e-9)) return [];
  const at = walker(from, move);
  const found: Point[] = [];
  for (const height of [thickness / 2, -thickness / 2]) {
    for (const axis of aslant) {
      for (const sign of [1, -1]) {
        const value = (s: number): number => {
          const p = on.into(at(s));
          return sign * pipeToSpace(pipe, p.x, p.y, height)[axis];
        };
        found.push(at(greatest(value)));
      }
    }
  }
  return found;
};

const greatest = (value: (s: number) => number): number => {
  let best = 0;
  for (let i = 1; i <= SAMPLES; i++) if (value(i / SAMPLES) > value(best / SAMPLES)) best = i;
  let low = Math.max(0, (best - 1) / SAMPLES);
  let high = Math.min(1, (best + 1) / SAMPLES);
  while (high - low > 1e-9) {
    const third = (high - low) / 3;
    if (value(low + third) < value(high - third)) low += third;
    else high -= third;
  }
  return (low + high) / 2;
};

/** A move as a function of the share of its length. */
const walker = (from: Point, move: Move): ((s: number) => Point) => {
  if (move.kind === 'line') return (s) => ({ x: from.x + (move.to.x - from.x) * s, y: from.y + (move.to.y - from.y) * s });
  const radius = apart(from, move.centre);
  const start = angleAbout(move.centre, from);
  const sign = move.turn === 'left' ? 1 : -1;
  const full = 2 * Math.PI;
  const swept = ((((angleAbout(move.centre, move.to) - start) * sign) % full) + full) % full;
  const sweep = sign * (swept < 1e-12 ? full : swept);
  return (s) => ({
    x: move.centre.x + radius * Math.cos(start + sweep * s),
    y: move.centre.y + radius * Math.sin(start + sweep * s),
  });
};
