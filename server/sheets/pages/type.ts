/** How wide words are in the type of the sheets, and words broken into lines. */
import type { Fonts } from './page.js';

export interface Type {
  readonly fonts: Fonts;
  /** Length of a line of words, mm, at a size in mm. */
  readonly width: (text: string, size: number, bold?: boolean) => number;
  /** Height of capitals as a share of the size. */
  readonly capital: number;
}

/** Reads the metrics of both cuts; the library that reads fonts is loaded on first use. */
export const readType = async (fonts: Fonts): Promise<Type> => {
  const { create } = await import('fontkit');
  const [regular, bold] = [fonts.regular, fonts.bold].map((bytes) => {
    const font = create(bytes as Parameters<typeof create>[0]);
    if (!('layout' in font)) throw new Error('a font file holds one font');
    return { font, widths: new Map<string, number>() };
  });
  if (regular === undefined || bold === undefined) throw new Error('two fonts are wanted');
  return {
    fonts,
    // Asked of a letter: the file's own field for it came late, and this type has none.
    capital: regular.font.glyphForCodePoint(0x48).bbox.maxY / regular.font.unitsPerEm,
    width: (text, size, heavy = false) => {
      const { font, widths } = heavy ? bold : regular;
      let total = 0;
      for (const character of text) {
        let own = widths.get(character);
        if (own === undefined) {
          own = font.glyphForCodePoint(character.codePointAt(0) as number).advanceWidth / font.unitsPerEm;
          widths.set(character, own);
        }
        total += own;
      }
      return total * size;
    },
  };
};

/** Where a line may be broken: not within a size (`5 25/64− in`). */
const BREAKS = /(?<![\d+−])\s+|\s+(?!\d+\/\d|(?:in|mm|ft|lb|kg)\b)/;
/** The same words with spaces that no reader breaks a line at. */
export const unbroken = (text: string): string => text.replace(/(?<=[\d+−])[ ](?=\d+\/\d|(?:in|mm|ft|lb|kg)\b)/g, '\u00a0');

/** Words broken into lines no wider than `room`; a word that is wider alone is broken where it must. */
export const linesOf = (type: Type, text: string, size: number, room: number, bold = false): readonly string[] =>
  text.split('\n').flatMap((paragraph) => {
    const lines: string[] = [];
    let line = '';
    for (const word of paragraph.split(BREAKS).filter((each) => each !== '')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (type.width(longer, size, bold) <= room) {
        line = longer;
        continue;
      }
      if (line !== '') lines.push(line);
      line = word;
      while (type.width(line, size, bold) > room && line.length > 1) {
        let count = line.length - 1;
        while (count > 1 && type.width(line.slice(0, count), size, bold) > room) count--;
        lines.push(line.slice(0, count));
        line = line.slice(count);
      }
    }
    lines.push(line);
    return lines;
  });
