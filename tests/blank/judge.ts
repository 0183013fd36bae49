/** An independent judge of a blank: two polygon libraries and plain rules of form, none of which the layout uses. */
import ClipperLib from 'clipper-lib';
import { expect } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import type { Blank } from '../../server/blank/types.js';
import type { Panel, Section } from '../../server/model/part.js';
import { differenceArea, unionArea } from '../../server/shape/booleans.js';
import { boundingBox, circleLoop, polygon, selfMeeting, signedArea, startOf, tessellate } from '../../server/shape/index.js';
import type { Loop, Move } from '../../server/shape/path.js';

/** The blank of a part that has no fault. */
export const laidOut = (part: Panel | Section): Blank => laidOutThough([], part);

/** The blank of a part of which only these rules speak, none of them an error. */
export const laidOutThough = (warnings: readonly string[], part: Panel | Section): Blank => {
  const { blank, findings } = layOut(part);
  expect(findings.map(({ severity, rule, message }) => (severity === 'error' ? message : rule))).toEqual(warnings);
  if (blank === undefined) throw new Error('no blank');
  return blank;
};

/** Closed, without repeated points or straight-on corners, simple, anticlockwise, its box at the datum. */
export const expectWellFormed = (blank: Blank): void => {
  const { outline } = blank;
  expect(signedArea(outline)).toBeGreaterThan(0);
  expect(selfMeeting(outline)).toBeUndefined();
  for (let i = 0; i < outline.length; i++) {
    const from = startOf(outline, i);
    const move = outline[i] as Move;
    expect(Math.hypot(move.to.x - from.x, move.to.y - from.y)).toBeGreaterThan(1e-7);
    if (move.kind === 'arc') {
      const [a, b] = [from, move.to].map((p) => Math.hypot(p.x - move.centre.x, p.y - move.centre.y)) as [number, number];
      expect(Math.abs(a - b)).toBeLessThan(1e-7);
    }
  }
  const box = boundingBox(outline);
  expect(Math.abs(box.min.x) + Math.abs(box.min.y)).toBeLessThan(1e-9);
  expect(Math.abs(box.max.x - blank.width) + Math.abs(box.max.y - blank.height)).toBeLessThan(1e-9);
  const start = startOf(outline, 0);
  for (const { to } of outline) expect(to.y > start.y - 1e-9 && (to.y > start.y + 1e-9 || to.x >= start.x - 1e-9)).toBe(true);
};

/** Faces and bend zones, each as its own polygon. */
export const patchesOf = (blank: Blank): readonly Loop[] => [
  ...blank.faces.map((face) => face.polygon),
  ...blank.bends.map((bend) => bend.zone),
];

/** Round reliefs by their centre and size; squares are told to the judge by the test that writes them. */
export const roundReliefs = (blank: Blank): readonly Loop[] =>
  blank.reliefs.filter((r) => r.kind === 'round').map((r) => circleLoop({ centre: r.at, radius: r.size / 2 }));

const SCALE = 1e6;
const asPaths = (loops: readonly Loop[], tolerance: number): ClipperLib.Paths =>
  loops.map((loop) => tessellate(loop, tolerance).map((p) => ({ X: Math.round(p.x * SCALE), Y: Math.round(p.y * SCALE) })));

/** The same area by the older library. */
export const oracleDifference = (one: readonly Loop[], other: readonly Loop[], tolerance: number): number => {
  const clipper = new ClipperLib.Clipper();
  clipper.AddPaths(asPaths(one, tolerance), ClipperLib.PolyType.ptSubject, true);
  clipper.AddPaths(asPaths(other, tolerance), ClipperLib.PolyType.ptClip, true);
  const solution: ClipperLib.Paths = [];
  clipper.Execute(ClipperLib.ClipType.ctDifference, solution, ClipperLib.PolyFillType.pftNonZero, ClipperLib.PolyFillType.pftNonZero);
  return solution.reduce((sum, path) => sum + ClipperLib.Clipper.Area(path), 0) / (SCALE * SCALE);
};

/**
 * The outline encloses what faces and zones cover, less the reliefs: to a millionth, by both libraries, and the patches do not overlap.
 */
export const expectAreaAgrees = (blank: Blank, cutAway: readonly Loop[] = roundReliefs(blank)): void => {
  // The chords of the reliefs' arcs then take less than a ten-millionth off the smallest part asked about.
  const tolerance = 4e-5;
  const patches = patchesOf(blank);
  const outline = signedArea(blank.outline);
  const relative = (area: number): number => Math.abs(area / outline - 1);
  expect(relative(differenceArea(patches, cutAway, tolerance))).toBeLessThan(1e-6);
  expect(relative(oracleDifference(patches, cutAway, tolerance))).toBeLessThan(1e-6);
  const apart = patches.reduce((sum, patch) => sum + signedArea(patch), 0);
  expect(Math.abs(unionArea(patches, tolerance) / apart - 1)).toBeLessThan(1e-6);
};

export const rectangleLoop = (x: number, y: number, width: number, height: number): Loop =>
  polygon([
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ]);
