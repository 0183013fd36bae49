/**
 * What the bead room reports. Coordinates are the net blank's (its lower left corner at (0, 0), x right, y up, the part's face toward the eye), that is the
 * sheet as it lies once every bead is rolled and before it is bent. `asCut` alone has coordinates of its own. mm, rad.
 */
import type { Span } from '../../grammar/syntax.js';
import type { Blank } from '../blank/types.js';
import type { BeadEnd, Direction } from '../model/part.js';
import type { Die, Roller } from '../model/shop.js';
import type { Move, Point } from '../shape/path.js';
import type { FormedBead } from './forming.js';
import type { CrossBreakWork, DimpleWork, TipWork } from './other-work.js';

/** Words for lengths in the sentences of `unworked`. */
export interface Words {
  readonly say: (mm: number) => string;
  /** A length as it would be typed into the file, rounded up or down to what is read off a rule. */
  readonly write?: (mm: number, towards: 'up' | 'down') => string;
}

/** A line that may be open: from `start` by its moves; a closed one ends where it starts. */
export interface Path {
  readonly start: Point;
  readonly moves: readonly Move[];
  readonly closed: boolean;
}

/** Always an answer. Whatever could not be worked out is left out of it and named in `unworked`. */
export interface BeadResult {
  readonly beads: readonly WorkedBead[];
  readonly dimples: readonly WorkedDimple[];
  readonly crossBreaks: readonly WorkedCrossBreak[];
  readonly tips: readonly WorkedTip[];
  readonly drawIn: DrawIn | undefined; // undefined without beads and tips
  /** The order of rolling, first row first; every row before any bend. */
  readonly schedule: readonly ScheduleRow[];
  readonly setUps: { readonly dieChanges: number; readonly turnOvers: number };
  readonly unworked: readonly Unworked[];
}

/** A bead that could not be laid out, or not as written; `message` is ready for the user. Spans relative to the part. */
export interface Unworked {
  readonly id: string;
  readonly span: Span;
  readonly kind:
    | 'no-die'
    | 'die-without-size'
    | 'no-section'
    | 'no-length'
    | 'corner-too-large'
    | 'edge-unknown'
    | 'edges-apart'
    | 'nothing-inside'
    | 'band-too-narrow'
    | 'off-the-sheet';
  readonly message: string;
}

export interface WorkedBead {
  readonly id: string;
  readonly kind: 'bead' | 'band';
  readonly direction: Direction;
  readonly die: Die;
  /** Over the feet of the bead, or of one shoulder of a band. */
  readonly width: number;
  readonly depth: number;
  /** The path as written, carried to the blank: middle of the bead or band. Several when an inset parts in two. */
  readonly middle: readonly Path[];
  /** Along the tracks, on the sheet. */
  readonly length: number;
  readonly tracks: readonly Track[];
  /** Section, strain and passes; undefined when the die says too little. */
  readonly forming: BeadForming | undefined;
  /** mm taken in square to one track: none, as reckoned, and the most it can be. For a band, of each of its two steps. */
  readonly takeIn: { readonly none: 0; readonly used: number; readonly full: number };
  /** One for each roller of the shop, the best first; empty without rollers. */
  readonly reaches: readonly Reach[];
  readonly turns: readonly TightTurn[];
  readonly spacings: readonly Spacing[];
  readonly crossings: readonly BendCrossing[];
  readonly nameSpan: Span;
  readonly pathSpan: Span;
  readonly span: Span;
}

/** One line to roll. */
export interface Track {
  /** `border`, `raised.1`, `raised.2`; unique in the part. */
  readonly id: string;
  readonly path: Path;
  /** The part of the path that lies on the sheet, mm. */
  readonly length: number;
  /** Radius of the tightest turn of the middle of the track, 0 at a sharp corner; undefined for a straight one. */
  readonly tightest: number | undefined;
  /** That turn's radius at the inner foot of the die's mark, 0 when nothing is left of it. */
  readonly tightestInside: number | undefined;
  /** Of a band: the side of this track, along its path, on which the set-off land lies. */
  readonly land: 'left' | 'right' | undefined;
  readonly start: TrackEnd | undefined; // undefined on a closed track
  readonly finish: TrackEnd | undefined;
}
export interface TrackEnd {
  readonly kind: BeadEnd;
  /** Where the bead ends, or where its middle leaves the sheet. */
  readonly at: Point;
}

