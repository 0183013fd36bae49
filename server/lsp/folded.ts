/** A part folded, as the preview needs it: pieces that move, words for its steps, and where everything is written. */
import type { Position } from 'vscode-languageserver';
import type { BendLine, Blank } from '../blank/types.js';
import { foldPart, movingPart } from '../fold/index.js';
import type { FoldResult, MovingPart } from '../fold/types.js';
import { sayAngle, sayLengthBare, sayThickness } from '../model/display.js';
import type { PartResult } from '../project.js';
import { drawBlank } from '../sheets/index.js';
import type { Ask } from './ask.js';
import { chosenPart, displayOptions, placedFeatures, wholeOf } from './picture.js';
import type { FoldedModel, FoldedResult } from './protocol.js';
import { massOf, reasonNotLaidOut, sayLength } from './say.js';

/** The folded part asked for, else the one around a position, else the first of the file. */
export const foldedOf = (ask: Ask, version: number, part: string | undefined, position: Position | undefined): FoldedResult => {
  const { chosen, lines, parts } = chosenPart(ask, part, position);
  const base = { uri: ask.uriOf(ask.path), version, parts };
  const nothing = { ...base, model: undefined, features: [], stale: false };
  if (chosen === undefined)
    return { ...nothing, part: undefined, title: '', partRange: undefined, reason: 'There is no part in this file yet.' };
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
    model: modelOf(ask, result, blank, folded, drawn.features),
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

const modelOf = (
  ask: Ask,
  result: PartResult,
  blank: Blank,
  folded: FoldResult | undefined,
  features: readonly { readonly id: string; readonly title: string }[],
): FoldedModel => {
  const moving = movingPart(blank, undefined, result.beads);
  const bends = new Map(blank.bends.map((bend) => [bend.id, bend]));
  const faults = new Map<string, 'error' | 'warning'>();
  for (const severity of ['warning', 'error'] as const) {
    for (const finding of result.findings)
      if (finding.severity === severity) for (const feature of finding.features ?? []) faults.set(feature, severity);
  }
  return {
    moving: shortened(moving),
    steps: moving.steps.map((ids) =>
      ids
        .flatMap((id) => bends.get(id) ?? [])
        .map(stepWords)
        .join(', '),
    ),
    names: features.map(({ id, title }) => ({ id, name: title })),
    sizes: sizesOf(ask, folded),
    down: blank.bends.filter(({ direction }) => direction === 'down').map(({ id }) => id),
    faults: [...faults].map(([id, severity]) => ({ id, severity })),
    collisions: folded?.findings.map(({ message }) => message) ?? [],
  };
};

const stepWords = ({ id, make, direction, turn }: BendLine): string => {
  const words = { turn: '', hem: 'hem ', curl: 'curl ', joggle: 'joggle ', roll: 'roll ' }[make];
  return `${id}: ${words}${direction} ${sayAngle(turn)}`;
};

/** A hundredth of a micrometre is enough for the eye, and half as many letters to send. */
const shortened = (moving: MovingPart): MovingPart => ({
  ...moving,
  pieces: moving.pieces.map((piece) => ({ ...piece, points: piece.points.map((value) => Math.round(value * 1e5) / 1e5) })),
});
