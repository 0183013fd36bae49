/** What hover says of the bends that a written step makes: how they were reckoned, from what, and how much flat sheet they take. */
import type { BendLine, Blank, Face } from '../blank/types.js';
import { startOf } from '../shape/index.js';
import { handbookEdges, sheetTaken, slopeSizes } from '../trade/edges.js';
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

/** What the sheet-metal worker's rule of thumb adds; it knows of hems mashed flat and of wires, whatever the sheet. */
const byTheBook = (ask: Ask, blank: Blank, outer: BendLine, folds: readonly BendLine[]): readonly string[] => {
  const depth = outer.radius + blank.thickness + flatBeyond(blank, outer);
  const rule =
    outer.make === 'curl'
      ? ([handbookEdges.wiredEdge(2 * outer.radius), 'two and a half times the wire'] as const)
      : folds.length === 2
        ? ([handbookEdges.doubleHem(depth + blank.thickness), 'twice the hem’s width'] as const)
        : outer.radius < 1e-9
          ? ([handbookEdges.singleHem(depth), 'the hem’s width'] as const)
          : undefined;
  return rule === undefined
    ? []
    : [`the sheet-metal worker’s rule is ${rule[1]}, ${bendSumOf(ask, rule[0])} (US Navy, NAVEDTRA 14251, ch. 2)`];
};

/** Hems and curls end the edge: what counts is how much longer the blank is than the finished edge. A double hem is two folds. */
const foldSums = (ask: Ask, blank: Blank, folds: readonly BendLine[]): string => {
  const [outer] = folds as readonly [BendLine];
  const taken = folds.map((bend) => ({ allowance: bend.allowance, flat: flatBeyond(blank, bend) }));
  const { beyondOutside } = sheetTaken(taken, outer.radius + blank.thickness);
  return [
    folds.length === 2 ? `${outer.direction}, folded over twice` : turned(outer),
    ...folds.flatMap((bend) => reckoned(ask, blank, bend)),
    takes(ask, [taken.reduce((sum, { allowance }) => sum + allowance, 0), taken.reduce((sum, { flat }) => sum + flat, 0)]),
    `the blank is ${bendSumOf(ask, beyondOutside)} longer here than the finished edge`,
    ...byTheBook(ask, blank, outer, folds),
    source(outer),
  ].join('  \n');
};

/** Two equal bends with a straight between them. */
const joggleSums = (ask: Ask, blank: Blank, near: BendLine): string => {
  const straight = flatBeyond(blank, near);
  const { run, depth } = slopeSizes(near.turn, straight, near.radius + blank.thickness / 2);
  const { beyondTangent, beyondOutside } = sheetTaken(
    [
      { allowance: near.allowance, flat: straight },
      { allowance: near.allowance, flat: 0 },
    ],
    run,
  );
  return [
    `${near.direction}, set off by ${sayLengthFully(ask, depth)}: two bends of ${sayAngle(near.turn)}${straight < 1e-9 ? '' : `, ${bendSumOf(ask, straight)} straight between them`}`,
    ...reckoned(ask, blank, near),
    `the slope runs ${bendSumOf(ask, run)} along the sheet and takes ${bendSumOf(ask, beyondTangent)} of it flat: ${bendSumOf(ask, beyondOutside)} more`,
    source(near),
  ].join('  \n');
};

const NAMES: Readonly<Record<BendLine['make'], string>> = { turn: 'bend', roll: 'bend', hem: 'hem', curl: 'curl', joggle: 'joggle' };

/** Bends that come out alike, as on the edges of one block, are said once. */
export const bendHovers = (ask: Ask, placed: PlacedPart, step: { readonly start: number; readonly end: number }): readonly string[] => {
  const { blank } = placed.result.blank;
  if (blank === undefined) return [];
  const alike = new Map<string, { readonly make: BendLine['make']; readonly ids: string[] }>();
  const bends = bendsOfStep(placed, step);
  for (const bend of bends) {
    // Two bends of one step are said together, at the one that hangs on the sheet before it.
    if (bends.some((other) => other.step === bend.step && other.child === bend.parent)) continue;
    const id = bend.make === 'joggle' ? bend.step : bend.id;
    const sums =
      bend.make === 'joggle'
        ? joggleSums(ask, blank, bend)
        : bend.make === 'hem' || bend.make === 'curl'
          ? foldSums(
              ask,
              blank,
              bends.filter((other) => other.step === bend.step),
            )
          : turnSums(ask, blank, bend);
    const there = alike.get(sums);
    if (there === undefined) alike.set(sums, { make: bend.make, ids: [id] });
    else there.ids.push(id);
  }
  return [...alike].map(
    ([sums, { make, ids }]) => `**${NAMES[make]}${ids.length === 1 ? '' : 's'} ${ids.sort().map(plain).join(', ')}**, ${sums}`,
  );
};
