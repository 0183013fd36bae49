/** What happens where two edges meet. */

import { inPanel } from './parts-of-patterns.js';
import type { Pattern, StatementEntry } from './pattern.js';
import { length, name, oneOf, optional, run, sequence, word } from './pattern.js';

const reliefShape: Pattern = oneOf(
  sequence(word('round', 'reliefShape'), length('reliefSize')),
  sequence(word('square', 'reliefShape'), length('reliefSize')),
  word('none', 'reliefShape'),
);
const relief: Pattern = optional(word('relief'), reliefShape);

export const cornerStatements: readonly StatementEntry[] = [
  {
    word: 'corner',
    id: 'corner',
    family: 'corner',
    places: ['panel'],
    pattern: sequence(
      oneOf(word('all', 'edges'), run('edges', 'edge')),
      oneOf(
        sequence(word('open', 'treatment'), relief),
        sequence(word('mitred', 'treatment'), optional(word('gap'), length('gap')), relief),
        sequence(
          word('lap', 'treatment'),
          name('over', 'edge'),
          word('over'),
          name('under', 'edge'),
          optional(word('by')),
          length('by'),
          relief,
        ),
        sequence(word('butt', 'treatment'), name('over', 'edge'), word('over'), name('under', 'edge'), relief),
        sequence(word('relief', 'treatment'), reliefShape),
        sequence(word('radius', 'treatment'), length('radius')),
        sequence(word('chamfer', 'treatment'), length('size')),
        sequence(word('notch', 'treatment'), length('width'), word('by'), length('depth')),
      ),
    ),
    summary: 'Says how two neighbouring edges meet: open, mitred, lapped, relieved, rounded, cut off or notched.',
    note: 'Where two bends run into one corner the metal there would be torn, so a relief is cut first; without a word of yours it is sized from thickness and radius, and hover tells how. `mitred` halves the corner between both flanges; `lap top over left 1/2` runs the top flange past the corner to lie on the outside of the left one, `butt` stops it there. `radius`, `chamfer` and `notch` are for corners where at most one of the edges is bent.',
    example: inPanel(
      'gate',
      '30 1/4 by 11',
      'edge top { flange 3/4 down }',
      'edge left, right { flange 5/8 down }',
      'corner all open relief square 3/8',
      'corner bottom left radius 1/4',
    ),
    arguments: {
      edges: { summary: 'The two edges that meet, side by side, or `all` for every corner.' },
      treatment: { summary: 'How they meet.', default: 'open, with a relief where both are bent' },
      gap: { summary: 'Gap left along the mitre.', default: 'nothing, edges touch' },
      over: { summary: 'The edge whose flange goes over the other.' },
      under: { summary: 'The edge whose flange lies under.' },
      by: { summary: 'How far it lies over the other, from the corner.' },
      reliefShape: { summary: '`round`, `square` or `none`.', default: 'sized from thickness and bend radius' },
      reliefSize: { summary: 'Diameter of a round relief, side of a square one.' },
      radius: { summary: 'Radius of the rounded corner.' },
      size: { summary: 'How much is cut off along each edge.' },
      width: { summary: 'Width of the notch, along the first edge.' },
      depth: { summary: 'Depth of the notch, along the second edge.' },
    },
    computed: true,
  },
];
