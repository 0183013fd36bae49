/** Patterns on paper, read back by another program: everything is where it should be to 0.05 mm, on one page and on tiles of every paper. */
import { readdirSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { BeadResult } from '../../server/bead/types.js';
import type { Blank } from '../../server/blank/types.js';
import { homeUnit } from '../../server/model/dimension.js';
import type { Part } from '../../server/model/part.js';
import { nodeFiles, projectPath } from '../../server/node-files.js';
import { pagePng, readFonts } from '../../server/node-sheets.js';
import { createProject } from '../../server/project.js';
import type { Box, Loop, Move, Point } from '../../server/shape/path.js';
import { boxOfLoop, sweepOf } from '../../server/sheets/extent.js';
import { flatMarks } from '../../server/sheets/flat-marks.js';
import {
  type DisplayOptions,
  linesOf,
  pageSvg,
  papers,
  patternPage,
  readType,
  type Type,
  tiledPattern,
  writePdf,
} from '../../server/sheets/index.js';
import { patternMarks } from '../../server/sheets/pattern-marks.js';
import { crosses as crossesBox } from '../../server/sheets/placing.js';
import { fontsOf, hasPoppler, pageSizes, type ReadLine, readPage, savedPdf, wordsOf } from './read-pdf.js';
import { tray, trayPart } from './tray.js';

const facts = { title: 'pattern', date: new Date(Date.UTC(2026, 0, 1)) };
const near = 0.05;
const options = { unit: homeUnit('mm') };

interface Sheet {
  readonly part: Part;
  readonly blank: Blank;
  readonly options: DisplayOptions;
  readonly beads: BeadResult | undefined;
}
const root = projectPath('samples');
const project = createProject({ files: nodeFiles(), root });
const sample = (file: string, name: string): Sheet => {
  const path = `${root}/${file}.planish`;
  const found = project.parts(path).find(({ part }) => part.name === name);
  if (found?.blank.blank === undefined) throw new Error(`no blank of ${name}`);
  const { part, beads } = found;
  const blank = beads?.drawIn?.asCut ?? found.blank.blank;
  return { part, blank, beads, options: { unit: project.model(path).units, beads, beadsLie: 'as cut' } };
};
/** Holes, bends both ways and a slot; beads; hems; a section; an outline with a large arc. */
const sheets: Readonly<Record<string, () => Sheet>> = {
  tray: () => ({ part: trayPart, blank: tray, options, beads: undefined }),
  gate: () => sample('cargo-trike/gate', 'gate'),
  'rain lid': () => sample('cargo-trike/rain-lid', 'rain_lid'),
  'wall cleat': () => sample('tool-cabinet/french-cleat', 'wall_cleat'),
  'hose bracket': () => sample('cargo-trike/hose-bracket', 'hose_bracket'),
};

let type: Type;
beforeAll(async () => {
  type = await readType(readFonts());
});

const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);
const boxOf = (points: readonly Point[]): Box => ({
  min: { x: Math.min(...points.map(({ x }) => x)), y: Math.min(...points.map(({ y }) => y)) },
  max: { x: Math.max(...points.map(({ x }) => x)), y: Math.max(...points.map(({ y }) => y)) },
});
const isWide = ({ width }: ReadLine): boolean => Math.abs(width - 0.5) < 0.01;
const isNarrow = ({ width, grey }: ReadLine): boolean => Math.abs(width - 0.25) < 0.01 && !grey;

/** The outline is the wide line with the largest box. */
const outlineOf = (lines: readonly ReadLine[]): readonly Point[] =>
  lines
    .filter((line) => isWide(line) && line.closed)
    .map(({ points }) => ({ points, box: boxOf(points) }))
    .reduce((best, each) => (apart(each.box.min, each.box.max) > apart(best.box.min, best.box.max) ? each : best), {
      points: [] as readonly Point[],
      box: { min: { x: 0, y: 0 }, max: { x: 0, y: 0 } },
    }).points;

