import type { Rule } from './rule.js';
import { laidOut, lengthTolerance, nothingSaid, speak } from './subject.js';

const plate = (notch: string): string => `units millimetre

sheet crs_20 { thickness 2  bend radius 2 k 0.42 }

panel plate {
  sheet crs_20
  outline rectangle 100 by 60
  corner top left notch ${notch}
}
`;

export const cornerNotchTooSmall: Rule = {
  name: 'corner/notch-too-small',
  severity: 'warning',
  what: 'A notch is narrower or shallower than one and a half thicknesses, or than 1 mm.',
  why: 'A narrower one can’t be nibbled or filed clean, and what is left of the corner tears. Make it larger, or cut the corner off with `chamfer`.',
  example: plate('2 by 10 // warning: corner/notch-too-small'),
  cure: plate('3 by 10'),
  source: 'Sheet-metal design guidelines, npd-solutions.com (DRM Associates), from memory.',
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready?.part.kind !== 'panel') return nothingSaid;
    const least = Math.max(1.5 * ready.blank.thickness, 1);
    return ready.part.corners.flatMap(({ treatment, span }) => {
      if (treatment.kind !== 'notch') return nothingSaid;
      const small = Math.min(treatment.width, treatment.depth);
      if (small >= least - lengthTolerance) return nothingSaid;
      const [has, wants] = subject.sayBoth(small, least);
      return [
        speak(
          subject,
          cornerNotchTooSmall,
          span,
          `this notch is only ${has} ${treatment.width <= treatment.depth ? 'wide' : 'deep'}; in sheet of ${subject.say(ready.blank.thickness)} it wants ${wants} or more`,
        ),
      ];
    });
  },
};
