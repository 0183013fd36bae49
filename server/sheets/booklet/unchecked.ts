/** What nobody has checked, and why; and every finding still open. Said as plainly as what was worked out. */
import type { Block } from '../documents/blocks.js';
import { asSentence } from './beads.js';
import type { BookletInput, BookletPart } from './types.js';

/** Sentences, each with the parts that it holds for. */
const notChecked = (input: BookletInput): readonly { readonly what: string; readonly parts: readonly string[] }[] => {
  const found = new Map<string, string[]>();
  const add = (what: string, part: string): void => {
    const known = found.get(what);
    if (known === undefined) found.set(what, [part]);
    else if (!known.includes(part)) known.push(part);
  };
  for (const one of input.parts) for (const what of ofPart(one)) add(asSentence(what), one.part.name);
  return [...found].map(([what, parts]) => ({ what, parts }));
};

const ofPart = (one: BookletPart): readonly string[] => {
  const { part, blank, beads, planned, stiffness } = one;
  const material = 'sheet' in part ? part.sheet?.value.material : 'stock' in part ? part.stock?.value.material : undefined;
  const isSheet = part.kind === 'panel' || part.kind === 'section';
  const worked = beads !== undefined && beads.beads.length > 0;
  return [
    ...[...new Set(part.uncomputed.map(({ word }) => word))].map((word) => `“${word}” is read but not computed`),
    ...(isSheet && blank === undefined ? ['everything: no blank could be laid out'] : []),
    ...(isSheet && blank !== undefined && blank.bends.length > 0 && part.brakes.length === 0
      ? ['whether it can be bent, and in which order: no brake is described']
      : []),
    ...(planned?.plan.notChecked ?? []),
    ...(worked && part.rollers.length === 0 ? ['whether the roller reaches the beads: no roller is described'] : []),
    ...(beads?.unworked ?? []).map(({ id, message }) => `${id}: ${message}`),
    ...(isSheet && part.sheet !== undefined && material === undefined
      ? [`mass, tightest radius and strength: ${part.sheet.value.name} names no material`]
      : []),
    ...(material !== undefined && material.density === undefined ? [`mass: ${material.name} has no density`] : []),
    ...(blank?.bends.flatMap(({ method }) => (method.includes('extrapolated') ? [`how the bends come out: ${method}`] : [])) ?? []),
    ...(stiffness === undefined
      ? []
      : 'message' in stiffness
        ? [`stiffness: ${stiffness.message}`]
        : stiffness.limits.map((limit) => `stiffness: ${limit}`)),
  ];
};

/** What no part of the program looks at, whatever the job. */
const never = [
  'Strength of the joints, of fasteners and welds, and of whatever the parts are fixed to.',
  'Fit against other things than these parts: measure them where they stand.',
  'The metal itself: thickness, coating and certificate of the delivery in hand.',
];

export const uncheckedBlocks = (input: BookletInput): readonly Block[] => {
  const rows = notChecked(input);
  return [
    { kind: 'heading', level: 1, text: 'What was not checked, and what is open' },
    ...(rows.length === 0
      ? []
      : [
          {
            kind: 'table',
            columns: [
              { title: 'not checked, and why', share: 5 },
              { title: 'parts', share: 2 },
            ],
            rows: rows.map(({ what, parts }) => [what, parts.length === input.parts.length && parts.length > 1 ? 'all' : parts.join(', ')]),
          } as const,
        ]),
    { kind: 'paragraph', text: 'Never checked by the program:' },
    { kind: 'list', mark: 'dot', items: never },
    ...openBlocks(input),
  ];
};

const openBlocks = (input: BookletInput): readonly Block[] => {
  const open = input.files.map(({ name, findings }) => ({
    name,
    findings: findings.filter(({ severity }) => severity === 'error' || severity === 'warning'),
  }));
  const rows = open.flatMap(({ name, findings }) =>
    findings.map((finding) => [`${name}:${finding.line}`, finding.severity, finding.message, finding.rule]),
  );
  if (rows.length === 0)
    return [
      {
        kind: 'paragraph',
        text:
          open.length === 1
            ? 'No error and no warning is open in the file.'
            : `No error and no warning is open in the ${open.length} files.`,
      },
    ];
  return [
    { kind: 'heading', level: 2, text: 'Open findings' },
    {
      kind: 'table',
      tick: true,
      columns: [
        { title: 'where', share: 2 },
        { title: '', share: 0.8 },
        { title: 'what', share: 6 },
        { title: 'rule', share: 1.5 },
      ],
      rows,
    },
  ];
};
