/** Blocks set on pages: headings kept with what follows them, tables broken between rows with their head repeated, columns as even as they come. */
import type { Mark, Page } from '../pages/page.js';
import type { Paper } from '../pages/paper.js';
import type { Type } from '../pages/type.js';
import { type Block, chaptersOf, type InnerBlock, type TitleBlock } from './blocks.js';
import { frame, textArea } from './frame.js';
import type { Slab } from './slab.js';
import { type Chapter, type Setting, slabsOfAll } from './slabs.js';

export const setPages = (blocks: readonly Block[], title: TitleBlock, paper: Paper, type: Type): readonly Page[] => {
  const unknown = chaptersOf(blocks).map((text): Chapter => ({ text, sheet: 0, atHead: false }));
  const first = setOnce(blocks, paper, type, unknown);
  // The contents take the same room whatever sheets they name, so a second setting puts everything where the first did.
  const { sheets, chapters } = blocks.some(({ kind }) => kind === 'contents') ? setOnce(blocks, paper, type, first.chapters) : first;
  return sheets.map((marks, index) => {
    const sheet = index + 1;
    // What the head of the page belongs to, or else what begins on it.
    const own = chapters.filter((one) => one.sheet === sheet);
    const before = chapters.filter((one) => one.sheet < sheet).at(-1);
    const chapter = (own[0]?.atHead === true ? own[0] : (before ?? own[0]))?.text ?? '';
    return {
      title: index === 0 ? title.title : `${sheet}  ${chapter === '' ? title.title : chapter}`,
      width: paper.width,
      height: paper.height,
      marks: [...frame(paper, title, { sheet, sheets: sheets.length, chapter }, type), ...marks],
    };
  });
};

interface Columns {
  readonly count: number;
  readonly width: number;
  readonly slabs: readonly Slab[];
}
type Item =
  | { readonly kind: 'slab'; readonly slab: Slab }
  | { readonly kind: 'columns'; readonly columns: Columns }
  | { readonly kind: 'turn'; readonly unless: number };

const columnGap = 6;
/** Over a chapter that does not begin its page. */
const chapterGap = 6;
/** Columns begin on a new page where less than this is left, unless they need no more, mm. */
const leastColumns = 40;

const itemsOf = (blocks: readonly Block[], width: number, setting: Setting): readonly Item[] => {
  const items: Item[] = [];
  let run: InnerBlock[] = [];
  const close = (after?: string): void => {
    items.push(...slabsOfAll(run, width, setting, after).map((slab): Item => ({ kind: 'slab', slab })));
    run = [];
  };
  for (const block of blocks) {
    if (block.kind === 'columns') {
      close('columns');
      const own = (width - columnGap * (block.count - 1)) / block.count;
      items.push({ kind: 'columns', columns: { count: block.count, width: own, slabs: slabsOfAll(block.blocks, own, setting) } });
    } else if (block.kind === 'new page') {
      close();
      items.push({ kind: 'turn', unless: block.unless ?? Number.POSITIVE_INFINITY });
    } else run.push(block);
  }
  close();
  return items;
};

const setOnce = (
  blocks: readonly Block[],
  paper: Paper,
  type: Type,
  contents: readonly Chapter[],
): { readonly sheets: readonly (readonly Mark[])[]; readonly chapters: readonly Chapter[] } => {
  const { left, width, top, bottom } = textArea(paper);
  const most = top - bottom;
  const items = itemsOf(blocks, width, { type, most, contents });
  const chapters: Chapter[] = [];
  const sheets: Mark[][] = [[]];
  let y = top;
  const turn = (): void => {
    sheets.push([]);
    y = top;
  };
  const draw = (slab: Slab, x: number, at: number): void => {
    sheets[sheets.length - 1]?.push(...slab.draw({ x, y: at }));
    if (slab.chapter !== undefined) chapters.push({ text: slab.chapter, sheet: sheets.length, atHead: at >= top - 0.01 });
  };
  const put = (slab: Slab): void => {
    draw(slab, left, y);
    y -= slab.height;
  };
  const putColumns = ({ count, width: own, slabs }: Columns): void => {
    let rest = slabs;
    while (rest.length > 0) {
      const room = y - bottom;
      const even = evenHeight(rest, count, room);
      const poured = pourAll(rest, count, even ?? room);
      if (y < top && even === undefined && (room < leastOf(rest, count) || poured.deepest > room + 0.01)) {
        turn();
        continue;
      }
      for (const [column, { placed }] of poured.columns.entries())
        for (const { slab, at } of placed) draw(slab, left + column * (own + columnGap), y - at);
      rest = rest.slice(poured.next);
      y -= poured.deepest;
      if (rest.length > 0) turn();
    }
  };
  for (const [index, item] of items.entries()) {
    if (item.kind === 'turn') {
      if (y < top && y - bottom < item.unless) turn();
    } else if (item.kind === 'columns') putColumns(item.columns);
    else {
      const { slab } = item;
      if (slab.empty === true) {
        // Distance never opens a page.
        if (y < top) y = Math.max(bottom, y - slab.height);
        continue;
      }
      const above = slab.chapter === undefined ? 0 : chapterGap;
      if (y - above - Math.min(neededFrom(items, index), most) < bottom - 0.01 && y < top) {
        turn();
        if (slab.head !== undefined) put(slab.head);
      } else if (y < top) y -= above;
      put(slab);
    }
  }
  return { sheets, chapters };
};

