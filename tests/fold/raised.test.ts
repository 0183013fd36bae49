/** Roller work as the view in space shows it: judged by areas reckoned from the die's width and the path's length, and from circles. */
import { describe, expect, test } from 'vitest';
import type { BeadResult } from '../../server/bead/types.js';
import type { Blank } from '../../server/blank/types.js';
import { memoryFiles } from '../../server/files.js';
import { meshOf, movingPart, raisedLines } from '../../server/fold/index.js';
import type { MovingRaised } from '../../server/fold/types.js';
import { createProject } from '../../server/project.js';
import type { Point } from '../../server/shape/path.js';
import { seenLines } from '../../server/sheets/hidden-lines.js';

const path = '/job/door.planish';
const workOn = (...statements: readonly string[]): { readonly blank: Blank; readonly work: BeadResult } => {
  const text = `units mm
material mild_steel { density 7850 kg/m3  modulus 205 GPa  elongation 34 % }
sheet steel_10 { material mild_steel  thickness 1  bend radius 1 k 0.42 }
die round_10 { round  width 10  depth 2  per pass 1 }
die step_8 { step  width 8  depth 2  per pass 1 }
roller hand_roller { throat 500  arm 60 }
panel door {
  sheet steel_10
  outline rectangle 300 by 200
${statements.join('\n')}
}
`;
  const [result] = createProject({ files: memoryFiles({ [path]: text }), root: '/job' }).parts(path);
  const blank = result?.blank.blank;
  if (blank === undefined || result?.beads === undefined) throw new Error('not laid out');
  return { blank, work: result.beads };
};
const raisedOf = (...statements: readonly string[]): readonly MovingRaised[] => {
  const { blank, work } = workOn(...statements);
  return movingPart(blank, undefined, work).raised;
};

