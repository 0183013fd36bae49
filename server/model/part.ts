/**
 * A part as written, with every value worked out: what the rooms that compute read. Lengths mm, angles rad. Immutable.
 * Every `span` is counted from the start of the part's own statement, so that text moving above a part changes nothing in it.
 */
import type { Span } from '../../grammar/syntax.js';
import type { HemStyle } from '../trade/edges.js';
import type { Finding } from './finding.js';
import type { Brake, Die, Roller, Saw, Sheet, Stock, Trial } from './shop.js';

export interface Sourced<T> {
  readonly value: T;
  readonly span: Span;
}
export interface XY {
  readonly x: number;
  readonly y: number;
}

export type Convention = 'outside' | 'inside' | 'flat';
export type Direction = 'up' | 'down';

export type Part = Panel | Section | Piece | Strap | OtherPart;

interface PartBase {
  readonly name: string;
  readonly nameSpan: Span;
  readonly span: Span;
  readonly file: string;
  readonly note: string | undefined;
  readonly quantity: number;
  readonly quantityOpposite: number;
  readonly finish: string | undefined;
  readonly grain: Sourced<'x' | 'y' | 'any'> | undefined;
  /** Which side of the finished part is described; `either` lets the blank be turned over. */
  readonly face?: 'outside' | 'inside' | 'either';
  /** The shop the part's file sees: its own statements and those of the files it brings. */
  readonly brakes: readonly Brake[];
  readonly rollers: readonly Roller[];
  readonly dies: readonly Die[];
  /** Test strips in sight; those that name the part's sheet bear on it. */
  readonly trials: readonly Trial[];
  readonly saws: readonly Saw[];
  /** Statements read but not computed yet: word and where. */
  readonly uncomputed: readonly { readonly word: string; readonly span: Span }[];
  /** Findings of evaluation inside the part (spans relative to the part). */
  readonly findings: readonly Finding[];
  /** True when the geometry depends on something broken: nothing is laid out, the last good picture stays. */
  readonly broken: boolean;
}

export interface Panel extends PartBase {
  readonly kind: 'panel';
  readonly sheet: Sourced<Sheet> | undefined;
  readonly outline: Outline | undefined;
  readonly edges: readonly EdgeChain[];
  readonly corners: readonly CornerRule[];
  readonly cuts: readonly Cut[];
  readonly beads: readonly Bead[];
  readonly tips: readonly Tip[];
  readonly crossBreaks: readonly CrossBreak[];
  readonly dimples: readonly Dimple[];
  readonly loads: readonly Load[];
}
/** A brake-formed strip of constant section: legs and turns in order across it. */
export interface Section extends PartBase {
  readonly kind: 'section';
  readonly sheet: Sourced<Sheet> | undefined;
  readonly length: Sourced<number> | undefined;
  readonly convention: Convention;
  readonly steps: readonly SectionStep[];
  /** What is done to the free edge of the first leg and of the last, each from its leg outward. */
  readonly firstEdge: readonly SectionEdgeStep[];
  readonly lastEdge: readonly SectionEdgeStep[];
  readonly cuts: readonly Cut[];
}
/** A length of tube, bar, rod or angle. x runs along it from its start. */
export interface Piece extends PartBase {
  readonly kind: 'piece';
  readonly stock: Sourced<Stock> | undefined;
  /** Over the long points of its ends; of a bent piece, along its middle before bending. */
  readonly length: Sourced<number> | undefined;
  readonly startEnd: PieceEnd;
  readonly finishEnd: PieceEnd;
  readonly bends: readonly PieceBend[];
  readonly cuts: readonly Cut[];
}
/** How an end is cut. Angles rad: of a mitre from square, of a cope between the two tubes; `turned` about the piece's own axis. */
export type PieceEnd =
  | { readonly kind: 'square' }
  | { readonly kind: 'mitre'; readonly angle: number; readonly turned: number; readonly span: Span }
  | { readonly kind: 'cope'; readonly onto: Stock | undefined; readonly angle: number; readonly turned: number; readonly span: Span };
