/** How blocks are set on pages: what stays together, what is repeated, and that nothing is lost or leaves its page. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { readFonts } from '../../server/node-sheets.js';
import { type Block, documentHtml, type Mark, type Page, papers, readType, setPages, type Type } from '../../server/sheets/index.js';
import { runs } from '../runs.js';

let type: Type;
beforeAll(async () => {
  type = await readType(readFonts());
});

const title = { title: 'tray', documentType: 'job booklet', date: '2026-01-01' };
const paper = papers.a4;
const pagesOf = (blocks: readonly Block[]): readonly Page[] => setPages(blocks, title, paper, type);

interface Word {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly right: number;
}
/** Words within the frame, from the top; the strip at the foot left out. */
const words = (page: Page): readonly Word[] => {
  const found: Word[] = [];
  const look = (marks: readonly Mark[], dx: number, dy: number, scale: number): void => {
    for (const mark of marks) {
      if (mark.kind === 'placed') look(mark.marks, dx + scale * mark.to.x, dy + scale * mark.to.y, scale * (mark.scale ?? 1));
      else if (mark.kind === 'text') {
        const length = type.width(mark.text, mark.size, mark.bold) * scale;
        const x = dx + scale * mark.at.x - (mark.anchor === 'end' ? length : mark.anchor === 'middle' ? length / 2 : 0);
        found.push({ text: mark.text, x, y: dy + scale * mark.at.y, right: x + length });
      }
    }
  };
  look(page.marks, 0, 0, 1);
  return found.filter(({ y }) => y > 25).sort((a, b) => b.y - a.y || a.x - b.x);
};
const textOf = (page: Page): readonly string[] => words(page).map(({ text }) => text);

const rows = (count: number, name = 'row'): readonly (readonly string[])[] =>
  Array.from({ length: count }, (_, i) => [`${name} ${i + 1}`, 'cut']);
const table = (count: number, name?: string): Extract<Block, { kind: 'table' }> => ({
  kind: 'table',
  columns: [
    { title: 'at', share: 1 },
    { title: 'scribe', share: 2 },
  ],
  rows: rows(count, name),
  tick: true,
});
const lines = (count: number): Block => ({ kind: 'list', mark: 'dot', items: Array.from({ length: count }, (_, i) => `line ${i + 1}`) });

