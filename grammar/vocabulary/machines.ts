/** The machines and tools of the bench. */

import type { NameKind, Pattern, StatementEntry } from './pattern.js';
import { angle, block, choice, length, list, name, newName, option, sequence, value, word } from './pattern.js';

const metal = `units millimetre
material mild_steel { density 7850 kg/m3  yield 210 MPa  tensile 330 MPa }
`;
const bench = `${metal}
brake bench_leaf {
  leaf
  length 1220
  capacity 1.5 of mild_steel
  least flange 10
  greatest turn 135
  jaw 40
}
brake box_brake {
  fingers 25, 50, 75, 100, 150, 200
  length 600
  depth 100
  nose (0, 0), (-30, 40), (-30, 100), (-60, 100), (-60, 0)
  bed (0, 0), (0, -80), (-60, -80), (-60, 0)
  apron (0, 0), (60, 0), (60, -12), (0, -12)
}
`;
const roller = `${metal}
roller hand_roller { throat 450  thickest 1.5 of mild_steel  arm 60 }
`;
const dies = `units millimetre
die half_round_10 { round  width 10  depth 3  tightest turn 20  per pass 1.5 }
die vee_8  { vee  width 8  depth 2  nose 1 }
die flat_20 { flat  width 20  depth 2  shoulder 2 }
die step_1 { step  depth 1.2  nose 2 }
die tip_6  { tipping  width 6 }
`;
const tools = `units millimetre
saw cold_saw { kerf 2 }
welder small_welder { process wire  heat 0.15 kJ/mm }
spot_welder tongs { tip 5  throat 150 }
`;

const machine = (w: string, of: NameKind, computed: boolean, summary: string, note: string, example: string): StatementEntry => ({
  word: w,
  id: w,
  family: 'shop',
  places: ['file'],
  pattern: sequence(newName('name', of), block(w)),
  summary,
  note,
  example,
  arguments: { name: { summary: 'What you call it.' } },
  computed,
});

const setting = (
  place: string,
  w: string,
  pattern: Pattern,
  args: Readonly<Record<string, string>>,
  computed: boolean,
  summary: string,
  note: string,
  example: string,
): StatementEntry => ({
  word: w,
  id: `${w}@${place}`,
  family: 'shop',
  places: [place],
  pattern,
  summary,
  note,
  example,
  arguments: Object.fromEntries(Object.entries(args).map(([field, words]) => [field, { summary: words }])),
  computed,
});

const thicknessOf: Pattern = sequence(length('thickness'), word('of'), name('material', 'material'));
const thicknessArgs = { thickness: 'The thickest, as a length or gauge number.', material: 'The metal it is said for.' };
const points: Pattern = list('points', value('point', 'point'), 3);
const profile = (w: string, what: string): StatementEntry =>
  setting(
    'brake',
    w,
    points,
    { points: 'Corners in order, three or more.' },
    true,
    `Shape of the ${what}, in section across the brake.`,
    'The origin is where the nose meets the bed at the bend line, x toward the operator, y straight up. Measure it with a square; the plan uses it to see what the work hits.',
    bench,
  );

