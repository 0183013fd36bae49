/**
 * `node .ci/bench.mjs nest [SECONDS]`: how well pieces are laid, beside a plain pass from the lower left, largest first, in the same run, and beside
 * what is known to be possible. Two searches at a time, one on each of two cores, with seeds of their own; the better counts, of equals the first. Every
 * result is looked at by the polygon library alone. Seconds depend on what else the machine does: the steps say how far the search came.
 */
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { polygon } from '../../server/shape/index.js';
import { nest } from '../../server/stock/index.js';
import { UNITS } from '../../server/stock/nest/outlines.js';
import { layStrip, reachOf } from '../../server/stock/nest/strip.js';
import { taskOf } from '../../server/stock/nest/task.js';
import type { NestQuestion, NestResult } from '../../server/stock/types.js';
import { faults } from '../stock/nest-checking.js';
import { hopperTurtonC1, shapes0 } from './data/nesting.js';

interface Case {
  readonly name: string;
  readonly question: NestQuestion;
  /** Shortest length known. */
  readonly known: number;
  /** No shorter one can be. */
  readonly exact: boolean;
}

const unturned = { holes: [], grain: 'any', turns: [0] } as const;
const cases: readonly Case[] = [
  ...hopperTurtonC1.problems.map(
    (boxes, problem): Case => ({
      name: `Hopper & Turton C1 (${problem + 1})`,
      question: {
        pieces: boxes.map(([height, width], i) => ({
          ...unturned,
          id: `${i}`,
          outline: polygon([
            { x: 0, y: 0 },
            { x: width, y: 0 },
            { x: width, y: height },
            { x: 0, y: height },
          ]),
          quantity: 1,
        })),
        stock: { id: 'strip', width: hopperTurtonC1.width },
        kerf: 0,
        margin: 0,
      },
      known: hopperTurtonC1.length,
      exact: true,
    }),
  ),
  {
    name: 'shapes0',
    question: {
      pieces: shapes0.pieces.map(({ quantity, corners }, i) => ({
        ...unturned,
        id: `${i}`,
        outline: polygon(corners.map(([x, y]) => ({ x, y }))),
        quantity,
      })),
      stock: { id: 'strip', width: shapes0.width },
      kerf: 0,
      margin: 0,
    },
    // 43 pieces of 1596 in all at the use of the strip that is known.
    known: 1596 / (shapes0.width * shapes0.bestKnown),
    exact: false,
  },
];

interface Reached {
  readonly length: number;
  /** When it was reached, and the step of the search. */
  readonly seconds: number;
  readonly step: number;
  /** Steps done in all. */
  readonly steps: number;
  /** What the polygon library finds wrong with it. */
  readonly faults: readonly string[];
}

/** The shortest strip found in a time, and when; the search ends early where nothing shorter can be. */
const reach = ({ question, known, exact }: Case, seed: number, seconds: number): Reached => {
  const start = performance.now();
  let best: { readonly length: number; readonly seconds: number; readonly step: number; readonly result: () => NestResult } | undefined;
  let steps = 0;
  for (const { phase, length, result } of nest(question, { seed, patience: 1e6 })) {
    steps++;
    const time = (performance.now() - start) / 1000;
    if (phase === 'improving' && (best === undefined || length < best.length - 1e-9)) best = { length, seconds: time, step: steps, result };
    if (time > seconds || (exact && best !== undefined && best.length < known + 1e-6)) break;
  }
  if (best === undefined) return { length: Number.POSITIVE_INFINITY, seconds, step: steps, steps, faults: ['nothing laid'] };
  return { length: best.length, seconds: best.seconds, step: best.step, steps, faults: faults(question, best.result()) };
};

const onePass = (question: NestQuestion): number => {
  const task = taskOf(question);
  const [field] = task.fields;
  if (field === undefined) return Number.NaN;
  const order = task.instances.map((_, i) => i).sort((a, b) => (task.instances[b]?.room ?? 0) - (task.instances[a]?.room ?? 0));
  const pass = layStrip(task.bank.noFits, field.items, order, field.height);
  let step = pass.next();
  while (step.done !== true) step = pass.next();
  return reachOf(task.bank.noFits, step.value, 'x') / UNITS;
};

const inWorker = (index: number, seed: number, seconds: number): Promise<Reached> =>
  new Promise((resolve, reject) => {
    const worker = new Worker(__filename, { workerData: { index, seed, seconds } });
    worker.once('message', resolve);
    worker.once('error', reject);
  });

const columns = ['set', 'length', 'known', 'use', 'known', 'of known', 'one pass', 'ratio', 'reached in', 'at step', 'steps', 'faults'];
const widths = [26, 9, 9, 10, 10, 10, 10, 8, 12, 10, 10, 8];
const row = (cells: readonly string[]): string =>
  `${cells.map((cell, i) => (i === 0 ? cell.padEnd(widths[i] as number) : cell.padStart(widths[i] as number))).join('')}\n`;

const report = async (seconds: number): Promise<boolean> => {
  process.stdout.write(row(columns));
  let sound = true;
  for (const [index, { name, question, known }] of cases.entries()) {
    const both = await Promise.all([1, 2].map((seed) => inWorker(index, seed, seconds)));
    const best = both.reduce((a, b) => (b.length < a.length ? b : a));
    const wrong = both.flatMap((each) => each.faults);
    const pass = onePass(question);
    const area = taskOf(question).bank.pieces.reduce((sum, { area: one, piece }) => sum + one * piece.quantity, 0);
    const width = 'width' in question.stock ? question.stock.width : Number.NaN;
    const percent = (share: number): string => `${(100 * share).toFixed(2)} %`;
    const use = (length: number): string => percent(area / (length * width));
    process.stdout.write(
      row([
        name,
        best.length.toFixed(2),
        known.toFixed(2),
        use(best.length),
        use(known),
        percent(known / best.length),
        pass.toFixed(2),
        (best.length / pass).toFixed(3),
        `${best.seconds.toFixed(1)} s`,
        `${best.step}`,
        `${both.reduce((sum, each) => sum + each.steps, 0)}`,
        `${wrong.length}`,
      ]),
    );
    for (const words of wrong) process.stdout.write(`  ${words}\n`);
    sound &&= wrong.length === 0;
  }
  return sound;
};

if (isMainThread) {
  void report(Number(process.argv[2] ?? 60)).then((sound) => {
    if (!sound) process.exitCode = 1;
  });
} else {
  const { index, seed, seconds } = workerData as { index: number; seed: number; seconds: number };
  parentPort?.postMessage(reach(cases[index] as Case, seed, seconds));
}
