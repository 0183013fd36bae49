/** The chapter of one part. */
import type { NotReckoned, StiffnessAnswer } from '../../bead/index.js';
import type { Blank } from '../../blank/types.js';
import { sayBendSum, sayMass, sayThickness } from '../../model/display.js';
import type { Panel, Section } from '../../model/part.js';
import type { Block, Figure, InnerBlock } from '../documents/blocks.js';
import { foldedFigure } from '../folded-figure.js';
import { markOut } from '../mark-out.js';
import { markOutBlocks } from '../mark-out-blocks.js';
import type { Type } from '../pages/type.js';
import { isCutFromLength } from '../piece-words.js';
import { sectionFigure } from '../section-drawing.js';
import { assemblyItems } from './assembly.js';
import { beadBlocks } from './beads.js';
import { bendBlocks, linedFor } from './bends.js';
import { blankFigure } from './blank-figure.js';
import { pieceBlocks } from './pieces.js';
import { type BookletOptions, type BookletPart, cutBlank, howMany, type Saying, sayingIn } from './types.js';

/** Heights that the drawing of the blank is tried with, mm: the greatest that costs no sheet more than the least. */
const heights = [120, 108, 96, 84] as const;

/** @param before the part whose chapter comes before */
export const partBlocks = (one: BookletPart, before: BookletPart | undefined, options: BookletOptions, type: Type): readonly Block[] => {
  const { part } = one;
  const saying = sayingIn(one.unit, options);
  // Pieces of tube and bar take little room, so several follow each other on a sheet; what is cut from sheet has sheets of its own.
  const begin: Block =
    isCutFromLength(part) && before !== undefined && isCutFromLength(before.part) ? { kind: 'gap', height: 2 } : { kind: 'new page' };
  const head: readonly InnerBlock[] = [{ kind: 'heading', level: 1, text: `${part.name}: ${howMany(part)}` }, ...noteBlocks(one)];
  if (part.kind === 'panel' || part.kind === 'section') {
    const own = sheetBlocks(one, part, saying, options);
    const whole = (blocks: readonly Block[]): readonly Block[] => [...head, ...oppositeBlocks(one), ...blocks, ...openBlocks(one)];
    const { sheets } = options;
    return [begin, ...whole(own(sheets === undefined ? heights[0] : fewest(heights, (height) => sheets(whole(own(height, 'outlined'))))))];
  }
  if (isCutFromLength(part)) return [begin, ...pieceBlocks(head, one, part, saying, options, type), ...openBlocks(one)];
  return [
    begin,
    ...head,
    { kind: 'paragraph', text: `A ${part.kind} is not worked out yet: nothing can be said of it here.` },
    ...openBlocks(one),
  ];
};

/** The first of those that cost the least. */
const fewest = (all: readonly [number, ...number[]], cost: (each: number) => number): number => {
  let [best] = all;
  let least = Number.POSITIVE_INFINITY;
  for (const each of all) {
    const own = cost(each);
    if (own < least) [best, least] = [each, own];
  }
  return best;
};

const noteBlocks = ({ part }: BookletPart): readonly InnerBlock[] =>
  (part.note ?? '')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((text) => ({ kind: 'paragraph', text, size: 3.4 }));

/**
 * How the steps are read for the mirror image. The same face stays up, so a bend keeps its direction; read for the sheet turned over as well, they would give
 * the part as drawn. The roller's frame stays at the right, so a mirrored bead runs the other way.
 */
const oppositeBlocks = ({ part, beads }: BookletPart): readonly InnerBlock[] => {
  if (part.quantityOpposite === 0) return [];
  const rolled = (beads?.beads.length ?? 0) > 0 ? ' Only the roller’s frame stays on your right: roll each bead from its other end.' : '';
  return [
    {
      kind: 'paragraph',
      text: `Opposite hand, ${part.quantityOpposite} off: the mirror image. Same face up, every bend the same way. Read “right” for “left” and “left” for “right” throughout, and count from the right edge.${rolled} Lay a printed pattern face down.`,
    },
  ];
};

const openBlocks = ({ findings }: BookletPart): readonly InnerBlock[] => {
  const open = findings.filter(({ severity }) => severity === 'error' || severity === 'warning');
  return open.length === 0
    ? []
    : [
        {
          kind: 'caution',
          title: 'Open in the file',
          items: open.map(({ severity, message, line }) => `${severity === 'error' ? 'Error' : 'Warning'}, line ${line}: ${message}`),
        },
      ];
};

/** Outlined, the drawing of the blank is only as large as it will be, to see what it costs. */
type Blocks = (height: number, drawn?: 'drawn' | 'outlined') => readonly Block[];

/** All but the drawing of the blank is made once. */
const sheetBlocks = (one: BookletPart, part: Panel | Section, saying: Saying, options: BookletOptions): Blocks => {
  const blank = cutBlank(one);
  if (blank === undefined) {
    const nothing: readonly Block[] = [
      { kind: 'fields', rows: headRows(part, saying) },
      {
        kind: 'caution',
        title: 'No blank could be laid out',
        items: [
          one.findings.find(({ severity }) => severity === 'error')?.message ??
            'The file says too little, or something it needs is broken.',
        ],
      },
    ];
    return () => nothing;
  }
  const display = { ...saying.display, beads: one.beads, beadsLie: 'as cut' as const };
  const marked = linedFor(blank, one.planned);
  const assembly = assemblyItems(one, saying);
  const rows = [...headRows(part, saying), ...numberRows(one, blank, saying), ...stiffnessRows(one.stiffness, saying)];
  const above = headBlocks(one, part, rows, saying, options);
  const below: readonly Block[] = [
    { kind: 'heading', level: 2, text: 'Mark out' },
    ...markOutBlocks(markOut(part, marked, display), { ...display, bothUnits: saying.both }),
    ...beadBlocks(one.beads, saying),
    ...bendBlocks(one, part, blank, saying, options),
    ...(assembly.length === 0
      ? []
      : [{ kind: 'heading', level: 2, text: 'Check when it is bent' } as const, { kind: 'list', mark: 'tick', items: assembly } as const]),
  ];
  const largest = flatFigure(one, part, marked, saying, options, heights[0]);
  const flat = (height: number, drawn: 'drawn' | 'outlined'): Figure => {
    if (largest.height <= height) return largest;
    return drawn === 'drawn' ? flatFigure(one, part, marked, saying, options, height) : { ...largest, height, marks: [] };
  };
  return (height, drawn = 'drawn') => [...above, { kind: 'figures', figures: [flat(height, drawn)] }, ...below];
};