/** Corners of a loop, and the middles of its arcs. */
const pointsOn = (start: Point, moves: readonly Move[]): readonly Point[] => {
  let from = start;
  return moves.flatMap((move) => {
    const begin = from;
    from = move.to;
    if (move.kind === 'line') return [move.to];
    const { centre } = move;
    const radius = apart(begin, centre);
    const angle = Math.atan2(begin.y - centre.y, begin.x - centre.x) + ((move.turn === 'left' ? 1 : -1) * sweepOf(begin, move)) / 2;
    return [{ x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) }, move.to];
  });
};
const pointsOnLoop = (loop: Loop): readonly Point[] => pointsOn((loop[loop.length - 1] as Move).to, loop);

const distanceTo = (line: ReadLine, p: Point): number => {
  let least = Number.POSITIVE_INFINITY;
  line.points.forEach((a, index) => {
    const b = line.points[index + 1] ?? (line.closed ? line.points[0] : undefined);
    if (b === undefined) return;
    const length = apart(a, b);
    const share = length < 1e-12 ? 0 : Math.max(0, Math.min(1, ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / length ** 2));
    least = Math.min(least, apart(p, { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share }));
  });
  return least;
};

const everywhere: Box = { min: { x: -1e6, y: -1e6 }, max: { x: 1e6, y: 1e6 } };
const within = ({ min, max }: Box, { x, y }: Point): boolean =>
  x >= min.x - near && x <= max.x + near && y >= min.y - near && y <= max.y + near;

/** What is missing of a blank of all that has a point within a view, in words; `lines` have the blank's lower left corner at (0, 0). */
const missing = ({ blank, beads }: Sheet, lines: readonly ReadLine[], view = everywhere): readonly string[] => {
  const said: string[] = [];
  const hidden = (points: readonly Point[]): boolean => !points.some((p) => within(view, p));
  const want = (what: string, points: readonly Point[], fits: (line: ReadLine) => boolean): void => {
    if (hidden(points)) return;
    const best = Math.min(...lines.filter(fits).map((line) => Math.max(...points.map((p) => distanceTo(line, p)))));
    if (!(best < near)) said.push(`${what}: ${best.toFixed(3)} mm off`);
  };
  const ends = (what: string, a: Point, b: Point, fits: (line: ReadLine) => boolean): void => {
    if (hidden([a, b])) return;
    const off = ({ points }: ReadLine): number => {
      const [first, last] = [points[0] as Point, points[points.length - 1] as Point];
      return Math.min(Math.max(apart(first, a), apart(last, b)), Math.max(apart(first, b), apart(last, a)));
    };
    const best = Math.min(...lines.filter((line) => !line.closed && fits(line)).map(off));
    if (!(best < near)) said.push(`${what}: ${best.toFixed(3)} mm off`);
  };
  want('outline', pointsOnLoop(blank.outline), isWide);
  for (const cut of blank.cutouts) {
    want(
      cut.id,
      pointsOnLoop(cut.loop),
      (line) => isWide(line) && line.closed && apart(boxOf(line.points).min, boxOf(line.points).max) < 200,
    );
    const { circle } = cut;
    if (circle === undefined || hidden([circle.centre])) continue;
    // Not only near the line: as large as the hole, and where it is.
    const fitting = lines.filter(
      (line) => isWide(line) && line.closed && line.points.every((p) => Math.abs(apart(p, circle.centre) - circle.radius) < near),
    );
    if (fitting.length !== 1) said.push(`${cut.id}: drawn ${fitting.length} times`);
  }
  for (const { id, direction, from, to, brakeLine } of blank.bends) {
    ends(id, from, to, (line) => isNarrow(line) && line.dashes.length === (direction === 'up' ? 0 : 2));
    const [a, b] = brakeLine;
    const share = Math.min(8, apart(a, b) / 4) / apart(a, b);
    for (const [end, other] of [[a, b] as const, [b, a] as const]) {
      const inner = { x: end.x + (other.x - end.x) * share, y: end.y + (other.y - end.y) * share };
      ends(`${id}, tick`, end, inner, (line) => isNarrow(line) && line.dashes.length === 0);
    }
  }
  for (const { track, path } of beads?.drawIn?.marks ?? [])
    want(`bead ${track}`, [path.start, ...pointsOn(path.start, path.moves)], (line) => isNarrow(line) && line.dashes.length === 4);
  return said;
};

