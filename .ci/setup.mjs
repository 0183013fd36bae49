// What the two commands share: say what is done while it is done, and install what is missing.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..');

export const say = (text) => process.stdout.write(`${text}\n`);

/** Runs a command in the project's folder; true when it ended well. */
export const run = (command, args, options = {}) => {
  const done = spawnSync(command, args, { cwd: root, stdio: 'inherit', ...options });
  if (done.error) say(`  ${command}: ${done.error.message}`);
  return done.status === 0;
};

const version = Number(process.versions.node.split('.')[0]);

/** The npm packages of the lock file, installed once and again when the lock changes. */
export const installPackages = () => {
  if (version < 20) {
    say(`Node 20 or later is needed; this is ${process.version}.`);
    process.exit(1);
  }
  const lock = path.join(root, 'package-lock.json');
  const mark = path.join(root, 'node_modules/.package-lock.json');
  if (fs.existsSync(mark) && fs.statSync(mark).mtimeMs >= fs.statSync(lock).mtimeMs) return;
  if (fs.existsSync(mark)) {
    // A fresh checkout gives the lock a new date; what counts is whether every package is there at its version.
    const listed = spawnSync('npm', ['ls', '--all', '--silent'], { cwd: root });
    if (listed.status === 0) {
      fs.utimesSync(mark, new Date(), new Date());
      return;
    }
  }
  say('Installing the npm packages of package-lock.json …');
  if (!run('npm', ['ci', '--no-audit', '--no-fund'])) {
    say('npm ci failed: is the npm registry reachable?');
    process.exit(1);
  }
};

const debian = [
  { package: 'chromium', file: '/usr/bin/chromium', use: 'the real editor in the tests' },
  { package: 'neovim', file: '/usr/bin/nvim', use: 'a second, independent language client' },
  { package: 'poppler-utils', file: '/usr/bin/pdftocairo', use: 'an independent reader of the PDF files' },
  { package: 'python3-ezdxf', file: '/usr/lib/python3/dist-packages/ezdxf/__init__.py', use: 'an independent reader of the DXF files' },
];

/** Debian packages that the tests use. Without root they are named and the person installs them. */
export const installDebianPackages = () => {
  const missing = debian.filter((each) => !fs.existsSync(each.file));
  if (missing.length === 0) return true;
  const names = missing.map((each) => each.package);
  for (const each of missing) say(`  missing: ${each.package} (${each.use})`);
  if (process.getuid?.() !== 0 || !fs.existsSync('/usr/bin/apt-get')) {
    say(`Please install them first:  sudo apt-get install ${names.join(' ')}`);
    return false;
  }
  say(`Installing Debian packages: ${names.join(' ')} …`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  return (
    run('apt-get', ['update', '-qq'], { env }) &&
    run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...names], { env, stdio: ['ignore', 'ignore', 'inherit'] })
  );
};
