import type { Position, Range } from 'vscode-languageserver';
import type { Span } from '../../grammar/syntax.js';
import { writePattern } from '../node-sheets.js';
import { type DisplayOptions, drawBlank, picture } from '../sheets/index.js';
import { type Ask, covers, linesOf, rangeOf, touches } from './ask.js';
import type { FeatureAtResult, PartAtResult, PartEntry, PatternParams, PatternResult, PictureFeature, PictureResult } from './protocol.js';
import { type PlacedPart, partAround, partLength, partSummary, placedParts, reasonNotLaidOut } from './say.js';

const entryOf = (ask: Ask, { result }: PlacedPart): PartEntry => ({
  name: result.part.name,
  kind: result.part.kind,
  summary: partSummary(ask, result),
});

type Lines = ReturnType<typeof linesOf>;

/** The part asked for, else the one around a position, else the first; with all there are. */
export const chosenPart = (
  ask: Ask,
  part: string | undefined,
  position: Position | undefined,
): { readonly chosen: PlacedPart | undefined; readonly lines: Lines; readonly parts: readonly PartEntry[] } => {
  const lines = linesOf(ask);
  const parts = placedParts(ask);
  const chosen =
    parts.find(({ result }) => result.part.name === part) ??
    (position === undefined ? undefined : partAround(ask, lines.offsetAt(position))) ??
    parts[0];
  return { chosen, lines, parts: parts.map((one) => entryOf(ask, one)) };
};

/** Where a part stands in its file. */
export const wholeOf = ({ result, start }: PlacedPart, lines: Lines): { readonly span: Span; readonly range: Range } => {
  const span = { start, end: start + partLength(result.part) };
  return { span, range: rangeOf(lines, span) };
};

/** Where drawn features are written. An old drawing's places may lie past the end of the part as it is now. */
export const placedFeatures = (
  features: readonly { readonly id: string; readonly span: Span }[],
  placed: PlacedPart,
  lines: Lines,
): readonly PictureFeature[] => {
  const { start } = placed;
  const { span: whole } = wholeOf(placed, lines);
  return features.map(({ id, span }) => ({
    id,
    range: rangeOf(lines, withinSpan(whole, { start: start + span.start, end: start + span.end })),
  }));
};

/** The picture of the part asked for, else of the one around a position, else of the first. */
export const pictureOf = (ask: Ask, version: number, part: string | undefined, position: Position | undefined): PictureResult => {
  const { chosen, lines, parts } = chosenPart(ask, part, position);
  const base = { uri: ask.uriOf(ask.path), version, parts };
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
  const { result } = chosen;
  const drawn = picture(result, displayOptions(ask));
  return {
    ...base,
    part: result.part.name,
    svg: drawn.svg,
    title: drawn.title,
    features: placedFeatures(drawn.features, chosen, lines),
    stale: drawn.stale,
    partRange: wholeOf(chosen, lines).range,
    reason: result.blank.blank === undefined ? reasonNotLaidOut(ask, chosen) : undefined,
  };
};

const withinSpan = (outer: Span, span: Span): Span => {
  const clamp = (offset: number): number => Math.min(Math.max(offset, outer.start), outer.end);
  return { start: clamp(span.start), end: clamp(span.end) };
};

export const displayOptions = (ask: Ask): DisplayOptions => ({
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

/** A file of a part: its true-size pattern, or what `view` says; in words why not when it can't be laid out. */
export const patternOf = async (
  ask: Ask,
  part: string,
  format: PatternParams['format'],
  view: PatternParams['view'] = 'blank',
): Promise<PatternResult> => {
  const placed = placedParts(ask).find((one) => one.result.part.name === part);
  if (placed === undefined) return { reason: `There is no part called ${part} in this file.` };
  const { result } = placed;
  const { blank } = result.blank;
  if (blank === undefined) return { reason: `${part} can’t be laid out: ${reasonNotLaidOut(ask, placed)}` };
  const wish = { paper: ask.settings.paper, dotsPerInch: 150, beads: result.beads, folded: result.folded, view };
  const written = await writePattern(format, result.part, blank, displayOptions(ask), wish);
  if (written === undefined)
    return { reason: `${part} has no ${view === 'blank' ? 'folded form' : `${view} view`} as ${format.toUpperCase()}.` };
  const name = `${part}${view === 'blank' || format === 'glb' || format === 'stl' ? '' : `-${view}`}.${format}`;
  return typeof written === 'string' ? { name, text: written } : { name, bytes: Buffer.from(written).toString('base64') };
};

export const partAt = (ask: Ask, position: Position): PartAtResult => {
  const placed = partAround(ask, linesOf(ask).offsetAt(position));
  return { part: placed === undefined ? undefined : entryOf(ask, placed) };
};
