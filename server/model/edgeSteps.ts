/** Hems, curls, joggles, tabs and rolled edges: what is done to an edge besides flanges, and what may follow what. */
import type { Statement } from '../../grammar/syntax.js';
import { angleField, asNumber, exprOf, itemsOf, lengthField, wordField } from './arguments.js';
import { sayAngle, sayLength } from './display.js';
import { evaluate } from './evaluate.js';
import type { Direction, EdgeStep, HemStep } from './part.js';
import { type FlangeIds, type GrowingChain, stepIds } from './stepIds.js';
import type { PartWork } from './work.js';

export type EdgeStepWord = 'hem' | 'curl' | 'joggle' | 'tab' | 'rolled';
export const isEdgeStepWord = (word: string | undefined): word is EdgeStepWord =>
  word === 'hem' || word === 'curl' || word === 'joggle' || word === 'tab' || word === 'rolled';

const ends: Readonly<Record<string, string>> = {
  hem: 'a hem, whose cut edge lies folded back on the sheet',
  curl: 'a curl, whose cut edge is rolled in',
  tab: 'tabs, which end the edge',
};
/** Cures for what people write there most. */
const cureAfter = (end: string, word: string, inward: boolean): string => {
  if (end === 'hem' && word === 'hem') return 'A double hem is written as one: hem 3/8 double.';
  if (end === 'tab' && word === 'tab')
    return 'Tabs of another size go in a block with a stretch of its own: edge left from 4 to 8 { tab 1 by 1/2 }.';
  if (word === 'tab') return `Write the ${end} on one stretch of the edge and the tabs on another: edge left from 4 to 8 { … }.`;
  return `Write the ${word} ${inward ? 'between' : 'before'} the ${end}${inward ? ' and the first leg' : ''}, or take one of them out.`;
};

/** Whether a further step can stand where the chains have come to; said at its word when it can't. */
export const mayFollow = (step: Statement, work: PartWork, chains: readonly GrowingChain[]): boolean => {
  const ended = chains.find((chain) => chain.end !== undefined);
  const end = ended?.end;
  if (end === undefined) return true;
  const { name } = step.word;
  work.reading.sink.report(
    step.word.span,
    'shape/nothing-can-follow',
    `Nothing can follow ${ends[end] ?? end}, so this ${name} can’t be made. ${cureAfter(end, name, ended?.inward === true)}`,
  );
  work.fail();
  return false;
};

/** The way a step turns: as written, or on from the flange before it; a finding where neither tells. */
const directionOf = (step: Statement, word: EdgeStepWord, work: PartWork, chain: GrowingChain): Direction | undefined => {
  const written = wordField(step, 'direction');
  if (written === 'up' || written === 'down') return written;
  if (step.broken) return undefined;
  if ((word === 'hem' || word === 'curl') && chain.turning !== undefined) return chain.turning;
  const at = step.word.span;
  const end = step.fields.as === undefined ? { start: step.span.end, end: step.span.end } : undefined;
  const fixes =
    end === undefined ? [] : (['down', 'up'] as const).map((way) => ({ title: `Add ${way}`, edits: [{ span: end, text: ` ${way}` }] }));
  const ways: Readonly<Record<string, string>> = {
    hem: 'A hem goes on turning the way of the flange before it, and there is none here. Say which way it folds',
    curl: 'A curl goes on turning the way of the flange before it, and there is none here. Say which way it rolls',
  };
  work.reading.sink.report(
    at,
    'shape/no-direction',
    `${ways[word] ?? `Say which way the ${word} goes`}: up toward the face, or down away from it.`,
    { fixes },
  );
  return undefined;
};

/** Reads one step onto every chain of its block. */
export const readEdgeStep = (
  step: Statement,
  word: EdgeStepWord,
  work: PartWork,
  chains: readonly GrowingChain[],
  flanges: FlangeIds,
): void => {
  const make = makerOf(step, word, work);
  for (const { chain, id, name } of stepIds(step, work, chains, flanges)) {
    const base = { id, name, span: work.relative(step.span) };
    const direction = word === 'tab' ? 'up' : directionOf(step, word, work, chain);
    if (word === 'hem' || word === 'curl' || word === 'tab') chain.end = word;
    if (make === undefined || direction === undefined) {
      work.fail();
      continue;
    }
    chain.steps.push(make(base, direction));
    if (word === 'rolled') chain.turning = direction;
  }
};

type Make = (base: { readonly id: string; readonly name: string | undefined; readonly span: EdgeStep['span'] }, way: Direction) => EdgeStep;

/** The step but for its name, place and direction. Undefined when a size can't be had, which is said. */
const makerOf = (step: Statement, word: EdgeStepWord, work: PartWork): Make | undefined => {
  switch (word) {
    case 'hem':
      return hemOf(step, work);
    case 'curl': {
      const wire = lengthField(work, step, 'wire', 'The wire’s diameter');
      const wireSpan = work.relative(step.fields.wire?.span ?? step.span);
      return wire === undefined ? undefined : (base, direction) => ({ ...base, kind: 'curl', wire, wireSpan, direction });
    }
    case 'joggle':
      return joggleOf(step, work);
    case 'tab':
      return tabOf(step, work);
    case 'rolled':
      return rolledOf(step, work);
  }
};

