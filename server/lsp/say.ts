import type { WorkedBead } from '../bead/types.js';
import type { BendLine, Blank } from '../blank/types.js';
import { homeUnit } from '../model/dimension.js';
import { sayLength as lengthInWords, sayBendSum, sayExactly, sayMass, sayOther, saySize, sayThickness } from '../model/display.js';
import type { FileModel, HomeUnit } from '../model/model.js';
import type { Part } from '../model/part.js';
import type { Value } from '../model/values.js';
import type { PartResult } from '../project.js';
import { type CutFromLength, isCutFromLength } from '../sheets/index.js';
import { pieceWork } from '../stock/index.js';
import { type Ask, sameSpan, touches } from './ask.js';

export { sayAngle } from '../model/display.js';

const unitOf = (ask: Ask): HomeUnit | undefined => ask.project.model(ask.path).units;
const inch = homeUnit('inch');

/** What stands instead of a picture, of the bends and of the folded part, in a file that has none, such as the shop’s. */
export const noPart = 'There is no part in this file yet. One begins with panel, section or piece, and its name.';

export const sayLength = (ask: Ask, mm: number): string => lengthInWords(mm, unitOf(ask), ask.settings.display.denominator);

/** `1 3/8 in (1.375 in, 34.925 mm)`: the fraction first, what it stands for exactly, then the other unit when wanted. */
export const sayLengthFully = (ask: Ask, mm: number): string => {
  const unit = unitOf(ask);
  const short = sayLength(ask, mm);
  const exact = sayExactly(mm, unit);
  const other = sayOther(mm, unit);
  const others = other.endsWith(' in') ? [lengthInWords(mm, inch, ask.settings.display.denominator), other] : [other];
  const more = [...(short === exact ? [] : [exact]), ...(ask.settings.display.secondUnit ? others : [])];
  return more.length === 0 ? short : `${short} (${more.join(', ')})`;
};

/** The file's own form, then the other unit when wanted. */
const withOther = (ask: Ask, own: string, mm: number): string =>
  ask.settings.display.secondUnit ? `${own} (${sayOther(mm, unitOf(ask))})` : own;
export const thicknessOf = (ask: Ask, mm: number): string => withOther(ask, sayThickness(mm, unitOf(ask)), mm);
export const bendSumOf = (ask: Ask, mm: number): string => withOther(ask, sayBendSum(mm, unitOf(ask)), mm);

/** A value the way its file would write it; a length with its exact size and the other unit. */
export const sayValue = (ask: Ask, model: FileModel, value: Value): string =>
  value.kind === 'number' && !value.bare && isPlainLength(value) ? sayLengthFully(ask, value.value) : model.say(value);

const isPlainLength = (value: Extract<Value, { kind: 'number' }>): boolean => {
  const { length, angle, mass, force, time, money } = value.dim;
  return length === 1 && angle === 0 && mass === 0 && force === 0 && time === 0 && money === 0;
};

/** `30 1/4 × 11 in`: width by height, the unit said once. */
export const blankSize = (ask: Ask, blank: Blank): string =>
  saySize(blank.width, blank.height, unitOf(ask), ask.settings.display.denominator);

export const massOf = (ask: Ask, blank: Blank): string | undefined =>
  blank.mass === undefined ? undefined : sayMass(blank.mass, unitOf(ask));

export const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

/** One line for the part chooser, the code lens and the status bar. */
export const partSummary = (ask: Ask, result: PartResult): string => {
  if (isCutFromLength(result.part)) return pieceSummary(ask, result.part);
  const blank = result.blank.blank;
  if (blank === undefined) return result.part.broken ? 'not laid out: see the findings' : '';
  const mass = massOf(ask, blank);
  return [blankSize(ask, blank), ...(mass === undefined ? [] : [mass]), counted(blank.bends.length, 'bend')].join(', ');
};

/** `29 13/16 in, 27 13/16 in between short points, 1.9 lb`. */
const pieceSummary = (ask: Ask, part: CutFromLength): string => {
  const { length, shortLength, mass } = pieceWork(part, { say: String });
  if (part.broken || length === undefined) return part.broken ? 'not drawn: see the findings' : '';
  const short = shortLength !== undefined && length - shortLength > 0.005 ? [`${sayLength(ask, shortLength)} between short points`] : [];
  return [sayLength(ask, length), ...short, ...(mass === undefined ? [] : [sayMass(mass, unitOf(ask))])].join(', ');
};

/**
 * Why a part can't be laid out, in the words of its first error: those inside it come first, then those elsewhere in its file, since a
 * broken value is reported where it stands and nowhere else.
 */
export const reasonNotLaidOut = (ask: Ask, { result, start }: PlacedPart): string => {
  const errors = ask.project.findings(ask.path).filter((finding) => finding.severity === 'error');
  const inside = errors.find((finding) => start <= finding.span.start && finding.span.end <= start + partLength(result.part));
  if (isCutFromLength(result.part) && inside === undefined) {
    const known = pieceWork(result.part, { say: String }).length !== undefined;
    return known
      ? `A ${result.part.kind} has no faces to fold: the flat view shows it straight, and bent above.`
      : `${result.part.name} needs its stock and its length.`;
  }
  if (result.part.kind === 'survey' || result.part.kind === 'assembly') return `A ${result.part.kind} has no flat blank.`;
  return (inside ?? errors[0])?.message ?? 'Something it uses can’t be worked out.';
};

/** A part with its results and where it starts in its file: spans within it are counted from there. */
export interface PlacedPart {
  readonly result: PartResult;
  readonly start: number;
}
export const placedParts = (ask: Ask, path: string = ask.path): readonly PlacedPart[] => {
  const { starts } = ask.project.model(path);
  return ask.project.parts(path).map((result, index) => ({ result, start: starts[index] ?? 0 }));
};
export const partLength = (part: Part): number => part.span.end - part.span.start;
export const partAround = (ask: Ask, offset: number): PlacedPart | undefined =>
  placedParts(ask).find(({ result, start }) => touches({ start, end: start + partLength(result.part) }, offset));

/** The copies of the bead that a statement, or one of the rows in its braces, writes. */
export const beadsOfStatement = (
  placed: PlacedPart,
  statement: { readonly start: number; readonly end: number },
): readonly WorkedBead[] => {
  const own = { start: statement.start - placed.start, end: statement.end - placed.start };
  return (placed.result.beads?.beads ?? []).filter((bead) => bead.span.start <= own.start && own.end <= bead.span.end);
};

/** The bends that one written step makes: a step in a block for three edges makes three. */
export const bendsOfStep = (placed: PlacedPart, statement: { readonly start: number; readonly end: number }): readonly BendLine[] => {
  const own = { start: statement.start - placed.start, end: statement.end - placed.start };
  return (placed.result.blank.blank?.bends ?? []).filter(
    (bend) => sameSpan(bend.span, own) || (bend.span.start === own.start && bend.span.end <= own.end),
  );
};
