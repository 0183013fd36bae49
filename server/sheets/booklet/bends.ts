/** The bending of one part: what each bend takes up, then the steps on the brake with their pictures, or what stands in the way. */
import type { BendLine, Blank } from '../../blank/types.js';
import {
  type BendStep,
  blockedPicture,
  type Plan,
  type Planned,
  type SayWords,
  type SectionPicture,
  sayAngle,
  sayBlocked,
  sayChange,
  sectionPicture,
  stepWords,
} from '../../brake/index.js';
import { sayBendSum, sayBothLengths } from '../../model/display.js';
import type { Panel, Section } from '../../model/part.js';
import type { Point } from '../../shape/path.js';
import type { Block, Figure, InnerBlock } from '../documents/blocks.js';
import { asSentence } from './beads.js';
import { bendFigure, cardFigures, keyFigure } from './bend-figures.js';
import type { BookletOptions, BookletPart, Saying } from './types.js';

/**
 * The blank with each bend's line where this plan wants it: under the nose's edge, one inside radius from the tangent on the side that is clamped. Without a
 * plan the parent's side is taken as clamped.
 */
export const linedFor = (blank: Blank, planned: Planned | undefined): Blank => {
  const byChild = new Set((planned?.plan.steps ?? []).filter(({ clamped }) => clamped?.side === 'child').flatMap(({ bends }) => bends));
  if (byChild.size === 0) return blank;
  return { ...blank, bends: blank.bends.map((bend) => (byChild.has(bend.id) ? { ...bend, brakeLine: fromChild(bend) } : bend)) };
};
const fromChild = ({ tangentParent, tangentChild, radius }: BendLine): readonly [Point, Point] => {
  const line = tangentChild.map((p, i): Point => {
    const q = tangentParent[i] as Point;
    const length = Math.hypot(q.x - p.x, q.y - p.y);
    return length < 1e-9 ? p : { x: p.x + ((q.x - p.x) / length) * radius, y: p.y + ((q.y - p.y) / length) * radius };
  });
  return [line[0] as Point, line[1] as Point];
};

const makes: Readonly<Record<BendLine['make'], string>> = { turn: '', hem: ', hem', curl: ', curl', joggle: ', joggle', roll: ', rolled' };

/** @param blank the sheet as cut and marked */
export const bendBlocks = (
  one: BookletPart,
  part: Panel | Section,
  blank: Blank,
  saying: Saying,
  options: BookletOptions,
): readonly Block[] => {
  if (blank.bends.length === 0) return [];
  const { unit } = saying.display;
  const words: SayWords = { say: saying.say, sayBoth: (a, b) => sayBothLengths(a, b, unit, saying.display.denominator) };
  return [bendTable(blank, saying), ...planBlocks(one, part, blank, words, saying, options)].flat();
};

/** Bends that are alike in everything stand in one row. */
const bendTable = (blank: Blank, saying: Saying): readonly Block[] => {
  const { unit } = saying.display;
  const rows = new Map<string, { readonly names: string[]; readonly cells: readonly string[] }>();
  for (const bend of blank.bends) {
    const cells = [
      `${bend.direction} ${sayAngle(bend.turn)}${makes[bend.make]}`,
      saying.bare(bend.radius),
      sayBendSum(bend.allowance, unit),
      sayBendSum(bend.deduction, unit),
      bend.method,
    ];
    const key = cells.join('\n');
    const known = rows.get(key);
    if (known === undefined) rows.set(key, { names: [bend.id], cells });
    else known.names.push(bend.id);
  }
  return [
    { kind: 'heading', level: 2, text: 'Bends' },
    {
      kind: 'table',
      columns: [
        { title: 'bends', share: 2.6, bold: true },
        { title: 'turn', share: 1.5 },
        { title: 'inside radius', share: 1, align: 'right' },
        { title: 'allowance', share: 1.2, align: 'right' },
        { title: 'deduction', share: 1.2, align: 'right' },
        { title: 'reckoned by', share: 2.8 },
      ],
      rows: [...rows.values()].map(({ names, cells }) => [names.join(', '), ...cells]),
    },
  ];
};

