import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { homeUnit } from '../../server/model/dimension.js';
import { pagePng, readFonts } from '../../server/node-sheets.js';
import type { Point } from '../../server/shape/path.js';
import { linesOf, pageSvg, papers, patternPage, readType, type Type, tiledPattern, writePdf } from '../../server/sheets/index.js';
import { tray, trayPart } from './tray.js';

const options = { unit: homeUnit('mm') };
const facts = { title: 'tray', date: new Date(Date.UTC(2026, 0, 1)) };
let type: Type;
beforeAll(async () => {
  type = await readType(readFonts());
});

/** A path read back: its ends in mm from the page's lower left corner, y up, and its line width. */
interface ReadPath {
  readonly width: number;
  readonly ends: readonly Point[];
}
/**
 * Pages of a PDF as another program reads them: poppler's pdftocairo, without the two habits (shrinking to the paper, centring) that move things.
 */
const readBack = (
  bytes: Uint8Array,
  page: number,
): { readonly width: number; readonly height: number; readonly paths: readonly ReadPath[] } => {
  const folder = mkdtempSync(join(tmpdir(), 'planish-pdf-'));
  const [pdf, svg] = [join(folder, 'a.pdf'), join(folder, 'a.svg')];
  writeFileSync(pdf, bytes);
  const done = spawnSync('pdftocairo', ['-svg', '-noshrink', '-nocenter', '-f', String(page), '-l', String(page), pdf, svg], {
    encoding: 'utf8',
  });
  if (done.status !== 0) throw new Error(`pdftocairo: ${done.stderr ?? String(done.error)}`);
  const text = readFileSync(svg, 'utf8');
  const mm = 25.4 / 72;
  const [, w, h] = /width="([\d.]+)pt" height="([\d.]+)pt"/.exec(text) ?? [];
  const height = Number(h) * mm;
  const paths = [...text.matchAll(/<path style="fill:none;stroke-width:([\d.]+);[^"]*" d="([^"]*)"/g)].map(([, width, data]): ReadPath => {
    const ends = [...(data as string).matchAll(/([MLC]) ([-\d. ]+)/g)].map(([, , numbers]) => {
      const [x = 0, y = 0] = (numbers as string).trim().split(/\s+/).map(Number).slice(-2);
      return { x: x * mm, y: height - y * mm };
    });
    return { width: Number(width) * mm, ends };
  });
  return { width: Number(w) * mm, height, paths };
};
const readable = existsSync('/usr/bin/pdftocairo');

/** The outline is the wide path with the most corners. */
const outlineOf = (paths: readonly ReadPath[]): readonly Point[] =>
  paths
    .filter(({ width }) => Math.abs(width - 0.5) < 0.01)
    .reduce((best, path) => (path.ends.length > best.length ? path.ends : best), [] as readonly Point[]);
const lowerLeft = (points: readonly Point[]): Point => ({
  x: Math.min(...points.map(({ x }) => x)),
  y: Math.min(...points.map(({ y }) => y)),
});
/** Centres of the registration crosses: where two lines 8 mm long cross in their middles. */
const crosses = (paths: readonly ReadPath[]): readonly Point[] => {
  const lines = paths.flatMap(({ ends }) => {
    const [a, b] = ends;
    return ends.length === 2 && a !== undefined && b !== undefined && Math.abs(Math.hypot(b.x - a.x, b.y - a.y) - 8) < 0.02
      ? [{ middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, level: Math.abs(a.y - b.y) < 0.01 }]
      : [];
  });
  return lines
    .filter(({ level }) => level)
    .filter((line) =>
      lines.some((other) => !other.level && Math.hypot(other.middle.x - line.middle.x, other.middle.y - line.middle.y) < 0.02),
    )
    .map(({ middle }) => middle);
};
const rulers = (paths: readonly ReadPath[]): readonly number[] =>
  paths.flatMap(({ ends: [a, b, ...more] }) =>
    a !== undefined && b !== undefined && more.length === 0 && Math.abs(a.y - b.y) < 0.01 ? [Math.abs(b.x - a.x)] : [],
  );

/** How far the printed corners lie from those of the blank, both counted from the lower left. */
const worstCorner = (printed: readonly Point[]): number => {
  const wanted = tray.outline.map(({ to }) => to);
  const corner = lowerLeft(printed);
  return Math.max(...wanted.map(({ x, y }) => Math.min(...printed.map((p) => Math.hypot(p.x - corner.x - x, p.y - corner.y - y)))));
};

describe.skipIf(!readable)('a pattern printed and read back', () => {
  it('on one page: corners, page and rulers are where they should be to 0.05 mm', async () => {
    const page = patternPage(trayPart, tray, options, type);
    const back = readBack(await writePdf([page], facts, type.fonts), 1);
    expect(back.width).toBeCloseTo(page.width, 2);
    expect(back.height).toBeCloseTo(page.height, 2);
    expect(worstCorner(outlineOf(back.paths))).toBeLessThan(0.05);
    expect(rulers(back.paths).some((length) => Math.abs(length - 100) < 0.02)).toBe(true);
    expect(rulers(back.paths).some((length) => Math.abs(length - 101.6) < 0.02)).toBe(true);
  });

  it.each(['a4', 'letter', 'a3', 'tabloid'] as const)(
    'in tiles on %s: every tile shows the part in its true place, and crosses fall on crosses',
    async (name) => {
      const pages = tiledPattern(trayPart, tray, papers[name], options, type);
      const bytes = await writePdf(pages, facts, type.fonts);
      expect(pages.length).toBeGreaterThan(name === 'a3' || name === 'tabloid' ? 0 : 1);
      const marks = pages.map((_, index) => {
        const back = readBack(bytes, index + 1);
        const sides = [papers[name].width, papers[name].height].sort((a, b) => a - b);
        expect([back.width, back.height].sort((a, b) => a - b).map((side) => side.toFixed(1))).toEqual(
          sides.map((side) => side.toFixed(1)),
        );
        const outline = outlineOf(back.paths);
        expect(worstCorner(outline)).toBeLessThan(0.05);
        expect(rulers(back.paths).some((length) => Math.abs(length - 100) < 0.02)).toBe(true);
        const corner = lowerLeft(outline);
        return crosses(back.paths).map(({ x, y }) => ({ x: x - corner.x, y: y - corner.y }));
      });
      for (const own of marks) {
        for (const cross of marks[0] ?? [])
          expect(Math.min(...own.map(({ x, y }) => Math.hypot(x - cross.x, y - cross.y)))).toBeLessThan(0.05);
      }
    },
  );
});

it('every corner of the blank is seen on some tile, with the overlap to spare', () => {
  const pages = tiledPattern(trayPart, tray, papers.a4, options, type);
  const views = pages.flatMap(({ marks }) =>
    marks.flatMap((mark) => (mark.kind === 'placed' && mark.clip !== undefined ? [{ clip: mark.clip, inner: mark.marks[0] }] : [])),
  );
  expect(views).toHaveLength(pages.length);
  for (const { to } of tray.outline) {
    const seen = views.some(({ clip, inner }) => {
      if (inner?.kind !== 'placed') return false;
      const [x, y] = [to.x + inner.to.x, to.y + inner.to.y];
      return x >= clip.min.x && x <= clip.max.x && y >= clip.min.y && y <= clip.max.y;
    });
    expect(seen).toBe(true);
  }
});

it('the same input gives the same bytes', async () => {
  const page = patternPage(trayPart, tray, options, type);
  expect(await writePdf([page], facts, type.fonts)).toEqual(await writePdf([page], facts, type.fonts));
});

it('what a part is called may be anything', async () => {
  const odd = { ...trayPart, name: '<Größe ½ "Ж">' };
  const svg = pageSvg(patternPage(odd, tray, options, type));
  expect(svg).not.toContain('<Größe');
  expect(svg).toContain('&lt;Größe ½');
  expect((await writePdf([patternPage(odd, tray, options, type)], facts, type.fonts)).length).toBeGreaterThan(5000);
});

it('a PNG has the size of the page at the dots asked for', async () => {
  const page = patternPage(trayPart, tray, options, type);
  const png = await pagePng(page, type.fonts, 50);
  const view = new DataView(png.buffer, png.byteOffset);
  // Width and height stand in the first chunk. Source: PNG specification, third edition, 11.2.1 IHDR.
  expect(view.getUint32(16)).toBe(Math.round((page.width / 25.4) * 50));
  expect(Math.abs(view.getUint32(20) - (page.height / 25.4) * 50)).toBeLessThan(1.01);
});

it('words are broken where they fit, and a long word where it must', () => {
  const lines = linesOf(type, 'one two three fourfivesixseveneightnine', 3, 20);
  expect(lines.join(' ').replace(/ /g, '')).toBe('onetwothreefourfivesixseveneightnine');
  for (const line of lines) expect(type.width(line, 3)).toBeLessThanOrEqual(20);
});
