/**
 * Strips to try before the panel itself is spoilt: the same sheet, its dies, its tightest corner and one of its bends, each on a piece of its own, since a
 * strip tells of one thing. Pieces have their lower left corner at (0, 0); mm, rad.
 */
import type { Bead, BeadPath, EdgeChain, FlangeStep, Panel, XY } from '../model/part.js';
import type { Die, Sheet } from '../model/shop.js';
import { type BeadSection, beadSection } from '../trade/bead-sections.js';
import { bendSums } from '../trade/bends.js';
import { passesTo } from '../trade/forming.js';
import { leastFlange } from '../trade/spacing.js';

export interface CouponBox {
  readonly when: 'before' | 'after';
  readonly what: 'length' | 'width' | 'legs' | 'angle' | 'radius' | 'depth' | 'gap';
  /** What to put the rule to. */
  readonly label: string;
  /** What it should come to, least and most, where that can be said beforehand. */
  readonly expected: readonly [number, number] | undefined;
}
interface PieceBase {
  /** A name to write on it, and for its `trial`. */
  readonly name: string;
  /** Along x and y. */
  readonly width: number;
  readonly height: number;
  /** How the grain runs on the piece, as on the panel. */
  readonly grain: 'x' | 'y' | undefined;
  readonly boxes: readonly CouponBox[];
  /** Sentences: why these sizes, what to look at. */
  readonly notes: readonly string[];
}
export type CouponPiece = BeadStrip | CornerPiece | BendStrip;
/** A bead right across, along y through the middle. */
export interface BeadStrip extends PieceBase {
  readonly kind: 'bead';
  readonly die: Die;
  readonly direction: 'up' | 'down';
  readonly from: XY;
  readonly to: XY;
  readonly passes: number;
}
/** A bead round the panel's tightest corner, running off at both ends. */
export interface CornerPiece extends PieceBase {
  readonly kind: 'corner';
  readonly die: Die;
  readonly direction: 'up' | 'down';
  readonly points: readonly [XY, XY, XY];
  /** Radius of the bead's middle. */
  readonly corner: number;
  readonly passes: number;
}
/** One bend along y. */
export interface BendStrip extends PieceBase {
  readonly kind: 'bend';
  /** Middle of the bend zone and its tangent lines, x. */
  readonly middle: number;
  readonly tangents: readonly [number, number];
  readonly turn: number;
  readonly radius: number;
  readonly direction: 'up' | 'down';
}
export interface Coupon {
  readonly panel: string;
  readonly sheet: Sheet;
  readonly pieces: readonly CouponPiece[];
}

/** Steps that strips are cut to: easy to find on a rule. */
export type CutStep = 5 | 6.35;

/** Flat sheet on either side of a trial bead, and its least length. Common practice, no source: enough to hold and for the sheet to draw from. */
const BESIDE = { widths: 3, least: 40 };
const BEAD_LENGTH = { widths: 10, least: 150 };
/** Straight run on either side of a corner. Common practice, no source. */
const RUN_UP = { widths: 3, least: 30 };
/** A bend strip at least so wide that its middle bends as a long bend does, 8 T, and so long in each leg that a rule reads it. Common practice, no source. */
const BEND_WIDTH = { thicknesses: 8, least: 50 };
const LEG_LEAST = 50;

/**
 * Strips for a panel: one for each of its dies, one for its tightest corner, one for its tightest bend.
 *
 * @param step what sizes are rounded up to
 * @returns undefined without a sheet, or when nothing of the panel is worth a strip
 */
export const couponFor = (panel: Panel, step: CutStep): Coupon | undefined => {
  const sheet = panel.sheet?.value;
  if (sheet === undefined) return undefined;
  const strips = beadStrips(panel, sheet, step);
  const corner = cornerPiece(panel, sheet, step);
  const bend = bendStrip(panel, sheet, step);
  const pieces: CouponPiece[] = [...strips, ...(corner === undefined ? [] : [corner]), ...(bend === undefined ? [] : [bend])];
  return pieces.length === 0 ? undefined : { panel: panel.name, sheet, pieces };
};

const roundUp = (size: number, step: CutStep): number => Math.ceil(size / step - 1e-9) * step;
const grainOf = (panel: Panel): 'x' | 'y' | undefined => (panel.grain?.value === 'any' ? undefined : panel.grain?.value);

