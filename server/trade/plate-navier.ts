/** Plates simply held all round: Navier's double sine series. */
import { loadFactor, type PlacedLoad, placeLoad, plateField, type Shapes } from './plate-field.js';
import type { BentPlate, Plate, PlateLoad, PlateStiffness, SolvedPlate } from './plates.js';

/** Twist term H = cross + 2 · twist of the plate equation. */
export const twistTerm = (stiffness: PlateStiffness): number => stiffness.cross + 2 * stiffness.twist;

/**
 * Lowest frequency of a plate simply held all round: (π/2) √((Dx/a⁴ + 2 H/(a² b²) + Dy/b⁴) / mass per area), Hz.
 * Source: plate theory, closed form of the first Navier term.
 */
export const simplyHeldFrequency = (plate: Plate, massPerArea: number): number => {
  const { width: a, height: b, stiffness } = plate;
  const sum = stiffness.x / a ** 4 + (2 * twistTerm(stiffness)) / (a * a * b * b) + stiffness.y / b ** 4;
  return (Math.PI / 2) * Math.sqrt(sum / massPerArea);
};

/** Terms each way, before the longer side gets more: a point load's deflection is then short by about 1/10 000 on a square plate. */
const TERMS = 72;

const sines = (length: number, count: number): Shapes => ({
  count,
  at: (place) => {
    const [value, slope, curve] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
    // sin and cos of multiples of one angle, each from the one before.
    const [s, c] = [Math.sin((Math.PI * place) / length), Math.cos((Math.PI * place) / length)];
    let [sm, cm] = [s, c];
    for (let m = 1; m <= count; m++) {
      const wave = (m * Math.PI) / length;
      value[m - 1] = sm;
      slope[m - 1] = wave * cm;
      curve[m - 1] = -wave * wave * sm;
      [sm, cm] = [sm * c + cm * s, cm * c - sm * s];
    }
    return { value, slope, curve };
  },
});

/** Integral of each sine over an extent, or its value at a place. */
const sineLoads = (shapes: Shapes, length: number, extent: readonly [number, number], place: boolean): Float64Array => {
  if (place) return shapes.at(extent[0]).value;
  const loads = new Float64Array(shapes.count);
  const [from, to] = [shapes.at(extent[0]).slope, shapes.at(extent[1]).slope];
  for (let m = 1; m <= shapes.count; m++) {
    const wave = (m * Math.PI) / length;
    loads[m - 1] = ((from[m - 1] as number) - (to[m - 1] as number)) / (wave * wave);
  }
  return loads;
};

/**
 * w = Σ (4/(a b)) · p_mn · sin · sin / (Dx α⁴ + 2 H α² β² + Dy β⁴), α = mπ/a, β = nπ/b, p_mn the load's share of each product of sines.
 * Source: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. (1959), Navier's solution.
 */
export const navierPlate = (plate: Plate, terms?: number): SolvedPlate => {
  const { width: a, height: b, stiffness, massPerArea } = plate;
  const longer = (a / b) * (stiffness.y / stiffness.x) ** 0.25;
  const tilt = Math.min(Math.max(Math.sqrt(longer), 0.5), 2);
  const [across, up] = terms === undefined ? [Math.round(TERMS * tilt), Math.round(TERMS / tilt)] : [terms, terms];
  const [x, y] = [sines(a, across), sines(b, up)];
  const h = twistTerm(stiffness);
  const bend = (placed: PlacedLoad | undefined): BentPlate => {
    const sums = new Float64Array(across * up);
    if (placed !== undefined) {
      const alongX = sineLoads(x, a, placed.x, placed.kind === 'point' || placed.kind === 'line y');
      const alongY = sineLoads(y, b, placed.y, placed.kind === 'point' || placed.kind === 'line x');
      const factor = (4 / (a * b)) * loadFactor(placed);
      for (let m = 1; m <= across; m++) {
        const alpha = ((m * Math.PI) / a) ** 2;
        for (let n = 1; n <= up; n++) {
          const beta = ((n * Math.PI) / b) ** 2;
          const stiff = stiffness.x * alpha * alpha + 2 * h * alpha * beta + stiffness.y * beta * beta;
          sums[(m - 1) * up + n - 1] = (factor * (alongX[m - 1] as number) * (alongY[n - 1] as number)) / stiff;
        }
      }
    }
    return plateField(plate, x, y, sums);
  };
  return {
    under: (load: PlateLoad) => bend(placeLoad(plate, load)),
    firstFrequency: () => (massPerArea === undefined ? undefined : simplyHeldFrequency(plate, massPerArea)),
  };
};
