/** What the bench owns: metals and sheets, and lengths of tube, bar, rod and angle. */

import type { StatementEntry, ValueKind } from './pattern.js';
import {
  anyOrder,
  block,
  choice,
  count,
  length,
  list,
  name,
  newName,
  oneOf,
  option,
  optional,
  sequence,
  text,
  value,
  word,
} from './pattern.js';

const metal = `units millimetre

material mild_steel {
  gauge table steel
  density 7850 kg/m3   yield 210 MPa   tensile 330 MPa   modulus 205 GPa
  elongation 34 %      hardening 0.20
  tightest radius 0 to thickness 1.5
  tightest radius 2 along to thickness 3
  coating "oiled"
}
`;
const sheets = `${metal}
sheet crs_12 {
  material mild_steel
  thickness 1.2
  size 1250 by 2500
  bend radius 1.2 k 0.42
  price 58
  stocked 3
  also 1000 by 2000 costing 38
  offcut 420 by 900
}
`;
const lengths = `${metal}
tube square_25 { material mild_steel  square 25  wall 1.5  length 6 m  price 21 }
tube round_20  { material mild_steel  round 20   wall 1.5  length 6 m }
bar flat_25    { material mild_steel  flat 25 by 5  length 6 m  stocked 2 }
rod pin_10     { material mild_steel  round 10  length 3 m }
angle angle_25 { material mild_steel  legs 25 by 25  thickness 3  length 6 m }
`;

const property = (w: string, want: ValueKind, summary: string, note: string): StatementEntry => ({
  word: w,
  id: w,
  family: 'shop',
  places: ['material'],
  pattern: value(w, want),
  summary,
  note,
  example: metal,
  arguments: { [w]: { summary } },
  computed: true,
});

const stock = (w: string, summary: string, note: string): StatementEntry => ({
  word: w,
  id: w,
  family: 'shop',
  places: ['file'],
  pattern: sequence(newName('name', 'stock'), block('stock')),
  summary,
  note,
  example: lengths,
  arguments: { name: { summary: 'What you call it.' } },
  computed: true,
});

