/**
 * Drawings of a computed part: the preview's picture and the true-size patterns. This room reads parts and blanks and writes text; it
 * computes no geometry of its own, opens no files and knows no editor.
 *
 * Classes of the picture: on the root `planish_picture`, `stale`, `empty`; groups `areas dimensions strokes texts`; features
 * `<g class="feature outline|face|bend|bead|reach|bow|load|cut|relief [has_error|has_warning]" data-id="…">` holding `.area.base|.flange|.zone_up|.zone_down`,
 * `.cut .cut_inside .bend_up .bend_down .bead_up .bead_down .bead_edge .bead_body .frame .reach_limit .rough_cut .lies_after .trim .load .brake_line .mark .hit`, `.dimension .arrow .datum` and `.text.dimension|.label|.note`.
 */

export {
  type BookletFields,
  type BookletFinding,
  type BookletInput,
  type BookletOptions,
  type BookletPart,
  bookletBlocks,
  bookletRoom,
  bookletTitle,
} from './booklet/index.js';
export { type BenchWork, workSheetBlocks } from './booklet/work-sheet.js';
export { compareParts, overlayPage, type PartComparison, type Version } from './compare.js';
export { comparisonBlocks } from './compare-document.js';

export { couponPage } from './coupon-drawing.js';
export { cuttingBlocks } from './cutting/blocks.js';
export { nestPage } from './cutting/nest-figure.js';
export { type CuttingOutcome, numbersOf } from './cutting/outcome.js';
export { csvFile, cuttingCsv, cuttingJson, cuttingTables } from './cutting/tables.js';
export type { Block, TitleBlock } from './documents/blocks.js';
export { setPages } from './documents/flow.js';
export { documentHtml } from './documents/html.js';
export { type DisplayOptions, drawBlank, type Feature } from './drawing.js';
export { pathData as loopPath } from './extent.js';
export { foldedPage } from './folded-figure.js';
export { boxOfText, layOut } from './layout.js';

export type { Fonts, Mark, Page } from './pages/page.js';
export { type Paper, type PaperName, papers } from './pages/paper.js';
export { writePdf } from './pages/pdf.js';
export { withScale } from './pages/png.js';
export { pageSvg } from './pages/svg.js';
export { linesOf, readType, type Type } from './pages/type.js';
export { nestDxf, patternDxf } from './pattern-dxf.js';
export { patternPage, tiledPattern } from './pattern-pages.js';
export { patternSvg } from './pattern-svg.js';
export { type Pictured, picture } from './picture.js';
export { drawPiece } from './piece-drawing.js';

export { piecePage, pieceTiles } from './piece-pattern.js';
export { type CutFromLength, isCutFromLength, sayEnd, sayStock } from './piece-words.js';
export { sectionPage } from './section-drawing.js';
