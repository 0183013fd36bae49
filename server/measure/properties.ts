/**
 * What can be measured of a part, named once: paths in the language (`gate.blank.width`), keys of `measure --json` (`blank.width_mm`) and rows of the
 * table for people all come from these lists. Lengths mm, angles rad, areas mm², masses kg.
 */
import type { CaseAnswer, NotReckoned, StiffnessAnswer, WorkedBead } from '../bead/index.js';
import type { BendLine, Blank, BlankCut } from '../blank/types.js';
import type { Plan } from '../brake/index.js';
import type { FoldResult } from '../fold/types.js';
import type { Part } from '../model/part.js';
import type { Sheet } from '../model/shop.js';

export type Quantity =
  | 'length'
  | 'thickness'
  | 'bend sum'
  | 'angle'
  | 'area'
  | 'mass'
  | 'count'
  | 'ratio'
  | 'frequency'
  | 'text'
  | 'yes or no';

export interface Property<From> {
  /** Last step of the path; words joined by `_`. */
  readonly name: string;
  readonly quantity: Quantity;
  readonly label: string;
  /** One line in plain words, for hover and completion. */
  readonly summary: string;
  /** Whether the documented JSON form carries it. */
  readonly inJson: boolean;
  /** Undefined when the part has no such thing (a mass without a density). */
  readonly read: (from: From) => number | string | boolean | undefined;
}

export const sheetOf = (part: Part): Sheet | undefined =>
  part.kind === 'panel' || part.kind === 'section' ? part.sheet?.value : undefined;

const bendLength = (bend: BendLine): number => Math.hypot(bend.to.x - bend.from.x, bend.to.y - bend.from.y);

/** Directly under the part's name. */
export const partProperties: readonly Property<{ readonly part: Part; readonly blank: Blank | undefined }>[] = [
  {
    name: 'thickness',
    quantity: 'thickness',
    label: 'thickness',
    summary: 'Thickness of the sheet.',
    inJson: true,
    read: ({ part }) => sheetOf(part)?.thickness,
  },
  {
    name: 'quantity',
    quantity: 'count',
    label: 'quantity',
    summary: 'How many are wanted as drawn; opposite hands are counted apart.',
    inJson: true,
    read: ({ part }) => part.quantity,
  },
  {
    name: 'mass',
    quantity: 'mass',
    label: 'mass',
    summary: 'Mass of one, from the net area of its blank.',
    inJson: false,
    read: ({ blank }) => blank?.mass,
  },
];

/** Under `sheet`. */
export const sheetProperties: readonly Property<Sheet>[] = [
  { name: 'name', quantity: 'text', label: 'sheet', summary: 'Name of the stock sheet.', inJson: false, read: (sheet) => sheet.name },
  {
    name: 'thickness',
    quantity: 'thickness',
    label: 'sheet thickness',
    summary: 'Thickness of the sheet.',
    inJson: false,
    read: (sheet) => sheet.thickness,
  },
  {
    name: 'width',
    quantity: 'length',
    label: 'sheet width',
    summary: 'First of the two sizes of the stock sheet.',
    inJson: false,
    read: (sheet) => sheet.size?.width,
  },
  {
    name: 'height',
    quantity: 'length',
    label: 'sheet height',
    summary: 'Second of the two sizes of the stock sheet.',
    inJson: false,
    read: (sheet) => sheet.size?.height,
  },
];

/** Under `folded`: the box that the finished part fills, its base lying level, face side up. */
export const foldedProperties: readonly Property<FoldResult>[] = [
  {
    name: 'width',
    quantity: 'length',
    label: 'folded width',
    summary: 'Overall size of the finished part along x.',
    inJson: true,
    read: ({ envelope: { min, max } }) => max.x - min.x,
  },
  {
    name: 'height',
    quantity: 'length',
    label: 'folded height',
    summary: 'Overall size of the finished part along y.',
    inJson: true,
    read: ({ envelope: { min, max } }) => max.y - min.y,
  },
  {
    name: 'depth',
    quantity: 'length',
    label: 'folded depth',
    summary: 'Overall size of the finished part square to its base.',
    inJson: true,
    read: ({ envelope: { min, max } }) => max.z - min.z,
  },
  {
    name: 'collides',
    quantity: 'yes or no',
    label: 'collides with itself',
    summary: 'Whether two pieces of the finished part want the same place.',
    inJson: true,
    read: ({ collisions }) => collisions.length > 0,
  },
];

