import { type Coupon, couponSummary } from '../bead/index.js';
import { sayThickness } from '../model/display.js';
import { capital, type Item, letters, sceneOf } from './coupon-scene.js';
import type { DisplayOptions } from './drawing.js';
import { gauge, gaugeHeight, gaugeWidth } from './pages/gauge.js';
import { loopMark, type Mark, type Page } from './pages/page.js';
import { paperMargin } from './pages/paper.js';
import { markOfText, marksOfStroke, marksOfThinLine } from './pattern-marks.js';

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
const couponTitle = (coupon: Coupon, options: DisplayOptions): string =>
  `${coupon.panel}: ${couponSummary(coupon)}, from ${sayThickness(coupon.sheet.thickness, options.unit)} ${coupon.sheet.name}`;

/** All strips of a coupon at true size, as wide as they have to be; to be placed on a page of any document. */
const couponFigure = (coupon: Coupon, options: DisplayOptions): CouponFigure => {
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
