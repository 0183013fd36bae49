/** What the sheets need from a disk under Node: the type they are set in, and the picture writer for PNG. Both lie beside the program. */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import type { BeadResult } from './bead/types.js';
import type { Blank } from './blank/types.js';
import type { Part } from './model/part.js';
import {
  type DisplayOptions,
  type Fonts,
  type Page,
  type PaperName,
  pageSvg,
  papers,
  patternDxf,
  patternPage,
  patternSvg,
  readType,
  tiledPattern,
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
  return picture.render().asPng();
};

export const patternFormats = ['svg', 'dxf', 'pdf', 'png'] as const;
export type PatternFormat = (typeof patternFormats)[number];
export interface PatternWish {
  /** For PDF: tiles of a paper, or one sheet as long as it must be. */
  readonly paper: PaperName | 'roll';
  /** For PNG, dots to the inch. */
  readonly dotsPerInch: number;
  /** What the part's roller work comes to: the pattern is then of the sheet before rolling. */
  readonly beads?: BeadResult | undefined;
}

/** The true-size pattern of a part as a file: text for SVG and DXF, bytes for PDF and PNG. */
export const writePattern = async (
  format: PatternFormat,
  part: Part,
  net: Blank,
  display: DisplayOptions,
  wish: PatternWish,
): Promise<string | Uint8Array> => {
  const blank = wish.beads?.drawIn?.asCut ?? net;
  const options: DisplayOptions = { ...display, beads: wish.beads, beadsLie: 'as cut' };
  switch (format) {
    case 'svg':
      return patternSvg(part, blank, part.name, options);
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
