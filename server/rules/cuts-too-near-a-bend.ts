/** The two rules about cuts beside a bend differ in the distance only. */
import type { BendLine, BlankCut } from '../blank/types.js';
import type { Finding, Severity } from '../model/finding.js';
import type { Spacing } from '../trade/spacing.js';
import { gapWithin } from './cuts-in-place.js';
import type { Subject } from './rule.js';
import { bendFeature, cutFeature, laidOut, lengthTolerance, nothingSaid, speak } from './subject.js';

const called: Readonly<Record<BendLine['make'], string>> = { turn: 'bend', hem: 'hem', curl: 'curl', joggle: 'joggle', roll: 'roll' };

/**
 * Cuts whose edge comes nearer than the spacing to the tangent line of a bend at a side of their own face, measured in the flat.
 * One finding per cut: the worst.
 */
export const cutsTooNearABend = (
  subject: Subject,
  rule: { readonly name: string; readonly severity: Severity },
  spacing: (thickness: number, bend: BendLine) => Spacing,
  concerns: (cut: BlankCut) => boolean,
): readonly Finding[] => {
  const ready = laidOut(subject);
  if (ready === undefined || subject.cuts.length === 0) return nothingSaid;
  return subject.cuts.flatMap(({ cut, around, bends, inside }) => {
    if (!inside || !concerns(cut)) return nothingSaid;
    let near: { readonly bend: BendLine; readonly least: number; readonly gap: number } | undefined;
    for (const { bend, tangent } of bends) {
      const least = spacing(ready.blank.thickness, bend).distance;
      const gap = gapWithin(least, around, tangent);
      if (gap < least - lengthTolerance && (near === undefined || least - gap > near.least - near.gap)) near = { bend, least, gap };
    }
    if (near === undefined) return nothingSaid;
    const { bend, least, gap } = near;
    const [has, wants] = subject.sayBoth(gap, least);
    const message = `the edge of this cut is ${has} from where the ${called[bend.make]} ${bend.id} begins; it wants ${wants}: move it away by ${subject.write(least - gap, 'up')}, or cut it after bending`;
    return [speak(subject, rule, subject.written(cut.id)?.atSpan ?? cut.span, message, { features: [cutFeature(cut), bendFeature(bend)] })];
  });
};
