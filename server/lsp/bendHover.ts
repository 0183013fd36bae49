/** What hover says of the bends that a written step makes: how they were reckoned, from what, and how much flat sheet they take. */
import type { BendLine, Blank, Face } from '../blank/types.js';
import { startOf } from '../shape/index.js';
import type { Ask } from './ask.js';
import { plain } from './documentation.js';
import { bendSumOf, bendsOfStep, type PlacedPart, sayAngle, sayLengthFully, thicknessOf } from './say.js';

/** How wide the flat is that follows a bend, from its tangent line to the farthest of it, mm; 0 where nothing flat follows. */
const flatBeyond = (blank: Blank, bend: BendLine): number => {
  const face: Face | undefined = blank.faces.find(({ id }) => id === bend.child);
  const [from, to] = bend.tangentChild;
  const long = Math.hypot(to.x - from.x, to.y - from.y);
  if (face === undefined || long < 1e-9) return 0;
  const away = face.polygon.map((_, i) => {
    const p = startOf(face.polygon, i);
    return Math.abs((p.x - from.x) * (to.y - from.y) - (p.y - from.y) * (to.x - from.x)) / long;
  });
  return Math.max(0, ...away);
};

/** An angle between the two flats is there only as long as the sheet isn't folded past itself. */
const turned = (bend: BendLine): string =>
  bend.turn < Math.PI - 1e-9
    ? `${bend.direction} ${sayAngle(bend.turn)} (${sayAngle(Math.PI - bend.turn)} included)`
    : `${bend.direction}, turned ${sayAngle(bend.turn)} from flat`;

const reckoned = (ask: Ask, blank: Blank, bend: BendLine): readonly string[] => [
  `inside radius ${sayLengthFully(ask, bend.radius)}, sheet ${thicknessOf(ask, blank.thickness)} thick`,
  `allowance ${bendSumOf(ask, bend.allowance)}, by ${plain(bend.method)}`,
];
const source = (bend: BendLine): string => `Source: ${plain(bend.source)}`;

const turnSums = (ask: Ask, blank: Blank, bend: BendLine): string =>
  [
    turned(bend),
    ...reckoned(ask, blank, bend),
    ...(bend.make === 'roll' ? [] : [`setback ${bendSumOf(ask, bend.setback)}, deduction ${bendSumOf(ask, bend.deduction)}`]),
    takes(ask, [bend.allowance, flatBeyond(blank, bend)]),
    source(bend),
  ].join('  \n');

/** Of the blank, from the line where the bend begins: the bend itself and what is flat beyond it. */
const takes = (ask: Ask, [arc, flat]: readonly [number, number]): string =>
  flat < 1e-9
    ? `takes ${bendSumOf(ask, arc)} of the flat sheet`
    : `takes ${bendSumOf(ask, arc + flat)} of the flat sheet, ${bendSumOf(ask, flat)} of it beyond the bend`;

/** Hems and curls end the edge: what counts is how much longer the blank is than the finished edge. */
const foldSums = (ask: Ask, blank: Blank, bend: BendLine): string => {
  const flat = flatBeyond(blank, bend);
  const added = bend.allowance + flat - (bend.radius + blank.thickness);
  return [
    turned(bend),
    ...reckoned(ask, blank, bend),
    takes(ask, [bend.allowance, flat]),
    `the blank is ${bendSumOf(ask, added)} longer here than the finished edge`,
    source(bend),
  ].join('  \n');
};

/** Two equal bends with a straight between them; by plane geometry the slope runs 2 r sin A + straight cos A along the sheet, r to its middle. */
const joggleSums = (ask: Ask, blank: Blank, near: BendLine): string => {
  const straight = flatBeyond(blank, near);
  const middle = near.radius + blank.thickness / 2;
  const run = 2 * middle * Math.sin(near.turn) + straight * Math.cos(near.turn);
  const developed = 2 * near.allowance + straight;
  const depth = 2 * middle * (1 - Math.cos(near.turn)) + straight * Math.sin(near.turn);
  return [
    `${near.direction}, set off by ${sayLengthFully(ask, depth)}: two bends of ${sayAngle(near.turn)}${straight < 1e-9 ? '' : `, ${bendSumOf(ask, straight)} straight between them`}`,
    ...reckoned(ask, blank, near),
    `the slope runs ${bendSumOf(ask, run)} along the sheet and takes ${bendSumOf(ask, developed)} of it flat: ${bendSumOf(ask, developed - run)} more`,
    source(near),
  ].join('  \n');
};

const NAMES: Readonly<Record<BendLine['make'], string>> = { turn: 'bend', roll: 'bend', hem: 'hem', curl: 'curl', joggle: 'joggle' };

/** Bends that come out alike, as on the edges of one block, are said once. */
export const bendHovers = (ask: Ask, placed: PlacedPart, step: { readonly start: number; readonly end: number }): readonly string[] => {
  const { blank } = placed.result.blank;
  if (blank === undefined) return [];
  const alike = new Map<string, { readonly make: BendLine['make']; readonly ids: string[] }>();
  for (const bend of bendsOfStep(placed, step)) {
    if (bend.make === 'joggle' && !bend.id.endsWith('.near')) continue;
    const id = bend.make === 'joggle' ? bend.step : bend.id;
    const sums =
      bend.make === 'joggle'
        ? joggleSums(ask, blank, bend)
        : bend.make === 'hem' || bend.make === 'curl'
          ? foldSums(ask, blank, bend)
          : turnSums(ask, blank, bend);
    const there = alike.get(sums);
    if (there === undefined) alike.set(sums, { make: bend.make, ids: [id] });
    else there.ids.push(id);
  }
  return [...alike].map(
    ([sums, { make, ids }]) => `**${NAMES[make]}${ids.length === 1 ? '' : 's'} ${ids.sort().map(plain).join(', ')}**, ${sums}`,
  );
};