/** What rolling asks of the metal, from the section that the die presses. Ratios, mm. */
export interface BeadForming {
  readonly developed: number;
  readonly width: number;
  /** (developed − width) / width: the mean strain were no sheet drawn in. */
  readonly strainFull: number;
  /** Mean strain with the share that draws in taken off. */
  readonly strain: number;
  /** Mean strain and the bending at the tightest radius of the section together. */
  readonly peak: number;
  /** Share of (developed − width) that the sheet gives, 0 … 1. */
  readonly share: number;
  readonly shareFrom: string; // "measured on the trial strip_a", "common practice, no source: …"
  /** Depths to set, mm from flat, one for each pass. */
  readonly passes: readonly number[];
  /** The section itself, judged against the metal. */
  readonly formed: FormedBead;
}

/** How far in the roller has to reach, on the flat net blank. */
export interface Reach {
  readonly roller: Roller;
  readonly throat: number;
  /** Thickest of the panel's metal that it beads, by the square root of the strengths; undefined when the shop has not said or nothing compares them. */
  readonly thickest: number | undefined;
  /** The least throat that would do. */
  readonly needed: number;
  readonly fits: boolean;
  /** How each track is rolled, and where it fits not at all the side that asks least. */
  readonly runs: readonly Run[];
  /** Where `needed` is asked: the place on the track, the side of the frame, the unit direction to the frame, and the sheet that stands in its way. */
  readonly worst: {
    readonly track: string;
    readonly at: Point;
    readonly side: 'left' | 'right';
    readonly toFrame: Point;
    readonly along: Point;
    readonly farthest: Point;
    /** The room between the dies and the frame: as wide as the frame, as long as the throat, anticlockwise from the track. */
    readonly frame: readonly [Point, Point, Point, Point];
  };
  /** Where straight beads in the direction of this one's longest straight (of the worst place, when it has none) would fit, for the picture. */
  readonly limit: ReachLimit;
  /**
   * The same on the sheet as it is cut, which has still what beads draw in and what tips take: the most that may stand in the way when this bead is rolled
   * first. Undefined where so much is left of the throat that it can't matter.
   */
  readonly beforeRolling: { readonly needed: number; readonly fits: boolean } | undefined;
  /** The change nearest to what is written that fits before rolling too; undefined where it fits already or where there is none. */
  readonly deepest: DeepestPlace | undefined;
}
/** A stretch of a track rolled with the frame on one side. Places are counted along the track's path from its start; on a closed one `to` may pass its length. */
export interface Run {
  readonly track: string;
  readonly from: number;
  readonly to: number;
  readonly fromPoint: Point;
  readonly toPoint: Point;
  readonly side: 'left' | 'right';
  readonly needed: number;
  /** What the other side would ask of the same stretch; undefined where a track is parted. */
  readonly otherNeeded: number | undefined;
}
export interface ReachLimit {
  readonly along: Point; // unit
  /** Lines that a bead in this direction may not pass, one from each side of the sheet. */
  readonly lines: readonly (readonly Point[])[];
  /** Between them, out of reach from both sides. Anticlockwise or clockwise, not closed. */
  readonly beyond: readonly (readonly Point[])[];
}
/** In the part's own coordinates and the bead's words: the value to write in place of `inset`, or what to add to every point as written. */
export type DeepestPlace =
  | { readonly kind: 'inset'; readonly value: number }
  | { readonly kind: 'shift'; readonly dx: number; readonly dy: number };

/** A turn tighter than the die goes round. */
export interface TightTurn {
  readonly track: string;
  readonly at: Point;
  /** Of the middle of the track; 0 for a sharp corner. */
  readonly radius: number;
  readonly allowed: number;
  /** Change of direction, rad. */
  readonly turn: number;
  /** It is finished by hand round a rod or dolly of this radius: the inner foot's, in plan. */
  readonly rod: number;
}

/** The nearest thing of its kind, reckoned from the middle of the track. */
export interface Spacing {
  readonly to: 'edge' | 'bend' | 'hole' | 'bead' | 'dimple';
  readonly track: string;
  /** `edge:top`, `bend:top.1`, `hole.2`, the other bead's id; undefined for an edge without a name. */
  readonly id: string | undefined;
  readonly found: number;
  readonly wanted: number;
  /** What `wanted` is made of, with the numbers' rule: "4 T + half the bead's width". */
  readonly rule: string;
  readonly source: string;
  readonly at: readonly [Point, Point]; // on the track, on the other
}
export interface BendCrossing {
  readonly track: string;
  readonly bend: string;
  readonly at: Point;
}

