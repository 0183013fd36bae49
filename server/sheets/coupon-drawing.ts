/**
 * The drawing of the strips to try before a panel is cut: each flat at true size with its bead or bend line, its datum corner and its sizes, what to do to
 * it, and a box for every measure. `couponFigure` is the drawing as marks for a page of any document, `couponPage` a page of its own with the rulers that
 * prove its size, `couponPicture` the same for the editor; all three come from one scene and cannot disagree. Millimetres, y up.
 */
import type { Span } from '../../grammar/syntax.js';
import { type Coupon, couponSummary, pieceSize, pieceWork } from '../bead/index.js';
import { sayThickness } from '../model/display.js';
import type { Point } from '../shape/path.js';
import { capital, type Item, letters, sceneOf } from './coupon-scene.js';
import type { DisplayOptions } from './drawing.js';
import { coordinate, escapeXml, openPathData, pathData } from './extent.js';
import { gauge, gaugeHeight, gaugeWidth } from './pages/gauge.js';
import { loopMark, type Mark, type Page } from './pages/page.js';
import { paperMargin } from './pages/paper.js';
import { markOfText, marksOfStroke, marksOfThinLine } from './pattern-marks.js';
import type { Picture } from './picture.js';

/** Marks within 0 … width and 0 … height. */
export interface CouponFigure {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
  /** What it shows, for people who can't see it. */
  readonly words: string;
}

const marksOf = (item: Item): readonly Mark[] => {
  switch (item.kind) {
    case 'area':
      return [loopMark([item.loop], undefined, '#f7f7f5')];
    case 'stroke':
      return marksOfStroke(item.stroke);
    case 'line':
      return marksOfThinLine(item.line, letters);
    case 'text': {
      const mark = markOfText(item.text);
      return [item.bold && mark.kind === 'text' ? { ...mark, bold: true } : mark];
    }
  }
};

/** `gate: 4 strips to try, from 0.048 in crs_18`. */
export const couponTitle = (coupon: Coupon, options: DisplayOptions): string =>
  `${coupon.panel}: ${couponSummary(coupon)}, from ${sayThickness(coupon.sheet.thickness, options.unit)} ${coupon.sheet.name}`;

/** All strips of a coupon at true size, as wide as they have to be; to be placed on a page of any document. */
export const couponFigure = (coupon: Coupon, options: DisplayOptions): CouponFigure => {
  const { width, height, items } = sceneOf(coupon, options);
  return { width, height, marks: items.flatMap(marksOf), words: couponTitle(coupon, options) };
};

/** The coupon on one page of its own size, with the rulers that prove the print. */
export const couponPage = (coupon: Coupon, options: DisplayOptions): Page => {
  const figure = couponFigure(coupon, options);
  const foot = gaugeHeight + 6;
  const top = 12;
  return {
    title: `${coupon.panel}, strips to try`,
    width: Math.max(figure.width, gaugeWidth) + 2 * paperMargin,
    height: figure.height + foot + top + 2 * paperMargin,
    marks: [
      {
        kind: 'text',
        text: `${capital(figure.words)}. Type the measures into the trials: every blank follows.`,
        at: { x: paperMargin, y: paperMargin + foot + figure.height + 5 },
        size: 4,
        bold: true,
      },
      { kind: 'placed', marks: figure.marks, to: { x: paperMargin, y: paperMargin + foot } },
      ...gauge({ x: paperMargin, y: paperMargin }),
    ],
  };
};

const at = ({ x, y }: Point): string => `${coordinate(x)} ${coordinate(-y)}`;
const steady = 'vector-effect="non-scaling-stroke"';

