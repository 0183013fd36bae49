/** Faces and bend zones that would need the same metal: two of them over each other in the flat. */
import Flatbush from 'flatbush';
import { boxesMeet, startOf } from '../shape/arcs.js';
import { pointInLoop } from '../shape/inside.js';
import { boundingBox } from '../shape/loops.js';
import { movesMeet } from '../shape/meetings.js';
import type { Box, Loop, Move, Point } from '../shape/path.js';
import { loopOfSides } from './outline.js';
import { ahead, dot, type Hang, type Job, remark, type TreeFace } from './tree.js';

/** A flange with its bend zone: one rectangle. */
interface Patch {
  readonly face: TreeFace;
  readonly hang: Hang;
  readonly box: Box;
}
/** Patches that only touch do not overlap. */
const SLACK = 1e-5;
const INDEX_FROM = 40;

/** Reports every pair that overlaps, by name and depth. */
export const reportOverlaps = (job: Job, base: TreeFace): void => {
  const patches: Patch[] = [];
  gather(base, patches);
  if (patches.length === 0) return;
  const loop = loopOfSides(base.sides);
  const box = boundingBox(loop);
  for (const patch of patches) {
    if (boxesMeet(box, patch.box, -SLACK) && overBase(patch, loop)) {
      const { say } = job.words;
      report(
        job,
        patch,
        base.id,
        `${patch.face.id}, ${say(extent(patch))} long from its tangent line, lies over ${base.id} in the flat; make it shorter, or notch ${base.id} to clear it`,
      );
    }
  }
  forPairs(patches, (a, b) => {
    const depth = overlapDepth(a, b);
    if (depth <= SLACK) return;
    const { say } = job.words;
    report(
      job,
      b,
      a.face.id,
      `${b.face.id} and ${a.face.id} lie over each other by ${say(depth)} in the flat; shorten one of them, or make one of them a piece of its own`,
      a,
    );
  });
};

const report = (job: Job, patch: Patch, other: string, message: string, second?: Patch): void => {
  remark(job, 'fold/overlap-in-the-flat', patch.face.span, message, {
    features: [`face:${patch.face.id}`, `face:${other}`],
    related:
      second === undefined ? undefined : [{ file: job.part.file, span: second.face.span, message: `${other}, the other of the two` }],
  });
};

const gather = (face: TreeFace, into: Patch[]): void => {
  for (const child of face.children) {
    if (child?.hang === undefined) continue;
    const { hang } = child;
    into.push({ face: child, hang, box: boxOf(hang) });
    gather(child, into);
  }
};

const extent = (patch: Patch): number => patch.hang.flange.sums.allowance + patch.hang.flange.flat;

/** Anticlockwise, from where the hinge starts. A hinge pulled past the start of its zone by a bent end keeps the zone's own width. */
const cornersOf = (patch: Patch): readonly [Point, Point, Point, Point] => {
  const { start, end, out } = patch.hang;
  const far = extent(patch);
  return [start, ahead(start, out, far), ahead(end, out, far), end];
};

/** Box of the same corners, which is all that most flanges are ever asked for. */
const boxOf = ({ start, end, out, flange }: Hang): Box => {
  const far = flange.sums.allowance + flange.flat;
  const dx = out.x * far;
  const dy = out.y * far;
  return {
    min: { x: Math.min(start.x, end.x) + Math.min(0, dx), y: Math.min(start.y, end.y) + Math.min(0, dy) },
    max: { x: Math.max(start.x, end.x) + Math.max(0, dx), y: Math.max(start.y, end.y) + Math.max(0, dy) },
  };
};

const forPairs = (patches: readonly Patch[], visit: (a: Patch, b: Patch) => void): void => {
  if (patches.length < INDEX_FROM) {
    for (let i = 0; i < patches.length; i++) {
      for (let j = i + 1; j < patches.length; j++) {
        const [a, b] = [patches[i] as Patch, patches[j] as Patch];
        if (boxesMeet(a.box, b.box, -SLACK)) visit(a, b);
      }
    }
    return;
  }
  const index = new Flatbush(patches.length);
  for (const { box } of patches) index.add(box.min.x, box.min.y, box.max.x, box.max.y);
  index.finish();
  patches.forEach((a, i) => {
    for (const j of index.search(a.box.min.x, a.box.min.y, a.box.max.x, a.box.max.y)) if (j > i) visit(a, patches[j] as Patch);
  });
};

/** Least distance one rectangle would have to move to clear the other, over the directions of both; 0 or less when they are apart. */
const overlapDepth = (a: Patch, b: Patch): number => {
  let depth = Number.POSITIVE_INFINITY;
  for (const { hang } of [a, b]) {
    for (const axis of [hang.out, { x: -hang.out.y, y: hang.out.x }]) {
      const [lowA, highA] = spread(a, axis);
      const [lowB, highB] = spread(b, axis);
      depth = Math.min(depth, Math.min(highA, highB) - Math.max(lowA, lowB));
    }
  }
  return depth;
};

const spread = (patch: Patch, axis: Point): readonly [number, number] => {
  const along = cornersOf(patch).map((corner) => dot(corner, axis));
  return [Math.min(...along), Math.max(...along)];
};

/** Whether a rectangle, drawn in by the slack so that its hinge doesn't count, shares area with the base. */
const overBase = (patch: Patch, base: Loop): boolean => {
  const { out } = patch.hang;
  const along = { x: -out.y, y: out.x };
  const corners = cornersOf(patch).map((corner, i) =>
    ahead(ahead(corner, out, i === 0 || i === 3 ? SLACK : -SLACK), along, i < 2 ? SLACK : -SLACK),
  );
  if (pointInLoop(corners[0] as Point, base)) return true;
  for (let i = 0; i < base.length; i++) {
    const from = startOf(base, i);
    for (let k = 0; k < 4; k++) {
      const edge: Move = { kind: 'line', to: corners[(k + 1) % 4] as Point };
      if (movesMeet(corners[k] as Point, edge, from, base[i] as Move, 1e-9).length > 0) return true;
    }
  }
  // With no line crossing another, the base can still lie wholly within the rectangle.
  const [low, high] = spread(patch, out);
  const [left, right] = spread(patch, along);
  const p = (base[0] as Move).to;
  return dot(p, out) > low + SLACK && dot(p, out) < high - SLACK && dot(p, along) > left + SLACK && dot(p, along) < right - SLACK;
};
