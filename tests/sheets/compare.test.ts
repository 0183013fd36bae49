/** Two versions held against each other: whatever is written differently is told under what was written, and nothing else. */
import { describe, expect, it } from 'vitest';
import { memoryFiles } from '../../server/files.js';
import { versionsOf } from '../../server/node-compare.js';
import { createProject } from '../../server/project.js';
import { compareParts } from '../../server/sheets/index.js';

const part = `panel plate {
  sheet crs
  outline {
    from (0, 0)
    right 200 as foot
    up 100
    line to (150, 100)
    arc in to (50, 100) radius 80
    line to (0, 100)
    close as side
  }
  edge foot { flange 20 up ends back 2 }
  edge side { joggle 1.2 over 20 run 4 down }
  hole 6 at (30, 30)
  cut rectangle 30 by 16 radius 3 at (160, 30) as window
  cut drawn at (100, 30) as eye { from (0, 0) right 20 up 10 line to (5, 10) close }
}
section cap { sheet crs  length 300  leg 30  turn up 90  leg 40 }
piece rail { tube sq  length 600  end start mitre 45 }
`;
const shop = `units millimetre
material steel { density 7850 kg/m3 }
sheet crs { material steel  thickness 1.2  bend radius 1.2 k 0.42 }
tube sq { square 25  wall 2  length 6 m }
`;
/** What was written differently, when `from` is replaced by `to`. */
const told = (from: string, to: string): readonly (readonly (string | undefined)[])[] => {
  expect(part.split(from)).toHaveLength(2);
  const versions = (own: string) => {
    const project = createProject({ files: memoryFiles({ '/job/a.planish': shop + own }), root: '/job' });
    expect(project.findings('/job/a.planish').filter(({ severity }) => severity === 'error')).toEqual([]);
    return { versions: versionsOf(project, '/job/a.planish'), unit: project.model('/job/a.planish').units };
  };
  const [old, now] = [versions(part), versions(part.replace(from, to))];
  const compared = compareParts(old.versions, now.versions, { unit: now.unit });
  return compared.flatMap(({ changes }) =>
    changes.filter(({ kind }) => kind === 'written').map((change) => [change.what, change.old, change.new]),
  );
};

describe('what is written differently is told', () => {
  it.each([
    // Nearer to one another than a rule reads: told in decimals.
    ['hole 6 at (30, 30)', 'hole 6 at (30.02, 30)', [['hole.1: place', '30 mm, 30 mm', '30.02 mm, 30 mm']]],
    ['hole 6 at', 'hole 6.04 at', [['hole.1: size', '⌀ 6 mm', '⌀ 6.04 mm']]],
    ['leg 40', 'leg 40.01', [['leg 2', '40 mm', '40.01 mm']]],
    ['turn up 90', 'turn up 90.04', [['turn 1', 'up 90°', 'up 90.04°']]],
    ['mitre 45', 'mitre 45.03', [['start', 'mitre 45°', 'mitre 45.03°']]],
    // As a rule reads it, where that tells them apart.
    ['hole 6 at (30, 30)', 'hole 6 at (31, 30)', [['hole.1: place', '30 mm, 30 mm', '31 mm, 30 mm']]],
    ['ends back 2', 'ends back 5', [['edge foot, flange foot.1: ends', 'back 2 mm', 'back 5 mm']]],
    ['ends back 2', 'ends mitred 30', [['edge foot, flange foot.1: ends', 'back 2 mm', 'mitred 30°']]],
    ['run 4', 'run 6', [['edge side, joggle side.1: run', '4 mm', '6 mm']]],
    ['radius 3 at', 'radius 5 at', [['window: size', '30 mm by 16 mm, corners 3 mm', '30 mm by 16 mm, corners 5 mm']]],
    [
      'arc in to (50, 100)',
      'arc out to (50, 100)',
      [
        [
          'outline, step 4',
          'to 50 mm, 100 mm on an arc of radius 80 mm about 100 mm, 162.4 mm, turning right',
          'to 50 mm, 100 mm on an arc of radius 80 mm about 100 mm, 37.6 mm, turning left',
        ],
      ],
    ],
  ])('%s → %s', (from, to, rows) => {
    expect(told(from, to)).toEqual(rows);
  });

  it('a drawn cut-out of as many steps and another shape', () => {
    const rows = told('line to (5, 10) close', 'line to (8, 10) close');
    expect(rows.length).toBeGreaterThan(0);
    for (const [what] of rows) expect(what).toMatch(/^eye: (starts at|step \d|place)$/);
  });

  it('and nothing where the same is written in other words', () => {
    expect(told('hole 6 at (30, 30)', 'hole 3 * 2 at (60 / 2, 3 cm)')).toEqual([]);
  });
});
