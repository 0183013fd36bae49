import { describe, expect, it } from 'vitest';
import { definition } from '../../server/lsp/definition.js';
import { documentLinks } from '../../server/lsp/documentLinks.js';
import { documentHighlights, references } from '../../server/lsp/references.js';
import { prepareRename, rename } from '../../server/lsp/rename.js';
import { workspaceSymbols } from '../../server/lsp/workspaceSymbols.js';
import { edited, type Scene, scene, shop, short, wordsIn } from './support.js';

const gate = (body: string): string => `with "shop.planish"
units inch
let gate_width = 30
panel gate {
  sheet crs_18
  outline rectangle gate_width by 11
${body}
}
`;
const lid = `with "gate.planish"
with "shop.planish"
units inch
panel lid {
  sheet crs_18
  outline rectangle gate_width by 5
}
`;
const textOf = (here: Scene, path: string): string => here.ask.project.tree(path).text;

describe('go to definition', () => {
  const at = (source: string): string[] => {
    const here = scene(source, { 'shop.planish': shop, 'lid.planish': lid });
    return definition(here.ask, here.position).map((link) => {
      const path = link.targetUri.replace('file://', '');
      const words = wordsIn(textOf(here, path), link.targetSelectionRange);
      return `${path} ${short(link.targetSelectionRange)} ${words}`;
    });
  };
  it('from a value to its let', () =>
    expect(at(gate('  hole 1/4 at (gate|_width / 2, 1)'))).toEqual(['/shop/gate.planish 2:4-2:14 gate_width']));
  it('from just behind the last letter', () =>
    expect(at(gate('  hole 1/4 at (gate_width|, 1)'))).toEqual(['/shop/gate.planish 2:4-2:14 gate_width']));
  it('from a sheet to the shop', () => expect(at(gate('').replace('crs_18', 'cr|s_18'))).toEqual(['/shop/shop.planish 2:6-2:12 crs_18']));
  it('from a path to its file', () => expect(at(gate('').replace('shop.pl', 'shop|.pl'))).toEqual(['/shop/shop.planish 0:0-0:0 ']));
  it('from a word of the language, nowhere', () => expect(at(gate('  ho|le 1/4 at (1, 1)'))).toEqual([]));
});

describe('references', () => {
  const at = (source: string, withDefinition: boolean): string[] => {
    const here = scene(source, { 'shop.planish': shop, 'lid.planish': lid });
    return references(here.ask, here.position, withDefinition).map((one) => `${one.uri.split('/').pop()} ${short(one.range)}`);
  };
  it('of a value, in every file that brings it', () => {
    expect(at(gate('').replace('let gate_', 'let ga|te_'), true)).toEqual([
      'gate.planish 2:4-2:14',
      'gate.planish 5:20-5:30',
      'lid.planish 5:20-5:30',
    ]);
    expect(at(gate('').replace('let gate_', 'let ga|te_'), false)).toEqual(['gate.planish 5:20-5:30', 'lid.planish 5:20-5:30']);
  });
  it('lit up in this file: written where it is made, read where it is used', () => {
    const here = scene(gate('  hole 1/4 at (gate|_width - 1, 1)'), { 'shop.planish': shop });
    expect(documentHighlights(here.ask, here.position).map((one) => `${short(one.range)} ${one.kind === 3 ? 'write' : 'read'}`)).toEqual([
      '2:4-2:14 write',
      '5:20-5:30 read',
      '6:15-6:25 read',
    ]);
  });
});

