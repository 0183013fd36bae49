/** The bench that the rules' examples stand on: one shop in inches, so that each example can be short and yet a whole file. */
const inchBench = `units inch

material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/16 k 0.42 }
brake bench_leaf { leaf  length 48  capacity 16 ga of mild_steel  least flange 3/8  greatest turn 135 }
`;

/** A whole file: the bench, an empty line, and the part given. */
export const onTheBench = (part: string): string => `${inchBench}\n${part}\n`;

/** The same bench whose brake has its sections, as a plan of bending wants them. */
const sections = `  nose (0, 0), (-5/8, 1), (-3/4, 4), (-4, 6), (-5, 6), (-1 1/8, 3), (-1 1/8, 0)
  bed (0, 0), (-5, 0), (-5, -3), (-1/2, -3)
  apron (0, 0), (1/2, 0), (1/2, -2 1/2), (0, -2 1/2)
`;
const withBrake = (brake: string, part: string): string => onTheBench(part).replace(/brake bench_leaf .*\n/, brake);

/** A leaf brake with its sections. */
export const onTheLeaf = (part: string): string =>
  withBrake(`brake bench_leaf {\n  leaf  length 36  least flange 3/8  greatest turn 140  jaw 1/2\n${sections}}\n`, part);
/** A brake whose nose is in fingers, with its sections. */
export const onTheFingers = (part: string): string =>
  withBrake(`brake box_and_pan {\n  fingers 2, 3, 5, 12  depth 3  length 36  least flange 3/8  greatest turn 140\n${sections}}\n`, part);
