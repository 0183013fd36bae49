/** A plate's deflection as a sum of products of functions of x and of y: where it is greatest, what it is and how it bends at a place. */
import type { BentPlate, Plate, PlateLoad, PlateStiffness } from './plates.js';

/** Functions along one side, at a place: values, first and second derivatives. */
export interface Shapes {
  readonly count: number;
  readonly at: (place: number) => { readonly value: Float64Array; readonly slope: Float64Array; readonly curve: Float64Array };
}

const GRID = 16;

/** @param sums w = Σ sums[i · y.count + j] · x_i · y_j */
export const plateField = (plate: Plate, x: Shapes, y: Shapes, sums: Float64Array): BentPlate => {
  const combine = (left: Float64Array, right: Float64Array): number => {
    let total = 0;
    for (let i = 0; i < x.count; i++) {
      let row = 0;
      for (let j = 0; j < y.count; j++) row += (sums[i * y.count + j] as number) * (right[j] as number);
      total += row * (left[i] as number);
    }
    return total;
  };
  const deflection = (px: number, py: number): number => combine(x.at(px).value, y.at(py).value);
  const moments = (px: number, py: number): { x: number; y: number; twist: number } => {
    const [fx, fy] = [x.at(px), y.at(py)];
    const [wxx, wyy, wxy] = [combine(fx.curve, fy.value), combine(fx.value, fy.curve), combine(fx.slope, fy.slope)];
    const d = stiffnessAt(plate, px, py);
    return { x: -(d.x * wxx + d.cross * wyy), y: -(d.cross * wxx + d.y * wyy), twist: -2 * d.twist * wxy };
  };
  return { deflection, moments, greatest: greatest(plate, x, y, sums, deflection) };
};

const stiffnessAt = ({ stiffened, stiffness }: Plate, x: number, y: number): PlateStiffness =>
  stiffened !== undefined && x >= stiffened.x[0] && x <= stiffened.x[1] && y >= stiffened.y[0] && y <= stiffened.y[1]
    ? stiffened.stiffness
    : stiffness;

const greatest = (
  plate: Plate,
  x: Shapes,
  y: Shapes,
  sums: Float64Array,
  deflection: (x: number, y: number) => number,
): BentPlate['greatest'] => {
  const columns = Array.from({ length: GRID + 1 }, (_, j) => y.at((plate.height * j) / GRID).value);
  let best = { deflection: 0, x: plate.width / 2, y: plate.height / 2 };
  const row = new Float64Array(y.count);
  for (let i = 0; i <= GRID; i++) {
    const px = (plate.width * i) / GRID;
    const left = x.at(px).value;
    row.fill(0);
    for (let k = 0; k < x.count; k++) {
      const share = left[k] as number;
      for (let j = 0; j < y.count; j++) row[j] = (row[j] as number) + share * (sums[k * y.count + j] as number);
    }
    columns.forEach((column, j) => {
      let w = 0;
      for (let k = 0; k < y.count; k++) w += (row[k] as number) * (column[k] as number);
      if (Math.abs(w) > Math.abs(best.deflection) + 1e-12 * Math.abs(best.deflection))
        best = { deflection: w, x: px, y: (plate.height * j) / GRID };
    });
  }
  return climb(plate, deflection, best);
};
/** From the best grid point by halving steps: near a maximum the deflection is flat, so a few halvings do. */
const climb = (plate: Plate, deflection: (x: number, y: number) => number, start: BentPlate['greatest']): BentPlate['greatest'] => {
  let best = start;
  for (let halving = 2; halving <= 8; halving *= 2) {
    const [dx, dy] = [plate.width / GRID / halving, plate.height / GRID / halving];
    for (const [sx, sy] of [
      [dx, 0],
      [-dx, 0],
      [0, dy],
      [0, -dy],
    ] as const) {
      const [px, py] = [best.x + sx, best.y + sy];
      if (px < 0 || px > plate.width || py < 0 || py > plate.height) continue;
      const w = deflection(px, py);
      if (Math.abs(w) > Math.abs(best.deflection) * (1 + 1e-12)) best = { deflection: w, x: px, y: py };
    }
  }
  return best;
};

/** Where a load lies on the plate and its pressure; a point load has its force and no extent. Undefined when it misses the plate. */
export type PlacedLoad =
  | { readonly kind: 'area'; readonly pressure: number; readonly x: readonly [number, number]; readonly y: readonly [number, number] }
  | {
      readonly kind: 'line x' | 'line y' | 'point';
      readonly force: number;
      readonly x: readonly [number, number];
      readonly y: readonly [number, number];
    };
export const placeLoad = (plate: Plate, load: PlateLoad): PlacedLoad | undefined => {
  if (load.kind === 'spread') return { kind: 'area', pressure: load.pressure, x: [0, plate.width], y: [0, plate.height] };
  const clip = (centre: number, size: number, whole: number): readonly [number, number] => [
    Math.max(0, centre - size / 2),
    Math.min(whole, centre + size / 2),
  ];
  const [x, y] = [clip(load.x, load.width, plate.width), clip(load.y, load.height, plate.height)];
  if (x[1] < x[0] || y[1] < y[0]) return undefined;
  const [wide, high] = [load.width > 1e-9, load.height > 1e-9];
  if (wide && high) return { kind: 'area', pressure: load.force / (load.width * load.height), x, y };
  if (wide) return { kind: 'line x', force: (load.force * (x[1] - x[0])) / load.width, x, y };
  if (high) return { kind: 'line y', force: (load.force * (y[1] - y[0])) / load.height, x, y };
  return { kind: 'point', force: load.force, x, y };
};
/** What multiplies (∫ or value of x function) · (∫ or value of y function): a mean over an extent for forces, the integral for pressures. */
export const loadFactor = (load: PlacedLoad): number => {
  const wide = load.x[1] - load.x[0];
  const high = load.y[1] - load.y[0];
  switch (load.kind) {
    case 'area':
      return load.pressure;
    case 'line x':
      return wide > 0 ? load.force / wide : 0;
    case 'line y':
      return high > 0 ? load.force / high : 0;
    case 'point':
      return load.force;
  }
};
