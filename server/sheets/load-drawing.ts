/** What loads add to the drawing of a blank: where each lies, where the panel gives most, and how far beaded, flat, and with a bead more or fewer. */
import type { BeadVariant, CaseAnswer, NotReckoned, StiffnessAnswer } from '../bead/index.js';
import type { Blank } from '../blank/types.js';
import { figures, sayLengthBare } from '../model/display.js';
import type { Load, Panel } from '../model/part.js';
import { place } from '../shape/loops.js';
import type { Loop, Placement, Point } from '../shape/path.js';
import { type Additions, joined, nothingAdded } from './bead-additions.js';
import type { DisplayOptions, Stroke } from './drawing.js';

const STILL: Placement = { cos: 1, sin: 0, tx: 0, ty: 0 };
const counted = (count: number): string => (count === 0 ? 'no bead' : count === 1 ? '1 bead' : `${count} beads`);

/** `gives 1 9/32; flat 1 11/16; 2 beads 1 3/8; 4 beads 1 1/4`: the choice between one bead more and one fewer, in the order of their number. */
const givesWords = ({ flat, beaded, fewer, more }: CaseAnswer, options: DisplayOptions): string => {
  const bare = (mm: number): string => sayLengthBare(Math.abs(mm), options.unit, options.denominator);
  if (beaded === undefined) return `gives ${bare(flat.deflection)}`;
  const variant = (one: BeadVariant | undefined): readonly string[] =>
    one === undefined || one.count === 0 ? [] : [`${counted(one.count)} ${bare(one.deflection)}`];
  return [
    `gives ${bare(beaded.deflection)} with ${counted(beaded.count)}`,
    ...variant(fewer),
    ...variant(more),
    `flat ${bare(flat.deflection)}`,
  ].join('; ');
};

/** Of every load that is reckoned. Blank coordinates; nothing where they can't be, which is said in the text. */
export const drawnLoads = (
  part: Panel,
  blank: Blank,
  stiffness: StiffnessAnswer | NotReckoned | undefined,
  options: DisplayOptions,
): Additions => {
  if (stiffness === undefined || 'message' in stiffness || part.outline === undefined) return nothingAdded;
  const base = blank.faces.find((face) => face.id === 'base')?.place ?? STILL;
  const points = [part.outline.start, ...part.outline.edges.map(({ to }) => to)];
  const corner = { x: Math.min(...points.map(({ x }) => x)), y: Math.min(...points.map(({ y }) => y)) };
  return joined(
    stiffness.cases.flatMap((one, index): readonly Additions[] => {
      const load = part.loads[index];
      return load === undefined ? [] : [drawnLoad(one, load, index, base, corner, options)];
    }),
  );
};

const drawnLoad = (one: CaseAnswer, load: Load, index: number, base: Placement, corner: Point, options: DisplayOptions): Additions => {
  const feature = `load:${index + 1}`;
  const state = one.beaded ?? one.flat;
  const most = place(base, { x: corner.x + state.at.x, y: corner.y + state.at.y });
  const patch = patchOf(load, base);
  const notes = [one.beaded ?? one.flat].flatMap(({ frequency }) =>
    frequency === undefined ? [] : [`first note ${figures(frequency, 3)} Hz`],
  );
  const what = load.load.kind === 'spread' ? 'spread load' : 'load on the patch';
  return {
    ...nothingAdded,
    strokes: [
      ...(patch === undefined ? [] : [{ layer: 'load', feature, geometry: { kind: 'loop', loop: patch } } satisfies Stroke]),
      ...crossAt(most).map(([from, to]): Stroke => ({ layer: 'load', feature, geometry: { kind: 'line', from, to } })),
    ],
    features: [{ id: feature, title: [`${what}: ${givesWords(one, options)}`, ...notes].join('; '), span: load.span }],
    spotLabels: [{ feature, at: most, clear: CROSS, text: givesWords(one, options) }],
  };
};

/** Half an arm of the cross where the panel gives most, mm. */
const CROSS = 4;
const crossAt = ({ x, y }: Point): readonly (readonly [Point, Point])[] => [
  [
    { x: x - CROSS, y: y - CROSS },
    { x: x + CROSS, y: y + CROSS },
  ],
  [
    { x: x - CROSS, y: y + CROSS },
    { x: x + CROSS, y: y - CROSS },
  ],
];

const patchOf = ({ load }: Load, base: Placement): Loop | undefined => {
  if (load.kind === 'spread' || !(load.width > 0 && load.height > 0)) return undefined;
  const { at, width, height } = load;
  return [
    [1, -1],
    [1, 1],
    [-1, 1],
    [-1, -1],
  ].map(([x = 0, y = 0]) => ({ kind: 'line', to: place(base, { x: at.x + (x * width) / 2, y: at.y + (y * height) / 2 }) }));
};
