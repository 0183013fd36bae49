/** Sizes of paper, mm, portrait. Sources: ISO 216 (A4, A3); ANSI/ASME Y14.1 (letter 8 1/2 × 11 in, tabloid 11 × 17 in). */
export type PaperName = 'a4' | 'a3' | 'letter' | 'tabloid';
export interface Paper {
  readonly name: PaperName;
  readonly width: number;
  readonly height: number;
}
export const papers: Readonly<Record<PaperName, Paper>> = {
  a4: { name: 'a4', width: 210, height: 297 },
  a3: { name: 'a3', width: 297, height: 420 },
  letter: { name: 'letter', width: 215.9, height: 279.4 },
  tabloid: { name: 'tabloid', width: 279.4, height: 431.8 },
};
export const turnedOver = (paper: Paper): Paper => ({ ...paper, width: paper.height, height: paper.width });
/** Printers leave this much of the paper blank at every edge. Common practice, no source. */
export const paperMargin = 10;