/** Under `bending`: the plan of the bends on the shop's brake. `measure --json` carries the whole plan, so none of these. */
export const bendingProperties: readonly Property<Plan | undefined>[] = [
  {
    name: 'possible',
    quantity: 'yes or no',
    label: 'can be bent here',
    summary: 'Whether a brake of the shop can make all the bends, in some order.',
    inJson: false,
    read: (plan) => plan?.possible,
  },
  {
    name: 'steps',
    quantity: 'count',
    label: 'bending steps',
    summary: 'How many times the part is clamped, or worked by hand, until it is bent.',
    inJson: false,
    read: (plan) => (plan?.possible === true ? plan.steps.length : undefined),
  },
  {
    name: 'turn_overs',
    quantity: 'count',
    label: 'turned over',
    summary: 'How many times the part is turned over between its bends.',
    inJson: false,
    read: (plan) => plan?.cost?.turnOvers,
  },
  {
    name: 'rotations',
    quantity: 'count',
    label: 'turned on the bed',
    summary: 'How many times the part is turned round on the bed between its bends.',
    inJson: false,
    read: (plan) => plan?.cost?.rotations,
  },
  {
    name: 'brake',
    quantity: 'text',
    label: 'bent on',
    summary: 'The brake that makes it with the least handling, or comes farthest.',
    inJson: false,
    read: (plan) => plan?.brake.name,
  },
];

/** Under `blank`. */
export const blankProperties: readonly Property<Blank>[] = [
  {
    name: 'width',
    quantity: 'length',
    label: 'blank width',
    summary: 'Overall size of the flat blank along x.',
    inJson: true,
    read: (b) => b.width,
  },
  {
    name: 'height',
    quantity: 'length',
    label: 'blank height',
    summary: 'Overall size of the flat blank along y.',
    inJson: true,
    read: (b) => b.height,
  },
  {
    name: 'area',
    quantity: 'area',
    label: 'blank area',
    summary: 'Area of the flat blank, holes taken off.',
    inJson: true,
    read: (b) => b.area,
  },
  {
    name: 'mass',
    quantity: 'mass',
    label: 'blank mass',
    summary: 'Mass of the blank, holes taken off.',
    inJson: true,
    read: (b) => b.mass,
  },
  {
    name: 'cut_length',
    quantity: 'length',
    label: 'cut length',
    summary: 'Length of all cuts: the outline and every hole.',
    inJson: true,
    read: (b) => b.cutLength,
  },
  {
    name: 'pierces',
    quantity: 'count',
    label: 'pierces',
    summary: 'How many closed cuts have to be started.',
    inJson: true,
    read: (b) => b.pierces,
  },
];

/** Under `bends` and the name of the bend. */
export const bendProperties: readonly Property<BendLine>[] = [
  { name: 'turn', quantity: 'angle', label: 'turn', summary: 'How far the bend turns from flat.', inJson: true, read: (bend) => bend.turn },
  {
    name: 'direction',
    quantity: 'text',
    label: 'direction',
    summary: 'Toward which face of the sheet it folds.',
    inJson: true,
    read: (bend) => bend.direction,
  },
  {
    name: 'radius',
    quantity: 'length',
    label: 'inside radius',
    summary: 'Inside radius of the bend.',
    inJson: true,
    read: (bend) => bend.radius,
  },
  {
    name: 'allowance',
    quantity: 'bend sum',
    label: 'allowance',
    summary: 'Length of sheet that the bend uses up.',
    inJson: true,
    read: (bend) => bend.allowance,
  },
  {
    name: 'method',
    quantity: 'text',
    label: 'method',
    summary: 'How the allowance was worked out.',
    inJson: true,
    read: (bend) => bend.method,
  },
  {
    name: 'deduction',
    quantity: 'bend sum',
    label: 'deduction',
    summary: 'How much less than the sum of the outside sizes the blank is for this bend.',
    inJson: false,
    read: (bend) => bend.deduction,
  },
  {
    name: 'setback',
    quantity: 'bend sum',
    label: 'setback',
    summary: 'From the outside corner to where the bend begins.',
    inJson: false,
    read: (bend) => bend.setback,
  },
  {
    name: 'k',
    quantity: 'ratio',
    label: 'k',
    summary: 'Neutral axis from the inside, as a share of the thickness.',
    inJson: false,
    read: (bend) => bend.k,
  },
  { name: 'length', quantity: 'length', label: 'bend length', summary: 'Length of the bend line.', inJson: false, read: bendLength },
];

