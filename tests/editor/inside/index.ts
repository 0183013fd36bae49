/**
 * Runs inside the extension host (as `extensionTestsPath`), with the `vscode` API. Writes one line a test to the file named by
 * PLANISH_RESULTS, which the vitest file beside reads and asserts.
 */
import assert from 'node:assert/strict';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import * as vscode from 'vscode';

const shop = `units inch
material mild_steel { gauge table steel  density 7850 kg/m3  yield 210 MPa  tensile 330 MPa }
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/16 k 0.42 }
brake bench_leaf { leaf  length 48  capacity 16 ga of mild_steel  least flange 3/8 }
`;
const lid = `with "shop.planish"
units inch

/// Rain lid.
panel lid {
  sheet crs_18
  outline rectangle 12 by 8
  edge top { flange 1/2 down }
}
`;

const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'planish-inside-'));

/** Waits until the answer is there; editors and servers answer when they are ready. */
const until = async <T>(what: string, ask: () => T | undefined | Promise<T | undefined>): Promise<T> => {
  const deadline = Date.now() + 20_000;
  for (;;) {
    const answer = await ask();
    if (answer !== undefined) return answer;
    if (Date.now() > deadline) throw new Error(`timed out: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
};

const open = async (name: string, text: string): Promise<vscode.TextEditor> => {
  const file = path.join(folder, name);
  fs.writeFileSync(path.join(folder, 'shop.planish'), shop);
  fs.writeFileSync(file, text);
  const document = await vscode.workspace.openTextDocument(vscode.Uri.file(file));
  return vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.One, preview: false });
};
const replace = async (editor: vscode.TextEditor, from: string, to: string): Promise<void> => {
  const at = editor.document.getText().indexOf(from);
  assert.ok(at >= 0, `"${from}" stands in the text`);
  const range = new vscode.Range(editor.document.positionAt(at), editor.document.positionAt(at + from.length));
  assert.ok(await editor.edit((edit) => edit.replace(range, to)));
};
const errors = (document: vscode.TextDocument): vscode.Diagnostic[] =>
  vscode.languages.getDiagnostics(document.uri).filter((each) => each.severity === vscode.DiagnosticSeverity.Error);
const codeOf = (each: vscode.Diagnostic): string => String(typeof each.code === 'object' ? each.code.value : each.code);
const inText = (document: vscode.TextDocument, words: string, within = 0): vscode.Position =>
  document.positionAt(document.getText().indexOf(words) + within);

const tests: Readonly<Record<string, () => Promise<void>>> = {
  'the extension starts on a part file': async () => {
    await open('start.planish', lid);
    const extension = vscode.extensions.all.find((each) => each.packageJSON.name === 'planish');
    assert.ok(extension, 'the extension is there');
    await until('activation', () => (extension.isActive ? true : undefined));
  },
  'a clean part has no findings, a short flange has one at its length': async () => {
    const editor = await open('short.planish', lid);
    await replace(editor, 'flange 1/2', 'flange 1/8');
    const found = await until('the finding', () => errors(editor.document).find((each) => codeOf(each) === 'brake/flange-too-short'));
    assert.equal(editor.document.getText(found.range), '1/8');
    await replace(editor, 'flange 1/8', 'flange 1/2');
    await until('a clean file', () => (errors(editor.document).length === 0 ? true : undefined));
  },
  'the quick fix puts the short flange right': async () => {
    const editor = await open('fix.planish', lid.replace('flange 1/2', 'flange 1/8'));
    const found = await until('the finding', () => errors(editor.document).find((each) => codeOf(each) === 'brake/flange-too-short'));
    const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      editor.document.uri,
      found.range,
    );
    const fix = actions.find((each) => each.edit && each.kind?.value.startsWith('quickfix'));
    assert.ok(fix?.edit, `a fix is offered among: ${actions.map((each) => each.title).join(', ')}`);
    assert.ok(await vscode.workspace.applyEdit(fix.edit));
    await until('a clean file', () => (errors(editor.document).length === 0 ? true : undefined));
    assert.match(editor.document.getText(), /flange 3\/8 down/);
  },
  'completion offers the sheets of the shop': async () => {
    const editor = await open('complete.planish', lid.replace('sheet crs_18', 'sheet '));
    const items = await until('completion', async () => {
      const answer = await vscode.commands.executeCommand<vscode.CompletionList>(
        'vscode.executeCompletionItemProvider',
        editor.document.uri,
        inText(editor.document, '  sheet ', 8),
      );
      return answer.items.some((item) => item.label === 'crs_18' || (typeof item.label === 'object' && item.label.label === 'crs_18'))
        ? answer.items
        : undefined;
    });
    assert.ok(items.length > 0);
  },
  'hover on a part gives its blank, on a length both units': async () => {
    const editor = await open('hover.planish', lid);
    const words = async (position: vscode.Position): Promise<string> => {
      const hovers = await vscode.commands.executeCommand<vscode.Hover[]>('vscode.executeHoverProvider', editor.document.uri, position);
      return hovers.flatMap((each) => each.contents.map((content) => (typeof content === 'string' ? content : content.value))).join('\n');
    };
    await until('the part', async () => (/blank/i.test(await words(inText(editor.document, 'panel lid', 7))) ? true : undefined));
    const size = await words(inText(editor.document, '12 by', 1));
    assert.match(size, /304\.8/);
  },
  'definition goes to the shop file, rename reaches it': async () => {
    const editor = await open('names.planish', lid);
    const position = inText(editor.document, 'crs_18', 2);
    const places = await until('the definition', async () => {
      const answer = await vscode.commands.executeCommand<(vscode.Location | vscode.LocationLink)[]>(
        'vscode.executeDefinitionProvider',
        editor.document.uri,
        position,
      );
      return answer.length > 0 ? answer : undefined;
    });
    const first = places[0];
    assert.ok(first);
    assert.match(('targetUri' in first ? first.targetUri : first.uri).path, /shop\.planish$/);
    const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
      'vscode.executeDocumentRenameProvider',
      editor.document.uri,
      position,
      'sheet_18',
    );
    const touched = edit.entries().map(([uri]) => path.basename(uri.path));
    assert.ok(touched.includes('shop.planish') && touched.includes('names.planish'), touched.join());
  },
  'formatting keeps comments and numbers': async () => {
    const editor = await open('format.planish', 'units inch\nlet   a=1-3/8   // as measured\nlet b = a -1/8\n');
    const edits = await until('formatting', async () => {
      const answer = await vscode.commands.executeCommand<vscode.TextEdit[] | undefined>(
        'vscode.executeFormatDocumentProvider',
        editor.document.uri,
        { tabSize: 2, insertSpaces: true },
      );
      return answer && answer.length > 0 ? answer : undefined;
    });
    const edit = new vscode.WorkspaceEdit();
    edit.set(editor.document.uri, edits);
    assert.ok(await vscode.workspace.applyEdit(edit));
    assert.match(editor.document.getText(), /let a = 1-3\/8 +\/\/ as measured\nlet b = a - 1\/8/);
  },
  'symbols, folding, lenses, inlays and links are there': async () => {
    const editor = await open('many.planish', lid);
    const { uri } = editor.document;
    const all = new vscode.Range(0, 0, editor.document.lineCount, 0);
    const symbols = await until('symbols', async () =>
      vscode.commands.executeCommand<vscode.DocumentSymbol[] | undefined>('vscode.executeDocumentSymbolProvider', uri),
    );
    assert.ok(symbols.some((each) => each.name.includes('lid')));
    const folds = await vscode.commands.executeCommand<vscode.FoldingRange[]>('vscode.executeFoldingRangeProvider', uri);
    assert.ok(folds.length >= 1);
    const lenses = await vscode.commands.executeCommand<vscode.CodeLens[]>('vscode.executeCodeLensProvider', uri, 10);
    assert.ok(lenses.length >= 1);
    const inlays = await vscode.commands.executeCommand<vscode.InlayHint[]>('vscode.executeInlayHintProvider', uri, all);
    assert.ok(inlays.length >= 1);
    const links = await vscode.commands.executeCommand<vscode.DocumentLink[]>('vscode.executeLinkProvider', uri);
    assert.ok(links.some((each) => each.target?.path.endsWith('shop.planish')));
    const tokens = await vscode.commands.executeCommand<vscode.SemanticTokens>('vscode.provideDocumentSemanticTokens', uri);
    assert.ok(tokens.data.length > 10);
  },
  'an unsaved change in the shop reaches the part that brings it': async () => {
    const editor = await open('unsaved.planish', lid);
    await until('a clean file', () => (errors(editor.document).length === 0 ? true : undefined));
    const other = await vscode.window.showTextDocument(vscode.Uri.file(path.join(folder, 'shop.planish')), {
      viewColumn: vscode.ViewColumn.One,
    });
    await replace(other, 'least flange 3/8', 'least flange 3/4');
    await until('the finding in the part', () => errors(editor.document).find((each) => codeOf(each) === 'brake/flange-too-short'));
    await replace(other, 'least flange 3/4', 'least flange 3/8');
    await until('a clean file again', () => (errors(editor.document).length === 0 ? true : undefined));
  },
  'the pattern is exported as DXF and SVG': async () => {
    const editor = await open('export.planish', lid);
    for (const ending of ['dxf', 'svg']) {
      const target = vscode.Uri.file(path.join(folder, `lid.${ending}`));
      await vscode.commands.executeCommand('planish.exportPattern', {
        uri: editor.document.uri.toString(),
        part: 'lid',
        format: ending,
        target: target.toString(),
      });
      const text = fs.readFileSync(target.fsPath, 'utf8');
      assert.match(text, ending === 'dxf' ? /\$INSUNITS/ : /viewBox=/);
    }
  },
  'the parts of a folder are laid out, and the list is saved': async () => {
    const editor = await open('cut.planish', lid);
    const opened = await vscode.commands.executeCommand<boolean>('planish.cutStock', {
      uri: editor.document.uri.toString(),
      what: 'file',
      seconds: 0,
    });
    assert.equal(opened, true);
    const tab = await until('the page', () =>
      vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs).find(({ label }) => label === 'Cutting: cut'),
    );
    assert.ok(tab.input instanceof vscode.TabInputWebview);
    const target = vscode.Uri.file(path.join(folder, 'bill.csv'));
    await vscode.commands.executeCommand('planish.saveCutting', { format: 'csv', target: target.toString() });
    assert.match(fs.readFileSync(target.fsPath, 'utf8'), /^kind,stock,width_in,length_in.*\r\nsheet,crs_18,48,96,1,0,1,/);
    const plots = vscode.Uri.file(path.join(folder, 'plots'));
    const saved = await vscode.commands.executeCommand<vscode.Uri[]>('planish.saveCutting', { format: 'all', target: plots.toString() });
    assert.ok(saved.some((file) => file.path.endsWith('/plots/crs_18-1.dxf')));
    assert.match(fs.readFileSync(path.join(plots.fsPath, 'crs_18-1.dxf'), 'latin1'), /AC1009/);
  },
  'the job booklet is made as PDF and as a web page, of the text as it stands': async () => {
    const editor = await open('book.planish', lid);
    await replace(editor, 'Rain lid.', 'Lid over the fuel can.');
    for (const format of ['pdf', 'html']) {
      const target = vscode.Uri.file(path.join(folder, `lid-booklet.${format}`));
      const saved = await vscode.commands.executeCommand<vscode.Uri>('planish.makeBooklet', {
        uri: editor.document.uri.toString(),
        what: 'file',
        format,
        target: target.toString(),
      });
      assert.equal(saved.toString(), target.toString());
    }
    assert.match(fs.readFileSync(path.join(folder, 'lid-booklet.pdf'), 'latin1').slice(0, 8), /^%PDF-1/);
    const page = fs.readFileSync(path.join(folder, 'lid-booklet.html'), 'utf8');
    for (const words of ['Lid over the fuel can.', 'Fuel near the work', 'lid: 1 off']) assert.ok(page.includes(words), words);
  },
  'a new part checks clean as it is written': async () => {
    const made = await vscode.commands.executeCommand<vscode.Uri | undefined>('planish.newPart', {
      kind: 'panel',
      name: 'shelf_end',
      units: 'millimetre',
    });
    const editor = await until('the new text', () =>
      vscode.window.visibleTextEditors.find((each) => each.document.getText().includes('panel shelf_end')),
    );
    assert.ok(made === undefined || made instanceof vscode.Uri);
    assert.equal(editor.document.languageId, 'planish');
    await until('a clean text', () => (errors(editor.document).length === 0 ? true : undefined));
  },
  'the sample project is copied, and checks clean where it lands': async () => {
    const place = await vscode.commands.executeCommand<vscode.Uri>('planish.openSample', {
      sample: 'tool-cabinet',
      folder: vscode.Uri.file(folder).toString(),
      open: false,
    });
    const files = (await vscode.workspace.fs.readDirectory(place)).map(([name]) => name).filter((name) => name.endsWith('.planish'));
    assert.ok(files.length >= 5, files.join());
    const document = await vscode.workspace.openTextDocument(
      vscode.Uri.joinPath(place, files.find((name) => name !== 'shop.planish') ?? ''),
    );
    await vscode.window.showTextDocument(document);
    const lenses = await until('the server', async () => {
      const answer = await vscode.commands.executeCommand<vscode.CodeLens[]>('vscode.executeCodeLensProvider', document.uri, 10);
      return answer.length > 0 ? answer : undefined;
    });
    assert.match(lenses.map((each) => each.command?.title).join(' '), /blank \d/);
    assert.deepEqual(errors(document), []);
  },
};

export const run = async (): Promise<void> => {
  const results: { name: string; error: string | undefined }[] = [];
  for (const [name, test] of Object.entries(tests)) {
    try {
      await test();
      results.push({ name, error: undefined });
    } catch (error) {
      results.push({ name, error: error instanceof Error ? (error.stack ?? error.message) : String(error) });
    }
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
    await vscode.commands.executeCommand('workbench.action.closeAllEditors');
  }
  fs.writeFileSync(process.env.PLANISH_RESULTS ?? path.join(folder, 'results.json'), JSON.stringify(results));
  const bad = results.filter((each) => each.error !== undefined);
  if (bad.length > 0) throw new Error(`${bad.length} of ${results.length} failed inside the extension host`);
};
