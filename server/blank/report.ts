/** From the laid-out tree to what a blank reports, in the blank's own coordinates. */
import type { Cut } from '../model/part.js';
import { boundingBox, fromLowerLeft, loopLength, movedBy, signedArea } from '../shape/loops.js';
import type { Placement, Point } from '../shape/path.js';
import { cutOnBlank } from './cuts.js';
import { cutThrough, foldedFrames } from './through.js';
import type { Hang, Job, ReliefWork, TreeFace } from './tree.js';
import { loopOfSides } from './trimming.js';
import type { BendLine, Blank, BlankCut, Face, ReliefNote } from './types.js';
import { walkOutline } from './walk.js';
import { onEnd } from './zones.js';

export const blankOf = (job: Job, base: TreeFace, cuts: readonly Cut[], faceOf: (on: string | undefined) => string): Blank => {
  const walked = walkOutline(base);
  const { min, max } = boundingBox(walked);
  const outline = fromLowerLeft(movedBy(walked, -min.x, -min.y));
  const faces: Face[] = [];
  const bends: BendLine[] = [];
  reportFace(base, min, faces, bends);
  const cutouts: BlankCut[] = [];
  let area = signedArea(outline);
  let cutLength = loopLength(outline);
  const add = (made: BlankCut): void => {
    cutouts.push(made);
    area += signedArea(made.loop);
    cutLength += loopLength(made.loop);
  };
  let frames: ReturnType<typeof foldedFrames> | undefined;
  for (const cut of cuts) {
    const id = faceOf(cut.on);
    const face = faces.find((f) => f.id === id);
    const made = face === undefined ? undefined : cutOnBlank(cut, face);
    if (made === undefined) continue;
    add(made);
    if (cut.through === undefined) continue;
    frames ??= foldedFrames(faces, bends, job.thickness);
    const beyond = cutThrough(job, cut, made, faceOf(cut.through), faces, bends, frames);
    if (beyond !== undefined) add(beyond);
  }
  const density = job.sheet.material?.density;
  return {
    outline,
    cutouts,
    bends,
    faces,
    width: max.x - min.x,
    height: max.y - min.y,
    area,
    // mm³ of kg/m³
    mass: density === undefined ? undefined : area * job.thickness * density * 1e-9,
    cutLength,
    pierces: 1 + cutouts.length,
    thickness: job.thickness,
    datum: min,
    reliefs: job.reliefs.map((relief) => reliefAt(relief, less(relief.at, min))),
  };
};

const reliefAt = (relief: ReliefWork, at: Point): ReliefNote => ({
  id: relief.id,
  at,
  size: relief.size,
  kind: relief.kind,
  automatic: relief.automatic,
  reason: relief.reason,
  span: relief.span,
});

const less = (p: Point, datum: Point): Point => ({ x: p.x - datum.x, y: p.y - datum.y });

const reportFace = (face: TreeFace, datum: Point, faces: Face[], bends: BendLine[]): void => {
  const { hang } = face;
  const bend = hang === undefined ? undefined : bendLine(hang, datum);
  // Nothing flat follows a curl or a roll.
  const shown = hang === undefined || !hang.flange.bare;
  if (shown)
    faces.push({
      id: face.id,
      polygon: loopOfSides(face.sides, datum),
      place: placementOf(face, datum),
      bend: hang?.flange.bendId,
      zone: bend?.zone,
      span: face.span,
    });
  if (bend !== undefined) bends.push(bend);
  for (const child of face.children) if (child !== undefined) reportFace(child, datum, faces, bends);
};

const placementOf = (face: TreeFace, datum: Point): Placement => {
  const tx = face.origin.x - datum.x;
  const ty = face.origin.y - datum.y;
  return face.mirrored ? { cos: face.axis.x, sin: face.axis.y, tx, ty, mirrored: true } : { cos: face.axis.x, sin: face.axis.y, tx, ty };
};

/** The line across the zone between the places that its two ends have at this distance from the parent's tangent line. */
const acrossZone = (hang: Hang, distance: number, datum: Point): readonly [Point, Point] => [
  less(onEnd(hang.startEnd, hang.start, hang.out, distance), datum),
  less(onEnd(hang.endEnd, hang.end, hang.out, distance), datum),
];

/** Anticlockwise: along the child's tangent line, back down one end, along the parent's, up the other. A step at the child's tangent line is the flat's. */
const zoneOf = (hang: Hang, datum: Point): BendLine['zone'] => {
  const { allowance } = hang.flange.sums;
  const within = (p: Point): boolean => (p.x - hang.start.x) * hang.out.x + (p.y - hang.start.y) * hang.out.y < allowance - 1e-9;
  const [near, far] = [acrossZone(hang, 0, datum), acrossZone(hang, allowance, datum)];
  const knees = (end: readonly Point[]): readonly Point[] =>
    end.length < 3
      ? []
      : end
          .slice(1)
          .filter(within)
          .map((p) => less(p, datum));
  const corners = [far[0], far[1], ...[...knees(hang.endEnd)].reverse(), near[1], near[0], ...knees(hang.startEnd)];
  return corners.map((to) => ({ kind: 'line', to }));
};

const bendLine = (hang: Hang, datum: Point): BendLine => {
  const { flange } = hang;
  const { sums } = flange;
  const [from, to] = acrossZone(hang, sums.allowance / 2, datum);
  const near = acrossZone(hang, 0, datum);
  const far = acrossZone(hang, sums.allowance, datum);
  return {
    id: flange.bendId,
    make: flange.make,
    step: flange.step,
    direction: flange.direction,
    turn: flange.turn,
    radius: flange.radius,
    allowance: sums.allowance,
    method: sums.method,
    source: sums.source,
    k: sums.k,
    setback: sums.setback,
    deduction: sums.deduction,
    from,
    to,
    tangentParent: near,
    tangentChild: far,
    // The sight line of a leaf brake: one inside radius from the tangent line that goes under the nose. Source: FAA-H-8083-31 ch. 4, from memory.
    brakeLine: acrossZone(hang, flange.radius, datum),
    parent: hang.parent,
    child: flange.faceId,
    zone: zoneOf(hang, datum),
    span: flange.span,
  };
};
