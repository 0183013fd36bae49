/** Plates held along any of their edges, even or stiffened over rectangles: Ritz's method with polynomials. */
import { loadFactor, type PlacedLoad, placeLoad, plateField } from './plate-field.js';
import { type EdgeShapes, edgeShapes } from './plate-shapes.js';
import type { BentPlate, Plate, PlateLoad, PlateStiffness, SolvedPlate } from './plates.js';
import { factorise, leastEigenvalue, solveFactored } from './small-matrix.js';

/**
 * Functions each way, before the longer side gets more of them. Where halves of the plate are alike the system falls apart into small ones, so more can
 * be taken.
 */
const TERMS = { none: 10, one: 12, both: 16 };
/** Beside the kinks at the rim of a stiffened rectangle. */
const TERMS_STIFFENED = { none: 10, one: 11, both: 13 };
const MOST_TERMS = 36;
/** Under a load on a small place the deflection nears its true value as 1/terms²; a second, coarser answer with this share of the terms tells how far it is. */
const COARSER = 2 / 3;

/** Integrals of products over an extent: curve·curve, slope·slope, value·value, curve·value (row the curve). */
interface Grams {
  readonly curves: Float64Array;
  readonly slopes: Float64Array;
  readonly values: Float64Array;
  readonly mixed: Float64Array;
}
const grams = (shapes: EdgeShapes, extent: readonly [number, number]): Grams => {
  const n = shapes.count;
  const [curves, slopes, values, mixed] = [
    new Float64Array(n * n),
    new Float64Array(n * n),
    new Float64Array(n * n),
    new Float64Array(n * n),
  ];
  overPieces(shapes, extent, (place, w) => {
    const at = shapes.at(place);
    for (let i = 0; i < n; i++) {
      const [v, s, c] = [w * (at.value[i] as number), w * (at.slope[i] as number), w * (at.curve[i] as number)];
      for (let j = 0; j < n; j++) {
        const k = i * n + j;
        curves[k] = (curves[k] as number) + c * (at.curve[j] as number);
        slopes[k] = (slopes[k] as number) + s * (at.slope[j] as number);
        values[k] = (values[k] as number) + v * (at.value[j] as number);
        mixed[k] = (mixed[k] as number) + c * (at.value[j] as number);
      }
    }
  });
  return { curves, slopes, values, mixed };
};
/** Gauss places and weights over an extent, piece by piece between breaks. */
const overPieces = (shapes: EdgeShapes, [from, to]: readonly [number, number], take: (place: number, weight: number) => void): void => {
  const places = [from, ...shapes.breaks.filter((at) => at > from && at < to), to];
  for (let piece = 1; piece < places.length; piece++) {
    const [start, end] = [places[piece - 1] as number, places[piece] as number];
    for (const [u, weight] of shapes.nodes) take(start + u * (end - start), weight * (end - start));
  }
};

/** One family of functions that stands apart from the rest: places in x and in y, and the factor of its stiffness. */
interface Block {
  readonly pairs: readonly (readonly [number, number])[];
  readonly factor: Float64Array;
}
interface Alike {
  readonly x: boolean;
  readonly y: boolean;
}

/** All that depends on a plate's size, its edges and where it is stiffened, and not on how stiff it is. */
export interface PlateFrame {
  readonly key: string;
  readonly x: EdgeShapes;
  readonly y: EdgeShapes;
  readonly polynomials: readonly [number, number];
  readonly alike: Alike;
  readonly whole: readonly [Grams, Grams];
  readonly inside: readonly [Grams, Grams] | undefined;
}
const keyOf = ({ width, height, edges, stiffened }: Plate, terms: number | undefined): string =>
  JSON.stringify([width, height, edges.left, edges.right, edges.bottom, edges.top, stiffened?.x, stiffened?.y, terms]);

const frameOf = (plate: Plate, terms: number | undefined): PlateFrame => {
  const { width, height, edges, stiffened } = plate;
  const marginsX = marginsOf(stiffened?.x, width);
  const marginsY = marginsOf(stiffened?.y, height);
  const alike: Alike = {
    x: edges.left === edges.right && Math.abs(marginsX[0] - marginsX[1]) < 1e-9 * width,
    y: edges.bottom === edges.top && Math.abs(marginsY[0] - marginsY[1]) < 1e-9 * height,
  };
  const polynomials = termsFor(plate, alike, terms);
  const x = edgeShapes(width, edges.left, edges.right, polynomials[0], marginsX);
  const y = edgeShapes(height, edges.bottom, edges.top, polynomials[1], marginsY);
  return {
    key: keyOf(plate, terms),
    x,
    y,
    polynomials,
    alike,
    whole: [grams(x, [0, width]), grams(y, [0, height])],
    inside: stiffened === undefined ? undefined : [grams(x, stiffened.x), grams(y, stiffened.y)],
  };
};

