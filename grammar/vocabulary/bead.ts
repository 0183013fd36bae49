/** Beads, bands, tipped edges, cross-breaks and dimples. */

import { asFeature, asHelp, inPanel, onFlange, onHelp, placing, placingHelp } from './parts-of-patterns.js';
import type { Pattern, Place, StatementEntry } from './pattern.js';
import { angle, anyOrder, block, choice, length, list, name, newName, option, optional, point, sequence, value, word } from './pattern.js';

const featurePlaces: readonly Place[] = ['panel', 'repeat', 'opposite'];
const paths: readonly Place[] = ['bead', 'band'];
const die = 'die half_round_3_8 { round  width 3/8  depth 1/8 }\n';
const beaded = (...lines: readonly string[]): string => inPanel('floor', '36 by 24', ...lines).replace('\npanel', `${die}\npanel`);
const border = beaded('bead border { die half_round_3_8  up  rectangle inset 1 3/4 corner 1 }');
const rib = beaded('bead rib {', '  die half_round_3_8', '  up', '  line from (4, 4) to (32, 4)', '  ends open', '}');

const endWords = ['closed', 'open', 'run off'] as const;
const track = (
  w: string,
  pattern: Pattern,
  summary: string,
  note: string,
  args: Readonly<Record<string, string>>,
  example: string,
): StatementEntry => ({
  word: w,
  id: `${w}@bead`,
  family: 'bead',
  places: paths,
  pattern,
  summary,
  note,
  example,
  arguments: Object.fromEntries(
    Object.entries(args).map(([field, words]) => [
      field,
      { summary: words, ...(field === 'corner' ? { default: 'as tight as the die turns; sharp where it does not say' } : {}) },
    ]),
  ),
  computed: true,
});

