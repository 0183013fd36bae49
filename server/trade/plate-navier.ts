/** Plates simply held all round: Navier's double sine series. */
import { loadFactor, type PlacedLoad, placeLoad, plateField, type Shapes } from './plate-field.js';
import { type BentPlate, type Plate, type PlateLoad, type SolvedPlate, simplyHeldFrequency, twistTerm } from './plates.js';

/** Terms each way: a point load's deflection is then short by less than 1/10 000. */
const TERMS = 64;

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
export const navierPlate = (plate: Plate, terms = TERMS): SolvedPlate => {
  const { width: a, height: b, stiffness, massPerArea } = plate;
  const [x, y] = [sines(a, terms), sines(b, terms)];
  const h = twistTerm(stiffness);
  const bend = (placed: PlacedLoad | undefined): BentPlate => {
    const sums = new Float64Array(terms * terms);
    if (placed !== undefined) {
      const along = sineLoads(x, a, placed.x, placed.kind === 'point' || placed.kind === 'line y');
      const up = sineLoads(y, b, placed.y, placed.kind === 'point' || placed.kind === 'line x');
      const factor = (4 / (a * b)) * loadFactor(placed);
      for (let m = 1; m <= terms; m++) {
        const alpha = ((m * Math.PI) / a) ** 2;
        for (let n = 1; n <= terms; n++) {
          const beta = ((n * Math.PI) / b) ** 2;
          const stiff = stiffness.x * alpha * alpha + 2 * h * alpha * beta + stiffness.y * beta * beta;
          sums[(m - 1) * terms + n - 1] = (factor * (along[m - 1] as number) * (up[n - 1] as number)) / stiff;
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
