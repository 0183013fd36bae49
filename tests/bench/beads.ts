/** A panel of many beads worked out, beside a polygon library that only lays out and unites the marks of the same beads. */
import { Clipper, EndType, FillRule, JoinType, type Path64 } from 'clipper2-ts';
import { memoryFiles } from '../../server/files.js';
import { createProject } from '../../server/project.js';

const file = '/bench/floor.planish';
const shop = `units millimetre
material mild_steel { density 7850 kg/m3  modulus 205 GPa  elongation 30 % }
sheet crs_12 { material mild_steel  thickness 1.2  bend radius 1.2 k 0.42 }
roller hand_roller { throat 1300  arm 50 }
die round_10 { round  width 10  depth 3  tightest turn 20  per pass 1.5 }
`;
export const beadCount = 60;
/** A border, and ribs side by side within it, each `shift` longer than the last so that no two rows are alike. */
const floor = (shift: number): string => `${shop}
panel floor {
  sheet crs_12
  outline rectangle 2400 by 900
  bead border { die round_10  up  rectangle inset 40 corner 30 }
${Array.from({ length: beadCount - 1 }, (_, i) => `  bead rib_${i} { die round_10  up  line from (${90 + 38 * i}, 120) to (${90 + 38 * i}, ${700 + ((i * 7) % 40) + shift})  ends closed }`).join('\n')}
}
`;

/** ms for all that is said of the panel after its text has changed: tracks, reach, spacing, draw-in, order, findings. */
export const beadsWorked = (rounds: number): readonly number[] => {
  const project = createProject({ files: memoryFiles({ [file]: floor(0) }), root: '/bench' });
  project.findings(file);
  return Array.from({ length: rounds }, (_, round) => {
    const text = floor(1 + (round % 5));
    const start = performance.now();
    project.setText(file, text);
    const found = project.findings(file);
    const time = performance.now() - start;
    const bad = found.find(({ severity }) => severity === 'error');
    if (bad !== undefined) throw new Error(`the bench panel is not clean: ${bad.message}`);
    return time;
  });
};

/** ms for the library to offset the same lines to marks 10 wide with round ends, unite them and cut them to the sheet. */
export const marksUnited = (rounds: number): readonly number[] => {
  const scale = 1e6;
  const path = (...points: readonly (readonly [number, number])[]): Path64 => points.map(([x, y]) => ({ x: x * scale, y: y * scale }));
  const lines = [
    path([40, 40], [2360, 40], [2360, 860], [40, 860], [40, 40]),
    ...Array.from({ length: beadCount - 1 }, (_, i) => path([90 + 38 * i, 120], [90 + 38 * i, 700 + ((i * 7) % 40)])),
  ];
  const sheet = [path([0, 0], [2400, 0], [2400, 900], [0, 900])];
  return Array.from({ length: rounds }, () => {
    const start = performance.now();
    const marks = lines.flatMap((line) => Clipper.inflatePaths([line], 5 * scale, JoinType.Round, EndType.Round, 2, 0.01 * scale));
    const cut = Clipper.intersect(Clipper.union(marks, FillRule.NonZero), sheet, FillRule.NonZero);
    const time = performance.now() - start;
    if (cut.length < beadCount) throw new Error('the library lost a mark');
    return time;
  });
};
