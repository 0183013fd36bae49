/** Tabs that stand straight out of a cut edge. */
import type { TabStep } from '../model/part.js';
import type { Point } from '../shape/path.js';
import { ahead, dot, type Job, remark, sayBoth, type Tab } from './tree.js';

interface Edge {
  readonly from: Point;
  readonly to: Point;
  readonly along: Point;
  readonly origin: Point;
  readonly growing: 1 | -1;
}
const NO_TABS: readonly Tab[] = [];

/** Width that a tab should at least have: twice the thickness, or 3.2 mm. Source: sheet-metal design guideline, from memory. */
const leastWidth = (thickness: number): number => Math.max(2 * thickness, 3.2);
/** And its greatest length: five times its width. Source: the same. */
const LONGEST = 5;

/**
 * The tabs of a step on a cut edge, along the walk. Those that can't stand there are said and left out.
 *
 * @param counted the direction that places are counted in, where the edge slants from it
 */
export const tabsOn = (job: Job, step: TabStep | undefined, edge: Edge, name: string, counted: Point = edge.along): readonly Tab[] => {
  if (step === undefined) return NO_TABS;
  const { from, to, along, origin, growing } = edge;
  const { say } = job.words;
  if (step.width < 1e-6 || step.length < 1e-6) return NO_TABS;
  judge(job, step);
  const slant = dot(along, counted);
  const start = dot({ x: from.x - origin.x, y: from.y - origin.y }, counted);
  const length = dot({ x: to.x - from.x, y: to.y - from.y }, along);
  const places = step.at?.map((place) => (growing * place - start) / slant) ?? [length / 2];
  const tabs: Tab[] = [];
  let last = 0;
  for (const place of [...places].sort((a, b) => a - b)) {
    const [low, high] = [tidy(place - step.width / 2, length), tidy(place + step.width / 2, length)];
    if (low < last || high > length) {
      const written = growing * (place * slant + start);
      const room = low < last && last > 0 ? 'runs into the one beside it' : `does not lie on ${name}, which is ${say(length)} long`;
      remark(
        job,
        'shape/tab-off-the-edge',
        step.span,
        `a tab ${say(step.width)} wide with its middle at ${say(written)} ${room}; move it, or make it narrower`,
        {
          features: [`face:${step.id}`],
        },
      );
      continue;
    }
    last = high;
    tabs.push({ from: ahead(from, along, low), to: ahead(from, along, high), length: step.length, feature: `face:${step.id}` });
  }
  return tabs;
};

const tidy = (place: number, length: number): number => (Math.abs(place) < 1e-6 ? 0 : Math.abs(place - length) < 1e-6 ? length : place);

const judge = (job: Job, step: TabStep): void => {
  const { say } = job.words;
  const least = leastWidth(job.thickness);
  const features = [`face:${step.id}`];
  if (step.width < least - 1e-6) {
    const [narrow, wanted] = sayBoth(job, step.width, least);
    remark(
      job,
      'shape/tab-too-narrow',
      step.span,
      `a tab ${narrow} wide tears or bends in handling; in ${say(job.thickness)} sheet make it ${wanted} or wider`,
      { severity: 'warning', features },
    );
  } else if (step.length > LONGEST * step.width + 1e-6) {
    remark(
      job,
      'shape/tab-too-narrow',
      step.span,
      `a tab ${say(step.length)} long and only ${say(step.width)} wide bends in handling; make it ${say(step.length / LONGEST)} or wider, or ${say(LONGEST * step.width)} or shorter`,
      { severity: 'warning', features },
    );
  }
};
