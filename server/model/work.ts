/** What is gathered while one part is read. Shared by the files that read parts. */
import type { Span, Statement } from '../../grammar/syntax.js';
import type { Reader } from './arguments.js';
import type { Bead, Cut, Direction } from './part.js';
import type { Reading } from './reading.js';

/** Features of one part at most: more is a slip of the keyboard, not a drawing. */
export const mostFeatures = 10_000;

export interface PartWork extends Reader {
  /** Absolute spans to the part's own. */
  readonly relative: (span: Span) => Span;
  readonly absolute: (span: Span) => Span;
  /** Keeps a statement that is read and not computed, and says so. */
  readonly later: (statement: Statement, word?: string) => void;
  /** `through` alone means through both walls: of tube and angle, which have no other face to name. */
  readonly throughBothWalls?: boolean;
  readonly cuts: PendingCut[];
  readonly beads: PendingBead[];
  /** Turns of repeats still allowed in this part. */
  readonly turns: { left: number };
}
export const withReading = (work: PartWork, reading: Reading): PartWork => (reading === work.reading ? work : { ...work, reading });

/** A face of the part as written, before it is known whether there is one. */
export interface PendingPlace {
  readonly path: readonly string[];
  readonly span: Span;
}
/** The line of an `opposite`: upright at x = at, or level at y = at, mm. */
export interface Mirror {
  readonly across: 'x' | 'y';
  readonly at: number;
}

/** A cut before the names it lies on are known. */
export interface PendingCut extends Omit<Cut, 'id' | 'on' | 'through'> {
  /** Stays the same when the cut is moved; a copy in a mirror has one of its own. */
  readonly self: object;
  /** For a copy: of which cut, and in what mirror as it lies by now. `at`, `turned` and `shape` are then settled from that cut. */
  readonly mirror?: Mirror & { readonly of: object };
  readonly through?: PendingPlace;
  /** `hole`, or the feature's own name. */
  readonly base: string;
  readonly named: boolean;
  readonly on: PendingPlace | { readonly id: string } | undefined;
  readonly statement: Statement;
  /** Its rim is pressed up or down after cutting. */
  readonly dimple?: { readonly depth: number | undefined; readonly direction: Direction };
}

/** A bead before copies of the same name are numbered; `id` is the name as written. */
export interface PendingBead extends Bead {
  readonly statement: Statement;
}

/** Statements that add nothing to the shape, or are read before the rest. */
export const isAside = (statement: Statement): boolean =>
  statement.word.name === 'let' || statement.word.name === 'check' || statement.word.name === 'note' || statement.entry?.word === 'outline';
