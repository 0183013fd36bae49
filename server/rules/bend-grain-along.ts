import type { Fix } from '../../grammar/syntax.js';
import { byPlace, certain, metalAsks, named, radiusCure, radiusFix, tooTight, writeRadius } from './bend-metal.js';
import type { Rule } from './rule.js';
import { bendFeature, type LaidOut, laidOut, nothingSaid, speak } from './subject.js';

const metal = `units millimetre

material half_hard { density 2700 kg/m3  tightest radius 2 across to thickness 2  tightest radius 4 along to thickness 2 }
sheet al_15 { material half_hard  thickness 1.5  bend radius 3 k 0.42 }
`;

/** The other way round on the sheet, where every bend of the part is then wide enough. */
const turned = (ready: LaidOut): 'x' | 'y' | undefined => {
  const grain = ready.part.grain?.value;
  if (grain !== 'x' && grain !== 'y') return undefined;
  const other = grain === 'x' ? 'y' : 'x';
  return ready.blank.bends.every((bend) => !tooTight(bend.radius, metalAsks(ready, bend, other).least)) ? other : undefined;
};

export const bendGrainAlong: Rule = {
  name: 'bend/grain-along-the-bend',
  severity: 'error',
  what: 'A bend line runs with the grain, to a radius that this metal takes across the grain only. A line within 45° of the grain counts as running with it.',
  why: 'Rolling draws the sheet’s faults out into threads: folded along them it cracks sooner. Turn the part on the sheet, or bend to the larger radius. By the published table for steel this is a warning: along the grain the radius of the next thickness counts.',
  example: `${metal}
panel shelf {
  sheet al_15
  outline rectangle 200 by 100
  grain along x
  edge top { flange 20 up } // error: bend/grain-along-the-bend
}
`,
  cure: `${metal}
panel shelf {
  sheet al_15
  outline rectangle 200 by 100
  grain along y
  edge top { flange 20 up }
}
`,
  source:
    'The material’s own table; else DIN 6935:1975-10, smallest permissible bend radii. From which slant a line counts as along: common practice, no source.',
  check: (subject) => {
    const ready = laidOut(subject);
    const grain = ready?.part.grain;
    if (ready?.sheet.material === undefined || grain === undefined || grain.value === 'any') return nothingSaid;
    const severity = certain(ready) ? 'error' : 'warning';
    const along = ready.blank.bends.filter((bend) => {
      if (bend.make === 'hem' || bend.make === 'curl') return false;
      const { line, least, across } = metalAsks(ready, bend);
      return line === 'along' && tooTight(bend.radius, least) && across !== undefined && !tooTight(bend.radius, across);
    });
    if (along.length === 0) return nothingSaid;
    const other = turned(ready);
    return byPlace(along).flatMap((bends) => {
      const [bend] = bends;
      const least = bend === undefined ? undefined : metalAsks(ready, bend).least;
      if (bend === undefined || least === undefined) return nothingSaid;
      const [has, wants] = subject.sayBoth(bend.radius, least.radius);
      const radius = writeRadius(subject, least.radius);
      const turning =
        other === undefined
          ? 'turning the part on the sheet would lay another bend along the grain'
          : `turn the part on the sheet: \`grain along ${other}\``;
      const message = `the grain runs along ${named('bend', bends)}, whose inside radius is ${has}: enough across the grain, but along it this metal wants ${wants} or more (${least.source}); ${turning}, or ${radiusCure(bend, radius)}`;
      const fixes: readonly Fix[] = [
        ...(other === undefined
          ? []
          : [{ title: `Turn the part on the sheet: grain along ${other}`, edits: [{ span: grain.span, text: other }] }]),
        ...radiusFix(ready.part, bend, radius),
      ];
      return [speak(subject, bendGrainAlong, bend.span, message, { features: bends.map(bendFeature), severity, fixes })];
    });
  },
};
