/** Tipped edges, cross-breaks and pressed holes: what they take of the sheet, what they ask of the metal, what they gain. */
import type { CrossBreak, Dimple, Tip } from '../model/part.js';
import type { Sheet } from '../model/shop.js';
import { bendSums } from '../trade/bends.js';
import { ductility, stretchLimit } from '../trade/forming.js';
import {
  type CrossBreakSums,
  crossBreak,
  deepestRim,
  type PressedRim,
  pressedRim,
  rimSpacing,
  SHRINK_LIMIT,
  type TippedEdgeSums,
  type TipStrain,
  tippedEdge,
  tipStrain,
} from '../trade/tipping.js';
import type { TippedEdge, Words } from './types.js';

export interface TipWork {
  readonly sums: TippedEdgeSums;
  /** Inside radius of the tip's bend. */
  readonly inside: number;
  readonly k: number;
  readonly strain: TipStrain | undefined; // undefined on straight edges
  /** What the metal bears at the cut edge, as a strain; undefined where nothing is known. */
  readonly limit: number | undefined;
  readonly verdict: 'ok' | 'over' | 'unknown';
  /** Sentences on what was assumed and what to do. */
  readonly notes: readonly string[];
}
/**
 * One tipped edge.
 *
 * The bend's inside radius is the die's nose, else the sheet's bend radius, else the thickness.
 * @param edge its curve, as the bead room reports it
 * @returns undefined when the bend takes up the whole tip
 */
export const tipWork = (
  tip: Tip,
  edge: Pick<TippedEdge, 'edge' | 'radius' | 'strains'>,
  sheet: Sheet,
  words: Words,
): TipWork | undefined => {
  const { thickness } = sheet;
  const inside = tip.die?.value.nose ?? sheet.bendRadius ?? thickness;
  const k = kOf(sheet, tip.turn, inside);
  const sums = tippedEdge(tip.width.value, tip.turn, inside, thickness, k);
  if (sums === undefined) return undefined;
  const notes: string[] = [];
  if (tip.die?.value.nose === undefined && sheet.bendRadius === undefined)
    notes.push(`bend of the tip taken with an inside radius of ${words.say(inside)}, the thickness; common practice, no source`);
  if (edge.radius === undefined || edge.strains === undefined)
    return { sums, inside, k, strain: undefined, limit: undefined, verdict: 'ok', notes };
  const strain = tipStrain(edge.radius, edge.strains === 'stretch' ? 'hollow' : 'round', tip.width.value, tip.turn, sums);
  if (strain === undefined) return { sums, inside, k, strain: undefined, limit: undefined, verdict: 'over', notes };
  const bears = edge.strains === 'stretch' ? stretchLimit(ductility(metalOf(sheet)))?.working : SHRINK_LIMIT;
  const size = Math.abs(strain.strain);
  const verdict = bears === undefined ? 'unknown' : size > bears ? 'over' : 'ok';
  if (edge.strains === 'shrink') notes.push('about 3 % of shrink goes without puckers on a hand roller; common practice, no source');
  if (verdict === 'over') {
    const widest = widestTip(edge.radius, edge.strains === 'stretch' ? 'hollow' : 'round', tip, inside, thickness, k, bears ?? 0);
    if (widest !== undefined) notes.push(`on this curve a tip ${words.say(widest)} wide would do`);
  }
  return { sums, inside, k, strain, limit: bears, verdict, notes };
};
const metalOf = (sheet: Sheet): { name: string; elongation: number | undefined; hardening: number | undefined } =>
  sheet.material ?? { name: '', elongation: undefined, hardening: undefined };

/** Neutral line by the sheet's own method; by DIN 6935 where it has none, or a trial of another bend. */
const kOf = (sheet: Sheet, turn: number, inside: number): number => {
  const own = sheet.method === undefined ? undefined : bendSums(sheet.method, turn, inside, sheet.thickness);
  const k = own?.k ?? bendSums({ kind: 'din' }, turn, inside, sheet.thickness)?.k ?? 0.5;
  return Math.min(0.5, Math.max(0, k));
};

/** Widest tip whose strain the metal bears; the strain grows with the width. */
const widestTip = (
  radius: number,
  curve: 'hollow' | 'round',
  tip: Tip,
  inside: number,
  thickness: number,
  k: number,
  bears: number,
): number | undefined => {
  const size = (width: number): number | undefined => {
    const sums = tippedEdge(width, tip.turn, inside, thickness, k);
    const strain = sums === undefined ? undefined : tipStrain(radius, curve, width, tip.turn, sums);
    return strain === undefined ? undefined : Math.abs(strain.strain);
  };
  const least = tip.turn <= Math.PI / 2 + 1e-9 ? (inside + thickness) * Math.tan(tip.turn / 2) : inside + thickness;
  if ((size(least) ?? Number.POSITIVE_INFINITY) > bears) return undefined;
  let [low, high] = [least, tip.width.value];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if ((size(middle) ?? Number.POSITIVE_INFINITY) <= bears) low = middle;
    else high = middle;
  }
  return low;
};

export interface CrossBreakWork extends CrossBreakSums {
  readonly notes: readonly string[];
}
/** What is too little for any rule to show is said as such. */
const taken = ({ width, height }: CrossBreakSums['shorter'], words: Words): string =>
  Math.max(width, height) < 0.2
    ? 'less than 0.2 mm of the width and of the height'
    : `${words.say(width)} of the width and ${words.say(height)} of the height`;
/** @param width and height of the face it lies on */
export const crossBreakWork = (one: CrossBreak, width: number, height: number, thickness: number, words: Words): CrossBreakWork => {
  const sums = crossBreak(width - 2 * one.inset, height - 2 * one.inset, one.depth, thickness);
  return {
    ...sums,
    notes: [
      `the breaks take ${taken(sums.shorter, words)}: nothing is added to the blank for them`,
      `against a light spread load it is 1 to ${sums.stiffer.most.toFixed(sums.stiffer.most < 10 ? 1 : 0)} times as stiff as flat, by how far the rim can pull in; past ${words.say(one.depth)} of give it snaps through, so it quiets a panel but does not carry`,
    ],
  };
};

export interface DimpleWork extends PressedRim {
  readonly depth: number;
  readonly limit: number | undefined; // of the rim's stretch
  readonly verdict: 'ok' | 'over' | 'unknown';
  /** The rim stands out more than half its inside diameter. */
  readonly tooDeep: boolean;
  readonly deepest: number;
  readonly spacing: ReturnType<typeof rimSpacing>;
  readonly notes: readonly string[];
}
/** @returns undefined when the file doesn't say how deep: the dies decide, and they are not described */
export const dimpleWork = (dimple: Dimple, sheet: Sheet): DimpleWork | undefined => {
  const { depth } = dimple;
  if (depth === undefined || !(depth > 0)) return undefined;
  const rim = pressedRim(dimple.diameter, depth, sheet.thickness);
  const limit = stretchLimit(ductility(metalOf(sheet)))?.working;
  const deepest = deepestRim(rim.pressedDiameter);
  return {
    ...rim,
    depth,
    limit,
    verdict: limit === undefined ? 'unknown' : rim.strain > limit ? 'over' : 'ok',
    tooDeep: depth > deepest + 1e-9,
    deepest,
    spacing: rimSpacing(rim.footDiameter, sheet.thickness, sheet.bendRadius ?? sheet.thickness),
    notes: [
      'rim taken as a 45° cone; common practice, no source',
      'what pressed holes do for the deflection of the whole panel is not computed: the rim stops the hole’s edge from buckling',
    ],
  };
};
