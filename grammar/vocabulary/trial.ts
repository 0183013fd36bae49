/** A test strip that was really bent or beaded, and what was measured on it. */

import type { ArgumentHelp, Pattern, StatementEntry } from './pattern.js';
import { angle, block, choice, count, length, list, name, newName, oneOf, option, optional, sequence, word } from './pattern.js';

const frame = `units millimetre
material mild_steel { density 7850 kg/m3 }
sheet crs_12 { material mild_steel  thickness 1.2  bend radius 1.2 trial strip_1 }
brake bench_leaf { leaf  length 1220  capacity 1.5 of mild_steel }
die half_round_10 { round  width 10  depth 3 }
`;
const bent = `${frame}
trial strip_1 {
  sheet crs_12
  strip 100 by 40
  grain across
  bent 93 radius 1.2 on bench_leaf
  measured legs 51.2, 51.1 to 0.1
  measured angle 90.5 to 0.5
}
`;
const beaded = `${frame.replace(' trial strip_1', ' k 0.42')}
trial strip_2 {
  sheet crs_12
  strip 200 by 150
  grain along
  beaded half_round_10 length 150 passes 2
  measured width 198.1 to 0.1
  measured depth 2.8 to 0.1
}
`;
const asked = `${frame.replace(' trial strip_1', ' k 0.42')}
panel tray {
  sheet crs_12
  outline rectangle 300 by 200
  edge top, bottom { flange 20 up }
  bead rib { die half_round_10  up  line from (60, 100) to (240, 100) }
}
trial tray_strips { for tray }
`;
const entry = (
  w: string,
  id: string,
  pattern: Pattern,
  summary: string,
  note: string,
  args: Readonly<Record<string, ArgumentHelp>>,
  example: string,
): StatementEntry => ({
  word: w,
  id,
  family: 'trial',
  places: [w === 'trial' ? 'file' : 'trial'],
  pattern,
  summary,
  note,
  example,
  arguments: args,
  computed: true,
});
const finest: Pattern = optional(word('to'), length('finest'));

export const trialStatements: readonly StatementEntry[] = [
  entry(
    'trial',
    'trial',
    sequence(newName('name', 'trial'), block('trial')),
    'A test strip, bent or beaded on your own machines and measured.',
    'The best allowance there is: cut a strip, bend it, measure both legs. What it gives beats every table for the same sheet, radius and angle. With `for PANEL` and nothing else it asks instead: the program says which strips to cut, roll and bend before that panel is cut.',
    { name: { summary: 'What you call the trial.' } },
    bent,
  ),
  entry(
    'for',
    'for@trial',
    name('panel', 'part'),
    'Asks for strips to try before this panel is cut.',
    'The program designs them: the same sheet, a strip for each of its dies, its tightest corner, its tightest bend. Hover over it for what to do and what to measure; its pattern has boxes for the measures. The quick fix puts a trial to fill in for each strip in its place.',
    { panel: { summary: 'The panel.' } },
    asked,
  ),
  entry(
    'strip',
    'strip',
    sequence(length('length'), optional(option('by', length('width'))), finest),
    'What was cut.',
    'Deburr it and measure it again before bending: its length is what everything is worked back from.',
    {
      length: { summary: 'Length, across the bend.' },
      width: { summary: 'Width, along the bend.', default: 'not told' },
      finest: { summary: 'The least step you could tell apart when you measured its length.', default: 'exact' },
    },
    bent,
  ),
  entry(
    'grain',
    'grain@trial',
    choice('way', 'across', 'along'),
    'How the grain lay.',
    '`across`: the bend or bead ran across the grain.',
    {
      way: { summary: 'The bend or bead ran `across` or `along` the grain.' },
    },
    bent,
  ),
  entry(
    'bent',
    'bent',
    sequence(angle('angle'), optional(option('radius', length('radius'))), optional(word('on'), name('brake', 'brake'))),
    'How it was bent.',
    'The angle is what the brake was set to; the angle left is written with `measured angle`.',
    {
      angle: { summary: 'How far the brake turned it.' },
      radius: { summary: 'Radius of the nose it was bent over.', default: 'the sheet’s own bend radius' },
      brake: { summary: 'The brake.', default: 'the only one of the shop' },
    },
    bent,
  ),
  entry(
    'beaded',
    'beaded',
    sequence(name('die', 'die'), optional(option('length', length('length'))), optional(word('passes'), count('passes'))),
    'How it was beaded.',
    'Run the bead right across the strip.',
    {
      die: { summary: 'The die.' },
      length: { summary: 'Length of the bead.', default: 'right across the strip' },
      passes: { summary: 'In how many passes.', default: '1' },
    },
    beaded,
  ),
  entry(
    'measured',
    'measured',
    oneOf(
      sequence(word('legs', 'what'), list('lengths', length('length')), finest),
      sequence(word('angle', 'what'), angle('angle'), optional(word('to'), angle('finestAngle'))),
      sequence(word('radius', 'what'), length('length'), finest),
      sequence(word('width', 'what'), length('length'), finest),
      sequence(word('length', 'what'), length('length'), finest),
      sequence(word('depth', 'what'), length('length'), finest),
    ),
    'What was measured afterwards, and how finely it was read.',
    'Measure legs from the outside of the bend: to the apex up to 90°, to the outermost of the bend beyond. Several equal bends the same way in one strip have a leg more than bends, and share out the error of measuring. How finely you read it says how far the answer can be trusted: each reading is taken to lie within half a step, and their effects are combined as the root of the sum of their squares.',
    {
      what: { summary: '`legs`, `angle`, `radius`, `width`, `length` or `depth`.' },
      lengths: { summary: 'The legs in order, from the outside.' },
      length: { summary: 'What was read.' },
      angle: { summary: 'Angle left, from flat.' },
      finest: { summary: 'The least step you could tell apart.', default: 'exact' },
      finestAngle: { summary: 'The least step you could tell apart.', default: 'exact' },
    },
    bent,
  ),
];
