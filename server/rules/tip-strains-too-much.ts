import { onTheRoller, rolled } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

const percent = (strain: number): string => `${Math.round(strain * 1000) / 10} %`;
const guard = (width: string, mark: string): string =>
  onTheRoller(
    `panel tyre_guard {\n  sheet crs_18\n  outline {\n    from (0, 0)\n    right 12 as bottom\n    arc out to (0, 0) radius 6 as crown\n    close\n  }\n  tip crown width ${width} up${mark}\n}`,
  ).replace('    close\n', '');

export const tipStrainsTooMuch: Rule = {
  name: 'tip/strains-too-much',
  severity: 'warning',
  what: 'A tipped edge on a curve has to stretch or shrink by more than the metal bears, about its width over the radius of the edge.',
  why: 'On a hollow curve the tipped metal is too short and splits; on a round one it is too long and puckers. Keep the tip narrow, cut reliefs into it, or work it with a shrinker or stretcher in small steps.',
  example: guard('3/8', ' // warning: tip/strains-too-much'),
  cure: guard('3/16', ''),
  source:
    'Lengths of the arcs before and after: plane geometry. Half the elongation for stretching, 3 % for shrinking on a hand roller: common practice, no source.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    return ready.beads.tips.flatMap((tip) =>
      tip.edges.flatMap((edge) => {
        const { work, strains, radius } = edge;
        if (work?.verdict !== 'over' || strains === undefined || radius === undefined) return nothingSaid;
        const written = ready.part.tips.find(({ id }) => id === tip.id);
        const size = work.strain === undefined ? 'more than there is room for' : percent(Math.abs(work.strain.strain));
        const bears =
          work.limit === undefined
            ? ''
            : `, and ${percent(work.limit)} ${strains === 'shrink' ? 'goes without puckers' : 'goes without splits'}`;
        const cure = work.notes.find((note) => note.startsWith('on this curve')) ?? 'no tip goes round this curve in one piece';
        const message = `the tipped ${edge.edge} has to ${strains} by ${size} on its radius of ${subject.say(radius)}${bears}: ${cure}; or cut it into tabs, or work it with a ${strains === 'shrink' ? 'shrinker' : 'stretcher'}`;
        return [speak(subject, tipStrainsTooMuch, written?.width.span ?? tip.span, message, { features: [`tip:${tip.id}`] })];
      }),
    );
  },
};