const moved = (lines: readonly ReadLine[], by: Point): readonly ReadLine[] =>
  lines.map((line) => ({ ...line, points: line.points.map(({ x, y }) => ({ x: x - by.x, y: y - by.y })) }));

/** Ticks of a ruler of this length: where they stand along it. */
const ticksOn = (lines: readonly ReadLine[], length: number): readonly number[] => {
  const base = lines.find(
    ({ points: [a, b, ...more] }) =>
      a !== undefined && b !== undefined && more.length === 0 && Math.abs(a.y - b.y) < 0.01 && Math.abs(b.x - a.x - length) < 0.02,
  )?.points[0];
  if (base === undefined) return [];
  return lines
    .filter(
      ({ points: [a, b] }) =>
        a !== undefined && b !== undefined && Math.abs(a.x - b.x) < 0.01 && Math.abs(a.y - base.y) < 0.01 && b.y > a.y,
    )
    .map(({ points }) => (points[0] as Point).x - base.x)
    .filter((x) => x > -0.1 && x < length + 0.1);
};

const expectRulers = (lines: readonly ReadLine[]): void => {
  const millimetres = ticksOn(lines, 100);
  expect(millimetres).toHaveLength(101);
  expect(Math.max(...millimetres.map((x, index) => Math.abs(x - index)))).toBeLessThan(near);
  const sixteenths = ticksOn(lines, 101.6);
  expect(sixteenths).toHaveLength(65);
  expect(Math.max(...sixteenths.map((x, index) => Math.abs(x - (index * 25.4) / 16)))).toBeLessThan(near);
  const squares = lines.filter((line) => line.closed && line.points.length >= 4).map(({ points }) => boxOf(points));
  expect(squares.filter(({ min, max }) => Math.abs(max.x - min.x - 20) < near && Math.abs(max.y - min.y - 20) < near)).toHaveLength(1);
};

/** Centres of the registration crosses: where two lines 8 mm long cross in their middles. */
const crosses = (lines: readonly ReadLine[]): readonly Point[] => {
  const eights = lines.flatMap(({ points: [a, b, ...more] }) =>
    a !== undefined && b !== undefined && more.length === 0 && Math.abs(apart(a, b) - 8) < 0.02
      ? [{ middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, level: Math.abs(a.y - b.y) < 0.01 }]
      : [],
  );
  return eights
    .filter(({ level }) => level)
    .filter((line) => eights.some((other) => !other.level && apart(other.middle, line.middle) < 0.02))
    .map(({ middle }) => middle);
};

