/**
 * Blocks set on pages: frame, title strip at the foot of each, headings kept with what follows them, tables broken between rows with their head repeated.
 * Frame and margins after ISO 5457: 20 mm at the filing edge, 10 mm at the others. Fields of the strip after ISO 7200.
 */
import type { Point } from '../../shape/path.js';
import { boxMark, type Ink, lineMark, type Mark, narrow, type Page, wide } from '../pages/page.js';
import type { Paper } from '../pages/paper.js';
import { linesOf, type Type } from '../pages/type.js';
import type { Block, Column, Figure, FormCell, TitleBlock } from './blocks.js';

const filing = 20;
const border = 10;
const strip = 14;
const inset = 5;
const thin: Ink = { width: 0.18, colour: '#555555' };
const rule: Ink = { width: narrow };

/** Sizes of type, mm, and the line to line distance as a share of it. */
const body = 3.1;
const leading = 1.4;

/** A block, or a piece of one, that may not be parted. */
interface Slab {
  readonly height: number;
  readonly draw: (at: Point) => readonly Mark[];
  /** Stays on the page of the slab after it. */
  readonly keep: boolean;
  /** Drawn again at the head of the next page when the table goes on there. */
  readonly head?: Slab;
  /** A heading of the first level, for the contents. */
  readonly chapter?: string;
}
/** A heading of the first level and the sheet it stands on, counted from 1. */
interface Chapter {
  readonly text: string;
  readonly sheet: number;
}

export const setPages = (blocks: readonly Block[], title: TitleBlock, paper: Paper, type: Type): readonly Page[] => {
  const unknown = blocks.flatMap((block): readonly Chapter[] =>
    block.kind === 'heading' && block.level === 1 ? [{ text: block.text, sheet: 0 }] : [],
  );
  const first = setOnce(blocks, title, paper, type, unknown);
  // The contents take the same room whatever sheets they name, so a second setting puts everything where the first did.
  return blocks.some(({ kind }) => kind === 'contents') ? setOnce(blocks, title, paper, type, first.chapters).pages : first.pages;
};

const setOnce = (
  blocks: readonly Block[],
  title: TitleBlock,
  paper: Paper,
  type: Type,
  contents: readonly Chapter[],
): { readonly pages: readonly Page[]; readonly chapters: readonly Chapter[] } => {
  const chapters: Chapter[] = [];
  const width = paper.width - filing - border - 2 * inset;
  const top = paper.height - border - inset;
  const bottom = border + strip + inset;
  const left = filing + inset;
  const sheets: Mark[][] = [[]];
  let y = top;
  const turn = (): void => {
    sheets.push([]);
    y = top;
  };
  const put = (slab: Slab): void => {
    sheets[sheets.length - 1]?.push(...slab.draw({ x: left, y }));
    if (slab.chapter !== undefined) chapters.push({ text: slab.chapter, sheet: sheets.length });
    y -= slab.height;
  };
  const slabs = blocks.flatMap((block, index): readonly (Slab | 'turn')[] => {
    if (block.kind === 'new page') return ['turn'];
    const own = slabsOf(block, width, top - bottom, type, contents);
    // Words that lead up to a drawing or a table stay with it.
    const after = blocks[index + 1]?.kind;
    const leads = block.kind === 'paragraph' && (after === 'figures' || after === 'table' || after === 'list');
    return leads ? own.map((slab) => ({ ...slab, keep: true })) : own;
  });
  for (const [index, slab] of slabs.entries()) {
    if (slab === 'turn') {
      if (y < top) turn();
      continue;
    }
    let needed = slab.height;
    for (let kept: Slab | 'turn' | undefined = slab, next = index + 1; kept !== undefined && kept !== 'turn' && kept.keep; next++) {
      kept = slabs[next];
      if (kept !== undefined && kept !== 'turn') needed += kept.height;
    }
    if (y - Math.min(needed, top - bottom) < bottom - 0.01 && y < top) {
      turn();
      if (slab.head !== undefined) put(slab.head);
    }
    put(slab);
  }
  const pages = sheets.map((marks, index) => ({
    title: index === 0 ? title.title : `${title.title}, sheet ${index + 1}`,
    width: paper.width,
    height: paper.height,
    marks: [...frame(paper, title, index + 1, sheets.length, type), ...marks],
  }));
  return { pages, chapters };
};

