/** Parts built by hand, as the language would give them. Every span is different, so that findings can be told apart. */
import type { Span } from '../../grammar/syntax.js';
import type {
  Convention,
  CornerRule,
  CornerTreatment,
  Cut,
  CutShape,
  Direction,
  EdgeChain,
  EdgeStep,
  FlangeEnds,
  FlangeStep,
  HemStep,
  OutlineEdge,
  Panel,
  Section,
  SectionEdgeStep,
  SectionStep,
  XY,
} from '../../server/model/part.js';
import type { Material, Sheet } from '../../server/model/shop.js';
import type { AllowanceMethod } from '../../server/trade/bends.js';

export const degrees = (d: number): number => (d * Math.PI) / 180;

let next = 0;
const span = (): Span => ({ start: next, end: ++next });
const somewhere = { file: 'bench.planish', span: { start: 0, end: 1 } };

export const steel: Material = {
  ...somewhere,
  name: 'mild_steel',
  density: 7850,
  yield: 210,
  tensile: 330,
  modulus: 205e3,
  elongation: 0.34,
  hardening: 0.2,
  gaugeTable: 'steel',
  tightest: [],
  coating: undefined,
};

export const sheet = (thickness: number, bendRadius: number | undefined, method: AllowanceMethod | undefined): Sheet => ({
  ...somewhere,
  name: 'crs',
  material: steel,
  thickness,
  size: undefined,
  bendRadius,
  method,
  price: undefined,
  stocked: undefined,
});
export const byK = (k: number): AllowanceMethod => ({ kind: 'k', k });

export interface FlangeSketch {
  readonly length: number;
  readonly direction?: Direction;
  readonly turn?: number; // degrees
  readonly radius?: number;
  readonly convention?: Convention;
  readonly taper?: number;
  readonly ends?: FlangeEnds;
  readonly edges?: readonly EdgeSketch[];
}
export type StepSketch =
  | FlangeSketch
  | { readonly hem: number; readonly style?: HemStep['style']; readonly direction?: Direction }
  | { readonly curl: number; readonly direction?: Direction }
  | { readonly joggle: number; readonly over: number; readonly run?: number; readonly direction?: Direction }
  | { readonly tab: number; readonly by: number; readonly at?: readonly number[] }
  | { readonly rolled: number; readonly turn: number; readonly direction?: Direction };
export interface EdgeSketch {
  readonly edge: string;
  readonly from?: number;
  readonly to?: number;
  readonly steps: readonly StepSketch[];
}

const chain = (sketch: EdgeSketch, prefix: string): EdgeChain => ({
  edge: sketch.edge,
  edgeSpan: span(),
  from: sketch.from,
  to: sketch.to,
  span: span(),
  steps: sketch.steps.map((step, i): EdgeStep => stepOf(step, `${prefix}${sketch.edge}.${i + 1}`)),
});

const stepOf = (step: StepSketch, id: string): EdgeStep => {
  if ('length' in step) return flangeStep(step, id);
  const direction = 'direction' in step ? (step.direction ?? 'up') : 'up';
  const common = { id, name: undefined, span: span() };
  if ('hem' in step)
    return {
      ...common,
      kind: 'hem',
      depth: step.hem,
      depthSpan: span(),
      style: step.style ?? { kind: 'closed' },
      styleSpan: span(),
      direction,
    };
  if ('curl' in step) return { ...common, kind: 'curl', wire: step.curl, direction };
  if ('joggle' in step) return { ...common, kind: 'joggle', depth: step.joggle, over: step.over, run: step.run, direction };
  if ('tab' in step) return { ...common, kind: 'tab', width: step.tab, length: step.by, at: step.at };
  return { ...common, kind: 'rolled', radius: step.rolled, turn: degrees(step.turn), direction };
};

const flangeStep = (step: FlangeSketch, id: string): FlangeStep => ({
  kind: 'flange',
  id,
  name: undefined,
  length: step.length,
  lengthSpan: span(),
  direction: step.direction ?? 'up',
  turn: degrees(step.turn ?? 90),
  turnSpan: span(),
  radius: step.radius,
  taper: step.taper,
  ends: step.ends,
  convention: step.convention,
  span: span(),
  edges: (step.edges ?? []).map((edge) => chain(edge, `${id}.`)),
});

