/** How far features keep from each other. Each function gives the least distance in mm with where the rule comes from. */

export interface Spacing {
  readonly distance: number;
  readonly source: string;
}
const MEMORY = 'sheet-metal design guideline, from memory; common practice';
const GUIDELINE = 'sheet-metal design guideline (DRM Associates)';

/**
 * Edge of a hole to the tangent line of a bend, measured in the flat: 2.5 T. The guidelines say 2.5 T + R from the inside face of the
 * bent leg, and that face stands R beyond the tangent line; counted from the tangent line it holds for any angle. Variants say 2 T or 3 T.
 */
export const holeToBend = (thickness: number): Spacing => ({ distance: 2.5 * thickness, source: MEMORY });
/** Edge of a hole to where a curl or a hem begins: its inside radius + T. */
export const holeToCurl = (thickness: number, radius: number): Spacing => ({ distance: radius + thickness, source: GUIDELINE });
/** Edge of a slot to the tangent line of a bend, measured in the flat: 4 T (the guidelines' 4 T + R from the inside face of the bent leg). */
export const slotToBend = (thickness: number): Spacing => ({ distance: 4 * thickness, source: MEMORY });
/** Edge of one hole to the edge of the next: 2 T. */
export const holeToHole = (thickness: number): Spacing => ({ distance: 2 * thickness, source: GUIDELINE });
/** Edge of a hole to the edge of the sheet: 2 T. */
export const holeToEdge = (thickness: number): Spacing => ({ distance: 2 * thickness, source: GUIDELINE });
/** Smallest hole that punches well: T, or 1.2 T and not under 1.2 mm when punched. */
export const leastHole = (thickness: number, punched: boolean): Spacing =>
  punched
    ? { distance: Math.max(1.2 * thickness, 1.2), source: 'enclosure design guideline' }
    : { distance: thickness, source: 'common practice, no source' };
/** A notch to a bend: 3 T + R. */
export const notchToBend = (thickness: number, radius: number): Spacing => ({ distance: 3 * thickness + radius, source: MEMORY });
/** Width of a slit that frees the end of a bend from its neighbour: T, not under 1.5 mm. */
export const bendReliefWidth = (thickness: number): Spacing => ({
  distance: Math.max(thickness, 1.5),
  source: 'common practice, no source',
});
/** How far such a slit runs past the bend's tangent line. */
export const bendReliefPast = (): Spacing => ({ distance: 0.5, source: 'common practice, no source' });
/** Least flange for a hand brake of unknown make: 4 T. */
export const leastFlange = (thickness: number): Spacing => ({ distance: 4 * thickness, source: 'common practice, no source' });

/**
 * Diameter of the round relief where two bends meet at a corner: twice the bend radius, not under 1/8 in for sheet up to 0.064 in, nor under
 * 3/16 in for thicker sheet (the handbook stops at 0.128 in). Centred on the crossing of the inside tangent lines.
 * Source: FAA-H-8083-31 ch. 4, folding a box.
 */
export const cornerReliefDiameter = (radius: number, thickness: number): Spacing => {
  const least = thickness <= 0.064 * 25.4 + 1e-9 ? 25.4 / 8 : (25.4 * 3) / 16;
  return { distance: Math.max(2 * radius, least), source: 'FAA-H-8083-31 ch. 4, folding a box' };
};

/** A distance with what it is made of, for messages. */
export interface RuledSpacing extends Spacing {
  readonly rule: string;
}
/**
 * Middle of a bead to the edge of a hole: 3 T and half the bead's width, which leaves 3 T of flat sheet beside it.
 */
export const beadToHole = (thickness: number, width: number): RuledSpacing => ({
  distance: 3 * thickness + width / 2,
  rule: '3 T + half the bead’s width',
  source: MEMORY,
});
/** Middle of a bead to the edge of the sheet: 4 T and half the bead's width. */
export const beadToEdge = (thickness: number, width: number): RuledSpacing => ({
  distance: 4 * thickness + width / 2,
  rule: '4 T + half the bead’s width',
  source: MEMORY,
});
/**
 * Middle of a bead to the tangent line of a bend, measured in the flat: 4 T and half the bead's width. The guideline adds the bend's radius because it
 * counts from the inside face of the bent leg, which stands that much beyond the tangent line.
 */
export const beadToBend = (thickness: number, width: number): RuledSpacing => ({
  distance: 4 * thickness + width / 2,
  rule: '4 T + half the bead’s width from the bend’s tangent line',
  source: MEMORY,
});
/** Middle to middle of beads that run side by side: three times the wider one. */
export const beadToBead = (width: number, other: number): RuledSpacing => ({
  distance: 3 * Math.max(width, other),
  rule: 'three times the wider bead, middle to middle',
  source: 'stamping handbooks, from memory; common practice',
});
/** The end of one bead to the middle of another that it runs toward: 3 T of flat sheet between their feet. */
export const beadEndToBead = (thickness: number, width: number, other: number): RuledSpacing => ({
  distance: 3 * thickness + (width + other) / 2,
  rule: '3 T of flat sheet between their feet',
  source: 'common practice, no source',
});
/** Middle of a dimpled hole to the edge of another hole: 3 T and its radius. */
export const dimpleToHole = (thickness: number, diameter: number): RuledSpacing => ({
  distance: 3 * thickness + diameter / 2,
  rule: '3 T + the pressed hole’s radius',
  source: GUIDELINE,
});
/** Middle of a dimpled hole to the edge of the sheet: 4 T and its radius. */
export const dimpleToEdge = (thickness: number, diameter: number): RuledSpacing => ({
  distance: 4 * thickness + diameter / 2,
  rule: '4 T + the pressed hole’s radius',
  source: GUIDELINE,
});
/** Middle of a dimpled hole to the tangent line of a bend, in the flat: 2 T and its radius; the bend's own radius is counted by the tangent line. */
export const dimpleToBend = (thickness: number, diameter: number): RuledSpacing => ({
  distance: 2 * thickness + diameter / 2,
  rule: '2 T + the pressed hole’s radius from the bend’s tangent line',
  source: GUIDELINE,
});
