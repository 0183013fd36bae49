import type { Fix } from '../../grammar/syntax.js';
import type { HemStep } from '../model/part.js';
import { outerStrain, radiusForStrain } from '../trade/bends.js';
import { certain, nominal } from './bend-metal.js';
import { foldAsks, hemsOf, inATable, leastDepth, namedSteps } from './hem-steps.js';
import type { Rule, Subject } from './rule.js';
import { bendFeature, laidOut, nothingSaid, speak } from './subject.js';

const metal = `units millimetre

material half_hard { density 2700 kg/m3  tightest radius 1 to thickness 2 }
sheet al_10 { material half_hard  thickness 1  bend radius 1.5 k 0.42 }
`;
const lid = (hem: string): string => `${metal}
panel lid {
  sheet al_10
  outline rectangle 200 by 100
  edge top { ${hem}
}
`;

/** Opens the fold to a gap or a drop of this diameter, and deepens the hem where its return would be lost. */
const opened = (subject: Subject, step: HemStep, style: 'open' | 'teardrop', diameter: number, thickness: number): Fix => {
  const size = subject.write(diameter, 'up');
  const least = leastDepth(style === 'open' ? { kind: 'open', gap: diameter } : { kind: 'teardrop', diameter }, thickness);
  const deeper = step.depth < least ? [{ span: step.depthSpan, text: subject.write(least, 'up') }] : [];
  const title = style === 'open' ? `Leave it open by ${size}` : `Make it a teardrop of ${size}`;
  return { title, edits: [...deeper, { span: step.styleSpan, text: `${style} ${size}` }] };
};

const says = (subject: Subject, { style }: HemStep, hem: { readonly name: string; readonly several: boolean }): string => {
  const name = `${hem.name} ${hem.several ? 'are' : 'is'}`;
  switch (style.kind) {
    case 'closed':
      return `${name} closed, folded to no radius at all`;
    case 'double':
      return `${name} folded twice, its inner fold to no radius at all`;
    case 'open':
      return `${name} open by ${subject.say(style.gap)}, an inside radius of ${subject.say(style.gap / 2)}`;
    case 'teardrop':
      return `${name} made round a drop of ${subject.say(style.diameter)}, an inside radius of ${subject.say(style.diameter / 2)}`;
  }
};

export const hemTooTight: Rule = {
  name: 'hem/too-tight-for-the-metal',
  severity: 'error',
  what: 'A hem folds the sheet to a tighter radius than the metal takes: a closed one to none at all, an open one to half its gap. The material’s own `tightest` lines decide; an aluminium without any is held against the Aluminum Association’s table by its `alloy`, a steel of more than 390 MPa against DIN 6935, and then it is a warning.',
  why: 'The outside of the fold cracks along the whole edge, where hands go. Leave a gap of twice the tightest radius, or make it a teardrop of that diameter where the cut edge has to close.',
  example: lid('hem 8 closed down } // error: hem/too-tight-for-the-metal'),
  cure: lid('hem 8 teardrop 2 down }'),
  source:
    'The material’s own table; else Aluminum Design Manual 2005, part VII, table 3-1, or DIN 6935:1975-10, smallest permissible bend radii. That softer steel is folded flat: common practice, no source.',
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready === undefined) return nothingSaid;
    return hemsOf(ready).flatMap(({ step, bends }) => {
      const asked = foldAsks(ready, bends);
      if (asked === undefined) return nothingSaid;
      const { least, line } = asked;
      const diameter = 2 * (least.radius - nominal / 2);
      const size = subject.write(diameter, 'up');
      const message = `${says(subject, step, namedSteps('hem', bends))}; ${line} the grain this metal wants ${subject.say(least.radius)} or more (${least.source}): write \`open ${size}\`, or \`teardrop ${size}\` where the cut edge has to close`;
      const { thickness } = ready.blank;
      const styles = step.style.kind === 'teardrop' ? (['teardrop', 'open'] as const) : (['open', 'teardrop'] as const);
      return [
        speak(subject, hemTooTight, step.styleSpan, message, {
          severity: certain(ready) ? 'error' : 'warning',
          features: bends.map(bendFeature),
          fixes: styles.map((style) => opened(subject, step, style, diameter, thickness)),
        }),
      ];
    });
  },
};

/** Metal that stretches less than this before it breaks is hard to the trade: it is not folded flat on itself. Common practice, no source. */
const ductile = 0.2;

export const hemTeardropNeeded: Rule = {
  name: 'hem/teardrop-needed',
  severity: 'warning',
  what: 'A hem is folded flat, or nearly, in a hard temper: a metal that stretches less than a fifth before it breaks, with no `tightest` lines that allow it.',
  why: 'The outside of a fold stretches by 1 / (2 R/T + 1): by all its length when the fold is closed, by half when it is as wide as the sheet is thick. A teardrop keeps a radius and still hides the cut edge. The size named is safe by that sum; a strip of your own may allow less, and `tightest radius` on the material then says so.',
  example: `units millimetre

material hard { density 2700 kg/m3  elongation 12 % }
sheet al_10 { material hard  thickness 1  bend radius 2 k 0.42 }

panel lid {
  sheet al_10
  outline rectangle 200 by 100
  edge top { hem 12 closed down } // warning: hem/teardrop-needed
}
`,
  cure: `units millimetre

material hard { density 2700 kg/m3  elongation 12 % }
sheet al_10 { material hard  thickness 1  bend radius 2 k 0.42 }

panel lid {
  sheet al_10
  outline rectangle 200 by 100
  edge top { hem 12 teardrop 7.4 down }
}
`,
  source:
    'Strain of the outer face: plane geometry. Which tempers are not folded flat, and the least drop of one thickness: common practice, no source.',
  check: (subject) => {
    const ready = laidOut(subject);
    const { elongation } = ready?.sheet.material ?? {};
    if (ready === undefined || elongation === undefined || elongation >= ductile || certain(ready) || inATable(ready)) return nothingSaid;
    const { thickness } = ready.blank;
    return hemsOf(ready).flatMap(({ step, bends }) => {
      const radius = Math.min(...bends.map((bend) => bend.radius));
      if (radius > thickness / 2 - nominal || foldAsks(ready, bends) !== undefined) return nothingSaid;
      const strain = outerStrain(radius, thickness);
      const diameter = 2 * radiusForStrain(elongation, thickness);
      const size = subject.write(diameter, 'up');
      const { name, several } = namedSteps('hem', bends);
      const message = `${name} ${several ? 'stretch' : 'stretches'} the outside of the fold by ${Math.round(strain * 100)} %, and this metal breaks at ${Math.round(elongation * 1000) / 10} %: write \`teardrop ${size}\`, which asks for no more; where a strip of it held tighter, write that on the material as \`tightest radius\``;
      return [
        speak(subject, hemTeardropNeeded, step.styleSpan, message, {
          features: bends.map(bendFeature),
          fixes: [opened(subject, step, 'teardrop', diameter, thickness)],
        }),
      ];
    });
  },
};
