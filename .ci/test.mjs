// `npm test`: sets up what it needs, then passes everything, saying what it does. The last line is `N passed, N failed`.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { installDebianPackages, installPackages, root, run, say } from './setup.mjs';

let passed = 0;
let failed = 0;
const bin = (name) => path.join(root, 'node_modules/.bin', name);
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'planish-test-'));

/** One step: counted as one check unless it returns its own counts. */
const step = (title, what) => {
  const start = Date.now();
  say(`\n== ${title}`);
  const outcome = what();
  const counts = typeof outcome === 'object' ? outcome : outcome ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
  passed += counts.passed;
  failed += counts.failed;
  say(`-- ${title}: ${counts.passed} passed, ${counts.failed} failed (${((Date.now() - start) / 1000).toFixed(1)} s)`);
  return counts.failed === 0;
};

/** Vitest with its own report kept as JSON, so that its tests are counted and not only its exit code. */
const vitest = (...args) => {
  const file = path.join(scratch, `${passed + failed}.json`);
  const ended = run(bin('vitest'), ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${file}`, ...args]);
  if (!fs.existsSync(file)) return { passed: 0, failed: 1 };
  const report = JSON.parse(fs.readFileSync(file, 'utf8'));
  const bad = report.numFailedTests + (report.numFailedTests === 0 && !ended ? 1 : 0);
  return { passed: report.numPassedTests, failed: bad + (report.numPassedTests + bad === 0 ? 1 : 0) };
};

/** The layers, and that the check really saw the rooms. */
const layering = () => {
  const done = spawnSync(
    bin('depcruise'),
    ['grammar', 'server', 'client', '--config', '.dependency-cruiser.cjs', '--output-type', 'json'],
    { cwd: root, encoding: 'utf8', maxBuffer: 1 << 28 },
  );
  const report = JSON.parse(done.stdout);
  const own = report.modules.filter((module) => /^(grammar|server|client)\//.test(module.source));
  for (const each of report.summary.violations) say(`  ${each.rule.name}: ${each.from} -> ${each.to}`);
  say(`  ${own.length} modules, ${report.summary.totalDependenciesCruised} dependencies seen`);
  return own.length > 40 && report.summary.error === 0;
};

installPackages();
const tools = installDebianPackages();

step('types', () => run(bin('tsc'), ['--noEmit']) && run(bin('tsc'), ['--noEmit', '-p', 'client/preview']));
step('format and lint', () => run(bin('biome'), ['ci', '--reporter=summary', '.']));
step('typed lint', () => run(bin('eslint'), ['grammar', 'server', 'client']));
step('layering', layering);
step('generated files are fresh', () => run(process.execPath, ['.ci/generate.mjs', '--check']));
step('bundles', () => run(process.execPath, ['.ci/build.mjs', '--production']));
step('unit, published checks, short fuzz', () => vitest());
step('package the extension', () => run(process.execPath, ['.ci/package.mjs']));
step('real VS Code', () => {
  if (tools) return vitest('--config', 'tests/editor/vitest.config.ts');
  say('  left out: Chromium is not installed');
  return false;
});

fs.rmSync(scratch, { recursive: true, force: true });
say(`\n${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
