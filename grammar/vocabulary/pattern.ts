/**
 * How a statement's words and arguments are described. A pattern is data: the parser walks it, completion and signature
 * help ask it what may come next, the reference prints it. Nothing else in the program repeats the shape of a statement.
 */

/** What a value must be. `any` is a `let`; `number` a plain ratio or count; `condition` yes/no. */
export type ValueKind =
  | 'any'
  | 'length'
  | 'angle'
  | 'area'
  | 'volume'
  | 'mass'
  | 'density'
  | 'force'
  | 'stress'
  | 'stiffness'
  | 'time'
  | 'money'
  | 'ratio'
  | 'count'
  | 'number'
  | 'point'
  | 'condition'
  | 'moment'
  | 'pressure'
  | 'heat'
  | 'curvature';

/** What a name refers to or brings into being; each kind is a name space of its own. */
export type NameKind =
  | 'value'
  | 'part'
  | 'material'
  | 'sheet'
  | 'stock'
  | 'die'
  | 'roller'
  | 'brake'
  | 'saw'
  | 'welder'
  | 'trial'
  | 'file'
  | 'edge'
  | 'flange'
  | 'feature'
  | 'leg'
  | 'curve'
  | 'index'
  | 'place';

/** Where a statement may stand: the top of a file, or within the braces of the statement named. */
export type Place = string;

export type Pattern =
  /** A literal word; with `field` its presence is recorded as a word argument. */
  | { readonly kind: 'word'; readonly word: string; readonly field?: string }
  /** A literal sign, such as `=`. */
  | { readonly kind: 'sign'; readonly sign: string }
  /** One of several words; a word of two parts is written with one space ("half hard"). */
  | { readonly kind: 'choice'; readonly field: string; readonly words: readonly string[] }
  | { readonly kind: 'value'; readonly field: string; readonly want: ValueKind }
  /** A name that must exist already; may be dotted (`bench.crs_18`). */
  | { readonly kind: 'name'; readonly field: string; readonly of: NameKind }
  /** A name this statement brings into being. */
  | { readonly kind: 'newName'; readonly field: string; readonly of: NameKind }
  | { readonly kind: 'text'; readonly field: string }
  /** A thread or drill size read whole: `M6  M8x1  1/4-20  #8-32  #30  F`. */
  | { readonly kind: 'size'; readonly field: string }
  /** Items parted by commas, one or more (or `least`). */
  | { readonly kind: 'list'; readonly field: string; readonly item: Pattern; readonly least?: number }
  /** Names side by side without commas, up to the first word that a later part of the pattern takes. */
  | { readonly kind: 'run'; readonly field: string; readonly of: NameKind }
  | { readonly kind: 'sequence'; readonly items: readonly Pattern[] }
  | { readonly kind: 'optional'; readonly item: Pattern }
  /** Each item at most once, in any order; each begins with a word of its own. */
  | { readonly kind: 'anyOrder'; readonly items: readonly Pattern[] }
  /** The first whose first token fits. */
  | { readonly kind: 'oneOf'; readonly items: readonly Pattern[] }
  /** Braces holding statements of a place. */
  | { readonly kind: 'block'; readonly place: Place };

export interface ArgumentHelp {
  /** One line in plain words: what the argument is, measured from where. */
  readonly summary: string;
  /** What is taken when it is left out, in words ("90°", "the sheet's own radius"). */
  readonly default?: string;
}

export interface StatementEntry {
  /** The first word, as written. */
  readonly word: string;
  /** Unique: `word` where it has one meaning, else `word@place` ("radius@corner"). */
  readonly id: string;
  readonly family:
    | 'file'
    | 'shop'
    | 'part'
    | 'shape'
    | 'edge'
    | 'corner'
    | 'cut'
    | 'bead'
    | 'pattern'
    | 'section'
    | 'piece'
    | 'survey'
    | 'assembly'
    | 'trial';
  readonly places: readonly Place[];
  readonly pattern: Pattern;
  readonly summary: string;
  /** A short true piece of the language in which the statement stands where it may stand (a whole file that compiles). */
  readonly example: string;
  /** What a fabricator should know about it: why, when, and what goes wrong. */
  readonly note: string;
  readonly arguments: Readonly<Record<string, ArgumentHelp>>;
  /** False while nothing is computed from it yet: it is read, completed and hovered, and answered by one plain finding. */
  readonly computed: boolean;
}

/* Short forms for the tables. */
export const word = (w: string, field?: string): Pattern =>
  field === undefined ? { kind: 'word', word: w } : { kind: 'word', word: w, field };
export const sign = (s: string): Pattern => ({ kind: 'sign', sign: s });
export const choice = (field: string, ...words: readonly string[]): Pattern => ({ kind: 'choice', field, words });
export const value = (field: string, want: ValueKind): Pattern => ({ kind: 'value', field, want });
export const length = (field: string): Pattern => value(field, 'length');
export const angle = (field: string): Pattern => value(field, 'angle');
export const point = (field: string): Pattern => value(field, 'point');
export const count = (field: string): Pattern => value(field, 'count');
export const name = (field: string, of: NameKind): Pattern => ({ kind: 'name', field, of });
export const newName = (field: string, of: NameKind): Pattern => ({ kind: 'newName', field, of });
export const text = (field: string): Pattern => ({ kind: 'text', field });
export const size = (field: string): Pattern => ({ kind: 'size', field });
export const list = (field: string, item: Pattern, least = 1): Pattern => ({ kind: 'list', field, item, least });
export const run = (field: string, of: NameKind): Pattern => ({ kind: 'run', field, of });
export const sequence = (...items: readonly Pattern[]): Pattern => ({ kind: 'sequence', items });
export const optional = (...items: readonly Pattern[]): Pattern => ({
  kind: 'optional',
  item: items.length === 1 ? (items[0] as Pattern) : { kind: 'sequence', items },
});
export const anyOrder = (...items: readonly Pattern[]): Pattern => ({ kind: 'anyOrder', items });
export const oneOf = (...items: readonly Pattern[]): Pattern => ({ kind: 'oneOf', items });
export const block = (place: Place): Pattern => ({ kind: 'block', place });
/** `word` then a value, the commonest argument: `radius 3/32`. */
export const option = (w: string, item: Pattern): Pattern => sequence(word(w), item);