const corner = ({ points }: MovingRaised, i: number): readonly [number, number] => [points[2 * i] ?? 0, points[2 * i + 1] ?? 0];
/** Areas of the triangles seen from the face side: each must come out positive. */
const areasOf = (one: MovingRaised): readonly number[] => {
  const areas: number[] = [];
  for (let i = 0; i + 2 < one.triangles.length; i += 3) {
    const [[ax, ay], [bx, by], [cx, cy]] = [0, 1, 2].map((k) => corner(one, one.triangles[i + k] ?? 0)) as [
      readonly [number, number],
      readonly [number, number],
      readonly [number, number],
    ];
    areas.push(((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) / 2);
  }
  return areas;
};
const areaOf = (raised: readonly MovingRaised[]): number => raised.flatMap(areasOf).reduce((sum, area) => sum + area, 0);
const lengthOf = ({ lines }: MovingRaised): number => {
  let length = 0;
  for (let i = 0; i + 3 < lines.length; i += 4)
    length += Math.hypot((lines[i + 2] ?? 0) - (lines[i] ?? 0), (lines[i + 3] ?? 0) - (lines[i + 1] ?? 0));
  return length;
};

describe('a bead on its face', () => {
  test('closed at both ends covers its length by its width and half a circle at each end', () => {
    const raised = raisedOf('bead rib { die round_10  up  line from (50, 100) to (250, 100)  ends closed }');
    expect(raised.map(({ feature, on }) => [feature, on])).toEqual([['bead:rib', 'face:base']]);
    const [one] = raised as [MovingRaised];
    expect(Math.min(...areasOf(one))).toBeGreaterThan(0);
    // A half circle of eight chords has 0.9745 of the true one's area.
    const chords = 8 * Math.sin(Math.PI / 8) * 0.5;
    expect(areaOf(raised)).toBeCloseTo(200 * 10 + 2 * chords * 25, 0);
    expect(Math.max(...one.heights)).toBeCloseTo(2, 2);
    expect(Math.min(...one.heights)).toBe(0);
    expect(lengthOf(one)).toBeCloseTo(2 * 200 + 2 * 8 * 2 * 5 * Math.sin(Math.PI / 16), 0);
  });
  test('turned down it stands out of the back, and slopes the other way', () => {
    const [up] = raisedOf('bead rib { die round_10  up  line from (50, 100) to (250, 100)  ends closed }') as [MovingRaised];
    const [down] = raisedOf('bead rib { die round_10  down  line from (50, 100) to (250, 100)  ends closed }') as [MovingRaised];
    expect(down.points).toEqual(up.points);
    expect(down.heights.map((height) => 0 - height)).toEqual(up.heights.map((height) => 0 + height));
    expect(down.slopes.map((slope) => 0 - slope)).toEqual(up.slopes.map((slope) => 0 + slope));
  });
  test('rises towards its middle: on a bead along x the slope is across it alone, and on the side toward the middle', () => {
    const [one] = raisedOf('bead rib { die round_10  up  line from (0, 100) to (300, 100)  ends run off }') as [MovingRaised];
    one.heights.forEach((_, i) => {
      const [dx = 0, dy = 0] = one.slopes.slice(2 * i);
      expect(Math.abs(dx)).toBeLessThan(1e-9);
      const y = (one.points[2 * i + 1] ?? 0) - 100;
      if (Math.abs(y) > 1 && Math.abs(y) < 4) expect(Math.sign(dy)).toBe(-Math.sign(y));
    });
  });
  test('that runs off ends with the sheet, also across a slant', () => {
    expect(areaOf(raisedOf('bead rib { die round_10  up  line from (0, 100) to (300, 100)  ends run off }'))).toBeCloseTo(3000, 1);
    const slanted = raisedOf(
      'corner bottom right chamfer 80',
      'bead rib { die round_10  up  line from (0, 40) to (260, 40)  ends run off }',
    );
    // The chamfer runs from (220, 0) to (300, 80): at y the sheet ends at 220 + y, in the middle at 260.
    expect(areaOf(slanted)).toBeCloseTo(260 * 10, 0);
  });
  test('leaves out the holes that it meets', () => {
    const raised = raisedOf('hole 6 at (150, 100)', 'bead rib { die round_10  up  line from (0, 100) to (300, 100)  ends run off }');
    // The hole as chords within a tenth of a millimetre of it.
    expect(areaOf(raised)).toBeGreaterThan(3000 - Math.PI * 9);
    expect(areaOf(raised)).toBeLessThan(3000 - 0.9 * Math.PI * 9);
  });
  test('round a closed path has no seam', () => {
    const [one] = raisedOf('bead ring { die round_10  up  circle round (150, 100) radius 50 }') as [MovingRaised];
    expect(areaOf([one])).toBeGreaterThan(Math.PI * (55 * 55 - 45 * 45) * 0.995);
    expect(areaOf([one])).toBeLessThan(Math.PI * (55 * 55 - 45 * 45));
    expect(lengthOf(one)).toBeGreaterThan(2 * Math.PI * 100 * 0.995);
  });
  test('open at its ends fades out there', () => {
    const [one] = raisedOf('bead rib { die round_10  up  line from (50, 100) to (250, 100)  ends open }') as [MovingRaised];
    one.heights.forEach((height, i) => {
      const x = one.points[2 * i] ?? 0;
      if (x < 50.01 || x > 249.99) expect(height).toBe(0);
    });
    expect(Math.max(...one.heights)).toBeCloseTo(2, 2);
    // It narrows over two widths at each end, by the square root: a third of that stretch is lost.
    expect(areaOf([one])).toBeCloseTo(10 * (200 - (2 * 20) / 3), -2);
  });
  test('a band sets off the land between its steps, and leaves what it goes round as it was', () => {
    const [one] = raisedOf('band raised { die step_8  up  width 40  line from (0, 100) to (300, 100)  ends run off }') as [MovingRaised];
    expect(Math.min(...areasOf(one))).toBeGreaterThan(0);
    expect(areaOf([one])).toBeCloseTo(300 * 40, 0);
    const within = raisedOf('band raised { die step_8  up  width 40  line from (20, 100) to (280, 100)  ends run off }');
    expect(areaOf(within)).toBeCloseTo(300 * 40, 0);
    one.heights.forEach((height, i) => {
      const off = Math.abs((one.points[2 * i + 1] ?? 0) - 100);
      if (off < 12 - 1e-3) expect(height).toBeCloseTo(2, 3);
      if (off > 20 - 1e-3) expect(height).toBeCloseTo(0, 3);
    });
    const round = raisedOf('band raised { die step_8  up  width 40  rectangle inset 40 corner 30 }') as [MovingRaised];
    // Its middle is 160 + 60 + 160 + 60 long in straights and a circle of 30 in turns.
    expect(areaOf(round)).toBeGreaterThan((440 + 60 * Math.PI) * 40 * 0.99);
    expect(areaOf(round)).toBeLessThan((440 + 60 * Math.PI) * 40 * 1.001);
  });
  test('in line drawings its feet lie on both sides of the sheet, and are hidden by what stands before them', () => {
    const { blank, work } = workOn(
      'edge bottom { flange 80 up }',
      'bead rib { die round_10  up  line from (50, 20) to (250, 20)  ends closed }',
      'bead far { die round_10  up  line from (50, 180) to (250, 180)  ends closed }',
    );
    const lines = raisedLines(blank, work);
    expect(new Set(lines.flat().map(({ z }) => z))).toEqual(new Set([0.5, -0.5]));
    const sum = (from: readonly { readonly from: Point; readonly to: Point }[]): number =>
      from.reduce((total, { from: a, to: b }) => total + Math.hypot(b.x - a.x, b.y - a.y), 0);
    const [bare, drawn] = [[], lines].map((on) => sum(seenLines(meshOf(blank), { around: 0, down: Math.PI / 4 }, blank.thickness, on))) as [
      number,
      number,
    ];
    // From the front at 45° the flange, 80 high, hides 80 of the floor behind it: the near bead whole, the far one not at all.
    const dome = 2 * 5 * Math.PI;
    expect(drawn - bare).toBeGreaterThan(400 + 0.6 * dome);
    expect(drawn - bare).toBeLessThan(400 + dome);
  });
  test('a cross-break is two creases', () => {
    const raised = raisedOf('cross_break up depth 3');
    expect(raised.map(({ feature }) => feature)).toEqual(['cross_break:1']);
    expect(lengthOf(raised[0] as MovingRaised)).toBeGreaterThan(2 * 300);
    expect(raised[0]?.triangles).toEqual([]);
  });
});
