import { PassThrough } from 'node:stream';
import { afterAll, describe, expect, it } from 'vitest';
import {
  type ClientCapabilities,
  createConnection,
  createProtocolConnection,
  type FullDocumentDiagnosticReport,
  type MarkupContent,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import manifest from '../../package.json' with { type: 'json' };
import { bendingOf } from '../../server/lsp/bending.js';
import { codeActions } from '../../server/lsp/codeActions.js';
import { codeLenses } from '../../server/lsp/codeLens.js';
import { diagnosticsOf } from '../../server/lsp/diagnostics.js';
import { hover } from '../../server/lsp/hover.js';
import { inlayHints } from '../../server/lsp/inlayHints.js';
import { pictureOf } from '../../server/lsp/picture.js';
import type { BendingResult } from '../../server/lsp/protocol.js';
import { startServer } from '../../server/lsp/server.js';
import { boxBrake, leafBrake, metal } from '../brake/build.js';
import { edited, type Scene, scene, wordsIn } from './support.js';

const tray = `panel a {
  sheet s
  outline rectangle 200 by 150
  edge top, bottom { flange 25 up }
  edge left { |flange 25 up }
}
`;
const keeper = `panel a {
  sheet s
  outline rectangle 60 by 50
  edge top {
    |flange 30 up as riser
    flange 40 up as bridge
  }
}
`;
const planned = (text: string): Scene => {
  const here = scene(text);
  here.ask.project.findingsWithPlans(here.ask.path);
  return here;
};
const everywhere = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
const hintsOf = ({ ask, text }: Scene): string[] =>
  inlayHints(ask, everywhere).flatMap(({ position, label }) => {
    const line = text.split('\n')[position.line] ?? '';
    return /step|hand/.test(String(label)) ? [`${line.slice(0, position.character).trim()} | ${String(label)}`] : [];
  });

describe('at the words of a bend', () => {
  it('its step and the angle to set, once there is a plan', () => {
    const here = scene(`${metal}${boxBrake}${tray}`);
    expect(hintsOf(here)).toEqual([]);
    here.ask.project.findingsWithPlans(here.ask.path);
    expect(hintsOf(here)).toEqual([
      expect.stringMatching(/^edge top, bottom \{ flange 25 up \| steps \d, \d, set 90\.\d°$/),
      expect.stringMatching(/^edge left \{ flange 25 up \| step \d, set 90\.\d°$/),
    ]);
  });
  it('hover says what to do', () => {
    const here = planned(`${metal}${boxBrake}${tray}`);
    const said = JSON.stringify(hover(here.ask, here.position)?.contents);
    expect(said).toMatch(/\*\*step \d of 3\*\* on bench: left/);
    expect(said).toContain('under the nose, face up');
    expect(said).toMatch(/set 90\.\d° for 90°/);
    expect(JSON.stringify(hover(scene(`${metal}${boxBrake}${tray}`).ask, here.position)?.contents)).not.toContain('**step');
  });
  it('or what stops it, with the cure that was tried', () => {
    const here = planned(`${metal}${leafBrake}${keeper}`);
    const [diagnostic] = diagnosticsOf(here.ask);
    expect(diagnostic).toMatchObject({ code: 'brake/strikes', severity: 1 });
    expect(diagnostic === undefined ? '' : wordsIn(here.text, diagnostic.range)).toMatch(/^flange \d0 up as/);
    expect(diagnostic?.relatedInformation).toHaveLength(1);
    expect(JSON.stringify(hover(here.ask, here.position)?.contents)).toContain('no order of the bends works on bench');
    const at = diagnostic?.range ?? everywhere;
    const [cure] = codeActions(here.ask, { start: at.start, end: at.start }, undefined, diagnosticsOf(here.ask));
    here.ask.project.setText(here.ask.path, edited(here.text, cure?.edit?.changes?.['file:///shop/gate.planish'] ?? []));
    expect(here.ask.project.findingsWithPlans(here.ask.path)).toEqual([]);
    // The flat picture shows it too.
    expect(pictureOf(planned(`${metal}${leafBrake}${keeper}`).ask, 1, 'a', undefined).svg).toMatch(/class="feature bend has_error"/);
  });
  it('of several bends written at once each step has one line, of a single bend all is said', () => {
    const both = planned(`${metal}${boxBrake}${tray.replace('|', '').replace('{ flange', '{ |flange')}`);
    const said = (here: Scene): string => (hover(here.ask, here.position)?.contents as MarkupContent | undefined)?.value ?? '';
    const several = said(both)
      .split('---')
      .find((block) => block.includes('**steps'));
    const lines = several?.trim().split('  \n') ?? [];
    expect(lines[0]).toMatch(/^\*\*steps \d, \d of 3\*\* on bench$/);
    expect(lines.slice(1)).toHaveLength(2);
    for (const line of lines.slice(1)) expect(line).toMatch(/^step \d, (top|bottom)\.1: .* under the nose, face up, .*; set \d+(\.\d)?°/);
    expect(said(planned(`${metal}${boxBrake}${tray}`))).toMatch(/\*\*step \d of 3\*\* on bench: left\.1 {2}\n/);
  });
  it('what stands behind a line is shown whole: the editor’s own limit would cut it off', () => {
    const { ask } = planned(`${metal}${boxBrake}${tray.replace('|', '').replace('top, bottom', 'top, bottom, right')}`);
    const lengths = new Map<number, number>();
    for (const { position, label } of inlayHints(ask, everywhere))
      lengths.set(position.line, (lengths.get(position.line) ?? 0) + String(label).length);
    const longest = Math.max(...lengths.values());
    const own: number = manifest.contributes.configurationDefaults['[planish]']['editor.inlayHints.maximumLength'];
    expect(longest).toBeGreaterThan(36);
    expect(longest).toBeLessThanOrEqual(own);
  });
  it('above the part, how many steps, or that no order works', () => {
    const title = (text: string): string | undefined =>
      codeLenses(planned(text).ask).find(({ command }) => command?.command === 'planish.planBending')?.command?.title;
    expect(title(`${metal}${boxBrake}${tray}`)).toBe('bending: 3 steps');
    expect(title(`${metal}${leafBrake}${keeper}`)).toBe('bending: no order works');
    expect(title(`${metal}${tray}`)).toBeUndefined();
  });
});

describe('the view of the bending', () => {
  it('waits for the plan, then gives each step its picture, its words and its place on the blank', () => {
    const { ask } = scene(`${metal}${boxBrake}${tray}`);
    expect(bendingOf(ask, 1, 'a', undefined)).toMatchObject({ part: 'a', working: true, model: undefined });
    ask.project.findingsWithPlans(ask.path);
    const answer = bendingOf(ask, 1, 'a', undefined);
    expect(answer).toMatchObject({ working: false, stale: false, title: 'a, panel, bench' });
    const { model } = answer;
    expect(model?.possible).toBe(true);
    expect(model?.steps).toHaveLength(3);
    for (const [index, step] of (model?.steps ?? []).entries()) {
      expect(step.done).toHaveLength(index);
      expect(step.words.some((words) => words.includes('under the nose, face up'))).toBe(true);
      expect(step.motion?.machine.map(({ tool }) => tool)).toEqual(['nose', 'bed', 'apron']);
      expect([...(step.motion?.held ?? []), ...(step.motion?.swings ?? [])].some(({ strikes }) => strikes)).toBe(false);
      // Bent a little farther than it stays.
      expect(step.motion?.rests).toBeCloseTo(Math.PI / 2, 6);
      expect((step.motion?.set ?? 0) - (step.motion?.rests ?? 0)).toBeGreaterThan(1e-3);
      expect(answer.features.map(({ id }) => id)).toEqual(expect.arrayContaining([...step.bends, step.held]));
    }
  });
  it('shows what strikes what, where it strikes the most, and the changes that free it', () => {
    const { ask } = planned(`${metal}${leafBrake}${keeper}`);
    const { model } = bendingOf(ask, 1, 'a', undefined);
    expect(model).toMatchObject({ possible: false, steps: [] });
    const [stop] = model?.stops ?? [];
    expect(stop?.words).toMatch(/strikes the nose/);
    expect(stop?.motion?.machine.filter(({ struck }) => struck).map(({ tool }) => tool)).toEqual(['nose']);
    expect([...(stop?.motion?.held ?? []), ...(stop?.motion?.swings ?? [])].some(({ strikes }) => strikes)).toBe(true);
    expect(stop?.motion?.rests).toBeLessThanOrEqual(stop?.motion?.set ?? 0);
    expect(model?.cures.every((cure) => /^make (riser|bridge) \S+ mm instead of/.test(cure))).toBe(true);
  });
  it('the plan of the last good text stays while the text is broken', () => {
    const { ask, text } = planned(`${metal}${boxBrake}${tray}`);
    ask.project.setText(ask.path, text.replace('200 by 150', '200 by'));
    const answer = bendingOf(ask, 2, 'a', undefined);
    expect(answer).toMatchObject({ stale: true, working: false });
    expect(answer.model?.steps).toHaveLength(3);
    expect(answer.reason).toBeTruthy();
  });
  it('says in words why there is none', () => {
    const reason = (text: string): string | undefined => bendingOf(planned(text).ask, 1, undefined, undefined).reason;
    expect(reason(`${metal}${tray}`)).toMatch(/no brake/);
    expect(reason(`${metal}${boxBrake}panel a { sheet s  outline rectangle 20 by 10 }\n`)).toBe('a has no bends.');
    expect(reason(metal)).toBe('There is no part in this file yet. One begins with panel, section or piece, and its name.');
  });
});

/** A server and a client in this process. */
const connected = async (capabilities: ClientCapabilities): Promise<ProtocolConnection> => {
  const [up, down] = [new PassThrough(), new PassThrough()];
  startServer(createConnection(new StreamMessageReader(up), new StreamMessageWriter(down)));
  const client = createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  client.listen();
  await client.sendRequest('initialize', { processId: null, rootUri: null, capabilities });
  await client.sendNotification('initialized', {});
  clients.push(client);
  return client;
};
const clients: ProtocolConnection[] = [];
afterAll(() => {
  for (const client of clients) client.dispose();
});
const uri = 'untitled:bending.planish';
const open = (client: ProtocolConnection, text: string): Promise<void> =>
  client.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'planish', version: 1, text } });
