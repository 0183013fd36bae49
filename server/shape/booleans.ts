/**
 * Areas of unions and overlaps through a polygon library, arcs as chords. For checks of what the outline walk gives, never on the way to a blank:
 * it is slower, and its corners are rounded to a millionth of a millimetre.
 */
import { Clipper, FillRule, type Path64, type Paths64 } from 'clipper2-ts';
import { tessellate } from './loops.js';
import type { Loop } from './path.js';

const SCALE = 1e6;

const pathOf = (loop: Loop, tolerance: number): Path64 =>
  tessellate(loop, tolerance).map((p) => ({ x: Math.round(p.x * SCALE), y: Math.round(p.y * SCALE) }));
const pathsOf = (loops: readonly Loop[], tolerance: number): Paths64 => loops.map((loop) => pathOf(loop, tolerance));
const areaOf = (paths: Paths64): number => Clipper.areaPaths(paths) / (SCALE * SCALE);

/** Area covered by any of the loops, mm². */
export const unionArea = (loops: readonly Loop[], tolerance = 1e-4): number =>
  areaOf(Clipper.union(pathsOf(loops, tolerance), FillRule.NonZero));

/** Area common to both sets of loops, mm². */
export const overlapArea = (one: readonly Loop[], other: readonly Loop[], tolerance = 1e-4): number =>
  areaOf(Clipper.intersect(pathsOf(one, tolerance), pathsOf(other, tolerance), FillRule.NonZero));

/** Area of the first set that the second leaves, mm². */
export const differenceArea = (one: readonly Loop[], other: readonly Loop[], tolerance = 1e-4): number =>
  areaOf(Clipper.difference(pathsOf(one, tolerance), pathsOf(other, tolerance), FillRule.NonZero));
