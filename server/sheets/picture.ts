/**
 * The picture of a part's flat blank for the preview: SVG with classes only (the page that shows it allows no inline style), one
 * `data-id` per feature, every word escaped. Deterministic: the same part gives the same text.
 */
import type { Span } from '../../grammar/syntax.js';
import type { NotReckoned, StiffnessAnswer } from '../bead/index.js';
import type { BeadResult } from '../bead/types.js';
import type { Blank, BlankResult } from '../blank/types.js';
import type { Finding } from '../model/finding.js';
import type { Part } from '../model/part.js';
import type { Box, Point } from '../shape/path.js';
import { pieceWork } from '../stock/index.js';
import { type Area, type DisplayOptions, type Drawing, drawBlank, drawingTitle, type Stroke } from './drawing.js';
import { coordinate, escapeXml, openPathData, pathData } from './extent.js';
import { layOut, type PlacedText, type ThinLine } from './layout.js';
import { drawPiece } from './piece-drawing.js';
import { type CutFromLength, isCutFromLength, pieceTitle } from './piece-words.js';

/** What is known of a part, as the project hands it out. */
export interface Pictured {
  readonly part: Part;
  readonly blank: BlankResult;
  readonly findings?: readonly Finding[];
  readonly lastGood: Blank | undefined;
  /** The same of a piece or a strap: the part as it was. */
  readonly lastGoodPart?: Part | undefined;
  /** What its roller work comes to, of the blank shown. */
  readonly beads?: BeadResult | undefined;
  /** How far it gives under its loads. */
  readonly stiffness?: StiffnessAnswer | NotReckoned | undefined;
}
export interface Picture {
  readonly svg: string;
  readonly features: readonly { readonly id: string; readonly span: Span }[];
  /** What is drawn, in mm with y up: the blank and the words round it. */
  readonly box: Box;
  readonly title: string;
  /** True when the text no longer lays out and the last good blank is shown. */
  readonly stale: boolean;
}

const n = coordinate;
const steady = 'vector-effect="non-scaling-stroke"';
const at = (point: Point): string => `${n(point.x)} ${n(-point.y)}`;

const geometryMarkup = (stroke: Stroke, name: string): string => {
  const { geometry } = stroke;
  switch (geometry.kind) {
    case 'loop':
      return `<path class="${name}" ${steady} d="${pathData(geometry.loop)}"/>`;
    case 'line':
      return `<path class="${name}" ${steady} d="M${at(geometry.from)}L${at(geometry.to)}"/>`;
    case 'path': {
      const broad = stroke.breadth === undefined ? steady : `stroke-width="${n(stroke.breadth)}"`;
      return `<path class="${name}" ${broad} d="${openPathData(geometry.path)}"/>`;
    }
    case 'circle':
      return `<circle class="${name}" ${steady} cx="${n(geometry.circle.centre.x)}" cy="${n(-geometry.circle.centre.y)}" r="${n(geometry.circle.radius)}"/>`;
  }
};

const pointedAt: ReadonlySet<Stroke['layer']> = new Set(['bend_up', 'bend_down', 'bead_up', 'bead_down', 'rough_cut']);

/**
 * Thin lines are hard to point at, so bends and beads get an unseen wide twin that takes the click. A relief is part of the outline already;
 * only its own place is there to be pointed at.
 */
const strokeMarkup = (stroke: Stroke): string => {
  if (stroke.layer === 'relief') return geometryMarkup(stroke, 'hit');
  const seen = geometryMarkup(stroke, stroke.layer);
  return pointedAt.has(stroke.layer) ? geometryMarkup(stroke, 'hit') + seen : seen;
};

const areaMarkup = (area: Area): string => `<path class="area ${area.kind}" d="${pathData(area.loop)}"/>`;

const textMarkup = (text: PlacedText): string => {
  const turned = Math.abs(text.turn) < 1e-9 ? '' : ` transform="rotate(${n((-text.turn * 180) / Math.PI)} ${at(text.at)})"`;
  // The middle of figures and capitals stands 0.36 of the text height above the line they rest on, in all usual sans faces.
  const y = n(-text.at.y + 0.36 * text.height);
  return `<text class="text ${text.layer} ${text.anchor}${text.fault === true ? ' fault' : ''}" x="${n(text.at.x)}" y="${y}" font-size="${n(text.height)}" text-anchor="${text.anchor}"${turned}>${escapeXml(text.text)}</text>`;
};

const arrow = (tip: Point, from: Point, size: number): string => {
  const length = Math.hypot(tip.x - from.x, tip.y - from.y);
  if (length < 1e-9) return '';
  const [ux, uy] = [(tip.x - from.x) / length, (tip.y - from.y) / length];
  const side = (sign: number): Point => ({
    x: tip.x - ux * size - uy * sign * size * 0.18,
    y: tip.y - uy * size + ux * sign * size * 0.18,
  });
  return `<path class="arrow" d="M${at(tip)}L${at(side(1))}L${at(side(-1))}Z"/>`;
};

const lineMarkup = (line: ThinLine, height: number): string => {
  const [first, second] = line.points;
  const last = line.points[line.points.length - 1];
  const beforeLast = line.points[line.points.length - 2];
  if (first === undefined || second === undefined || last === undefined || beforeLast === undefined) return '';
  const path = `<path class="dimension${line.fault === true ? ' fault' : ''}" ${steady} d="M${line.points.map(at).join('L')}"/>`;
  return line.arrows === 'both' ? path + arrow(first, second, height * 0.9) + arrow(last, beforeLast, height * 0.9) : path;
};

