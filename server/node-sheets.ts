/** What the sheets need from a disk under Node: the type they are set in, and the picture writer for PNG. Both lie beside the program. */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import type { BeadResult } from './bead/types.js';
import type { Blank } from './blank/types.js';
import { glb, meshOf, stl } from './fold/index.js';
import type { FoldResult } from './fold/types.js';
import type { Part } from './model/part.js';
import {
  type CutFromLength,
  type DisplayOptions,
  type Fonts,
  foldedPage,
  type Page,
  type PaperName,
  pageSvg,
  papers,
  patternDxf,
  patternPage,
  patternSvg,
  piecePage,
  pieceTiles,
  readType,
  sectionPage,
  tiledPattern,
  withScale,
  writePdf,
} from './sheets/index.js';

const beside = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

/** The two cuts of the type. */
export const readFonts = (): Fonts => ({
  regular: readFileSync(beside('./sheets/fonts/sheet-regular.ttf')),
  bold: readFileSync(beside('./sheets/fonts/sheet-bold.ttf')),
});

/** The program built for a bench carries its picture writer beside it; in the checkout it is the package's own. */
const pictureWriter = (): Uint8Array => {
  const shipped = beside('./resvg.wasm');
  return readFileSync(existsSync(shipped) ? shipped : createRequire(import.meta.url).resolve('@resvg/resvg-wasm/index_bg.wasm'));
};

/**
 * A page as a PNG picture.
 *
 * @param dotsPerInch 25…1200; the picture's size follows from the page's
 */
export const pagePng = async (page: Page, fonts: Fonts, dotsPerInch: number): Promise<Uint8Array> => {
  const { initWasm, Resvg } = await import('@resvg/resvg-wasm');
  // The library is started once in a process and says so when asked again.
  await initWasm(pictureWriter()).catch((error: unknown) => {
    if (!String(error).includes('Already initialized')) throw error;
  });
  const picture = new Resvg(pageSvg(page), {
    fitTo: { mode: 'width', value: Math.max(1, Math.round((page.width / 25.4) * dotsPerInch)) },
    font: { fontBuffers: [fonts.regular, fonts.bold], defaultFontFamily: 'DejaVu Sans', sansSerifFamily: 'DejaVu Sans' },
    background: '#ffffff',
  });
  const drawn = picture.render();
  return withScale(drawn.asPng(), drawn.width / page.width);
};

const inBase64 = ({ regular, bold }: Fonts): { readonly regular: string; readonly bold: string } => ({
  regular: Buffer.from(regular).toString('base64'),
  bold: Buffer.from(bold).toString('base64'),
});

export const patternFormats = ['svg', 'dxf', 'pdf', 'png', 'glb', 'stl'] as const;
export type PatternFormat = (typeof patternFormats)[number];
/** What SVG, PDF and PNG can show of a part. */
export const patternViews = ['blank', 'folded', 'section'] as const;
export type PatternView = (typeof patternViews)[number];
export interface PatternWish {
  /** The flat blank at true size unless said otherwise. GLB and STL are the folded part whatever this says. */
  readonly view?: PatternView;
  /** The finished part, where it can be folded. */
  readonly folded?: FoldResult | undefined;
  /** For PDF: tiles of a paper, or one sheet as long as it must be. */
  readonly paper: PaperName | 'roll';
  /** For PNG, dots to the inch. */
  readonly dotsPerInch: number;
  /** What the part's roller work comes to: the pattern is then of the sheet before rolling. */
  readonly beads?: BeadResult | undefined;
}

/**
 * A part as a file: text for SVG and DXF, bytes for the others. SVG, DXF, PDF and PNG are its true-size pattern unless the wish names another view; GLB
 * (metres, as glTF 2.0 has it) and STL (mm) are the folded part.
 *
 * @returns undefined for what the part does not have: a fold of pieces that lie over each other flat, a folded view as DXF, a section without bends
 */
export const writePattern = async (
  format: PatternFormat,
  part: Part,
  net: Blank,
  display: DisplayOptions,
  wish: PatternWish,
): Promise<string | Uint8Array | undefined> => {
  const { view = 'blank' } = wish;
  if (format === 'glb' || format === 'stl') {
    if (wish.folded === undefined) return undefined;
    const mesh = meshOf(net);
    return format === 'glb' ? glb(mesh, part.name) : stl(mesh, part.name);
  }
  if (view !== 'blank') return writeView(format, view, part, net, display, wish);
  const blank = wish.beads?.drawIn?.asCut ?? net;
  const options: DisplayOptions = { ...display, beads: wish.beads, beadsLie: 'as cut' };
  switch (format) {
    case 'svg': {
      const type = await readType(readFonts());
      return patternSvg(part, blank, options, type, inBase64(type.fonts));
    }
    case 'dxf':
      return patternDxf(part, blank, wish.beads);
    case 'pdf': {
      const type = await readType(readFonts());
      const pages =
        wish.paper === 'roll' ? [patternPage(part, blank, options, type)] : tiledPattern(part, blank, papers[wish.paper], options, type);
      return writePdf(pages, { title: `${part.name}, true-size pattern`, date: new Date() }, type.fonts);
    }
    case 'png': {
      const type = await readType(readFonts());
      return pagePng(patternPage(part, blank, options, type), type.fonts, wish.dotsPerInch);
    }
  }
};

/**
 * A piece or a strap as a file at true size: the papers to wrap round its coped ends, or else its drawing with all that is marked on it.
 *
 * @returns undefined for formats that it has not (DXF, GLB, STL), and while its stock or its length is not known
 */
export const writePiecePattern = async (
  format: PatternFormat,
  part: CutFromLength,
  options: DisplayOptions,
  wish: PatternWish,
): Promise<string | Uint8Array | undefined> => {
  const type = await readType(readFonts());
  const page = piecePage(part, options, type);
  if (page === undefined) return undefined;
  switch (format) {
    case 'svg':
      return pageSvg(page);
    case 'png':
      return pagePng(page, type.fonts, wish.dotsPerInch);
    case 'pdf': {
      const pages = wish.paper === 'roll' ? [page] : (pieceTiles(part, papers[wish.paper], options, type) ?? [page]);
      return writePdf(pages, { title: page.title, date: new Date() }, type.fonts);
    }
    default:
      return undefined;
  }
};

/** The folded part seen from a corner, or its section with sizes. */
const writeView = async (
  format: 'svg' | 'dxf' | 'pdf' | 'png',
  view: 'folded' | 'section',
  part: Part,
  blank: Blank,
  display: DisplayOptions,
  { folded, dotsPerInch, beads }: PatternWish,
): Promise<string | Uint8Array | undefined> => {
  if (format === 'dxf' || folded === undefined) return undefined;
  const type = await readType(readFonts());
  const page = view === 'folded' ? foldedPage(part, blank, folded, { ...display, beads }, type) : sectionPage(part, blank, display, type);
  if (page === undefined) return undefined;
  switch (format) {
    case 'svg':
      return pageSvg(page);
    case 'pdf':
      return writePdf([page], { title: page.title, date: new Date() }, type.fonts);
    case 'png':
      return pagePng(page, type.fonts, dotsPerInch);
  }
};