export const beadStatements: readonly StatementEntry[] = [
  {
    word: 'bead',
    id: 'bead',
    family: 'bead',
    places: featurePlaces,
    pattern: sequence(newName('name', 'feature'), block('bead')),
    summary: 'A bead rolled into the sheet along a path.',
    note: 'The path is the bead’s middle. Rolled before bending; it must not run through a bend, and the roller’s throat must reach it. Rolling draws the sheet in, so the blank grows by what the beads take.',
    example: border,
    arguments: { name: { summary: 'A name, to speak of it elsewhere.' } },
    computed: true,
  },
  {
    word: 'band',
    id: 'band',
    family: 'bead',
    places: featurePlaces,
    pattern: sequence(newName('name', 'feature'), block('band')),
    summary: 'A raised band: two steps side by side, with the sheet between them set off.',
    note: 'Its path is the middle. The second track is rolled with the dies turned over.',
    example: `units inch
die step_16 { step  depth 1/16 }
sheet crs_18 { thickness 0.048  bend radius 1/16 k 0.42 }
panel lid {
  sheet crs_18
  outline rectangle 20 by 14
  band raised { die step_16  up  width 3  line from (4, 7) to (16, 7) }
}
`,
    arguments: { name: { summary: 'A name, to speak of it elsewhere.' } },
    computed: true,
  },
  {
    word: 'die',
    id: 'die@bead',
    family: 'bead',
    places: paths,
    pattern: name('die', 'die'),
    summary: 'The die it is rolled with.',
    note: 'Its width and depth are those of the bead.',
    example: border,
    arguments: { die: { summary: 'A die described with `die NAME { … }`.' } },
    computed: true,
  },
  track('up', sequence(), 'The crown stands toward the face.', 'Beads that stand the other way need the sheet turned over.', {}, border),
  track(
    'down',
    sequence(),
    'The crown stands away from the face.',
    'Beads that stand the other way need the sheet turned over.',
    {},
    beaded('bead border { die half_round_3_8  down  rectangle inset 1 3/4 corner 1 }'),
  ),
  track(
    'line',
    sequence(option('from', point('from')), option('to', point('to'))),
    'A straight bead between two points.',
    'The simplest to roll: draw the line and hold the sheet steady.',
    { from: 'Where it starts.', to: 'Where it ends.' },
    rib,
  ),
  track(
    'rectangle',
    sequence(option('inset', length('inset')), optional(word('corner'), length('corner'))),
    'A bead all round, in from the finished outline.',
    'Turns tighter than the die allows are finished by hand.',
    { inset: 'From the finished outline to the middle of the bead.', corner: 'Radius at the corners, to the middle of the bead.' },
    border,
  ),
  track(
    'path',
    sequence(list('points', value('point', 'point'), 2), optional(word('corner'), length('corner'))),
    'A bead through several points.',
    'The corners between are rounded.',
    { points: 'The points, two or more.', corner: 'Radius at the corners, to the middle of the bead.' },
    beaded('bead zigzag { die half_round_3_8  up  path (4, 4), (18, 20), (32, 4) corner 2 }'),
  ),
  track(
    'along',
    sequence(list('edges', name('edge', 'edge')), option('inset', length('inset')), optional(word('corner'), length('corner'))),
    'A bead along one or more edges, in from the finished outline.',
    'Neighbouring edges give one bead with a rounded corner. It starts and ends as far from the next edges as it lies from its own, or runs off.',
    {
      edges: 'Edges, in order.',
      inset: 'From the finished outline to the middle of the bead.',
      corner: 'Radius at the corners, to the middle of the bead.',
    },
    beaded('bead rim { die half_round_3_8  up  along left, bottom, right inset 2 corner 1 1/2 }'),
  ),
  track(
    'arc',
    sequence(option('from', point('from')), option('through', point('through')), option('to', point('to'))),
    'A bead on an arc.',
    'Mark it with the trammel on both faces.',
    { from: 'Where it starts.', through: 'A point it passes through.', to: 'Where it ends.' },
    beaded('bead bow { die half_round_3_8  up  arc from (6, 6) through (18, 16) to (30, 6) }'),
  ),
  track(
    'circle',
    sequence(option('round', point('centre')), option('radius', length('radius'))),
    'A bead on a circle.',
    'Where start and finish meet, stop short and blend them by hand.',
    { centre: 'Its centre.', radius: 'Radius to the middle of the bead.' },
    beaded('bead ring { die half_round_3_8  up  circle round (18, 12) radius 6 }'),
  ),
  {
    word: 'ends',
    id: 'ends@bead',
    family: 'bead',
    places: paths,
    pattern: sequence(choice('start', ...endWords), optional(choice('finish', ...endWords))),
    summary: 'How the bead starts and ends.',
    note: 'A closed end is full depth to the very point and strains the sheet most; an open end fades out there; `run off` goes over the edge of the blank.',
    example: rib,
    arguments: {
      start: { summary: '`closed`, `open` or `run off`.', default: 'open' },
      finish: { summary: 'The same for the other end.', default: 'as the start' },
    },
    computed: true,
  },
  {
    word: 'width',
    id: 'width@band',
    family: 'bead',
    places: ['band'],
    pattern: length('width'),
    summary: 'Width of the band.',
    note: 'Between the outer feet of its two shoulders.',
    example: `units inch
die step_16 { step  depth 1/16 }
sheet crs_18 { thickness 0.048  bend radius 1/16 k 0.42 }
panel lid {
  sheet crs_18
  outline rectangle 20 by 14
  band raised { die step_16  up  width 3  line from (4, 7) to (16, 7) }
}
`,
    arguments: { width: { summary: 'Over both shoulders.' } },
    computed: true,
  },
  {
    word: 'tip',
    id: 'tip',
    family: 'bead',
    places: ['panel'],
    pattern: sequence(
      list('edges', name('edge', 'edge')),
      option('width', length('width')),
      choice('direction', 'up', 'down'),
      optional(angle('angle')),
      anyOrder(option('die', name('die', 'die')), option('as', newName('as', 'feature'))),
    ),
    summary: 'Turns up a narrow edge on the roller, straight or curved.',
    note: 'On a curved edge the tipped metal has to stretch (inside curves) or shrink (outside curves) by its width over the edge’s radius; beyond what the metal bears it splits or puckers. It is the cut edge of the flat sheet that is tipped; the free edge of a flange is turned by another flange or a hem, in the braces of its edge.',
    example: inPanel('tyre_guard', '18 by 6', 'tip top, bottom width 1/4 down'),
    arguments: {
      edges: { summary: 'One edge, or several parted by commas.' },
      width: { summary: 'Width of the tipped edge.' },
      direction: { summary: '`up` toward the face, `down` away from it.' },
      angle: { summary: 'How far it turns from flat.', default: '90°' },
      die: { summary: 'A tipping die.', default: 'any tipping die of the shop' },
      as: asHelp,
    },
    computed: true,
  },
  {
    word: 'cross_break',
    id: 'cross_break',
    family: 'bead',
    places: ['panel'],
    pattern: sequence(choice('direction', 'up', 'down'), anyOrder(option('depth', length('depth')), option('inset', length('inset')))),
    summary: 'Two slight bends from corner to corner, to stop a flat panel from drumming.',
    note: 'A light touch of the brake on each diagonal; the panel then stands a little proud in the middle.',
    example: inPanel('lid', '20 by 14', 'cross_break up depth 1/8'),
    arguments: {
      direction: { summary: 'The middle stands `up` toward the face, or `down`.' },
      depth: { summary: 'How far the middle stands out.', default: 'an eighth of an inch, 3 mm' },
      inset: { summary: 'How far the breaks stop short of the corners.', default: 'nothing' },
    },
    computed: true,
  },
  {
    word: 'dimple',
    id: 'dimple',
    family: 'bead',
    places: featurePlaces,
    pattern: sequence(
      length('diameter'),
      choice('direction', 'up', 'down'),
      optional(word('depth'), length('depth')),
      onFlange,
      placing,
      asFeature,
    ),
    summary: 'Holes with a pressed rim, to stiffen and lighten.',
    note: 'Cut the hole, then press the rim with a pair of dimple dies. Leave flat sheet between one rim and the next.',
    example: inPanel('divider', '16 by 8', 'dimple 1 up depth 1/8 at (4, 4), (8, 4), (12, 4)'),
    arguments: {
      diameter: { summary: 'Diameter of the hole before pressing.' },
      direction: { summary: 'The rim stands `up` toward the face, or `down`.' },
      depth: { summary: 'How far the rim stands out.', default: 'as the dies leave it' },
      on: onHelp,
      ...placingHelp,
      as: asHelp,
    },
    computed: true,
  },
];
