import { Range } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Span } from '../../grammar/syntax.js';
import type { Project } from '../project.js';
import type { Settings } from './protocol.js';

/** What every editor feature is asked about: one file of one project, and how the person wants to see things. */
export interface Ask {
  readonly project: Project;
  readonly path: string;
  readonly settings: Settings;
  /** The client's own name for a file. */
  readonly uriOf: (path: string) => string;
  /** Every part file under the project's root, this one included, for features that look across files. */
  readonly files: () => readonly string[];
}

export const defaultSettings: Settings = {
  display: { denominator: 64, secondUnit: true },
  severities: {},
  paper: 'roll',
  shopFile: '',
  cutting: { kerf: '', margin: '', turnStep: 90, seconds: 10, decimalComma: false },
  booklet: { owner: '', creator: '', bothUnits: false },
  inlayHints: { blankSize: true, values: true, allowance: true, bending: true },
  picture: { follow: 'on click' },
};

/** Offsets to lines and characters (UTF-16) and back, over the text the project holds. Line starts are found on first use. */
export const linesOf = (ask: Ask, path: string = ask.path): TextDocument =>
  TextDocument.create(ask.uriOf(path), 'planish', 0, ask.project.tree(path).text);

export const rangeOf = (lines: TextDocument, span: Span): Range => Range.create(lines.positionAt(span.start), lines.positionAt(span.end));

/** A cursor stands in a span also when it stands just behind its last letter, as a person sees it. */
export const touches = (span: Span, offset: number): boolean => span.start <= offset && offset <= span.end;
export const covers = (outer: Span, inner: Span): boolean => outer.start <= inner.start && inner.end <= outer.end;
export const sameSpan = (a: Span, b: Span): boolean => a.start === b.start && a.end === b.end;
