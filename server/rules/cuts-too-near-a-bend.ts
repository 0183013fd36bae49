/** The two rules about cuts beside a bend differ in the distance only. */
import type { BlankCut } from '../blank/types.js';
import type { Finding, Severity } from '../model/finding.js';
import type { Spacing } from '../trade/spacing.js';
import { gapWithin } from './cuts-in-place.js';
import type { Subject } from './rule.js';
import { bendFeature, cutFeature, laidOut, lengthTolerance, speak } from './subject.js';

/**
 * Cuts whose edge comes nearer than the spacing to the tangent line of a bend at a side of their own face, measured in the flat.
 * One finding per cut: the worst.
 */
export const cutsTooNearABend = (
  subject: Subject,
  rule: { readonly name: string; readonly severity: Severity },
  spacing: (thickness: number, radius: number) => Spacing,
  concerns: (cut: BlankCut) => boolean,
): readonly Finding[] => {
  const ready = laidOut(subject);
  if (ready === undefined) return [];
  const written = new Map(ready.part.cuts.map((cut) => [cut.id, cut]));
  return subject.cuts.flatMap(({ cut, around, bends, inside }) => {
    if (!inside || !concerns(cut)) return [];
    const near = bends
      .map(({ bend, tangent }) => {
        const least = spacing(ready.blank.thickness, bend.radius).distance;
        return { bend, least, gap: gapWithin(least, around, tangent) };
      })
      .filter(({ gap, least }) => gap < least - lengthTolerance)
      .sort((a, b) => b.least - b.gap - (a.least - a.gap))[0];
    if (near === undefined) return [];
    const { bend, least, gap } = near;
    const message = `the edge of this cut is ${subject.say(gap)} from where the bend ${bend.id} begins; it wants ${subject.say(least)}: move it away by ${subject.write(least - gap, 'up')}, or cut it after bending`;
    return [speak(subject, rule, written.get(cut.id)?.atSpan ?? cut.span, message, { features: [cutFeature(cut), bendFeature(bend)] })];
  });
};