describe.skipIf(!hasPoppler && process.env.CI === undefined)('a pattern printed and read back', () => {
  it.each(Object.keys(sheets))('%s on one page: outline, holes, bends, ticks, beads and rulers are in place', async (name) => {
    const sheet = (sheets[name] as () => Sheet)();
    const page = patternPage(sheet.part, sheet.blank, sheet.options, type);
    const pdf = savedPdf(await writePdf([page], facts, type.fonts));
    const back = readPage(pdf, 1);
    expect(Math.abs(back.width - page.width)).toBeLessThan(near);
    expect(Math.abs(back.height - page.height)).toBeLessThan(near);
    const { min } = boxOf(outlineOf(back.lines));
    const own = boxOfLoop(sheet.blank.outline).min;
    expect(missing(sheet, moved(back.lines, { x: min.x - own.x, y: min.y - own.y }))).toEqual([]);
    expectRulers(back.lines);
  });

  const many = [
    ...(['a4', 'letter', 'a3', 'tabloid'] as const).map((paper) => ({ name: 'gate', paper })),
    { name: 'tray', paper: 'a4' as const },
    { name: 'rain lid', paper: 'tabloid' as const },
    { name: 'wall cleat', paper: 'letter' as const },
    { name: 'hose bracket', paper: 'a3' as const },
  ];
  it.each(many)(
    '$name in tiles on $paper: everything in place on every tile, crosses fall on crosses, nothing is left out',
    async ({ name, paper }) => {
      const sheet = (sheets[name] as () => Sheet)();
      const pages = tiledPattern(sheet.part, sheet.blank, papers[paper], sheet.options, type);
      const pdf = savedPdf(await writePdf(pages, facts, type.fonts));
      const stated = [papers[paper].width, papers[paper].height].sort((a, b) => a - b);
      for (const { width, height } of pageSizes(pdf)) {
        const [short, long] = [width, height].sort((a, b) => a - b) as [number, number];
        expect(Math.abs(short - (stated[0] as number))).toBeLessThan(near);
        expect(Math.abs(long - (stated[1] as number))).toBeLessThan(near);
      }
      const own = boxOfLoop(sheet.blank.outline).min;
      const tiles = pages.map((_, index) => {
        const { lines } = readPage(pdf, index + 1);
        const { min } = boxOf(outlineOf(lines));
        const by = { x: min.x - own.x, y: min.y - own.y };
        expectRulers(lines);
        // The map's own outline is finer than any line of the pattern.
        const here = moved(
          lines.filter(({ width }) => width > 0.2),
          by,
        );
        const frames = moved(
          lines.filter((line) => line.grey && line.closed && line.dashes.length === 0),
          by,
        ).map(({ points }) => boxOf(points));
        expect(frames).toHaveLength(1);
        const view = frames[0] as Box;
        // What has no point in the view the reader leaves out.
        expect(missing(sheet, here, view)).toEqual([]);
        return { view, crosses: crosses(here) };
      });
      // Each pair of neighbours shares three crosses or more, and on both they lie on one another.
      tiles.forEach((a, i) => {
        tiles.slice(i + 1).forEach((b) => {
          const [w, h] = [
            Math.min(a.view.max.x, b.view.max.x) - Math.max(a.view.min.x, b.view.min.x),
            Math.min(a.view.max.y, b.view.max.y) - Math.max(a.view.min.y, b.view.min.y),
          ];
          if (w < 14 || h < 14 || Math.max(w, h) < 100) return;
          const seen = (tile: typeof a): readonly Point[] => tile.crosses.filter((p) => within(a.view, p) && within(b.view, p));
          expect(seen(a).length).toBeGreaterThanOrEqual(3);
          expect(seen(b)).toHaveLength(seen(a).length);
          for (const p of seen(a)) expect(Math.min(...seen(b).map((q) => apart(p, q)))).toBeLessThan(near);
        });
      });
      const shown = [
        ...pointsOnLoop(sheet.blank.outline),
        ...sheet.blank.cutouts.flatMap((cut) => pointsOnLoop(cut.loop)),
        ...sheet.blank.bends.flatMap(({ from, to }) => [from, to]),
      ];
      for (const p of shown) expect(tiles.some(({ view }) => within(view, p))).toBe(true);
    },
  );

  it('has no mark to join the tiles that could be taken for a hole', async () => {
    const pages = tiledPattern(trayPart, tray, papers.a4, options, type);
    const pdf = savedPdf(await writePdf(pages, facts, type.fonts));
    const round = ({ points }: ReadLine): boolean => {
      const { min, max } = boxOf(points);
      const centre = { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 };
      return points.every((p) => Math.abs(apart(p, centre) - (max.x - min.x) / 2) < near);
    };
    expect(pages.length).toBeGreaterThan(1);
    for (const index of pages.keys()) {
      const { lines } = readPage(pdf, index + 1);
      expect(crosses(lines).length).toBeGreaterThan(2);
      // What is round is a hole of the tray, and drawn as a cut.
      for (const line of lines.filter((each) => each.closed && each.points.length > 8 && each.width > 0.2 && round(each)))
        expect(isWide(line)).toBe(true);
    }
  });

  it('leaves out tiles with nothing on them, and says so', () => {
    const { part, blank, options: display } = sample('cargo-trike/produce-box', 'produce_box');
    const pages = tiledPattern(part, blank, papers.a4, display, type);
    const text = JSON.stringify(pages[0]);
    // A box's blank is a cross: its four corners are air.
    expect(pages[0]?.title).toContain('tile B1');
    expect(pages.map(({ title }) => title).join()).not.toMatch(/tile A1\b/);
    expect(text).toContain('crossed out on the map');
  });

  it('has its type in it, only the letters used, with the signs of a drawing', async () => {
    const { part, blank, options: display } = sample('cargo-trike/gate', 'gate');
    const pdf = savedPdf(await writePdf([patternPage(part, blank, display, type)], facts, type.fonts));
    const fonts = fontsOf(pdf);
    expect(fonts).toHaveLength(2);
    for (const { embedded, subset } of fonts) expect([embedded, subset]).toEqual([true, true]);
    const words = wordsOf(pdf, 1);
    for (const sign of ['2 × ⌀ 9/32', 'down 90° R 1/16', 'Measure this before you cut.', '100 mm', '4 in']) expect(words).toContain(sign);
  });
});

