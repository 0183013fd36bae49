/** Statements of a whole file, and those that may stand in any part. */

import { inPanel, partPlaces } from './parts-of-patterns.js';
import type { StatementEntry } from './pattern.js';
import { choice, newName, optional, sequence, sign, text, value, word } from './pattern.js';

export const fileStatements: readonly StatementEntry[] = [
  {
    word: 'with',
    id: 'with',
    family: 'file',
    places: ['file'],
    pattern: sequence(text('path'), optional(word('as'), newName('as', 'file'))),
    summary: 'Brings the names of another file into this one.',
    note: 'Keep what the bench owns (metals, sheets, dies, the brake) in one file and bring it into every job. Only that file’s own names come, not those it brings itself. Two files may bring each other.',
    example: `units inch
with "shop.planish" as bench

panel lid {
  sheet bench.crs_18
  outline rectangle 20 by 14
}
`,
    arguments: {
      path: { summary: 'The file, from the folder this file lies in.' },
      as: { summary: 'A name to put before its names: `bench.crs_18`.', default: 'its names are used as they are' },
    },
    computed: true,
  },
  {
    word: 'units',
    id: 'units',
    family: 'file',
    places: ['file'],
    pattern: choice('unit', 'inch', 'millimetre'),
    summary: 'Says what a bare number means when a length is wanted, in this file.',
    note: 'Each file says its own. A shop file in millimetres serves a job in inches. A bare number used as an angle is degrees in both.',
    example: `units millimetre
material mild_steel { density 7850 kg/m3 }
sheet crs_12 { material mild_steel  thickness 1.2 }

panel shelf {
  sheet crs_12
  outline rectangle 380 by 150
}
`,
    arguments: { unit: { summary: '`inch` or `millimetre`.' } },
    computed: true,
  },
  {
    word: 'let',
    id: 'let',
    family: 'file',
    places: ['file', ...partPlaces, 'repeat', 'opposite'],
    pattern: sequence(newName('name', 'value'), sign('='), value('value', 'any')),
    summary: 'Gives a name to a value.',
    note: 'Write a size once and use it everywhere it governs. The order of lines does not matter. A value without a unit stays a plain number until a length, an angle or a count is wanted of it.',
    example: inPanel('gate', 'gate_width by 11', 'let gate_width = 30 1/4', 'hole 9/32 at (gate_width / 2, 1 1/2)'),
    arguments: {
      name: { summary: 'The name, used from anywhere in the braces it stands in, or in the whole file.' },
      value: { summary: 'A number, a point, a text, or anything worked out from other names.' },
    },
    computed: true,
  },
  {
    word: 'check',
    id: 'check',
    family: 'file',
    places: ['file', ...partPlaces],
    pattern: sequence(value('condition', 'condition'), optional(text('message'))),
    summary: 'States what must hold, and says so when it does not.',
    note: 'What a part measures (`gate.blank.width`, `gate.mass`) may be checked in its own braces and by other parts. When something the check needs is broken, it counts as not decided, never as failed.',
    example: inPanel('gate', '30 1/4 by 11', 'check gate.blank.height <= 24 "must come out of a half-width offcut"'),
    arguments: {
      condition: { summary: 'Something that is yes or no: `gate.blank.width <= 36`.' },
      message: { summary: 'What to say when it does not hold.', default: 'the condition itself, with its numbers' },
    },
    computed: true,
  },
  {
    word: 'note',
    id: 'note',
    family: 'file',
    places: ['file', ...partPlaces],
    pattern: text('text'),
    summary: 'Prints a line on the mark-out sheet.',
    note: 'For the person at the bench: which side is painted, what to leave loose until the frame is welded. A `///` line does the same for the statement under it.',
    example: inPanel('gate', '30 1/4 by 11', 'note "scribe on the primed side, it goes inside"'),
    arguments: { text: { summary: 'What to print.' } },
    computed: true,
  },
  {
    word: 'currency',
    id: 'currency',
    family: 'file',
    places: ['file'],
    pattern: text('sign'),
    summary: 'The sign put before prices.',
    note: 'Prices are plain numbers; the sign is only printed. No money is changed from one sort to another.',
    example: `units inch
currency "$"
material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  price 62 }
`,
    arguments: { sign: { summary: 'Printed before an amount.' } },
    computed: true,
  },
];
