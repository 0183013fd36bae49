/**
 * A page of paper as data: what is drawn on it, where, in millimetres from its lower left corner, y up. Every document of the bench (patterns, mark-out,
 * booklet) is a list of these; PDF, SVG and PNG are written from them and so cannot disagree.
 */
import type { Box, Loop, Move, Point } from '../../shape/path.js';

/** How a line looks: width and dash lengths in mm, colour as `#rrggbb`. */
export interface Ink {
  readonly width: number;
  readonly dash?: readonly number[];
  readonly colour?: string;
}
/** One run of lines and arcs. */
export interface Run {
  readonly start: Point;
  readonly moves: readonly Move[];
  readonly closed: boolean;
}
export type Anchor = 'start' | 'middle' | 'end';
export type Mark =
  /** `name` is written where a form has names (SVG: as the class), for programs that look for one line among many. */
  | { readonly kind: 'path'; readonly runs: readonly Run[]; readonly ink?: Ink; readonly fill?: string; readonly name?: string }
  /** `at` lies on the line the letters stand on; `size` is the size of the type, mm. */
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly at: Point;
      readonly size: number;
      readonly turn?: number;
      readonly anchor?: Anchor;
      readonly bold?: boolean;
      readonly colour?: string;
    }
  /** Other marks put somewhere: scaled about their own origin, turned (rad), moved to `to`; seen only within `clip`, which is in the outer coordinates. */
  | {
      readonly kind: 'placed';
      readonly marks: readonly Mark[];
      readonly to: Point;
      readonly scale?: number;
      readonly turn?: number;
      readonly clip?: Box;
    };

export interface Page {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
  /** For outlines of a document and for people who can't see it. */
  readonly title: string;
}
/** Facts of a whole document. The date is given, so that the same input gives the same bytes. */
export interface DocumentFacts {
  readonly title: string;
  readonly subject?: string;
  readonly author?: string;
  readonly date: Date;
}
/** The two cuts of the type on every sheet, TrueType. */
export interface Fonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

/** Line widths: wide 0.5 mm, narrow 0.25 mm (line group 0.5 of ISO 128-2). */
export const wide = 0.5;
export const narrow = 0.25;
/** Dash lengths in line widths: dash 12, gap 3, long dash 24, dot 0.5. Source: ISO 128-20 table 3. */
export const dashed = [12, 3].map((part) => part * narrow);
export const longDashDot = [24, 3, 0.5, 3].map((part) => part * narrow);

const closedRun = (loop: Loop): Run => {
  const last = loop[loop.length - 1];
  return { start: last?.to ?? { x: 0, y: 0 }, moves: loop, closed: true };
};
const straight = (to: Point): Move => ({ kind: 'line', to });
export const lineMark = (from: Point, to: Point, ink: Ink): Mark => ({
  kind: 'path',
  runs: [{ start: from, moves: [straight(to)], closed: false }],
  ink,
});
export const polylineMark = (points: readonly Point[], ink: Ink, closed = false, fill?: string): Mark => {
  const [start = { x: 0, y: 0 }, ...rest] = points;
  return { kind: 'path', runs: [{ start, moves: rest.map(straight), closed }], ink, ...(fill === undefined ? {} : { fill }) };
};
export const loopMark = (loops: readonly Loop[], ink: Ink | undefined, fill?: string): Mark => ({
  kind: 'path',
  runs: loops.map(closedRun),
  ...(ink === undefined ? {} : { ink }),
  ...(fill === undefined ? {} : { fill }),
});
export const boxMark = ({ min, max }: Box, ink: Ink | undefined, fill?: string): Mark =>
  loopMark([[{ x: max.x, y: min.y }, max, { x: min.x, y: max.y }, min].map(straight)], ink, fill);
export const circleMark = (centre: Point, radius: number, ink: Ink | undefined, fill?: string): Mark => {
  const left = { x: centre.x - radius, y: centre.y };
  const right = { x: centre.x + radius, y: centre.y };
  return loopMark(
    [
      [
        { kind: 'arc', to: right, centre, turn: 'left' },
        { kind: 'arc', to: left, centre, turn: 'left' },
      ],
    ],
    ink,
    fill,
  );
};
