import type { BendLine, Blank } from '../blank/types.js';
import type { FileModel } from '../model/model.js';
import type { Part } from '../model/part.js';
import type { Value } from '../model/values.js';
import type { PartResult } from '../project.js';
import { type DisplayUnit, decimal, display, displayAngle, displayLength, displayMass, displayThickness } from '../sheets/display.js';
import { type Ask, sameSpan, touches } from './ask.js';

/** How sizes of one file are written: in fractions of an inch or in millimetres. */
export const displayUnitOf = (model: FileModel): DisplayUnit =>
  model.units?.name === 'inch' || model.units?.name === 'foot' ? 'inch' : 'mm';
const otherUnit = (unit: DisplayUnit): DisplayUnit => (unit === 'inch' ? 'mm' : 'inch');

export const sayLength = (ask: Ask, mm: number): string =>
  display(mm, displayUnitOf(ask.project.model(ask.path)), ask.settings.display.denominator);

/** `1 3/8 in (1.375 in, 34.93 mm)`: the fraction first, what it stands for exactly, then the other unit when wanted. */
export const sayLengthFully = (ask: Ask, mm: number): string => {
  const unit = displayUnitOf(ask.project.model(ask.path));
  const exact = unit === 'inch' ? `${decimal(mm / 25.4, 4)} in` : `${decimal(mm, 3)} mm`;
  const other =
    otherUnit(unit) === 'inch'
      ? `${display(mm, 'inch', ask.settings.display.denominator)}, ${decimal(mm / 25.4, 4)} in`
      : `${decimal(mm, 3)} mm`;
  const short = display(mm, unit, ask.settings.display.denominator);
  const more = [...(short === exact ? [] : [exact]), ...(ask.settings.display.secondUnit ? [other] : [])];
  return more.length === 0 ? short : `${short} (${more.join(', ')})`;
};

/** Thickness and allowance want more figures than a cut size. */
export const saySmall = (ask: Ask, mm: number): string => {
  const unit = displayUnitOf(ask.project.model(ask.path));
  const own = unit === 'inch' ? displayThickness(mm, unit) : `${decimal(mm, 3)} mm`;
  const other = unit === 'inch' ? `${decimal(mm, 3)} mm` : `${decimal(mm / 25.4, 4)} in`;
  return ask.settings.display.secondUnit ? `${own} (${other})` : own;
};

export const sayAngle = displayAngle;

/** A value the way its file would write it; a length with its exact size and the other unit. */
export const sayValue = (ask: Ask, model: FileModel, value: Value): string =>
  value.kind === 'number' && !value.bare && isPlainLength(value) ? sayLengthFully(ask, value.value) : model.say(value);

export const isPlainLength = (value: Extract<Value, { kind: 'number' }>): boolean => {
  const { length, angle, mass, force, time, money } = value.dim;
  return length === 1 && angle === 0 && mass === 0 && force === 0 && time === 0 && money === 0;
};

/** `30 1/4 × 11 in`: width by height, the unit said once. */
export const blankSize = (ask: Ask, blank: Blank): string => {
  const unit = displayUnitOf(ask.project.model(ask.path));
  const options = { unit, denominator: ask.settings.display.denominator };
  return `${displayLength(blank.width, options)} × ${displayLength(blank.height, options)} ${unit === 'inch' ? 'in' : 'mm'}`;
};

export const massOf = (ask: Ask, blank: Blank): string | undefined =>
  blank.mass === undefined ? undefined : displayMass(blank.mass, displayUnitOf(ask.project.model(ask.path)));

export const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

/** One line for the part chooser, the code lens and the status bar. */
export const partSummary = (ask: Ask, result: PartResult): string => {
  const blank = result.blank.blank;
  if (blank === undefined) return result.part.broken ? 'not laid out: see the findings' : '';
  const mass = massOf(ask, blank);
  return [blankSize(ask, blank), ...(mass === undefined ? [] : [mass]), counted(blank.bends.length, 'bend')].join(', ');
};

/**
 * Why a part can't be laid out, in the words of its first error: those inside it come first, then those elsewhere in its file, since a
 * broken value is reported where it stands and nowhere else.
 */
export const reasonNotLaidOut = (ask: Ask, { result, start }: PlacedPart): string => {
  const errors = ask.project.findings(ask.path).filter((finding) => finding.severity === 'error');
  const inside = errors.find((finding) => start <= finding.span.start && finding.span.end <= start + partLength(result.part));
  if (result.part.kind !== 'panel' && result.part.kind !== 'section') return `A ${result.part.kind} has no flat blank yet.`;
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

/** The bends that one written step makes: a step in a block for three edges makes three. */
export const bendsOfStep = (placed: PlacedPart, statement: { readonly start: number; readonly end: number }): readonly BendLine[] => {
  const own = { start: statement.start - placed.start, end: statement.end - placed.start };
  return (placed.result.blank.blank?.bends ?? []).filter(
    (bend) => sameSpan(bend.span, own) || (bend.span.start === own.start && bend.span.end <= own.end),
  );
};
