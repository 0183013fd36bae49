import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Range } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { type Ask, linesOf } from '../../server/lsp/ask.js';
import { codeActions } from '../../server/lsp/codeActions.js';
import { codeLenses } from '../../server/lsp/codeLens.js';
import { completions } from '../../server/lsp/completion.js';
import { definition } from '../../server/lsp/definition.js';
import { diagnosticsOf } from '../../server/lsp/diagnostics.js';
import { documentSymbols } from '../../server/lsp/documentSymbols.js';
import { foldingRanges } from '../../server/lsp/folding.js';
import { formatDocument } from '../../server/lsp/formatting.js';
import { hover } from '../../server/lsp/hover.js';
import { inlayHints } from '../../server/lsp/inlayHints.js';
import { featureAt, pictureOf } from '../../server/lsp/picture.js';
import { documentHighlights, references } from '../../server/lsp/references.js';
import { prepareRename, rename } from '../../server/lsp/rename.js';
import { selectionRanges } from '../../server/lsp/selectionRanges.js';
import { semanticTokens } from '../../server/lsp/semanticTokens.js';
import { signatureHelp } from '../../server/lsp/signatureHelp.js';
import { runs } from '../runs.js';
import { scene, shop } from './support.js';

const sound = `with "shop.planish"
units inch
let wide = 4' 2-1/2"
/// Drop gate 🚲
panel gate {
  sheet crs_18
  outline rectangle wide by max(8, 3 + 1/2) outside
  edge top { flange 3/4 down; flange 3/8 down 45 radius 1/16 as lip }
  edge left, right { flange 5/8 down }
  corner all relief round 1/8
  repeat 3 every 2 along x { hole 1/4 at (1, 1) }
  check gate.blank.width < 60 "must fit"
}
section rail { sheet crs_18 length 10; leg 1; turn up 90; leg 2 }
`;
const pieces = [
  '{',
  '}',
  '(',
  ')',
  '"',
  ',',
  '.',
  ' ',
  '\n',
  '-',
  '/',
  '//',
  '3',
  '°',
  'edge ',
  'panel ',
  'as',
  '=',
  'wide',
  '🚲',
  ';',
  '\r\n',
];

const inside = (lines: TextDocument, range: Range): boolean => {
  const [start, end] = [lines.offsetAt(range.start), lines.offsetAt(range.end)];
  const back = [lines.positionAt(start), lines.positionAt(end)];
  return start <= end && JSON.stringify(back) === JSON.stringify([range.start, range.end]);
};

/** Asks every feature at one place and gives every range it answers with. */
const everything = (ask: Ask, offset: number): Range[] => {
  const lines = linesOf(ask);
  const position = lines.positionAt(offset);
  const all = { start: lines.positionAt(0), end: lines.positionAt(lines.getText().length) };
  const diagnostics = diagnosticsOf(ask);
  completions(ask, position, { snippets: true });
  signatureHelp(ask, position);
  definition(ask, position);
  references(ask, position, true);
  prepareRename(ask, position);
  rename(ask, position, 'fresh');
  documentSymbols(ask);
  foldingRanges(ask);
  semanticTokens(ask);
  codeActions(ask, { start: position, end: position }, undefined, diagnostics);
  featureAt(ask, position);
  const picture = pictureOf(ask, 1, undefined, position);
  const said = hover(ask, position);
  return [
    ...diagnostics.map((one) => one.range),
    ...documentHighlights(ask, position).map((one) => one.range),
    ...selectionRanges(ask, [position]).map((one) => one.range),
    ...inlayHints(ask, all).map((one) => ({ start: one.position, end: one.position })),
    ...codeLenses(ask).map((one) => one.range),
    ...formatDocument(ask).map((one) => one.range),
    ...picture.features.map((one) => one.range),
    ...(said?.range === undefined ? [] : [said.range]),
  ];
};

it('no feature fails or points outside the text, whatever is typed into a sound file', () => {
  fc.assert(
    fc.property(fc.nat(sound.length), fc.nat(12), fc.constantFrom(...pieces), fc.nat(sound.length), (at, gone, typed, cursor) => {
      const text = sound.slice(0, at) + typed + sound.slice(at + gone);
      const { ask } = scene('', { 'shop.planish': shop });
      ask.project.setText(ask.path, sound);
      ask.project.findings(ask.path);
      ask.project.setText(ask.path, text);
      const lines = linesOf(ask);
      for (const range of everything(ask, Math.min(cursor, text.length))) expect(inside(lines, range)).toBe(true);
    }),
    { numRuns: runs(150) },
  );
}, 120000);
