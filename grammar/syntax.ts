/**
 * The syntax tree. Offsets are UTF-16 code units from the start of the file, half open. A tree is never changed after the parse.
 */
import type { StatementEntry } from './vocabulary/pattern.js';

export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A fault in the text itself, always with words a person can act on. */
export interface Problem {
  readonly span: Span;
  /** Rule name, kebab, family `text` ("text/missing-value"), or `number/…`, `name/…`. */
  readonly rule: string;
  readonly message: string;
  readonly fixes: readonly Fix[];
}
export interface Fix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
}
export interface TextEdit {
  readonly span: Span;
  readonly text: string;
  /** Another file to be changed, or this one at an absolute place: then `span` is absolute there, whatever the finding's own span is counted from. */
  readonly file?: string;
}

export interface Ident {
  readonly span: Span;
  readonly name: string;
}

/** One written number with its unit: `4 ft`, `1-3/8`, `18 ga`. `unit` is the word as written, after folding (`"` is inch). */
export interface NumberTerm {
  readonly span: Span;
  readonly value: number;
  readonly unit: Unit | undefined;
}
export interface Unit {
  readonly span: Span;
  /** Canonical: mm cm m in ft thou ga deg g kg oz lb N kN lbf Pa kPa MPa GPa psi ksi s min h % kg/m3 … */
  readonly name: string;
}

export type Expr =
  /** `4' 2-1/2"` is one number of two terms; nearly all have one. `reading` is how it was read, for hover: "1 3/8". */
  | {
      readonly kind: 'number';
      readonly span: Span;
      readonly terms: readonly NumberTerm[];
      readonly reading: string;
      readonly ofMaterial: readonly Ident[] | undefined;
    }
  /** `gate.bends.top.1.allowance`: every step is a name or a whole number written as text. */
  | { readonly kind: 'name'; readonly span: Span; readonly path: readonly Ident[] }
  | { readonly kind: 'unary'; readonly span: Span; readonly op: '-' | '+' | 'not'; readonly opSpan: Span; readonly operand: Expr }
  | {
      readonly kind: 'binary';
      readonly span: Span;
      readonly op: BinaryOp;
      readonly opSpan: Span;
      readonly left: Expr;
      readonly right: Expr;
    }
  | {
      readonly kind: 'call';
      readonly span: Span;
      readonly name: Ident;
      readonly args: readonly { readonly label: Ident | undefined; readonly value: Expr }[];
    }
  | { readonly kind: 'point'; readonly span: Span; readonly x: Expr; readonly y: Expr }
  | { readonly kind: 'paren'; readonly span: Span; readonly inner: Expr }
  /** `point.x` on anything that is not a plain name: `(3, 4).x`. */
  | { readonly kind: 'member'; readonly span: Span; readonly of: Expr; readonly name: Ident }
  | { readonly kind: 'text'; readonly span: Span; readonly value: string }
  | { readonly kind: 'yesno'; readonly span: Span; readonly value: boolean }
  /** Where a value was wanted and none stood (already reported). Evaluates to nothing, without a second message. */
  | { readonly kind: 'missing'; readonly span: Span };

export type BinaryOp = '+' | '-' | '*' | '/' | '^' | '=' | '<' | '<=' | '!=' | '>=' | '>' | 'and' | 'or';

export type Argument =
  | { readonly kind: 'value'; readonly span: Span; readonly value: Expr }
  | { readonly kind: 'word'; readonly span: Span; readonly word: string }
  | { readonly kind: 'name'; readonly span: Span; readonly path: readonly Ident[] }
  | { readonly kind: 'newName'; readonly span: Span; readonly name: Ident }
  | { readonly kind: 'text'; readonly span: Span; readonly value: string }
  | { readonly kind: 'size'; readonly span: Span; readonly value: string }
  /** `list` and `run`; an item that was a sequence is a group with fields of its own. */
  | { readonly kind: 'list'; readonly span: Span; readonly items: readonly Argument[] }
  | { readonly kind: 'group'; readonly span: Span; readonly fields: Fields };

export type Fields = Readonly<Record<string, Argument>>;

export interface Statement {
  readonly span: Span;
  /** The first word. */
  readonly word: Ident;
  /** Undefined when no statement of that word may stand here (reported). */
  readonly entry: StatementEntry | undefined;
  /** Arguments by the field names of the entry's pattern. A field may be missing only if optional or reported. */
  readonly fields: Fields;
  readonly block: Block | undefined;
  /** Text of the `///` lines just above, joined by line breaks. */
  readonly note: string | undefined;
  /** True when a problem was reported inside this statement's own words (not in its block). */
  readonly broken: boolean;
  /** Every literal word of the pattern as it stands in the text, the first word too, in order. */
  readonly words: readonly Span[];
}
export interface Block {
  readonly span: Span;
  readonly place: string;
  readonly statements: readonly Statement[];
}

export interface Tree {
  readonly text: string;
  readonly statements: readonly Statement[];
  readonly problems: readonly Problem[];
  /** Every comment in order, for the formatter and folding. */
  readonly comments: readonly Span[];
}
