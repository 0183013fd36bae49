/** Faces and bend zones that would need the same metal: two of them over each other in the flat. */
import Flatbush from 'flatbush';
import { boxesMeet, startOf } from '../shape/arcs.js';
import { pointInLoop } from '../shape/inside.js';
import { boundingBox } from '../shape/loops.js';
import { movesMeet } from '../shape/meetings.js';
import type { Box, Loop, Move, Point } from '../shape/path.js';
import { ahead, dot, type Hang, type Job, remark, type Side, type TreeFace } from './tree.js';
import { loopOfSides, tabCorners } from './trimming.js';
import { onEnd } from './zones.js';

/** A convex piece of a flange with its bend zone: the whole of it, where its ends are square. */
interface Patch {
  readonly face: TreeFace;
  readonly hang: Hang;
  /** Anticlockwise as seen along the walk. */
  readonly corners: readonly Point[];
  /** Its outline when it is no convex piece but a face with flanges on stretches of its edges. */
  readonly loop: Loop | undefined;
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
    if (a.face === b.face) return;
    const notched = a.loop ?? b.loop;
    if (notched !== undefined) {
      const [stepped, other] = a.loop === undefined ? [b, a] : [a, b];
      if (other.loop === undefined && overBase(other, notched))
        report(
          job,
          b,
          a.face.id,
          `${b.face.id} and ${a.face.id} lie over each other in the flat; shorten one of them, or make one of them a piece of its own`,
          stepped === a ? a : b,
        );
      return;
    }
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
    for (const corners of [...piecesOfFlange(child, hang), ...tabsOf(child)])
      into.push({ face: child, hang, corners, loop: corners.length > 6 ? loopOfSides(child.sides) : undefined, box: boxOf(corners) });
    gather(child, into);
  }
};

const extent = (patch: Patch): number => patch.hang.flange.sums.allowance + Math.max(patch.hang.flange.flat, patch.hang.flange.flatFar);

/** One rectangle for a plain flange; else its face and its zone, parted where an end of the zone has a knee. */
const piecesOfFlange = (child: TreeFace, hang: Hang): readonly (readonly Point[])[] => {
  const { startEnd, endEnd, flange } = hang;
  const [, first] = child.sides;
  const last = child.sides.at(-1) as Side;
  const flat = [(first as Side).from, (first as Side).to, last.from, last.to];
  if (startEnd.length === 2 && endEnd.length === 2 && flange.flat === flange.flatFar && child.sides.length === 4) {
    const [a, , , d] = flat as [Point, Point, Point, Point];
    const square = straight(startEnd, flat[1] as Point) && straight(endEnd, flat[2] as Point);
    if (square || flange.bare)
      return [[startEnd[0] as Point, flange.bare ? a : (flat[1] as Point), flange.bare ? d : (flat[2] as Point), endEnd[0] as Point]];
  }
  const pieces: (readonly Point[])[] = flange.bare ? [] : [child.sides.slice(1).flatMap(({ from, to }) => [from, to])];
  const { allowance } = flange.sums;
  const levels = [0, ...levelsOf(startEnd, hang), ...levelsOf(endEnd, hang), allowance].sort((x, y) => x - y);
  for (let i = 1; i < levels.length; i++) {
    const [low, high] = [levels[i - 1] as number, levels[i] as number];
    if (high - low < 1e-9) continue;
    pieces.push([
      onEnd(startEnd, hang.start, hang.out, low),
      onEnd(startEnd, hang.start, hang.out, high),
      onEnd(endEnd, hang.end, hang.out, high),
      onEnd(endEnd, hang.end, hang.out, low),
    ]);
  }
  return pieces;
};

const tabsOf = (child: TreeFace): readonly (readonly Point[])[] =>
  child.sides.flatMap((side) => side.tabs.map((tab) => tabCorners(tab, side.out)));

const levelsOf = (end: readonly Point[], { start, out, flange }: Hang): readonly number[] =>
  end.map((p) => (p.x - start.x) * out.x + (p.y - start.y) * out.y).filter((level) => level > 1e-9 && level < flange.sums.allowance - 1e-9);

const straight = ([a, b]: readonly Point[], c: Point): boolean =>
  a !== undefined &&
  b !== undefined &&
  Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)) < 1e-9 * (1 + Math.abs(c.x) + Math.abs(c.y));

const boxOf = (corners: readonly Point[]): Box => {
  const [first] = corners as readonly [Point];
  let { x: minX, y: minY } = first;
  let [maxX, maxY] = [minX, minY];
  for (const { x, y } of corners) {
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return { min: { x: minX, y: minY }, max: { x: maxX, y: maxY } };
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

/** Least distance one piece would have to move to clear the other, over the directions of both; 0 or less when they are apart. */
const overlapDepth = (a: Patch, b: Patch): number => {
  let depth = Number.POSITIVE_INFINITY;
  for (const { corners } of [a, b]) {
    for (let i = 0; i < corners.length; i++) {
      const from = corners[i] as Point;
      const to = corners[(i + 1) % corners.length] as Point;
      const length = Math.hypot(to.x - from.x, to.y - from.y);
      if (length < 1e-9) continue;
      const axis = { x: (to.y - from.y) / length, y: (from.x - to.x) / length };
      const [lowA, highA] = spread(a, axis);
      const [lowB, highB] = spread(b, axis);
      depth = Math.min(depth, Math.min(highA, highB) - Math.max(lowA, lowB));
      if (depth <= 0) return depth;
    }
  }
  return depth;
};

const spread = (patch: Patch, axis: Point): readonly [number, number] => {
  const along = patch.corners.map((corner) => dot(corner, axis));
  return [Math.min(...along), Math.max(...along)];
};

/** Whether a piece, drawn in by the slack so that its hinge doesn't count, shares area with the base. */
const overBase = (patch: Patch, base: Loop): boolean => {
  const { out } = patch.hang;
  const along = { x: -out.y, y: out.x };
  const [nearest, farthest] = spread(patch, out);
  const [leftmost, rightmost] = spread(patch, along);
  const drawnIn = (value: number, low: number, high: number): number => (value - low < high - value ? SLACK : -SLACK);
  const corners = patch.corners.map((corner) =>
    ahead(ahead(corner, out, drawnIn(dot(corner, out), nearest, farthest)), along, drawnIn(dot(corner, along), leftmost, rightmost)),
  );
  if (pointInLoop(corners[0] as Point, base)) return true;
  for (let i = 0; i < base.length; i++) {
    const from = startOf(base, i);
    for (let k = 0; k < corners.length; k++) {
      const edge: Move = { kind: 'line', to: corners[(k + 1) % corners.length] as Point };
      if (movesMeet(corners[k] as Point, edge, from, base[i] as Move, 1e-9).length > 0) return true;
    }
  }
  // With no line crossing another, the base can still lie wholly within the rectangle.
  const [low, high] = spread(patch, out);
  const [left, right] = spread(patch, along);
  const p = (base[0] as Move).to;
  return dot(p, out) > low + SLACK && dot(p, out) < high - SLACK && dot(p, along) > left + SLACK && dot(p, along) < right - SLACK;
};