export interface PieceBend {
  /** Start of the bend along the straight stock, mm. */
  readonly at: number;
  readonly turn: number;
  /** To the middle of the stock, mm. */
  readonly radius: number;
  readonly turned: number;
  readonly span: Span;
}
/** Flat bar wrapped round a pin. */
export interface Strap extends PartBase {
  readonly kind: 'strap';
  readonly stock: Sourced<Stock> | undefined;
  readonly pin: number | undefined;
  readonly clear: number;
  /** Angle of touch, rad. */
  readonly wrap: number | undefined;
  readonly tails: readonly number[];
  /** Where pin, wrap and tails are written. */
  readonly spans?: { readonly round?: Span; readonly wrap?: Span; readonly tail?: Span };
  readonly cuts: readonly Cut[];
}
/** A part whose computation comes later (survey, assembly). */
export interface OtherPart extends PartBase {
  readonly kind: 'survey' | 'assembly';
}

export type SectionStep =
  | { readonly kind: 'leg'; readonly length: number; readonly lengthSpan?: Span; readonly name: string | undefined; readonly span: Span }
  | {
      readonly kind: 'turn';
      readonly turn: number;
      readonly direction: Direction;
      readonly radius: number | undefined;
      readonly span: Span;
    };

/**
 * The finished outline in the part's coordinates, the first edge starting at `start`. A rectangle runs anticlockwise; a drawn outline runs as it was drawn,
 * since distances along an edge count from where its step began.
 */
export interface Outline {
  readonly convention: Convention;
  readonly rectangle: boolean;
  readonly start: XY;
  readonly edges: readonly OutlineEdge[];
  readonly span: Span;
}
export interface OutlineEdge {
  /** `top bottom left right` on rectangles, what `as` gave on drawn ones. */
  readonly name: string | undefined;
  readonly to: XY;
  readonly arc: { readonly centre: XY; readonly turn: 'left' | 'right' } | undefined;
  /** Overrides the outline's convention for this edge. */
  readonly convention: Convention | undefined;
  readonly span: Span;
}

/** One chain of steps on one edge, from the base outward (a block naming three edges is three chains with the same spans). */
export interface EdgeChain {
  readonly edge: string;
  readonly edgeSpan: Span;
  /** A stretch of the edge, from its start (x for top/bottom, y for left/right); undefined is the whole. */
  readonly from: number | undefined;
  readonly to: number | undefined;
  readonly steps: readonly EdgeStep[];
  readonly span: Span;
}
/** A section is flanged by its turns and legs; at its free edges stands anything else. */
export type SectionEdgeStep = HemStep | CurlStep | JoggleStep | TabStep | RolledStep;
export type EdgeStep = FlangeStep | SectionEdgeStep;
export interface FlangeStep {
  readonly kind: 'flange';
  /** Unique in the part: `top.1`, `top.2`, or what `as` gave. */
  readonly id: string;
  readonly name: string | undefined;
  readonly length: number;
  readonly lengthSpan: Span;
  readonly direction: Direction;
  /** Turned from flat, rad, 0 < turn < π. */
  readonly turn: number;
  readonly turnSpan: Span;
  readonly radius: number | undefined;
  readonly radiusSpan?: Span;
  /** Length at the far end along the edge (where places along it are greatest), when the flange tapers. */
  readonly taper?: number;
  readonly ends?: FlangeEnds;
  readonly convention: Convention | undefined;
  readonly span: Span;
  /** `edge` blocks nested in the flange's braces (left, right, bottom, top, start, finish, free). */
  readonly edges: readonly EdgeChain[];
}
/** How both ends of a flange are cut: square (as the corner asks), at an angle away from square (rad), or set back. */
export type FlangeEnds =
  | { readonly kind: 'square' }
  | { readonly kind: 'mitred'; readonly angle: number }
  | { readonly kind: 'back'; readonly distance: number };
