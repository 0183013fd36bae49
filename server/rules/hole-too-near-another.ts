import type { Finding } from '../model/finding.js';
import { holeToHole } from '../trade/spacing.js';
import { onTheBench } from './bench.js';
import { type CutInPlace, gapWithin } from './cuts-in-place.js';
import type { Rule } from './rule.js';
import { cutFeature, laidOut, lengthTolerance, nothingSaid, speak } from './subject.js';

export const holeTooNearAnother: Rule = {
  name: 'hole/too-near-another',
  severity: 'warning',
  what: 'Less than two thicknesses of sheet stand between two cuts, or they run into one another.',
  why: 'Punching the second hole pulls the first out of round and the bridge between them tears. Two cuts meant as one opening are better drawn as one.',
  example: onTheBench(`panel plate {
  sheet crs_18
  outline rectangle 6 by 4
  hole 1/4 at (3, 2)
  hole 1/4 at (3.3, 2) // warning: hole/too-near-another
}`),
  cure: onTheBench(`panel plate {
  sheet crs_18
  outline rectangle 6 by 4
  hole 1/4 at (3, 2)
  hole 1/4 at (3 1/2, 2)
}`),
  source: 'Sheet-metal design guidelines, npd-solutions.com (DRM Associates): hole to hole at least 2 T.',
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready === undefined || subject.cuts.length < 2) return nothingSaid;
    const least = holeToHole(ready.blank.thickness).distance;
    let order: ReadonlyMap<string, number> | undefined;
    const rank = (id: string): number => {
      order ??= new Map(ready.part.cuts.map((cut, index) => [cut.id, index]));
      return order.get(id) ?? 0;
    };
    const placed = [...subject.cuts].sort((a, b) => a.around.box.min.x - b.around.box.min.x);
    const found: Finding[] = [];
    for (let index = 0; index < placed.length; index += 1) {
      const one = placed[index] as CutInPlace;
      // Sorted from left to right: once the next box begins out of reach, so do all after it.
      for (let next = index + 1; next < placed.length; next += 1) {
        const other = placed[next] as CutInPlace;
        if (other.around.box.min.x - one.around.box.max.x >= least) break;
        const gap = gapWithin(least, one.around, other.around);
        if (gap >= least - lengthTolerance) continue;
        // Told at the cut that was written later: the first was fine until the second came.
        const [earlier, later] = rank(one.cut.id) <= rank(other.cut.id) ? [one.cut, other.cut] : [other.cut, one.cut];
        const written = ready.part.cuts[rank(later.id)];
        const [has, wants] = subject.sayBoth(gap, least);
        // How far two that overlap must move depends on which way; only what must stay between them can be said.
        const message =
          gap < lengthTolerance
            ? `this cut runs into ${earlier.id}: move them until two thicknesses, ${wants}, are left between them, or draw them as one cut`
            : `only ${has} of sheet is left between this cut and ${earlier.id}; two thicknesses are ${wants}: move them apart by ${subject.write(least - gap, 'up')} or draw them as one cut`;
        found.push(
          speak(subject, holeTooNearAnother, written?.atSpan ?? later.span, message, {
            features: [cutFeature(earlier), cutFeature(later)],
          }),
        );
      }
    }
    return found;
  },
};