const sectionOf = (bead: Bead, thickness: number): BeadSection | undefined => {
  const answer = bead.die === undefined ? undefined : beadSection(bead.die.value, thickness);
  return answer?.ok === true ? answer.section : undefined;
};

const beadStrips = (panel: Panel, sheet: Sheet, step: CutStep): readonly BeadStrip[] => {
  const seen = new Set<string>();
  return panel.beads.flatMap((bead): BeadStrip[] => {
    const section = sectionOf(bead, sheet.thickness);
    const die = bead.die?.value;
    if (die === undefined || section === undefined || seen.has(die.name)) return [];
    seen.add(die.name);
    const width = roundUp(section.width + 2 * Math.max(BESIDE.widths * section.width, BESIDE.least), step);
    const height = roundUp(Math.max(BEAD_LENGTH.widths * section.width, BEAD_LENGTH.least), step);
    const full = section.developed - section.width;
    const passes = passesTo(section.depth, die.perPass, sheet.thickness);
    // The panel's grain is carried over by how it lies to the bead.
    const lies = runsAlong(panel, bead.path);
    const grain = grainOf(panel);
    return [
      {
        kind: 'bead',
        name: `${panel.name}_${die.name}`,
        width,
        height,
        grain: grain === undefined || lies === undefined ? grain : grain === lies ? 'y' : 'x',
        die,
        direction: bead.direction,
        from: { x: width / 2, y: 0 },
        to: { x: width / 2, y: height },
        passes: passes.count,
        boxes: [
          { when: 'before', what: 'length', label: 'across the bead, in the middle of its length', expected: [width, width] },
          { when: 'after', what: 'width', label: 'across the bead, at the same place', expected: [width - full, width] },
          { when: 'after', what: 'depth', label: 'from the flat to the crown', expected: [section.depth, section.depth] },
        ],
        notes: [
          'roll the bead right across, in as many passes as on the panel',
          'measure across on a flat table, the strip pressed down beside the bead: how much narrower it has become is what the bead drew in',
        ],
      },
    ];
  });
};
/** A straight bead's own way, where it has one. */
const runsAlong = ({ outline }: Panel, path: BeadPath): 'x' | 'y' | undefined => {
  const ends = ((): readonly (XY | undefined)[] => {
    switch (path.kind) {
      case 'line':
        return [path.from.value, path.to.value];
      case 'path':
        return path.points.length === 2 ? path.points.map(({ value }) => value) : [];
      case 'along': {
        const edges = outline?.edges ?? [];
        const index = edges.findIndex(({ name, arc }) => arc === undefined && name !== undefined && name === path.edges[0]?.value);
        return path.edges.length === 1 && index >= 0 ? [index === 0 ? outline?.start : edges[index - 1]?.to, edges[index]?.to] : [];
      }
      default:
        return [];
    }
  })();
  const [from, to] = ends;
  if (from === undefined || to === undefined) return undefined;
  const [dx, dy] = [Math.abs(to.x - from.x), Math.abs(to.y - from.y)];
  return dx > dy ? 'x' : dy > dx ? 'y' : undefined;
};

/** Radius of a bead's corners or ring; where it has corners and says nothing of them, they turn as tightly as the die goes. */
const cornerOf = ({ path, die }: Bead): number | undefined => {
  const usual = die?.value.tightestTurn;
  switch (path.kind) {
    case 'rectangle':
      return path.corner?.value ?? usual;
    case 'path':
      return path.points.length > 2 ? (path.corner?.value ?? usual) : undefined;
    case 'along':
      return path.edges.length > 1 ? (path.corner?.value ?? usual) : undefined;
    case 'circle':
      return path.radius.value;
    case 'line':
    case 'arc':
      return undefined;
  }
};
const cornerPiece = (panel: Panel, sheet: Sheet, step: CutStep): CornerPiece | undefined => {
  let tightest: { readonly bead: Bead; readonly corner: number } | undefined;
  for (const bead of panel.beads) {
    const corner = cornerOf(bead);
    if (corner !== undefined && corner > 0 && (tightest === undefined || corner < tightest.corner)) tightest = { bead, corner };
  }
  const section = tightest === undefined ? undefined : sectionOf(tightest.bead, sheet.thickness);
  const die = tightest?.bead.die?.value;
  if (tightest === undefined || section === undefined || die === undefined) return undefined;
  const { bead, corner } = tightest;
  // The rule for a bead beside an edge, and something to hold.
  const beside = Math.max(4 * sheet.thickness + section.width / 2, section.width / 2 + BESIDE.least / 2);
  const size = roundUp(beside + corner + Math.max(RUN_UP.widths * section.width, RUN_UP.least), step);
  return {
    kind: 'corner',
    name: `${panel.name}_corner`,
    width: size,
    height: size,
    grain: grainOf(panel),
    die,
    direction: bead.direction,
    points: [
      { x: size, y: beside },
      { x: beside, y: beside },
      { x: beside, y: size },
    ],
    corner,
    passes: passesTo(section.depth, die.perPass, sheet.thickness).count,
    boxes: [
      { when: 'after', what: 'radius', label: 'radius of the bead’s middle, from a template', expected: [corner, corner] },
      { when: 'after', what: 'depth', label: 'depth in the middle of the corner', expected: [section.depth, section.depth] },
      { when: 'after', what: 'gap', label: 'greatest gap under the piece on a flat table', expected: undefined },
    ],
    notes: [
      'steer it as on the panel; where the sheet will not follow, stop and finish the corner by hand over a rod',
      'look for puckers inside the corner and for cracks on the crown',
    ],
  };
};

