/** Pieces that several tables share: placings, the common places, the help that goes with them, and frames for examples. */
import type { ArgumentHelp, Pattern, Place } from './pattern.js';
import { angle, choice, count, length, list, name, newName, oneOf, option, optional, point, sequence, value, word } from './pattern.js';

/** Braces that describe one part each. */
export const partPlaces: readonly Place[] = ['panel', 'section', 'piece', 'strap', 'survey', 'assembly'];

export const conventionWords = choice('convention', 'outside', 'inside', 'flat');

/** ` as NAME`. */
export const asFeature: Pattern = optional(word('as'), newName('as', 'feature'));

/** Where a cut lies, for holes, slots and cut-outs. `placing` holds the word that chose the form. */
export const placing: Pattern = oneOf(
  sequence(word('at', 'placing'), list('at', value('point', 'point'))),
  sequence(
    word('along', 'placing'),
    word('line'),
    option('from', point('from')),
    option('to', point('to')),
    oneOf(option('count', count('count')), option('every', length('every'))),
  ),
  sequence(
    word('grid', 'placing'),
    count('columns'),
    option('by', count('rows')),
    option('every', length('a')),
    option('by', length('b')),
    option('from', point('origin')),
  ),
  sequence(
    word('round', 'placing'),
    point('centre'),
    option('radius', length('radius')),
    option('count', count('count')),
    optional(word('start'), angle('startAngle')),
  ),
);

export const placingHelp: Readonly<Record<string, ArgumentHelp>> = {
  placing: { summary: 'How the places are given: at points, along a line, on a grid, or round a centre.' },
  at: { summary: 'Centre of each one, from the origin of the face it lies on; commas part several.' },
  from: { summary: 'Centre of the first one on the line.' },
  to: { summary: 'Where the line ends; with `count`, the centre of the last one.' },
  count: { summary: 'How many there are.' },
  every: { summary: 'Distance from centre to centre along the line; they stop at or before its end.' },
  columns: { summary: 'How many stand side by side, along x.' },
  rows: { summary: 'How many stand one above the other, along y.' },
  a: { summary: 'Distance from centre to centre along x.' },
  b: { summary: 'Distance from centre to centre along y.' },
  origin: { summary: 'Centre of the lower left one of the grid.' },
  centre: { summary: 'Centre of the circle they stand on.' },
  radius: { summary: 'Radius of the circle they stand on.' },
  startAngle: { summary: 'Direction of the first one from the centre, anticlockwise from x.', default: '0°' },
};

/** ` on FLANGE`. */
export const onFlange: Pattern = optional(word('on'), name('on', 'flange'));
export const onHelp: ArgumentHelp = {
  summary: 'The flange or leg it lies on: `top` is the first flange of that edge, `top.2` its second, `leg.2` a leg.',
  default: 'the base; inside an `edge` block, the flange just above',
};
export const asHelp: ArgumentHelp = { summary: 'A name, to speak of it elsewhere.', default: 'the word and its number in the part' };

const shopInches = `units inch
material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 18 ga  bend radius 1/16 k 0.42 }
`;

const indent = (lines: readonly string[]): string => lines.map((line) => `  ${line}\n`).join('');

/** A whole file, in inches, with one panel that holds the lines given. */
export const inPanel = (partName: string, size: string, ...lines: readonly string[]): string =>
  `${shopInches}\npanel ${partName} {\n  sheet crs_18\n  outline rectangle ${size}\n${indent(lines)}}\n`;

/** The same, without an outline of its own. */
export const inBarePanel = (partName: string, ...lines: readonly string[]): string =>
  `${shopInches}\npanel ${partName} {\n  sheet crs_18\n${indent(lines)}}\n`;

/** A whole file, in millimetres, with one formed section that holds the lines given. */
export const inSection = (partName: string, ...lines: readonly string[]): string =>
  `units millimetre
material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_12 { material mild_steel  thickness 1.2  bend radius 1.2 k 0.42 }

section ${partName} {
  sheet crs_12
${indent(lines)}}
`;