const frame = (paper: Paper, title: TitleBlock, sheet: number, sheets: number, type: Type): readonly Mark[] => {
  const right = paper.width - border;
  const y = border + strip;
  const fields: readonly { readonly name: string; readonly value: string; readonly share: number }[] = [
    { name: 'Legal owner', value: title.owner ?? '', share: 2 },
    { name: 'Title', value: title.title, share: 3.2 },
    { name: 'Document type', value: title.documentType, share: 2 },
    { name: 'Identification number', value: title.identification ?? '', share: 1.9 },
    { name: 'Date of issue', value: title.date, share: 1.3 },
    { name: 'Sheet', value: `${sheet}/${sheets}`, share: 0.9 },
  ];
  const whole = fields.reduce((sum, { share }) => sum + share, 0);
  const marks: Mark[] = [
    boxMark({ min: { x: filing, y: border }, max: { x: right, y: paper.height - border } }, { width: wide }),
    lineMark({ x: filing, y }, { x: right, y }, { width: wide }),
  ];
  let x = filing;
  for (const [index, field] of fields.entries()) {
    const wideness = ((right - filing) * field.share) / whole;
    if (index > 0) marks.push(lineMark({ x, y: border }, { x, y }, rule));
    marks.push({ kind: 'text', text: field.name, at: { x: x + 1.5, y: y - 3.2 }, size: 2, colour: '#555555' });
    const size = Math.min(3.4, (3.4 * (wideness - 3)) / Math.max(type.width(field.value, 3.4, true), 1e-6));
    marks.push({ kind: 'text', text: field.value, at: { x: x + 1.5, y: border + 4 }, size, bold: true });
    x += wideness;
  }
  return marks;
};

const slabsOf = (
  block: Exclude<Block, { kind: 'new page' }>,
  width: number,
  most: number,
  type: Type,
  contents: readonly Chapter[],
): readonly Slab[] => {
  switch (block.kind) {
    case 'heading': {
      const size = block.level === 1 ? 6 : block.level === 2 ? 4.4 : 3.5;
      const before = block.level === 1 ? 2 : block.level === 2 ? 4 : 2.5;
      const lines = linesOf(type, block.text, size, width, true);
      const line = block.level === 1 ? 1.5 : 0;
      return [
        {
          height: before + lines.length * size * 1.25 + 1.6 + line,
          keep: true,
          ...(block.level === 1 ? { chapter: block.text } : {}),
          draw: ({ x, y }) => [
            ...lines.map((text, i): Mark => ({ kind: 'text', text, at: { x, y: y - before - size * (i * 1.25 + 0.8) }, size, bold: true })),
            ...(block.level === 1
              ? [
                  lineMark(
                    { x, y: y - before - lines.length * size * 1.25 },
                    { x: x + width, y: y - before - lines.length * size * 1.25 },
                    { width: wide },
                  ),
                ]
              : []),
          ],
        },
      ];
    }
    case 'paragraph': {
      const size = block.size ?? body;
      return [
        ...together(linesOf(type, block.text, size, width, block.bold).map((text) => textSlab(text, size, 0, block.bold))),
        space(1.2),
      ];
    }
    case 'list':
      return [
        ...block.items.flatMap((item, index) => {
          const indent = block.mark === 'dot' ? 4 : 6;
          const lines = linesOf(type, item, body, width - indent);
          return lines.map((text, i): Slab => {
            const slab = textSlab(text, body, indent);
            if (i > 0) return slab;
            return {
              ...slab,
              height: slab.height + (lines.length === 1 ? 0.5 : 0),
              keep: lines.length > 1,
              draw: (at) => [...slab.draw(at), ...bullet(block.mark, index, at)],
            };
          });
        }),
        space(1.2),
      ];
    case 'table':
      return tableSlabs(block, width, type);
    case 'figures':
      return figureSlabs(block.figures, width, most);
    case 'caution':
      return [cautionSlab(block.title, block.items, width, type), space(2)];
    case 'blanks':
      return [...block.fields.map((field) => blankSlab(field, width, type)), space(1.5)];
    case 'fields':
      return [...block.rows.map(([name, value]) => fieldSlab(name, value, width, type)), space(1.5)];
    case 'form':
      return [...block.rows.map((row) => formSlab(row, width, type)), space(2.5)];
    case 'beside':
      return [besideSlab(block, width, type)];
    case 'typed':
      return [typedSlab(block.text, width), space(2)];
    case 'contents':
      return [...contents.map((chapter) => chapterSlab(chapter, width, type)), space(2)];
    case 'gap':
      return [space(block.height)];
  }
};

