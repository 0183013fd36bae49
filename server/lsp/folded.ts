/** A part folded, as the preview needs it: pieces that move, words for its steps, and where everything is written. */
import type { Position } from 'vscode-languageserver';
import type { BendLine, Blank } from '../blank/types.js';
import { foldPart, movingPart } from '../fold/index.js';
import type { FoldResult, MovingPart, MovingStep } from '../fold/types.js';
import { sayAngle, sayLengthBare, sayThickness } from '../model/display.js';
import type { Finding } from '../model/finding.js';
import type { PartResult } from '../project.js';
import type { Vector } from '../shape/space.js';
import { drawBlank } from '../sheets/index.js';
import type { Ask } from './ask.js';
import type { FoldOrder } from './bendOrder.js';
import { chosenPart, displayOptions, placedFeatures, wholeOf } from './picture.js';
import type { FoldedModel, FoldedPlace, FoldedResult } from './protocol.js';
import { massOf, noPart, reasonNotLaidOut, sayLength } from './say.js';

/**
 * The folded part asked for, else the one around a position, else the first of the file.
 *
 * @param orderOf the bend plan's order, as far as it is known
 */
export const foldedOf = (
  ask: Ask,
  version: number,
  part: string | undefined,
  position: Position | undefined,
  orderOf: (result: PartResult) => FoldOrder | undefined = () => undefined,
): FoldedResult => {
  const { chosen, lines, parts } = chosenPart(ask, part, position);
  const base = { uri: ask.uriOf(ask.path), version, parts };
  const nothing = { ...base, model: undefined, features: [], stale: false };
  if (chosen === undefined) return { ...nothing, part: undefined, title: '', partRange: undefined, reason: noPart };
  const { result } = chosen;
  const blank = result.blank.blank ?? result.lastGood;
  const whole = wholeOf(chosen, lines);
  const reason = result.blank.blank === undefined ? reasonNotLaidOut(ask, chosen) : reasonNotFolded(result);
  const { name } = result.part;
  if (blank === undefined) return { ...nothing, part: name, title: `${name}, ${result.part.kind}`, partRange: whole.range, reason };
  const drawn = drawBlank(result.part, blank, { ...displayOptions(ask), beads: result.beads });
  const folded = finishedOf(result, blank);
  return {
    ...base,
    part: name,
    model: modelOf(ask, { result, blank, folded, order: result.blank.blank === undefined ? undefined : orderOf(result) }, drawn.features),
    title: titleOf(ask, result, blank, folded),
    features: placedFeatures(drawn.features, chosen, lines),
    stale: result.blank.blank === undefined,
    partRange: whole.range,
    reason,
  };
};

/** The fold of what is shown; an old blank is folded again, since the project keeps only the fold of the present one. */
const finishedOf = ({ part, blank, folded }: PartResult, shown: Blank): FoldResult | undefined =>
  blank.blank !== undefined || (part.kind !== 'panel' && part.kind !== 'section') ? folded : foldPart(part, shown);

const reasonNotFolded = (result: PartResult): string | undefined =>
  result.blank.blank === undefined || result.folded !== undefined
    ? undefined
    : (result.findings.find(({ severity }) => severity === 'error')?.message ?? 'It can’t be folded as it is.');

const sizesOf = (ask: Ask, folded: FoldResult | undefined): readonly string[] => {
  if (folded === undefined) return [];
  const { min, max } = folded.envelope;
  return [max.x - min.x, max.y - min.y, max.z - min.z].map((size) => sayLength(ask, size));
};

const titleOf = (ask: Ask, { part }: PartResult, blank: Blank, folded: FoldResult | undefined): string => {
  const { unit, denominator } = displayOptions(ask);
  const sheet = 'sheet' in part && part.sheet !== undefined ? `${part.sheet.value.name} ${sayThickness(blank.thickness, unit)}` : undefined;
  const mass = massOf(ask, blank);
  const { min, max } = folded?.envelope ?? { min: undefined, max: undefined };
  const size =
    min === undefined || max === undefined
      ? []
      : [
          `folded ${[max.x - min.x, max.y - min.y].map((mm) => sayLengthBare(mm, unit, denominator)).join(' × ')} × ${sayLength(ask, max.z - min.z)}`,
        ];
  return [part.name, part.kind, ...(sheet === undefined ? [] : [sheet]), ...size, ...(mass === undefined ? [] : [mass])].join(', ');
};

interface Shown {
  readonly result: PartResult;
  readonly blank: Blank;
  readonly folded: FoldResult | undefined;
  readonly order: FoldOrder | undefined;
}

