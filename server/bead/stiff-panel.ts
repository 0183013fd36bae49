/** From a panel as written to what its stiffness is reckoned from. */
import type { Span } from '../../grammar/syntax.js';
import type { Bead, Load, Panel } from '../model/part.js';
import { bandMidline, beadSection } from '../trade/bead-sections.js';
import type { EdgeHold, PlateEdges, PlateLoad } from '../trade/plates.js';
import { type StiffnessAnswer, type StiffnessCase, type StiffPanel, type StraightBead, stiffnessOf } from './stiffness.js';
import type { Words } from './types.js';

/** Why a panel's stiffness isn't computed; `span` relative to the part. */
export interface NotReckoned {
  readonly span: Span;
  readonly message: string;
}

/** Poisson's ratio where the metal doesn't say: steel's; aluminium's 0.33 changes a plate's stiffness by 2 %. */
const POISSON = 0.3;
/** Lines this far out of x or y, as a share of their length, still count as along it: a degree. */
const SLANT = Math.tan(Math.PI / 180);

/** @returns undefined for a panel without loads: nothing is asked */
export const stiffPanelOf = (panel: Panel): StiffPanel | NotReckoned | undefined => {
  const first = panel.loads[0];
  if (first === undefined) return undefined;
  const { outline, sheet } = panel;
  if (outline === undefined || sheet === undefined)
    return { span: first.span, message: 'the load is not computed until the panel has a sheet and an outline' };
  if (!outline.rectangle)
    return { span: first.span, message: 'deflection under a load is computed for rectangular panels only; this outline is not one' };
  const { material, thickness } = sheet.value;
  const modulus = material?.modulus;
  if (modulus === undefined)
    return {
      span: first.span,
      message: `the load needs the stiffness of ${sheet.value.name}'s metal: write \`modulus\` in its \`material\``,
    };
  const xs = [outline.start.x, ...outline.edges.map((edge) => edge.to.x)];
  const ys = [outline.start.y, ...outline.edges.map((edge) => edge.to.y)];
  const [left, bottom] = [Math.min(...xs), Math.min(...ys)];
  const [width, height] = [Math.max(...xs) - left, Math.max(...ys) - bottom];
  const straight: StraightBead[] = [];
  const uncounted: string[] = [];
  for (const bead of panel.beads) {
    const counted = straightOf(bead, thickness, left, bottom);
    if (counted === undefined) uncounted.push(bead.id);
    else straight.push(counted);
  }
  const cases: StiffnessCase[] = [];
  for (const load of panel.loads) {
    const one = caseOf(load, left, bottom);
    if ('message' in one) return one;
    cases.push(one);
  }
  return { width, height, thickness, modulus, poisson: POISSON, density: material?.density, beads: straight, uncounted, cases };
};

const straightOf = (bead: Bead, thickness: number, left: number, bottom: number): StraightBead | undefined => {
  if (bead.path.kind !== 'line' || bead.die === undefined) return undefined;
  const answer = beadSection(bead.die.value, thickness);
  if (!answer.ok) return undefined;
  const { section } = answer;
  const midline = bead.kind === 'band' ? bandMidline(section, bead.width ?? 0) : section.shape === 'step' ? undefined : section.midline;
  // A single step sets one side of the sheet off; it is no rib.
  if (midline === undefined) return undefined;
  const { copy } = bead;
  const placed = ({ x, y }: { readonly x: number; readonly y: number }): { readonly x: number; readonly y: number } => ({
    x: (copy.mirrorX ? -x : x) + copy.shift.x - left,
    y: (copy.mirrorY ? -y : y) + copy.shift.y - bottom,
  });
  const [from, to] = [placed(bead.path.from.value), placed(bead.path.to.value)];
  const [dx, dy] = [Math.abs(to.x - from.x), Math.abs(to.y - from.y)];
  const along = dy <= SLANT * dx ? 'x' : dx <= SLANT * dy ? 'y' : undefined;
  if (along === undefined || dx + dy === 0) return undefined;
  const size = { width: bead.kind === 'band' ? (bead.width ?? 0) : section.width, depth: section.depth };
  const common = { id: bead.id, along, direction: bead.direction, midline, ...size } as const;
  return along === 'x'
    ? { ...common, at: (from.y + to.y) / 2, from: Math.min(from.x, to.x), to: Math.max(from.x, to.x) }
    : { ...common, at: (from.x + to.x) / 2, from: Math.min(from.y, to.y), to: Math.max(from.y, to.y) };
};

const SIDES = ['left', 'right', 'bottom', 'top'] as const;
const caseOf = (load: Load, left: number, bottom: number): StiffnessCase | NotReckoned => {
  const edges: Record<(typeof SIDES)[number], EdgeHold> = { left: 'free', right: 'free', bottom: 'free', top: 'free' };
  if (load.held === 'all') for (const side of SIDES) edges[side] = load.fixing;
  else
    for (const { value, span } of load.held) {
      const side = SIDES.find((candidate) => candidate === value);
      if (side === undefined) return { span, message: `a panel is held along left, right, bottom or top; \`${value}\` is none of them` };
      edges[side] = load.fixing;
    }
  const held = SIDES.filter((side) => edges[side] !== 'free').length;
  if (held === 0 || (held === 1 && load.fixing === 'simply'))
    return {
      span: load.span,
      message: `a panel held ${held === 0 ? 'nowhere' : 'simply along one edge only'} swings free: name two edges or more, or write \`clamped\``,
    };
  return { load: plateLoad(load.load, left, bottom), edges: edges satisfies PlateEdges };
};
const plateLoad = (load: Load['load'], left: number, bottom: number): PlateLoad =>
  load.kind === 'spread'
    ? load
    : { kind: 'patch', force: load.force, x: load.at.x - left, y: load.at.y - bottom, width: load.width, height: load.height };

/** A panel's stiffness under its loads, case by case in their order; why not, where it can't be reckoned; undefined where nothing is asked. */
export const panelStiffness = (panel: Panel, words: Words): StiffnessAnswer | NotReckoned | undefined => {
  const given = stiffPanelOf(panel);
  return given === undefined || 'message' in given ? given : stiffnessOf(given, words);
};
