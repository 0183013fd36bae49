/** Every block of a document as slabs of the width it is given. */
import type { Point } from '../../shape/path.js';
import { boxMark, lineMark, type Mark, wide } from '../pages/page.js';
import { linesOf, type Type } from '../pages/type.js';
import type { FormCell, InnerBlock } from './blocks.js';
import { cardSlab, figureSlabs } from './figures.js';
import { body, leading, rule, type Slab, space, stacked, textSlab, tickBox, together } from './slab.js';
import { tableSlabs } from './table.js';

/** A heading of the first level and the sheet it stands on, counted from 1; 0 while that is not known. */
export interface Chapter {
  readonly text: string;
  readonly sheet: number;
  /** Whether it begins at the head of that sheet. */
  readonly atHead: boolean;
}
export interface Setting {
  readonly type: Type;
  /** Height of the text on a page, mm. */
  readonly most: number;
  readonly contents: readonly Chapter[];
}

/** Blocks that words lead up to: the words stay with them. */
const ledUpTo: ReadonlySet<string> = new Set(['figures', 'table', 'list', 'side', 'columns', 'form', 'card', 'fields', 'typed']);

/** @param after what follows the last of them */
export const slabsOfAll = (blocks: readonly InnerBlock[], width: number, setting: Setting, after?: string): readonly Slab[] =>
  blocks.flatMap((block, index) => {
    const own = slabsOf(block, width, setting);
    const next = blocks[index + 1];
    const kind = next?.kind ?? (index === blocks.length - 1 ? after : undefined);
    // Words under a heading stay with the heading of the level below.
    const leads =
      (block.kind === 'paragraph' && kind !== undefined && (ledUpTo.has(kind) || (next?.kind === 'heading' && next.level === 3))) ||
      // And what is said of a thing with its drawing.
      (block.kind === 'fields' && kind === 'figures');
    return leads ? own.map((slab) => ({ ...slab, keep: true })) : own;
  });

const slabsOf = (block: InnerBlock, width: number, setting: Setting): readonly Slab[] => {
  const { type } = setting;
  switch (block.kind) {
    case 'heading':
      return [headingSlab(block, width, type)];
    case 'paragraph': {
      const size = block.size ?? body;
      return [
        ...together(linesOf(type, block.text, size, width, block.bold).map((text) => textSlab(text, size, 0, block.bold))),
        space(1.2),
      ];
    }
    case 'list':
      return listSlabs(block, width, type);
    case 'table':
      return tableSlabs(block, width, type);
    case 'figures':
      return figureSlabs(block.figures, width, setting.most, type);
    case 'caution':
      return [cautionSlab(block.title, block.items, width, type), space(2)];
    case 'blanks':
      return [...block.fields.map((field) => blankSlab(field, width, type)), space(1.5)];
    case 'fields':
      return [
        ...block.rows.map(([name, value]) => fieldSlab(name, value, Math.min(block.names ?? 48, width * 0.45), width, type)),
        space(1.5),
      ];
    case 'form':
      return [...block.rows.map((row) => formSlab(row, width, type)), space(2.5)];
    case 'card':
      return [cardSlab(block, width, type)];
    case 'typed':
      return [...typedSlabs(block.text, width, type), space(2)];
    case 'side':
      return [sideSlab(block, width, setting), space(2)];
    case 'kept': {
      const slabs = slabsOfAll(block.blocks, width, setting);
      const last = slabs.findLastIndex(({ empty }) => empty !== true);
      return slabs.map((slab, i) => (i < last ? { ...slab, keep: true } : slab));
    }
    case 'contents':
      return [...contentsSlabs(setting.contents, width, type), space(2)];
    case 'gap':
      return [space(block.height)];
  }
};

const headingSlab = ({ level, text }: Extract<InnerBlock, { kind: 'heading' }>, width: number, type: Type): Slab => {
  const size = level === 1 ? 6 : level === 2 ? 4.4 : 3.5;
  const before = level === 1 ? 2 : level === 2 ? 3.5 : 2;
  const lines = linesOf(type, text, size, width, true);
  const under = before + lines.length * size * 1.25;
  return {
    height: under + 1.6 + (level === 1 ? 1.5 : 0),
    keep: true,
    ...(level === 1 ? { chapter: text } : {}),
    draw: ({ x, y }) => [
      ...lines.map((line, i): Mark => ({ kind: 'text', text: line, at: { x, y: y - before - size * (i * 1.25 + 0.8) }, size, bold: true })),
      ...(level === 1 ? [lineMark({ x, y: y - under }, { x: x + width, y: y - under }, { width: wide })] : []),
    ],
  };
};

const listSlabs = (block: Extract<InnerBlock, { kind: 'list' }>, width: number, type: Type): readonly Slab[] => [
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
const bullet = (mark: 'tick' | 'dot' | 'number', index: number, { x, y }: Point): readonly Mark[] => {
  if (mark === 'tick') return [tickBox({ x, y: y - body })];
  return [{ kind: 'text', text: mark === 'dot' ? '•' : `${index + 1}.`, at: { x, y: y - body }, size: body }];
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
  draw: ({ x, y }) => {
    const from = x + type.width(field, body) + 2;
    return [
      { kind: 'text', text: field, at: { x, y: y - 6 }, size: body },
      lineMark({ x: from, y: y - 6.5 }, { x: Math.max(x + width * 0.75, from + 28), y: y - 6.5 }, rule),
    ];
  },
});
const fieldSlab = (name: string, value: string, names: number, width: number, type: Type): Slab => {
  const said = linesOf(type, name, body, names);
  const lines = linesOf(type, value, body, width - names - 2, true);
  return {
    height: Math.max(said.length, lines.length) * body * leading + 1,
    keep: false,
    draw: ({ x, y }) => [
      ...said.map((text, i): Mark => ({ kind: 'text', text, at: { x, y: y - body * (1 + i * leading) }, size: body, colour: '#555555' })),
      ...lines.map(
        (text, i): Mark => ({ kind: 'text', text, at: { x: x + names + 2, y: y - body * (1 + i * leading) }, size: body, bold: true }),
      ),
    ],
  };
};

