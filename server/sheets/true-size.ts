/** Anything printed at true size on one page as large as it must be, with the rulers that prove the print and the words under it. */
import type { Box, Point } from '../shape/path.js';
import { gauge, gaugeHeight, gaugeWidth } from './pages/gauge.js';
import type { Mark, Page } from './pages/page.js';
import { paperMargin } from './pages/paper.js';
import { linesOf, type Type } from './pages/type.js';

const small = 3;
const lineHeight = 4.4;
/** A page is at least as wide as words that can be read. */
const leastWidth = 180;

/** What is printed at true size, on one page or on tiles. */
export interface TrueSize {
  readonly name: string;
  readonly marks: readonly Mark[];
  readonly box: Box;
  /** Said once of the whole; the first line is what it is. */
  readonly lines: readonly string[];
}

/** Where the lower left corner of the page lies in the coordinates of what it shows. */
export interface TrueSizePage extends Page {
  readonly corner: Point;
}

export const trueSizePage = (content: TrueSize, type: Type): TrueSizePage => {
  const { marks, box } = content;
  const width = Math.max(box.max.x - box.min.x, gaugeWidth, leastWidth) + 2 * paperMargin;
  const [title = '', ...rest] = content.lines;
  const room = width - 2 * paperMargin;
  const heads = linesOf(type, title, small, room, true);
  const lines = [...heads, ...rest.flatMap((line) => linesOf(type, line, small, room))];
  const foot = gaugeHeight + 4 + lines.length * lineHeight + 2;
  const to = { x: paperMargin - box.min.x, y: paperMargin + foot - box.min.y };
  return {
    title: `${content.name}, true-size pattern`,
    width,
    height: box.max.y - box.min.y + 2 * paperMargin + foot,
    corner: { x: 0 - to.x, y: 0 - to.y },
    marks: [
      { kind: 'placed', marks, to },
      ...gauge({ x: paperMargin, y: paperMargin + lines.length * lineHeight + 2 }),
      ...lines.map(
        (text, index): Mark => ({
          kind: 'text',
          text,
          at: { x: paperMargin, y: paperMargin + (lines.length - 1 - index) * lineHeight },
          size: small,
          bold: index < heads.length,
        }),
      ),
    ],
  };
};
