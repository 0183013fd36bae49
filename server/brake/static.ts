/** What stops a bend whatever the state of the part: the brake's length, its capacity, how far its leaf turns. */
import type { BendLine } from '../blank/types.js';
import type { Brake, Material, Sheet } from '../model/shop.js';
import { STAINLESS_PRACTICE, thickestOnBrake } from '../trade/brake-capacity.js';
import type { Operation } from './pieces.js';
import { LENGTH_TOLERANCE } from './tools.js';
import { LEAST_HEM_TURN } from './turns.js';
import type { Obstacle } from './types.js';

const ANGLE_TOLERANCE = (0.001 * Math.PI) / 180;

/** Rated metal's strength over the sheet's: tensile where both have it, else yield; undefined when nothing compares them. */
const strengthRatio = (rated: Material, sheet: Material): number | undefined => {
  if (rated.name === sheet.name && rated.file === sheet.file) return 1;
  if (rated.tensile !== undefined && sheet.tensile !== undefined) return rated.tensile / sheet.tensile;
  if (rated.yield !== undefined && sheet.yield !== undefined) return rated.yield / sheet.yield;
  return undefined;
};

/** Thickest sheet of its metal that the brake takes over a bend of this length, mm; undefined where the shop has not said or nothing compares the metals. */
export const thickestFor = (brake: Brake, sheet: Sheet, bend: number): number | undefined => {
  if (brake.capacity === undefined) return undefined;
  const { thickness, material } = brake.capacity;
  const ratio = material === undefined || sheet.material === undefined ? 1 : strengthRatio(material, sheet.material);
  const lengths = brake.length === undefined ? undefined : { brake: brake.length, bend };
  return ratio === undefined ? undefined : thickestOnBrake(thickness, ratio, lengths);
};

export const isStainless = (sheet: Sheet): boolean => {
  const { material } = sheet;
  return material !== undefined && (material.gaugeTable === 'stainless' || /stainless|inox/i.test(material.name));
};
/** What shops allow in stainless, beside the rule. */
export const stainlessPractice = (brake: Brake, sheet: Sheet): number | undefined =>
  brake.capacity === undefined ||
  !isStainless(sheet) ||
  (brake.capacity.material !== undefined && /stainless|inox/i.test(brake.capacity.material.name))
    ? undefined
    : brake.capacity.thickness * STAINLESS_PRACTICE;

const bendLengthOf = (bend: BendLine): number => Math.hypot(bend.to.x - bend.from.x, bend.to.y - bend.from.y);

export const staticFaults = (
  brake: Brake,
  sheet: Sheet,
  thickness: number,
  bend: BendLine,
  operation: Operation,
  set: number,
): readonly Obstacle[] => {
  const faults: Obstacle[] = [];
  const wants = bendLengthOf(bend);
  if (brake.length !== undefined && wants > brake.length + LENGTH_TOLERANCE) faults.push({ kind: 'length', has: brake.length, wants });
  const takes = thickestFor(brake, sheet, wants);
  if (takes !== undefined && thickness > takes + LENGTH_TOLERANCE)
    faults.push({ kind: 'thickness', takes, has: thickness, stainlessPractice: stainlessPractice(brake, sheet) });
  const greatest = brake.greatestTurn;
  if (greatest !== undefined) {
    const needs = operation.make === 'hem' ? LEAST_HEM_TURN : set;
    if (needs > greatest + ANGLE_TOLERANCE) faults.push({ kind: 'turn', greatest, wants: needs });
  }
  return faults;
};
