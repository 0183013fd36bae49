/** The tightest inside radius a sheet takes without cracking. */
import type { GaugeTable } from './gauges.js';

/** How the bend line lies to the rolling direction. */
export type GrainLine = 'across' | 'along';

/** What is asked of a metal to find its tightest radius. */
export interface BentMetal {
  readonly name: string;
  readonly density: number | undefined; // kg/m³
  readonly tensile: number | undefined; // MPa
  readonly modulus: number | undefined; // MPa
  readonly gaugeTable: GaugeTable | undefined;
  /** Alloy and temper as written, `5052-H32`. */
  readonly alloy?: string;
  /** The shop's own findings by thickness, for a bend line across the grain and one along it, mm. */
  readonly tightest: readonly { readonly upTo: number; readonly across: number; readonly along: number }[];
}

export interface TightestRadius {
  readonly radius: number; // mm
  readonly source: string;
}

/** Upper ends of the thickness columns, mm. */
const DIN_THICKNESS: readonly number[] = [1, 1.5, 2.5, 3, 4, 5, 6, 7, 8, 10, 12];
/**
 * Smallest permissible radius for cold bending, mm, by tensile strength (up to, MPa), across the rolling direction and turned at most 120°.
 * Source: DIN 6935:1975-10; read from a partly garbled reprint, columns put back in order.
 */
const DIN_ROWS: readonly { readonly upTo: number; readonly radii: readonly number[] }[] = [
  { upTo: 390, radii: [1, 1.6, 2.5, 3, 5, 6, 8, 10, 12, 16, 20] },
  { upTo: 490, radii: [1.2, 2, 3, 4, 5, 8, 10, 12, 16, 20, 25] },
  { upTo: 640, radii: [1.6, 2.5, 4, 5, 6, 8, 10, 12, 16, 20, 25] },
];

/**
 * DIN 6935 smallest radius for flat steel.
 *
 * @param tensile   MPa
 * @param thickness mm
 * @param turn      rad
 * @returns mm; undefined outside the table (over 12 mm or 640 MPa). Along the grain, or turned more than 120°, the next greater thickness counts.
 */
export const dinTightestRadius = (tensile: number, thickness: number, line: GrainLine, turn: number): number | undefined => {
  const row = DIN_ROWS.find((r) => tensile <= r.upTo + 1e-9);
  const column = DIN_THICKNESS.findIndex((t) => thickness <= t + 1e-9);
  if (row === undefined || column < 0) return undefined;
  const harder = line === 'along' || turn > (120 * Math.PI) / 180 + 1e-9;
  return row.radii[harder ? column + 1 : column];
};

/** Thickness columns of the aluminium table, mm: 1/64, 1/32, 1/16, 1/8, 3/16, 1/4, 3/8 and 1/2 in. */
const ALUMINIUM_THICKNESS: readonly number[] = [1 / 64, 1 / 32, 1 / 16, 1 / 8, 3 / 16, 1 / 4, 3 / 8, 1 / 2].map((inches) => inches * 25.4);
/**
 * Recommended minimum inside radius for a square cold bend, in thicknesses, by alloy and temper.
 * Source: Aluminum Association, Aluminum Design Manual, January 2005, part VII, table 3-1; the 6061 rows from a reprint of the same table.
 */
const ALUMINIUM: ReadonlyMap<string, readonly number[]> = new Map([
  ['1100-O', [0, 0, 0, 0, 0.5, 1, 1, 1.5]],
  ['1100-H14', [0, 0, 0, 1, 1, 1.5, 2, 2.5]],
  ['3003-O', [0, 0, 0, 0, 0.5, 1, 1, 1.5]],
  ['3003-H14', [0, 0, 0, 1, 1, 1.5, 2, 2.5]],
  ['5052-O', [0, 0, 0, 0.5, 1, 1, 1.5, 1.5]],
  ['5052-H32', [0, 0, 1, 1.5, 1.5, 1.5, 1.5, 2]],
  ['5052-H34', [0, 1, 1.5, 2, 2, 2.5, 2.5, 3]],
  ['6061-O', [0, 0, 0, 1, 1, 1, 1.5, 2]],
  ['6061-T4', [0, 0, 1, 1.5, 2.5, 3, 3.5, 4]],
  ['6061-T6', [1, 1, 1.5, 2.5, 3, 3.5, 4.5, 5]],
]);
/** The alloys and tempers that the table has. */
export const aluminiumTempers: readonly string[] = [...ALUMINIUM.keys()];

/** The table's own name of an alloy and temper, however it was written: `5052 h32`, `EN AW-5052-H32`. Undefined when the table has no such row. */
export const aluminiumTemper = (written: string): string | undefined => {
  const bare = (name: string): string =>
    name
      .toUpperCase()
      .replace(/[^A-Z0-9]/g, '')
      .replace(/^(EN)?(AW)?/, '');
  return aluminiumTempers.find((name) => bare(name) === bare(written));
};

/**
 * Smallest inside radius of the aluminium table.
 *
 * @param thickness mm; between two columns the thicker one counts
 * @returns mm; undefined for another alloy, or over 1/2 in. The table does not part bends across the grain from bends along it.
 */
export const aluminiumTightestRadius = (alloy: string, thickness: number): number | undefined => {
  const times = ALUMINIUM.get(aluminiumTemper(alloy) ?? '')?.[ALUMINIUM_THICKNESS.findIndex((t) => thickness <= t + 0.02)];
  return times === undefined ? undefined : times * thickness;
};

/**
 * Smallest inside radius for a bend: what the shop's own material says, else the published tables for aluminium alloys and carbon steel.
 *
 * @returns undefined when neither knows the metal
 */
export const tightestRadius = (material: BentMetal, thickness: number, line: GrainLine, turn: number): TightestRadius | undefined => {
  // The least row that reaches this thickness.
  let own: BentMetal['tightest'][number] | undefined;
  for (const row of material.tightest) if (thickness <= row.upTo + 1e-9 && (own === undefined || row.upTo < own.upTo)) own = row;
  if (own !== undefined) return { radius: line === 'along' ? own.along : own.across, source: `material ${material.name}` };
  if (material.alloy !== undefined) {
    const radius = aluminiumTightestRadius(material.alloy, thickness);
    if (radius !== undefined) return { radius, source: `Aluminum Design Manual 2005, ${aluminiumTemper(material.alloy)}` };
  }
  if (material.tensile === undefined || !isCarbonSteel(material)) return undefined;
  const radius = dinTightestRadius(material.tensile, thickness, line, turn);
  return radius === undefined ? undefined : { radius, source: 'DIN 6935:1975-10, smallest bending radii' };
};

/** The table is for flat carbon steel: told by its gauge table, or else by its density and stiffness together. */
const isCarbonSteel = (material: BentMetal): boolean => {
  if (material.gaugeTable === 'steel' || material.gaugeTable === 'galvanised') return true;
  if (material.gaugeTable !== undefined) return false;
  const dense = material.density !== undefined && material.density >= 7800 && material.density <= 7880;
  const stiff = material.modulus === undefined || (material.modulus >= 200e3 && material.modulus <= 215e3);
  return dense && stiff;
};
