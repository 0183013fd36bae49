/** Cuts that can go right across: how a nested sheet is taken apart on a shear before anything is cut out along its outline. */
import { boundingBox } from '../shape/index.js';
import type { Box } from '../shape/path.js';
import type { NestPicture } from './types.js';

export interface StraightCut {
  /** Along which the place is counted: `x` for a cut that runs up the sheet. */
  readonly axis: 'x' | 'y';
  readonly at: number;
  /** From where to where it runs, along the other axis. */
  readonly from: number;
  readonly to: number;
}
export interface TakenApart {
  /** In order: each runs from edge to edge of what the ones before it left. */
  readonly cuts: readonly StraightCut[];
  /** Names of pieces that lie in one another, and are cut out along their outlines. */
  readonly together: readonly (readonly string[])[];
}

interface Lying {
  readonly name: string;
  readonly box: Box;
}

/** A free strip at a side, from this width (mm) on, is cut off first: it is worth keeping, and the rest is handier. */
const keep = 150;
const close = 1e-6;

/** Places between groups of boxes along an axis where no box is met. */
const gaps = (boxes: readonly Lying[], axis: 'x' | 'y'): readonly { readonly after: number; readonly before: number }[] => {
  const sorted = [...boxes].sort((a, b) => a.box.min[axis] - b.box.min[axis]);
  const found: { after: number; before: number }[] = [];
  let reach = Number.NEGATIVE_INFINITY;
  for (const { box } of sorted) {
    if (Number.isFinite(reach) && box.min[axis] >= reach - close) found.push({ after: reach, before: box.min[axis] });
    reach = Math.max(reach, box.max[axis]);
  }
  return found;
};

export const takenApart = (picture: NestPicture, kerf: number): TakenApart => {
  const cuts: StraightCut[] = [];
  const together: string[][] = [];
  const cut = (region: Box, axis: 'x' | 'y', at: number): readonly [Box, Box] => {
    const other = axis === 'x' ? 'y' : 'x';
    cuts.push({ axis, at, from: region.min[other], to: region.max[other] });
    return [
      { min: region.min, max: { ...region.max, [axis]: at } },
      { min: { ...region.min, [axis]: at }, max: region.max },
    ];
  };
  const take = (region: Box, boxes: readonly Lying[]): void => {
    if (boxes.length === 0) return;
    // What is left over comes off first, on the side where it is widest.
    const sides = (['x', 'y'] as const).flatMap((axis) => {
      const low = Math.min(...boxes.map(({ box }) => box.min[axis]));
      const high = Math.max(...boxes.map(({ box }) => box.max[axis]));
      return [
        { axis, at: Math.max(region.min[axis], low - kerf / 2), free: low - region.min[axis], keepsHigh: true },
        { axis, at: Math.min(region.max[axis], high + kerf / 2), free: region.max[axis] - high, keepsHigh: false },
      ];
    });
    const widest = sides.sort((a, b) => b.free - a.free)[0];
    if (widest !== undefined && widest.free >= keep) {
      const [low, high] = cut(region, widest.axis, widest.at);
      take(widest.keepsHigh ? high : low, boxes);
      return;
    }
    if (boxes.length === 1) return;
    const places = (['x', 'y'] as const).flatMap((axis) => {
      const across = axis === 'x' ? region.max.y - region.min.y : region.max.x - region.min.x;
      const middle = (region.min[axis] + region.max[axis]) / 2;
      return gaps(boxes, axis).map(({ after, before }) => {
        const at = before - after <= 3 * kerf ? (after + before) / 2 : after + kerf / 2;
        return { axis, at, across, off: Math.abs(at - middle) };
      });
    });
    // The shortest cut is the easiest; of those alike the one that halves best.
    const best = places.sort((a, b) => a.across - b.across || a.off - b.off)[0];
    if (best === undefined) {
      together.push(boxes.map(({ name }) => name));
      return;
    }
    const [low, high] = cut(region, best.axis, best.at);
    take(
      low,
      boxes.filter(({ box }) => box.max[best.axis] <= best.at + close),
    );
    take(
      high,
      boxes.filter(({ box }) => box.max[best.axis] > best.at + close),
    );
  };
  take(
    { min: { x: 0, y: 0 }, max: { x: picture.width, y: picture.height } },
    picture.pieces.map(({ id, outline }) => ({ name: id, box: boundingBox(outline) })),
  );
  return { cuts, together };
};
