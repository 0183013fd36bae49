/** The tree of faces while it is being laid out, in the part's own coordinates. `types.ts` says what is reported of it. */

import type { Fix, Span } from '../../grammar/syntax.js';
import type { Finding, Severity } from '../model/finding.js';
import type { Convention, Direction, EdgeChain, FlangeEnds, Panel, Section, TabStep } from '../model/part.js';
import type { Sheet } from '../model/shop.js';
import type { Move, Point } from '../shape/path.js';
import type { AllowanceMethod, BendSums } from '../trade/bends.js';
import type { BendLine, ReliefNote } from './types.js';

/** How lengths are written in messages and fixes: the project knows the file's unit, this room does not. */
export interface Words {
  readonly say: (mm: number) => string;
  /** Two lengths that stand against each other: told apart where they would read alike. */
  readonly sayBoth?: (a: number, b: number) => readonly [string, string];
  readonly write?: (mm: number, towards: 'up' | 'down' | 'nearest') => string;
}

/** A relief before the blank's datum is known, with the bend radius it was made for (0 for a slit). */
export interface ReliefWork extends ReliefNote {
  readonly radius: number;
}

/** One layout in progress: what it reads, and what it has found so far. */
export interface Job {
  readonly part: Panel | Section;
  readonly sheet: Sheet;
  readonly thickness: number;
  readonly method: AllowanceMethod | undefined;
  readonly words: Words;
  readonly findings: Finding[];
  readonly reliefs: ReliefWork[];
}

/** Two lengths set against each other in a message. */
export const sayBoth = ({ words }: Job, a: number, b: number): readonly [string, string] =>
  words.sayBoth?.(a, b) ?? [words.say(a), words.say(b)];

export interface Remark {
  readonly features?: readonly string[];
  readonly related?: Finding['related'];
  readonly fixes?: readonly Fix[];
  readonly severity?: Severity;
}

/** Adds a finding once: a block that names three edges gives three chains with the same words. */
export const remark = (job: Job, rule: string, span: Span, message: string, more: Remark = {}): void => {
  if (job.findings.some((f) => f.rule === rule && f.span.start === span.start && f.span.end === span.end)) return;
  const { severity = 'error', fixes = [], features, related } = more;
  job.findings.push({ file: job.part.file, span, rule, severity, message, fixes, features, related });
};

/** A bend worked out, with the flat beyond it, before it has a place: `low` and `high` hang on its ends, `next` on its free edge. */
export interface BentFlange {
  readonly bendId: string;
  readonly faceId: string;
  readonly make: BendLine['make'];
  /** Id of the written step. */
  readonly step: string;
  readonly direction: Direction;
  readonly turn: number;
  readonly radius: number;
  readonly sums: BendSums;
  /** What a size that ends at this bend has to lose, as each convention measures it. A joggle takes all that it runs over. */
  readonly taken: { readonly outside: number; readonly inside: number };
  readonly convention: Convention;
  /** Straight length between its own tangent and the next one's, or its cut edge. Nothing is flat in a curl or a rolled edge. */
  readonly flat: number;
  /** The same at the far end, where places along the edge are greatest. */
  readonly flatFar: number;
  /** y of the flat's beginning in the face's own finished coordinates. */
  readonly level: number;
  /** No face follows the bend. */
  readonly bare: boolean;
  readonly ends: FlangeEnds | undefined;
  readonly next: BentFlange | undefined;
  /** Toward smaller and greater places along the edge. */
  readonly low: BentFlange | undefined;
  readonly high: BentFlange | undefined;
  /** Chains on stretches of its own edges. */
  readonly stretches: readonly EdgeChain[];
  /** Tabs on its cut edge. */
  readonly tabs: TabStep | undefined;
  readonly span: Span;
}

/** How far a flange and its zone may run past the corner's crossing at one end (negative: stop short of it), along the base's edge. */
export interface EndLimit {
  /** Pairs of distance from the parent's tangent line and reach, from 0 to the allowance, falling on straight lines between. */
  readonly zone: readonly (readonly [number, number])[];
  /** Where the flat begins and where it ends. */
  readonly flat: readonly [number, number];
}
/** Limits for a flange and what follows it on its free edge, and how far past the crossing its own hinge ends. */
export interface EndPlan {
  readonly limits: readonly EndLimit[];
  readonly at: number;
}

/** A tab on a cut edge, along the walk. */
export interface Tab {
  readonly from: Point;
  readonly to: Point;
  readonly length: number;
  readonly feature: string;
}

/** A side of a face, where the cut edge or the bend's tangent line runs. */
export interface Side {
  readonly name: string | undefined;
  /** Id that moves of the outline along this side carry. */
  readonly feature: string | undefined;
  /** Trimmed ends. */
  readonly from: Point;
  readonly to: Point;
  readonly arc: { readonly centre: Point; readonly turn: 'left' | 'right' } | undefined;
  /** Unit direction of travel and outward normal, for straight sides. */
  readonly along: Point;
  readonly out: Point;
  /** Where places along the side are counted from, and whether they grow with the travel (1) or against it (−1). */
  readonly origin: Point;
  readonly growing: 1 | -1;
  readonly flange: BentFlange | undefined;
  /** How far the tangent line lies within the finished line; 0 for a cut edge. */
  readonly setback: number;
  /** One of several pieces of the same drawn edge. */
  readonly piece: number | undefined;
  /** The finished corners, before anything was trimmed. */
  readonly drawnFrom: Point;
  readonly drawnTo: Point;
  readonly tabs: readonly Tab[];
  readonly span: Span;
}

/** How the outline passes from one side to the next. */
export interface Corner {
  /** Where the side before (or the end of its flange) is left. */
  readonly arrive: Point;
  /** Moves on from there; the last ends where the next side (or its flange) is taken up. */
  readonly moves: readonly Move[];
  /** How the flanges' ends run here; undefined is square, from the crossing on. */
  readonly endPrevious: EndPlan | undefined;
  readonly endNext: EndPlan | undefined;
  /** How many points of the flanges' ends, counted from the crossing, are cut away. */
  readonly skipPrevious: number;
  readonly skipNext: number;
}

export interface TreeFace {
  readonly id: string;
  readonly span: Span;
  readonly sides: readonly Side[];
  /** `corners[i]` lies before `sides[i]`. On a flange, sides are hinge, first end, free edge, second end. */
  readonly corners: readonly Corner[];
  /** `children[i]` hangs on `sides[i]`. */
  readonly children: readonly (TreeFace | undefined)[];
  readonly hang: Hang | undefined;
  readonly origin: Point;
  readonly axis: Point;
  readonly mirrored: boolean;
}

/** How a face hangs on its parent. */
export interface Hang {
  readonly flange: BentFlange;
  readonly parent: string;
  /** Ends of the parent's tangent line, the parent on its left. */
  readonly start: Point;
  readonly end: Point;
  readonly out: Point;
  /** The zone's two ends from the parent's tangent line to where the flat begins. */
  readonly startEnd: readonly Point[];
  readonly endEnd: readonly Point[];
}

export const ahead = (p: Point, along: Point, distance: number): Point => ({ x: p.x + along.x * distance, y: p.y + along.y * distance });
export const dot = (a: Point, b: Point): number => a.x * b.x + a.y * b.y;
export const cross = (a: Point, b: Point): number => a.x * b.y - a.y * b.x;

export type { EdgeChain };