const headRows = (part: Panel | Section, saying: Saying): readonly (readonly [string, string])[] => {
  const sheet = part.sheet?.value;
  const coating = sheet?.material?.coating;
  return [
    [
      'Sheet',
      sheet === undefined
        ? 'none named'
        : [sheet.name, sayThickness(sheet.thickness, saying.display.unit), sheet.material?.name, coating].filter(Boolean).join(', '),
    ],
    ...(part.grain === undefined || part.grain.value === 'any' ? [] : [['Grain', `along ${part.grain.value}, as drawn`] as const]),
    ...(part.face === undefined
      ? []
      : [['Face toward you', part.face === 'either' ? 'either' : `the ${part.face} of the finished part`] as const]),
    ...(part.finish === undefined ? [] : [['Finish', part.finish] as const]),
  ];
};

const numberRows = (one: BookletPart, blank: Blank, saying: Saying): readonly (readonly [string, string])[] => {
  const net = one.blank;
  const grown =
    net !== undefined && net !== blank && (Math.abs(net.width - blank.width) > 0.005 || Math.abs(net.height - blank.height) > 0.005);
  const box = one.folded?.envelope;
  const { unit } = saying.display;
  const mass = net?.mass ?? blank.mass;
  return [
    [grown ? 'Sheet to cut' : 'Blank', saying.size(blank.width, blank.height)],
    ...(grown && net !== undefined ? [['Blank once rolled', saying.size(net.width, net.height)] as const] : []),
    ...(box === undefined || blank.bends.length === 0
      ? []
      : [
          [
            'Finished, over all',
            [box.max.x - box.min.x, box.max.y - box.min.y, box.max.z - box.min.z]
              .map((mm, i) => (i < 2 && !saying.both ? saying.bare(mm) : saying.say(mm)))
              .join(' × '),
          ] as const,
        ]),
    // The cutting list weighs the sheet as it is cut.
    ...(mass === undefined ? [] : [[grown ? 'Mass, trimmed' : 'Mass of one', sayMass(mass, unit)] as const]),
  ];
};

const stiffnessRows = (stiffness: StiffnessAnswer | NotReckoned | undefined, saying: Saying): readonly (readonly [string, string])[] => {
  if (stiffness === undefined || 'message' in stiffness) return [];
  return stiffness.cases.map(({ flat, beaded }, i) => [
    stiffness.cases.length === 1 ? 'Gives under its load' : `Gives under load ${i + 1}`,
    `${sayBendSum((beaded ?? flat).deflection, saying.display.unit)}${beaded === undefined ? '' : `, without its beads ${sayBendSum(flat.deflection, saying.display.unit)}`}`,
  ]);
};

/** What is said of the part beside what it looks like: a panel's picture at the right, a section's cut there and its picture under the words. */
const headBlocks = (
  one: BookletPart,
  part: Panel | Section,
  rows: readonly (readonly [string, string])[],
  saying: Saying,
  options: BookletOptions,
): readonly Block[] => {
  const { folded, blank } = one;
  if (folded === undefined || blank === undefined || blank.bends.length === 0) return [{ kind: 'fields', rows, names: 40 }];
  const width = (options.room - 6) / 2;
  const finished = (height: number): Figure => ({
    ...foldedFigure(part, folded.blank, folded, { ...saying.display, beads: one.beads, room: { width, height } }),
    words: `${part.name}, folded`,
    caption: 'Finished, seen from a corner.',
  });
  const section =
    part.kind === 'section' ? sectionFigure(part, folded.blank, { ...saying.display, room: { width, height: 78 } }) : undefined;
  const fields = { kind: 'fields', rows, names: 30 } as const;
  const [left, right]: readonly (readonly InnerBlock[])[] =
    section === undefined
      ? [[fields], [{ kind: 'figures', figures: [finished(60)] }]]
      : [
          [fields, { kind: 'figures', figures: [finished(50)] }],
          [{ kind: 'figures', figures: [{ ...section, words: `${part.name}, section`, caption: 'Section, sizes outside.' }] }],
        ];
  return [
    {
      kind: 'side',
      parts: [
        { share: 1, blocks: left ?? [] },
        { share: 1, blocks: right ?? [] },
      ],
    },
  ];
};

const flatFigure = (
  one: BookletPart,
  part: Panel | Section,
  blank: Blank,
  saying: Saying,
  options: BookletOptions,
  height: number,
): Figure => ({
  ...blankFigure(part, blank, {
    ...saying.display,
    beads: one.beads,
    beadsLie: 'as cut',
    room: options.room,
    tallest: Math.min(height, options.tallest / 2),
  }),
  caption: `The ${one.beads?.drawIn === undefined ? 'blank' : 'sheet before rolling'}, face toward you. Solid: bend up, dashed: bend down. Not to scale.`,
});