const hemOf = (step: Statement, work: PartWork): Make | undefined => {
  const depth = lengthField(work, step, 'depth', 'The hem’s depth');
  const style = hemStyle(step, work);
  if (depth === undefined || style === undefined) return undefined;
  const { fields } = step;
  const start = fields.style?.span.start ?? step.span.start;
  const end = fields.gap?.span.end ?? fields.diameter?.span.end ?? fields.style?.span.end ?? step.span.end;
  return (base, direction) => ({
    ...base,
    kind: 'hem',
    depth,
    depthSpan: work.relative(fields.depth?.span ?? step.span),
    style,
    styleSpan: work.relative({ start, end }),
    direction,
  });
};
const hemStyle = (step: Statement, work: PartWork): HemStep['style'] | undefined => {
  switch (wordField(step, 'style')) {
    case 'closed':
      return { kind: 'closed' };
    case 'double':
      return { kind: 'double' };
    case 'open': {
      const gap = lengthField(work, step, 'gap', 'The gap of an open hem');
      return gap === undefined ? undefined : { kind: 'open', gap };
    }
    case 'teardrop': {
      const diameter = lengthField(work, step, 'diameter', 'The drop’s inside diameter');
      return diameter === undefined ? undefined : { kind: 'teardrop', diameter };
    }
    default:
      return undefined;
  }
};

const joggleOf = (step: Statement, work: PartWork): Make | undefined => {
  const depth = lengthField(work, step, 'depth', 'The joggle’s depth');
  const over = lengthField(work, step, 'length', 'What the joggle takes of the edge');
  const run = lengthField(work, step, 'run', 'What the slope takes');
  if (depth === undefined || over === undefined || (run === undefined && step.fields.run !== undefined)) return undefined;
  if (run !== undefined && run >= over) {
    const say = (mm: number): string => sayLength(mm, work.reading.names.units);
    work.reading.sink.report(
      step.fields.run?.span ?? step.span,
      'number/out-of-range',
      `The slope takes ${say(run)} of ${say(over)}, and no land is left beyond it. Give the slope less, or the joggle more: ‘over’ runs from where the sheet leaves its plane to the end of the land.`,
    );
    return undefined;
  }
  return (base, direction) => ({ ...base, kind: 'joggle', depth, over, run, direction });
};

const tabOf = (step: Statement, work: PartWork): Make | undefined => {
  const width = lengthField(work, step, 'width', 'The tab’s width');
  const length = lengthField(work, step, 'length', 'How far the tab stands out');
  if (step.fields.at === undefined) {
    return width === undefined || length === undefined ? undefined : (base) => ({ ...base, kind: 'tab', width, length, at: undefined });
  }
  const at: number[] = [];
  let known = true;
  for (const item of itemsOf(step.fields.at)) {
    const expr = exprOf(item);
    const place = expr === undefined ? undefined : asNumber(evaluate(expr, work.reading), 'length', item.span, work.reading);
    if (place === undefined) {
      known = false;
      continue;
    }
    const near = width === undefined ? undefined : at.find((other) => Math.abs(other - place) < width - 1e-9);
    if (near !== undefined && width !== undefined) {
      const say = (mm: number): string => sayLength(mm, work.reading.names.units);
      work.reading.sink.report(
        item.span,
        'shape/tabs-overlap',
        `This tab runs into the one at ${say(near)}: their centres are ${say(Math.abs(near - place))} apart and each is ${say(width)} wide. Move it, or make them narrower.`,
      );
      known = false;
      continue;
    }
    at.push(place);
  }
  return width === undefined || length === undefined || !known ? undefined : (base) => ({ ...base, kind: 'tab', width, length, at });
};

const rolledOf = (step: Statement, work: PartWork): Make | undefined => {
  const radius = lengthField(work, step, 'radius', 'The roll’s inside radius');
  const turn = angleField(work, step, 'angle', 'How far it rolls');
  if (radius === undefined || turn === undefined) return undefined;
  if (!(turn > 0 && turn < 2 * Math.PI - 1e-9)) {
    work.reading.sink.report(
      step.fields.angle?.span ?? step.span,
      'number/out-of-range',
      `How far it rolls is counted from flat: more than 0° and less than 360°, not ${sayAngle(turn)}.`,
    );
    return undefined;
  }
  return (base, direction) => ({ ...base, kind: 'rolled', radius, turn, direction });
};

/** What a step is, to ask `noFlatOn` of it. */
export const kindOfStep = (step: EdgeStep | undefined): string | undefined =>
  step?.kind === 'hem' && step.style.kind === 'double' ? 'double hem' : step?.kind;

/** Why nothing can be placed on a step; undefined where it has a flat of its own. `cut` is what was to lie there: "A hole". */
export const noFlatOn = (kind: string | undefined, cut: string): string | undefined => {
  switch (kind) {
    case 'double hem':
      return `${cut} can’t be placed on a double hem, whose layers cover one another. Drill it once the hem is closed, or write a hem of one fold.`;
    case 'curl':
      return `${cut} can’t lie on a curl, which is round all over. Place it on the flat before the curl.`;
    case 'rolled':
      return `${cut} can’t lie on a rolled edge, which has no flat of its own. Place it on the flat before it, or drill it after rolling.`;
    case 'tab':
      return `${cut} can’t be placed from a tab, which is one flat with what it stands on. Place it there: in the panel’s own braces, or with the flange’s name, counted beyond its edge.`;
    default:
      return undefined;
  }
};
