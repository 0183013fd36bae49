/** The cutting list: names inside their pieces, sums of money, remnants in the words of the shop file. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { memoryFiles } from '../../server/files.js';
import { cutJob, partsToCut } from '../../server/node-cutting.js';
import { createProject } from '../../server/project.js';
import { circleLoop, pointInLoop, pointToLoop, polygon } from '../../server/shape/index.js';
import { remnantLines } from '../../server/sheets/cutting/blocks.js';
import { costs, leftAfter, money } from '../../server/sheets/cutting/outcome.js';
import { roomForWords } from '../../server/sheets/cutting/room-for-words.js';
import { cuttingJob, takenApart } from '../../server/stock/index.js';
import { runs } from '../runs.js';

describe('room for a name', () => {
  const square = (side: number) =>
    polygon([
      { x: 0, y: 0 },
      { x: side, y: 0 },
      { x: side, y: side },
      { x: 0, y: side },
    ]);
  it('is the middle, where there is room', () => {
    expect(roomForWords(square(100), [], 4, [], 10, 1)).toMatchObject({ at: { x: 50, y: 50 }, upright: false, letters: 10 });
  });
  it('is upright in a narrow strip', () => {
    const strip = polygon([
      { x: 0, y: 0 },
      { x: 8, y: 0 },
      { x: 8, y: 200 },
      { x: 0, y: 200 },
    ]);
    expect(roomForWords(strip, [], 10, [], 3, 1)).toMatchObject({ at: { x: 4, y: 100 }, upright: true });
  });
  it('there is none in a piece too small', () => {
    expect(roomForWords(square(5), [], 10, [{ x: 2, y: 2 }], 3, 1)).toBeUndefined();
  });
  it('never lies over an edge or a hole', () => {
    const outline = polygon([
      { x: 0, y: 0 },
      { x: 200, y: 0 },
      { x: 200, y: 60 },
      { x: 70, y: 60 },
      { x: 70, y: 150 },
      { x: 0, y: 150 },
    ]);
    const hole = fc.record({
      x: fc.integer({ min: 12, max: 188 }),
      y: fc.integer({ min: 12, max: 48 }),
      radius: fc.integer({ min: 1, max: 10 }),
    });
    let found = 0;
    fc.assert(
      fc.property(fc.array(hole, { maxLength: 6 }), fc.integer({ min: 1, max: 12 }), (list, width) => {
        const holes = list.map(({ x, y, radius }) => circleLoop({ centre: { x, y }, radius }));
        const place = roomForWords(outline, holes, width, [{ x: 30, y: 100 }], 12, 1);
        if (place === undefined) return;
        found++;
        const [across, up] = place.upright ? [place.letters, width * place.letters] : [width * place.letters, place.letters];
        for (let i = 0; i <= 8; i++) {
          for (let j = 0; j <= 4; j++) {
            const at = { x: place.at.x + across * (i / 8 - 0.5), y: place.at.y + up * (j / 4 - 0.5) };
            expect(pointInLoop(at, outline)).toBe(true);
            for (const each of holes) expect(pointInLoop(at, each) && pointToLoop(at, each) > 0.5).toBe(false);
          }
        }
      }),
      { numRuns: runs(200) },
    );
    expect(found).toBeGreaterThan(150);
  });
});

it('money of two shops is not added together', () => {
  const row = (cost: number, currency: string) =>
    ({
      stock: 's',
      size: { kind: 'length', length: 1 },
      remnant: false,
      needed: 1,
      stocked: 0,
      toBuy: 1,
      mass: undefined,
      price: cost,
      cost,
      currency,
    }) as const;
  expect(costs([row(10, '$'), row(3.5, '€'), row(1, '$')])).toEqual([
    { currency: '$', sum: 11 },
    { currency: '€', sum: 3.5 },
  ]);
  expect(money(3.456, '€')).toBe('€3.46');
});

it('what is left is written as the shop file writes it, never larger than it is', async () => {
  const shop = (rows: string): string =>
    `units inch\nmaterial steel { density 7850 kg/m3 }\nsheet crs { material steel  thickness 0.048  size 48 by 96  bend radius 1/16 k 0.42\n${rows}}\n`;
  const path = '/job/a.planish';
  const text = (rows: string): string => `${shop(rows)}panel lid { sheet crs  outline rectangle 30 by 20.3  grain along y }\n`;
  const project = createProject({ files: memoryFiles({ [path]: text('') }), root: '/job' });
  const job = cuttingJob(partsToCut(project, path), { kerf: 3, margin: 6, turnStep: Math.PI / 2, times: 1 });
  const outcome = await cutJob(job, { seconds: 60, rounds: 1, seed: 1 });
  const [rests] = remnantLines(outcome, { unit: project.model(path).units });
  expect(rests?.stock).toBe('crs');
  const lines = rests?.lines ?? [];
  // The largest: 48 wide, and 96 less the lid, the margin and the kerf, in eighths: 96 − 20.3 − 0.236 − 0.118 = 75.346.
  expect(lines[0]).toBe('offcut 48 by 75 1/4');
  project.setText(path, text(lines.map((line) => `  ${line}\n`).join('')));
  expect(project.findings(path)).toEqual([]);
  const again = cuttingJob(partsToCut(project, path), { kerf: 3, margin: 6, turnStep: Math.PI / 2, times: 1 });
  const stock = again.sheets[0]?.question.stock;
  expect(Array.isArray(stock) ? stock.filter(({ offcut }) => offcut === true).length : 0).toBe(lines.length);
});

it('what a straight cut runs through is not told of as left in one piece', () => {
  const rectangle = (x: number, y: number, width: number, height: number) =>
    polygon([
      { x, y },
      { x: x + width, y },
      { x: x + width, y: y + height },
      { x, y: y + height },
    ]);
  const lying = (id: string, outline: ReturnType<typeof polygon>) => ({
    id,
    copy: 1,
    outline,
    holes: [],
    label: { x: 0, y: 0 },
    labelRoom: 0,
    flipped: false,
  });
  // Two plates side by side over a strip that is free from end to end: the first cut parts the plates, and the strip with them.
  const picture = {
    stock: 'sheet',
    width: 1000,
    height: 500,
    margin: 6,
    pieces: [lying('wide', rectangle(6, 140, 700, 354)), lying('tall', rectangle(709, 140, 285, 354))],
    offcuts: [{ x: 0, y: 0, width: 1000, height: 138.5 }],
    grain: undefined,
  } as const;
  const { cuts } = takenApart(picture, 3);
  expect(cuts[0]).toEqual({ axis: 'x', at: 707.5, from: 0, to: 500 });
  expect(leftAfter(picture, cuts, 3).offcuts).toEqual([
    { x: 0, y: 0, width: 706, height: 138.5 },
    { x: 709, y: 0, width: 291, height: 138.5 },
  ]);
  // The strip between the cut and the edge of what is left is scrap, and a cut along its edge leaves it whole.
  expect(leftAfter(picture, [{ axis: 'x', at: 30, from: 0, to: 500 }], 3).offcuts).toEqual([
    { x: 31.5, y: 0, width: 968.5, height: 138.5 },
  ]);
  expect(leftAfter(picture, [{ axis: 'y', at: 140, from: 0, to: 1000 }], 3).offcuts).toEqual(picture.offcuts);
});

it('a mitre is reckoned with what the disc takes at its angle', () => {
  const text = (end: string): string => `units millimetre
saw chop { kerf 3 }
tube sq { square 25  wall 2  length 6 m }
piece rail { tube sq  length 600  end start mitre ${end}  end finish mitre 30 }
piece post { tube sq  length 500 }
`;
  const cuts = (end: string): readonly (number | undefined)[] => {
    const project = createProject({ files: memoryFiles({ '/job/a.planish': text(end) }), root: '/job' });
    const job = cuttingJob(partsToCut(project, '/job/a.planish'), { kerf: 3, margin: 6, turnStep: Math.PI / 2, times: 1 });
    return job.lengths[0]?.question.pieces.map(({ cut }) => cut) ?? [];
  };
  // 3 / cos 30° = 3.464; 3 / cos 60° = 6: the steeper end counts.
  expect(cuts('30')).toEqual([expect.closeTo(2 * Math.sqrt(3), 9), undefined]);
  expect(cuts('60')).toEqual([expect.closeTo(6, 9), undefined]);
});
