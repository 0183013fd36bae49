/** Drawings within the text: side by side with their captions, or over the words of a step. */
import { lineMark, type Mark } from '../pages/page.js';
import { linesOf, type Type } from '../pages/type.js';
import type { Figure, InnerBlock } from './blocks.js';
import { leading, type Slab, thin, tickBox } from './slab.js';

const captionSize = 2.6;
const captionLine = captionSize * 1.35;

interface Placed {
  readonly figure: Figure;
  readonly scale: number;
}

/** Side by side while there is room; what is too wide or too high for the page is drawn smaller. */
export const figureSlabs = (figures: readonly Figure[], width: number, most: number, type: Type): readonly Slab[] => {
  const gap = 5;
  const rows: Placed[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const figure of figures) {
    const scale = Math.min(1, width / figure.width, (most - 2 * captionLine - 4) / figure.height);
    const own = figure.width * scale;
    if (used + gap + own > width + 1e-6) {
      rows.push([{ figure, scale }]);
      used = own;
    } else {
      rows[rows.length - 1]?.push({ figure, scale });
      used += gap + own;
    }
  }
  return rows.map((row) => figureRow(row, width, gap, type));
};

const figureRow = (row: readonly Placed[], width: number, gap: number, type: Type): Slab => {
  const tallest = Math.max(...row.map(({ figure, scale }) => figure.height * scale));
  let across = 0;
  const placed = row.map(({ figure, scale }, i) => {
    const left = across;
    across += figure.width * scale + gap;
    // The last caption may run on to the margin; the others keep to their own drawing.
    const room = i === row.length - 1 ? width - left : Math.max(figure.width * scale, 20);
    return { figure, scale, left, lines: figure.caption === undefined ? [] : linesOf(type, figure.caption, captionSize, room) };
  });
  const said = Math.max(...placed.map(({ lines }) => lines.length));
  return {
    height: tallest + (said === 0 ? 0 : said * captionLine + 1.5) + 3,
    keep: false,
    draw: ({ x, y }) =>
      placed.flatMap(({ figure, scale, left, lines }): readonly Mark[] => [
        { kind: 'placed', marks: figure.marks, scale, to: { x: x + left, y: y - tallest } },
        ...lines.map(
          (text, i): Mark => ({
            kind: 'text',
            text,
            at: { x: x + left, y: y - tallest - 0.8 - captionSize - i * captionLine },
            size: captionSize,
            colour: '#333333',
          }),
        ),
      ]),
  };
};

const titleSize = 3.4;
const saidSize = 2.9;

/** Pictures in a row, drawn smaller where they are too wide together; under them the title and what is done. */
export const cardSlab = (block: Extract<InnerBlock, { kind: 'card' }>, width: number, type: Type): Slab => {
  const gap = 3;
  const pictured = block.figures.reduce((sum, figure) => sum + figure.width, 0);
  const gaps = Math.max(0, block.figures.length - 1) * gap;
  const scale = pictured === 0 ? 1 : Math.min(1, (width - gaps) / pictured);
  const tallest = Math.max(0, ...block.figures.map(({ height }) => height * scale));
  const tick = block.tick === true ? 5 : 0;
  const title = linesOf(type, block.title, titleSize, width - tick, true);
  const lines = block.lines.flatMap((line) => linesOf(type, line, saidSize, width - 3.5).map((text, i) => ({ text, first: i === 0 })));
  const under = tallest === 0 ? 1 : tallest + 1.5;
  const height = under + title.length * titleSize * 1.3 + 0.8 + lines.length * saidSize * leading + 3.2;
  return {
    height,
    keep: false,
    draw: ({ x, y }) => {
      let at = x;
      const top = y - under;
      return [
        ...block.figures.map((figure): Mark => {
          const to = { x: at, y: y - figure.height * scale };
          at += figure.width * scale + gap;
          return { kind: 'placed', marks: figure.marks, to, scale };
        }),
        ...(tick > 0 ? [tickBox({ x, y: top - 3.2 })] : []),
        ...title.map(
          (text, i): Mark => ({
            kind: 'text',
            text,
            at: { x: x + tick, y: top - titleSize * (0.9 + i * 1.3) },
            size: titleSize,
            bold: true,
          }),
        ),
        ...lines.flatMap(({ text, first }, i): readonly Mark[] => {
          const base = top - title.length * titleSize * 1.3 - 0.8 - saidSize * (1 + i * leading);
          return [
            ...(first ? [{ kind: 'text' as const, text: '–', at: { x, y: base }, size: saidSize }] : []),
            { kind: 'text', text, at: { x: x + 3.5, y: base }, size: saidSize },
          ];
        }),
        lineMark({ x, y: y - height + 1.8 }, { x: x + width, y: y - height + 1.8 }, thin),
      ];
    },
  };
};
