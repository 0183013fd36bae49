import type { Position, TextEdit } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { memoryFiles } from '../../server/files.js';
import { type Ask, defaultSettings } from '../../server/lsp/ask.js';
import type { Settings } from '../../server/lsp/protocol.js';
import { createProject } from '../../server/project.js';

export interface Marked {
  readonly text: string;
  /** Where the first `|` stood. */
  readonly position: Position;
  /** Where each `|` stood. */
  readonly positions: readonly Position[];
}

/** Takes the cursor marks out of a text. */
export const marked = (source: string): Marked => {
  const pieces = source.split('|');
  const text = pieces.join('');
  const lines = TextDocument.create('', '', 0, text);
  let offset = 0;
  const positions = pieces.slice(0, -1).map((piece) => {
    offset += piece.length;
    return lines.positionAt(offset);
  });
  return { text, positions, position: positions[0] ?? { line: 0, character: 0 } };
};

export interface Scene extends Marked {
  readonly ask: Ask;
}

/** A project of the files given, asked about the first of them, in whose text `|` marks the cursor. */
export const scene = (source: string, others: Readonly<Record<string, string>> = {}, settings: Settings = defaultSettings): Scene => {
  const here = marked(source);
  const path = '/shop/gate.planish';
  const texts: Record<string, string> = { [path]: here.text };
  for (const [name, text] of Object.entries(others)) texts[`/shop/${name}`] = text;
  const project = createProject({
    files: memoryFiles(texts),
    root: '/shop',
    denominator: settings.display.denominator,
    severities: settings.severities,
  });
  const ask: Ask = { project, path, settings, uriOf: (at) => `file://${at}`, files: () => Object.keys(texts) };
  return { ...here, ask };
};

/** The text after edits, as an editor would make them. */
export const edited = (text: string, edits: readonly TextEdit[]): string =>
  TextDocument.applyEdits(TextDocument.create('', '', 0, text), [...edits]);

/** `4:2-4:8`, lines and characters from 0 as the protocol has them. */
export const short = (range: { readonly start: Position; readonly end: Position }): string =>
  `${range.start.line}:${range.start.character}-${range.end.line}:${range.end.character}`;

/** The words of a text within a range. */
export const wordsIn = (text: string, range: { readonly start: Position; readonly end: Position }): string =>
  TextDocument.create('', '', 0, text).getText(range);

/** A small shop in inches, for parts that need one. Thickness 0.0478 in: Manufacturers' Standard Gauge, 18 ga. */
export const shop = `units inch
material mild_steel { gauge table steel density 7850 kg/m3 }
sheet crs_18 { material mild_steel thickness 18 ga size 48 by 96 bend radius 1/16 k 0.42 }
brake bench_leaf { leaf length 48 capacity 0.0598 of mild_steel least flange 3/8 }
`;
