/** Tables as rows that keep whole, their head repeated where they go on. */
import { boxMark, lineMark, type Mark, wide } from '../pages/page.js';
import { linesOf, type Type } from '../pages/type.js';
import type { Column, InnerBlock } from './blocks.js';
import { type Slab, space, thin, tickBox } from './slab.js';

/** Letters, mm; where a table's numbers don't fit beside each other they are smaller, down to the smallest of ISO 3098. */
const sizes = [2.8, 2.65, 2.5] as const;
const tickRoom = 6;
const few = 4;

type Table = Extract<InnerBlock, { kind: 'table' }>;

export const tableSlabs = (block: Table, width: number, type: Type): readonly Slab[] => {
  const tick = block.tick === true ? tickRoom : 0;
  const { widths, size } = widthsOf(block, width - tick, type);
  const cells = (row: readonly string[], bold: boolean): Slab => {
    const lines = block.columns.map((column, i) =>
      linesOf(type, row[i] ?? '', size, (widths[i] as number) - 2, bold || column.bold === true),
    );
    const height = Math.max(...lines.map((each) => each.length)) * size * 1.3 + 1.6;
    return {
      height,
      keep: false,
      draw: ({ x, y }) => {
        const marks: Mark[] = [lineMark({ x, y: y - height }, { x: x + width, y: y - height }, thin)];
        let at = x + tick;
        lines.forEach((column, i) => {
          const own = block.columns[i] as Column;
          const room = widths[i] as number;
          const edge = own.align === 'right' ? at + room - 1 : own.align === 'middle' ? at + room / 2 : at + 1;
          column.forEach((text, line) => {
            marks.push({
              kind: 'text',
              text,
              at: { x: edge, y: y - 0.6 - size * (1 + line * 1.3) },
              size,
              bold: bold || own.bold === true,
              anchor: own.align === 'right' ? 'end' : own.align === 'middle' ? 'middle' : 'start',
            });
          });
          at += room;
        });
        return marks;
      },
    };
  };
  const headCells = cells(
    block.columns.map(({ title }) => title),
    true,
  );
  const head: Slab = {
    height: headCells.height,
    keep: true,
    draw: (at) => [
      boxMark({ min: { x: at.x, y: at.y - headCells.height }, max: { x: at.x + width, y: at.y } }, undefined, '#eeeeee'),
      ...headCells.draw(at),
      lineMark({ x: at.x, y: at.y - headCells.height }, { x: at.x + width, y: at.y - headCells.height }, { width: wide }),
    ],
  };
  const rows = block.rows.map((row, index): Slab => {
    const group = block.groups?.includes(index) === true;
    const slab = cells(row, group);
    return {
      ...slab,
      head,
      // A short table is not parted, and of a long one neither the first nor the last row stands alone.
      keep: index < block.rows.length - 1 && (group || block.rows.length <= few || index === 0 || index === block.rows.length - 2),
      draw: (at) => [...slab.draw(at), ...(tick > 0 && !group ? [tickBox({ x: at.x + 1, y: at.y - 0.6 - size })] : [])],
    };
  });
  return [head, ...rows, space(2.5)];
};

/** By the shares, but no column is narrower than its longest word, nor one of numbers than its longest number, as long as the others can spare the room. */
const widthsOf = (table: Table, width: number, type: Type): { readonly widths: readonly number[]; readonly size: number } => {
  for (const size of sizes) {
    const widths = widthsAt(table, width, size, type);
    if (widths !== undefined) return { widths, size };
  }
  const shares = table.columns.reduce((sum, { share }) => sum + share, 0);
  return { widths: table.columns.map(({ share }) => (width * share) / shares), size: sizes[sizes.length - 1] as number };
};

const widthsAt = ({ columns, rows }: Table, width: number, size: number, type: Type): readonly number[] | undefined => {
  const wide = (text: string, heavy: boolean, parted: RegExp): number =>
    Math.max(0, ...text.split(parted).map((word) => type.width(word, size, heavy)));
  const least = columns.map(({ title, bold, align }, i) => {
    const parted = align === 'right' ? /\n/ : /\s+/;
    return Math.max(wide(title, true, /\s+/), ...rows.map((row) => wide(row[i] ?? '', bold === true, parted))) + 2.2;
  });
  const fixed = new Set<number>();
  for (;;) {
    const rest = width - [...fixed].reduce((sum, i) => sum + (least[i] as number), 0);
    if (rest < 0) return undefined;
    const whole = columns.reduce((sum, { share }, i) => sum + (fixed.has(i) ? 0 : share), 0);
    const widths = columns.map(({ share }, i) => (fixed.has(i) ? (least[i] as number) : (rest * share) / whole));
    const narrow = widths.findIndex((own, i) => !fixed.has(i) && own < (least[i] as number) - 1e-9);
    if (narrow < 0) return widths;
    fixed.add(narrow);
  }
};
