/** What the rules say of a plan of bending that found no order: the bend with the least against it, what stops it, and the changes that were tried and free it. */
import type { Fix, Span } from '../../grammar/syntax.js';
import type { BendLine } from '../blank/types.js';
import { type BlockedBend, type Change, cornersRunOn, type Obstacle, sayChange, sayObstacle, sizesWritten } from '../brake/index.js';
import type { Finding } from '../model/finding.js';
import type { PlannedQuestion, Rule } from './rule.js';
import { bendFeature, laidOut, nothingSaid, speak } from './subject.js';

/** Others that stop as well, told beside the first. */
const besides = 3;
/** Bends that are named one by one; more are counted. */
const named = 3;

const list = (words: readonly string[], last: string): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')}${last}${words.at(-1)}`;

const stateOf = ({ done }: BlockedBend, all: number): string => {
  if (done.length === 0) return '';
  if (done.length <= named) return `with ${list(done, ' and ')} bent, `;
  return done.length === all - 1 ? `with all others bent, ` : `with ${done.length} others bent, `;
};

const asTitle = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

const lineOf = ({ plan }: PlannedQuestion, id: string): BendLine | undefined => plan.blank.bends.find((bend) => bend.id === id);

/** In words: what was tried and frees the part, if anything. */
const cureOf = (question: PlannedQuestion): string => {
  const { suggestions } = question.plan;
  if (suggestions.length === 0) return 'No single change of those tried frees it.';
  return `Tried, and it would go: ${list(
    suggestions.map((change) => sayChange(change, question)),
    ', or ',
  )}.`;
};

/** Where the lengths stand that a change is about; undefined where the same words also give others their length. */
const lengthSpans = ({ part }: PlannedQuestion, ids: readonly string[]): readonly Span[] | undefined => {
  const written = sizesWritten(part);
  const spans = new Map<number, Span>();
  for (const own of written) if (own.span !== undefined && own.ids.some((one) => ids.includes(one))) spans.set(own.span.start, own.span);
  const others = written.some(({ ids: own, span }) => span !== undefined && spans.has(span.start) && !own.some((one) => ids.includes(one)));
  return spans.size === 0 || others ? undefined : [...spans.values()];
};

const fixOf = (question: PlannedQuestion, change: Change): readonly Fix[] => {
  if (change.kind === 'corner' && question.part.kind === 'panel') {
    const corners = cornersRunOn(question.part);
    if (corners.some(({ treatment }) => 'relief' in treatment && treatment.relief !== undefined)) return [];
    const text = change.to === 'open' ? 'open' : `mitred gap ${question.write(change.gap, 'up')}`;
    const edits = corners.map(({ edges, span }) => ({ span, text: `corner ${edges?.join(' ') ?? 'all'} ${text}` }));
    return [{ title: asTitle(sayChange(change, question)), edits }];
  }
  if (change.kind !== 'flange' && change.kind !== 'leg' && change.kind !== 'hem') return [];
  const spans = lengthSpans(question, change.id.split(', '));
  if (spans === undefined) return [];
  const text = question.write(change.to, change.to > change.from ? 'up' : 'down');
  return [
    {
      title: `Make ${change.id} ${question.say(change.to)}${change.kind === 'hem' ? ' deep' : ''}`,
      edits: spans.map((span) => ({ span, text })),
    },
  ];
};

/** The bend that is told of a plan, when what stops it is of this rule. What no brake of the shop can do, whatever the order, is said before there is a plan. */
const toldOf = (
  question: PlannedQuestion,
  is: (main: Obstacle) => boolean,
): { readonly blocked: BlockedBend; readonly bend: BendLine } | undefined => {
  const [blocked] = question.plan.blocked;
  if (blocked === undefined || question.blocked.length > 0 || !is(blocked.main)) return undefined;
  const bend = lineOf(question, blocked.bend);
  return bend === undefined ? undefined : { blocked, bend };
};

const stoppedWords = (question: PlannedQuestion, blocked: BlockedBend): string =>
  `${stateOf(blocked, question.plan.blank.bends.length)}${sayObstacle(blocked.main, question)}`;

/** The finding of one of the rules about plans: at the words of the bend with the least against it. Others that stop as well are told beside it. */
export const stuckFindings = (
  question: PlannedQuestion,
  rule: Pick<Rule, 'name' | 'severity'>,
  is: (main: Obstacle) => boolean,
): readonly Finding[] => {
  const told = toldOf(question, is);
  const ready = laidOut(question);
  if (told === undefined || ready === undefined) return nothingSaid;
  const { plan } = question;
  const { blocked, bend } = told;
  const where = `on ${plan.brake.name}${ready.part.brakes.length > 1 ? ', which comes farthest here' : ''}`;
  const order = !plan.proven ? ', in any order that was tried' : plan.blank.bends.length > 1 ? ', whatever the order' : '';
  const message = `${bend.id} can’t be bent ${where}${order}: ${stoppedWords(question, blocked)}. ${cureOf(question)}`;
  const related = plan.blocked.slice(1, 1 + besides).flatMap((other) => {
    const line = lineOf(question, other.bend);
    if (line === undefined || line.span.start === bend.span.start) return [];
    return [{ file: question.part.file, span: line.span, message: `${other.bend} last: ${stoppedWords(question, other)}` }];
  });
  const finding = speak(question, rule, bend.span, message, {
    // With more bends than can be tried in all orders it may still go.
    ...(plan.proven ? {} : { severity: 'warning' as const }),
    features: [bendFeature(bend)],
    fixes: plan.suggestions.flatMap((change) => fixOf(question, change)),
  });
  return [related.length === 0 ? finding : { ...finding, related }];
};
