// `npm run bench`: bundles tests/bench/run.ts and runs it under plain Node, so that what is timed is what ships.
// `npm run bench -- nest 60`: the same for tests/bench/nest.ts, with its seconds; `npm run bench -- plan` for tests/bench/plan.ts.
import fs from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';
import { installPackages, root, run, say } from './setup.mjs';

const [bench = 'run', ...given] = process.argv.slice(2);
installPackages();
if (bench === 'run' && !run(process.execPath, ['.ci/build.mjs', '--production'])) process.exit(1);
const out = path.join(root, 'out/bench.cjs');
fs.mkdirSync(path.dirname(out), { recursive: true });
if (bench === 'run') say('Timing (about two minutes) …');
await build({
  entryPoints: [path.join(root, `tests/bench/${bench}.ts`)],
  outfile: out,
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  logLevel: 'error',
  // The peer's `main` is a UMD file that a bundler can't follow; its ES module is what it ships for that.
  mainFields: ['module', 'main'],
});
process.exit(run(process.execPath, [out, ...given]) ? 0 : 1);
