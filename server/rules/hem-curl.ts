/** The two rules about curls: how fine, and how near to a bend. */
import type { BendLine, Blank } from '../blank/types.js';
import type { Point } from '../shape/path.js';
import { certain, nominal } from './bend-metal.js';
import { curlsOf, foldAsks, namedSteps } from './hem-steps.js';
import type { Rule } from './rule.js';
import { bendFeature, laidOut, lengthTolerance, nothingSaid, speak } from './subject.js';

const GUIDELINE = 'Sheet-metal design guidelines, npd-solutions.com (DRM Associates)';
const rim = (edge: string): string => `units millimetre

sheet crs_12 { thickness 1.2  bend radius 1.2 k 0.42 }

panel lid {
  sheet crs_12
  outline rectangle 200 by 100
  edge top { ${edge}
}
`;

export const hemCurlTooTight: Rule = {
  name: 'hem/curl-too-tight',
  severity: 'warning',
  what: 'An edge is rolled round a thinner wire than the sheet takes: outside, a curl wants a radius of two thicknesses, so the wire one of two thicknesses across; and half the wire is not to be less than the metal’s tightest radius.',
  why: 'A tighter curl kinks instead of rolling, or cracks, and no longer closes on its wire. Take a thicker wire, or a hem. Tighter than the material’s own `tightest` lines is an error.',
  example: rim('flange 20 down  curl round 2 } // warning: hem/curl-too-tight'),
  cure: rim('flange 20 down  curl round 2.4 }'),
  source: `${GUIDELINE}: outside radius not under 2 T, opening not under T. The material’s own table; for steel of more than 390 MPa DIN 6935:1975-10.`,
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready === undefined) return nothingSaid;
    const { thickness } = ready.blank;
    return curlsOf(ready).flatMap(({ step, bends }) => {
      const asked = foldAsks(ready, bends);
      const byMetal = asked === undefined ? 0 : 2 * (asked.least.radius - nominal / 2);
      const least = Math.max(byMetal, 2 * thickness);
      if (step.wire > least - nominal) return nothingSaid;
      const [has, wants] = subject.sayBoth(step.wire, least);
      const reason =
        asked !== undefined && byMetal > 2 * thickness
          ? `${asked.line} the grain this metal wants a radius of ${subject.say(asked.least.radius)} or more (${asked.least.source})`
          : `sheet of ${subject.say(thickness)} rolls to an outside radius of two thicknesses at the least`;
      const wire = subject.write(least, 'up');
      const { name, several } = namedSteps('curl', bends);
      return [
        speak(
          subject,
          hemCurlTooTight,
          step.wireSpan ?? step.span,
          `${name} ${several ? 'go' : 'goes'} round a wire of ${has}; ${reason}: take a wire of ${wants}`,
          {
            severity: asked !== undefined && certain(ready) ? 'error' : 'warning',
            features: bends.map(bendFeature),
            fixes: step.wireSpan === undefined ? [] : [{ title: `Round a wire of ${wire}`, edits: [{ span: step.wireSpan, text: wire }] }],
          },
        ),
      ];
    });
  },
};

/** The bend at the other side of the flat that a curl rolls off, with the width of that flat between the tangent lines where it is narrowest. */
const bendBefore = (blank: Blank, curl: BendLine): { readonly bend: BendLine; readonly flat: number } | undefined => {
  const bend = blank.bends.find(({ child }) => child === curl.parent);
  if (bend === undefined) return undefined;
  const [from, to] = bend.tangentChild;
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length < lengthTolerance) return undefined;
  const off = (at: Point): number => Math.abs((at.x - from.x) * (to.y - from.y) - (at.y - from.y) * (to.x - from.x)) / length;
  // A flange that tapers is not as wide at the one end of its curl as at the other.
  return { bend, flat: Math.min(...curl.tangentParent.map(off)) };
};

export const hemCurlTooNearABend: Rule = {
  name: 'hem/curl-too-near-a-bend',
  severity: 'warning',
  what: 'A curl follows a bend too closely: the flat between them is narrower than the curl’s outside radius and six thicknesses where both turn the same way, nine where they turn against each other.',
  why: 'The brake and the curling tool both need flat sheet to hold by. Make the flange longer, or take a thinner wire.',
  example: rim('flange 12 down  curl round 4 } // warning: hem/curl-too-near-a-bend'),
  cure: rim('flange 18 down  curl round 4 }'),
  source: `${GUIDELINE}: curl to internal bend 6 T + curl radius, to external bend 9 T + curl radius; here from the curl’s own tangent line, below which its middle lies.`,
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready === undefined) return nothingSaid;
    const { blank } = ready;
    return curlsOf(ready).flatMap(({ step, bends }) => {
      for (const curl of bends) {
        const before = bendBefore(blank, curl);
        if (before === undefined) continue;
        const least = (before.bend.direction === curl.direction ? 6 : 9) * blank.thickness + curl.radius + blank.thickness;
        if (before.flat >= least - lengthTolerance) continue;
        const [has, wants] = subject.sayBoth(before.flat, least);
        const message = `between the curl ${curl.id} and the bend ${before.bend.id} ${has} are flat; it wants ${wants}: make the flange longer by ${subject.write(least - before.flat, 'up')}, or take a thinner wire`;
        return [speak(subject, hemCurlTooNearABend, step.span, message, { features: [bendFeature(curl), bendFeature(before.bend)] })];
      }
      return nothingSaid;
    });
  },
};
