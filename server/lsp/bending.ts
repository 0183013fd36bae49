/** How a part is bent, as the preview needs it: a picture to be moved for each step, words for what to do, and where everything is written. */
import type { Position } from 'vscode-languageserver';
import type { Blank } from '../blank/types.js';
import {
  type BendMotion,
  type BendStep,
  type BlockedBend,
  blockedMotion,
  type MovedSheet,
  type Plan,
  type Planned,
  type SayWords,
  sayAngle,
  sayBlocked,
  sayChange,
  sayHandling,
  sayStep,
  stepMotion,
} from '../brake/index.js';
import { sayBendSum, sayBothLengths } from '../model/display.js';
import type { PartResult } from '../project.js';
import { drawBlank, loopPath } from '../sheets/index.js';
import type { Ask } from './ask.js';
import { chosenPart, displayOptions, placedFeatures, wholeOf } from './picture.js';
import type { BendingModel, BendingMotion, BendingPlace, BendingResult, BendingSheet, BendingStep, BendingStop } from './protocol.js';
import { counted, noPart, reasonNotLaidOut, sayLength } from './say.js';

/** Bends that stop a part, shown at most: those with the least against them. */
const mostStops = 3;

export const bendWords = (ask: Ask): SayWords => {
  const { unit, denominator } = displayOptions(ask);
  return { say: (mm) => sayLength(ask, mm), sayBoth: (a, b) => sayBothLengths(a, b, unit, denominator) };
};

/** The plan of the part asked for, else of the one around a position, else of the first of the file; as far as it is made. */
export const bendingOf = (ask: Ask, version: number, part: string | undefined, position: Position | undefined): BendingResult => {
  const { chosen, lines, parts } = chosenPart(ask, part, position);
  const nothing = { uri: ask.uriOf(ask.path), version, parts, model: undefined, working: false, features: [], stale: false };
  if (chosen === undefined) return { ...nothing, part: undefined, title: '', partRange: undefined, reason: noPart };
  const { result } = chosen;
  const { name, kind } = result.part;
  const { range } = wholeOf(chosen, lines);
  const bare = { ...nothing, part: name, title: `${name}, ${kind}`, partRange: range };
  const bending = ask.project.bending(result);
  const stale = result.blank.blank === undefined;
  const whyBroken = stale && (kind === 'panel' || kind === 'section') ? reasonNotLaidOut(ask, chosen) : undefined;
  if (bending.state === 'not yet') return { ...bare, working: true, reason: undefined };
  if (bending.state === 'nothing') return { ...bare, reason: whyBroken ?? reasonForNothing(result) };
  const { planned } = bending;
  const drawn = drawBlank(result.part, planned.plan.blank, { ...displayOptions(ask), beads: result.beads });
  return {
    ...bare,
    model: modelOf(ask, planned),
    title: [name, kind, planned.plan.brake.name].join(', '),
    features: placedFeatures(drawn.features, chosen, lines),
    stale,
    reason: whyBroken,
  };
};

const reasonForNothing = ({ part, blank }: PartResult): string => {
  if (part.kind !== 'panel' && part.kind !== 'section') return `A ${part.kind} is not bent on the brake.`;
  if (blank.blank?.bends.length === 0) return `${part.name} has no bends.`;
  return 'The shop has no brake to plan the bends for. Describe one in the shop file: brake NAME { leaf  length … }, with the sections of its nose, bed and apron.';
};

const leadOf = (plan: Plan): string => {
  if (!plan.possible)
    return plan.proven
      ? `It can’t be bent on ${plan.brake.name} as drawn, in any order.`
      : `No order was found in which it can be bent on ${plan.brake.name}; it has too many bends to try them all.`;
  const { cost } = plan;
  // A part with one bend is put in once: there is nothing to turn between.
  const handling = cost === undefined || plan.steps.length < 2 ? '' : `: ${sayHandling(cost)}`;
  return `${counted(plan.steps.length, 'step')} on ${plan.brake.name}${handling}.`;
};

const remarksOf = (plan: Plan, { say }: SayWords): readonly string[] => [
  ...(plan.preBent === undefined ? [] : [`${plan.preBent} is made in two goes, since nothing else works.`]),
  ...(plan.possible && !plan.best ? ['It has too many bends to weigh all orders: this is one that works.'] : []),
  ...(plan.possible && plan.steps.some(({ setBy }) => setBy !== 'not known')
    ? ['Try the set angle on a strip, and bend a little less first: more is easily added.']
    : []),
  ...(plan.stainless === undefined
    ? []
    : [`Stainless: by strength the brake takes ${say(plan.stainless.takes)}; many shops allow ${say(plan.stainless.practice)}.`]),
  ...plan.notChecked.map((one) => `Not checked: ${one}.`),
];