interface FoundBend {
  readonly flange: FlangeStep;
  readonly radius: number;
  /** How the bend line runs. */
  readonly line: 'x' | 'y' | undefined;
}
const bendsOf = (chains: readonly EdgeChain[], sheet: Sheet, line: FoundBend['line']): readonly FoundBend[] =>
  chains.flatMap((chain) => {
    const own =
      line ?? (chain.edge === 'top' || chain.edge === 'bottom' ? 'x' : chain.edge === 'left' || chain.edge === 'right' ? 'y' : undefined);
    return chain.steps.flatMap((one): readonly FoundBend[] => {
      const radius = one.kind === 'flange' ? (one.radius ?? sheet.bendRadius) : undefined;
      return one.kind !== 'flange' || radius === undefined
        ? []
        : [{ flange: one, radius, line: own }, ...bendsOf(one.edges, sheet, undefined)];
    });
  });

const bendStrip = (panel: Panel, sheet: Sheet, step: CutStep): BendStrip | undefined => {
  // The tightest, and of those the one turned furthest: the hardest on the metal and on the sums.
  const bends = [...bendsOf(panel.edges, sheet, undefined)].sort((a, b) => a.radius - b.radius || b.flange.turn - a.flange.turn);
  const bend = bends[0];
  if (bend === undefined) return undefined;
  const { flange, radius } = bend;
  const { thickness } = sheet;
  const sums =
    bendSums(sheet.method ?? { kind: 'din' }, flange.turn, radius, thickness) ?? bendSums({ kind: 'din' }, flange.turn, radius, thickness);
  if (sums === undefined) return undefined;
  const grip = Math.max(leastFlange(thickness).distance, ...panel.brakes.map((brake) => brake.leastFlange ?? 0));
  const leg = Math.max(LEG_LEAST, 2 * grip, 2 * sums.setback);
  const width = roundUp(2 * leg - sums.deduction, step);
  const height = roundUp(Math.max(BEND_WIDTH.thicknesses * thickness, BEND_WIDTH.least), step);
  const expected = (width + sums.deduction) / 2;
  const grain = grainOf(panel);
  return {
    kind: 'bend',
    name: `${panel.name}_bend`,
    width,
    height,
    grain: grain === undefined || bend.line === undefined ? undefined : grain === bend.line ? 'y' : 'x',
    middle: width / 2,
    tangents: [width / 2 - sums.allowance / 2, width / 2 + sums.allowance / 2],
    turn: flange.turn,
    radius,
    direction: flange.direction,
    boxes: [
      { when: 'before', what: 'length', label: 'across the bend', expected: [width, width] },
      { when: 'after', what: 'legs', label: 'both legs, from the outside', expected: [expected, expected] },
      { when: 'after', what: 'angle', label: 'angle left, from flat', expected: [flange.turn, flange.turn] },
      { when: 'after', what: 'radius', label: 'inside radius, from a template', expected: [radius, radius] },
    ],
    notes: [
      `expected by the sheet’s present method (${sums.method}); what the legs really come to puts it right`,
      'note what the brake was set to and what angle was left: the difference is what the sheet springs back',
    ],
  };
};