describe('blocks on pages', () => {
  it('a heading and the words that lead up to a table stay with its first rows', () => {
    // Rows of a list push the heading step by step past the foot of the page.
    for (let count = 40; count < 56; count++) {
      const pages = pagesOf([
        lines(count),
        { kind: 'heading', level: 2, text: 'Mark out' },
        { kind: 'paragraph', text: 'Square up.' },
        { kind: 'heading', level: 3, text: 'From the left' },
        table(12),
      ]);
      const page = pages.findIndex((each) => textOf(each).includes('Mark out'));
      expect(textOf(pages[page] as Page)).toEqual(expect.arrayContaining(['Square up.', 'From the left', 'at', 'row 1', 'row 2']));
    }
  });

  it('a table that goes on has its head again, and every row stands once', () => {
    const pages = pagesOf([table(120)]);
    expect(pages.length).toBeGreaterThan(1);
    for (const page of pages) expect(textOf(page).filter((text) => text === 'scribe')).toHaveLength(1);
    expect(pages.flatMap(textOf).filter((text) => text.startsWith('row '))).toEqual(rows(120).map(([name]) => name));
  });

  it('columns are read down, come out as even as they can, and go on over the page with the head repeated', () => {
    const [page] = pagesOf([{ kind: 'columns', count: 2, blocks: [table(20)] }]);
    const own = words(page as Page).filter(({ text }) => text.startsWith('row '));
    const left = own.filter(({ x }) => x < 110);
    expect(left.map(({ text }) => text)).toEqual(rows(10).map(([name]) => name));
    expect(textOf(page as Page).filter((text) => text === 'scribe')).toHaveLength(2);
    const pages = pagesOf([{ kind: 'columns', count: 2, blocks: [table(150)] }]);
    expect(pages.length).toBe(2);
    for (const each of pages) expect(textOf(each).filter((text) => text === 'scribe')).toHaveLength(2);
    expect(new Set(pages.flatMap(textOf).filter((text) => text.startsWith('row '))).size).toBe(150);
  });

  it('what follows columns stands under the deepest of them, however few rows they have', () => {
    for (let count = 1; count < 8; count++) {
      const [page] = pagesOf([
        { kind: 'columns', count: 2, blocks: [{ kind: 'heading', level: 3, text: 'Sloping lines' }, table(count)] },
        { kind: 'heading', level: 2, text: 'Bends' },
      ]);
      const all = words(page as Page);
      const lowest = Math.min(...all.filter(({ text }) => text.startsWith('row ')).map(({ y }) => y));
      expect(all.find(({ text }) => text === 'Bends')?.y).toBeLessThan(lowest - 4.4);
    }
  });

  it('what is kept together is not parted while it goes on a page', () => {
    for (let count = 30; count < 50; count += 3) {
      const pages = pagesOf([
        lines(count),
        { kind: 'kept', blocks: [{ kind: 'heading', level: 1, text: 'post' }, { kind: 'fields', rows: [['Stock', 'round_1']] }, table(6)] },
      ]);
      const page = pages.find((each) => textOf(each).includes('post'));
      expect(textOf(page as Page)).toEqual(expect.arrayContaining(['Stock', 'row 1', 'row 6']));
    }
  });

  it('says in the strip which chapter the head of the page belongs to, and in the contents where each begins', () => {
    const pages = pagesOf([
      { kind: 'contents' },
      { kind: 'new page' },
      { kind: 'heading', level: 1, text: 'gate' },
      lines(70),
      { kind: 'heading', level: 1, text: 'floor' },
      lines(3),
    ]);
    const strip = (page: Page | undefined): readonly string[] =>
      (page?.marks ?? []).flatMap((mark) => (mark.kind === 'text' && mark.at.y < 24 ? [mark.text] : []));
    expect(strip(pages[1])).toContain('gate');
    expect(strip(pages[2])).toContain('gate');
    expect(strip(pages[2])).not.toContain('floor');
    expect(strip(pages[2])).toContain('3/3');
    expect(textOf(pages[0] as Page)).toEqual(['gate', '2', 'floor', '3']);
    expect(pages.map((page) => page.title)).toEqual(['tray', '2  gate', '3  gate']);
  });

  it('distance opens no page, and a page is turned only where less is left than is wanted', () => {
    expect(pagesOf([lines(1), { kind: 'gap', height: 400 }])).toHaveLength(1);
    expect(pagesOf([lines(1), { kind: 'new page', unless: 100 }, lines(1)])).toHaveLength(1);
    expect(pagesOf([lines(40), { kind: 'new page', unless: 100 }, lines(1)])).toHaveLength(2);
  });

  it('numbers are never broken in a narrow table', () => {
    const pages = pagesOf([
      {
        kind: 'columns',
        count: 2,
        blocks: [
          {
            kind: 'table',
            tick: true,
            columns: [
              { title: 'left in', share: 1.2, align: 'right', bold: true },
              { title: 'exact', share: 1, align: 'right' },
              { title: 'bottom in', share: 1.2, align: 'right', bold: true },
              { title: 'exact', share: 1, align: 'right' },
              { title: 'what goes there', share: 1.8 },
            ],
            rows: Array.from({ length: 9 }, () => ['27 31/64+', '27.488', '11 55/64−', '11.857', '⌀ 17/64 hole.12']),
          },
        ],
      },
    ]);
    expect(textOf(pages[0] as Page).filter((text) => text === '27 31/64+')).toHaveLength(9);
    expect(textOf(pages[0] as Page).filter((text) => text === '11 55/64−')).toHaveLength(9);
  });

  it('nothing is lost and no words leave the frame, whatever stands together', () => {
    const text = fc.string({ unit: fc.constantFrom('a', 'b', 'n', '1', ' ', '_', '½'), minLength: 1, maxLength: 60 });
    const inner = fc.oneof(
      fc.record({ kind: fc.constant('heading' as const), level: fc.constantFrom(1 as const, 2 as const, 3 as const), text }),
      fc.record({ kind: fc.constant('paragraph' as const), text }),
      fc.nat(30).map((count) => table(count + 1)),
      fc.record({ kind: fc.constant('caution' as const), title: text, items: fc.array(text, { maxLength: 4 }) }),
      fc.record({ kind: fc.constant('fields' as const), rows: fc.array(fc.tuple(text, text), { maxLength: 6 }) }),
      fc.record({ kind: fc.constant('card' as const), figures: fc.constant([]), title: text, lines: fc.array(text, { maxLength: 5 }) }),
    );
    const block: fc.Arbitrary<Block> = fc.oneof(
      { weight: 4, arbitrary: inner },
      {
        weight: 1,
        arbitrary: fc.record({
          kind: fc.constant('columns' as const),
          count: fc.constantFrom(2, 3),
          blocks: fc.array(inner, { maxLength: 6 }),
        }),
      },
      { weight: 1, arbitrary: fc.record({ kind: fc.constant('kept' as const), blocks: fc.array(inner, { maxLength: 4 }) }) },
      { weight: 1, arbitrary: fc.constant<Block>({ kind: 'new page' }) },
    );
    const countRows = (blocks: readonly Block[]): number =>
      blocks.reduce(
        (sum, one) =>
          sum + (one.kind === 'table' ? one.rows.length : one.kind === 'columns' || one.kind === 'kept' ? countRows(one.blocks) : 0),
        0,
      );
    fc.assert(
      fc.property(fc.array(block, { maxLength: 12 }), (blocks) => {
        const pages = pagesOf(blocks);
        const all = pages.flatMap(words);
        expect(all.filter(({ text: said }) => /^row \d+$/.test(said))).toHaveLength(countRows(blocks));
        for (const { x, right, y } of all) {
          expect(x).toBeGreaterThan(24.9);
          expect(right).toBeLessThan(paper.width - 15 + 0.1);
          expect(y).toBeGreaterThan(29 - 0.1);
          expect(y).toBeLessThan(paper.height - 15);
        }
      }),
      { numRuns: runs(40) },
    );
  });
});

describe('the same blocks as a web page', () => {
  it('are one file that fetches nothing, with everything escaped and every chapter linked', () => {
    const html = documentHtml(
      [
        { kind: 'contents' },
        { kind: 'kept', blocks: [{ kind: 'heading', level: 1, text: 'a <b> & "c"' }] },
        { kind: 'columns', count: 2, blocks: [table(3)] },
        { kind: 'side', parts: [{ share: 1, blocks: [{ kind: 'typed', text: 'sheet crs_18' }] }] },
        { kind: 'card', figures: [], title: '1. top', lines: ['set 93°'], tick: true },
      ],
      title,
    );
    expect(html).toContain('<li><a href="#chapter-1">a &lt;b&gt; &amp; &quot;c&quot;</a></li>');
    expect(html).toContain('<h1 id="chapter-1">');
    expect(html).not.toMatch(/<script|<link|<img|src=|@import|url\((?!data:)/);
    expect(html).toContain('prefers-color-scheme: dark');
    expect(html.match(/type="checkbox"/g)).toHaveLength(4);
  });
});
