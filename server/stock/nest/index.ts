/** Laying pieces on sheets or on a strip so that little is lost. */
import type { NestOptions, NestProgress, NestQuestion, NestResult } from '../types.js';
import { answerOf, stripLength } from './answer.js';
import { seededRandom } from './random.js';
import { type SearchStep, searchSheets, searchStrip } from './search.js';
import type { Loading } from './sheets.js';
import { isStrip, type Task, taskOf } from './task.js';

export { nestPictures } from './picture.js';

/**
 * Nests pieces by their true outlines. Nothing overlaps in any result, at any step: pieces keep the kerf apart and the margin from the edges.
 *
 * It runs until nothing was gained for `patience` rounds, which may be long: the caller decides by how often it asks for the next step, each of which
 * takes some milliseconds, and takes `result()` of the last step when time is up.
 *
 * @returns the best loading found; what does not fit is named in `unplaced` with the reason
 */
export const nest = function* (question: NestQuestion, options: NestOptions = {}): Generator<NestProgress, NestResult> {
  const task = taskOf(question);
  const random = seededRandom(options.seed ?? 1);
  const patience = options.patience ?? 40;
  const search = isStrip(question.stock) ? searchStrip(task, patience, random) : searchSheets(task, patience, random);
  let shown: { readonly best: Loading; readonly progress: Omit<NestProgress, 'phase' | 'round'> } | undefined;
  const progressOf = (step: SearchStep): NestProgress => {
    if (shown?.best !== step.best) shown = { best: step.best, progress: figuresOf(task, step.best) };
    return { phase: step.phase, round: step.round, ...shown.progress };
  };
  let step = search.next();
  while (step.done !== true) {
    yield progressOf(step.value);
    step = search.next();
  }
  return answerOf(task, step.value);
};

/** What a caller shows, and the answer once asked for. */
const figuresOf = (task: Task, best: Loading): Omit<NestProgress, 'phase' | 'round'> => {
  let answer: NestResult | undefined;
  const result = (): NestResult => {
    answer ??= answerOf(task, best);
    return answer;
  };
  const { utilisation, length } = quickFigures(task, best);
  return { sheets: best.sheets.length, utilisation, length, result };
};

/** The figures of `answerOf` without the offcuts, which take longer. */
const quickFigures = (task: Task, best: Loading): { readonly utilisation: number; readonly length: number } => {
  const strip = isStrip(task.question.stock);
  const length = strip ? stripLength(task, best) : 0;
  let used = 0;
  let area = 0;
  for (const sheet of best.sheets) {
    const stock = task.fields[sheet.field]?.sheet;
    if (stock === undefined) continue;
    area += (strip ? length : stock.width) * stock.height;
    for (const member of sheet.members) used += task.bank.pieces[task.instances[member]?.piece ?? -1]?.area ?? 0;
  }
  return { utilisation: area > 0 ? used / area : 0, length };
};

/**
 * Nests for as long as the caller likes.
 *
 * @param goOn asked after every step, some milliseconds apart, with what is reached; false ends it
 */
export const nestWhile = (question: NestQuestion, options: NestOptions, goOn: (progress: NestProgress) => boolean): NestResult => {
  const steps = nest(question, options);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    if (step.value.phase === 'improving' && !goOn(step.value)) return step.value.result();
  }
};