/** Height of a slab with all that it is to stay together with. */
const neededFrom = (items: readonly Item[], index: number): number => {
  let needed = 0;
  for (let at = index; at < items.length; at++) {
    const item = items[at] as Item;
    if (item.kind === 'turn') break;
    if (item.kind === 'columns') {
      const { slabs, count } = item.columns;
      return needed + leastOf(slabs, count);
    }
    needed += item.slab.height;
    if (!item.slab.keep) break;
  }
  return needed;
};

interface Poured {
  readonly placed: readonly { readonly slab: Slab; readonly at: number }[];
  readonly used: number;
  /** The first that found no room. */
  readonly next: number;
}

/** One column filled from its head, `height` mm deep at most; what must stay together and is deeper than that stands alone. */
const pour = (slabs: readonly Slab[], from: number, height: number): Poured => {
  const placed: { slab: Slab; at: number }[] = [];
  let used = 0;
  let next = from;
  while (next < slabs.length) {
    const slab = slabs[next] as Slab;
    if (slab.empty === true) {
      // Distance at the foot of a column is cut off there; what stands deeper already stays as deep.
      if (used > 0) used = Math.max(used, Math.min(height, used + slab.height));
      next++;
      continue;
    }
    let end = next;
    while ((slabs[end] as Slab).keep && end + 1 < slabs.length) end++;
    const chain = slabs.slice(next, end + 1);
    const needed = chain.reduce((sum, one) => sum + one.height, 0);
    if (used > 0 && used + needed > height + 0.01) break;
    // A table that goes on has its head again.
    const repeated = used === 0 && slab.head !== undefined && slabs[next - 1] !== slab.head ? [slab.head] : [];
    for (const one of [...repeated, ...chain]) {
      placed.push({ slab: one, at: used });
      used += one.height;
    }
    next = end + 1;
  }
  return { placed, used, next };
};

/** Columns filled one after the other. */
const pourAll = (
  slabs: readonly Slab[],
  count: number,
  height: number,
): { readonly columns: readonly Poured[]; readonly deepest: number; readonly next: number } => {
  const columns: Poured[] = [];
  let next = 0;
  while (columns.length < count && next < slabs.length) {
    const poured = pour(slabs, next, height);
    columns.push(poured);
    next = poured.next;
  }
  return { columns, deepest: Math.max(0, ...columns.map(({ used }) => used)), next };
};

/** What columns need to begin: all of them, or the first piece of each. */
const leastOf = (slabs: readonly Slab[], count: number): number =>
  evenHeight(slabs, count, leastColumns) ?? Math.max(leastColumns, pourAll(slabs, count, 0).deepest);

const step = 1;
/** The least height at which all go into so many columns; undefined where that is more than `most`. */
const evenHeight = (slabs: readonly Slab[], count: number, most: number): number | undefined => {
  const whole = slabs.reduce((sum, { height }) => sum + height, 0);
  for (let height = Math.max(whole / count, 5); height < most + step; height += step) {
    const tried = Math.min(height, most);
    const { next, deepest } = pourAll(slabs, count, tried);
    if (next >= slabs.length && deepest <= tried + 0.01) return tried;
  }
  return undefined;
};