/** Under `cuts` and the name of the hole, slot or cut-out; a repeated one is `rib.1` … `rib.N`, all of them `rib.all`. */
export const cutProperties: readonly Property<BlankCut>[] = [
  {
    name: 'diameter',
    quantity: 'length',
    label: 'diameter',
    summary: 'Diameter of a round hole.',
    inJson: false,
    read: ({ circle }) => (circle === undefined ? undefined : 2 * circle.radius),
  },
  {
    name: 'x',
    quantity: 'length',
    label: 'x',
    summary: 'Where its centre lies on the blank, from the left.',
    inJson: false,
    read: ({ centre }) => centre.x,
  },
  {
    name: 'y',
    quantity: 'length',
    label: 'y',
    summary: 'Where its centre lies on the blank, from the bottom.',
    inJson: false,
    read: ({ centre }) => centre.y,
  },
];

/** Under `beads` and the name of the bead or band. Sizes of reach are those of the roller that does best. */
export const beadProperties: readonly Property<WorkedBead>[] = [
  { name: 'die', quantity: 'text', label: 'die', summary: 'The die it is rolled with.', inJson: true, read: ({ die }) => die.name },
  {
    name: 'length',
    quantity: 'length',
    label: 'length',
    summary: 'Along its tracks, on the sheet.',
    inJson: true,
    read: ({ length }) => length,
  },
  {
    name: 'draw_in',
    quantity: 'bend sum',
    label: 'draw-in',
    summary: 'How much sheet it takes in, square to it; of a band, both steps together.',
    inJson: true,
    read: ({ takeIn, kind }) => (kind === 'band' ? 2 : 1) * takeIn.used,
  },
  {
    name: 'draw_in_most',
    quantity: 'bend sum',
    label: 'most draw-in',
    summary: 'The most it can take in: all that it needs, none of it stretched.',
    inJson: false,
    read: ({ takeIn, kind }) => (kind === 'band' ? 2 : 1) * takeIn.full,
  },
  {
    name: 'strain',
    quantity: 'ratio',
    label: 'strain',
    summary: 'How far the sheet stretches in it on the average, what draws in taken off.',
    inJson: true,
    read: ({ forming }) => forming?.strain,
  },
  {
    name: 'strain_most',
    quantity: 'ratio',
    label: 'greatest strain',
    summary: 'Stretch and bending together at its tightest radius.',
    inJson: false,
    read: ({ forming }) => forming?.peak,
  },
  {
    name: 'reach',
    quantity: 'length',
    label: 'reach',
    summary: 'The least throat that reaches all of it.',
    inJson: true,
    read: ({ reaches }) => reaches[0]?.needed,
  },
  {
    name: 'throat',
    quantity: 'length',
    label: 'throat',
    summary: 'Throat of the roller it is rolled on.',
    inJson: true,
    read: ({ reaches }) => reaches[0]?.throat,
  },
  {
    name: 'passes',
    quantity: 'count',
    label: 'passes',
    summary: 'How many times it goes through the rolls.',
    inJson: true,
    read: ({ forming }) => forming?.passes.length,
  },
  {
    name: 'fits',
    quantity: 'yes or no',
    label: 'fits',
    summary: 'Whether a roller of the shop reaches all of it.',
    inJson: true,
    read: ({ reaches }) => reaches[0]?.fits,
  },
];

/** The load under which the panel gives most. */
const worstCase = (answer: StiffnessAnswer | NotReckoned): CaseAnswer | undefined => {
  if ('message' in answer) return undefined;
  const given = (one: CaseAnswer): number => Math.abs((one.beaded ?? one.flat).deflection);
  return [...answer.cases].sort((a, b) => given(b) - given(a))[0];
};

/** Under `stiffness`: of the load under which the panel gives most. */
export const stiffnessProperties: readonly Property<StiffnessAnswer | NotReckoned>[] = [
  {
    name: 'deflection',
    quantity: 'length',
    label: 'deflection',
    summary: 'How far it gives where it gives most, under the load that bends it most.',
    inJson: true,
    read: (answer) => {
      const worst = worstCase(answer);
      return (worst?.beaded ?? worst?.flat)?.deflection;
    },
  },
  {
    name: 'flat_deflection',
    quantity: 'length',
    label: 'deflection without beads',
    summary: 'The same for the flat panel.',
    inJson: true,
    read: (answer) => worstCase(answer)?.flat.deflection,
  },
  {
    name: 'ratio',
    quantity: 'ratio',
    label: 'stiffness ratio',
    summary: 'How many times less it gives than the same panel flat.',
    inJson: true,
    read: (answer) => worstCase(answer)?.gain,
  },
  {
    name: 'first_mode',
    quantity: 'frequency',
    label: 'first natural frequency',
    summary: 'The lowest note at which it drums, in hertz.',
    inJson: true,
    read: (answer) => {
      const worst = worstCase(answer);
      return (worst?.beaded ?? worst?.flat)?.frequency;
    },
  },
];
