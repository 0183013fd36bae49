/** Distances from beads to what stands beside them; one rule for each kind of thing. */
import type { Spacing, WorkedBead } from '../bead/types.js';
import type { Finding } from '../model/finding.js';
import { beadFeature, byStatement, onAPanel, placeWords, type Rolled, rolled } from './beads-asked.js';
import type { Rule, Subject } from './rule.js';
import { lengthTolerance, nothingSaid, speak } from './subject.js';

/** Closer than half its own width, a bead runs over the thing itself. */
const runsOver = (bead: WorkedBead, { found }: Spacing): boolean => found < bead.width / 2 - lengthTolerance;

/** The worst of each written bead, of those the rule is about. */
const worstOf = (
  subject: Subject,
  rule: Rule,
  to: Spacing['to'],
  about: (bead: WorkedBead, spacing: Spacing) => boolean,
  words: (bead: WorkedBead, spacing: Spacing, ready: Rolled) => string,
): readonly Finding[] => {
  const ready = rolled(subject);
  if (ready === undefined) return nothingSaid;
  return byStatement(ready.beads.beads).flatMap((copies) => {
    const near = copies.flatMap((bead) =>
      bead.spacings.flatMap((spacing) =>
        spacing.to === to && spacing.found < spacing.wanted - lengthTolerance && about(bead, spacing) ? [{ bead, spacing }] : [],
      ),
    );
    const worst = [...near].sort((a, b) => a.spacing.found - a.spacing.wanted - (b.spacing.found - b.spacing.wanted))[0];
    if (worst === undefined) return nothingSaid;
    const { bead, spacing } = worst;
    const other = spacing.to === 'bead' && spacing.id !== undefined ? [beadFeature(spacing.id)] : [];
    const features = [...new Set([...near.map((each) => beadFeature(each.bead.id)), ...other])];
    return [speak(subject, rule, bead.pathSpan, words(bead, spacing, ready), { features })];
  });
};

const called = ({ id, to }: Spacing): string => {
  const name = id?.replace(/^(edge|bend|cut|hole|bead|dimple):/, '');
  if (to === 'edge') return name === undefined ? 'the edge' : `the edge ${name}`;
  return name === undefined ? `a ${to}` : `${to} ${name}`.replace(/^(\w+) \1\b/, '$1');
};

const distances = (subject: Subject, spacing: Spacing): string => {
  const [has, wants] = subject.sayBoth(spacing.found, spacing.wanted);
  return `its middle is ${has} from ${called(spacing)}, and ${wants} is wanted (${spacing.rule})`;
};
const moveAway = (subject: Subject, spacing: Spacing): string => subject.write(spacing.wanted - spacing.found, 'up');

const source = 'Sheet-metal design guidelines, npd-solutions.com (DRM Associates), from memory, and common practice.';
const rib = (...points: readonly string[]): string => `bead rib { die half_round_3_8  up  line from ${points.join(' to ')} }`;
const good = onAPanel(rib('(8, 4)', '(28, 4)'));

export const beadTooNearAnEdge: Rule = {
  name: 'bead/too-near-an-edge',
  severity: 'warning',
  what: 'A bead lies so near to an edge that the strip beside it cannot hold its shape.',
  why: 'The edge is pulled in and buckles instead of the bead being pressed full. A bead that is meant to go over the edge says `run off`.',
  example: onAPanel(`${rib('(8, 1/4)', '(28, 1/4)')} // warning: bead/too-near-an-edge`),
  cure: good,
  source,
  check: (subject) =>
    worstOf(
      subject,
      beadTooNearAnEdge,
      'edge',
      () => true,
      (bead, spacing, ready) =>
        `${bead.id} runs too near to an edge at ${placeWords(subject, ready, spacing.at[0])}: ${distances(subject, spacing)}: move it in by ${moveAway(subject, spacing)}`,
    ),
};

