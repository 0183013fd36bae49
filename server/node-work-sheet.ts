/** The bend sheet or the bead sheet of one part, as pages to print. */
import type { HomeUnit } from './model/model.js';
import { type BookletSource, bookletPart, inInches, planned } from './node-booklet.js';
import { pagePng, readFonts } from './node-sheets.js';
import type { PartResult } from './project.js';
import {
  type BenchWork,
  bookletRoom,
  type PaperName,
  pageSvg,
  papers,
  readType,
  setPages,
  workSheetBlocks,
  writePdf,
} from './sheets/index.js';

export const workSheetFormats = ['pdf', 'svg', 'png'] as const;
export type WorkSheetFormat = (typeof workSheetFormats)[number];

export interface WorkSheetWish {
  readonly work: BenchWork;
  /** Letter for files in inches, else A4, unless given. */
  readonly paper?: PaperName;
  readonly unit: HomeUnit | undefined;
  readonly denominator?: number;
  /** Of a PNG. */
  readonly dotsPerInch: number;
  /** YYYY-MM-DD. */
  readonly date: string;
}

/** @returns one file of all sheets for PDF, a file each for the others; undefined where the part has no such work */
export const writeWorkSheet = async (
  format: WorkSheetFormat,
  source: BookletSource,
  result: PartResult,
  wish: WorkSheetWish,
): Promise<readonly (string | Uint8Array)[] | undefined> => {
  if (wish.work === 'bends') await planned(source.project, source.path, undefined);
  const { unit, denominator } = wish;
  const paper = papers[wish.paper ?? (inInches(unit) ? 'letter' : 'a4')];
  const type = await readType(readFonts());
  const blocks = workSheetBlocks(bookletPart(source, result, unit, denominator), wish.work, {
    unit,
    ...bookletRoom(paper),
    ...(denominator === undefined ? {} : { denominator }),
  });
  if (blocks === undefined) return undefined;
  const title = { title: result.part.name, documentType: wish.work === 'bends' ? 'bend sheet' : 'bead sheet', date: wish.date };
  const pages = setPages(blocks, title, paper, type);
  switch (format) {
    case 'pdf': {
      const date = new Date(`${wish.date}T00:00:00Z`);
      return [await writePdf(pages, { title: result.part.name, subject: title.documentType, date }, type.fonts)];
    }
    case 'svg':
      return pages.map((page) => pageSvg(page));
    case 'png':
      return Promise.all(pages.map((page) => pagePng(page, type.fonts, wish.dotsPerInch)));
  }
};