interface StepBase {
  /** Unique in the part, as a flange's. */
  readonly id: string;
  readonly name: string | undefined;
  readonly span: Span;
}
/** The edge folded back on itself. `depth` runs from the outermost of the fold to the cut edge. */
export interface HemStep extends StepBase {
  readonly kind: 'hem';
  readonly depth: number;
  readonly depthSpan: Span;
  readonly style: HemStyle;
  readonly styleSpan: Span;
  readonly direction: Direction;
}
/** The edge rolled round a wire of this diameter until the cut edge touches the sheet. */
export interface CurlStep extends StepBase {
  readonly kind: 'curl';
  readonly wire: number;
  readonly wireSpan?: Span;
  readonly direction: Direction;
}
/**
 * The edge set off by `depth`: two equal opposite bends. `over` runs from where the sheet leaves its plane to the end of the set-off land (cut edge or
 * the outside of what comes next), `run` is the length the slope takes along the sheet; undefined is as steep as 45° allows.
 */
export interface JoggleStep extends StepBase {
  readonly kind: 'joggle';
  readonly depth: number;
  readonly over: number;
  readonly run: number | undefined;
  readonly direction: Direction;
}
/** Tabs standing out of the cut edge; places are centres along the edge, the middle when none is given. */
export interface TabStep extends StepBase {
  readonly kind: 'tab';
  readonly width: number;
  readonly length: number;
  readonly at: readonly number[] | undefined;
}
/** The edge rolled to a large inside radius through `turn`, rad, 0 < turn < 2π. */
export interface RolledStep extends StepBase {
  readonly kind: 'rolled';
  readonly radius: number;
  readonly turn: number;
  readonly direction: Direction;
}

export interface CornerRule {
  /** The two edges, or undefined for `corner all`. */
  readonly edges: readonly [string, string] | undefined;
  readonly treatment: CornerTreatment;
  readonly span: Span;
}
export type CornerTreatment =
  | { readonly kind: 'open'; readonly relief: Relief | undefined }
  | { readonly kind: 'radius'; readonly radius: number }
  | { readonly kind: 'chamfer'; readonly size: number }
  | { readonly kind: 'notch'; readonly width: number; readonly depth: number }
  /** Both flanges run on to the plane that halves the corner, less half the gap each. */
  | { readonly kind: 'mitred'; readonly gap: number; readonly relief: Relief | undefined }
  /** `over` goes on past the corner and lies on the outside of `under` by this much; one flange stops where the other's sheet begins when `by` is 0 (butt). */
  | { readonly kind: 'lap'; readonly over: string; readonly under: string; readonly by: number; readonly relief: Relief | undefined }
  | { readonly kind: 'butt'; readonly over: string; readonly under: string; readonly relief: Relief | undefined };
export type Relief =
  | { readonly kind: 'round'; readonly diameter: number }
  | { readonly kind: 'square'; readonly side: number }
  | { readonly kind: 'none' };

/** One hole, slot or cut-out; patterns and repeats are already multiplied out. */
export interface Cut {
  /** Unique in the part: `hole.1`, or the feature's name with its number. */
  readonly id: string;
  /** Step id of the flange it lies on; undefined for the base. For a section, the leg (`leg.2`). */
  readonly on: string | undefined;
  readonly shape: CutShape;
  /** Centre, in finished coordinates of the base or of the flange. */
  readonly at: XY;
  /** Turned anticlockwise about its centre, rad. */
  readonly turned: number;
  /** Cut also where its axis, square to its own face, goes through this face of the folded part: `base` or a step's id. */
  readonly through?: string;
  /** Set on a hole whose rim is pressed after cutting; the same as its row in `Panel.dimples`. */
  readonly dimple?: { readonly depth: number | undefined; readonly direction: Direction };
  readonly span: Span;
  readonly sizeSpan: Span;
  readonly atSpan: Span;
}
export type CutShape =
  | { readonly kind: 'hole'; readonly diameter: number; readonly thread: string | undefined }
  | { readonly kind: 'slot'; readonly width: number; readonly length: number }
  | { readonly kind: 'rectangle'; readonly width: number; readonly height: number; readonly corner: number }
  /** A drawn cut-out, about its own centre; moves from `start`, closed. */
  | { readonly kind: 'drawn'; readonly start: XY; readonly edges: readonly OutlineEdge[] };

