/**
 * The true-size pattern as SVG: one user unit is one millimetre, and the page says so. Printed at 100 % it is laid on the sheet and
 * pricked through; two check rulers show whether the printer kept the size.
 */
import type { Blank } from '../blank/types.js';
import { homeUnit } from '../model/dimension.js';
import { saySize, sayThickness } from '../model/display.js';
import type { Part } from '../model/part.js';
import type { Point } from '../shape/path.js';
import { beadWords } from './bead-drawing.js';
import { bendWords, cutWords, type DisplayOptions, type Drawing, drawBlank, drawingTitle, type Layer, type Stroke } from './drawing.js';
import { escapeXml, coordinate as n, openPathData, pathData } from './extent.js';

/** Line widths: wide 0.5 mm, narrow 0.25 mm (line group 0.5 of ISO 128). */
const wide = 0.5;
const narrow = 0.25;
/** Dash lengths in line widths: dash 12, gap 3, long dash 24, dot 0.5. Source: ISO 128-20 table 3. */
const dashed = [12, 3].map((part) => part * narrow).join(' ');
const longDashDot = [24, 3, 0.5, 3].map((part) => part * narrow).join(' ');

/** Layers that only the screen shows have no look. */
const strokeLook: Readonly<Partial<Record<Layer, { readonly width: number; readonly dash: string; readonly colour: string }>>> = {
  cut: { width: wide, dash: '', colour: '#000000' },
  cut_inside: { width: wide, dash: '', colour: '#000000' },
  bend_up: { width: narrow, dash: '', colour: '#000000' },
  bend_down: { width: narrow, dash: dashed, colour: '#000000' },
  brake_line: { width: narrow, dash: '', colour: '#000000' },
  mark: { width: narrow, dash: longDashDot, colour: '#000000' },
  bead_up: { width: narrow, dash: longDashDot, colour: '#000000' },
  bead_down: { width: narrow, dash: longDashDot, colour: '#000000' },
};

const at = (point: Point): string => `${n(point.x)} ${n(-point.y)}`;

/** The brake line is marked at its two ends only, as a fabricator would: short ticks in from the edges. */
const brakeTicks = (from: Point, to: Point): string => {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const share = length < 1e-9 ? 0 : Math.min(8, length / 4) / length;
  const inward = (a: Point, b: Point): Point => ({ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share });
  return `M${at(from)}L${at(inward(from, to))}M${at(to)}L${at(inward(to, from))}`;
};

const shapeOf = (stroke: Stroke): string => {
  const { geometry } = stroke;
  switch (geometry.kind) {
    case 'loop':
      return `<path d="${pathData(geometry.loop)}"`;
    case 'path':
      return `<path d="${openPathData(geometry.path)}"`;
    case 'circle':
      return `<circle cx="${n(geometry.circle.centre.x)}" cy="${n(-geometry.circle.centre.y)}" r="${n(geometry.circle.radius)}"`;
    case 'line':
      return `<path d="${stroke.layer === 'brake_line' ? brakeTicks(geometry.from, geometry.to) : `M${at(geometry.from)}L${at(geometry.to)}`}"`;
  }
};

const strokeMarkup = (stroke: Stroke): string => {
  const look = strokeLook[stroke.layer];
  if (look === undefined) return '';
  const dash = look.dash === '' ? '' : ` stroke-dasharray="${look.dash}"`;
  return `${shapeOf(stroke)} fill="none" stroke="${look.colour}" stroke-width="${look.width}"${dash}/>`;
};

const text = (words: string, x: number, y: number, height: number, turn = 0, anchor = 'start'): string => {
  const turned = turn === 0 ? '' : ` transform="rotate(${n((-turn * 180) / Math.PI)} ${n(x)} ${n(-y)})"`;
  return `<text x="${n(x)}" y="${n(-y)}" font-size="${n(height)}" text-anchor="${anchor}"${turned}>${escapeXml(words)}</text>`;
};

/** A ruler with a tick at every step, longer at every fifth or fourth, and its length in words. */
const ruler = (x: number, y: number, length: number, steps: number, longEvery: number, words: string): string => {
  const ticks = Array.from({ length: steps + 1 }, (_, index) => {
    const tick = index % longEvery === 0 ? 4 : 2;
    return `M${n(x + (length * index) / steps)} ${n(-y)}v${n(-tick)}`;
  }).join('');
  return `<path d="M${n(x)} ${n(-y)}h${n(length)}${ticks}" fill="none" stroke="#000000" stroke-width="${narrow}"/>\n${text(words, x + length + 2, y + 0.4, 3)}`;
};

