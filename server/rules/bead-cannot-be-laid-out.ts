import { beadFeature, onAPanel, rolled, writtenBead } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

/** What the reading of the text has said already, at the words at fault. */
const saidBefore: ReadonlySet<string> = new Set(['no-die', 'die-without-size', 'no-length', 'edge-unknown', 'edges-apart']);

export const beadCannotBeLaidOut: Rule = {
  name: 'bead/cannot-be-laid-out',
  severity: 'error',
  what: 'A bead or band as written has no line to roll: its corners are larger than there is room for, its inset leaves nothing inside, or its band is narrower than its two shoulders.',
  why: 'What cannot be drawn cannot be rolled; the message says which number is too great.',
  example: onAPanel('bead hook { die half_round_3_8  up  path (2, 2), (5, 2), (5, 4) corner 3 } // error: bead/cannot-be-laid-out'),
  cure: onAPanel('bead hook { die half_round_3_8  up  path (2, 2), (5, 2), (5, 4) corner 2 }'),
  source: 'Plane geometry.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined || ready.beads.unworked.length === 0) return nothingSaid;
    const said = new Set<string>();
    return ready.beads.unworked.flatMap(({ id, span, kind, message }) => {
      const place = `${span.start} ${message}`;
      if (
        saidBefore.has(kind) ||
        said.has(place) ||
        (kind === 'band-too-narrow' && writtenBead(ready.part, id)?.die?.value.width !== undefined)
      )
        return nothingSaid;
      said.add(place);
      return [speak(subject, beadCannotBeLaidOut, span, message, { features: [beadFeature(id)] })];
    });
  },
};
