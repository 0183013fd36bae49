import { holeToEdge } from '../trade/spacing.js';
import { onTheBench } from './bench.js';
import { gapWithin, outlineBoxed } from './cuts-in-place.js';
import type { Rule } from './rule.js';
import { cutFeature, laidOut, lengthTolerance, nothingSaid, speak } from './subject.js';

export const holeTooNearAnEdge: Rule = {
  name: 'hole/too-near-an-edge',
  severity: 'warning',
  what: 'Less than two thicknesses of sheet stand between a cut and the edge of the blank.',
  why: 'The thin bridge bulges when the hole is punched and tears when it is loaded.',
  example: onTheBench(`panel plate {
  sheet crs_18
  outline rectangle 6 by 4
  hole 1/4 at (3, 3/16) // warning: hole/too-near-an-edge
}`),
  cure: onTheBench(`panel plate {
  sheet crs_18
  outline rectangle 6 by 4
  hole 1/4 at (3, 3/8)
}`),
  source: 'Sheet-metal design guidelines, npd-solutions.com (DRM Associates): hole to edge at least 2 T.',
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready === undefined || subject.cuts.length === 0) return nothingSaid;
    const least = holeToEdge(ready.blank.thickness).distance;
    const outline = outlineBoxed(ready.blank);
    return subject.cuts.flatMap(({ cut, around, inside }) => {
      if (!inside) return nothingSaid;
      const gap = gapWithin(least, around, outline);
      if (gap >= least - lengthTolerance) return nothingSaid;
      const [has, wants] = subject.sayBoth(gap, least);
      const message = `only ${has} of sheet is left between this cut and the edge of the blank; two thicknesses are ${wants}: move it in by ${subject.write(least - gap, 'up')} or make it smaller`;
      return [speak(subject, holeTooNearAnEdge, subject.written(cut.id)?.atSpan ?? cut.span, message, { features: [cutFeature(cut)] })];
    });
  },
};
