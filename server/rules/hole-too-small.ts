import { leastHole } from '../trade/spacing.js';
import { onTheBench } from './bench.js';
import type { Rule } from './rule.js';
import { laidOut, lengthTolerance, nothingSaid, speak } from './subject.js';

export const holeTooSmall: Rule = {
  name: 'hole/too-small',
  severity: 'warning',
  what: 'A plain hole, or the width of a slot, is less than 1.2 times the thickness of the sheet (or less than 1.2 mm). Tapped holes are drilled and are left alone.',
  why: 'A punch thinner than the sheet is thick bends or breaks. Drill the hole instead, or make it larger.',
  example: onTheBench(`panel plate {
  sheet crs_18
  outline rectangle 6 by 4
  hole 1/32 at (3, 2) // warning: hole/too-small
}`),
  cure: onTheBench(`panel plate {
  sheet crs_18
  outline rectangle 6 by 4
  hole 1/16 at (3, 2)
}`),
  source: 'Published enclosure-design guideline: 1.2 T or 1.2 mm, whichever is greater.',
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready === undefined || ready.part.cuts.length === 0) return nothingSaid;
    const least = leastHole(ready.blank.thickness, true).distance;
    let seen: Set<number> | undefined;
    return ready.part.cuts.flatMap((cut) => {
      const isHole = cut.shape.kind === 'hole';
      if (cut.shape.kind === 'hole' ? cut.shape.thread !== undefined : cut.shape.kind !== 'slot') return nothingSaid;
      const across = cut.shape.kind === 'hole' ? cut.shape.diameter : cut.shape.kind === 'slot' ? cut.shape.width : least;
      // A pattern writes its size once, so it is told once.
      if (across >= least - lengthTolerance || seen?.has(cut.sizeSpan.start) === true) return nothingSaid;
      seen ??= new Set();
      seen.add(cut.sizeSpan.start);
      const larger = subject.write(least, 'up');
      const [wants, has] = subject.sayBoth(least, across);
      const message = `a punch wants a ${isHole ? 'hole' : 'slot'} of ${wants} or more in this sheet; this one is ${has}: drill it, or make it ${larger}`;
      const fixes = isHole ? [{ title: `Make it ${larger}`, edits: [{ span: cut.sizeSpan, text: larger }] }] : [];
      return [speak(subject, holeTooSmall, cut.sizeSpan, message, { fixes })];
    });
  },
};
