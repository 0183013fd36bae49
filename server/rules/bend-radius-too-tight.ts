import type { BendLine } from '../blank/types.js';
import type { Material } from '../model/shop.js';
import type { Part } from '../model/part.js';
import type { Rule } from './rule.js';
import { bendFeature, laidOut, lengthTolerance, speak } from './subject.js';

/**
 * Smallest inside radius for cold bending of flat steel, mm, across the rolling direction and up to 120°; a bend along it or a greater turn
 * takes the value of the next greater thickness. Rows by thickness up to, columns by tensile strength up to (MPa).
 * Source: DIN 6935:1975-10, table of smallest permissible bend radii.
 */
const steelThicknesses = [1, 1.5, 2.5, 3, 4, 5, 6, 7, 8, 10, 12];
const steelRadii: readonly { readonly tensile: number; readonly radii: readonly number[] }[] = [
  { tensile: 390, radii: [1, 1.6, 2.5, 3, 5, 6, 8, 10, 12, 16, 20] },
  { tensile: 490, radii: [1.2, 2, 3, 4, 5, 8, 10, 12, 16, 20, 25] },
  { tensile: 640, radii: [1.6, 2.5, 4, 5, 6, 8, 10, 12, 16, 20, 25] },
];
const greatestPlainTurn = (120 * Math.PI) / 180;

/** Whether the metal is steel is not written anywhere, so it is taken from its gauge table or else from its modulus. */
const isSteel = (material: Material): boolean =>
  material.gaugeTable === 'steel' ||
  material.gaugeTable === 'galvanised' ||
  (material.gaugeTable === undefined && material.modulus !== undefined && material.modulus > 190e3 && material.modulus < 220e3);

/** A bend line less than 45° from the grain counts as along it (common practice, no source). Grain that is not stated counts as across. */
const runsAlongTheGrain = (part: Part, bend: BendLine): boolean => {
  const grain = part.grain?.value;
  if (grain !== 'x' && grain !== 'y') return false;
  const dx = Math.abs(bend.to.x - bend.from.x);
  const dy = Math.abs(bend.to.y - bend.from.y);
  return grain === 'x' ? dx > dy : dy > dx;
};

interface Least {
  readonly radius: number;
  readonly says: string;
  readonly certain: boolean;
}

const leastRadius = (material: Material, thickness: number, turn: number, along: boolean): Least | undefined => {
  const own = [...material.tightest].sort((a, b) => a.upTo - b.upTo).find(({ upTo }) => thickness <= upTo + lengthTolerance);
  const way = along ? 'along the grain' : 'across the grain';
  if (own !== undefined) return { radius: along ? own.along : own.across, says: `${material.name} ${way}`, certain: true };
  if (material.tensile === undefined || material.tightest.length > 0 || !isSteel(material)) return undefined;
  const tensile = material.tensile;
  const column = steelRadii.find((row) => tensile <= row.tensile);
  const row = steelThicknesses.findIndex((upTo) => thickness <= upTo + lengthTolerance);
  if (column === undefined || row < 0) return undefined;
  const radius = column.radii[along || turn > greatestPlainTurn + 1e-5 ? row + 1 : row];
  return radius === undefined ? undefined : { radius, says: `DIN 6935 for steel of ${Math.round(tensile)} MPa ${way}`, certain: false };
};

export const bendRadiusTooTight: Rule = {
  name: 'bend/radius-too-tight',
  severity: 'error',
  what: 'The inside radius is tighter than the metal takes. The material’s own `tightest` lines decide; a steel without any, but with its tensile strength, is held against DIN 6935, and then it is a warning. A bend line running with the grain wants the larger radius.',
  why: 'The outside of the bend cracks, at once or later. Use a larger radius, turn the part so that the bend lies across the grain, or take a softer sheet.',
  example: `units millimetre

material half_hard { density 2700 kg/m3  tightest up to 2 across 3 along 4 }
sheet al_15 { material half_hard  thickness 1.5  bend radius 3 k 0.42 }

panel shelf {
  sheet al_15
  outline rectangle 200 by 100
  grain along y
  edge top { flange 20 up 90 radius 2 } // error: bend/radius-too-tight
}
`,
  cure: `units millimetre

material half_hard { density 2700 kg/m3  tightest up to 2 across 3 along 4 }
sheet al_15 { material half_hard  thickness 1.5  bend radius 3 k 0.42 }

panel shelf {
  sheet al_15
  outline rectangle 200 by 100
  grain along y
  edge top { flange 20 up 90 radius 3 }
}
`,
  source: 'The material’s own table; else DIN 6935:1975-10, smallest permissible bend radii.',
  check: (subject) => {
    const ready = laidOut(subject);
    const material = ready?.sheet.material;
    if (ready === undefined || material === undefined) return [];
    return ready.blank.bends.flatMap((bend) => {
      const least = leastRadius(material, ready.blank.thickness, bend.turn, runsAlongTheGrain(ready.part, bend));
      if (least === undefined || bend.radius >= least.radius - lengthTolerance) return [];
      const message = `the bend ${bend.id} has an inside radius of ${subject.say(bend.radius)}; ${least.says} takes ${subject.say(least.radius)} or more at ${subject.say(ready.blank.thickness)} thick: write \`radius ${subject.write(least.radius, 'up')}\``;
      return [
        speak(subject, bendRadiusTooTight, bend.span, message, {
          features: [bendFeature(bend)],
          severity: least.certain ? 'error' : 'warning',
        }),
      ];
    });
  },
};