const nameSize = 2.1;
const formSlab = (row: readonly FormCell[], width: number, type: Type): Slab => {
  const whole = row.reduce((sum, { share = 1 }) => sum + share, 0);
  const cells = row.map(({ name, value = '', share = 1 }) => {
    const own = (width * share) / whole;
    return {
      names: linesOf(type, name, nameSize, own - 3),
      own,
      lines: value === '' ? [] : linesOf(type, value, body, own - 3, true),
    };
  });
  const named = Math.max(...cells.map(({ names }) => names.length)) * nameSize * 1.25;
  // Room to write in by hand, or for what stands there.
  const height = named + 1.4 + Math.max(7, ...cells.map(({ lines }) => lines.length * body * leading + 1.4));
  return {
    height,
    keep: false,
    draw: ({ x, y }) => {
      let at = x;
      return cells.flatMap(({ names, own, lines }): readonly Mark[] => {
        const left = at;
        at += own;
        return [
          boxMark({ min: { x: left, y: y - height }, max: { x: at, y } }, rule),
          ...names.map(
            (text, i): Mark => ({
              kind: 'text',
              text,
              at: { x: left + 1.5, y: y - 0.9 - nameSize * (1 + i * 1.25) },
              size: nameSize,
              colour: '#555555',
            }),
          ),
          ...lines.map(
            (text, i): Mark => ({
              kind: 'text',
              text,
              at: { x: left + 1.5, y: y - named - 2 - body * (0.8 + i * leading) },
              size: body,
              bold: true,
            }),
          ),
        ];
      });
    },
  };
};

/** Broken only before a line that is not indented. */
const typedSlabs = (text: string, width: number, type: Type): readonly Slab[] => {
  const size = 2.7;
  const groups = text
    .replace(/\n+$/, '')
    .split('\n')
    .reduce<string[][]>((all, line) => {
      const last = all[all.length - 1];
      if (last === undefined || (/^[^\s}]/.test(line) && last.length > 0)) all.push([line]);
      else last.push(line);
      return all;
    }, []);
  return groups.map((group, index): Slab => {
    const lines = group.flatMap((line) => {
      const words = line.trimStart();
      const indent = (line.length - words.length) * 1.6;
      return linesOf(type, words, size, width - 4 - indent).map((shown, i) => ({ shown, indent: indent + (i === 0 ? 0 : 3) }));
    });
    const height = lines.length * size * 1.3 + (index === groups.length - 1 ? 1 : 0);
    return {
      height,
      keep: false,
      draw: ({ x, y }) => [
        boxMark({ min: { x, y: y - height }, max: { x: x + width, y } }, undefined, '#f2f2f2'),
        ...lines.map(
          ({ shown, indent }, i): Mark => ({
            kind: 'text',
            text: shown,
            at: { x: x + 2 + indent, y: y - size * (1.1 + i * 1.3) },
            size,
          }),
        ),
      ],
    };
  });
};

const sideGap = 6;
const sideSlab = ({ parts }: Extract<InnerBlock, { kind: 'side' }>, width: number, setting: Setting): Slab => {
  const whole = parts.reduce((sum, { share }) => sum + share, 0);
  const room = width - sideGap * Math.max(0, parts.length - 1);
  let across = 0;
  const placed = parts.map(({ share, blocks }) => {
    const own = (room * share) / whole;
    const left = across;
    across += own + sideGap;
    return { left, slab: stacked(slabsOfAll(blocks, own, setting)) };
  });
  return {
    height: Math.max(0, ...placed.map(({ slab }) => slab.height)),
    keep: false,
    draw: ({ x, y }) => placed.flatMap(({ left, slab }) => slab.draw({ x: x + left, y })),
  };
};

/** From this many chapters on they are told in two columns. */
const manyChapters = 12;
const contentsSlabs = (contents: readonly Chapter[], width: number, type: Type): readonly Slab[] => {
  const across = contents.length >= manyChapters ? 2 : 1;
  const gap = 8;
  const own = (width - gap * (across - 1)) / across;
  const down = Math.ceil(contents.length / across);
  return Array.from(
    { length: down },
    (_, row): Slab => ({
      height: body * 1.6,
      keep: false,
      draw: ({ x, y }) =>
        Array.from({ length: across }, (_, column) => contents[column * down + row]).flatMap((chapter, column) =>
          chapter === undefined ? [] : chapterMarks(chapter, { x: x + column * (own + gap), y }, own, type),
        ),
    }),
  );
};
const chapterMarks = ({ text, sheet }: Chapter, { x, y }: Point, width: number, type: Type): readonly Mark[] => {
  const [first = ''] = linesOf(type, text, body, width - 10);
  const from = x + type.width(first, body) + 2;
  const to = x + width - 8;
  return [
    { kind: 'text', text: first, at: { x, y: y - body }, size: body },
    ...(to > from
      ? [lineMark({ x: from, y: y - body }, { x: to, y: y - body }, { width: 0.18, dash: [0.3, 1.5], colour: '#555555' })]
      : []),
    ...(sheet === 0
      ? []
      : [{ kind: 'text' as const, text: String(sheet), at: { x: x + width, y: y - body }, size: body, anchor: 'end' as const }]),
  ];
};