/** The flat sheet before rolling. The sum is a count of crossings: a line along x meets beads, each takes in its take-in times the cosine between line and bead's normal. */
export interface DrawIn {
  /** What the sheet to shear has over the net blank. */
  readonly growth: Readonly<Record<'none' | 'used' | 'full', { readonly width: number; readonly height: number }>>;
  /** The blank to cut and mark before rolling, its own lower left corner at (0, 0). Straight edges are straight: cut with what the most crossed place needs. */
  readonly asCut: Blank;
  /** From the net blank's coordinates to `asCut`'s for what no bead moves: lower left corner to lower left corner. */
  readonly shift: Point;
  /** Middles of the tracks as they have to be marked, in `asCut`'s coordinates. */
  readonly marks: readonly { readonly track: string; readonly path: Path }[];
  /** Where tipped edges turn: the inner tangent line of each tip's bend, in `asCut`'s coordinates. */
  readonly tipMarks: readonly { readonly tip: string; readonly edge: string; readonly path: Path }[];
  /** What moves, to be marked before rolling: in net coordinates and in `asCut`'s. */
  readonly moved: readonly Moved[];
  readonly bows: readonly Bow[];
}
export interface Moved {
  readonly kind: 'hole' | 'bend' | 'dimple';
  readonly id: string;
  readonly from: Point; // net
  readonly to: Point; // as cut
  /** Of a bend: how much less its nearest place moves than its farthest. Beyond a hair, mark the bend after rolling. */
  readonly uneven: number;
}
/** An edge cut straight that does not lie straight once rolled. */
export interface Bow {
  /** `edge:top`, `face:left.1`, or undefined for an edge without a name. */
  readonly edge: string | undefined;
  /** Side of the flat sheet that the edge makes up; undefined for one that lies within its extent. */
  readonly side: 'left' | 'right' | 'top' | 'bottom' | undefined;
  /** Greatest depth of what has to be trimmed. */
  readonly amount: number;
  /** The net edge: trim to it after rolling. */
  readonly trim: readonly [Point, Point];
  /** The edge as cut, in net coordinates as though nothing had moved: straight, parallel to `trim`. */
  readonly rough: readonly [Point, Point];
  /** Where the edge lies after rolling, net coordinates. */
  readonly lies: readonly Point[];
  /** Where `amount` stands: on the net edge and on the edge as it lies. */
  readonly dimension: readonly [Point, Point];
}

export interface ScheduleRow {
  readonly step: number; // from 1
  readonly bead: string;
  readonly track: string;
  readonly roller: string | undefined;
  readonly die: string;
  /** Of a step die, which way round the pair is fitted: the land next to the frame asks for turned over. */
  readonly dies: 'as fitted' | 'turned over';
  /** The crown stands up on the machine, so a `down` bead has the face below. */
  readonly lies: 'face up' | 'face down';
  /** Side of the track as drawn, looking at the face along its path, on which the frame stands. */
  readonly frame: 'left' | 'right';
  /** The end that goes in first, the frame on the right hand as the sheet runs away from the worker. */
  readonly from: 'start' | 'finish';
  readonly fromPoint: Point;
  readonly toPoint: Point;
  /** The stretch of the track, counted along its path; a parted track has several rows. */
  readonly along: readonly [number, number];
  readonly passes: readonly number[]; // depths, mm; empty when the die says too little
  readonly changesDie: boolean;
  readonly turnsOver: boolean;
}

export interface WorkedDimple {
  readonly id: string;
  readonly at: Point;
  readonly diameter: number;
  readonly direction: Direction;
  readonly spacings: readonly Spacing[];
  /** Undefined when the part does not say how deep. */
  readonly work: DimpleWork | undefined;
  readonly span: Span;
}
export interface WorkedCrossBreak {
  /** The two diagonals, shortened by the inset; none where there are no two. */
  readonly lines: readonly (readonly [Point, Point])[];
  /** Why there are no two diagonals. */
  readonly fault: 'not-four-cornered' | 'inset-too-great' | undefined;
  /** What lies on the diagonals: openings, and beads within half their width. */
  readonly meets: readonly { readonly kind: 'hole' | 'bead'; readonly id: string; readonly at: Point }[];
  readonly direction: Direction;
  readonly depth: number;
  readonly work: CrossBreakWork;
  readonly span: Span;
}
export interface WorkedTip {
  readonly id: string;
  readonly direction: Direction;
  readonly width: number;
  readonly turn: number;
  /** An edge of the outline is the finished outside of the tip: `drawIn.asCut` has its sheet beyond it, the net blank has not. */
  readonly edges: readonly TippedEdge[];
  readonly span: Span;
}
export interface TippedEdge {
  readonly edge: string;
  /** The edge's line on the finished outline, in blank coordinates. */
  readonly path: Path;
  /** Of a curved edge; undefined for a straight one. */
  readonly radius: number | undefined;
  /** A hollow (inside) curve's tip stretches, a round (outside) curve's shrinks. */
  readonly strains: 'stretch' | 'shrink' | undefined;
  /** What it takes of the sheet and asks of the metal; undefined when the bend takes up the whole tip. */
  readonly work: TipWork | undefined;
}
