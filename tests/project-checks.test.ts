import { describe, expect, test } from 'vitest';
import { memoryFiles } from '../server/files.js';
import { createProject } from '../server/project.js';

const metal = `units inch
material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 18 ga  bend radius 1/16 k 0.42 }
`;
/** What is said under each `check` of one part. */
const saidOfChecks = (...lines: readonly string[]): readonly string[] => {
  const text = `${metal}panel gate {\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;
  return createProject({ files: memoryFiles({ '/job/gate.planish': text }), root: '/job' })
    .findings('/job/gate.planish')
    .filter(({ span }) => text.slice(text.lastIndexOf('\n', span.start), span.start).trim().startsWith('check'))
    .map(({ severity, rule, message }) => `${severity} ${rule}: ${message}`);
};

describe('a check on the part’s own sizes', () => {
  const check = 'check gate.blank.height <= 24 "must fit"';
  const undecided = 'information check/not-decided: gate.blank.height <= 24: not decided, since something it reads can’t be worked out.';

  test.each([
    ['a size is broken', ['sheet crs_18', 'outline rectangle 12 by nowhere']],
    ['a flange leaves no flat', ['sheet crs_18', 'outline rectangle 12 by 8', 'edge top { flange 1/64 up }']],
    ['there is no sheet', ['outline rectangle 12 by 8']],
    ['there is no outline', ['sheet crs_18']],
  ])('is not decided while %s', (_, lines) => {
    expect(saidOfChecks(...lines, check)).toEqual([undecided]);
  });

  test('is decided as soon as the part is laid out', () => {
    expect(saidOfChecks('sheet crs_18', 'outline rectangle 12 by 8', check)).toEqual([]);
    expect(saidOfChecks('sheet crs_18', 'outline rectangle 12 by 25', check)).toEqual([
      'error check/failed: must fit: gate.blank.height <= 24 doesn’t hold (25 in against 24 in).',
    ]);
  });

  test('reads one of a repeated feature, or all of them within min, max and sum', () => {
    // No bends: the blank's lower left corner is the outline's own. Holes at x 2, 4 and 6, all at y 3.
    const part = ['sheet crs_18', 'outline rectangle 12 by 8', 'repeat 3 every 2 along x { hole 1/4 at (2, 3) as rib }'];
    expect(
      saidOfChecks(
        ...part,
        'check gate.cuts.rib.2.x = 4 in',
        'check max(gate.cuts.rib.all.x) = 6 in',
        'check sum(gate.cuts.rib.all.x) = 12 in',
        'check min(gate.cuts.rib.all.diameter) = 1/4 in',
      ),
    ).toEqual([]);
    expect(saidOfChecks(...part, 'check gate.cuts.rib.3.y > 3 in')).toHaveLength(1);
    expect(saidOfChecks(...part, 'check gate.cuts.rib.4.y = 3 in')).toHaveLength(1);
  });

  test('of a property that there is not is at fault, once the part is laid out', () => {
    const slip = 'check gate.blank.heigth <= 24';
    expect(saidOfChecks('sheet crs_18', 'outline rectangle 12 by 8', slip)).toEqual([
      'error name/unknown-property: gate.blank has no heigth. There is width, height, area, mass, cut_length and pierces.',
    ]);
    expect(saidOfChecks('outline rectangle 12 by 8', slip)).toEqual([undecided.replace('height', 'heigth')]);
  });
});
