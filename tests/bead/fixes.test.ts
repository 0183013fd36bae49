/** What the messages and fixes of the bead rules offer, done: the text is changed as told and asked again. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { memoryFiles } from '../../server/files.js';
import { createProject } from '../../server/project.js';
import { runs } from '../runs.js';

const path = '/job/tray.planish';
const findingsOf = (text: string) => createProject({ files: memoryFiles({ [path]: text }), root: '/job' }).findings(path);

interface Tray {
  readonly inch: boolean;
  readonly throat: number;
  readonly flange: string;
  readonly bead: string;
}
/** In inches, or in as many times 25 mm. */
const trayOf = ({ inch, throat, flange, bead }: Tray): string => {
  const scaled = (text: string): string => (inch ? text : text.replace(/\d+(\.\d+)?/g, (n) => String(Number(n) * 25)));
  return `units ${inch ? 'inch' : 'millimetre'}
material mild_steel { density 7850 kg/m3  modulus 205 GPa  elongation 34 % }
sheet s { material mild_steel  thickness ${inch ? '0.048' : '1.2'}  bend radius ${inch ? '0.06' : '1.5'} k 0.42 }
die half_round { round  width ${scaled('0.4')}  depth ${scaled('0.12')}  per pass ${scaled('0.12')}  tightest turn ${scaled('0.8')} }
roller hand_roller { throat ${scaled(String(throat))}  arm ${scaled('2')} }
panel tray {
  sheet s
  outline rectangle ${scaled('32 by 22')}
  ${scaled(flange)}
  bead rib { die half_round  up  ${scaled(bead)} }
}
`;
};

const number = (min: number, max: number) => fc.integer({ min: min * 8, max: max * 8 }).map((n) => n / 8);
const place = fc.tuple(number(3, 29), number(3, 19)).map(([x, y]) => `(${x}, ${y})`);
const bead = fc.oneof(
  fc.tuple(place, place).map(([a, b]) => `line from ${a} to ${b}`),
  number(3, 19).map((y) => `line from (3, ${y}) to (29, ${y})`),
  fc.tuple(place, number(1, 2)).map(([at, radius]) => `circle round ${at} radius ${radius}`),
  number(2, 9).map((inset) => `rectangle inset ${inset}`),
  number(2, 9).map((inset) => `along bottom, right inset ${inset}`),
);
const tray = fc.record({
  inch: fc.boolean(),
  throat: number(3, 10),
  flange: fc.constantFrom('', 'edge top { flange 1 down }', 'edge left, right { flange 2 down }'),
  bead,
});
const spoilt = new Set(['bead/out-of-reach', 'bead/cannot-be-laid-out', 'bead/crosses-a-bend']);

describe('a bead out of reach', () => {
  it('is within reach, on the sheet and clear of bends once the fix is done', () => {
    let fixed = 0;
    fc.assert(
      fc.property(tray, (sketch) => {
        const text = trayOf(sketch);
        const before = findingsOf(text);
        const fix = before.find(({ rule }) => rule === 'bead/out-of-reach')?.fixes?.[0];
        if (fix === undefined) return;
        fixed += 1;
        const done = [...fix.edits]
          .sort((a, b) => b.span.start - a.span.start)
          .reduce((all, { span, text }) => all.slice(0, span.start) + text + all.slice(span.end), text);
        expect(findingsOf(done).filter(({ rule }) => spoilt.has(rule))).toEqual([]);
      }),
      { numRuns: runs(80) },
    );
    expect(fixed).toBeGreaterThan(20);
  });
  it('is told how far to move it by a number that serves when it is typed', () => {
    const at = (y: string): string =>
      trayOf({ inch: false, throat: 8, flange: '', bead: 'line from (0, 0) to (0, 0)' }).replace(
        '(0, 0) to (0, 0)',
        `(50, ${y}) to (700, ${y})`,
      );
    const told = (y: string): string => findingsOf(at(y)).find(({ rule }) => rule === 'bead/out-of-reach')?.message ?? 'reached';
    // 200 of throat: 230.03 is 30.03 too far, which reads 30 to the nearest.
    expect(told('230.03')).toContain('it fits when it is moved 30.1 mm toward the bottom');
    expect(told(String(230.03 - 30.1))).toBe('reached');
    // One that leans by what nobody sees is moved square, and by no `0 mm`.
    expect(told('230.03').replace('0.1', '')).not.toContain(' 0 mm');
    const leaning = findingsOf(at('230.03').replace('(700, 230.03)', '(700, 230.3)')).find(({ rule }) => rule === 'bead/out-of-reach');
    expect(leaning?.message).toMatch(/it fits when it is moved 30(\.\d)? mm toward the bottom$/);
  });
});

describe('a corner too large', () => {
  it('is told the largest that fits by a number that does fit', () => {
    const hook = (corner: string): readonly string[] =>
      findingsOf(
        trayOf({ inch: false, throat: 20, flange: '', bead: 'line from (0, 0) to (0, 0)' }).replace(
          'line from (0, 0) to (0, 0)',
          `path (233, 258), (213, 303), (163, 143) corner ${corner}`,
        ),
      )
        .filter(({ rule }) => rule === 'bead/cannot-be-laid-out')
        .map(({ message }) => message);
    expect(hook('20')[0]).toMatch(/the largest that fits is 18\.5 mm$/);
    expect(hook('18.6')).toHaveLength(1);
    expect(hook('18.5')).toEqual([]);
  });
});

describe('a trial strip typed in wrong', () => {
  const said = (measured: string): readonly string[] => {
    const text = trayOf({ inch: false, throat: 20, flange: '', bead: 'line from (5, 5) to (20, 5)' });
    const trial = `trial strip_a {\n  sheet s\n  strip 90 by 150 to 0.1\n  beaded half_round length 150 passes 2\n  measured width ${measured} to 0.1\n}\n`;
    return findingsOf(text.replace('panel tray', `${trial}panel tray`)).flatMap(({ rule, message }) =>
      rule === 'bead/trial-doubtful' ? [message] : [],
    );
  };
  it('is told, and what is reckoned with until it is put right', () => {
    expect(said('89')).toEqual([]);
    expect(said('91')).toMatchObject([
      expect.stringMatching(/^trial strip_a gives a share of -\d+ %.*half_round is reckoned to draw in nothing$/),
    ]);
    expect(said('80')).toMatchObject([expect.stringMatching(/^trial strip_a gives a share of \d+ %.*draw in all that its beads need$/)]);
  });
});
