/** What a blank reports. Coordinates: the blank's own datum, its lower left corner at (0, 0), x right, y up, the part's face toward the eye. mm, rad. */
import type { Span } from '../../grammar/syntax.js';
import type { Finding } from '../model/finding.js';
import type { Direction } from '../model/part.js';
import type { Circle, Loop, Placement, Point } from '../shape/path.js';

export interface Blank {
  readonly outline: Loop;
  readonly cutouts: readonly BlankCut[];
  readonly bends: readonly BendLine[];
  /** Base first. Each face and zone with its flat polygon; the fold hangs on this tree. */
  readonly faces: readonly Face[];
  readonly width: number;
  readonly height: number;
  readonly area: number; // mm², net of holes
  readonly mass: number | undefined; // kg; undefined without a density
  readonly cutLength: number; // outline and holes, mm
  readonly pierces: number; // closed loops to start
  readonly thickness: number;
  /** From the part's own coordinates to the blank's: p − datum. */
  readonly datum: Point;
  readonly reliefs: readonly ReliefNote[];
}
export interface BlankCut {
  /** As in the part; `ID.through` where the same hole goes on through another face. */
  readonly id: string;
  readonly loop: Loop; // clockwise
  readonly circle: Circle | undefined; // when it is a round hole
  readonly face: string;
  readonly centre: Point;
  readonly span: Span;
}
export interface BendLine {
  /** `top.1`; the feature id in pictures is `bend:top.1`. A joggle has two, `left.1.near` and `left.1.far`. */
  readonly id: string;
  /** How it is made: a turn of the brake, a hem mashed or left open, a curl round a wire, one of a joggle's two, a roll to a large radius. */
  readonly make: 'turn' | 'hem' | 'curl' | 'joggle' | 'roll';
  /** Id of the written step it comes from. */
  readonly step: string;
  readonly direction: Direction;
  readonly turn: number;
  readonly radius: number; // inside
  readonly allowance: number;
  /** "K 0.42", "DIN 6935, k 0.69", for hover and tables; with its source. */
  readonly method: string;
  readonly source: string;
  readonly k: number; // neutral axis as a share of thickness that the allowance amounts to
  readonly setback: number; // outside setback used
  readonly deduction: number;
  /**
   * Middle of the bend zone; the two tangent lines lie half an allowance to each side. From → to runs with the zone's parent on its left. At a mitre, or beside
   * a slanted edge, the lines across a zone are not equally long.
   */
  readonly from: Point;
  readonly to: Point;
  readonly tangentParent: readonly [Point, Point];
  readonly tangentChild: readonly [Point, Point];
  /** Where the mark goes for the nose when the parent's side is clamped: one inside radius from that tangent line. Common practice (sight line). */
  readonly brakeLine: readonly [Point, Point];
  readonly parent: string; // face ids
  /** The face beyond it. Where nothing flat follows (a curl, a rolled edge) no face of this id is among `faces`, but bends beyond may name it as parent. */
  readonly child: string;
  /** The sheet that the bend uses up, flat, anticlockwise, before reliefs: straight lines, its two ends square, slanted or with a knee. */
  readonly zone: Loop;
  readonly span: Span;
}
export interface Face {
  /** `base`, or the step's id (`top.1`); a section's legs are `leg.1` … */
  readonly id: string;
  readonly polygon: Loop; // flat, anticlockwise, blank coordinates, before reliefs and holes
  /** From the face's own finished coordinates (x along the edge, y from the outside of its parent) to the blank's. */
  readonly place: Placement;
  readonly bend: string | undefined; // the bend that hangs it on its parent
  readonly zone: Loop | undefined; // that bend's zone
  readonly span: Span;
}
export interface ReliefNote {
  readonly id: string;
  readonly at: Point;
  readonly size: number;
  readonly kind: 'round' | 'square';
  readonly automatic: boolean;
  readonly reason: string; // for hover
  readonly span: Span;
}
/** Always an answer: with findings, and a blank when one could be laid out. */
export interface BlankResult {
  readonly blank: Blank | undefined;
  readonly findings: readonly Finding[]; // spans relative to the part
}
