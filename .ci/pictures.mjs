// `npm run pictures`: the README's sheets of all sample parts, drawn as the editor draws them, into samples/pictures/.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { chromium } from 'playwright-core';
import { chromiumArguments, chromiumPath } from '../tests/editor/workbench.mjs';
import { installPackages, root, say } from './setup.mjs';

installPackages();
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'planish-pictures-'));
const bundle = path.join(scratch, 'core.mjs');
await build({
  stdin: {
    contents: `export { createProject } from './server/project.js'; export { memoryFiles } from './server/files.js'; export { picture } from './server/sheets/index.js';`,
    resolveDir: root,
  },
  outfile: bundle,
  bundle: true,
  platform: 'node',
  format: 'esm',
  logLevel: 'error',
});
const { createProject, memoryFiles, picture } = await import(pathToFileURL(bundle));

const style = `${fs.readFileSync(path.join(root, 'client/preview/preview.css'), 'utf8')}
  :root { --vscode-editor-background: #ffffff; --vscode-editor-foreground: #1f2328; --vscode-charts-blue: #1a5fb4; --vscode-charts-orange: #b06a00;
    --vscode-descriptionForeground: #57606a; --vscode-font-family: 'DejaVu Sans', sans-serif; }
  html, body { display: block; height: auto; overflow: visible; margin: 0; padding: 0; background: #ffffff; color: #1f2328; font: 15px 'DejaVu Sans', sans-serif; }
  main { display: grid; grid-template-columns: repeat(4, 1fr); gap: 14px; padding: 14px; width: 1500px; box-sizing: border-box; }
  figure { margin: 0; border: 1px solid #d0d7de; padding: 10px; }
  figure svg { width: 100%; height: 230px; display: block; }
  figcaption { border-top: 1px solid #d0d7de; padding-top: 8px; }`;

const browser = await chromium.launch({ executablePath: chromiumPath, headless: true, args: chromiumArguments });
const page = await browser.newPage({ viewport: { width: 1500, height: 900 } });
for (const sample of ['cargo-trike', 'tool-cabinet']) {
  const folder = path.join(root, 'samples', sample);
  const names = fs.readdirSync(folder).filter((name) => name.endsWith('.planish'));
  const texts = Object.fromEntries(names.map((name) => [`/${sample}/${name}`, fs.readFileSync(path.join(folder, name), 'utf8')]));
  const project = createProject({ files: memoryFiles(texts), root: `/${sample}` });
  const figures = Object.keys(texts)
    .flatMap((file) => project.parts(file).map((result) => picture(result, { unit: project.model(file).units, denominator: 64 })))
    .map(({ svg, title }) => `<figure>${svg}<figcaption>${title.replaceAll('&', '&amp;').replaceAll('<', '&lt;')}</figcaption></figure>`);
  await page.setContent(`<!doctype html><style>${style}</style><main>${figures.join('')}</main>`);
  const file = path.join(root, 'samples/pictures', `${sample}.png`);
  fs.mkdirSync(path.dirname(file), { recursive: true });
  await page.locator('main').screenshot({ path: file });
  say(`${path.relative(root, file)}: ${figures.length} parts`);
}
await browser.close();
fs.rmSync(scratch, { recursive: true });
