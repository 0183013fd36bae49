import { edgeOfSheet } from '../bead/index.js';
import { beadFeature, onTheRoller, rolled } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

/** An edge that bows less than this is straight enough to the trade, mm. Common practice, no source. */
const hair = 1;

const deep = (path: string, mark: string): string =>
  onTheRoller(
    `die round_3_4 { round  width 3/4  depth 3/16 }\n\npanel floor {\n  sheet crs_18\n  outline rectangle 36 by 24\n  bead rib { die round_3_4  up  ${path} }${mark}\n}`,
  );

export const beadBowsAnEdge: Rule = {
  name: 'bead/bows-an-edge',
  severity: 'information',
  what: 'Beads draw in some places of an edge more than others, so that an edge cut straight does not lie straight once they are rolled.',
  why: 'Leave the edge as large as the most crossed place needs, roll, and trim to the line. The picture shows the rough cut and the line to trim to. How far it bows depends on how much draws in, so try a strip of the same sheet first where it matters.',
  example: deep('line from (8, 4) to (28, 4)', ' // information: bead/bows-an-edge'),
  cure: deep('line from (0, 4) to (36, 4)  ends run off', ''),
  source: 'The sum of what each crossed bead takes in; the share that draws in is the trial’s or common practice.',
  check: (subject) => {
    const ready = rolled(subject);
    const bows = (ready?.beads.drawIn?.bows ?? []).filter(({ amount }) => amount > hair);
    const worst = [...bows].sort((a, b) => b.amount - a.amount)[0];
    const first = ready?.beads.beads[0];
    if (ready === undefined || worst === undefined || first === undefined) return nothingSaid;
    const others = bows.length === 1 ? '' : ` and ${bows.length - 1} more`;
    const message = `${edgeOfSheet(worst)}${others} will bow by up to ${subject.say(worst.amount)} as the beads draw in: cut the sheet to the rough size, roll, then trim to the line`;
    return [speak(subject, beadBowsAnEdge, first.nameSpan, message, { features: [beadFeature(first.id)] })];
  },
};
