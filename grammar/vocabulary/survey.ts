/** As-found measurements, taken on the work with tape, square and level. */

import type { ArgumentHelp, Pattern, StatementEntry } from './pattern.js';
import { block, length, list, name, newName, oneOf, option, optional, point, sequence, text, value, word } from './pattern.js';

const bed = `units inch

survey trike_bed {
  datum "front left corner of the bed, x along the front rail"
  read to 1/16
  point a at (0, 0)
  point b at (36 1/8, 0)
  point c taped 43 1/4 from a, 24 from b
  frame floor_frame sides 36 1/8, 24, 36, 24 1/16 diagonals 43 3/8, 43 1/8
  wind bed_top heights 0, 1/8, 1/16, 0 over 36 by 24
  curve tread through (0, 30), (6, 33 1/2), (12, 34 1/4), (18, 33 3/8)
  circle wheel through (0, 30), (6, 33 1/2), (12, 34 1/4), (18, 33 3/8)
}
`;
const entry = (
  w: string,
  pattern: Pattern,
  summary: string,
  note: string,
  args: Readonly<Record<string, ArgumentHelp>>,
): StatementEntry => ({
  word: w,
  id: w === 'survey' ? w : `${w}@survey`,
  family: 'survey',
  places: [w === 'survey' ? 'file' : 'survey'],
  pattern,
  summary,
  note,
  example: bed,
  arguments: args,
  computed: false,
});
const called: ArgumentHelp = { summary: 'What you call it.' };
const throughPoints: Pattern = option('through', list('points', value('point', 'point'), 3));

export const surveyStatements: readonly StatementEntry[] = [
  entry(
    'survey',
    sequence(newName('name', 'part'), block('survey')),
    'Measurements of something that is already there.',
    'Measure what the new part has to fit: a frame out of square, the run of a tyre. Parts may then be drawn from it.',
    {
      name: called,
    },
  ),
  entry('datum', text('text'), 'Where you measured from, in words.', 'Somebody else should find the same corner.', {
    text: { summary: 'The corner and the two directions.' },
  }),
  entry(
    'read',
    option('to', length('to')),
    'How finely the tape was read.',
    'It decides how sure the answers are; they are given with that spread.',
    { to: { summary: 'The least step you could tell apart.' } },
  ),
  entry(
    'point',
    sequence(
      newName('name', 'place'),
      oneOf(option('at', point('at')), option('taped', list('tapes', sequence(length('length'), word('from'), name('from', 'place')), 2))),
    ),
    'A point, from two offsets or from two or three tapes.',
    'Two tapes give a point by crossing arcs (it is taken on the left of the line from the first to the second); a third one shows the error.',
    {
      name: called,
      at: { summary: 'Offsets from the datum, along x and along y.' },
      tapes: { summary: 'Two or three tapes, each from a point already measured.' },
      length: { summary: 'What the tape read.' },
      from: { summary: 'The point the tape was held at.' },
    },
  ),
  entry(
    'curve',
    sequence(newName('name', 'curve'), throughPoints, optional(word('closed', 'closed'))),
    'A smooth curve through measured points.',
    'Take points closer where it turns more. `follow` runs an edge along it.',
    {
      name: called,
      points: { summary: 'Three points or more, in order.' },
      closed: { summary: 'Runs back to the first point.', default: 'ends at the last point' },
    },
  ),
  entry(
    'circle',
    sequence(newName('name', 'curve'), throughPoints),
    'The circle that best fits measured points.',
    'Spread the points as far round as you can: a short arc says little about its radius.',
    { name: called, points: { summary: 'Three points or more.' } },
  ),
  entry(
    'frame',
    sequence(
      newName('name', 'place'),
      option('sides', list('sides', length('side'), 4)),
      option('diagonals', list('diagonals', length('diagonal'), 2)),
    ),
    'A four-sided frame: its sides and diagonals.',
    'From these come how far it is racked and how much to move which corner to square it.',
    {
      name: called,
      sides: { summary: 'Four sides, in order round the frame.' },
      diagonals: { summary: 'Both diagonals; the first starts at the first side’s start.' },
    },
  ),
  entry(
    'wind',
    sequence(
      newName('name', 'place'),
      option('heights', list('heights', length('height'), 4)),
      option('over', length('width')),
      option('by', length('depth')),
    ),
    'How far four corners are out of one plane.',
    'Lay a straight board and a level, or read four heights from the floor.',
    {
      name: called,
      heights: { summary: 'Four heights, in order round the frame.' },
      width: { summary: 'Between the first corner and the second.' },
      depth: { summary: 'Between the second corner and the third.' },
    },
  ),
];