const severityOf = (feature: string, findings: readonly Finding[]): string => {
  const own = findings.filter((finding) => finding.features?.includes(feature) === true).map((finding) => finding.severity);
  return own.includes('error') ? ' has_error' : own.includes('warning') ? ' has_warning' : '';
};

const familyOf = (feature: string): string => feature.split(':', 1)[0] ?? feature;

const group = (feature: string, titles: ReadonlyMap<string, string>, findings: readonly Finding[], content: string): string => {
  const title = titles.get(feature);
  const tooltip = title === undefined ? '' : `<title>${escapeXml(title)}</title>`;
  return `<g class="feature ${escapeXml(familyOf(feature))}${severityOf(feature, findings)}" data-id="${escapeXml(feature)}">${tooltip}${content}</g>`;
};

/** Things of one feature that follow one another go into one group. */
const grouped = <T>(
  items: readonly T[],
  featureOf: (item: T) => string | undefined,
  markup: (item: T) => string,
  wrap: (feature: string, content: string) => string,
): string => {
  const runs: { feature: string | undefined; content: string }[] = [];
  for (const item of items) {
    const feature = featureOf(item);
    const last = runs[runs.length - 1];
    if (last !== undefined && last.feature === feature) last.content += markup(item);
    else runs.push({ feature, content: markup(item) });
  }
  return runs.map((run) => (run.feature === undefined ? run.content : wrap(run.feature, run.content))).join('\n');
};

const svgOf = (
  drawing: Drawing,
  title: string,
  stale: boolean,
  findings: readonly Finding[],
): { readonly svg: string; readonly box: Box } => {
  const layout = layOut(drawing);
  const { min, max } = layout.box;
  const titles = new Map(drawing.features.map((feature) => [feature.id, feature.title]));
  const wrap = (feature: string, content: string): string => group(feature, titles, findings, content);
  const datum =
    layout.datum === undefined
      ? ''
      : `<circle class="datum" ${steady} cx="${n(layout.datum.x)}" cy="${n(-layout.datum.y)}" r="${n(layout.textHeight * 0.4)}"/>`;
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" class="planish_picture${stale ? ' stale' : ''}" role="img" aria-label="${escapeXml(title)}" viewBox="${n(min.x)} ${n(-max.y)} ${n(max.x - min.x)} ${n(max.y - min.y)}" preserveAspectRatio="xMidYMid meet">`,
    `<g class="areas">${grouped(drawing.areas, (area) => area.feature, areaMarkup, wrap)}</g>`,
    `<g class="dimensions">${grouped(
      layout.lines,
      (line) => line.feature,
      (line) => lineMarkup(line, layout.textHeight),
      wrap,
    )}${datum}</g>`,
    `<g class="strokes">${grouped(drawing.strokes, (stroke) => stroke.feature, strokeMarkup, wrap)}</g>`,
    `<g class="texts">${grouped(layout.texts, (text) => text.feature, textMarkup, wrap)}</g>`,
    '</svg>',
  ].join('\n');
  return { svg, box: layout.box };
};

const emptyPicture = (part: Part): Picture => {
  const words = part.broken
    ? 'not laid out: see the findings'
    : isCutFromLength(part)
      ? 'not drawn until its stock and its length are known'
      : `a ${part.kind} has no flat blank to draw yet`;
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" class="planish_picture empty" role="img" aria-label="${escapeXml(`${part.name}: ${words}`)}" viewBox="0 0 200 60">` +
    `<text class="text note middle" x="100" y="26" font-size="9" text-anchor="middle">${escapeXml(part.name)}</text>` +
    `<text class="text note middle" x="100" y="42" font-size="7" text-anchor="middle">${escapeXml(words)}</text></svg>`;
  return { svg, features: [], box: { min: { x: 0, y: -60 }, max: { x: 200, y: 0 } }, title: `${part.name}, ${part.kind}`, stale: false };
};

const picturedPiece = (part: CutFromLength, lastGood: Part | undefined, findings: readonly Finding[], options: DisplayOptions): Picture => {
  const stale = part.broken && lastGood !== undefined && isCutFromLength(lastGood);
  const shown = stale ? lastGood : part;
  const drawing = part.broken && !stale ? undefined : drawPiece(shown, options);
  if (drawing === undefined) return emptyPicture(part);
  const title = pieceTitle(shown, pieceWork(shown, { say: String }), options);
  const { svg, box } = svgOf(drawing, title, stale, findings);
  return { svg, features: drawing.features.map(({ id, span }) => ({ id, span })), box, title, stale };
};

/**
 * The picture of one part, of its last good blank (marked stale) when the text as it stands does not lay out, or a few words when
 * there has never been one.
 *
 * @param result part, blank, findings (spans as the project gives them) and last good blank
 * @param options unit and denominator of the sizes written on it
 */
export const picture = (result: Pictured, options: DisplayOptions): Picture => {
  const stale = result.blank.blank === undefined && result.lastGood !== undefined;
  const blank = result.blank.blank ?? result.lastGood;
  if (isCutFromLength(result.part)) return picturedPiece(result.part, result.lastGoodPart, result.findings ?? [], options);
  if (blank === undefined) return emptyPicture(result.part);
  const shown: DisplayOptions = { ...options, beads: result.beads, stiffness: stale ? undefined : result.stiffness };
  const drawing = drawBlank(result.part, blank, shown);
  const title = drawingTitle(result.part, blank, shown);
  const { svg, box } = svgOf(drawing, title, stale, [...result.blank.findings, ...(result.findings ?? [])]);
  return { svg, features: drawing.features.map(({ id, span }) => ({ id, span })), box, title, stale };
};
