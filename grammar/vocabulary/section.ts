/** Inside a formed section: its length, its legs and its turns. */

import { conventionWords, inSection } from './parts-of-patterns.js';
import type { StatementEntry } from './pattern.js';
import { angle, anyOrder, choice, length, newName, option, optional, sequence, word } from './pattern.js';

const rail = inSection('tool_rail', 'length 380', 'leg 20 as back', 'turn up 90', 'leg 40 as floor', 'turn up 90 radius 2', 'leg 12');

export const sectionStatements: readonly StatementEntry[] = [
  {
    word: 'length',
    id: 'length@section',
    family: 'section',
    places: ['section'],
    pattern: length('length'),
    summary: 'How long the formed strip is.',
    note: 'It runs along x. No longer than the brake, unless you can walk the strip through it.',
    example: rail,
    arguments: { length: { summary: 'Finished length, along x.' } },
    computed: true,
  },
  {
    word: 'leg',
    id: 'leg',
    family: 'section',
    places: ['section'],
    pattern: sequence(length('length'), optional(word('as'), newName('as', 'leg'))),
    summary: 'One flat of the section.',
    note: 'The first lies flat, face up. A leg between two turns the opposite way is measured over everything, the way a rule laid against a Z reads. What is written before the first leg is done to its free edge: a `hem`, a `curl`, tabs; what is written after the last, to that one’s. Holes name them `first` and `last`.',
    example: rail,
    arguments: {
      length: { summary: 'Finished length of the leg, to the outside of the bends at its ends.' },
      as: { summary: 'A name for the leg.', default: '`leg.1`, `leg.2`, …' },
    },
    computed: true,
  },
  {
    word: 'turn',
    id: 'turn',
    family: 'section',
    places: ['section'],
    pattern: sequence(
      choice('direction', 'up', 'down'),
      optional(angle('angle')),
      anyOrder(option('radius', length('radius')), conventionWords),
    ),
    summary: 'The bend between two legs.',
    note: '`up` and `down` are the two faces of the sheet: `up` then `up` makes a channel, `up` then `down` a Z, whichever way the work stands by then.',
    example: rail,
    arguments: {
      direction: { summary: '`up` folds toward the face of the first leg, `down` away from it.' },
      angle: { summary: 'How far it turns from flat.', default: '90°' },
      radius: { summary: 'Inside radius.', default: 'the sheet’s own bend radius' },
      convention: { summary: 'Where the legs at this bend are measured.', default: 'outside' },
    },
    computed: true,
  },
];