export const machineStatements: readonly StatementEntry[] = [
  machine(
    'brake',
    'brake',
    true,
    'Describes a folding brake: a leaf brake, or one with fingers.',
    'Every bend is judged against it: length, thickness, the least flange it grips. Write what the plate on the machine says, then what you have found out since.',
    bench,
  ),
  setting(
    'brake',
    'leaf',
    sequence(),
    {},
    true,
    'One unbroken clamping leaf.',
    'It cannot bend the last sides of a box; fingers can.',
    bench,
  ),
  setting(
    'brake',
    'fingers',
    list('widths', length('width')),
    { widths: 'Width of each finger you have.' },
    true,
    'The clamp is made of fingers of these widths.',
    'They are chosen to fill the space between flanges that already stand.',
    bench,
  ),
  setting(
    'brake',
    'length',
    length('length'),
    { length: 'Longest bend.' },
    true,
    'Longest bend it takes.',
    'Between the side frames.',
    bench,
  ),
  setting(
    'brake',
    'capacity',
    thicknessOf,
    thicknessArgs,
    true,
    'The thickest sheet it bends over its whole length.',
    'On shorter bends, and in softer metal, it takes more.',
    bench,
  ),
  setting(
    'brake',
    'least',
    option('flange', length('flange')),
    { flange: 'The shortest flange, finished.' },
    true,
    'The shortest flange it can turn.',
    'Shorter, and the apron slips off or the clamp cannot hold it.',
    bench,
  ),
  setting(
    'brake',
    'greatest',
    option('turn', angle('turn')),
    { turn: 'How far from flat.' },
    true,
    'How far it can turn a bend.',
    'Remember springback: to be left with 90° it must go past it.',
    bench,
  ),
  setting(
    'brake',
    'jaw',
    length('jaw'),
    { jaw: 'Greatest opening.' },
    true,
    'How far the clamp lifts.',
    'A return flange has to pass through it.',
    bench,
  ),
  setting(
    'brake',
    'depth',
    length('depth'),
    { depth: 'From the bend line up.' },
    true,
    'How deep a box the fingers clear.',
    'The height of a side that already stands.',
    bench,
  ),
  profile('nose', 'clamp’s nose'),
  profile('bed', 'bed'),
  profile('apron', 'apron'),
  machine('roller', 'roller', true, 'Describes a bead roller.', 'Its throat decides how far from an edge a bead can lie.', roller),
  setting(
    'roller',
    'throat',
    length('throat'),
    { throat: 'From the die’s middle to the frame.' },
    true,
    'How deep it reaches in from an edge.',
    'Measure from the middle of the die to the frame.',
    roller,
  ),
  setting('roller', 'thickest', thicknessOf, thicknessArgs, true, 'The thickest sheet it beads.', 'In harder metal it takes less.', roller),
  setting(
    'roller',
    'arm',
    length('arm'),
    { arm: 'Width along the shafts’ frame.' },
    true,
    'How wide the frame is behind the dies.',
    'A flange that already stands has to clear it.',
    roller,
  ),
  machine('die', 'die', true, 'Describes a pair of rolls: their shape and size.', 'Name them by what they leave in the sheet.', dies),
  ...(
    [
      ['round', 'Leaves a half-round bead.', 'The kindest to the metal, and the commonest.'],
      ['vee', 'Leaves a sharp bead.', 'Stiff for its width, but strains the sheet most at the nose.'],
      ['flat', 'Leaves a bead with a flat top.', 'For a rib something is to sit on.'],
      ['step', 'Sets one side of the line off by a step.', 'Two tracks of it, the second with the rolls turned over, make a band.'],
      ['tipping', 'Turns up an edge, straight or curved.', 'On a curve the tipped metal must stretch or shrink, so keep it narrow.'],
    ] as const
  ).map(([w, summary, note]) => setting('die', w, sequence(), {}, true, summary, note, dies)),
  setting(
    'die',
    'width',
    length('width'),
    { width: 'Over the whole bead.' },
    true,
    'Width of the bead it leaves.',
    'Between the feet where the sheet is flat again.',
    dies,
  ),
  setting(
    'die',
    'depth',
    length('depth'),
    { depth: 'At full depth.' },
    true,
    'Depth of the bead when rolled home.',
    'From the flat of the sheet to the crown, on one side.',
    dies,
  ),
  setting(
    'die',
    'nose',
    length('nose'),
    { nose: 'Radius of the crown.' },
    true,
    'Radius of the die’s nose.',
    'A sharper nose strains the sheet more.',
    dies,
  ),
  setting(
    'die',
    'shoulder',
    length('shoulder'),
    { shoulder: 'Radius at the feet.' },
    true,
    'Radius where the bead runs out into the flat.',
    'A sharp shoulder marks the sheet.',
    dies,
  ),
  setting(
    'die',
    'tightest',
    option('turn', length('turn')),
    { turn: 'Radius of the bead’s middle.' },
    true,
    'The tightest turn the sheet can be steered through.',
    'Tighter turns are finished by hand over a rod.',
    dies,
  ),
  setting(
    'die',
    'per',
    option('pass', length('depth')),
    { depth: 'How much deeper each time.' },
    true,
    'How much deeper each pass may go.',
    'Greedy passes wrinkle the sheet beside the bead.',
    dies,
  ),
  machine('saw', 'saw', true, 'Describes a saw.', 'Its kerf is lost at every cut of the cutting list.', tools),
  setting(
    'saw',
    'kerf',
    length('kerf'),
    { kerf: 'Width of the cut.' },
    true,
    'Width of metal lost in one cut.',
    'Measure a cut, not the blade.',
    tools,
  ),
  machine('welder', 'welder', false, 'Describes a welding set.', 'Its heat decides how much a seam pulls.', tools),
  setting(
    'welder',
    'process',
    choice('process', 'wire', 'stick', 'tungsten', 'gas', 'braze'),
    { process: '`wire` (gas-shielded), `stick` (covered electrodes), `tungsten` (inert gas), `gas` (oxygen and acetylene) or `braze`.' },
    false,
    'How it welds.',
    'Thin sheet wants little heat and short stitches.',
    tools,
  ),
  setting(
    'welder',
    'heat',
    value('heat', 'heat'),
    { heat: 'Energy for each length of seam.' },
    false,
    'Heat put in along the seam.',
    'Volts times amperes over travel speed.',
    tools,
  ),
  machine('spot_welder', 'welder', false, 'Describes a spot welder.', 'Its reach decides where two sheets can be spotted.', tools),
  setting(
    'spot_welder',
    'tip',
    length('tip'),
    { tip: 'Diameter of the tips’ faces.' },
    false,
    'Diameter of the tips.',
    'Dressed tips make a spot of about this size.',
    tools,
  ),
  setting(
    'spot_welder',
    'throat',
    length('throat'),
    { throat: 'From the tips to the frame.' },
    false,
    'How deep it reaches in from an edge.',
    'Measure from the tips to the frame.',
    tools,
  ),
];