/** No single line of a paragraph is left alone on a page. */
const together = (lines: readonly Slab[]): readonly Slab[] =>
  lines.map((line, i) => ({ ...line, keep: lines.length > 1 && (i === 0 || i === lines.length - 2) }));

const space = (height: number): Slab => ({ height, keep: false, draw: () => [] });
const textSlab = (text: string, size: number, indent = 0, bold = false): Slab => ({
  height: size * leading,
  keep: false,
  draw: ({ x, y }) => [{ kind: 'text', text, at: { x: x + indent, y: y - size }, size, bold }],
});
const bullet = (mark: 'tick' | 'dot' | 'number', index: number, { x, y }: Point): readonly Mark[] => {
  if (mark === 'tick') return [tickBox({ x, y: y - body })];
  return [{ kind: 'text', text: mark === 'dot' ? '•' : `${index + 1}.`, at: { x, y: y - body }, size: body }];
};
const tickBox = ({ x, y }: Point): Mark => boxMark({ min: { x, y: y - 0.3 }, max: { x: x + 2.8, y: y + 2.5 } }, rule);

const tableSlabs = (block: Extract<Block, { kind: 'table' }>, width: number, type: Type): readonly Slab[] => {
  const size = 2.8;
  const tick = block.tick === true ? 6 : 0;
  const whole = block.columns.reduce((sum, { share }) => sum + share, 0);
  const widths = block.columns.map(({ share }) => ((width - tick) * share) / whole);
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
      // Neither the first nor the last row stands alone.
      keep: group || (block.rows.length > 2 && (index === 0 || index === block.rows.length - 2)),
      draw: (at) => [...slab.draw(at), ...(tick > 0 && !group ? [tickBox({ x: at.x + 1, y: at.y - 0.6 - size })] : [])],
    };
  });
  return [head, ...rows, space(2.5)];
};

/** Side by side while there is room; what is too wide or too high for the page is drawn smaller. */
const figureSlabs = (figures: readonly Figure[], width: number, most: number): readonly Slab[] => {
  const caption = 5;
  const gap = 5;
  const fitted = figures.map((figure) => ({ figure, scale: Math.min(1, width / figure.width, (most - caption - 2) / figure.height) }));
  const rows: { figure: Figure; scale: number }[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const each of fitted) {
    const own = each.figure.width * each.scale;
    if (used + gap + own > width + 1e-6) {
      rows.push([each]);
      used = own;
    } else {
      rows[rows.length - 1]?.push(each);
      used += gap + own;
    }
  }
  return rows.map((row): Slab => {
    const tallest = Math.max(...row.map(({ figure, scale }) => figure.height * scale));
    const words = row.some(({ figure }) => figure.caption !== undefined) ? caption : 0;
    return {
      height: tallest + words + 3,
      keep: false,
      draw: ({ x, y }) => {
        let at = x;
        return row.flatMap(({ figure, scale }): readonly Mark[] => {
          const here = at;
          at += figure.width * scale + gap;
          return [
            { kind: 'placed', marks: figure.marks, scale, to: { x: here, y: y - tallest } },
            ...(figure.caption === undefined
              ? []
              : [{ kind: 'text' as const, text: figure.caption, at: { x: here, y: y - tallest - 3.4 }, size: 2.6, colour: '#333333' }]),
          ];
        });
      },
    };
  });
};

