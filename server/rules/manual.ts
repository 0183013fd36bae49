/** The manual of the rules, in markdown by family; `reference.md` beside this file is what it prints. */
import { rules } from './index.js';
import type { Rule } from './rule.js';

const families: Readonly<Record<string, string>> = {
  text: 'Reading the text',
  number: 'Numbers',
  unit: 'Units and kinds of value',
  name: 'Names and files',
  value: 'Values',
  part: 'Parts',
  shape: 'Outlines',
  edge: 'Edges',
  bend: 'Bends',
  hem: 'Hems',
  corner: 'Corners',
  hole: 'Holes, slots and cut-outs',
  bead: 'Beads',
  tip: 'Tipped edges',
  dimple: 'Pressed holes',
  break: 'Cross-breaks',
  load: 'Loads',
  brake: 'The brake',
  roller: 'The bead roller',
  sheet: 'Sheet',
  shop: 'The shop',
  fold: 'The folded part',
  fit: 'Fit-up',
  weld: 'Welds',
  door: 'Doors and hinges',
  stock: 'Stock',
  check: 'Your own checks',
};

const familyOf = (rule: { readonly name: string }): string => rule.name.slice(0, rule.name.indexOf('/'));

const fenced = (code: string): string => `\`\`\`planish\n${code.trimEnd()}\n\`\`\``;

/** One rule's page, as `planish explain` shows it. */
export const rulePage = (rule: Rule): string =>
  [
    `### ${rule.name}`,
    `*${rule.severity}*: ${rule.what}`,
    rule.why,
    ...(rule.example === '' ? [] : ['For example:', fenced(rule.example), 'Put right:', fenced(rule.cure)]),
    `Source: ${rule.source}`,
  ].join('\n\n');

/** The whole manual. Families in the order in which a file is read and made; rules by name within. */
export const manual = (): string => {
  const order = Object.keys(families);
  const present = [...new Set(rules.map(familyOf))].sort((a, b) => order.indexOf(a) - order.indexOf(b));
  const chapters = present.map((family) =>
    [`## ${families[family] ?? family}`, ...rules.filter((rule) => familyOf(rule) === family).map(rulePage)].join('\n\n'),
  );
  const contents = present.map((family) => {
    const names = rules.filter((rule) => familyOf(rule) === family).map(({ name }) => `[${name}](#${name.replace('/', '')})`);
    return `- ${families[family] ?? family}: ${names.join(', ')}`;
  });
  const opening =
    'What Planish says about a part file, why, and how to put it right. In an example the comment `// error: name` stands on the line where the rule speaks (`// error below: name` on the line above it), and `// file: name` begins a second file. A rule that needs a machine says nothing when the shop has none.';
  return `${['# The rules', opening, contents.join('\n'), ...chapters].join('\n\n')}\n`;
};
