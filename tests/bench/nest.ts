/**
 * `node .ci/bench.mjs nest [SECONDS]`: how well pieces are laid, beside a plain pass from the lower left, largest first, in the same run, and beside
 * what is known to be possible. Two searches at a time, with seeds of their own; the better counts.
 */
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { polygon } from '../../server/shape/index.js';
import { nest } from '../../server/stock/index.js';
import { UNITS } from '../../server/stock/nest/outlines.js';
import { layStrip, reachOf } from '../../server/stock/nest/strip.js';
import { taskOf } from '../../server/stock/nest/task.js';
import type { NestQuestion } from '../../server/stock/types.js';
import { hopperTurtonC1, shapes0 } from './data/nesting.js';

interface Case {
  readonly name: string;
  readonly question: NestQuestion;
  /** Shortest length known. */
  readonly known: number;
}

const unturned = { holes: [], grain: 'any', turns: [0] } as const;
const cases: readonly Case[] = [
  {
    name: 'Hopper & Turton C1 (1)',
    question: {
      pieces: hopperTurtonC1.boxes.map(([height, width], i) => ({
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
  },
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
  },
];

interface Reached {
  readonly length: number;
  readonly seconds: number;
}

/** The shortest strip found in a time, and when. */
const reach = (question: NestQuestion, seed: number, seconds: number): Reached => {
  const start = performance.now();
  let reached: Reached = { length: Number.POSITIVE_INFINITY, seconds: 0 };
  for (const { phase, length } of nest(question, { seed, patience: 1e6 })) {
    const time = (performance.now() - start) / 1000;
    if (phase === 'improving' && length < reached.length - 1e-9) reached = { length, seconds: time };
    if (time > seconds) break;
  }
  return reached;
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

const report = async (seconds: number): Promise<void> => {
  process.stdout.write(
    `${'set'.padEnd(26)}${'length'.padStart(9)}${'known'.padStart(9)}${'use'.padStart(9)}${'known'.padStart(9)}${'one pass'.padStart(10)}${'ratio'.padStart(8)}${'reached in'.padStart(12)}\n`,
  );
  for (const [index, { name, question, known }] of cases.entries()) {
    const both = await Promise.all([1, 2].map((seed) => inWorker(index, seed, seconds)));
    const best = both.reduce((a, b) => (b.length < a.length ? b : a));
    const pass = onePass(question);
    const area = taskOf(question).bank.pieces.reduce((sum, { area: one, piece }) => sum + one * piece.quantity, 0);
    const width = 'width' in question.stock ? question.stock.width : Number.NaN;
    const use = (length: number): string => `${((100 * area) / (length * width)).toFixed(2)} %`.padStart(9);
    const figures = [best.length.toFixed(2).padStart(9), known.toFixed(2).padStart(9), use(best.length), use(known)];
    const peer = [pass.toFixed(2).padStart(10), (best.length / pass).toFixed(3).padStart(8)];
    process.stdout.write(`${name.padEnd(26)}${figures.join('')}${peer.join('')}${`${best.seconds.toFixed(1)} s`.padStart(12)}\n`);
  }
};

if (isMainThread) {
  void report(Number(process.argv[2] ?? 60));
} else {
  const { index, seed, seconds } = workerData as { index: number; seed: number; seconds: number };
  parentPort?.postMessage(reach((cases[index] as Case).question, seed, seconds));
}