/** A bead or a band along a path, in finished coordinates of the base. Repeats and mirrors are already multiplied out. */
export interface Bead {
  readonly kind: 'bead' | 'band';
  /** Unique in the part: `border`, `rib.1`, `rib.2`, `rib.opposite`. */
  readonly id: string;
  readonly die: Sourced<Die> | undefined;
  readonly direction: Direction;
  readonly path: BeadPath;
  readonly start: BeadEnd;
  readonly finish: BeadEnd;
  /** Of a band: between the outer feet of its two shoulders. */
  readonly width: number | undefined;
  /** From the path as written to where this copy lies: first mirrored (x → −x when true), then moved. The identity for what is written once. */
  readonly copy: { readonly mirrorX: boolean; readonly mirrorY: boolean; readonly shift: XY };
  readonly nameSpan: Span;
  readonly pathSpan: Span;
  readonly span: Span;
}
export type BeadEnd = 'closed' | 'open' | 'run off';
/** A number of a bead's path. `plain` where it is written as one number, which a fix may change; what is worked out is left to the person. */
export interface WrittenNumber extends Sourced<number> {
  readonly plain?: boolean;
}
/** A point of a bead's path, with the places of its two numbers where they are written as plain numbers. */
export interface WrittenPoint extends Sourced<XY> {
  readonly plain?: { readonly x: Span | undefined; readonly y: Span | undefined };
}
/** Numbers carry the span they were written at, so that a fix can change them; a number that was worked out has the span of its expression. */
export type BeadPath =
  | { readonly kind: 'line'; readonly from: WrittenPoint; readonly to: WrittenPoint }
  | { readonly kind: 'rectangle'; readonly inset: WrittenNumber; readonly corner: WrittenNumber | undefined }
  | { readonly kind: 'path'; readonly points: readonly WrittenPoint[]; readonly corner: WrittenNumber | undefined }
  | {
      readonly kind: 'along';
      readonly edges: readonly Sourced<string>[];
      readonly inset: WrittenNumber;
      readonly corner: WrittenNumber | undefined;
    }
  | { readonly kind: 'arc'; readonly from: WrittenPoint; readonly through: WrittenPoint; readonly to: WrittenPoint }
  | { readonly kind: 'circle'; readonly centre: WrittenPoint; readonly radius: WrittenNumber };
/** A narrow edge turned up on the roller. */
export interface Tip {
  readonly id: string;
  readonly edges: readonly Sourced<string>[];
  readonly width: Sourced<number>;
  readonly direction: Direction;
  readonly turn: number;
  readonly die: Sourced<Die> | undefined;
  readonly span: Span;
}
export interface CrossBreak {
  readonly direction: Direction;
  readonly depth: number;
  readonly inset: number;
  readonly span: Span;
}
/** A hole with a pressed rim; patterns and repeats are multiplied out. */
export interface Dimple {
  readonly id: string;
  readonly on: string | undefined;
  readonly diameter: number;
  readonly depth: number | undefined;
  readonly direction: Direction;
  readonly at: XY;
  readonly span: Span;
}
/** What the panel carries, for its stiffness. MPa, N, mm. */
export interface Load {
  readonly load:
    | { readonly kind: 'spread'; readonly pressure: number }
    | { readonly kind: 'patch'; readonly force: number; readonly at: XY; readonly width: number; readonly height: number };
  readonly held: 'all' | readonly Sourced<string>[];
  readonly fixing: 'simply' | 'clamped';
  readonly span: Span;
}
