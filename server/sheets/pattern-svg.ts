/**
 * The true-size pattern as SVG: the page that PDF and PNG show too, one user unit one millimetre, and the page says so. Printed at 100 % it is laid on
 * the sheet and pricked through; the square and both rulers show whether the printer kept the size.
 */
import type { Blank } from '../blank/types.js';
import type { Part } from '../model/part.js';
import type { DisplayOptions } from './drawing.js';
import { pageSvg, type SvgOptions } from './pages/svg.js';
import type { Type } from './pages/type.js';
import { patternPage } from './pattern-pages.js';

/**
 * A document whose width and height are stated in mm and whose user unit is 1 mm. The part stands with its lower left corner at (0, 0),
 * y turned over (SVG's y runs down). The outline is the only path of class `outline`.
 *
 * @param font both cuts of the type in base 64; without them the words are set in what the reader has
 */
export const patternSvg = (part: Part, blank: Blank, options: DisplayOptions, type: Type, font?: SvgOptions['font']): string => {
  const page = patternPage(part, blank, options, type);
  return pageSvg(page, { corner: page.corner, ...(font === undefined ? {} : { font }) });
};