it.each(['cargo-trike', 'tool-cabinet'])('no words of any pattern of %s lie on other words or on a line', (folder) => {
  const files = readdirSync(`${root}/${folder}`).filter((name) => name.endsWith('.planish'));
  const said = files.flatMap((name) => {
    const path = `${root}/${folder}/${name}`;
    return project.parts(path).flatMap(({ part, blank, beads }) => {
      const net = beads?.drawIn?.asCut ?? blank.blank;
      if (net === undefined) return [];
      const { texts, lines } = flatMarks(patternMarks(part, net, { unit: project.model(path).units, beads, beadsLie: 'as cut' }).marks);
      const onWords = texts.some((a, i) =>
        texts.slice(i + 1).some((b) => a.min.x < b.max.x && b.min.x < a.max.x && a.min.y < b.max.y && b.min.y < a.max.y),
      );
      const onLine = texts.some((text) =>
        lines.some(({ points }) => points.some((p, k) => k > 0 && crossesBox(text, points[k - 1] as Point, p))),
      );
      return onWords || onLine ? [part.name] : [];
    });
  });
  expect(files.length).toBeGreaterThan(8);
  expect(said).toEqual([]);
});

it('asks the reader to print at full size', async () => {
  const bytes = await writePdf([patternPage(trayPart, tray, options, type)], facts, type.fonts);
  expect(Buffer.from(bytes).toString('latin1')).toContain('/PrintScaling /None');
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

it.each([50, 150])('a PNG has the size of the page at %i dots to the inch, and says its scale', async (dots) => {
  const page = patternPage(trayPart, tray, options, type);
  const png = await pagePng(page, type.fonts, dots);
  const view = new DataView(png.buffer, png.byteOffset);
  // Width and height stand in the first chunk, the scale before the first data. Source: PNG specification, third edition, 11.2.1 IHDR, 11.3.4.3 pHYs.
  expect(view.getUint32(16)).toBe(Math.round((page.width / 25.4) * dots));
  expect(Math.abs(view.getUint32(20) - (page.height / 25.4) * dots)).toBeLessThan(1.01);
  const chunk = Buffer.from(png).indexOf('pHYs');
  expect(chunk).toBeLessThan(Buffer.from(png).indexOf('IDAT'));
  const perMetre = view.getUint32(chunk + 4);
  expect(view.getUint32(chunk + 8)).toBe(perMetre);
  expect(view.getUint8(chunk + 12)).toBe(1);
  // As printed by its own scale it is as wide as the page, to one dot in the metre.
  expect(Math.abs((view.getUint32(16) / perMetre) * 1000 - page.width)).toBeLessThan(page.width / perMetre);
  expect(Math.abs(perMetre * 0.0254 - dots)).toBeLessThan(0.2);
});

it('words are broken where they fit, and a long word where it must', () => {
  const lines = linesOf(type, 'one two three fourfivesixseveneightnine', 3, 20);
  expect(lines.join(' ').replace(/ /g, '')).toBe('onetwothreefourfivesixseveneightnine');
  for (const line of lines) expect(type.width(line, 3)).toBeLessThanOrEqual(20);
});

it('a size is never broken over two lines', () => {
  const lines = linesOf(type, '9 1/2 × 5 25/64− in, fingers 1 1/4 in + 12 in', 3, 14);
  expect(lines.length).toBeGreaterThan(3);
  for (const line of lines) expect(line).not.toMatch(/^(\d+\/\d|in)/);
});
