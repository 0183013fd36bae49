import { describe, expect, test } from 'vitest';
import { crossBreakWork, dimpleWork, tipWork } from '../../server/bead/other-work.js';
import type { Panel } from '../../server/model/part.js';
import { panelOf } from '../model/build.js';
import { work } from './build.js';

const words = { say: (mm: number): string => `${mm.toFixed(2)} mm` };
const guardText = (lines: readonly string[]): string =>
  `units millimetre
material mild_steel { density 7850 kg/m3  elongation 0.3 }
sheet crs_10 { material mild_steel  thickness 1  bend radius 1 k 0.42 }
die round_10 { round  width 10  depth 3 }
panel tyre_guard {
  sheet crs_10
  outline rectangle 500 by 350
${lines.map((line) => `  ${line}`).join('\n')}
}
`;
const guard = (...lines: readonly string[]) => panelOf(guardText(lines), 'tyre_guard');
const worked = (panel: Panel) => work(panel).result;
const sheet = guard().sheet?.value;
if (sheet === undefined) throw new Error('no sheet');

describe('tips', () => {
  const tip = guard('tip top width 6 down').tips[0];
  if (tip === undefined) throw new Error('no tip');
  test('straight: takes what a flange takes, strains nothing', () => {
    const work = tipWork(tip, { edge: 'top', radius: undefined, strains: undefined }, sheet, words);
    // By hand: 6 − 2 (1 + 1) + (π/2)(1 + 0.42) = 4.2305
    expect(work?.sums.added).toBeCloseTo(4.2305, 4);
    expect(work).toMatchObject({ strain: undefined, verdict: 'ok' });
  });
  test('on a hollow of 200 it stretches 2.2 % of the 15 % that half the elongation allows', () => {
    const work = tipWork(tip, { edge: 'top', radius: 200, strains: 'stretch' }, sheet, words);
    expect(work?.strain?.strain).toBeCloseTo(200 / (200 - 4.2305) - 1, 6);
    expect(work).toMatchObject({ verdict: 'ok', limit: 0.15 });
  });
  test('on a round of 60 it would shrink 6.6 %: over, and the width that would do does', () => {
    const work = tipWork(tip, { edge: 'top', radius: 60, strains: 'shrink' }, sheet, words);
    expect(work?.verdict).toBe('over');
    // 3 % of shrink: 60/(60 + a) = 0.97, a = 1.8557; width = a + 4 − 2.2305 = 3.63
    expect(work?.notes.join()).toContain('3.63 mm wide');
  });
  test('narrower than its own bend: no answer', () => {
    const narrow = guard('tip top width 1.5 down').tips[0];
    expect(
      narrow === undefined ? 'none' : tipWork(narrow, { edge: 'top', radius: undefined, strains: undefined }, sheet, words),
    ).toBeUndefined();
  });
});

test('a cross-break takes nothing worth adding, and says how far it can be relied on', () => {
  const one = guard('cross_break up depth 3').crossBreaks[0];
  if (one === undefined) throw new Error('none');
  const work = crossBreakWork(one, 500, 350, 1, words);
  // By hand: 500 − 2 √(250² − 3²) = 0.036, 350 − 2 √(175² − 3²) = 0.0514.
  expect(work.shorter).toEqual({ width: expect.closeTo(0.036, 4), height: expect.closeTo(0.0514, 4) });
  expect(work.notes[0]).toContain('less than 0.2 mm');
  const deep = crossBreakWork({ ...one, depth: 12 }, 500, 350, 1, words);
  expect(deep.notes[0]).toContain('0.58 mm of the width and 0.82 mm of the height');
  expect(work.notes[1]).toContain('1 to 28 times');
});

describe('pressed holes', () => {
  const dimple = (text: string) => {
    const found = guard(text).dimples[0];
    if (found === undefined) throw new Error('none');
    return dimpleWork(found, sheet);
  };
  test('25 hole pressed 3 out: 9.9 % of the 15 %, opens to 27.49', () => {
    const work = dimple('dimple 25 up depth 3 at (100, 100)');
    expect(work?.strain).toBeCloseTo((3 * Math.tan(Math.PI / 8)) / 12.5, 9);
    expect(work?.pressedDiameter).toBeCloseTo(27.485, 3);
    expect(work).toMatchObject({ verdict: 'ok', tooDeep: false });
  });
  test('8 hole pressed 3 out tears', () => {
    expect(dimple('dimple 8 up depth 3 at (100, 100)')?.verdict).toBe('over');
  });
  test('4 hole pressed 4 out is deeper than half its inside', () => {
    expect(dimple('dimple 4 up depth 4 at (100, 100)')?.tooDeep).toBe(true);
  });
  test('no depth said: the dies decide', () => {
    expect(dimple('dimple 25 up at (100, 100)')).toBeUndefined();
  });
});

describe('a cross-break', () => {
  const breaks = (...lines: readonly string[]) => worked(guard(...lines)).crossBreaks;
  test('runs from corner to corner of the flat between bends', () => {
    const [one] = breaks('edge top { flange 20 up }', 'cross_break up depth 3');
    // By hand: the flat ends at the bend's tangent, 1 + 1 in from the outside.
    expect(one?.lines).toEqual([
      [
        { x: 0, y: 0 },
        { x: 500, y: expect.closeTo(348, 9) },
      ],
      [
        { x: 0, y: expect.closeTo(348, 9) },
        { x: 500, y: 0 },
      ],
    ]);
    expect(one).toMatchObject({ fault: undefined, meets: [] });
  });
  test('tells the holes and the beads that lie on its way, and none beside it', () => {
    const [one] = breaks(
      'cross_break up depth 3',
      'hole 20 at (250, 175), (250, 60)',
      'bead rib { die round_10  up  line from (60, 120) to (440, 120) }',
    );
    expect(one?.meets.map(({ kind, id }) => `${kind} ${id}`)).toEqual(['hole hole.1', 'bead rib']);
  });
  test('follows the corners of a drawn outline with four of them, and refuses any other', () => {
    const drawn = (steps: string) =>
      worked(
        panelOf(
          guardText(['cross_break up depth 3']).replace('outline rectangle 500 by 350', `outline { from (0, 0)  ${steps}  close }`),
          'tyre_guard',
        ),
      ).crossBreaks[0];
    expect(drawn('right 500  line to (400, 300)  line to (50, 300)')?.lines).toEqual([
      [
        { x: 0, y: 0 },
        { x: 400, y: 300 },
      ],
      [
        { x: 50, y: 300 },
        { x: 500, y: 0 },
      ],
    ]);
    for (const steps of [
      'right 500  up 200  left 250  up 150  left 250',
      'right 500  up 300',
      'right 500  line to (100, 100)  line to (0, 500)',
    ])
      expect(drawn(steps)).toMatchObject({ lines: [], fault: 'not-four-cornered' });
  });
  test('set in by half a diagonal leaves nothing', () => {
    expect(breaks('cross_break up depth 3 inset 310')[0]).toMatchObject({ lines: [], fault: 'inset-too-great' });
  });
});