const cautionSlab = (title: string, items: readonly string[], width: number, type: Type): Slab => {
  const lines = items.flatMap((item) => linesOf(type, item, body, width - 18).map((text, i) => ({ text, first: i === 0 })));
  const height = 8 + lines.length * body * leading + 2;
  return {
    height,
    keep: false,
    draw: ({ x, y }) => [
      boxMark({ min: { x, y: y - height }, max: { x: x + width, y } }, { width: wide }),
      ...triangle({ x: x + 3, y: y - 8.5 }),
      { kind: 'text', text: title, at: { x: x + 12, y: y - 5.5 }, size: 3.4, bold: true },
      ...lines.flatMap(({ text, first }, i): readonly Mark[] => {
        const base = y - 8 - body * (1 + i * leading);
        return [
          ...(first ? [{ kind: 'text' as const, text: '•', at: { x: x + 12, y: base }, size: body }] : []),
          { kind: 'text', text, at: { x: x + 15, y: base }, size: body },
        ];
      }),
    ],
  };
};
/** The general warning sign's triangle with its mark, in outline. Source for the shape: ISO 7010 W001. */
const triangle = ({ x, y }: Point): readonly Mark[] => [
  {
    kind: 'path',
    ink: { width: wide },
    runs: [
      {
        start: { x, y },
        closed: true,
        moves: [
          { kind: 'line', to: { x: x + 6.5, y } },
          { kind: 'line', to: { x: x + 3.25, y: y + 5.6 } },
        ],
      },
    ],
  },
  { kind: 'text', text: '!', at: { x: x + 3.25, y: y + 0.8 }, size: 4.4, bold: true, anchor: 'middle' },
];

const blankSlab = (field: string, width: number, type: Type): Slab => ({
  height: 8,
  keep: false,
  draw: ({ x, y }) => [
    { kind: 'text', text: field, at: { x, y: y - 6 }, size: body },
    lineMark(
      { x: x + type.width(field, body) + 2, y: y - 6.5 },
      { x: x + Math.max(width * 0.75, type.width(field, body) + 30), y: y - 6.5 },
      rule,
    ),
  ],
});
const fieldSlab = (name: string, value: string, width: number, type: Type): Slab => {
  const lines = linesOf(type, value, body, width - 52);
  return {
    height: lines.length * body * leading + 1,
    keep: false,
    draw: ({ x, y }) => [
      { kind: 'text', text: name, at: { x, y: y - body }, size: body, colour: '#555555' },
      ...lines.map((text, i): Mark => ({ kind: 'text', text, at: { x: x + 50, y: y - body * (1 + i * leading) }, size: body, bold: true })),
    ],
  };
};

const formSlab = (row: readonly FormCell[], width: number, type: Type): Slab => {
  const whole = row.reduce((sum, { share = 1 }) => sum + share, 0);
  const cells = row.map(({ name, value = '', share = 1 }) => {
    const own = (width * share) / whole;
    return { name, own, lines: value === '' ? [] : linesOf(type, value, body, own - 3, true) };
  });
  const height = Math.max(10.5, ...cells.map(({ lines }) => 5 + lines.length * body * leading + 0.8));
  return {
    height,
    keep: false,
    draw: ({ x, y }) => {
      let at = x;
      return cells.flatMap(({ name, own, lines }): readonly Mark[] => {
        const left = at;
        at += own;
        return [
          boxMark({ min: { x: left, y: y - height }, max: { x: at, y } }, rule),
          { kind: 'text', text: name, at: { x: left + 1.5, y: y - 3.2 }, size: 2, colour: '#555555' },
          ...lines.map(
            (text, i): Mark => ({
              kind: 'text',
              text,
              at: { x: left + 1.5, y: y - 5 - body * (0.8 + i * leading) },
              size: body,
              bold: true,
            }),
          ),
        ];
      });
    },
  };
};

