import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  CancellationTokenSource,
  type CompletionList,
  type Diagnostic,
  type FullDocumentDiagnosticReport,
  type Hover,
  LSPErrorCodes,
  type PublishDiagnosticsParams,
  type RelatedFullDocumentDiagnosticReport,
} from 'vscode-languageserver/node';
import type { FeatureAtResult, PatternResult, PictureChangedParams, PictureResult, TemplateResult } from '../../server/lsp/protocol.js';
import { builtServer, type Client, startClient } from './built.js';
import { shop } from './support.js';

const good = `with "shop.planish"
units inch
panel gate {
  sheet crs_18
  outline rectangle 12 by 8
  hole 1/4 at (1, 1)
}
`;
let server: string;
let folder: string;
const uri = (name: string): string => pathToFileURL(join(folder, name)).href;

beforeAll(async () => {
  server = await builtServer();
  folder = mkdtempSync(join(tmpdir(), 'planish-shop-'));
  writeFileSync(join(folder, 'shop.planish'), shop);
  writeFileSync(join(folder, 'gate.planish'), good);
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
  rmSync(dirname(server), { recursive: true, force: true });
});

const open = (client: Client, name: string, text: string): Promise<void> =>
  client.connection.sendNotification('textDocument/didOpen', { textDocument: { uri: uri(name), languageId: 'planish', version: 1, text } });
const replace = (client: Client, name: string, version: number, line: number, from: number, to: number, text: string): Promise<void> =>
  client.connection.sendNotification('textDocument/didChange', {
    textDocument: { uri: uri(name), version },
    contentChanges: [{ range: { start: { line, character: from }, end: { line, character: to } }, text }],
  });
const errors = (found: readonly Diagnostic[]): string[] =>
  found.filter((one) => one.severity === 1).map((one) => `${one.range.start.line} ${one.code}`);

describe('a client that asks for findings', () => {
  let client: Client;
  const pull = (name: string, previousResultId?: string): Promise<RelatedFullDocumentDiagnosticReport> =>
    client.connection.sendRequest('textDocument/diagnostic', { textDocument: { uri: uri(name) }, previousResultId });
  beforeAll(async () => {
    client = await startClient(
      server,
      { textDocument: { diagnostic: { relatedDocumentSupport: true }, completion: { completionItem: { snippetSupport: true } } } },
      pathToFileURL(folder).href,
    );
  });
  afterAll(async () => expect(await client.stop()).toBe(0));

  it('is told what the server can do', () => {
    const able = client.initialized.capabilities;
    expect(able.diagnosticProvider).toMatchObject({ interFileDependencies: true });
    expect(able.positionEncoding).toBe('utf-16');
  });

  it('gets none for a sound file, one at the words at fault after an edit, and none again when it is undone', async () => {
    await open(client, 'gate.planish', good);
    const before = await pull('gate.planish');
    expect(errors(before.items)).toEqual([]);
    expect(await pull('gate.planish', before.resultId)).toEqual({ kind: 'unchanged', resultId: before.resultId });
    await replace(client, 'gate.planish', 2, 3, 8, 14, 'crs_81');
    const broken = await pull('gate.planish', before.resultId);
    expect(errors(broken.items).map((one) => one.split(' ')[0])).toEqual(['3']);
    expect(broken.items[0]?.message).toContain('crs_18');
    await replace(client, 'gate.planish', 3, 3, 8, 14, 'crs_18');
    expect(errors((await pull('gate.planish')).items)).toEqual([]);
  });

  it('completes at the cursor and documents what is looked at', async () => {
    const list: CompletionList = await client.connection.sendRequest('textDocument/completion', {
      textDocument: { uri: uri('gate.planish') },
      position: { line: 3, character: 8 },
    });
    const sheet = list.items.find((item) => item.label === 'crs_18');
    expect(sheet).toBeDefined();
    const resolved = (await client.connection.sendRequest('completionItem/resolve', sheet)) as { documentation: { value: string } };
    expect(resolved.documentation.value).toContain('thickness 18 ga');
  });

  it('is told of a file not open that an edit elsewhere breaks, with the report of the one asked about', async () => {
    await open(client, 'shop.planish', shop);
    writeFileSync(join(folder, 'lid.planish'), good.replace('panel gate', 'panel lid'));
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri: uri('lid.planish'), type: 1 }] });
    const hover: Hover | null = await client.connection.sendRequest('textDocument/hover', {
      textDocument: { uri: uri('lid.planish') },
      position: { line: 2, character: 7 },
    });
    expect(hover).not.toBeNull();
    await pull('shop.planish');
    await replace(client, 'shop.planish', 2, 2, 6, 12, 'crs_20');
    const report = await pull('shop.planish');
    const lid = report.relatedDocuments?.[uri('lid.planish')] as FullDocumentDiagnosticReport;
    expect(errors(lid.items).map((one) => one.split(' ')[0])).toEqual(['3']);
    await replace(client, 'shop.planish', 3, 2, 6, 12, 'crs_18');
  });

  it('writes a file to start from, and says why a name will not do', async () => {
    const made: TemplateResult = await client.connection.sendRequest('planish/template', { kind: 'panel', name: 'lid', shop });
    expect(made.text).toMatch(/^with "shop\.planish"\n\nunits inch\n.*\npanel lid \{\n/s);
    expect(await client.connection.sendRequest('planish/template', { kind: 'panel', name: 'panel' })).toEqual({
      fault: expect.stringContaining('word of the language'),
    });
  });

  it('draws, names what is drawn under the cursor, writes the pattern and says when a picture is old', async () => {
    const changed = new Promise<PictureChangedParams>((resolve) => client.connection.onNotification('planish/pictureChanged', resolve));
    const drawn: PictureResult = await client.connection.sendRequest('planish/picture', { uri: uri('gate.planish') });
    expect(drawn).toMatchObject({ part: 'gate', stale: false, version: 3 });
    expect(drawn.svg).toContain('data-id="outline"');
    const under: FeatureAtResult = await client.connection.sendRequest('planish/featureAt', {
      uri: uri('gate.planish'),
      position: { line: 5, character: 3 },
    });
    expect(under).toEqual({ part: 'gate', ids: ['cut:hole.1'] });
    const pattern: PatternResult = await client.connection.sendRequest('planish/pattern', {
      uri: uri('gate.planish'),
      part: 'gate',
      format: 'dxf',
    });
    expect(pattern.name).toBe('gate.dxf');
    expect(pattern.text).toMatch(/EOF\s*$/);
    await replace(client, 'gate.planish', 4, 4, 20, 22, '');
    expect(await changed).toEqual({ uri: uri('gate.planish'), version: 4 });
    const old: PictureResult = await client.connection.sendRequest('planish/picture', { uri: uri('gate.planish') });
    expect(old).toMatchObject({ part: 'gate', stale: true, version: 4 });
    expect(old.reason).toBeTruthy();
    expect(old.svg).toContain('data-id="outline"');
  });

  it('a request about nonsense is answered with nothing and the server lives', async () => {
    expect(
      await client.connection.sendRequest('textDocument/hover', {
        textDocument: { uri: 'nonsense' },
        position: { line: 9e6, character: 3 },
      }),
    ).toBeNull();
    await expect(client.connection.sendRequest('textDocument/hover', {})).resolves.toBeNull();
    expect(client.log.some((line) => line.startsWith('hover:'))).toBe(true);
    expect((await pull('gate.planish')).kind).toBe('full');
  });
});