const planBlocks = (
  { planned }: BookletPart,
  part: Panel | Section,
  blank: Blank,
  words: SayWords,
  saying: Saying,
  options: BookletOptions,
): readonly Block[] => {
  if (planned === undefined)
    return [
      {
        kind: 'paragraph',
        text:
          part.brakes.length === 0
            ? 'No brake is described in the shop file, so the order of the bends is left to you.'
            : 'No order of the bends was worked out.',
      },
    ];
  const { plan } = planned;
  const marked = linedFor(blank, planned);
  if (!plan.possible) return blockedBlocks(planned, marked, words, options);
  const byHand = plan.steps.every(({ clamped }) => clamped === undefined);
  return [
    { kind: 'heading', level: 2, text: `Bending ${byHand ? 'by hand' : `on ${plan.brake.name}`}, in this order` },
    {
      kind: 'paragraph',
      text: byHand ? 'Small pictures: face toward you; thick, this bend; grey, bends made.' : leadWords(plan, offsetWords(plan, saying)),
    },
    {
      kind: 'columns',
      count: 2,
      blocks: plan.steps.map((step, index): InnerBlock => {
        const picture = clear(sectionPicture(planned, index));
        const sizes = cardFigures(options.room);
        const line = step.clamped === undefined ? undefined : marked.bends.find(({ id }) => id === step.bends[0])?.brakeLine;
        const key = keyFigure(marked, step, line, sizes.key);
        const seen = `step ${step.number}: ${step.bends.join(', ')} seen from the end of the brake`;
        const figures: readonly Figure[] = picture === undefined ? [key] : [bendFigure(picture, seen, sizes.bend), key];
        return {
          kind: 'card',
          figures,
          title: `${step.number}.  ${step.bends.join(', ')}`,
          lines: stepLines(step, blank, words),
          tick: true,
        };
      }),
    },
    ...(plan.stainless === undefined
      ? []
      : [
          {
            kind: 'paragraph',
            text: `Stainless: by strength the brake takes ${saying.say(plan.stainless.takes)}; many shops allow ${saying.say(plan.stainless.practice)}.`,
          } as const,
        ]),
  ];
};

/** The picture of a step that goes: what crosses a tool's section in it lies beside the fingers that are used, so it is drawn as what lies farther off. */
const clear = (picture: SectionPicture | undefined): SectionPicture | undefined =>
  picture === undefined
    ? undefined
    : {
        ...picture,
        part: picture.part.filter(({ strikes }) => strikes === undefined),
        beyond: [...picture.beyond, ...picture.part.filter(({ strikes }) => strikes !== undefined)],
      };

/** `0.063 in (hinge_side: 0.094 in)`: how far most lines lie from where their bend begins, and which lie otherwise. */
const offsetWords = (plan: Plan, saying: Saying): string | undefined => {
  const by = new Map<string, string[]>();
  for (const step of plan.steps) {
    if (step.clamped === undefined || step.markOffset < 1e-6) continue;
    const words = sayBendSum(step.markOffset, saying.display.unit);
    by.set(words, [...(by.get(words) ?? []), ...step.bends]);
  }
  const [most, ...others] = [...by].sort((a, b) => b[1].length - a[1].length);
  if (most === undefined) return undefined;
  return others.length === 0 ? most[0] : `${most[0]} (${others.map(([words, bends]) => `${bends.join(', ')}: ${words}`).join('; ')})`;
};

