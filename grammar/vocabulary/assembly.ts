/** Parts put together: placed, joined, hung, squared and welded. */

import type { ArgumentHelp, Pattern, StatementEntry } from './pattern.js';
import { angle, anyOrder, block, count, length, list, name, newName, oneOf, option, optional, point, sequence, word } from './pattern.js';

const trike = `units inch
material mild_steel { density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 0.048  bend radius 1/16 k 0.42 }
welder small_welder { process wire  heat 4 kJ/in }

panel floor { sheet crs_18  outline rectangle 36 by 24  edge top, bottom, left, right { flange 1 down } }
panel gate  { sheet crs_18  outline rectangle 36 by 11  edge bottom { flange 1 down }  hole 9/32 at (1, 2) }

assembly cargo_bed {
  place floor at (0, 0)
  place gate as rear_gate at (0, 24) height 1 turned 90 about x
  join rear_gate.bottom to floor.top gap 1/16
  hinge gate_hinge carries rear_gate on floor pin (24, 1) opens 110 least 1/32
  align rear_gate.hole.1 to floor within 1/32
  clear rear_gate from floor by 1/16
  squared floor diagonals 43 1/4, 43 1/4
  weld floor.left to floor.bottom using small_welder stitch 1 every 4
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
  id: w,
  family: 'assembly',
  places: [w === 'assembly' ? 'file' : 'assembly'],
  pattern,
  summary,
  note,
  example: trike,
  arguments: args,
  computed: false,
});
const a: ArgumentHelp = { summary: 'The first part, or an edge or hole of it: `gate.bottom`.' };
const b: ArgumentHelp = { summary: 'The other part, or an edge or hole of it.' };
const fromTo: Pattern = sequence(name('a', 'place'), word('to'), name('b', 'place'));

export const assemblyStatements: readonly StatementEntry[] = [
  entry(
    'assembly',
    sequence(newName('name', 'part'), block('assembly')),
    'Parts put together, to see that they fit.',
    'Clearances, holes that must meet, swing of doors, and the order of welding come from it.',
    {
      name: { summary: 'What the assembly is called.' },
    },
  ),
  entry(
    'place',
    sequence(
      name('part', 'part'),
      optional(word('as'), newName('as', 'place')),
      option('at', point('at')),
      anyOrder(
        option('height', length('height')),
        sequence(
          word('turned'),
          angle('turned'),
          optional(word('about'), oneOf(word('x', 'about'), word('y', 'about'), word('z', 'about'))),
        ),
      ),
    ),
    'Puts a part where its corner (0, 0) stands.',
    'Place one part, then join the others to it.',
    {
      part: { summary: 'The part.' },
      as: { summary: 'A name for this one, when a part is used more than once.', default: 'the part’s own name' },
      at: { summary: 'Where its (0, 0) stands, in x and y.' },
      height: { summary: 'Where its face stands, along z.', default: '0' },
      turned: { summary: 'Turned about its own (0, 0).', default: '0°' },
      about: { summary: 'The direction it is turned about.', default: 'z' },
    },
  ),
  entry(
    'join',
    sequence(fromTo, anyOrder(option('gap', length('gap')), option('turned', angle('turned')))),
    'Lays an edge of one part against an edge of another.',
    'The lengths that meet are compared.',
    {
      a,
      b,
      gap: { summary: 'Gap left between them.', default: 'none' },
      turned: { summary: 'Angle between the two faces.', default: 'they lie in one plane' },
    },
  ),
  entry(
    'hinge',
    sequence(
      newName('name', 'place'),
      option('carries', name('door', 'place')),
      option('on', name('fixed', 'place')),
      option('pin', point('pin')),
      option('opens', angle('opens')),
      optional(word('least'), length('least')),
    ),
    'A door that swings about a pin.',
    'Shows at which angle and corner the door first touches, and how far out the pin must stand to open freely.',
    {
      name: { summary: 'What you call it.' },
      door: { summary: 'The part that swings.' },
      fixed: { summary: 'The part it hangs on.' },
      pin: { summary: 'Centre of the pin, seen along the pin.' },
      opens: { summary: 'How far it has to open.' },
      least: { summary: 'Least gap while it swings.', default: 'it may just touch' },
    },
  ),
  entry(
    'align',
    sequence(fromTo, optional(word('within'), length('within'))),
    'Holes that must meet.',
    'Punch the first, clamp, and drill the other through it where the sum of errors is too great.',
    {
      a,
      b,
      within: { summary: 'How far the centres may differ.', default: 'the play of the bolt in its holes' },
    },
  ),
  entry(
    'clear',
    sequence(name('a', 'place'), option('from', name('b', 'place')), option('by', length('by'))),
    'Parts that must not touch.',
    'A tyre grows and mud builds up: leave more than the drawing needs.',
    {
      a,
      b,
      by: { summary: 'Least clearance.' },
    },
  ),
  entry(
    'squared',
    sequence(name('part', 'place'), option('diagonals', list('diagonals', length('diagonal'), 2))),
    'Diagonals to check before welding out.',
    'Equal diagonals make square only when opposite sides are equal too.',
    {
      part: { summary: 'The part or frame.' },
      diagonals: { summary: 'Both diagonals.' },
    },
  ),
  entry(
    'weld',
    sequence(
      fromTo,
      optional(word('using'), name('welder', 'welder')),
      oneOf(
        word('seam', 'style'),
        sequence(word('stitch', 'style'), length('length'), option('every', length('every'))),
        sequence(word('tack', 'style'), option('every', length('every'))),
        sequence(word('spot', 'style'), option('every', length('every'))),
        sequence(word('plug', 'style'), length('diameter'), option('count', count('count'))),
      ),
    ),
    'A weld between two parts: full seam, stitches, tacks, spots or plugs.',
    'Stitches are put in an order that spreads the heat. Grind zinc and paint away first.',
    {
      a,
      b,
      welder: { summary: 'The welding set.', default: 'the only one of the shop' },
      style: { summary: '`seam`, `stitch`, `tack`, `spot` or `plug`.' },
      length: { summary: 'Length of each stitch.' },
      every: { summary: 'From centre to centre.' },
      diameter: { summary: 'Diameter of the plug holes.' },
      count: { summary: 'How many plugs.' },
    },
  ),
];