const change = (client: ProtocolConnection, version: number, text: string): Promise<void> =>
  client.sendNotification('textDocument/didChange', { textDocument: { uri, version }, contentChanges: [{ text }] });

describe('after a keystroke', () => {
  const text = `${metal}${leafBrake}${keeper.replace('|', '')}`;
  it('a client that asks is answered at once, and told to ask again when the plan is made', async () => {
    const client = await connected({ textDocument: { diagnostic: {} }, workspace: { diagnostics: { refreshSupport: true } } });
    let refreshed = 0;
    let tell = (): void => undefined;
    client.onRequest('workspace/diagnostic/refresh', () => {
      refreshed++;
      tell();
      return null;
    });
    const refresh = (): Promise<void> =>
      new Promise((resolve) => {
        tell = resolve;
      });
    const pull = async (): Promise<readonly (string | number | undefined)[]> => {
      const report: FullDocumentDiagnosticReport = await client.sendRequest('textDocument/diagnostic', { textDocument: { uri } });
      return report.items.map(({ code }) => code);
    };
    const first = refresh();
    await open(client, text);
    expect(await pull()).toEqual([]);
    await first;
    expect(await pull()).toEqual(['brake/strikes']);
    // Another part of the file: the plan is kept, and nothing is made anew.
    await change(client, 2, `${text}panel b { sheet s  outline rectangle 20 by 10 }\n`);
    expect(await pull()).toEqual(['brake/strikes']);
    // Keystroke upon keystroke: each is answered without a plan; only the last is planned.
    const before = refreshed;
    const last = refresh();
    for (let version = 3; version < 9; version++) {
      await change(client, version, text.replace('flange 40', `flange ${40 + version}`));
      expect(await pull()).toEqual([]);
    }
    await last;
    expect(await pull()).toEqual(['brake/strikes']);
    expect(refreshed).toBeGreaterThan(before);
  });
  it('a client that is told gets the first answers, then those of the plan, of the same version', async () => {
    const client = await connected({});
    const sent: PublishDiagnosticsParams[] = [];
    const plan = new Promise<void>((resolve) => {
      client.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
        sent.push(params);
        if (params.diagnostics.length > 0) resolve();
      });
    });
    await open(client, text);
    await plan;
    expect(sent.map(({ version, diagnostics }) => [version, ...diagnostics.map(({ code }) => code)])).toEqual([[1], [1, 'brake/strikes']]);
  });
  it('the view is told when its plan is there', async () => {
    const client = await connected({});
    const told = new Promise((resolve) => client.onNotification('planish/pictureChanged', resolve));
    await open(client, text);
    const ask = (): Promise<BendingResult> => client.sendRequest('planish/bending', { uri });
    expect(await ask()).toMatchObject({ part: 'a', working: true });
    await told;
    let answer = await ask();
    for (let tries = 0; answer.working && tries < 200; tries++) {
      await new Promise((resolve) => setTimeout(resolve, 50));
      answer = await ask();
    }
    expect(answer.model).toMatchObject({ possible: false });
  });
});
