/** From the laid-out tree to what a blank reports, in the blank's own coordinates. */
import type { Cut } from '../model/part.js';
import { boundingBox, fromLowerLeft, loopLength, movedBy, polygon, signedArea } from '../shape/loops.js';
import type { Loop, Placement, Point } from '../shape/path.js';
import { cutOnBlank } from './cuts.js';
import { loopOfSides } from './outline.js';
import { ahead, type Hang, type Job, type TreeFace } from './tree.js';
import type { BendLine, Blank, BlankCut, Face } from './types.js';
import { walkOutline } from './walk.js';

export const blankOf = (job: Job, base: TreeFace, cuts: readonly Cut[], faceOf: (on: string | undefined) => string): Blank => {
  const walked = walkOutline(base);
  const { min, max } = boundingBox(walked);
  const outline = fromLowerLeft(movedBy(walked, -min.x, -min.y));
  const faces: Face[] = [];
  const bends: BendLine[] = [];
  reportFace(base, min, faces, bends);
  const cutouts = cuts.flatMap((cut): readonly BlankCut[] => {
    const face = faces.find((f) => f.id === faceOf(cut.on));
    const made = face === undefined ? undefined : cutOnBlank(cut, face);
    return made === undefined ? [] : [made];
  });
  const area = cutouts.reduce((sum, cut) => sum + signedArea(cut.loop), signedArea(outline));
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
    cutLength: cutouts.reduce((sum, cut) => sum + loopLength(cut.loop), loopLength(outline)),
    pierces: 1 + cutouts.length,
    thickness: job.thickness,
    datum: min,
    reliefs: job.reliefs.map((relief) => ({ ...relief, at: less(relief.at, min) })),
  };
};

const less = (p: Point, datum: Point): Point => ({ x: p.x - datum.x, y: p.y - datum.y });

const reportFace = (face: TreeFace, datum: Point, faces: Face[], bends: BendLine[]): void => {
  const { hang } = face;
  faces.push({
    id: face.id,
    polygon: movedBy(loopOfSides(face.sides), -datum.x, -datum.y),
    place: placementOf(face, datum),
    bend: hang?.flange.bendId,
    zone: hang === undefined ? undefined : zoneOf(hang, datum),
    span: face.span,
  });
  if (hang !== undefined) bends.push(bendLine(hang, datum));
  for (const child of face.children) if (child !== undefined) reportFace(child, datum, faces, bends);
};

const placementOf = (face: TreeFace, datum: Point): Placement => {
  const tx = face.origin.x - datum.x;
  const ty = face.origin.y - datum.y;
  return face.mirrored ? { cos: face.axis.x, sin: face.axis.y, tx, ty, mirrored: true } : { cos: face.axis.x, sin: face.axis.y, tx, ty };
};

const acrossZone = (hang: Hang, distance: number, datum: Point): readonly [Point, Point] => [
  less(ahead(hang.start, hang.out, distance), datum),
  less(ahead(hang.end, hang.out, distance), datum),
];

const zoneOf = (hang: Hang, datum: Point): Loop => {
  const [a, b] = acrossZone(hang, 0, datum);
  const [c, d] = acrossZone(hang, hang.flange.sums.allowance, datum);
  return polygon([a, c, d, b]);
};

const bendLine = (hang: Hang, datum: Point): BendLine => {
  const { flange } = hang;
  const { sums } = flange;
  const [from, to] = acrossZone(hang, sums.allowance / 2, datum);
  return {
    id: flange.bendId,
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
    tangentParent: acrossZone(hang, 0, datum),
    tangentChild: acrossZone(hang, sums.allowance, datum),
    // The sight line of a leaf brake: one inside radius from the tangent line that goes under the nose. Source: FAA-H-8083-31 ch. 4, from memory.
    brakeLine: acrossZone(hang, flange.radius, datum),
    parent: hang.parent,
    child: flange.faceId,
    span: flange.span,
  };
};
