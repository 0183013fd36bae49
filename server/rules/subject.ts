/** What most rules ask first of a part: is it laid out, on which sheet, and which written step made this bend. */

import type { Fix, Span } from '../../grammar/syntax.js';
import type { BendLine, Blank } from '../blank/types.js';
import type { Finding, Severity } from '../model/finding.js';
import type { EdgeChain, FlangeStep, Panel, Section } from '../model/part.js';
import type { Sheet } from '../model/shop.js';
import { apart } from '../shape/arcs.js';
import type { Question } from './rule.js';

/** Lengths closer than this are one length to the trade and to the language (mm). */
export const lengthTolerance = 0.001;

/** What most rules find in most parts; one for all, so that finding nothing makes nothing. */
export const nothingSaid: readonly Finding[] = [];

export interface LaidOut {
  readonly part: Panel | Section;
  readonly blank: Blank;
  readonly sheet: Sheet;
  readonly sheetSpan: Span;
}

/** Undefined while there is nothing to judge: another kind of part, a broken one, or one without its sheet. */
export const laidOut = ({ part, blank }: Question): LaidOut | undefined => {
  if (part.kind !== 'panel' && part.kind !== 'section') return undefined;
  if (blank.blank === undefined || part.sheet === undefined) return undefined;
  return { part, blank: blank.blank, sheet: part.sheet.value, sheetSpan: part.sheet.span };
};

const gatherFlanges = (chains: readonly EdgeChain[], into: Map<string, FlangeStep>): void => {
  for (const chain of chains) {
    for (const step of chain.steps) {
      if (step.kind !== 'flange') continue;
      into.set(step.id, step);
      gatherFlanges(step.edges, into);
    }
  }
};

/** Every flange of a panel by its id, those on flanges included. */
export const flangesById = (panel: Panel): ReadonlyMap<string, FlangeStep> => {
  const found = new Map<string, FlangeStep>();
  gatherFlanges(panel.edges, found);
  return found;
};

export const bendLength = (bend: BendLine): number => apart(bend.from, bend.to);

export const bendFeature = (bend: BendLine): string => `bend:${bend.id}`;
export const cutFeature = (cut: { readonly id: string }): string => `cut:${cut.id}`;

interface More {
  readonly fixes?: readonly Fix[];
  readonly features?: readonly string[];
  readonly severity?: Severity;
}

/** A finding of a rule about a part, its span counted from the start of the part. */
export const speak = (
  subject: Question,
  rule: { readonly name: string; readonly severity: Severity },
  span: Span,
  message: string,
  more: More = {},
): Finding => ({
  file: subject.part.file,
  span,
  rule: rule.name,
  severity: more.severity ?? rule.severity,
  message,
  fixes: more.fixes ?? [],
  ...(more.features === undefined ? {} : { features: more.features }),
});
