/** Pieces of tube, bar, rod and angle, and straps wrapped round a pin. */

import type { StatementEntry } from './pattern.js';
import { angle, anyOrder, block, choice, length, name, newName, oneOf, option, optional, sequence, word } from './pattern.js';

const stock = `units inch
material mild_steel { density 7850 kg/m3 }
tube square_1  { material mild_steel  square 1  wall 0.065  length 20 ft }
bar flat_1     { material mild_steel  flat 1 by 1/8  length 20 ft }
tube round_1    { material mild_steel  round 1  wall 0.065  length 20 ft }
rod rod_3_8    { material mild_steel  round 3/8  length 12 ft }
angle angle_1  { material mild_steel  legs 1 by 1  thickness 1/8  length 20 ft }
`;
const rail = `${stock}
piece top_rail {
  tube round_1
  length 30
  end start mitre 45
  end finish cope onto round_1 at 60
  hole 9/32 through at (6, 1/2), (24, 1/2)
  quantity 2
}
`;
const bow = `${stock}
piece canopy_bow {
  rod rod_3_8
  length 60
  end both square
  bend at 20 by 90 radius 3
  bend at 40 by 90 radius 3 turned 0
}
`;
const eye = `${stock}
strap hinge_eye {
  bar flat_1
  round pin 3/8 clear 1/64
  wrap 270
  tail 1 1/2
  hole 3/16 at (3/4, 1/2)
  quantity 4
}
`;

const refer = (w: string, example: string): StatementEntry => ({
  word: w,
  id: `${w}@piece`,
  family: 'piece',
  places: w === 'bar' ? ['piece', 'strap'] : ['piece'],
  pattern: name('stock', 'stock'),
  summary: `The ${w} this is cut from.`,
  note: 'Described once in the shop; the cutting list gathers every piece of the same stock.',
  example,
  arguments: { stock: { summary: `A ${w} described with \`${w} NAME { … }\`.` } },
  computed: true,
});

export const pieceStatements: readonly StatementEntry[] = [
  {
    word: 'piece',
    id: 'piece',
    family: 'piece',
    places: ['file'],
    pattern: sequence(newName('name', 'part'), block('piece')),
    summary: 'A length of tube, bar, rod or angle, with its ends, bends and holes.',
    note: 'x runs along the piece from its start. Mitred lengths are given over the long points.',
    example: rail,
    arguments: { name: { summary: 'What the part is called.' } },
    computed: true,
  },
  refer('tube', rail),
  refer('bar', eye),
  refer('rod', bow),
  refer('angle', `${stock}\npiece corner_post {\n  angle angle_1\n  length 16\n  end both square\n}\n`),
  {
    word: 'length',
    id: 'length@piece',
    family: 'piece',
    places: ['piece'],
    pattern: length('length'),
    summary: 'Length of the piece.',
    note: 'Over the long points of its ends; of a bent piece, along the middle of the stock before bending.',
    example: rail,
    arguments: { length: { summary: 'Over everything.' } },
    computed: true,
  },
  {
    word: 'end',
    id: 'end',
    family: 'piece',
    places: ['piece'],
    pattern: sequence(
      choice('which', 'start', 'finish', 'both'),
      oneOf(
        word('square', 'cut'),
        sequence(word('mitre', 'cut'), angle('angle')),
        sequence(word('cope', 'cut'), option('onto', name('onto', 'stock')), optional(word('at'), angle('angle'))),
      ),
      optional(word('turned'), angle('turned')),
    ),
    summary: 'How an end is cut: square, mitred, or coped to sit on another tube.',
    note: 'A mitre of 45 joins two pieces at a right angle. For a cope a wrap-round template is printed at true size.',
    example: rail,
    arguments: {
      which: { summary: '`start`, `finish` or `both`.' },
      cut: { summary: '`square`, `mitre` or `cope`.', default: 'square' },
      angle: { summary: 'Of a mitre, how far from square; of a cope, between the two tubes.', default: 'of a cope, 90°' },
      onto: { summary: 'The tube it sits on.' },
      turned: { summary: 'The cut turned about the piece’s own axis.', default: '0°' },
    },
    computed: true,
  },
  {
    word: 'bend',
    id: 'bend@piece',
    family: 'piece',
    places: ['piece'],
    pattern: sequence(
      option('at', length('at')),
      option('by', angle('angle')),
      option('radius', length('radius')),
      optional(word('turned'), angle('turned')),
    ),
    summary: 'A bend in the piece.',
    note: 'The place is the start of the bend, measured along the straight stock, so that it can be marked before bending.',
    example: bow,
    arguments: {
      at: { summary: 'Where the bend starts, from the start of the piece.' },
      angle: { summary: 'How far it turns from straight.' },
      radius: { summary: 'Radius to the middle of the stock.' },
      turned: { summary: 'Its plane, turned about the piece’s axis from that of the first bend.', default: '0°' },
    },
    computed: true,
  },
  {
    word: 'strap',
    id: 'strap',
    family: 'piece',
    places: ['file'],
    pattern: sequence(newName('name', 'part'), block('strap')),
    summary: 'Flat bar wrapped round a pin: a hinge eye or a clamp.',
    note: 'Its length before bending is worked out from the pin, the wrap and the tails.',
    example: eye,
    arguments: { name: { summary: 'What the part is called.' } },
    computed: true,
  },
  {
    word: 'round',
    id: 'round@strap',
    family: 'piece',
    places: ['strap'],
    pattern: sequence(word('pin'), length('pin'), anyOrder(option('clear', length('clear')))),
    summary: 'The pin it goes round.',
    note: 'Allow for paint or zinc on both: a hinge that turns freely when bare may bind when painted.',
    example: eye,
    arguments: { pin: { summary: 'Diameter of the pin.' }, clear: { summary: 'Play on the diameter.', default: 'none' } },
    computed: true,
  },
  {
    word: 'wrap',
    id: 'wrap',
    family: 'piece',
    places: ['strap'],
    pattern: angle('angle'),
    summary: 'How far round the pin it goes.',
    note: '180 is a saddle, about 270 an eye whose tail leaves level with its back.',
    example: eye,
    arguments: { angle: { summary: 'Angle of touch round the pin.' } },
    computed: true,
  },
  {
    word: 'tail',
    id: 'tail',
    family: 'piece',
    places: ['strap'],
    pattern: sequence(length('first'), optional(word('and'), length('second'))),
    summary: 'The straight that is left at one end or at both.',
    note: 'Measured from where the bar leaves the pin.',
    example: eye,
    arguments: { first: { summary: 'One tail.' }, second: { summary: 'The other tail.', default: 'none' } },
    computed: true,
  },
];
