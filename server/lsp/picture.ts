import type { Position } from 'vscode-languageserver';
import type { Span } from '../../grammar/syntax.js';
import { writePattern } from '../node-sheets.js';
import { type DisplayOptions, drawBlank, picture } from '../sheets/index.js';
import { type Ask, covers, linesOf, rangeOf, touches } from './ask.js';
import type { FeatureAtResult, PartAtResult, PartEntry, PatternParams, PatternResult, PictureResult } from './protocol.js';
import { type PlacedPart, partAround, partLength, partSummary, placedParts, reasonNotLaidOut } from './say.js';

const entryOf = (ask: Ask, { result }: PlacedPart): PartEntry => ({
  name: result.part.name,
  kind: result.part.kind,
  summary: partSummary(ask, result),
});

/** The picture of the part asked for, else of the one around a position, else of the first. */
export const pictureOf = (ask: Ask, version: number, part: string | undefined, position: Position | undefined): PictureResult => {
  const lines = linesOf(ask);
  const parts = placedParts(ask);
  const chosen =
    parts.find(({ result }) => result.part.name === part) ??
    (position === undefined ? undefined : partAround(ask, lines.offsetAt(position))) ??
    parts[0];
  const base = { uri: ask.uriOf(ask.path), version, parts: parts.map((one) => entryOf(ask, one)) };
  if (chosen === undefined) {
    return {
      ...base,
      part: undefined,
      svg: undefined,
      title: '',
      features: [],
      stale: false,
      partRange: undefined,
      reason: 'There is no part in this file yet.',
    };
  }
  const { result, start } = chosen;
  const drawn = picture(result, displayOptions(ask));
  const whole: Span = { start, end: start + partLength(result.part) };
  return {
    ...base,
    part: result.part.name,
    svg: drawn.svg,
    title: drawn.title,
    // An old picture's places may lie past the end of the part as it is now.
    features: drawn.features.map(({ id, span }) => ({
      id,
      range: rangeOf(lines, withinSpan(whole, { start: start + span.start, end: start + span.end })),
    })),
    stale: drawn.stale,
    partRange: rangeOf(lines, whole),
    reason: result.blank.blank === undefined ? reasonNotLaidOut(ask, chosen) : undefined,
  };
};

const withinSpan = (outer: Span, span: Span): Span => {
  const clamp = (offset: number): number => Math.min(Math.max(offset, outer.start), outer.end);
  return { start: clamp(span.start), end: clamp(span.end) };
};

const displayOptions = (ask: Ask): DisplayOptions => ({
  unit: ask.project.model(ask.path).units,
  denominator: ask.settings.display.denominator,
});

/** The drawn features of the innermost statement around a position. */
export const featureAt = (ask: Ask, position: Position): FeatureAtResult => {
  const offset = linesOf(ask).offsetAt(position);
  const placed = partAround(ask, offset);
  if (placed === undefined) return { part: undefined, ids: [] };
  const { result, start } = placed;
  const blank = result.blank.blank ?? result.lastGood;
  if (blank === undefined) return { part: result.part.name, ids: [] };
  const around = drawBlank(result.part, blank, { ...displayOptions(ask), beads: result.beads }).features.filter((feature) =>
    touches(feature.span, offset - start),
  );
  const innermost = around.filter(
    (feature) => !around.some((other) => covers(feature.span, other.span) && !covers(other.span, feature.span)),
  );
  return { part: result.part.name, ids: [...new Set(innermost.map((feature) => feature.id))] };
};

/** The true-size file of a part; in words why not when it can't be laid out. */
export const patternOf = async (ask: Ask, part: string, format: PatternParams['format']): Promise<PatternResult> => {
  const placed = placedParts(ask).find((one) => one.result.part.name === part);
  if (placed === undefined) return { reason: `There is no part called ${part} in this file.` };
  const { result } = placed;
  const { blank } = result.blank;
  if (blank === undefined) return { reason: `${part} can’t be laid out: ${reasonNotLaidOut(ask, placed)}` };
  const wish = { paper: ask.settings.paper, dotsPerInch: 150, beads: result.beads };
  const written = await writePattern(format, result.part, blank, displayOptions(ask), wish);
  const name = `${part}.${format}`;
  return typeof written === 'string' ? { name, text: written } : { name, bytes: Buffer.from(written).toString('base64') };
};

export const partAt = (ask: Ask, position: Position): PartAtResult => {
  const placed = partAround(ask, linesOf(ask).offsetAt(position));
  return { part: placed === undefined ? undefined : entryOf(ask, placed) };
};
