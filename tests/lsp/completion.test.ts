import { describe, expect, it } from 'vitest';
import type { CompletionItem, MarkupContent, TextEdit } from 'vscode-languageserver';
import { completions, resolveCompletion } from '../../server/lsp/completion.js';
import { edited, type Scene, scene, shop } from './support.js';

const offered = (
  source: string,
  others: Record<string, string> = { 'shop.planish': shop },
): { here: Scene; items: CompletionItem[]; labels: string[] } => {
  const here = scene(source, others);
  const { items } = completions(here.ask, here.position, { snippets: true });
  return { here, items, labels: items.map((item) => item.label) };
};
const taken = (source: string, label: string, others?: Record<string, string>): string => {
  const { here, items } = offered(source, others);
  const item = items.find((one) => one.label === label);
  return item === undefined ? `${label} is not offered` : edited(here.text, [item.textEdit as TextEdit]);
};
const head = 'with "shop.planish"\nunits inch\n';

describe('completion', () => {
  it('at the top of a file, statements that may stand there', () => {
    const { labels } = offered('|\n');
    expect(labels).toEqual(expect.arrayContaining(['panel', 'section', 'let', 'units', 'with', 'sheet', 'material', 'brake']));
    expect(labels).not.toContain('flange');
  });
  it('statements in the order in which one comes to need them', () => {
    const inOrder = (source: string): string[] =>
      offered(source)
        .items.toSorted((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1))
        .map((item) => item.label);
    const part = inOrder(`${head}panel gate {\n  |\n}\n`);
    expect(part.slice(0, 2)).toEqual(['sheet', 'outline']);
    expect(part.indexOf('edge')).toBeLessThan(part.indexOf('let'));
    const file = inOrder('|\n');
    expect(file.slice(0, 2)).toEqual(['panel', 'section']);
    expect(file.indexOf('with')).toBeLessThan(file.indexOf('material'));
    // Nothing is computed from these yet.
    expect(file.slice(-2).toSorted()).toEqual(expect.arrayContaining(['assembly']));
  });
  it('a statement that goes on with a name says so', () => {
    const { items } = offered(`${head}panel gate {\n  |\n}\n`);
    const data = (label: string): unknown => items.find((item) => item.label === label)?.data;
    expect(data('sheet')).toEqual({ kind: 'statement', entry: expect.stringMatching(/^sheet/), names: true });
    expect(data('hole')).toEqual({ kind: 'statement', entry: 'hole' });
  });
  it('in an edge block, what is turned on an edge', () => {
    const { labels } = offered(`${head}panel gate {\n  edge top {\n    |\n  }\n}\n`);
    expect(labels).toEqual(expect.arrayContaining(['flange', 'hem', 'curl']));
    expect(labels).not.toContain('panel');
  });
  it('in a section, legs and turns, and what its edges can carry; holes name those by first and last', () => {
    const body = `${head}section rail {\n  length 200\n  hem 8 open 2\n  leg 20\n  turn up\n  leg 20\n`;
    const { labels } = offered(`${body}  |\n}\n`);
    expect(labels).toEqual(expect.arrayContaining(['leg', 'turn', 'hem', 'curl', 'joggle', 'tab', 'rolled']));
    expect(labels).not.toContain('flange');
    const faces = offered(`${body}  hole 4 on |\n}\n`).labels;
    expect(faces).toEqual(expect.arrayContaining(['leg.1', 'leg.2', 'first']));
    expect(faces).not.toContain('last');
  });
  it('sheets where a sheet is wanted, with what they are', () => {
    expect(taken(`${head}panel gate {\n  sheet |\n}\n`, 'crs_18')).toBe(`${head}panel gate {\n  sheet crs_18\n}\n`);
    expect(offered(`${head}panel gate {\n  sheet |\n}\n`).labels).not.toContain('mild_steel');
  });
  it('a word half written is replaced, not doubled', () => {
    expect(taken(`${head}panel gate {\n  sheet cr|\n}\n`, 'crs_18')).toBe(`${head}panel gate {\n  sheet crs_18\n}\n`);
  });
  it('edges where an edge is wanted', () => {
    expect(offered(`${head}panel gate {\n  outline rectangle 12 by 8\n  edge |\n}\n`).labels).toEqual(
      expect.arrayContaining(['top', 'bottom', 'left', 'right']),
    );
  });
  it('values and functions where a size is wanted', () => {
    const { labels } = offered(`${head}let wide = 12\npanel gate {\n  outline rectangle |\n}\n`);
    expect(labels).toEqual(expect.arrayContaining(['wide', 'max', 'round']));
  });
  it('up and down after the length of a flange', () => {
    expect(offered(`${head}panel gate {\n  edge top { flange 3/4 | }\n}\n`).labels).toEqual(expect.arrayContaining(['up', 'down']));
  });
  it('units after a number, of the kind wanted there', () => {
    const { labels } = offered(`${head}panel gate {\n  edge top { flange 3/4 | }\n}\n`);
    expect(labels).toEqual(expect.arrayContaining(['in', 'mm']));
    expect(labels).not.toContain('kg');
  });
  it('what a part measures, after a dot', () => {
    const source = `${head}panel gate {\n  sheet crs_18\n  outline rectangle 12 by 8\n  check gate.blank.|\n}\n`;
    expect(offered(source).labels).toEqual(expect.arrayContaining(['width', 'height', 'area']));
    expect(offered(`${head}let p = (3, 4)\nlet q = p.|\n`).labels).toEqual(['x', 'y']);
  });
  it('files of the project in the path of a with', () => {
    const others = { 'shop.planish': shop, 'parts/lid.planish': '' };
    expect(offered('with "|\n', others).labels).toEqual(['shop.planish', 'parts/lid.planish']);
    expect(taken('with "sh|op"\n', 'shop.planish', others)).toBe('with "shop.planish"\n');
  });
  it('nothing in a comment or a text', () => {
    expect(offered('// see |\n').labels).toEqual([]);
    expect(offered(`${head}panel gate {\n  check 1 < 2 "must |"\n}\n`).labels).toEqual([]);
  });
  it('a block comes with its braces where the editor knows snippets, as a plain word where not', () => {
    const here = scene('|\n');
    const text = (snippets: boolean): string | undefined =>
      (completions(here.ask, here.position, { snippets }).items.find((item) => item.label === 'panel')?.textEdit as TextEdit | undefined)
        ?.newText;
    expect(text(true)).toMatch(/^panel \$\{1:\w+\} \{\n\t\$0\n\}$/);
    expect(text(false)).toBe('panel');
  });
  it('opens by itself after a blank only where something must follow, so that Enter ends a finished statement', () => {
    const opened = (source: string): string[] => {
      const here = scene(source, { 'shop.planish': shop });
      return completions(here.ask, here.position, { snippets: true, afterBlank: true }).items.map((item) => item.label);
    };
    expect(opened(`${head}panel gate {\n  edge top {\n    flange 3/4 |\n  }\n}\n`)).toEqual(expect.arrayContaining(['up', 'down']));
    expect(opened(`${head}panel gate {\n  edge top {\n    flange 3/4 up |\n  }\n}\n`)).toEqual([]);
  });
  it('documentation comes when an item is looked at', () => {
    const { here, items } = offered(`${head}panel gate {\n  sheet |\n}\n`);
    const read = (item: CompletionItem | undefined): string =>
      item === undefined ? '' : (resolveCompletion(item, () => here.ask).documentation as MarkupContent).value;
    const sheet = items.find((item) => item.label === 'crs_18');
    expect(sheet?.documentation).toBeUndefined();
    expect(read(sheet)).toContain('sheet crs_18 { material mild_steel thickness 18 ga');
    const top = offered('|\n');
    expect(read(top.items.find((item) => item.label === 'panel'))).toContain('panel');
  });
});
