import { describe, expect, it } from 'vitest';
import { CodeActionKind } from 'vscode-languageserver';
import { defaultSettings } from '../../server/lsp/ask.js';
import { codeActions } from '../../server/lsp/codeActions.js';
import { diagnosticsOf } from '../../server/lsp/diagnostics.js';
import { explain } from '../../server/lsp/explain.js';
import { signatureHelp } from '../../server/lsp/signatureHelp.js';
import { edited, scene, shop, wordsIn } from './support.js';

const head = 'with "shop.planish"\nunits inch\n';
const twice = `${head}panel lid {\n  sheet crs_81\n  outline rectangle 12 by 8\n}\npanel gate {\n  sheet crs_8|1\n  outline rectangle 12 by 8\n}\n`;

describe('findings in the protocol’s form', () => {
  it('stand at the words at fault with rule, severity and source', () => {
    const { ask, text } = scene(twice, { 'shop.planish': shop });
    expect(diagnosticsOf(ask).map((one) => [one.severity, one.source, wordsIn(text, one.range)])).toEqual([
      [1, 'planish', 'crs_81'],
      [1, 'planish', 'crs_81'],
    ]);
    expect(diagnosticsOf(ask)[0]?.code).toMatch(/^name\//);
  });
  it('follow the severities that the settings give', () => {
    const rule = String(diagnosticsOf(scene(twice, { 'shop.planish': shop }).ask)[0]?.code);
    const ask = (severity: 'off' | 'hint'): number[] =>
      diagnosticsOf(scene(twice, { 'shop.planish': shop }, { ...defaultSettings, severities: { [rule]: severity } }).ask).map(
        (one) => one.severity ?? 0,
      );
    expect(ask('off')).toEqual([]);
    expect(ask('hint')).toEqual([4, 4]);
  });
  it('count letters as editors do, beyond the first plane too', () => {
    const { ask, text } = scene(twice.replace('sheet crs_81', 'note "🚲"; sheet crs_81'), { 'shop.planish': shop });
    expect(diagnosticsOf(ask).map((one) => wordsIn(text, one.range))).toContain('crs_81');
  });
});

describe('cures', () => {
  const actions = (only?: string[]): ReturnType<typeof codeActions> => {
    const { ask, position } = scene(twice, { 'shop.planish': shop });
    return codeActions(ask, { start: position, end: position }, only, diagnosticsOf(ask));
  };
  it('the one at the cursor, then all of the kind, then where to read why', () => {
    const { text } = scene(twice);
    const [cure, all, why] = actions();
    expect(cure?.diagnostics?.length).toBeGreaterThan(0);
    expect(edited(text, cure?.edit?.changes?.['file:///shop/gate.planish'] ?? [])).toBe(text.replace(/crs_81(?![\s\S]*crs_81)/, 'crs_18'));
    expect(all?.title).toMatch(/^Put right all 2 of name\//);
    expect(edited(text, all?.edit?.changes?.['file:///shop/gate.planish'] ?? [])).toBe(text.replaceAll('crs_81', 'crs_18'));
    expect(why?.command).toMatchObject({ command: 'planish.explain', arguments: [{ rule: cure?.diagnostics?.[0]?.code }] });
  });
  it('one that changes another file says so to the editor', () => {
    const { ask, position } = scene('with "sizes.planish"\nunits millimetre\nlet sum = wide |+ 5\n', {
      'sizes.planish': 'units inch\nlet wide = 12\n',
    });
    const touched = codeActions(ask, { start: position, end: position }, undefined, []).flatMap((action) =>
      Object.entries(action.edit?.changes ?? {}),
    );
    const there = touched.find(([uri]) => uri === 'file:///shop/sizes.planish');
    expect(edited('units inch\nlet wide = 12\n', there?.[1] ?? [])).toMatch(/^units inch\nlet wide = 12 ?(in|inch|")\n$/);
  });
  it('none when another kind of action was asked for', () => {
    expect(actions([CodeActionKind.Refactor])).toEqual([]);
    expect(actions([CodeActionKind.QuickFix]).length).toBe(3);
  });
  it('none where nothing is wrong', () => {
    const { ask } = scene(twice, { 'shop.planish': shop });
    expect(codeActions(ask, { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, undefined, [])).toEqual([]);
  });
});

describe('explaining', () => {
  it('a rule: what, why, an example and its cure, the source', () => {
    const { markdown } = explain('sheet/blank-too-large');
    for (const heading of ['## Why it matters', '## Example', '## Put right', 'Source: ']) expect(markdown).toContain(heading);
  });
  it('a word of the language', () => expect(explain('flange').markdown).toContain('# flange'));
  it('nothing of a word nobody knows', () => expect(explain('frobnicate').markdown).toBeUndefined());
});

describe('signature help', () => {
  const marked = (source: string): string => {
    const { ask, position } = scene(source, { 'shop.planish': shop });
    const help = signatureHelp(ask, position);
    const signature = help?.signatures[0];
    const span = signature?.parameters?.[help?.activeParameter ?? 0]?.label;
    return signature === undefined
      ? 'nothing'
      : `${signature.label.split(' ')[0]}: ${Array.isArray(span) ? signature.label.slice(span[0], span[1]) : 'none'}`;
  };
  it.each([
    [`${head}panel gate {\n  edge top { flange | }\n}\n`, 'flange: LENGTH'],
    [`${head}panel gate {\n  edge top { flange 3/4 | }\n}\n`, 'flange: up|down'],
    [`${head}let a = diagonal(3, |)\n`, 'diagonal(a,: b'],
    [`${head}let a = max(1, 2, 3, |)\n`, 'max(a,: …'],
    ['// flange |\n', 'nothing'],
    ['|\n', 'nothing'],
  ])('%#', (source, expected) => expect(marked(source)).toBe(expected));
});

describe('a bead out of the roller’s reach', () => {
  const beading = `${shop}roller hand_roller { throat 8 arm 2 }
die shallow { round width 3/8 depth 1/16 }
panel floor {
  sheet crs_18
  outline rectangle 36 by 24
  bead rib { die shallow up line from (8, 11) to (28, |11) }
}
`;
  it('is put right by its action, and then the finding is gone', () => {
    const { ask, position, text } = scene(beading);
    const [diagnostic] = diagnosticsOf(ask);
    expect(diagnostic).toMatchObject({ severity: 1, code: 'bead/out-of-reach' });
    expect(diagnostic === undefined ? '' : wordsIn(text, diagnostic.range)).toBe('line from (8, 11) to (28, 11)');
    const [cure] = codeActions(ask, { start: position, end: position }, undefined, diagnosticsOf(ask));
    const after = edited(text, cure?.edit?.changes?.['file:///shop/gate.planish'] ?? []);
    expect(after).toBe(text.replace('(8, 11) to (28, 11)', '(8, 8) to (28, 8)'));
    ask.project.setText(ask.path, after);
    expect(diagnosticsOf(ask)).toEqual([]);
  });
});
