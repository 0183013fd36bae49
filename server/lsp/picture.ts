import type { Position, Range } from 'vscode-languageserver';
import type { Span } from '../../grammar/syntax.js';
import { writePattern, writePiecePattern } from '../node-sheets.js';
import type { PartResult } from '../project.js';
import { type CutFromLength, type DisplayOptions, drawBlank, drawPiece, type Feature, isCutFromLength, picture } from '../sheets/index.js';
import { type Ask, covers, linesOf, rangeOf, touches } from './ask.js';
import type { FeatureAtResult, PartAtResult, PartEntry, PatternParams, PatternResult, PictureFeature, PictureResult } from './protocol.js';
import { noPart, type PlacedPart, partAround, partLength, partSummary, placedParts, reasonNotLaidOut } from './say.js';

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
      reason: noPart,
    };
  }
  const { result } = chosen;
  // What the plan of bending found is drawn too, once there is one.
  const { span } = wholeOf(chosen, lines);
  const findings = ask.project.findingsSoFar(ask.path).filter((finding) => covers(span, finding.span));
  const drawn = picture({ ...result, findings }, displayOptions(ask));
  return {
    ...base,
    part: result.part.name,
    svg: drawn.svg,
    title: drawn.title,
    features: placedFeatures(drawn.features, chosen, lines),
    stale: drawn.stale,
    partRange: wholeOf(chosen, lines).range,
    reason: isLaidOut(result) ? undefined : reasonNotLaidOut(ask, chosen),
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

/** Whether a part's drawing is of the text as it stands. */
const isLaidOut = ({ part, blank }: PartResult): boolean =>
  isCutFromLength(part) ? !part.broken && drawPiece(part, { unit: undefined }) !== undefined : blank.blank !== undefined;

/** What is drawn of a part, with the statements that it is written in. */
const drawnFeatures = (ask: Ask, result: PartResult): readonly Feature[] => {
  const { part } = result;
  if (isCutFromLength(part)) return drawPiece(part, displayOptions(ask))?.features ?? [];
  const blank = result.blank.blank ?? result.lastGood;
  return blank === undefined ? [] : drawBlank(part, blank, { ...displayOptions(ask), beads: result.beads }).features;
};

/** The drawn features of the innermost statement around a position. */
export const featureAt = (ask: Ask, position: Position): FeatureAtResult => {
  const offset = linesOf(ask).offsetAt(position);
  const placed = partAround(ask, offset);
  if (placed === undefined) return { part: undefined, ids: [] };
  const { result, start } = placed;
  const around = drawnFeatures(ask, result).filter((feature) => touches(feature.span, offset - start));
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
  if (isCutFromLength(result.part)) return piecePattern(ask, placed, result.part, format, view);
  const { blank } = result.blank;
  if (blank === undefined) return { reason: `${part} can’t be laid out: ${reasonNotLaidOut(ask, placed)}` };
  const wish = { paper: ask.settings.paper, dotsPerInch: 150, beads: result.beads, folded: result.folded, view };
  const written = await writePattern(format, result.part, blank, displayOptions(ask), wish);
  if (written === undefined)
    return { reason: `${part} has no ${view === 'blank' ? 'folded form' : `${view} view`} as ${format.toUpperCase()}.` };
  const name = `${part}${view === 'blank' || format === 'glb' || format === 'stl' ? '' : `-${view}`}.${format}`;
  return typeof written === 'string' ? { name, text: written } : { name, bytes: Buffer.from(written).toString('base64') };
};

const piecePattern = async (
  ask: Ask,
  placed: PlacedPart,
  part: CutFromLength,
  format: PatternParams['format'],
  view: PatternParams['view'],
): Promise<PatternResult> => {
  if (!isLaidOut(placed.result)) return { reason: `${part.name} can’t be drawn: ${reasonNotLaidOut(ask, placed)}` };
  const wish = { paper: ask.settings.paper, dotsPerInch: 150 };
  const written = view === 'blank' ? await writePiecePattern(format, part, displayOptions(ask), wish) : undefined;
  if (written === undefined)
    return {
      reason: `a ${part.kind} has no ${view === 'blank' ? '' : `${view} view as `}${format.toUpperCase()}; its drawing comes as PDF, SVG or PNG.`,
    };
  const name = `${part.name}.${format}`;
  return typeof written === 'string' ? { name, text: written } : { name, bytes: Buffer.from(written).toString('base64') };
};

export const partAt = (ask: Ask, position: Position): PartAtResult => {
  const placed = partAround(ask, linesOf(ask).offsetAt(position));
  return { part: placed === undefined ? undefined : entryOf(ask, placed) };
};
