import { describe, expect, test } from 'vitest';
import { crossBreakWork, dimpleWork, tipWork } from '../../server/bead/other-work.js';
import { panelOf } from '../model/build.js';

const words = { say: (mm: number): string => `${mm.toFixed(2)} mm` };
const guard = (...lines: readonly string[]) =>
  panelOf(
    `units millimetre
material mild_steel { density 7850 kg/m3  elongation 0.3 }
sheet crs_10 { material mild_steel  thickness 1  bend radius 1 k 0.42 }
panel tyre_guard {
  sheet crs_10
  outline rectangle 500 by 350
${lines.map((line) => `  ${line}`).join('\n')}
}
`,
    'tyre_guard',
  );
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
  expect(work.notes[0]).toContain('0.04 mm of the width and 0.05 mm of the height');
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