/**
 * Least-energy deflection among w = Σ c_ij X_i(x) Y_j(y).
 *
 * @param like of a plate solved before: taken over where it fits this one
 * @returns undefined when the edges leave the plate loose
 * Source: Ritz's method; plate energy from Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. (1959).
 */
export const ritzPlate = (plate: Plate, terms?: number, like?: PlateFrame): SolvedPlate | undefined => {
  const { width, height, massPerArea, stiffened } = plate;
  const frame = like?.key === keyOf(plate, terms) ? like : frameOf(plate, terms);
  const { x, y, alike } = frame;
  const [askedX, askedY] = frame.polynomials;
  const [nx, ny] = [x.count, y.count];
  const parts = stiffnessParts(plate, frame);
  const blocks = blocksOf(parts, alike, x, y, [nx, ny]);
  if (blocks === undefined) return undefined;
  const solve = (from: readonly Block[], placed: PlacedLoad, sums: Float64Array, share: number): void => {
    const along = loads(x, placed.x, placed.kind === 'point' || placed.kind === 'line y');
    const up = loads(y, placed.y, placed.kind === 'point' || placed.kind === 'line x');
    const factor = share * loadFactor(placed);
    for (const { pairs, factor: stiff } of from) {
      const right = Float64Array.from(pairs, ([i, j]) => factor * (along[i] as number) * (up[j] as number));
      if (right.every((value) => value === 0)) continue;
      const solved = solveFactored(stiff, pairs.length, right);
      pairs.forEach(([i, j], k) => {
        sums[i * ny + j] = (sums[i * ny + j] as number) + (solved[k] as number);
      });
    }
  };
  const bend = (load: PlateLoad): BentPlate => {
    const sums = new Float64Array(nx * ny);
    const placed = placeLoad(plate, load);
    const coarse =
      load.kind === 'patch' && stiffened === undefined ? blocksOf(parts, alike, x, y, [coarser(askedX), coarser(askedY)]) : undefined;
    if (placed !== undefined) {
      const over = smallness(placed, plate, askedX, askedY) * ((COARSER * COARSER) / (1 - COARSER * COARSER));
      solve(blocks, placed, sums, coarse === undefined ? 1 : 1 + over);
      if (coarse !== undefined) solve(coarse, placed, sums, -over);
    }
    return plateField(plate, x, y, sums);
  };
  return {
    frame,
    under: bend,
    firstFrequency: () => {
      if (massPerArea === undefined) return undefined;
      const least = Math.min(...blocks.map((block) => leastEigenvalue(block.factor, block.pairs.length)));
      // Orthonormal on 0…1 each way: the mass matrix is (mass per area · width · height) times the unit matrix.
      return Math.sqrt(least / (massPerArea * width * height)) / (2 * Math.PI);
    },
  };
};

/**
 * How far a load is like a force at a point, 1…0: by the half-waves of the finest function that go into its size. Fitted on clamped and mixed plates, where
 * it brings loads of any size within 0.5 % with the usual terms.
 */
const smallness = ({ x, y }: PlacedLoad, { width, height }: Plate, nx: number, ny: number): number => {
  const waves = ((nx * (x[1] - x[0])) / width + (ny * (y[1] - y[0])) / height) / 2;
  return Math.max(0, 1 - waves / 2.4);
};

const coarser = (terms: number): number => Math.max(2, Math.round(terms * COARSER));

/** More along the side that is longer for its stiffness, the product kept. */
const termsFor = (plate: Plate, alike: Alike, asked: number | undefined): readonly [number, number] => {
  if (asked !== undefined) return [Math.min(asked, MOST_TERMS), Math.min(asked, MOST_TERMS)];
  const halves = alike.x && alike.y ? 'both' : alike.x || alike.y ? 'one' : 'none';
  if (plate.stiffened !== undefined) return [TERMS_STIFFENED[halves], TERMS_STIFFENED[halves]];
  const usual = TERMS[halves];
  const longer = (plate.width / plate.height) * (plate.stiffness.y / plate.stiffness.x) ** 0.25;
  const tilt = Math.min(Math.max(Math.sqrt(longer), 0.5), 2);
  return [Math.round(usual * tilt), Math.round(usual / tilt)];
};

