/** From the laid-out tree to what a blank reports, in the blank's own coordinates. */
import type { Cut } from '../model/part.js';
import { boundingBox, fromLowerLeft, loopLength, movedBy, signedArea } from '../shape/loops.js';
import type { Placement, Point } from '../shape/path.js';
import { cutOnBlank } from './cuts.js';
import { loopOfSides } from './outline.js';
import type { Hang, Job, ReliefWork, TreeFace } from './tree.js';
import type { BendLine, Blank, BlankCut, Face, ReliefNote } from './types.js';
import { walkOutline } from './walk.js';

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
  for (const cut of cuts) {
    const id = faceOf(cut.on);
    const face = faces.find((f) => f.id === id);
    const made = face === undefined ? undefined : cutOnBlank(cut, face);
    if (made === undefined) continue;
    cutouts.push(made);
    area += signedArea(made.loop);
    cutLength += loopLength(made.loop);
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

const acrossZone = (hang: Hang, distance: number, datum: Point): readonly [Point, Point] => [
  { x: hang.start.x + hang.out.x * distance - datum.x, y: hang.start.y + hang.out.y * distance - datum.y },
  { x: hang.end.x + hang.out.x * distance - datum.x, y: hang.end.y + hang.out.y * distance - datum.y },
];

const bendLine = (hang: Hang, datum: Point): BendLine => {
  const { flange } = hang;
  const { sums } = flange;
  const [from, to] = acrossZone(hang, sums.allowance / 2, datum);
  const near = acrossZone(hang, 0, datum);
  const far = acrossZone(hang, sums.allowance, datum);
  return {
    id: flange.bendId,
    make: 'turn',
    step: flange.faceId,
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
    zone: [far[0], far[1], near[1], near[0]].map((to) => ({ kind: 'line', to })),
    span: flange.span,
  };
};
