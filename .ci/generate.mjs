// Writes the files that are printed from tables: `node .ci/generate.mjs`. With `--check` writes nothing and exits 1 when one is stale.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');
const generators = [
  { from: 'grammar/vocabulary/reference.ts', call: 'reference', to: 'grammar/reference.md' },
  { from: 'grammar/editor/textmate.ts', call: 'textMateGrammar', to: 'grammar/editor/planish.tmLanguage.json' },
  { from: 'grammar/editor/configuration.ts', call: 'languageConfiguration', to: 'grammar/editor/language-configuration.json' },
  { from: 'grammar/editor/snippets.ts', call: 'snippets', to: 'grammar/editor/snippets.json' },
  { from: 'server/rules/manual.ts', call: 'manual', to: 'server/rules/reference.md' },
];

/** JSON laid out the way the checkout's formatter lays it out, so that the two never disagree. */
const laidOut = (file, value) => {
  const done = spawnSync(path.join(root, 'node_modules/.bin/biome'), ['format', `--stdin-file-path=${file}`], {
    cwd: root,
    input: `${JSON.stringify(value, null, 2)}\n`,
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  if (done.status !== 0) throw new Error(`formatting ${file}: ${done.stderr}`);
  return done.stdout;
};

const check = process.argv.includes('--check');
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'planish-generate-'));
let stale = 0;
try {
  for (const [index, { from, call, to }] of generators.entries()) {
    const bundle = path.join(scratch, `${index}.mjs`);
    await build({
      entryPoints: [path.join(root, from)],
      bundle: true,
      platform: 'node',
      format: 'esm',
      outfile: bundle,
      logLevel: 'error',
    });
    const made = (await import(pathToFileURL(bundle).href))[call]();
    const text = typeof made === 'string' ? made : laidOut(to, made);
    const file = path.join(root, to);
    const old = fs.existsSync(file) ? fs.readFileSync(file, 'utf8') : undefined;
    if (old === text) continue;
    if (check) {
      console.error(`${to} is stale: it is printed from ${from}; run \`npm run generate\``);
      stale += 1;
      continue;
    }
    fs.writeFileSync(`${file}.new`, text);
    fs.renameSync(`${file}.new`, file);
    console.log(`${to} written`);
  }
} finally {
  fs.rmSync(scratch, { recursive: true, force: true });
}
process.exitCode = stale > 0 ? 1 : 0;
