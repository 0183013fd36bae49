/** What an expression is read with: the names in sight, the file's unit, and where findings go. Shared by the files of this room only. */
import type { Expr, Fix, Ident, Span, Statement, Tree } from '../../grammar/syntax.js';
import type { NameKind } from '../../grammar/vocabulary/pattern.js';
import type { GaugeTable } from '../trade/gauges.js';
import type { Dependencies } from './dependencies.js';
import type { Finding, Severity } from './finding.js';
import type { Environment, HomeUnit, MeasuredTree } from './model.js';
import type { Value } from './values.js';

/** One name of one kind, where it is brought into being. */
export interface Entry {
  readonly kind: NameKind;
  readonly name: string;
  /** Of the name, absolute. */
  readonly span: Span;
  readonly file: string;
  readonly statement: Statement | undefined;
}
/** A `let` or a repeat's index. `state` and `value` are the memo: written once. */
export interface ValueEntry extends Entry {
  readonly expr: Expr | undefined;
  readonly reading: Reading;
  state: 'waiting' | 'working' | 'done';
  value: Value;
  /** In a ring: known to be, and already reported. */
  ringed: boolean;
}

/** Values brought into being in one block. */
export interface Scope {
  readonly parent: Scope | undefined;
  readonly values: ReadonlyMap<string, ValueEntry>;
}

export interface Brought {
  readonly path: string;
  readonly alias: string | undefined;
  readonly aliasSpan: Span | undefined;
  /** Undefined when the file is missing: its names are then unknown without a second message. */
  readonly names: () => FileNames | undefined;
}

/** The names of one file. */
export interface FileNames {
  readonly path: string;
  readonly tree: Tree;
  readonly units: HomeUnit | undefined;
  readonly env: Environment;
  readonly own: ReadonlyMap<NameKind, ReadonlyMap<string, Entry>>;
  readonly brought: readonly Brought[];
  /** Reading of the file's own top. */
  readonly top: Reading;
}

export interface Note {
  readonly severity?: Severity;
  readonly fixes?: readonly Fix[];
  readonly related?: Finding['related'];
}
/** Where findings go. Spans handed in are absolute. */
export interface Sink {
  readonly report: (span: Span, rule: string, message: string, note?: Note) => void;
  /** A bare length was wanted, but the file it came from says no unit: said once for the file. */
  readonly needsUnits: (file: string, span: Span) => void;
}
export const silence: Sink = { report: () => undefined, needsUnits: () => undefined };

export interface Reading {
  readonly names: FileNames;
  readonly scope: Scope | undefined;
  readonly sink: Sink;
  /** Where a part notes what it took from outside itself. */
  readonly dependencies: Dependencies | undefined;
  /** Name of the part around, if any. */
  readonly part: string | undefined;
  /** The part's own measured properties, while its checks are decided. */
  readonly measured: { readonly tree: MeasuredTree | undefined } | undefined;
  /** On a sheet: the gauge table of its material, for `18 ga` alone. */
  readonly gauge?: { readonly table: GaugeTable | undefined; readonly material: string | undefined };
}

export const unknown: Value = { kind: 'unknown' };

/** The words at a place, shortened for a message. */
export const wordsAt = (tree: Tree, span: Span): string => {
  const words = tree.text.slice(span.start, span.end).replace(/\s+/g, ' ').trim();
  return words.length > 48 ? `${words.slice(0, 45)}…` : words;
};

export const replace = (span: Span, text: string, title: string): Fix => ({ title, edits: [{ span, text }] });

export const pathText = (path: readonly Ident[]): string => path.map((step) => step.name).join('.');