const markupOf = (item: Item): string => {
  switch (item.kind) {
    case 'area':
      return `<path class="area base" d="${pathData(item.loop)}"/>`;
    case 'stroke': {
      const { layer, geometry } = item.stroke;
      switch (geometry.kind) {
        case 'loop':
          return `<path class="${layer}" ${steady} d="${pathData(geometry.loop)}"/>`;
        case 'line':
          return `<path class="${layer}" ${steady} d="M${at(geometry.from)}L${at(geometry.to)}"/>`;
        case 'path':
          return `<path class="${layer}" ${steady} d="${openPathData(geometry.path)}"/>`;
        case 'circle':
          return `<circle class="datum" ${steady} cx="${coordinate(geometry.circle.centre.x)}" cy="${coordinate(-geometry.circle.centre.y)}" r="${coordinate(geometry.circle.radius)}"/>`;
      }
      return '';
    }
    case 'line': {
      const { points, arrows } = item.line;
      const line = `<path class="dimension" ${steady} d="M${points.map(at).join('L')}"/>`;
      const [first, second] = points;
      return arrows === 'none' || first === undefined || second === undefined
        ? line
        : line + arrowHead(first, second) + arrowHead(second, first);
    }
    case 'text': {
      const { layer, text, at: place, height, turn, anchor } = item.text;
      const turned = Math.abs(turn) < 1e-9 ? '' : ` transform="rotate(${coordinate((-turn * 180) / Math.PI)} ${at(place)})"`;
      return `<text class="text ${layer} ${anchor}" x="${coordinate(place.x)}" y="${coordinate(-place.y + 0.36 * height)}" font-size="${coordinate(height)}" text-anchor="${anchor}"${turned}>${escapeXml(text)}</text>`;
    }
  }
};
const arrowHead = (tip: Point, from: Point): string => {
  const length = Math.hypot(tip.x - from.x, tip.y - from.y) || 1;
  const [ux, uy] = [(tip.x - from.x) / length, (tip.y - from.y) / length];
  const size = letters * 0.9;
  const side = (sign: number): Point => ({
    x: tip.x - ux * size - uy * sign * size * 0.18,
    y: tip.y - uy * size + ux * sign * size * 0.18,
  });
  return `<path class="arrow" d="M${at(tip)}L${at(side(1))}L${at(side(-1))}Z"/>`;
};

const featureOf = (item: Item): string => {
  switch (item.kind) {
    case 'area':
      return item.feature;
    case 'stroke':
      return item.stroke.feature;
    case 'line':
      return item.line.feature ?? '';
    case 'text':
      return item.text.feature ?? '';
  }
};

/**
 * The same for the preview: classes only, one group for each piece in each layer of the picture.
 *
 * @param span where the trial that asks is written
 */
export const couponPicture = (coupon: Coupon, options: DisplayOptions, span: Span): Picture => {
  const { width, height, items } = sceneOf(coupon, options);
  const title = couponTitle(coupon, options);
  const groups = (kind: Item['kind'], name: string): string =>
    `<g class="${name}">${coupon.pieces
      .map((piece) => {
        const id = `piece:${piece.name}`;
        const own = items.filter((item) => item.kind === kind && featureOf(item) === id).map(markupOf);
        return `<g class="feature piece" data-id="${escapeXml(id)}"><title>${escapeXml(`${piece.name}: ${pieceSize(piece, options)}, ${pieceWork(piece, options)}`)}</title>${own.join('')}</g>`;
      })
      .join('\n')}</g>`;
  const margin = 4;
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" class="planish_picture" role="img" aria-label="${escapeXml(title)}" viewBox="${-margin} ${coordinate(-height - margin)} ${coordinate(width + 2 * margin)} ${coordinate(height + 2 * margin)}" preserveAspectRatio="xMidYMid meet">`,
    groups('area', 'areas'),
    groups('line', 'dimensions'),
    groups('stroke', 'strokes'),
    groups('text', 'texts'),
    '</svg>',
  ].join('\n');
  return {
    svg,
    features: coupon.pieces.map((piece) => ({ id: `piece:${piece.name}`, span })),
    box: { min: { x: -margin, y: -margin }, max: { x: width + margin, y: height + margin } },
    title,
    stale: false,
  };
};