const modelOf = (ask: Ask, planned: Planned): BendingModel => {
  const { plan } = planned;
  const words = bendWords(ask);
  return {
    possible: plan.possible,
    lead: leadOf(plan),
    steps: plan.steps.map((step, index) => stepOf(ask, step, stepMotion(planned, index), words)),
    stops: plan.blocked.slice(0, mostStops).map((blocked, index) => stopOf(planned, blocked, index, words)),
    cures: plan.suggestions.map((change) => sayChange(change, words)),
    remarks: remarksOf(plan, words),
    blank: blankOf(plan.blank),
  };
};

const bendIds = (ids: readonly string[]): readonly string[] => ids.map((id) => `bend:${id}`);
const placeOf = (step: Pick<BendStep, 'bends' | 'done' | 'line'>, held: string | undefined): BendingPlace => ({
  bends: bendIds(step.bends),
  done: bendIds(step.done),
  held: held === undefined ? undefined : `face:${held}`,
  line: step.line?.flatMap(({ x, y }) => [rounded(x), rounded(y)]),
});

const stepOf = (ask: Ask, step: BendStep, motion: BendMotion | undefined, words: SayWords): BendingStep => {
  const { unit } = displayOptions(ask);
  const { make, markOffset, clamped, fingers, line } = step;
  const bend = line === undefined ? 0 : Math.hypot(line[1].x - line[0].x, line[1].y - line[0].y);
  return {
    ...placeOf(step, clamped?.face),
    number: step.number,
    title: step.bends.join(', '),
    set: make === 'hand' ? 'by hand' : sayAngle(step.setAngle),
    words: sayStep(step, words),
    mark:
      make === 'hand' || clamped === undefined || markOffset < 1e-6
        ? undefined
        : `The line to lay under the nose’s edge is ${sayBendSum(markOffset, unit)} from where the bend begins on ${clamped.face}.`,
    motion: motion === undefined ? undefined : motionOf(motion),
    fingers:
      fingers === undefined
        ? undefined
        : {
            widths: fingers.widths.map((mm) => ({ mm: rounded(mm), words: words.say(mm) })),
            bend: rounded(bend),
            gap: rounded(fingers.gap),
          },
  };
};

const stopOf = (planned: Planned, blocked: BlockedBend, index: number, words: SayWords): BendingStop => {
  const way = blocked.tried.find(({ obstacles }) => obstacles.includes(blocked.main)) ?? blocked.tried[0];
  const clamped = way?.clamped ?? 'parent';
  const bend = planned.plan.blank.bends.find(({ id }) => id === blocked.bend);
  const motion = blockedMotion(planned, index, clamped);
  return {
    ...placeOf({ bends: [blocked.bend], done: blocked.done, line: undefined }, clamped === 'parent' ? bend?.parent : bend?.child),
    title: blocked.bend,
    words: sayBlocked(blocked, words),
    motion: motion === undefined ? undefined : motionOf(motion),
  };
};

/** A hundredth of a millimetre is enough for the eye, and fewer letters to send. */
const rounded = (mm: number): number => Math.round(mm * 100) / 100 + 0;
const flat = (outline: readonly { readonly x: number; readonly y: number }[]): readonly number[] =>
  outline.flatMap(({ x, y }) => [rounded(x), rounded(y)]);

const motionOf = (motion: BendMotion): BendingMotion => {
  const sheet = ({ feature, outline, beyond, strikes }: MovedSheet): BendingSheet => ({
    id: feature,
    outline: flat(outline),
    beyond,
    strikes: strikes !== undefined,
  });
  const struck = new Set([...motion.held, ...motion.swings].flatMap(({ strikes }) => strikes ?? []));
  const { about, inside, outside, allowance, from, set, rests } = motion;
  return {
    machine: motion.machine.map(({ tool, outline }) => ({
      tool,
      outline: flat(outline),
      // The beam is the upper part of the nose as it is drawn.
      struck: struck.has(tool) || (tool === 'nose' && struck.has('beam')),
    })),
    held: motion.held.map(sheet),
    swings: motion.swings.map(sheet),
    about: [about.x, about.y],
    inside,
    outside,
    allowance,
    from,
    set,
    rests,
  };
};

const blankOf = (blank: Blank): BendingModel['blank'] => ({
  width: rounded(blank.width),
  height: rounded(blank.height),
  outline: loopPath(blank.outline),
  faces: blank.faces.flatMap(({ id, polygon }) => (polygon.length === 0 ? [] : [{ id: `face:${id}`, path: loopPath(polygon) }])),
  bends: blank.bends.map(({ id, from, to }) => ({ id: `bend:${id}`, line: flat([from, to]) })),
});
