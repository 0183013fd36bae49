import type { Rule } from './rule.js';
import { speak } from './subject.js';

export const sheetMissing: Rule = {
  name: 'sheet/missing',
  severity: 'error',
  what: 'A panel or a section does not say which sheet it is cut from.',
  why: 'Thickness, radius and allowance come from the sheet: without it there is no blank.',
  example: `units inch
sheet crs_18 { thickness 0.048  bend radius 1/16 k 0.42 }

panel lid { // error: sheet/missing
  outline rectangle 12 by 8
}
`,
  cure: `units inch
sheet crs_18 { thickness 0.048  bend radius 1/16 k 0.42 }

panel lid {
  sheet crs_18
  outline rectangle 12 by 8
}
`,
  source: 'The language.',
  check: (subject) => {
    const { part } = subject;
    if ((part.kind !== 'panel' && part.kind !== 'section') || part.sheet !== undefined || part.broken) return [];
    return [
      speak(
        subject,
        sheetMissing,
        part.nameSpan,
        `${part.name} does not say which sheet it is cut from: write \`sheet NAME\` in its braces`,
      ),
    ];
  },
};
