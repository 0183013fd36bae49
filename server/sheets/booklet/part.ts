/** The chapter of one part. */
import type { NotReckoned, StiffnessAnswer } from '../../bead/index.js';
import type { Blank } from '../../blank/types.js';
import { sayBendSum, sayMass, sayThickness } from '../../model/display.js';
import type { Panel, Section } from '../../model/part.js';
import type { Block, Figure } from '../documents/blocks.js';
import { foldedFigure } from '../folded-figure.js';
import { markOut, markOutBlocks } from '../mark-out.js';
import { sectionFigure } from '../section-drawing.js';
import { assemblyItems } from './assembly.js';
import { beadBlocks } from './beads.js';
import { bendBlocks, linedFor } from './bends.js';
import { blankFigure } from './blank-figure.js';
import { pieceBlocks } from './pieces.js';
import { type BookletOptions, type BookletPart, cutBlank, howMany, type Saying, sayingIn } from './types.js';

export const partBlocks = (one: BookletPart, options: BookletOptions): readonly Block[] => {
  const { part } = one;
  const saying = sayingIn(one.unit, options);
  return [
    { kind: 'new page' },
    { kind: 'heading', level: 1, text: `${part.name}: ${howMany(part)}` },
    ...noteBlocks(one),
    ...(part.kind === 'panel' || part.kind === 'section'
      ? sheetBlocks(one, part, saying, options)
      : part.kind === 'piece' || part.kind === 'strap'
        ? pieceBlocks(one, part, saying, options)
        : [{ kind: 'paragraph', text: `A ${part.kind} is not worked out yet: nothing can be said of it here.` } as const]),
    ...openBlocks(one),
  ];
};

const noteBlocks = ({ part }: BookletPart): readonly Block[] =>
  (part.note ?? '')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((text) => ({ kind: 'paragraph', text, size: 3.4 }));

const openBlocks = ({ findings }: BookletPart): readonly Block[] => {
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

const sheetBlocks = (one: BookletPart, part: Panel | Section, saying: Saying, options: BookletOptions): readonly Block[] => {
  const blank = cutBlank(one);
  if (blank === undefined)
    return [
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
  const display = { ...saying.display, beads: one.beads, beadsLie: 'as cut' as const };
  const marked = linedFor(blank, one.planned);
  const assembly = assemblyItems(one, saying);
  return [
    { kind: 'fields', rows: [...headRows(part, saying), ...numberRows(one, blank, saying), ...stiffnessRows(one.stiffness, saying)] },
    { kind: 'figures', figures: figuresOf(one, part, marked, saying, options) },
    { kind: 'heading', level: 2, text: 'Mark out' },
    ...markOutBlocks(markOut(part, marked, display), { ...display, bothUnits: saying.both }),
    {
      kind: 'paragraph',
      text: `Squared up, the sheet’s two diagonals are ${saying.say(Math.hypot(blank.width, blank.height))} each.`,
    },
    ...beadBlocks(one.beads, saying),
    ...bendBlocks(one, part, blank, saying),
    ...(assembly.length === 0
      ? []
      : [{ kind: 'heading', level: 2, text: 'Check when it is bent' } as const, { kind: 'list', mark: 'tick', items: assembly } as const]),
  ];
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
    ...(part.quantityOpposite > 0
      ? [
          [
            'Opposite hand',
            `${part.quantityOpposite}: mark out with the other face up, every “left” read as right, every bend the other way`,
          ] as const,
        ]
      : []),
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
            [box.max.x - box.min.x, box.max.y - box.min.y, box.max.z - box.min.z].map(saying.say).join(' × '),
          ] as const,
        ]),
    ...(mass === undefined ? [] : [['Mass of one', sayMass(mass, unit)] as const]),
  ];
};

const stiffnessRows = (stiffness: StiffnessAnswer | NotReckoned | undefined, saying: Saying): readonly (readonly [string, string])[] => {
  if (stiffness === undefined || 'message' in stiffness) return [];
  return stiffness.cases.map(({ flat, beaded }, i) => [
    stiffness.cases.length === 1 ? 'Gives under its load' : `Gives under load ${i + 1}`,
    `${sayBendSum((beaded ?? flat).deflection, saying.display.unit)}${beaded === undefined ? '' : `, without its beads ${sayBendSum(flat.deflection, saying.display.unit)}`}`,
  ]);
};

const figuresOf = (one: BookletPart, part: Panel | Section, blank: Blank, saying: Saying, options: BookletOptions): readonly Figure[] => {
  const flat = blankFigure(part, blank, {
    ...saying.display,
    beads: one.beads,
    beadsLie: 'as cut',
    room: options.room,
    tallest: Math.min(105, options.tallest / 2),
  });
  const figures: Figure[] = [
    {
      ...flat,
      caption: `The ${one.beads?.drawIn === undefined ? 'blank' : 'sheet before rolling'}, face toward you. Solid: bend up, dashed: bend down.`,
    },
  ];
  if (one.folded === undefined || blank.bends.length === 0) return figures;
  const { folded } = one;
  const words = `${part.name}, folded`;
  if (part.kind === 'section') {
    const section = sectionFigure(part, folded.blank, { ...saying.display, room: { width: options.room * 0.48, height: 62 } });
    if (section !== undefined) figures.push({ ...section, words: `${part.name}, section`, caption: 'Section. Sizes outside.' });
  }
  const shown = foldedFigure(part, folded.blank, folded, {
    ...saying.display,
    room: { width: options.room * (part.kind === 'section' ? 0.48 : 0.6), height: 66 },
  });
  figures.push({ ...shown, words, caption: 'Finished, seen from a corner.' });
  return figures;
};
