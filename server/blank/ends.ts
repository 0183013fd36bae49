/** The end of a bent edge as points in the flat, from the parent's tangent line out to the flange's free edge. */
import type { Point } from '../shape/path.js';
import { ahead, type BentFlange, type EndLimit, type EndPlan, type Side } from './tree.js';

export interface EndLine {
  /** From the parent's tangent line to the child's. */
  readonly zone: readonly Point[];
  readonly flatStart: Point;
  /** Where a free edge square to the bend would end. */
  readonly flatFar: Point;
  /** How far past the corner's crossing the flat ends at its free edge. */
  readonly reach: number;
}

/** How much further in than the corner asks the written ends stand: all along, and at the free edge of a flat of this length. */
const written = (flange: BentFlange, flat: number): readonly [number, number] => {
  switch (flange.ends?.kind) {
    case 'back':
      // Less than a millionth of a millimetre is no step.
      return flange.ends.distance < 1e-6 ? [0, 0] : [flange.ends.distance, flange.ends.distance];
    case 'mitred':
      return [0, flat * Math.tan(flange.ends.angle)];
    default:
      return [0, 0];
  }
};

/** Which way past an end is, along the walk. */
const past = (which: 'from' | 'to'): 1 | -1 => (which === 'to' ? 1 : -1);

/** @param inset further in than the corner's plan, for a flange that hangs on this end */
export const endLine = (side: Side, flange: BentFlange, which: 'from' | 'to', plan: EndPlan | undefined, inset = 0): EndLine => {
  const at = which === 'to' ? side.to : side.from;
  const { along, out } = side;
  const { allowance } = flange.sums;
  const far = (which === 'to') === (side.growing === 1);
  const flat = far ? flange.flatFar : flange.flat;
  const limit: EndLimit | undefined = plan?.limits[0];
  const level = plan?.at ?? 0;
  if (limit === undefined && flange.ends === undefined) {
    const start = inset === 0 ? at : ahead(at, along, -past(which) * inset);
    const flatStart = ahead(start, out, allowance);
    return { zone: [start, flatStart], flatStart, flatFar: ahead(start, out, allowance + flat), reach: level - inset };
  }
  const [back, backFar] = written(flange, flat);
  const point = (across: number, reach: number): Point => ahead(ahead(at, along, past(which) * (reach - level)), out, across);
  const begin = level - inset - back;
  const zone =
    limit === undefined
      ? [point(0, begin), point(allowance, begin)]
      : limit.zone.map(([across, reach]) => point(across, reach - inset - back));
  // Nothing is flat beyond a curl or a roll: what follows goes on where its zone ends.
  const last = limit?.zone.at(-1)?.[1] ?? level;
  const square: readonly [number, number] = limit === undefined || flange.bare ? [last, last] : limit.flat;
  const nearest = square[0] - inset - back;
  // A written mitre and the corner's own cut: whichever takes more.
  const slanted = flange.ends?.kind === 'mitred' ? Math.min(square[1], square[0] - backFar) : square[1] - back;
  const flats: readonly [number, number] = [nearest, slanted - inset];
  // A flat of another length at this end runs on along the same line.
  const longest = Math.max(flange.flat, flange.flatFar);
  const reach = longest < 1e-12 ? flats[0] : flats[0] + ((flats[1] - flats[0]) * flat) / longest;
  return { zone, flatStart: point(allowance, flats[0]), flatFar: point(allowance + flat, reach), reach };
};

/** The same plan with every part of the end this much further in. */
export const setIn = (plan: EndPlan | undefined, flange: BentFlange, by: number): EndPlan => {
  const square: EndLimit = {
    zone: [
      [0, 0],
      [flange.sums.allowance, 0],
    ],
    flat: [0, 0],
  };
  const limits = (plan?.limits ?? [square]).map(
    ({ zone, flat }): EndLimit => ({
      zone: zone.map(([across, reach]) => [across, reach - by] as const),
      flat: [flat[0] - by, flat[1] - by],
    }),
  );
  return { limits, at: plan?.at ?? 0 };
};