export const beadTooNearABend: Rule = {
  name: 'bead/too-near-a-bend',
  severity: 'warning',
  what: 'A bead lies so near to a bend that the brake flattens it, or the bend pulls it out of shape.',
  why: 'The clamp holds the sheet right up to the bend line. Beads are rolled first, so the clamp comes down on them.',
  example: onAPanel('edge bottom { flange 1 up }', `${rib('(8, 3/8)', '(28, 3/8)')} // warning: bead/too-near-a-bend`),
  cure: onAPanel('edge bottom { flange 1 up }', rib('(8, 4)', '(28, 4)')),
  source,
  check: (subject) =>
    worstOf(
      subject,
      beadTooNearABend,
      'bend',
      (bead) => bead.crossings.length === 0,
      (bead, spacing, ready) =>
        `${bead.id} runs too near to a bend at ${placeWords(subject, ready, spacing.at[0])}: ${distances(subject, spacing)}: move it away by ${moveAway(subject, spacing)}`,
    ),
};

export const beadTooNearAHole: Rule = {
  name: 'bead/too-near-a-hole',
  severity: 'warning',
  what: 'A bead passes so near to a hole or cut-out that it pulls it out of round.',
  why: 'The metal for the bead comes from beside it. Cut such a hole after rolling, or move it.',
  example: onAPanel('hole 1/4 at (12, 4 3/8)', `${rib('(8, 4)', '(28, 4)')} // warning: bead/too-near-a-hole`),
  cure: onAPanel('hole 1/4 at (12, 6)', rib('(8, 4)', '(28, 4)')),
  source,
  check: (subject) =>
    worstOf(
      subject,
      beadTooNearAHole,
      'hole',
      (bead, spacing) => !runsOver(bead, spacing),
      (bead, spacing, ready) =>
        `${bead.id} passes too near to a hole at ${placeWords(subject, ready, spacing.at[1])}: ${distances(subject, spacing)}: move one of them by ${moveAway(subject, spacing)}, or cut the hole after rolling`,
    ),
};

export const beadCrossesAHole: Rule = {
  name: 'bead/crosses-a-hole',
  severity: 'error',
  what: 'A bead runs over a hole or cut-out.',
  why: 'The rolls drop into the opening, tear its edge, and leave no bead there.',
  example: onAPanel('hole 1 at (12, 4)', `${rib('(8, 4)', '(28, 4)')} // error: bead/crosses-a-hole`),
  cure: onAPanel('hole 1 at (12, 8)', rib('(8, 4)', '(28, 4)')),
  source: 'Plane geometry.',
  check: (subject) =>
    worstOf(
      subject,
      beadCrossesAHole,
      'hole',
      runsOver,
      (bead, spacing, ready) =>
        `${bead.id} runs over ${called(spacing)} at ${placeWords(subject, ready, spacing.at[1])}: end it before the opening, move one of them, or cut the opening after rolling`,
    ),
};

export const beadTooNearAnother: Rule = {
  name: 'bead/too-near-another',
  severity: 'warning',
  what: 'Two beads lie so near to one another that the second pulls the first flat.',
  why: 'Each takes its metal from the sheet between them. Beads that cross flatten one another where they meet.',
  example: onAPanel(
    rib('(8, 4)', '(28, 4)'),
    'bead second { die half_round_3_8  up  line from (8, 4 1/2) to (28, 4 1/2) } // warning: bead/too-near-another',
  ),
  cure: onAPanel(rib('(8, 4)', '(28, 4)'), 'bead second { die half_round_3_8  up  line from (8, 6) to (28, 6) }'),
  source: 'Pitch of at least three bead widths: common practice, no source.',
  check: (subject) =>
    // A pair is said of the one that is written later.
    worstOf(
      subject,
      beadTooNearAnother,
      'bead',
      (bead, spacing) => {
        const other = subject.beads?.beads.find(({ id }) => id === spacing.id);
        return other === undefined || other.span.start <= bead.span.start;
      },
      (bead, spacing, ready) =>
        spacing.found < lengthTolerance
          ? `${bead.id} crosses ${called(spacing)} at ${placeWords(subject, ready, spacing.at[0])}, and the second to be rolled flattens the first there: end one before the other, with ${moveAway(subject, spacing)} between`
          : `${bead.id} lies too near to another bead at ${placeWords(subject, ready, spacing.at[0])}: ${distances(subject, spacing)}: move one of them by ${moveAway(subject, spacing)}`,
    ),
};
