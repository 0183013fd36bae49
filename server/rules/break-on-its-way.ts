/** What a cross-break comes upon, and why it can't be made at all. */
import { beadFeature, onAPanel, placeWords, rolled } from './beads-asked.js';
import type { Rule, Subject } from './rule.js';
import { nothingSaid, speak } from './subject.js';

const good = onAPanel('cross_break up depth 1/8');
const feature = (index: number): string => `cross_break:${index + 1}`;

const meeting = (
  subject: Subject,
  rule: Rule,
  kind: 'hole' | 'bead',
  words: (id: string, where: string) => string,
): ReturnType<NonNullable<Rule['check']>> => {
  const ready = rolled(subject);
  if (ready === undefined) return nothingSaid;
  return ready.beads.crossBreaks.flatMap((one, index) => {
    const met = one.meets.filter((meet) => meet.kind === kind);
    const [first] = met;
    if (first === undefined) return nothingSaid;
    const features = [feature(index), ...met.map(({ id }) => (kind === 'hole' ? `cut:${id}` : beadFeature(id)))];
    const more = met.length === 1 ? '' : ` and over ${met.length - 1} more`;
    return [speak(subject, rule, one.span, words(`${first.id}${more}`, placeWords(subject, ready, first.at)), { features })];
  });
};

export const breakOverAHole: Rule = {
  name: 'break/over-a-hole',
  severity: 'warning',
  what: 'A cross-break runs over a hole or cut-out.',
  why: 'The crease ends at the opening and begins anew on the other side: its edge kinks, and the panel no longer rises to one point. Cut the opening after the breaks are made and only where the edge may stand uneven, move it off the diagonals, or leave the breaks out.',
  example: onAPanel('hole 2 at (18, 12)', 'cross_break up depth 1/8 // warning: break/over-a-hole'),
  cure: onAPanel('hole 2 at (18, 4)', 'cross_break up depth 1/8'),
  source: 'Common practice, no source.',
  check: (subject) =>
    meeting(
      subject,
      breakOverAHole,
      'hole',
      (what, where) =>
        `the cross-break runs over ${what}, first at ${where}: the opening’s edge kinks there. Move the opening off the diagonals, or cut it after breaking`,
    ),
};

export const breakCrossesABead: Rule = {
  name: 'break/crosses-a-bead',
  severity: 'warning',
  what: 'A cross-break runs across a bead, or along one.',
  why: 'A bead is too stiff to fold with the sheet, and the brake’s clamp flattens it. One panel is stiffened by beads or by breaks, not by both in one place.',
  example: onAPanel(
    'bead rib { die half_round_3_8  up  line from (4, 6) to (32, 6) }',
    'cross_break up depth 1/8 // warning: break/crosses-a-bead',
  ),
  cure: good,
  source: 'Common practice, no source.',
  check: (subject) =>
    meeting(
      subject,
      breakCrossesABead,
      'bead',
      (what, where) =>
        `the cross-break runs over ${what}, first at ${where}: the clamp flattens a bead, and a bead won’t fold. Keep the beads or the breaks`,
    ),
};

export const breakHasNoDiagonals: Rule = {
  name: 'break/no-diagonals',
  severity: 'error',
  what: 'A cross-break is asked of an outline that has not just four corners with straight edges between, or is set in by half a diagonal and more.',
  why: 'The two breaks run from corner to opposite corner and meet in the middle.',
  example: onAPanel('cross_break up depth 1/8 inset 22 // error: break/no-diagonals'),
  cure: good,
  source: 'Plane geometry.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    return ready.beads.crossBreaks.flatMap(({ fault, span }) => {
      if (fault === undefined) return nothingSaid;
      const message =
        fault === 'inset-too-great'
          ? 'the inset leaves nothing of the diagonals: make it smaller'
          : 'a cross-break runs from corner to corner of a panel with four corners and straight edges, and this outline has others: leave it out, or stiffen the panel with beads';
      return [speak(subject, breakHasNoDiagonals, span, message)];
    });
  },
};
