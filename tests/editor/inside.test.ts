/** The suite of `inside/` in a real extension host, through @vscode/test-electron: the desktop program where it can be had, the stand-in where not. */

import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { downloadAndUnzipVSCode, runTests } from '@vscode/test-electron';
import { build } from 'esbuild';
import { beforeAll, expect, test } from 'vitest';

const root = path.resolve(import.meta.dirname, '../..');
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'planish-suite-'));
const results = path.join(scratch, 'results.json');

/** The downloaded desktop program where there is a display for it and a network to fetch it over; else the stand-in. */
const program = async (): Promise<string> => {
  const standIn = path.join(root, 'tests/editor/desktop-stand-in.mjs');
  if (process.platform === 'linux' && process.env.DISPLAY === undefined) return standIn;
  return downloadAndUnzipVSCode().catch((error: unknown) => {
    console.log(`  VS Code can't be downloaded (${String(error)}): using the stand-in`);
    return standIn;
  });
};

beforeAll(async () => {
  const suite = path.join(scratch, 'suite.cjs');
  await build({
    entryPoints: [path.join(root, 'tests/editor/inside/index.ts')],
    outfile: suite,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    external: ['vscode'],
    logLevel: 'error',
  });
  const workspace = path.join(scratch, 'workspace');
  fs.mkdirSync(workspace);
  await runTests({
    vscodeExecutablePath: await program(),
    extensionDevelopmentPath: root,
    extensionTestsPath: suite,
    launchArgs: [workspace],
    extensionTestsEnv: { PLANISH_RESULTS: results },
  }).catch((error: unknown) => {
    // The tests' own report says which failed; without one the run itself is broken.
    if (!fs.existsSync(results)) throw error;
  });
});

test('every test inside the extension host passes', () => {
  const report = JSON.parse(fs.readFileSync(results, 'utf8')) as { name: string; error?: string }[];
  for (const each of report)
    console.log(`  ${each.error === undefined ? 'passed' : 'FAILED'}  ${each.name}${each.error === undefined ? '' : `\n${each.error}`}`);
  expect(report.length).toBeGreaterThanOrEqual(10);
  expect(report.filter((each) => each.error !== undefined).map((each) => each.name)).toEqual([]);
});