const leadWords = (plan: Plan, offset: string | undefined): string =>
  [
    ...(plan.best ? [] : ['There are too many bends to weigh all orders: this is one that works.']),
    `Lay the brake line of the mark-out under the edge of the nose${offset === undefined ? '' : `: ${offset} from where the bend begins on the side held`}.`,
    'Try the set angle on a strip, and bend a little less first: more is easily added.',
    'Small pictures: face toward you; toned, what lies under the nose; thick, this bend; grey, bends made.',
  ].join(' ');

/** Handling in one sentence, then what lies where, then the setting with the fingers; how it gets out comes last, that no way in was found before it is put in. */
export const stepLines = (step: BendStep, blank: Blank, words: SayWords): readonly string[] => {
  const said = stepWords(step, words);
  if (said === undefined) return handWords(step, blank);
  return [
    ...(said.handling.length === 0 ? [] : [asSentence(said.handling.join(', '))]),
    ...(said.into === undefined ? [] : [asSentence(said.into)]),
    `Under the nose: ${step.clamped?.face ?? ''}, face ${step.faceUp === false ? 'down' : 'up'}; its line ${words.say(step.swings)} from the free edge.`,
    asSentence([said.set, ...(said.fingers === undefined ? [] : [said.fingers])].join('; ')),
    ...(said.out === undefined ? [] : [asSentence(said.out)]),
  ];
};

/** How a bend is made that the brake can't make. Common practice, no source. */
const handWords = (step: BendStep, blank: Blank): readonly string[] => {
  const bends = blank.bends.filter(({ id }) => step.bends.includes(id));
  const [first] = bends;
  const turn = first === undefined ? '' : `${first.direction} ${sayAngle(first.turn)}`;
  switch (first?.make) {
    case 'curl':
      return [
        `By hand, ${turn}: dress the edge over with a mallet from the middle outward, a little at a time along the whole length, and close it round the wire last.`,
      ];
    case 'joggle':
      return ['By hand, both bends in one go: with a setting-off tool, or between two straight edges as far apart as the joggle is deep.'];
    case 'roll':
      return [
        `By hand, ${turn}: a little at a time along the whole length, round a pipe or a former that is somewhat smaller than the radius.`,
      ];
    case 'hem':
      return [`By hand, ${turn}: fold it over as far as the brake goes, then close it with a mallet over a strip of the gap’s thickness.`];
    case 'turn':
    case undefined:
      return [`By hand, ${turn}.`];
  }
};

const blockedBlocks = (planned: Planned, marked: Blank, words: SayWords, options: BookletOptions): readonly Block[] => {
  const { plan } = planned;
  const sizes = cardFigures(options.room);
  return [
    { kind: 'heading', level: 2, text: `It can’t be bent on ${plan.brake.name} as drawn` },
    {
      kind: 'paragraph',
      text: 'No order of the bends works; these stand in the way. What strikes is red. Change the part or the brake before you cut.',
    },
    {
      kind: 'columns',
      count: 2,
      blocks: plan.blocked.slice(0, 4).map((blocked, which): InnerBlock => {
        const side =
          blocked.tried.find(({ obstacles }) => obstacles.includes(blocked.main))?.clamped ?? blocked.tried[0]?.clamped ?? 'parent';
        const picture = blockedPicture(planned, which, side);
        const step = { bends: [blocked.bend], done: blocked.done, clamped: undefined };
        return {
          kind: 'card',
          figures: [
            ...(picture === undefined ? [] : [bendFigure(picture, `${blocked.bend}: what stops it`, sizes.bend)]),
            keyFigure(marked, step, undefined, sizes.key),
          ],
          title: `${blocked.bend} is stopped`,
          lines: [asSentence(sayBlocked(blocked, words).replace(`${blocked.bend}, `, ''))],
        };
      }),
    },
    {
      kind: 'list',
      mark: 'dot',
      items:
        plan.suggestions.length === 0
          ? ['No single change of a length that was tried frees it.']
          : plan.suggestions.map((change) => `Tried, and it would go: ${sayChange(change, words)}.`),
    },
  ];
};