const besideSlab = (block: Extract<Block, { kind: 'beside' }>, width: number, type: Type): Slab => {
  const size = 2.9;
  const pictured = block.figures.reduce((sum, figure) => sum + figure.width + 4, 0);
  const tick = block.tick === true ? 5 : 0;
  const room = width - pictured - 2;
  const title = linesOf(type, block.title, 3.4, room - tick, true);
  const lines = block.lines.flatMap((line) => linesOf(type, line, size, room - 3.5).map((text, i) => ({ text, first: i === 0 })));
  const said = title.length * 3.4 * 1.3 + 1 + lines.length * size * leading + 1;
  const height = Math.max(said, ...block.figures.map((figure) => figure.height)) + 4;
  return {
    height,
    keep: false,
    draw: ({ x, y }) => {
      let at = x;
      const left = x + pictured + 2;
      const top = y - 2;
      return [
        ...block.figures.map((figure): Mark => {
          const to = { x: at, y: top - figure.height };
          at += figure.width + 4;
          return { kind: 'placed', marks: figure.marks, to };
        }),
        ...(tick > 0 ? [tickBox({ x: left, y: top - 3.2 })] : []),
        ...title.map(
          (text, i): Mark => ({ kind: 'text', text, at: { x: left + tick, y: top - 3.4 * (0.9 + i * 1.3) }, size: 3.4, bold: true }),
        ),
        ...lines.flatMap(({ text, first }, i): readonly Mark[] => {
          const base = top - title.length * 3.4 * 1.3 - 1 - size * (1 + i * leading);
          return [
            ...(first ? [{ kind: 'text' as const, text: '–', at: { x: left, y: base }, size }] : []),
            { kind: 'text', text, at: { x: left + 3.5, y: base }, size },
          ];
        }),
        lineMark({ x, y: y - height }, { x: x + width, y: y - height }, thin),
      ];
    },
  };
};

const typedSlab = (text: string, width: number): Slab => {
  const lines = text.replace(/\n+$/, '').split('\n');
  const height = lines.length * body * 1.3 + 3;
  return {
    height,
    keep: false,
    draw: ({ x, y }) => [
      boxMark({ min: { x, y: y - height }, max: { x: x + width, y } }, undefined, '#f2f2f2'),
      ...lines.map((line, i): Mark => {
        const words = line.trimStart();
        return {
          kind: 'text',
          text: words,
          at: { x: x + 2 + (line.length - words.length) * 1.8, y: y - 1.2 - body * (1 + i * 1.3) },
          size: body,
        };
      }),
    ],
  };
};

const chapterSlab = ({ text, sheet }: Chapter, width: number, type: Type): Slab => ({
  height: body * 1.6,
  keep: false,
  draw: ({ x, y }) => {
    const from = x + type.width(text, body) + 2;
    const to = x + width - 8;
    return [
      { kind: 'text', text, at: { x, y: y - body }, size: body },
      ...(to > from
        ? [lineMark({ x: from, y: y - body }, { x: to, y: y - body }, { width: 0.18, dash: [0.3, 1.5], colour: '#555555' })]
        : []),
      ...(sheet === 0
        ? []
        : [{ kind: 'text' as const, text: String(sheet), at: { x: x + width, y: y - body }, size: body, anchor: 'end' as const }]),
    ];
  },
});