const blocksOf = (
  parts: readonly Part[],
  alike: Alike,
  x: EdgeShapes,
  y: EdgeShapes,
  taken: readonly [number, number],
): readonly Block[] | undefined => {
  const blocks: Block[] = [];
  for (const px of alike.x ? [0, 1] : [undefined]) {
    for (const py of alike.y ? [0, 1] : [undefined]) {
      const pairs = pairsOf(x, y, taken, px, py);
      const factor = stiffnessOf(parts, pairs, x.count, y.count);
      if (!factorise(factor, pairs.length)) return undefined;
      blocks.push({ pairs, factor });
    }
  }
  return blocks;
};

/** Bare sheet on either side of the stiffened stretch. */
const marginsOf = (extent: readonly [number, number] | undefined, whole: number): readonly [number, number] =>
  extent === undefined ? [0, 0] : [Math.max(0, extent[0]), Math.max(0, whole - extent[1])];

const pairsOf = (
  x: EdgeShapes,
  y: EdgeShapes,
  [nx, ny]: readonly [number, number],
  px: number | undefined,
  py: number | undefined,
): readonly (readonly [number, number])[] => {
  const pairs: (readonly [number, number])[] = [];
  const taken = (shapes: EdgeShapes, i: number, most: number, parity: number | undefined): boolean =>
    i < most && (parity === undefined || shapes.parity[i] === parity);
  for (let i = 0; i < x.count; i++) {
    if (!taken(x, i, nx, px)) continue;
    for (let j = 0; j < y.count; j++) if (taken(y, j, ny, py)) pairs.push([i, j]);
  }
  return pairs;
};

const loads = (shapes: EdgeShapes, extent: readonly [number, number], place: boolean): Float64Array => {
  if (place) return shapes.at(extent[0]).value;
  const sums = new Float64Array(shapes.count);
  overPieces(shapes, extent, (at, weight) => {
    shapes.at(at).value.forEach((v, i) => {
      sums[i] = (sums[i] as number) + weight * v;
    });
  });
  return sums;
};

interface Part {
  readonly stiffness: PlateStiffness;
  readonly x: Grams;
  readonly y: Grams;
}
/** The whole plate at its own stiffness, and the stiffened rectangle at what it has over that. */
const stiffnessParts = ({ stiffness: base, stiffened }: Plate, { whole, inside }: PlateFrame): readonly Part[] => {
  const first: Part = { stiffness: base, x: whole[0], y: whole[1] };
  if (stiffened === undefined || inside === undefined) return [first];
  const over = stiffened.stiffness;
  const more = { x: over.x - base.x, y: over.y - base.y, cross: over.cross - base.cross, twist: over.twist - base.twist };
  return [first, { stiffness: more, x: inside[0], y: inside[1] }];
};

/** Lower half only. */
const stiffnessOf = (parts: readonly Part[], pairs: readonly (readonly [number, number])[], nx: number, ny: number): Float64Array => {
  const n = pairs.length;
  const matrix = new Float64Array(n * n);
  const acrossOf = Int32Array.from(pairs, ([i]) => i);
  const upOf = Int32Array.from(pairs, ([, j]) => j);
  for (const { stiffness: d, x, y } of parts) {
    const { curves: xc, slopes: xs, values: xv, mixed: xm } = x;
    const { curves: yc, slopes: ys, values: yv, mixed: ym } = y;
    for (let row = 0; row < n; row++) {
      const i = acrossOf[row] as number;
      const j = upOf[row] as number;
      for (let column = 0; column <= row; column++) {
        const k = acrossOf[column] as number;
        const l = upOf[column] as number;
        const ik = i * nx + k;
        const jl = j * ny + l;
        const at = row * n + column;
        matrix[at] =
          (matrix[at] as number) +
          d.x * (xc[ik] as number) * (yv[jl] as number) +
          d.y * (xv[ik] as number) * (yc[jl] as number) +
          4 * d.twist * (xs[ik] as number) * (ys[jl] as number) +
          d.cross * ((xm[ik] as number) * (ym[l * ny + j] as number) + (xm[k * nx + i] as number) * (ym[jl] as number));
      }
    }
  }
  return matrix;
};
