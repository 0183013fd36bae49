/** npm run fuzz -- [times] [paths]: the random tests, `times` as many cases as every day (20 unless told), new ones on each run. */
import fs from 'node:fs';
import path from 'node:path';
import { installPackages, root, run, say } from './setup.mjs';

const [first = '20', ...others] = process.argv.slice(2);
const told = Number(first) > 0;
const times = told ? Number(first) : 20;
const under = told ? others : [first, ...others];

const inRoom = (room) => fs.readdirSync(path.join(root, 'tests', room), { encoding: 'utf8' }).map((file) => path.join(room, file));
const rooms = fs.readdirSync(path.join(root, 'tests'), { withFileTypes: true });
const tests = rooms
  // The real editor's tests have packages of their own there, and nothing random.
  .flatMap((one) => (!one.isDirectory() ? [one.name] : one.name === 'editor' ? [] : inRoom(one.name)))
  .filter((file) => file.endsWith('.test.ts'))
  .map((file) => path.join('tests', file))
  .filter((file) => fs.readFileSync(path.join(root, file), 'utf8').match(/'fast-check'|drawnFrom/))
  .filter((file) => under.length === 0 || under.some((start) => file.startsWith(path.normalize(start))));

installPackages();
say(`${tests.length} files of random tests, ${times} times as many cases`);
const env = { ...process.env, PLANISH_FUZZ_TIMES: String(times) };
process.exit(run('npx', ['vitest', 'run', ...tests], { env }) ? 0 : 1);
