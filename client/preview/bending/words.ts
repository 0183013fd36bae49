/** What to do in one step, in words, with where it lies on the blank and how the fingers stand. */
import type { BendingModel, BendingStep, BendingStop } from '../../../server/lsp/protocol.js';
import { drawPlace } from './place.js';

export const element = <K extends keyof HTMLElementTagNameMap>(
  name: K,
  classes: string,
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] => {
  const made = document.createElement(name);
  if (classes !== '') made.className = classes;
  made.append(...children);
  return made;
};

/** A size stays on one line: `7 41/64− in` broken behind its 7 is read wrong. */
const whole = (words: string): string => words.replace(/(?<=\d) (?=\d+\/\d)|(?<=\d[+−]?) (?=(?:in|mm|cm|m|ft)\b)/g, '\u00a0');

/** The name of the bend, which goes to its text. */
const heading = (title: string, id: string | undefined, before: string): HTMLElement => {
  const name = element('button', 'bend_name', title);
  name.type = 'button';
  name.title = 'Go to its text';
  if (id !== undefined) name.dataset.id = id;
  return element('h2', '', before, name);
};

/** Where words and picture stand one above the other; as in the style sheet. */
const narrow = (): boolean => matchMedia('(max-width: 640px)').matches;

const placed = (model: BendingModel, place: BendingStep | BendingStop): HTMLElement =>
  element(
    'figure',
    '',
    drawPlace(model.blank, place),
    element('figcaption', '', place.held === undefined ? 'face toward you' : 'face toward you; toned: under the nose'),
  );

const fingersOf = ({ fingers }: BendingStep): readonly HTMLElement[] => {
  if (fingers === undefined) return [];
  const row = element(
    'div',
    'finger_row',
    ...fingers.widths.map(({ mm, words }) => {
      const finger = element('span', 'finger', words.replace(/ (in|mm|cm|m|ft)$/, ''));
      finger.style.flexGrow = String(mm);
      return finger;
    }),
  );
  row.setAttribute('aria-hidden', 'true');
  return [row];
};

export const stepWords = (model: BendingModel, step: BendingStep): readonly HTMLElement[] => [
  heading(step.title, step.bends[0], `Step ${step.number} of ${model.steps.length}: `),
  ...(narrow() ? [placed(model, step)] : []),
  element('ul', 'todo', ...step.words.map((words) => element('li', '', whole(words)))),
  ...fingersOf(step),
  ...(step.mark === undefined ? [] : [element('p', 'note', whole(step.mark))]),
  ...(narrow() ? [] : [placed(model, step)]),
  ...remarks(model),
];

export const stopWords = (model: BendingModel, stop: BendingStop): readonly HTMLElement[] => [
  heading(stop.title, stop.bends[0], 'Stopped: '),
  ...(narrow() ? [placed(model, stop)] : []),
  element('p', 'stop_words', whole(stop.words)),
  ...(model.cures.length === 0
    ? [element('p', 'note', 'No change of one length, of those tried, frees it.')]
    : [
        element('p', 'cures_lead', 'Tried, and it would go:'),
        element('ul', 'cures', ...model.cures.map((cure) => element('li', '', whole(cure)))),
      ]),
  ...(narrow() ? [] : [placed(model, stop)]),
  ...remarks(model),
];

const remarks = (model: BendingModel): readonly HTMLElement[] => model.remarks.map((remark) => element('p', 'note', whole(remark)));
