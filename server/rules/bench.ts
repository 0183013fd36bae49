/** The bench that the rules' examples stand on: one shop in inches, so that each example can be short and yet a whole file. */
const inchBench = `units inch

material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/16 k 0.42 }
brake bench_leaf { leaf  length 48  capacity 16 ga of mild_steel  least flange 3/8  greatest turn 135 }
`;

/** A whole file: the bench, an empty line, and the part given. */
export const onTheBench = (part: string): string => `${inchBench}\n${part}\n`;
