import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folder, gate, planish, shop } from './bench.js';

/** The top flange is shorter than the 3/8 in that the brake grips. */
const short = gate.replace('flange 3/4 down', 'flange 1/8 down');
const good = folder({ 'shop.planish': shop, 'gate.planish': gate });
const bad = folder({ 'shop.planish': shop, 'gate.planish': short });

describe('planish check', () => {
  it('says that nothing is wrong', async () => {
    expect(await planish(good, ['check'])).toEqual({ code: 0, text: '2 files checked, nothing wrong.\n', errors: '' });
  });

  it('shows where and what, the words at fault underlined, the cure', async () => {
    const ran = await planish(bad, ['check', 'gate.planish']);
    expect(ran.code).toBe(1);
    // Line and column are counted from 1: `1/8` starts at the twentieth character of the eighth line.
    expect(ran.text).toMatch(/^gate\.planish:8:21: (error|warning): .*\[brake\/flange-too-short\]$/m);
    expect(ran.text).toContain('  8 | edge top { flange 1/8 down }\n    |                   ^^^\n');
    expect(ran.text).toMatch(/in 1 file\.\n$/);
  });

  it('wraps to a narrow terminal and keeps the words at fault in view', async () => {
    const ran = await planish(bad, ['check'], { columns: 44 });
    for (const line of ran.text.split('\n')) expect(line.length).toBeLessThanOrEqual(44);
    expect(ran.text).toMatch(/flange 1\/8 down.*\n +\| +\^\^\^\n/);
  });

  it('colours only where colour is wanted', async () => {
    const colourCode = String.fromCharCode(27);
    expect((await planish(bad, ['check'])).text).not.toContain(colourCode);
    expect((await planish(bad, ['check'], { colour: true })).text).toContain(`${colourCode}[`);
  });

  it('writes JSON with lines and columns from 1', async () => {
    const ran = await planish(bad, ['check', '--format', 'json']);
    const { schema, files, findings } = JSON.parse(ran.text) as { schema: number; files: number; findings: Record<string, unknown>[] };
    expect([schema, files]).toEqual([1, 2]);
    expect(findings.find((each) => each.rule === 'brake/flange-too-short')).toMatchObject({
      file: 'gate.planish',
      line: 8,
      column: 21,
      endLine: 8,
      endColumn: 24,
    });
  });

  it('writes SARIF 2.1.0 with the rules it speaks of', async () => {
    interface Sarif {
      readonly version: string;
      readonly runs: readonly {
        readonly tool: {
          readonly driver: {
            readonly name: string;
            readonly rules: readonly { readonly id: string; readonly help?: { readonly text: string } }[];
          };
        };
        readonly columnKind: string;
        readonly results: readonly {
          readonly ruleId: string;
          readonly ruleIndex: number;
          readonly level: string;
          readonly message: { readonly text: string };
          readonly locations: readonly { readonly physicalLocation: { readonly artifactLocation: object; readonly region: object } }[];
        }[];
      }[];
    }
    const ran = await planish(bad, ['check', '--format', 'sarif']);
    expect(ran.code).toBe(1);
    const log = JSON.parse(ran.text) as Sarif;
    expect(log.version).toBe('2.1.0');
    const run = log.runs[0];
    expect(run?.columnKind).toBe('utf16CodeUnits');
    const result = run?.results.find((each) => each.ruleId === 'brake/flange-too-short');
    const rule = run?.tool.driver.rules[result?.ruleIndex ?? -1];
    expect(rule?.id).toBe('brake/flange-too-short');
    expect(rule?.help?.text).toContain('Source:');
    expect(['error', 'warning', 'note']).toContain(result?.level);
    expect(result?.locations[0]?.physicalLocation).toEqual({
      artifactLocation: { uri: 'gate.planish', uriBaseId: '%SRCROOT%' },
      region: { startLine: 8, startColumn: 21, endLine: 8, endColumn: 24 },
    });
  });

  it('fails from the severity asked for', async () => {
    const name = { 'gate.planish': `${gate}let spare = = 3\n`, 'shop.planish': shop };
    const broken = folder(name);
    expect((await planish(broken, ['check'])).code).toBe(1);
    expect((await planish(broken, ['check', '--fail-on', 'never'])).code).toBe(0);
    expect(await planish(broken, ['check', '--fail-on', 'sometimes'])).toMatchObject({ code: 2, text: '' });
    expect((await planish(bad, ['check', '--fail-on', 'warning'])).code).toBe(1);
  });

  it('passes over node_modules and folders whose name starts with a dot', async () => {
    const here = folder({
      'shop.planish': shop,
      'node_modules/a/bad.planish': 'panel {',
      '.old/bad.planish': 'panel {',
      'deep/er/gate.planish': gate.replace('shop', '../../shop'),
    });
    expect((await planish(here, ['check'])).text).toBe('2 files checked, nothing wrong.\n');
  });

  it('names a folder without part files as a wrong call', async () => {
    expect((await planish(folder({}), ['check'])).code).toBe(2);
  });

  it('checks again when a file changes, until it is told to stop', async () => {
    const here = folder({ 'shop.planish': shop, 'gate.planish': gate });
    const stop = new AbortController();
    let text = '';
    let ready: () => void = () => undefined;
    let again: () => void = () => undefined;
    const watching = new Promise<void>((done) => {
      ready = done;
    });
    const checkedAgain = new Promise<void>((done) => {
      again = done;
    });
    const write = (each: string): void => {
      text += each;
      if (each.startsWith('Watching')) ready();
      if (text.includes('flange-too-short') && each.includes('in 2 files.')) again();
    };
    const ran = planish(here, ['check', '--watch'], { write, stop: stop.signal });
    await watching;
    writeFileSync(join(here, 'gate.planish'), short);
    await checkedAgain;
    stop.abort();
    expect((await ran).code).toBe(0);
    expect(text).toContain('gate.planish changed');
  });
});