describe('work that takes a while', () => {
  it('tells how far it is, and is given up when it is told to', async () => {
    const client = await startClient(server, {}, pathToFileURL(folder).href);
    writeFileSync(
      join(folder, 'many.planish'),
      good.replace('panel gate {', 'panel bracket {\n  quantity 90').replace('12 by 8', '12 by 5 1/2'),
    );
    const told: { readonly kind: string; readonly message?: string; readonly percentage?: number }[] = [];
    let started = (): void => undefined;
    const first = new Promise<void>((resolve) => {
      started = resolve;
    });
    client.connection.onNotification(
      '$/progress',
      ({ token, value }: { readonly token: string; readonly value: (typeof told)[number] }) => {
        if (token !== 'mine') return;
        told.push(value);
        if (value.message?.startsWith('crs_18') === true) started();
      },
    );
    const stop = new CancellationTokenSource();
    const cut = client.connection.sendRequest(
      'planish/cut',
      { uri: uri('many.planish'), what: 'file', seconds: 600, workDoneToken: 'mine' },
      stop.token,
    );
    await first;
    stop.cancel();
    await expect(cut).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
    expect(told[0]).toMatchObject({ kind: 'begin' });
    expect(told.at(-1)).toEqual({ kind: 'end' });
    expect(told.filter(({ kind }) => kind === 'report').every(({ percentage = -1 }) => percentage >= 0 && percentage <= 100)).toBe(true);
    // It answers as before.
    await expect(client.connection.sendRequest('planish/cutFiles', { id: '1', format: 'csv' })).resolves.toMatchObject({ files: [] });
    expect(await client.stop()).toBe(0);
  });
});

describe('a client that waits to be told', () => {
  it('is sent findings with their version after each edit, and none once the file is closed', async () => {
    const client = await startClient(server, {}, pathToFileURL(folder).href);
    expect(client.initialized.capabilities.diagnosticProvider).toBeUndefined();
    const sent: PublishDiagnosticsParams[] = [];
    const arrivals: (() => void)[] = [];
    client.connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      sent.push(params);
      for (const arrived of arrivals) arrived();
    });
    const until = (wanted: (params: PublishDiagnosticsParams) => boolean): Promise<PublishDiagnosticsParams> =>
      new Promise((resolve) => {
        const look = (): void => {
          const found = sent.find(wanted);
          if (found !== undefined) resolve(found);
        };
        arrivals.push(look);
        look();
      });
    await open(client, 'gate.planish', good);
    expect(errors((await until((one) => one.uri === uri('gate.planish') && one.version === 1)).diagnostics)).toEqual([]);
    await replace(client, 'gate.planish', 2, 3, 8, 14, 'crs_81');
    await replace(client, 'gate.planish', 3, 3, 8, 14, 'crs_18');
    await replace(client, 'gate.planish', 4, 3, 8, 14, 'crs_81');
    expect(errors((await until((one) => one.version === 4)).diagnostics)).toHaveLength(1);
    await client.connection.sendNotification('textDocument/didClose', { textDocument: { uri: uri('gate.planish') } });
    expect(await until((one) => one.version === undefined && one.uri === uri('gate.planish'))).toMatchObject({ diagnostics: [] });
    expect(await client.stop()).toBe(0);
  });
});
