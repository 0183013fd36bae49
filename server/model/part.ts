/**
 * A part as written, with every value worked out: what the rooms that compute read. Lengths mm, angles rad. Immutable.
 * Every `span` is counted from the start of the part's own statement, so that text moving above a part changes nothing in it.
 */
import type { Span } from '../../grammar/syntax.js';
import type { Finding } from './finding.js';
import type { Brake, Die, Roller, Sheet } from './shop.js';

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

export type Part = Panel | Section | OtherPart;

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
  /** The shop the part's file sees: its own statements and those of the files it brings. */
  readonly brakes: readonly Brake[];
  readonly rollers: readonly Roller[];
  readonly dies: readonly Die[];
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
}
/** A brake-formed strip of constant section: legs and turns in order across it. */
export interface Section extends PartBase {
  readonly kind: 'section';
  readonly sheet: Sourced<Sheet> | undefined;
  readonly length: Sourced<number> | undefined;
  readonly convention: Convention;
  readonly steps: readonly SectionStep[];
  readonly cuts: readonly Cut[];
}
/** A part whose computation comes later (piece, strap, survey, assembly). */
export interface OtherPart extends PartBase {
  readonly kind: 'piece' | 'strap' | 'survey' | 'assembly';
}

export type SectionStep =
  | { readonly kind: 'leg'; readonly length: number; readonly name: string | undefined; readonly span: Span }
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
export type EdgeStep = FlangeStep | LaterStep;
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
  readonly convention: Convention | undefined;
  readonly span: Span;
  /** `edge` blocks nested in the flange's braces (left, right, bottom, top, start, finish, free). */
  readonly edges: readonly EdgeChain[];
}
/** hem, curl, joggle, tab, rolled: read and kept, computed later. */
export interface LaterStep {
  readonly kind: 'hem' | 'curl' | 'joggle' | 'tab' | 'rolled';
  readonly id: string;
  readonly span: Span;
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
  | { readonly kind: 'later'; readonly word: string };
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