const modelOf = (
  ask: Ask,
  { result, blank, folded, order }: Shown,
  features: readonly { readonly id: string; readonly title: string }[],
): FoldedModel => {
  const moving = movingPart(blank, order?.kind === 'planned' ? order.steps : undefined, result.beads);
  const bends = new Map(blank.bends.map((bend) => [bend.id, bend]));
  const faults = new Map<string, Finding>();
  for (const severity of ['warning', 'error'] as const) {
    for (const finding of result.findings)
      if (finding.severity === severity) for (const feature of finding.features ?? []) faults.set(feature, finding);
  }
  /** What it is called, what was measured on it, and what is wrong with it. */
  const said = (id: string, title: string): string => {
    const fault = faults.get(id);
    const words = [title, ...neighbourWords(ask, folded, id)].join('; ');
    return fault === undefined ? words : `${words}. ${fault.severity === 'error' ? 'Error' : 'Warning'}: ${fault.message}`;
  };
  return {
    moving: shortened(moving),
    steps: moving.steps.map((step) =>
      step.bends
        .flatMap((id) => bends.get(id) ?? [])
        .map((bend) => stepWords(bend, step))
        .join(', '),
    ),
    order: { planned: order?.kind === 'planned', words: orderWords(order) },
    names: features.map(({ id, title }) => ({ id, name: said(id, title) })),
    sizes: sizesOf(ask, folded),
    down: blank.bends.filter(({ direction }) => direction === 'down').map(({ id }) => id),
    faults: [...faults].map(([id, { severity }]) => ({ id, severity: severity === 'error' ? severity : 'warning' })),
    collisions: folded?.findings.map(({ message }) => message) ?? [],
    remarks: [...cornerWords(ask, folded), ...rollerWords(result)],
    places: placesOf(ask, folded),
  };
};

/** Corners nearer than this (mm) touch. */
const TOUCHING = 0.005;

const placesOf = (ask: Ask, folded: FoldResult | undefined): readonly FoldedPlace[] => {
  if (folded === undefined) return [];
  const place = (a: string, b: string, { x, y, z }: Vector, words: string, clash: boolean): FoldedPlace => ({
    between: [a, b],
    at: [x, y, z],
    words,
    clash,
  });
  const apart = (gap: number): string => (gap < TOUCHING ? 'touching' : sayLength(ask, gap));
  return [
    ...folded.collisions.map(({ a, b, depth, at }) => place(a, b, at, `${sayLength(ask, depth)} too far`, true)),
    // What overlaps stands among the collisions.
    ...folded.gaps.filter(({ gap }) => gap > -TOUCHING).map(({ a, b, gap, at }) => place(a, b, at, apart(gap), false)),
  ];
};

/** Of a flange, or of the bend that bears it: how it stands to the others at its corners. */
const neighbourWords = (ask: Ask, folded: FoldResult | undefined, id: string): readonly string[] => {
  const own = id.replace(/^bend:/, 'face:');
  const other = (a: string, b: string): string | undefined => (a === own ? b.slice(5) : b === own ? a.slice(5) : undefined);
  return [
    ...(folded?.collisions ?? []).flatMap(({ a, b, depth }) => {
      const name = other(a, b);
      return name === undefined ? [] : [`${sayLength(ask, depth)} into ${name}`];
    }),
    ...(folded?.gaps ?? []).flatMap(({ a, b, gap }) => {
      const name = other(a, b);
      if (name === undefined || gap < -TOUCHING) return [];
      return [gap < TOUCHING ? `touches ${name}` : `${sayLength(ask, gap)} from ${name}`];
    }),
  ];
};

const cornerWords = (ask: Ask, folded: FoldResult | undefined): readonly string[] => {
  const gaps = folded?.gaps.map(({ gap }) => Math.max(0, gap)) ?? [];
  if (gaps.length === 0 || (folded?.collisions.length ?? 0) > 0) return [];
  const [least, most] = [Math.min(...gaps), Math.max(...gaps)];
  const { unit, denominator } = displayOptions(ask);
  const [near, far] = [sayLengthBare(least, unit, denominator), sayLength(ask, most)];
  if (most < TOUCHING) return ['Its corners touch.'];
  if (least < TOUCHING) return [`Its corners touch or stand up to ${far} apart.`];
  return [far.startsWith(`${near} `) ? `Its corners stand ${far} apart.` : `Its corners stand ${near} to ${far} apart.`];
};

/** What of the roller's work is not in sizes or picture. */
const rollerWords = ({ beads }: PartResult): readonly string[] => {
  if (beads === undefined) return [];
  const counted = beads.beads.length === 0 ? [] : ['Its sizes leave out how far its beads stand out.'];
  const tips = beads.tips.length === 0 ? [] : [`Tipped edges (${beads.tips.map(({ id }) => id).join(', ')}) are not drawn turned.`];
  return [...counted, ...tips];
};

const stepWords = ({ id, make, direction, turn }: BendLine, { from, to }: MovingStep): string => {
  const words = { turn: '', hem: 'hem ', curl: 'curl ', joggle: 'joggle ', roll: 'roll ' }[make];
  const whole = sayAngle(turn);
  if (from === 0 && to === 1) return `${id}: ${words}${direction} ${whole}`;
  return `${id}: ${words}${direction} ${from === 0 ? '' : `from ${sayAngle(from * turn)} `}to ${sayAngle(to * turn)} of ${whole}`;
};

const orderWords = (order: FoldOrder | undefined): string => {
  switch (order?.kind) {
    case 'planned':
      return `Folded in the order planned for ${order.brake}.`;
    case 'blocked':
      return 'Folded from the outside in: no order makes it on the shop’s brakes.';
    default:
      return 'Folded from the outside in: there is no bend plan.';
  }
};

/** A hundredth of a micrometre is enough for the eye, and half as many letters to send. */
const shortened = (moving: MovingPart): MovingPart => ({
  ...moving,
  pieces: moving.pieces.map((piece) => ({ ...piece, points: piece.points.map((value) => Math.round(value * 1e5) / 1e5) })),
});
