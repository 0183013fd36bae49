// Makes planish.vsix, or the file named: builds for production, checks what would go in, packs it, and refuses one that has grown too big.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..');
const manifest = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8'));
const vsix = path.join(root, process.argv[2] ?? 'planish.vsix');
const most = 8 * 1024 * 1024;

const stop = (text) => {
  process.stderr.write(`${text}\n`);
  process.exit(1);
};
const run = (file, ...args) => {
  const done = spawnSync(process.execPath, [file, ...args], { cwd: root, stdio: 'inherit' });
  if (done.status !== 0) stop(`${path.basename(file)} failed`);
};

/** Every file that package.json points the editor at. */
const named = (value) =>
  typeof value === 'string'
    ? value.startsWith('./')
      ? [value]
      : []
    : value && typeof value === 'object'
      ? Object.values(value).flatMap(named)
      : [];
const missing = named({ main: manifest.main, icon: `./${manifest.icon}`, contributes: manifest.contributes });

run(path.join(root, '.ci/build.mjs'), '--production');
for (const file of missing) if (!fs.existsSync(path.join(root, file))) stop(`package.json names ${file}, which is not there`);
// Which files go in is package.json's "files", the same list that npm follows. The bundles hold their dependencies.
// The readme's pictures stay in the repository; links to them are left as they are.
const options = ['--no-dependencies', '--allow-missing-repository', '--no-rewrite-relative-links'];
run(path.join(root, 'node_modules/@vscode/vsce/vsce'), 'package', ...options, '--out', vsix);
const size = fs.statSync(vsix).size;
if (size > most) stop(`${path.basename(vsix)} is ${size} bytes; ${most} is the most it may be`);
process.stdout.write(`${path.basename(vsix)}: ${(size / 1024).toFixed(0)} KB\n`);
