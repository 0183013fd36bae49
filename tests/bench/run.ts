/** The table of `npm run bench`: each figure beside a peer measured in the same run. Ratios travel between machines; seconds don't. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { getLanguageService, TextDocument } from 'vscode-json-languageservice';
import { memoryFiles } from '../../server/files.js';
import { createProject } from '../../server/project.js';
import { beadCount, beadsWorked, marksUnited } from './beads.js';
import { jsonOfBytes, jsonSchema, partsFile, partsFileOfBytes } from './generate.js';

const file = '/bench/trays.planish';
const sorted = (times: readonly number[]): number[] => [...times].sort((a, b) => a - b);
const quantile = (times: readonly number[], share: number): number =>
  sorted(times)[Math.min(times.length - 1, Math.floor(share * times.length))] ?? Number.NaN;
const median = (times: readonly number[]): number => quantile(times, 0.5);
const ms = (time: number): string => `${time.toFixed(time < 10 ? 2 : 0)} ms`;
const row = (what: string, ours: string, peer: string, ratio: string): void => {
  process.stdout.write(`${what.padEnd(62)} ${ours.padStart(12)} ${peer.padStart(14)} ${ratio.padStart(8)}\n`);
};

const freshFindings = (text: string): number => {
  const project = createProject({ files: memoryFiles({ [file]: text }), root: '/bench' });
  const start = performance.now();
  const findings = project.findings(file);
  const time = performance.now() - start;
  const bad = findings.filter((finding) => finding.severity === 'error');
  if (bad.length > 0) throw new Error(`the bench file is not clean: ${bad[0]?.message}`);
  return time;
};

const megabyte = async (): Promise<void> => {
  const text = partsFileOfBytes(1_000_000);
  const json = jsonOfBytes(1_000_000);
  const service = getLanguageService({});
  service.configure({
    validate: true,
    schemas: [{ uri: 'bench://schema', fileMatch: ['*'], schema: structuredClone(jsonSchema) as never }],
  });
  const ours: number[] = [];
  const theirs: number[] = [];
  for (let round = 0; round < 9; round++) {
    const mine = freshFindings(text);
    const start = performance.now();
    const document = TextDocument.create('file:///bench.json', 'json', 1, json);
    const problems = await service.doValidation(document, service.parseJSONDocument(document));
    const other = performance.now() - start;
    if (problems.length > 0) throw new Error('the peer found problems');
    if (round >= 2) {
      ours.push(mine);
      theirs.push(other);
    }
  }
  const ratios = ours.map((time, index) => time / (theirs[index] ?? Number.NaN));
  row(
    `1 MB of parts, parse + evaluate + lay out + check / JSON 1 MB`,
    ms(median(ours)),
    ms(median(theirs)),
    `${median(ratios).toFixed(2)}×`,
  );
};

const keystroke = (): void => {
  const text = partsFile(Math.round(2000 / 14));
  const lines = text.split('\n').length;
  const project = createProject({ files: memoryFiles({ [file]: text }), root: '/bench' });
  project.findings(file);
  const at = text.indexOf('flange 5/8', text.length >> 1) + 'flange '.length;
  const times: number[] = [];
  for (let round = 0; round < 220; round++) {
    // A digit changes in the middle of the file: 1/8, 2/8 … 7/8 of an inch and back.
    const changed = `${text.slice(0, at)}${5 + (round % 3)}${text.slice(at + 1)}`;
    const start = performance.now();
    project.setText(file, changed);
    project.findings(file);
    if (round >= 20) times.push(performance.now() - start);
  }
  row(`one character typed in a project of ${lines} lines: median`, ms(median(times)), '16 ms', `${(median(times) / 16).toFixed(2)}×`);
  row(
    `                                                    p95`,
    ms(quantile(times, 0.95)),
    '16 ms',
    `${(quantile(times, 0.95) / 16).toFixed(2)}×`,
  );
};

const scaling = (): void => {
  const perPart = [10, 100, 1000].map((parts) => {
    const text = partsFile(parts);
    const rounds = parts === 1000 ? 7 : 25;
    return { parts, time: median(Array.from({ length: rounds }, () => freshFindings(text))) / parts };
  });
  const first = perPart[0]?.time ?? Number.NaN;
  for (const each of perPart)
    row(
      `cost of a part, in a file of ${each.parts}`,
      `${(each.time * 1000).toFixed(0)} µs`,
      `${(first * 1000).toFixed(0)} µs`,
      `${(each.time / first).toFixed(2)}×`,
    );
};

const beads = (): void => {
  const [ours, theirs] = [beadsWorked(25).slice(5), marksUnited(25).slice(5)];
  row(
    `a panel of ${beadCount} beads worked out / its marks offset and united`,
    ms(median(ours)),
    ms(median(theirs)),
    `${(median(ours) / median(theirs)).toFixed(2)}×`,
  );
};

const startUp = (): void => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'planish-bench-'));
  const part = path.join(folder, 'one.planish');
  fs.writeFileSync(part, partsFile(1));
  const program = path.resolve('dist/planish.cjs');
  const time = (args: readonly string[]): number => {
    const start = performance.now();
    const done = spawnSync(process.execPath, args, { cwd: folder });
    if (done.status !== 0) throw new Error(`node ${args.join(' ')} ended with ${done.status}: ${done.stdout}${done.stderr}`);
    return performance.now() - start;
  };
  const ours: number[] = [];
  const bare: number[] = [];
  for (let round = 0; round < 15; round++) {
    ours.push(time([program, 'check', part]));
    bare.push(time(['-e', '0']));
  }
  fs.rmSync(folder, { recursive: true });
  const ratios = ours.map((each, index) => each / (bare[index] ?? Number.NaN));
  row('`planish check` on one file / `node -e 0`', ms(median(ours)), ms(median(bare)), `${median(ratios).toFixed(2)}×`);
};

const main = async (): Promise<void> => {
  process.stdout.write(`Node ${process.version}, ${os.cpus().length} processors (${os.cpus()[0]?.model ?? 'unknown'})\n\n`);
  row('', 'Planish', 'beside', 'ratio');
  keystroke();
  scaling();
  beads();
  await megabyte();
  startUp();
};
void main();
