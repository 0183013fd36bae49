/** What pages are built up from: pieces of a document that may not be parted, with their height and how they are drawn. */
import type { Point } from '../../shape/path.js';
import { boxMark, type Ink, type Mark, narrow } from '../pages/page.js';

/** A block, or a piece of one, that may not be parted. Drawn downward from its upper left corner. */
export interface Slab {
  readonly height: number;
  readonly draw: (at: Point) => readonly Mark[];
  /** Stays on the page of the slab after it. */
  readonly keep: boolean;
  /** Nothing but distance: left out at the head of a page. */
  readonly empty?: boolean;
  /** Drawn again at the head of the next page when the table goes on there. */
  readonly head?: Slab;
  /** A heading of the first level, for the contents. */
  readonly chapter?: string;
}

/** Sizes of type, mm, and the line to line distance as a share of it. */
export const body = 3.1;
export const leading = 1.4;

export const thin: Ink = { width: 0.18, colour: '#555555' };
export const rule: Ink = { width: narrow };

export const space = (height: number): Slab => ({ height, keep: false, empty: true, draw: () => [] });

export const textSlab = (text: string, size: number, indent = 0, bold = false): Slab => ({
  height: size * leading,
  keep: false,
  draw: ({ x, y }) => [{ kind: 'text', text, at: { x: x + indent, y: y - size }, size, bold }],
});

/** Lower left corner a little under the line of letters that it stands before. */
export const tickBox = ({ x, y }: Point): Mark => boxMark({ min: { x, y: y - 0.3 }, max: { x: x + 2.8, y: y + 2.5 } }, rule);

/** No single line of a paragraph is left alone on a page. */
export const together = (lines: readonly Slab[]): readonly Slab[] =>
  lines.map((line, i) => ({ ...line, keep: lines.length > 1 && (i === 0 || i === lines.length - 2) }));

/** One below another as one piece; the distance after the last is left out. */
export const stacked = (slabs: readonly Slab[]): Slab => {
  const shown = slabs[slabs.length - 1]?.empty === true ? slabs.slice(0, -1) : slabs;
  return {
    height: shown.reduce((sum, { height }) => sum + height, 0),
    keep: false,
    draw: ({ x, y }) => {
      let top = y;
      return shown.flatMap((slab) => {
        const marks = slab.draw({ x, y: top });
        top -= slab.height;
        return marks;
      });
    },
  };
};
