/** What reading a statement needs of the parser, and what is remembered while one is read. */
import type { IToken } from 'chevrotain';
import type { Compiled, Leaf, Surroundings } from './compiled.js';
import type { Block, Expr, Fix, Span } from './syntax.js';
import type { Place } from './vocabulary/pattern.js';

/** The statement whose own words are being read. */
export interface Header {
  readonly start: number;
  readonly word: string;
  readonly place: Place;
  readonly compiled: Compiled | undefined;
  readonly words: Span[];
  block: Block | undefined;
  /** A problem was reported in it: no second one is, since it would most often be the same slip seen twice. */
  reported: boolean;
}

export interface OpenBlock {
  readonly word: string;
  readonly name: string | undefined;
  readonly start: number;
}

/** Listens to a parse that stops at the cursor. */
export interface Listener {
  /** These leaves may come at the cursor. */
  may(leaves: readonly Leaf[]): void;
  /** One of these must come: nothing after them may be offered. */
  must(leaves: readonly Leaf[]): void;
  /** A literal word that completes one already begun ("hard" after "half"). */
  word(word: string): void;
  /** A value is wanted inside an expression, so many brackets deep. */
  value(surroundings: Surroundings, depth: number): void;
  /** The statement may end here, and another may begin in the same line. */
  mayEnd(place: Place): void;
  /** A statement may begin here. */
  begin(place: Place): void;
  /** The parse has come to the cursor, for the first time. */
  stopped(reader: Reader): void;
}

export interface Reader {
  readonly text: string;
  /** Token so many ahead; 0 is the one last taken. Beyond the end, a line break. */
  ahead(n: number): IToken;
  take(): IToken;
  /** Says what is wrong, unless something was said of this statement already. */
  report(span: Span, rule: string, message: string, fixes?: readonly Fix[]): void;
  expression(surroundings: Surroundings): Expr;
  /** A text without its quotes; a missing closing quote is reported. */
  textValue(token: IToken): string;
  /** Text of the note lines above an offset. */
  noteBefore(offset: number): string | undefined;
  /** Whether stray characters lie between two offsets. */
  strayBetween(start: number, end: number): boolean;
  /** Tells the listener that the cursor is reached; the first call counts. */
  stop(): void;
  header: Header | undefined;
  readonly blocks: OpenBlock[];
  readonly listener: Listener | undefined;
}