export const shopStatements: readonly StatementEntry[] = [
  {
    word: 'material',
    id: 'material',
    family: 'shop',
    places: ['file'],
    pattern: sequence(newName('name', 'material'), block('material')),
    summary: 'Describes a metal: its gauge table, weight, strength and how tight it bends.',
    note: 'Figures come from the supplier’s certificate where you have one. What is left out is simply not worked out.',
    example: metal,
    arguments: { name: { summary: 'What you call the metal.' } },
    computed: true,
  },
  {
    word: 'gauge',
    id: 'gauge',
    family: 'shop',
    places: ['material'],
    pattern: sequence(word('table'), choice('table', 'steel', 'galvanised', 'stainless', 'brown and sharpe')),
    summary: 'Which table turns a gauge number into a thickness for this metal.',
    note: 'The same number is a different thickness in each table: 18 ga is 0.0478 in for plain steel and 0.0516 in galvanised (Manufacturers’ Standard Gauge and the galvanised sheet gauge). `brown and sharpe` is for aluminium, brass and copper.',
    example: metal,
    arguments: { table: { summary: '`steel`, `galvanised`, `stainless` or `brown and sharpe`.' } },
    computed: true,
  },
  property('density', 'density', 'Mass for its volume.', 'For the weight of parts and of a whole job.'),
  property('yield', 'stress', 'Stress at which it begins to stay bent.', 'Sets springback and what the brake can bend.'),
  property(
    'tensile',
    'stress',
    'Stress at which it breaks.',
    'Thickness limits of brakes and rollers for one metal are carried to another by strength.',
  ),
  property(
    'modulus',
    'stress',
    'How stiff the metal itself is (Young’s modulus).',
    'Nearly the same for all steels, about a third of that for aluminium; it decides springback and stiffness.',
  ),
  property(
    'elongation',
    'ratio',
    'How far it stretches before it breaks.',
    'As a share or in percent, from the certificate. Beads and tight bends are judged against it.',
  ),
  property(
    'hardening',
    'number',
    'How fast it hardens as it is worked (the exponent n).',
    'A metal that hardens quickly spreads the stretch of a bead better before it thins.',
  ),
  {
    word: 'tightest',
    id: 'tightest@material',
    family: 'shop',
    places: ['material'],
    pattern: sequence(
      word('radius'),
      length('radius'),
      optional(choice('way', 'across', 'along')),
      optional(word('to'), word('thickness'), length('thickness')),
    ),
    summary: 'The tightest inside radius this metal takes, by thickness and by the grain.',
    note: '`across`: the bend line runs across the grain, the kinder way. `along`: it runs with the grain and cracks sooner. Write one line for each thickness up to which a radius holds.',
    example: metal,
    arguments: {
      radius: { summary: 'Tightest inside radius.' },
      way: { summary: 'Bend line `across` or `along` the grain.', default: 'both' },
      thickness: { summary: 'Up to which thickness it holds.', default: 'every thickness' },
    },
    computed: true,
  },
  {
    word: 'alloy',
    id: 'alloy',
    family: 'shop',
    places: ['material'],
    pattern: text('alloy'),
    summary: 'Alloy and temper of an aluminium, as it stands on the sheet: "5052-H32".',
    note: 'Where no `tightest` line speaks, bends and hems are then held against the Aluminum Association’s table of bend radii. The temper matters more than the alloy: 5052-O folds flat on itself, 6061-T6 cracks.',
    example: 'units inch\n\nmaterial aluminium {\n  gauge table brown and sharpe\n  density 2680 kg/m3\n  alloy "5052-H32"\n}\n',
    arguments: { alloy: { summary: 'The alloy, a hyphen, the temper: "3003-H14", "5052-H32", "6061-T6".' } },
    computed: true,
  },
  {
    word: 'coating',
    id: 'coating',
    family: 'shop',
    places: ['material'],
    pattern: text('coating'),
    summary: 'What the sheet is coated with.',
    note: 'Zinc near a weld brings a caution onto the sheets: its fume makes you ill.',
    example: metal,
    arguments: { coating: { summary: 'In plain words: "zinc", "oiled", "primed".' } },
    computed: true,
  },
  {
    word: 'sheet',
    id: 'sheet',
    family: 'shop',
    places: ['file'],
    pattern: sequence(newName('name', 'sheet'), block('sheet')),
    summary: 'Describes a sheet you buy: metal, thickness, size, and how it bends.',
    note: 'Name it as it stands in the rack. The same metal in two thicknesses is two sheets.',
    example: sheets,
    arguments: { name: { summary: 'What you call the sheet.' } },
    computed: true,
  },
  {
    word: 'material',
    id: 'material@sheet',
    family: 'shop',
    places: ['sheet', 'stock'],
    pattern: name('material', 'material'),
    summary: 'The metal this is made of.',
    note: 'Gauge numbers are read by this metal’s table, weight and strength come from it.',
    example: sheets,
    arguments: { material: { summary: 'A metal described with `material`.' } },
    computed: true,
  },
  {
    word: 'thickness',
    id: 'thickness',
    family: 'shop',
    places: ['sheet', 'stock'],
    pattern: length('thickness'),
    summary: 'How thick it is.',
    note: 'A gauge number is read by the metal’s own table. Measure a sheet that matters: the mill’s tolerance is a good part of the last digit.',
    example: sheets,
    arguments: { thickness: { summary: 'As a length, or a gauge number: `18 ga`.' } },
    computed: true,
  },
  {
    word: 'size',
    id: 'size',
    family: 'shop',
    places: ['sheet'],
    pattern: sequence(length('width'), option('by', length('height'))),
    summary: 'Size of the whole sheet as bought.',
    note: 'The second size runs with the grain on most sheets. A blank larger than the sheet is reported.',
    example: sheets,
    arguments: { width: { summary: 'Across the grain.' }, height: { summary: 'Along the grain.' } },
    computed: true,
  },
  {
    word: 'price',
    id: 'price',
    family: 'shop',
    places: ['sheet', 'stock'],
    pattern: value('price', 'money'),
    summary: 'What one costs.',
    note: 'For the bill of materials. A plain number; `currency` gives the sign.',
    example: sheets,
    arguments: { price: { summary: 'For one whole sheet or length.' } },
    computed: true,
  },
  {
    word: 'stocked',
    id: 'stocked',
    family: 'shop',
    places: ['sheet', 'stock'],
    pattern: count('count'),
    summary: 'How many you have.',
    note: 'What is at hand is used first; the rest is put on the list to buy.',
    example: sheets,
    arguments: { count: { summary: 'Whole ones at hand.' } },
    computed: true,
  },
  {
    word: 'also',
    id: 'also',
    family: 'shop',
    places: ['sheet'],
    pattern: sequence(
      length('width'),
      option('by', length('height')),
      anyOrder(option('costing', value('price', 'money')), option('times', count('count'))),
    ),
    summary: 'A further size it is sold in.',
    note: 'The plan of cutting takes whichever size costs least for the parts at hand.',
    example: sheets,
    arguments: {
      width: { summary: 'Across the grain.' },
      height: { summary: 'Along the grain.' },
      price: { summary: 'For one sheet of this size.' },
      count: { summary: 'Whole ones of this size at hand.' },
    },
    computed: true,
  },
  {
    word: 'offcut',
    id: 'offcut',
    family: 'shop',
    places: ['sheet', 'stock'],
    pattern: sequence(length('width'), optional(word('by'), length('height')), optional(word('times'), count('count'))),
    summary: 'A remnant at hand.',
    note: 'Remnants are used before anything is bought. Of a sheet write both sizes, the second along the grain; of a length, how long it is.',
    example: `${sheets}tube rail_25 { material mild_steel  square 25  wall 1.5  length 6 m  offcut 1450 times 2 }\n`,
    arguments: {
      width: { summary: 'Across the grain; of tube or bar, its length.' },
      height: { summary: 'Along the grain.', default: 'none, for a length' },
      count: { summary: 'How many alike.', default: '1' },
    },
    computed: true,
  },
  {
    word: 'bend',
    id: 'bend@sheet',
    family: 'shop',
    places: ['sheet'],
    pattern: sequence(
      option('radius', length('radius')),
      optional(
        oneOf(
          sequence(word('k', 'method'), value('k', 'number')),
          word('din', 'method'),
          sequence(word('handbook', 'method'), choice('temper', 'soft', 'half hard', 'hard')),
          word('aircraft', 'method'),
          sequence(word('trial', 'method'), list('trial', name('trial', 'trial'))),
        ),
      ),
    ),
    summary: 'The inside radius this sheet bends to on your brake, and how bend allowance is reckoned.',
    note: '`k` places the neutral line as a share of the thickness from the inside. `din` follows DIN 6935, `handbook` the straight-line formulas by temper, `aircraft` the per-degree formula of the aircraft handbooks (FAA-H-8083-31). A `trial` in sight that was bent from this sheet beats all of them, and need not be named here; named, it is these trials that count and no others. Between several, K is taken in proportion to angle and radius; outside what was tried the nearest is taken and the bend says so.',
    example: sheets,
    arguments: {
      radius: { summary: 'Inside radius of an ordinary bend in this sheet.' },
      method: {
        summary: 'How allowance is reckoned: `k`, `din`, `handbook`, `aircraft` or `trial`.',
        default: 'a trial of this sheet in sight; without one it must be said',
      },
      k: { summary: 'Where the neutral line lies, from the inside, as a share of the thickness: 0 to 0.5.' },
      temper: { summary: '`soft`, `half hard` or `hard`.' },
      trial: { summary: 'One `trial` or several that were bent from this sheet.' },
    },
    computed: true,
  },
  stock(
    'tube',
    'Describes a tube you buy, round, square or rectangular.',
    'Give the outside size and the wall. A cope is drawn from the outside, so the wall matters only where tubes are pushed into one another.',
  ),
  stock('bar', 'Describes flat or square bar.', 'For straps, hinge plates and stiffeners.'),
  stock('rod', 'Describes round rod.', 'For pins and wired edges; the size is the diameter.'),
  stock('angle', 'Describes rolled angle.', 'Bought angle has a round inside root; a plate inside it needs its corner taken off.'),
  {
    word: 'round',
    id: 'round@stock',
    family: 'shop',
    places: ['stock'],
    pattern: length('diameter'),
    summary: 'Round, of this outside diameter.',
    note: 'Pipe is named by its bore; measure it and write what the calliper says.',
    example: lengths,
    arguments: { diameter: { summary: 'Outside diameter.' } },
    computed: true,
  },
  {
    word: 'square',
    id: 'square@stock',
    family: 'shop',
    places: ['stock'],
    pattern: length('side'),
    summary: 'Square, of this outside size.',
    note: 'Its corners are rounded by about twice the wall.',
    example: lengths,
    arguments: { side: { summary: 'Outside, across the flats.' } },
    computed: true,
  },
  {
    word: 'rectangle',
    id: 'rectangle@stock',
    family: 'shop',
    places: ['stock'],
    pattern: sequence(length('width'), option('by', length('height'))),
    summary: 'Rectangular tube, of these outside sizes.',
    note: 'The greater size first, as it is sold.',
    example: `${metal}\ntube rail_40 { material mild_steel  rectangle 40 by 20  wall 1.5  length 6 m }\n`,
    arguments: { width: { summary: 'The greater outside size.' }, height: { summary: 'The lesser outside size.' } },
    computed: true,
  },
  {
    word: 'flat',
    id: 'flat@stock',
    family: 'shop',
    places: ['stock'],
    pattern: sequence(length('width'), option('by', length('thickness'))),
    summary: 'Flat bar, width by thickness.',
    note: 'A strap wrapped round a pin is bent the easy way, about the thickness.',
    example: lengths,
    arguments: { width: { summary: 'Width.' }, thickness: { summary: 'Thickness.' } },
    computed: true,
  },
  {
    word: 'legs',
    id: 'legs',
    family: 'shop',
    places: ['stock'],
    pattern: sequence(length('first'), option('by', length('second'))),
    summary: 'Outside sizes of the two legs of an angle.',
    note: 'Write `thickness` beside it.',
    example: lengths,
    arguments: { first: { summary: 'One leg, outside.' }, second: { summary: 'The other leg, outside.' } },
    computed: true,
  },
  {
    word: 'wall',
    id: 'wall',
    family: 'shop',
    places: ['stock'],
    pattern: length('wall'),
    summary: 'Thickness of the tube’s wall.',
    note: 'A thin wall kinks in a bend that a thick one takes.',
    example: lengths,
    arguments: { wall: { summary: 'Wall thickness.' } },
    computed: true,
  },
  {
    word: 'length',
    id: 'length@stock',
    family: 'shop',
    places: ['stock'],
    pattern: length('length'),
    summary: 'The length it is sold in.',
    note: 'The cutting list is laid out on lengths of this size.',
    example: lengths,
    arguments: { length: { summary: 'One whole length.' } },
    computed: true,
  },
];
