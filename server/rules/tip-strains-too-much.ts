import { ductility } from '../trade/forming.js';
import { onTheRoller, rolled } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

/** Share of the elongation that a stretched edge may use before it splits. Common practice, no source. */
const stretchShare = 0.5;
/** A shrunk edge puckers beyond this unless it is worked with a shrinker. Common practice, no source. */
const mostShrink = 0.05;

const percent = (strain: number): string => `${Math.round(strain * 1000) / 10} %`;
const guard = (width: string, mark: string): string =>
  onTheRoller(
    `panel tyre_guard {\n  sheet crs_18\n  outline {\n    from (0, 0)\n    right 12 as bottom\n    arc out to (0, 0) radius 6 as crown\n    close\n  }\n  tip crown width ${width} up${mark}\n}`,
  ).replace('    close\n', '');

export const tipStrainsTooMuch: Rule = {
  name: 'tip/strains-too-much',
  severity: 'warning',
  what: 'A tipped edge on a curve has to stretch or shrink by more than the metal bears: its width over the radius of the edge.',
  why: 'On a hollow curve the tipped metal is too short and splits; on a round one it is too long and puckers. Keep the tip narrow, cut reliefs into it, or work it with a shrinker or stretcher in small steps.',
  example: guard('1/2', ' // warning: tip/strains-too-much'),
  cure: guard('1/4', ''),
  source: 'Width over radius: plane geometry. Half the elongation for stretching, 5 % for shrinking by hand: common practice, no source.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    const material = ready.sheet.material;
    const elongation = material === undefined ? undefined : ductility(material).elongation;
    return ready.beads.tips.flatMap((tip) =>
      tip.edges.flatMap((edge) => {
        if (edge.radius === undefined || edge.strains === undefined) return nothingSaid;
        const strain = tip.width / edge.radius;
        const limit = edge.strains === 'shrink' ? mostShrink : elongation === undefined ? undefined : stretchShare * elongation;
        if (limit === undefined || strain <= limit) return nothingSaid;
        const written = ready.part.tips.find(({ id }) => id === tip.id);
        const most = subject.write(limit * edge.radius, 'down');
        const why = edge.strains === 'shrink' ? `shrinks by hand without puckering` : `stretches without splitting (half its elongation)`;
        const message = `the tipped ${edge.edge} has to ${edge.strains} by ${percent(strain)} (its width over the edge’s radius of ${subject.say(edge.radius)}), and ${percent(limit)} ${why}: make it ${most} wide at most, or cut it into tabs`;
        return [speak(subject, tipStrainsTooMuch, written?.width.span ?? tip.span, message, { features: [`tip:${tip.id}`] })];
      }),
    );
  },
};
