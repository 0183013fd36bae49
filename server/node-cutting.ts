/** A job cut under Node: blanks nested within the time given, lengths by the solver. Gives way to other work between steps, and stops when told. */
import { openSolver } from './node-solver.js';
import type { CuttingOutcome } from './sheets/index.js';
import { billOf, type CuttingJob, cutLengths, nest, nestPictures, type SheetOutcome } from './stock/index.js';

export interface CuttingWish {
  /** For all sheets together, s. */
  readonly seconds: number;
  readonly seed: number;
  readonly currency: string;
  readonly say: { readonly size: (width: number, height: number) => string; readonly length: (mm: number) => string };
  readonly stop?: AbortSignal;
  /** Share of the time gone, 0 … 1, and what is being done. */
  readonly progress?: (share: number, words: string) => void;
}

const breath = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** Stopped early, what has been found so far is the answer. */
export const cutJob = async (job: CuttingJob, wish: CuttingWish): Promise<CuttingOutcome> => {
  const sheets: (SheetOutcome & { readonly pictures: CuttingOutcome['sheets'][number]['pictures'] })[] = [];
  const each = job.sheets.length === 0 ? 0 : (wish.seconds * 1000) / job.sheets.length;
  for (const [index, sheet] of job.sheets.entries()) {
    const from = performance.now();
    const steps = nest(sheet.question, { seed: wish.seed });
    let step = steps.next();
    let pause = from;
    while (step.done !== true && performance.now() - from < each && wish.stop?.aborted !== true) {
      if (performance.now() - pause > 40) {
        pause = performance.now();
        const share = (index + Math.min(1, (pause - from) / each)) / job.sheets.length;
        wish.progress?.(
          share,
          `${sheet.sheet.name}: ${step.value.sheets} ${step.value.sheets === 1 ? 'sheet' : 'sheets'}, ${(step.value.utilisation * 100).toFixed(1)} % used`,
        );
        await breath();
      }
      step = steps.next();
    }
    const result = step.done === true ? step.value : step.value.result();
    sheets.push({ job: sheet, result, pictures: nestPictures(sheet.question, result) });
  }
  const solver = job.lengths.length === 0 ? undefined : await openSolver();
  const lengths = solver === undefined ? [] : job.lengths.map((own) => ({ job: own, result: cutLengths(own.question, solver) }));
  wish.progress?.(1, 'done');
  return { sheets, lengths, left: job.left, bill: billOf(sheets, lengths, wish.say), currency: wish.currency };
};
