/** The bending of one part: what each bend takes up, then the steps on the brake with their pictures, or what stands in the way. */
import type { BendLine, Blank } from '../../blank/types.js';
import { blockedPicture, type Planned, sayAngle, sayBlocked, sayChange, sayStep, sectionPicture } from '../../brake/index.js';
import { sayBendSum, sayBothLengths } from '../../model/display.js';
import type { Panel, Section } from '../../model/part.js';
import type { Point } from '../../shape/path.js';
import type { Block } from '../documents/blocks.js';
import { bendFigure, keyFigure } from './bend-figures.js';
import type { BookletPart, Saying } from './types.js';

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

const makes: Readonly<Record<BendLine['make'], string>> = { turn: '', hem: 'hem', curl: 'curl', joggle: 'joggle', roll: 'roll' };

/** @param blank the sheet as cut and marked */
export const bendBlocks = (one: BookletPart, part: Panel | Section, blank: Blank, saying: Saying): readonly Block[] => {
  if (blank.bends.length === 0) return [];
  const { unit } = saying.display;
  const words = { say: saying.say, sayBoth: (a: number, b: number) => sayBothLengths(a, b, unit, saying.display.denominator) };
  return [
    { kind: 'heading', level: 2, text: 'Bends' },
    {
      kind: 'table',
      columns: [
        { title: 'bend', share: 1.6, bold: true },
        { title: 'turn', share: 1.2 },
        { title: 'inside radius', share: 1.2, align: 'right' },
        { title: 'allowance', share: 1.2, align: 'right' },
        { title: 'deduction', share: 1.2, align: 'right' },
        { title: 'reckoned by', share: 3.2 },
      ],
      rows: blank.bends.map((bend) => [
        bend.id,
        `${bend.direction} ${sayAngle(bend.turn)}${makes[bend.make] === '' ? '' : `, ${makes[bend.make]}`}`,
        saying.bare(bend.radius),
        sayBendSum(bend.allowance, unit),
        sayBendSum(bend.deduction, unit),
        bend.method,
      ]),
    },
    ...planBlocks(one, part, blank, words, saying),
  ];
};

const times = (count: number): string => (count === 0 ? 'never' : count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`);

const planBlocks = (
  { planned }: BookletPart,
  part: Panel | Section,
  blank: Blank,
  words: Parameters<typeof sayStep>[1],
  saying: Saying,
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
  if (!plan.possible)
    return [
      { kind: 'heading', level: 2, text: `It can’t be bent on ${plan.brake.name} as drawn` },
      ...plan.blocked.slice(0, 3).map((blocked, which): Block => {
        const side =
          blocked.tried.find(({ obstacles }) => obstacles.includes(blocked.main))?.clamped ?? blocked.tried[0]?.clamped ?? 'parent';
        const picture = blockedPicture(planned, which, side);
        const step = { bends: [blocked.bend], done: blocked.done, clamped: undefined };
        return {
          kind: 'beside',
          figures: [
            ...(picture === undefined ? [] : [bendFigure(picture, `${blocked.bend}: what stops it`)]),
            keyFigure(marked, step, undefined),
          ],
          title: `${blocked.bend} is stopped`,
          lines: [sayBlocked(blocked, words)],
        };
      }),
      {
        kind: 'list',
        mark: 'dot',
        items:
          plan.suggestions.length === 0
            ? ['No single change of a length that was tried frees it.']
            : plan.suggestions.map((change) => `Tried, and it would go: ${sayChange(change, words)}.`),
      },
    ];
  const { cost } = plan;
  return [
    { kind: 'heading', level: 2, text: `Bending on ${plan.brake.name}, in this order` },
    {
      kind: 'paragraph',
      text:
        `${cost === undefined ? '' : `The part is turned over ${times(cost.turnOvers)} and turned on the bed ${times(cost.rotations)}. `}` +
        `${plan.best ? '' : 'There are too many bends to weigh all orders: this is one that works. '}` +
        'The line named in each step is the brake line of the mark-out: lay it under the edge of the nose. Try the set angle on a strip, and bend a little less first: more is easily added.',
    },
    ...plan.steps.map((step, index): Block => {
      const picture = sectionPicture(planned, index);
      const key = keyFigure(marked, step, marked.bends.find(({ id }) => id === step.bends[0])?.brakeLine);
      const mark =
        step.make === 'hand' || step.markOffset < 1e-6 || step.clamped === undefined
          ? []
          : [`line ${sayBendSum(step.markOffset, saying.display.unit)} from where the bend begins on ${step.clamped.face}`];
      return {
        kind: 'beside',
        figures: [
          ...(picture === undefined
            ? []
            : [bendFigure(picture, `step ${step.number}: ${step.bends.join(', ')} seen from the end of the brake`)]),
          key,
        ],
        title: `${step.number}.  ${step.bends.join(', ')}`,
        lines: [...sayStep(step, words), ...mark],
        tick: true,
      };
    }),
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