export const corner = (treatment: CornerTreatment, ...edges: readonly string[]): CornerRule => ({
  edges: edges.length === 2 ? [edges[0] as string, edges[1] as string] : undefined,
  treatment,
  span: span(),
});

export const cut = (id: string, shape: CutShape, at: XY, on?: string, turned = 0): Cut => ({
  id,
  on,
  shape,
  at,
  turned,
  span: span(),
  sizeSpan: span(),
  atSpan: span(),
});
export const hole = (id: string, diameter: number, at: XY, on?: string): Cut =>
  cut(id, { kind: 'hole', diameter, thread: undefined }, at, on);

export interface PanelSketch {
  readonly sheet: Sheet;
  readonly convention?: Convention;
  readonly edges?: readonly EdgeSketch[];
  readonly corners?: readonly CornerRule[];
  readonly cuts?: readonly Cut[];
}
export interface DrawnStep {
  readonly to: XY;
  readonly name?: string;
  readonly arc?: OutlineEdge['arc'];
  readonly convention?: Convention;
}

/** What a part has besides its shape, at its plainest. */
export const common = {
  nameSpan: { start: 0, end: 1 },
  span: { start: 0, end: 2 },
  file: 'gate.planish',
  note: undefined,
  quantity: 1,
  quantityOpposite: 0,
  finish: undefined,
  grain: undefined,
  brakes: [],
  rollers: [],
  dies: [],
  trials: [],
  saws: [],
  uncomputed: [],
  findings: [],
  broken: false,
} as const;

export const drawn = (start: XY, steps: readonly DrawnStep[], sketch: PanelSketch, rectangle = false): Panel => ({
  ...common,
  kind: 'panel',
  name: 'gate',
  sheet: { value: sketch.sheet, span: span() },
  outline: {
    convention: sketch.convention ?? 'outside',
    rectangle,
    start,
    span: span(),
    edges: steps.map((step) => ({ name: step.name, to: step.to, arc: step.arc, convention: step.convention, span: span() })),
  },
  edges: (sketch.edges ?? []).map((edge) => chain(edge, '')),
  corners: sketch.corners ?? [],
  cuts: sketch.cuts ?? [],
  beads: [],
  tips: [],
  crossBreaks: [],
  dimples: [],
  loads: [],
});

export const rectangle = (width: number, height: number, sketch: PanelSketch): Panel =>
  drawn(
    { x: 0, y: 0 },
    [
      { to: { x: width, y: 0 }, name: 'bottom' },
      { to: { x: width, y: height }, name: 'right' },
      { to: { x: 0, y: height }, name: 'top' },
      { to: { x: 0, y: 0 }, name: 'left' },
    ],
    sketch,
    true,
  );

/** A polygon with edges named a, b, c … from its first corner on. */
export const polygonPanel = (points: readonly XY[], sketch: PanelSketch): Panel =>
  drawn(
    points[0] as XY,
    [...points.slice(1), points[0] as XY].map((to, i) => ({ to, name: String.fromCharCode(97 + i) })),
    sketch,
  );

export const leg = (length: number, name?: string): SectionStep => ({ kind: 'leg', length, name, span: span() });
export const turn = (direction: Direction, by = 90, radius?: number): SectionStep => ({
  kind: 'turn',
  turn: degrees(by),
  direction,
  radius,
  span: span(),
});

/** What stands at the two edges of a section, each from its leg outward. */
export interface SectionEnds {
  readonly first?: readonly StepSketch[];
  readonly last?: readonly StepSketch[];
}
const endOf = (steps: readonly StepSketch[] | undefined, prefix: string): readonly SectionEdgeStep[] =>
  (steps ?? []).flatMap((step, i) => {
    const made = stepOf(step, `${prefix}.${i + 1}`);
    return made.kind === 'flange' ? [] : [made];
  });
export const section = (
  length: number,
  of: Sheet,
  steps: readonly SectionStep[],
  cuts: readonly Cut[] = [],
  ends: SectionEnds = {},
): Section => ({
  ...common,
  kind: 'section',
  name: 'socket',
  sheet: { value: of, span: span() },
  length: { value: length, span: span() },
  convention: 'outside',
  steps,
  firstEdge: endOf(ends.first, 'first'),
  lastEdge: endOf(ends.last, 'last'),
  cuts,
});
