/** What the model gives of one file, and what it asks of the project around it. Everything is worked out on first asking and kept. */
import type { Expr, Span, Tree } from '../../grammar/syntax.js';
import type { NameKind } from '../../grammar/vocabulary/pattern.js';
import type { Finding } from './finding.js';
import type { Part } from './part.js';
import type { AskedPanel } from './shop.js';
import type { Value } from './values.js';

/** Measured properties of a part, by the steps of a path: `blank.width`, `bends.top.1.allowance`. */
export interface MeasuredTree {
  readonly [step: string]: MeasuredTree | Value;
}

/** The file's own unit of length: what a bare number means in it. */
export interface HomeUnit {
  readonly name: 'inch' | 'millimetre' | 'centimetre' | 'metre' | 'foot';
  /** Size of one, mm. */
  readonly mm: number;
}

/** What is being worked out just now, outermost first; shared by all models of one project so that rings through several files are seen. */
export interface Trail {
  readonly steps: TrailStep[];
}
export interface TrailStep {
  readonly file: string;
  readonly kind: 'value' | 'part';
  readonly name: string;
  readonly span: Span;
  /** The statement itself, for identity. */
  readonly of: object;
}

/** How a model reaches other files and the results of the rooms above it. */
export interface Environment {
  /** The tree of another file, open buffers first; undefined when there is no such file. */
  readonly treeOf: (path: string) => Tree | undefined;
  /** The model of another file. May be asked while this file's model is at work (two files may bring each other), so it must not wait for `parts` or `findings`. */
  readonly modelOf: (path: string) => FileModel | undefined;
  /** Real path, links resolved. */
  readonly real: (path: string) => string;
  /** Absolute path of the project's root; `with` may not leave it. */
  readonly root: string;
  /**
   * Measured properties of a part (from `model.part(name)`, its blank …). While the part is itself at work `model.part` gives undefined
   * (the ring is reported by the model), and so must this.
   */
  readonly measured: (file: string, part: string) => MeasuredTree | undefined;
  /** Shop file for files that bring none. */
  readonly shopFile?: string;
  /** One per project: `{ steps: [] }`. */
  readonly trail: Trail;
}

export interface NamedThing {
  readonly name: string;
  readonly kind: NameKind;
  readonly file: string;
  /** The name itself, absolute. */
  readonly span: Span;
}
export interface Definition extends NamedThing {
  /** The whole statement, absolute. */
  readonly full: Span;
  /** Part in which it stands, when it does. */
  readonly part: string | undefined;
  /** The `///` note above it. */
  readonly note: string | undefined;
}
export interface Reference {
  readonly name: string;
  readonly kind: NameKind;
  /** Absolute, in this file. */
  readonly span: Span;
  /** Undefined when the name is unknown. */
  readonly target: NamedThing | undefined;
}
export interface SymbolTable {
  readonly definitions: readonly Definition[];
  /** In order of place. Spans of definitions themselves are not among them. */
  readonly references: readonly Reference[];
}
/** A name that could be written at some place. */
export interface Candidate {
  /** As it would be written there: `crs_18`, `bench.crs_18`. */
  readonly written: string;
  readonly kind: NameKind;
  /** A few words: `30 1/4 in`, `flange of edge top`. */
  readonly detail: string;
  readonly target: NamedThing | undefined;
}

/** `trial NAME { for PANEL }`. */
export interface AskedTrial {
  readonly name: string;
  readonly nameSpan: Span;
  /** The whole statement. */
  readonly span: Span;
  readonly asks: AskedPanel;
}

export interface FileModel {
  readonly path: string;
  readonly tree: Tree;
  readonly units: HomeUnit | undefined;
  /** Sign written before prices; undefined where the file gives none. */
  readonly currency: string | undefined;
  readonly parts: readonly Part[];
  /** Parallel to `parts`: equal keys mean equal parts (but for spans of things outside it). */
  readonly keys: readonly string[];
  /** Absolute start of each part's statement, parallel to `parts`: what its relative spans are counted from. */
  readonly starts: readonly number[];
  /** One part, worked out alone; undefined when there is none or it is being worked out just now. */
  readonly part: (name: string) => Part | undefined;
  /** Names of the parts in order, without working any out. */
  readonly partNames: readonly string[];
  /** Outside parts; absolute spans. Parts carry their own, relative to themselves. */
  readonly findings: readonly Finding[];
  readonly symbols: SymbolTable;
  /** Trials of this file that ask for strips, in order of place; spans absolute. */
  readonly askedTrials: readonly AskedTrial[];
  /** Each `with`: its path text's span and the file, undefined when it can't be had. */
  readonly links: readonly { readonly span: Span; readonly target: string | undefined }[];
  /** Files this one depends on, brought directly (the shop file included). */
  readonly brings: readonly string[];
  /** What an expression of this tree comes to, for hover and inlay hints; in a `repeat`, for its first turn. Silent. */
  readonly valueOf: (expr: Expr) => Value | undefined;
  /** The same for any value written in words, with a bare one in the file's own unit. */
  readonly say: (value: Value) => string;
  /** Whether a part has `check`s at all. */
  readonly hasChecks: (partName: string) => boolean;
  /** Decides the `check`s of a part that read its own measured properties. Spans relative to the part. */
  readonly decide: (partName: string, measured: MeasuredTree | undefined) => readonly Finding[];
  /** Names of these kinds that may be written at a place. */
  readonly candidatesAt: (offset: number, kinds: readonly NameKind[]) => readonly Candidate[];
  /** What may follow a dot after `path` at a place: names of a file, properties of a part, x and y of a point. */
  readonly membersAt: (offset: number, path: readonly string[]) => readonly { readonly name: string; readonly detail: string }[];
}
