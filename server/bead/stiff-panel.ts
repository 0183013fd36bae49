/** From a panel as written to what its stiffness is reckoned from. */
import type { Span } from '../../grammar/syntax.js';
import type { Bead, Load, Panel } from '../model/part.js';
import type { Point } from '../shape/path.js';
import { bandMidline, beadSection } from '../trade/bead-sections.js';
import type { EdgeHold, PlateEdges, PlateLoad } from '../trade/plates.js';
import { type StiffnessAnswer, type StiffnessCase, type StiffPanel, type StraightBead, stiffnessOf } from './stiffness.js';
import type { Words } from './types.js';
import { writtenPaths } from './written.js';

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
    const counted = straightOf(panel, bead, thickness, { left, bottom, width, height });
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

interface PanelBox {
  readonly left: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
}

const straightOf = (panel: Panel, bead: Bead, thickness: number, box: PanelBox): StraightBead | undefined => {
  if (bead.die === undefined) return undefined;
  const answer = beadSection(bead.die.value, thickness);
  if (!answer.ok) return undefined;
  const { section } = answer;
  const midline = bead.kind === 'band' ? bandMidline(section, bead.width ?? 0) : section.shape === 'step' ? undefined : section.midline;
  // A single step sets one side of the sheet off; it is no rib.
  if (midline === undefined) return undefined;
  const ends = straightEnds(panel, bead);
  if (ends === undefined) return undefined;
  const [from, to] = ends.map(({ x, y }): Point => ({ x: x - box.left, y: y - box.bottom })) as [Point, Point];
  const [dx, dy] = [Math.abs(to.x - from.x), Math.abs(to.y - from.y)];
  const along = dy <= SLANT * dx ? 'x' : dx <= SLANT * dy ? 'y' : undefined;
  if (along === undefined || dx + dy === 0) return undefined;
  const size = { width: bead.kind === 'band' ? (bead.width ?? 0) : section.width, depth: section.depth };
  const at = along === 'x' ? (from.y + to.y) / 2 : (from.x + to.x) / 2;
  const run = runOf(bead, from[along], to[along], along === 'x' ? box.width : box.height);
  return { id: bead.id, along, direction: bead.direction, midline, ...size, at, ...run };
};

/** Both ends of a bead that is one straight line, however it is written. */
const straightEnds = (panel: Panel, bead: Bead): readonly [Point, Point] | undefined => {
  const [path, another] = writtenPaths(panel, bead, UNSAID).paths;
  const [move, bent] = path?.moves ?? [];
  if (path === undefined || another !== undefined || path.closed || move?.kind !== 'line' || bent !== undefined) return undefined;
  return [path.start, move.to];
};
/** What can't be laid out is said where the beads are. */
const UNSAID: Words = { say: String };

/** From where to where it runs: to the panel's edge where it runs off, never past it. */
const runOf = ({ start, finish }: Bead, from: number, to: number, whole: number): Pick<StraightBead, 'from' | 'to'> => {
  const onward = to >= from;
  const [low, high] = onward ? [start, finish] : [finish, start];
  return { from: low === 'run off' ? 0 : Math.min(from, to), to: high === 'run off' ? whole : Math.max(from, to) };
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
