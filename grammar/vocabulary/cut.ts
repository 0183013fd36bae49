/** Holes, slots and cut-outs. */

import { asFeature, asHelp, inPanel, onFlange, onHelp, placing, placingHelp } from './parts-of-patterns.js';
import type { Pattern, StatementEntry } from './pattern.js';
import { angle, block, length, name, oneOf, optional, sequence, size, word } from './pattern.js';

const places = ['panel', 'edge', 'flange', 'section', 'repeat', 'opposite'];
const turned: Pattern = optional(word('turned'), angle('turned'));
const turnedHelp = { summary: 'Turned about its centre, anticlockwise.', default: '0°, its length along x for a slot' };
const tail: readonly Pattern[] = [onFlange, placing, turned, asFeature];

export const cutStatements: readonly StatementEntry[] = [
  {
    word: 'hole',
    id: 'hole',
    family: 'cut',
    places: [...places, 'piece', 'strap'],
    pattern: sequence(
      oneOf(
        sequence(word('tapped', 'fitWord'), size('fit')),
        sequence(word('clearance', 'fitWord'), size('fit')),
        sequence(word('drill', 'fitWord'), size('fit')),
        length('diameter'),
      ),
      onFlange,
      optional(word('through', 'through'), optional(word('to'), oneOf(word('base', 'throughTo'), name('throughTo', 'flange')))),
      placing,
      asFeature,
    ),
    summary: 'Round holes, by diameter or by what goes into them.',
    note: 'Keep a hole clear of a bend: too near, it is drawn out of round. On a flange, x is the panel’s own coordinate along that edge and y the distance from the outside of its parent toward the free edge. `through to base` drills on, square to its own face, wherever that meets the base once folded; the second hole is cut in the flat where it will come.',
    example: inPanel(
      'gate',
      '30 by 11',
      'edge top { flange 1 down }',
      'hole 9/32 at (1, 1 1/2), (29, 1 1/2)',
      'hole 1/4 on top at (3, 9/16)',
      'hole clearance #10-32 along line from (2, 6) to (28, 6) count 5',
    ),
    arguments: {
      diameter: { summary: 'Diameter of the hole.' },
      fitWord: { summary: '`tapped` for a thread, `clearance` for a screw to pass, `drill` for a numbered or lettered drill.' },
      fit: { summary: 'The thread or drill: `M6`, `1/4-20`, `#10`, `F`.' },
      on: onHelp,
      through: {
        summary: 'Goes on through what is in its way: both walls of a tube, or another face of the folded panel.',
        default: 'one thickness',
      },
      throughTo: { summary: 'The face it goes on through, square to its own: `base`, or a flange.', default: 'both walls, for a tube' },
      ...placingHelp,
      as: asHelp,
    },
    computed: true,
  },
  {
    word: 'slot',
    id: 'slot',
    family: 'cut',
    places: [...places, 'piece'],
    pattern: sequence(length('width'), word('by'), length('length'), ...tail),
    summary: 'Slots with round ends.',
    note: 'Sizes are overall: a slot 1/4 by 1 is made with a 1/4 drill at centres 3/4 apart.',
    example: inPanel('gate', '30 by 11', 'slot 1/4 by 1 at (15, 10 1/4) turned 0'),
    arguments: {
      width: { summary: 'Width, which is the diameter of its ends.' },
      length: { summary: 'Length overall.' },
      on: onHelp,
      ...placingHelp,
      turned: turnedHelp,
      as: asHelp,
    },
    computed: true,
  },
  {
    word: 'cut',
    id: 'cut',
    family: 'cut',
    places,
    pattern: oneOf(
      sequence(
        word('rectangle', 'shape'),
        length('width'),
        word('by'),
        length('height'),
        optional(word('radius'), length('corner')),
        ...tail,
      ),
      sequence(word('circle', 'shape'), length('diameter'), ...tail),
      sequence(word('drawn', 'shape'), ...tail, block('cut outline')),
    ),
    summary: 'Openings: a rectangle, a circle, or a drawn shape.',
    note: 'A rectangle or circle is placed by its centre; the (0, 0) of a drawn shape is laid on the point. Round the corners of an opening that will see shaking: a square corner is where a crack starts.',
    example: inPanel(
      'produce_box',
      '24 by 16',
      'cut rectangle 5 by 1 1/4 radius 5/8 at (12, 13) as handle',
      'cut circle 2 at (4, 4)',
      'cut drawn at (18, 4) {',
      '  from (0, 0)',
      '  right 2',
      '  line to (1, 2)',
      '  close',
      '}',
    ),
    arguments: {
      shape: { summary: '`rectangle`, `circle`, or `drawn` in braces.' },
      width: { summary: 'Width of the opening.' },
      height: { summary: 'Height of the opening.' },
      corner: { summary: 'Radius of its corners.', default: 'sharp' },
      diameter: { summary: 'Diameter of the opening.' },
      on: onHelp,
      ...placingHelp,
      turned: { ...turnedHelp, default: '0°' },
      as: asHelp,
    },
    computed: true,
  },
];
