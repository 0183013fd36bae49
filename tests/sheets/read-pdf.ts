/** Pages of a PDF as another program reads them: poppler's tools. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Point } from '../../server/shape/path.js';

export const hasPoppler = existsSync('/usr/bin/pdftocairo');

/** One run of a drawn line: its corners, and the points between on curves, in mm from the page's lower left corner, y up. */
export interface ReadLine {
  readonly width: number;
  readonly dashes: readonly number[];
  readonly grey: boolean;
  readonly closed: boolean;
  readonly points: readonly Point[];
}
export interface ReadPage {
  readonly width: number;
  readonly height: number;
  readonly lines: readonly ReadLine[];
}

const mm = 25.4 / 72;

const run = (command: string, args: readonly string[]): string => {
  const done = spawnSync(command, args, { encoding: 'utf8' });
  if (done.status !== 0) throw new Error(`${command}: ${done.stderr ?? String(done.error)}`);
  return done.stdout;
};

export const savedPdf = (bytes: Uint8Array): string => {
  const file = join(mkdtempSync(join(tmpdir(), 'planish-pdf-')), 'a.pdf');
  writeFileSync(file, bytes);
  return file;
};

/** Points of a curve's cubic pieces at eighths. */
const curve = (from: Point, a: Point, b: Point, to: Point): readonly Point[] =>
  [1, 2, 3, 4, 5, 6, 7, 8].map((k) => {
    const t = k / 8;
    const [p, q, r, s] = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3];
    return { x: p * from.x + q * a.x + r * b.x + s * to.x, y: p * from.y + q * a.y + r * b.y + s * to.y };
  });

const linesIn = (data: string, look: Omit<ReadLine, 'points' | 'closed'>, height: number): readonly ReadLine[] => {
  const out: { points: Point[]; closed: boolean }[] = [];
  for (const [, letter, numbers] of data.matchAll(/([MLCZ]) ?([-\d. ]*)/g)) {
    const values = (numbers ?? '').trim().split(/\s+/).map(Number);
    const at = (k: number): Point => ({ x: (values[k] as number) * mm, y: height - (values[k + 1] as number) * mm });
    const last = out[out.length - 1];
    if (letter === 'M') out.push({ points: [at(0)], closed: false });
    else if (last === undefined) throw new Error('a path begins with a move');
    else if (letter === 'L') last.points.push(at(0));
    else if (letter === 'C') last.points.push(...curve(last.points[last.points.length - 1] as Point, at(0), at(2), at(4)));
    else last.closed = true;
  }
  // After closing, the reader goes back to where the run began.
  return out.filter(({ points }) => points.length > 1).map((each) => ({ ...look, ...each }));
};

/** What is stroked on a page, without the reader's two habits (shrinking to the paper, centring) that move things. */
export const readPage = (pdf: string, page: number): ReadPage => {
  const svg = `${pdf}.${page}.svg`;
  run('pdftocairo', ['-svg', '-noshrink', '-nocenter', '-f', String(page), '-l', String(page), pdf, svg]);
  const text = readFileSync(svg, 'utf8');
  const [, w, h] = /width="([\d.]+)pt" height="([\d.]+)pt"/.exec(text) ?? [];
  const height = Number(h) * mm;
  const lines = [...text.matchAll(/<path style="fill:none;stroke-width:([\d.]+);([^"]*)" d="([^"]*)"/g)].flatMap(
    ([, width, style, data]) => {
      const dashes =
        /stroke-dasharray:([\d.,]+)/
          .exec(style as string)?.[1]
          ?.split(',')
          .map((length) => Number(length) * mm) ?? [];
      const look = { width: Number(width) * mm, dashes, grey: !(style as string).includes('stroke:rgb(0%,0%,0%)') };
      return linesIn(data as string, look, height);
    },
  );
  return { width: Number(w) * mm, height, lines };
};

/** Sizes of all pages as the file states them, mm. */
export const pageSizes = (pdf: string): readonly { readonly width: number; readonly height: number }[] =>
  [...run('pdfinfo', ['-f', '1', '-l', '999', pdf]).matchAll(/Page +\d+ size: +([\d.]+) x ([\d.]+) pts/g)].map(([, w, h]) => ({
    width: Number(w) * mm,
    height: Number(h) * mm,
  }));

/** Name, and whether it is embedded and holds only what is used. */
export const fontsOf = (pdf: string): readonly { readonly name: string; readonly embedded: boolean; readonly subset: boolean }[] =>
  run('pdffonts', [pdf])
    .split('\n')
    .slice(2)
    .flatMap((line) => {
      const [, name, embedded, subset] = /^(\S+) .* (yes|no) +(yes|no) +(?:yes|no) +\d+ +\d+$/.exec(line) ?? [];
      return name === undefined ? [] : [{ name, embedded: embedded === 'yes', subset: subset === 'yes' }];
    });

export const wordsOf = (pdf: string, page: number): string =>
  run('pdftotext', ['-f', String(page), '-l', String(page), pdf, '-']).replace(/\s+/g, ' ');
