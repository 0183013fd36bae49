import { byPlace, certain, metalAsks, named, radiusCure, radiusFix, tooTight, writeRadius } from './bend-metal.js';
import type { Rule } from './rule.js';
import { bendFeature, laidOut, nothingSaid, speak } from './subject.js';

export const bendRadiusTooTight: Rule = {
  name: 'bend/radius-too-tight',
  severity: 'error',
  what: 'The inside radius is tighter than the metal takes. The material’s own `tightest` lines decide; an aluminium without any, but with its `alloy`, is held against the Aluminum Association’s table, a steel with its tensile strength against DIN 6935, and then it is a warning. Hems and curls have rules of their own.',
  why: 'The outside of the bend cracks, at once or later. Use a larger radius or take a softer sheet; turned more than 120° the table asks for the radius of the next thickness.',
  example: `units millimetre

material half_hard { density 2700 kg/m3  tightest radius 3 across to thickness 2  tightest radius 4 along to thickness 2 }
sheet al_15 { material half_hard  thickness 1.5  bend radius 3 k 0.42 }

panel shelf {
  sheet al_15
  outline rectangle 200 by 100
  grain along y
  edge top { flange 20 up 90 radius 2 } // error: bend/radius-too-tight
}
`,
  cure: `units millimetre

material half_hard { density 2700 kg/m3  tightest radius 3 across to thickness 2  tightest radius 4 along to thickness 2 }
sheet al_15 { material half_hard  thickness 1.5  bend radius 3 k 0.42 }

panel shelf {
  sheet al_15
  outline rectangle 200 by 100
  grain along y
  edge top { flange 20 up 90 radius 3 }
}
`,
  source:
    'The material’s own table; else Aluminum Design Manual 2005, part VII, table 3-1, or DIN 6935:1975-10, smallest permissible bend radii.',
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready?.sheet.material === undefined) return nothingSaid;
    const severity = certain(ready) ? 'error' : 'warning';
    const tight = ready.blank.bends.filter((bend) => {
      if (bend.make === 'hem' || bend.make === 'curl') return false;
      const { least, across } = metalAsks(ready, bend);
      // Wide enough across the grain is the other rule's affair: turning the part cures it.
      return tooTight(bend.radius, least) && (across === undefined || tooTight(bend.radius, across));
    });
    if (tight.length === 0) return nothingSaid;
    return byPlace(tight).map((bends) => {
      const asked = bends.map((bend) => ({ bend, ...metalAsks(ready, bend) }));
      const worst = asked.reduce((a, b) => ((b.least?.radius ?? 0) > (a.least?.radius ?? 0) ? b : a));
      const { bend, line, least } = worst;
      const wanted = least?.radius ?? 0;
      const [has, wants] = subject.sayBoth(bend.radius, wanted);
      const radius = writeRadius(subject, wanted);
      const message = `${named('bend', bends)} ${bends.length === 1 ? 'has' : 'have'} an inside radius of ${has}; ${line} the grain this metal wants ${wants} or more (${least?.source}): ${radiusCure(bend, radius)}`;
      return speak(subject, bendRadiusTooTight, bend.span, message, {
        features: bends.map(bendFeature),
        severity,
        fixes: radiusFix(ready.part, bend, radius),
      });
    });
  },
};
