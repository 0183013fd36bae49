import { describe, expect, it } from 'vitest';
import type { DocumentSymbol, SelectionRange } from 'vscode-languageserver';
import { documentSymbols } from '../../server/lsp/documentSymbols.js';
import { foldingRanges } from '../../server/lsp/folding.js';
import { selectionRanges } from '../../server/lsp/selectionRanges.js';
import { semanticTokens, semanticTokensLegend } from '../../server/lsp/semanticTokens.js';
import { type Scene, scene, shop, short, wordsIn } from './support.js';

const source = `with "shop.planish"
units inch

// Sizes are taken
// over the beads.
let wide = 12

/// Rain lid, one off.
panel lid {
  sheet crs_18
  outline rectangle wide by 8
  edge top, bottom {
    flange 3/4 down as lip   // toward the road
  }
}
`;

describe('the outline of a file', () => {
  it('parts and values, and what has braces or a name within', () => {
    const { ask } = scene(source, { 'shop.planish': shop });
    const tree = (symbols: readonly DocumentSymbol[], depth = ''): string[] =>
      symbols.flatMap((one) => [
        `${depth}${one.name} (${one.detail}) ${short(one.selectionRange)}`,
        ...tree(one.children ?? [], `${depth}  `),
      ]);
    expect(tree(documentSymbols(ask))).toEqual([
      'wide (12) 5:4-5:8',
      'lid (panel) 8:6-8:9',
      '  edge top, bottom () 11:2-11:6',
      '    lip (flange) 12:23-12:26',
    ]);
  });
});

describe('folding', () => {
  it('braces down to the line before the closing one, and comments that stand together', () => {
    const { ask } = scene(source, { 'shop.planish': shop });
    expect(foldingRanges(ask).map((fold) => `${fold.startLine}-${fold.endLine} ${fold.kind ?? 'block'}`)).toEqual([
      '3-4 comment',
      '8-13 block',
      '11-12 block',
    ]);
  });
  it('what stands on one line does not fold', () => expect(foldingRanges(scene('panel lid { quantity 2 }\n').ask)).toEqual([]));
});

describe('growing the selection', () => {
  it('goes from a word through its value, statement and braces to the file', () => {
    const here = scene(source.replace('flange 3/4', 'flange 3/|4'), { 'shop.planish': shop });
    const steps: string[] = [];
    for (let at: SelectionRange | undefined = selectionRanges(here.ask, [here.position])[0]; at !== undefined; at = at.parent)
      steps.push(wordsIn(here.text, at.range).trim().split('\n')[0] ?? '');
    expect(steps[0]).toBe('4');
    expect(steps.slice(1)).toEqual(['3/4', 'flange 3/4 down as lip', ...steps.slice(3)]);
    expect(steps).toContain('edge top, bottom {');
    expect(steps).toContain('panel lid {');
    expect(steps.at(-1)).toBe('with "shop.planish"');
  });
});

describe('colours by meaning', () => {
  const tokens = (here: Scene, range?: Parameters<typeof semanticTokens>[1]): string[] => {
    const { data } = semanticTokens(here.ask, range);
    const found: string[] = [];
    let line = 0;
    let character = 0;
    for (let at = 0; at + 4 < data.length; at += 5) {
      const [lines = 0, characters = 0, length = 0, type = 0, modifiers = 0] = data.slice(at, at + 5);
      character = lines === 0 ? character + characters : characters;
      line += lines;
      const words = wordsIn(here.text, { start: { line, character }, end: { line, character: character + length } });
      found.push(`${words} ${semanticTokensLegend.tokenTypes[type]}${(modifiers & 1) === 1 ? ' made' : ''}`);
    }
    return found;
  };
  it('tells words from names that look like them', () => {
    const here = scene('units inch\nlet width = 3/4 + max(1, 2 in)\npanel top {\n  outline rectangle width by 8 // cut\n}\n');
    expect(tokens(here)).toEqual([
      'units keyword',
      'inch keyword',
      'let keyword',
      'width variable made',
      '3/4 number',
      'max function',
      '1 number',
      '2 in number',
      'panel keyword',
      'top class made',
      'outline keyword',
      'rectangle keyword',
      'width variable',
      'by keyword',
      '8 number',
      '// cut comment',
    ]);
  });
  it('of a window are those of the whole that stand in it', () => {
    const here = scene(source, { 'shop.planish': shop });
    const some = tokens(here, { start: { line: 10, character: 0 }, end: { line: 11, character: 0 } });
    expect(some).toEqual(['outline keyword', 'rectangle keyword', 'wide variable', 'by keyword', '8 number']);
  });
});