const bendLabels = (part: Part, blank: Blank, options: DisplayOptions): string =>
  'sheet' in part
    ? blank.bends
        .map((bend) => {
          const length = Math.hypot(bend.to.x - bend.from.x, bend.to.y - bend.from.y);
          const words = bendWords(bend, options);
          // 0.6 of the height is a generous width for a character; text shorter than 1.8 mm (ISO 3098's least) is left out.
          const height = Math.min(3.5, length / (0.6 * words.length));
          if (height < 1.8) return '';
          const raw = Math.atan2(bend.to.y - bend.from.y, bend.to.x - bend.from.x);
          const turn = raw > Math.PI / 2 + 1e-9 ? raw - Math.PI : raw <= -Math.PI / 2 + 1e-9 ? raw + Math.PI : raw;
          const middle = { x: (bend.from.x + bend.to.x) / 2, y: (bend.from.y + bend.to.y) / 2 };
          return text(words, middle.x - Math.sin(turn) * 1.2, middle.y + Math.cos(turn) * 1.2, height, turn, 'middle');
        })
        .filter((each) => each !== '')
        .join('\n')
    : '';

/** `border  up  half_round_3_8` along the longest straight of each bead's line; tips and cross-breaks along theirs. */
const beadLabels = ({ lineLabels }: Drawing): string =>
  lineLabels
    .filter(({ feature }) => /^(bead|tip|cross_break):/.test(feature))
    .map(({ from, to, text: whole, short }) => {
      const length = Math.hypot(to.x - from.x, to.y - from.y);
      const words = length / (0.6 * whole.length) >= 1.8 ? whole : short;
      const height = Math.min(3.5, length / (0.6 * words.length));
      if (height < 1.8) return '';
      const raw = Math.atan2(to.y - from.y, to.x - from.x);
      const turn = raw > Math.PI / 2 + 1e-9 ? raw - Math.PI : raw <= -Math.PI / 2 + 1e-9 ? raw + Math.PI : raw;
      const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
      return text(words, middle.x - Math.sin(turn) * 1.2, middle.y + Math.cos(turn) * 1.2, height, turn, 'middle');
    })
    .filter((each) => each !== '')
    .join('\n');

/** What to drill and what to cut, since a drill can't be told from a printed circle: `Holes and cuts: 4 × ⌀ 9/32; 1 off, 5 × 1 1/4.`. */
const cutSizes = (part: Part, blank: Blank, options: DisplayOptions): readonly string[] => {
  const counts = new Map<string, number>();
  for (const cut of blank.cutouts) {
    const words = `${cut.circle === undefined ? 'off,' : '×'} ${cutWords(part, cut, options)}`;
    counts.set(words, (counts.get(words) ?? 0) + 1);
  }
  return counts.size === 0 ? [] : [`Holes and cuts: ${[...counts].map(([words, count]) => `${count} ${words}`).join('; ')}.`];
};

/**
 * A document whose width and height are stated in mm and whose user unit is 1 mm. The part stands with its lower left corner at (0, 0),
 * y turned over (SVG's y runs down). The outline is the only path of class `outline`.
 *
 * @param title the document's title; the words printed under the part are its own
 */
export const patternSvg = (part: Part, blank: Blank, title: string, options: DisplayOptions = { unit: undefined }): string => {
  const drawing = drawBlank(part, blank, options);
  const margin = 10;
  const { min, max } = drawing.box;
  const titles = [
    drawingTitle(part, blank, options),
    `${sayThickness(blank.thickness, undefined)} (${sayThickness(blank.thickness, homeUnit('inch'))}) thick, ${blank.bends.length} ${blank.bends.length === 1 ? 'bend' : 'bends'}, face toward you. ` +
      `Overall ${saySize(blank.width, blank.height, options.unit, options.denominator)}.`,
    ...cutSizes(part, blank, options),
    ...beadWords(options),
    'Print at 100 % and check both rulers before cutting. Thick: cut. Thin: bend up. Dashed: bend down. Ticks: brake line.',
  ];
  const foot = 20.8 + titles.length * 4.4;
  const widest = Math.max(...titles.map((line) => [...line].length)) * 0.6 * 3;
  const width = Math.max(max.x - min.x, 125, Math.min(widest, 260)) + 2 * margin;
  const height = max.y - min.y + 2 * margin + foot;
  const left = min.x - margin;
  const base = min.y - margin;
  const outline = drawing.strokes.filter((stroke) => stroke.layer === 'cut');
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${n(width)}mm" height="${n(height)}mm" viewBox="${n(left)} ${n(-(max.y + margin))} ${n(width)} ${n(height)}">`,
    `<title>${escapeXml(title)}</title>`,
    `<rect x="${n(left)}" y="${n(-(max.y + margin))}" width="${n(width)}" height="${n(height)}" fill="#ffffff"/>`,
    ...drawing.strokes
      .filter((stroke) => stroke.layer !== 'cut')
      .map(strokeMarkup)
      .filter((markup) => markup !== ''),
    ...outline.map((stroke) => strokeMarkup(stroke).replace('<path ', '<path class="outline" ')),
    '<g font-family="DejaVu Sans, Liberation Sans, Arial, sans-serif" fill="#000000">',
    bendLabels(part, blank, options),
    beadLabels(drawing),
    ruler(min.x, base - 8, 100, 20, 4, '100 mm'),
    ruler(min.x, base - 16, 101.6, 16, 4, '4 in'),
    ...titles.map((line, index) => text(line, min.x, base - 22 - index * 4.4, 3)),
    '</g>',
    '</svg>',
    '',
  ].join('\n');
};
