#!/usr/bin/env node
// Stands where @vscode/test-electron expects the desktop program: takes its arguments, runs the same test entry in code-server's
// Node extension host with headless Chromium as the window, and ends with the tests' exit code. For machines that can't download VS Code.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { chromiumArguments, chromiumPath, ensureInstalled, prepare, start } from './workbench.mjs';

const options = new Map();
const rest = [];
for (const argument of process.argv.slice(2)) {
  const match = /^--([\w-]+)(?:=(.*))?$/s.exec(argument);
  if (match) options.set(match[1], match[2] ?? '');
  else rest.push(argument);
}
const workspace =
  rest.map((each) => path.resolve(each)).find((each) => fs.existsSync(each) && fs.statSync(each).isDirectory()) ??
  fs.mkdtempSync(path.join(os.tmpdir(), 'planish-empty-'));

ensureInstalled();
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'planish-host-'));
prepare(folder);
const passedOn = Object.fromEntries(Object.entries(process.env).filter(([name]) => name.startsWith('PLANISH_')));
const server = await start(folder, { development: true, extra: passedOn });
const browser = await chromium.launch({ executablePath: chromiumPath, headless: true, args: chromiumArguments });
let code = 1;
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const done = new Promise((resolve, reject) => {
    setTimeout(() => reject(new Error(`the tests did not end within 150 s; see ${server.log}`)), 150_000).unref();
    page.on('crash', () => reject(new Error('the page crashed')));
    page.exposeFunction('codeAutomationExit', (exit) => resolve(exit)).catch(reject);
    page
      .exposeFunction('codeAutomationLog', (_type, args) => {
        const line = args.join(' ');
        if (!/Ignoring fetching|reconnection|socket|connection token/.test(line)) console.log(line);
      })
      .catch(reject);
  });
  done.catch(() => {});
  await page.goto(
    server.pageUrl(workspace, [
      ['extensionDevelopmentPath', server.uri(path.resolve(options.get('extensionDevelopmentPath')))],
      ['extensionTestsPath', server.uri(path.resolve(options.get('extensionTestsPath')))],
    ]),
  );
  code = await done;
} finally {
  await browser.close();
  await server.stop();
  if (code === 0) fs.rmSync(folder, { recursive: true, force: true });
}
process.exit(code);