describe('rename', () => {
  const renamed = (source: string, fresh: string): Record<string, string> | string => {
    const here = scene(source, { 'shop.planish': shop, 'lid.planish': lid });
    const answer = rename(here.ask, here.position, fresh);
    if (!answer.ok) return answer.reason;
    return Object.fromEntries(
      Object.entries(answer.value.changes ?? {}).map(([uri, edits]) => [
        uri.replace('file:///shop/', ''),
        edited(textOf(here, uri.replace('file://', '')), edits),
      ]),
    );
  };
  it('changes every file that uses the name', () => {
    expect(renamed(gate('').replace('rectangle gate_', 'rectangle |gate_'), 'width')).toEqual({
      'gate.planish': gate('').replaceAll('gate_width', 'width'),
      'lid.planish': lid.replaceAll('gate_width', 'width'),
    });
  });
  it('refuses a word of the language', () =>
    expect(renamed(gate('').replace('let gate_', 'let |gate_'), 'panel')).toBe("panel is a word of the language, so it can't be a name."));
  it('refuses what is no name', () =>
    expect(renamed(gate('').replace('let gate_', 'let |gate_'), '3 wide')).toContain("3 wide can't be a name"));
  it('refuses a name that is taken', () => {
    const source = gate('').replace('let gate_', 'let height = 4\nlet |gate_');
    expect(renamed(source, 'height')).toBe('height is taken: the value in gate.planish, line 3 already has that name.');
  });
  it('changes each place once: a metal that is read for a gauge and for a rating', () => {
    const here = scene(
      shop.replace('sheet crs_18 { material mild_steel', 'sheet crs_18 { material mild|_steel').replace('0.0598 of', '16 ga of'),
    );
    const answer = rename(here.ask, here.position, 'plain_steel');
    if (!answer.ok) throw new Error(answer.reason);
    expect(edited(here.text, Object.values(answer.value.changes ?? {}).flat())).toBe(here.text.replaceAll('mild_steel', 'plain_steel'));
  });
  it('refuses a name that would be read as another thing in a sum', () => {
    const source = gate('  check shop.blank.width < 3')
      .replace('with "shop.planish"', 'with "shop.planish" as box')
      .replace('crs_18', 'box.crs_18');
    const taken = /^\w+ is taken: the /;
    expect(renamed(source.replace('let gate_', 'let |gate_'), 'box')).toMatch(taken);
    expect(renamed(source.replace('panel gate', 'panel ga|te'), 'box')).toMatch(taken);
    expect(renamed(source.replace('as box', 'as b|ox'), 'gate_width')).toMatch(taken);
    expect(renamed(source.replace('as box', 'as b|ox'), 'gate')).toMatch(taken);
  });
  it('refuses a name that braces within give to another value, and takes it where the two never meet', () => {
    const source = gate('  repeat 3 as column every 2 along x { hole 1/4 at (1, 1) }\n  let own = 2');
    expect(renamed(source.replace('let gate_', 'let |gate_'), 'column')).toMatch(/^column is taken: the /);
    expect(renamed(source.replace('as column', 'as col|umn'), 'gate_width')).toMatch(/^gate_width is taken: the /);
    const two = `units inch\npanel a { let o|wn = 2 }\npanel b { let other = 3 }\n`;
    expect(renamed(two, 'other')).toMatchObject({ 'gate.planish': two.replace('o|wn', 'other') });
  });
  it('gives the name to change, and refuses on a word or on a name the language gives', () => {
    const ask = (source: string): unknown => {
      const here = scene(source, { 'shop.planish': shop });
      const answer = prepareRename(here.ask, here.position);
      return answer.ok ? `${short(answer.value.range)} ${answer.value.placeholder}` : answer.reason;
    };
    expect(ask(gate('').replace('panel gate', 'panel ga|te'))).toBe('3:6-3:10 gate');
    expect(ask(gate('  ho|le 1/4 at (1, 1)'))).toContain('Only names can be renamed');
    expect(ask(gate('  edge to|p { flange 1 up }'))).toBe("top is not a name made in one of these files, so it can't be renamed here.");
  });
});

describe('symbols of the workspace', () => {
  it('are found by letters in order, across files', () => {
    const here = scene(gate(''), { 'shop.planish': shop, 'lid.planish': lid });
    const found = (query: string): string[] =>
      workspaceSymbols(here.ask, query).map((one) => `${one.name} ${one.location.uri.split('/').pop()}`);
    expect(found('gwi')).toEqual(['gate_width gate.planish']);
    expect(found('CRS')).toEqual(['crs_18 shop.planish']);
    expect(found('lid')).toEqual(['lid lid.planish']);
    expect(found('zzz')).toEqual([]);
  });
});

describe('links', () => {
  it('lead from each path that can be had', () => {
    const here = scene('with "shop.planish"\nwith "gone.planish"\nunits inch\n', { 'shop.planish': shop });
    const links = documentLinks(here.ask);
    expect(links.map((link) => link.target)).toEqual(['file:///shop/shop.planish']);
    expect(wordsIn(here.text, links[0]?.range ?? { start: here.position, end: here.position })).toContain('shop.planish');
  });
});
