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
  readonly cuts: PendingCut[];
  readonly beads: PendingBead[];
  /** Turns of repeats still allowed in this part. */
  readonly turns: { left: number };
}
export const withReading = (work: PartWork, reading: Reading): PartWork => (reading === work.reading ? work : { ...work, reading });

/** A cut before the names it lies on are known. */
export interface PendingCut extends Omit<Cut, 'id' | 'on'> {
  /** `hole`, or the feature's own name. */
  readonly base: string;
  readonly named: boolean;
  readonly on: { readonly path: readonly string[]; readonly span: Span } | { readonly id: string } | undefined;
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
