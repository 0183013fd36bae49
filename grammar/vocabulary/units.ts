/** Every unit and every word with two spellings: the one source for the lexer, the model, completion and the reference. */

export type UnitKind =
  | 'length'
  | 'angle'
  | 'area'
  | 'volume'
  | 'fourth'
  | 'mass'
  | 'density'
  | 'force'
  | 'stress'
  | 'stiffness'
  | 'turning'
  | 'heat'
  | 'time'
  | 'ratio'
  | 'gauge';

/** Exponents, in the order mm, rad, kg, N, s, money. */
export interface UnitDimension {
  readonly length: number;
  readonly angle: number;
  readonly mass: number;
  readonly force: number;
  readonly time: number;
  readonly money: number;
}

export interface UnitEntry {
  /** Canonical name, as the syntax tree carries it. */
  readonly name: string;
  /** Every way it may be written, the canonical name first. */
  readonly spellings: readonly string[];
  readonly kind: UnitKind;
  /** Times this gives the base of its kind (`unitKinds`); nothing for a gauge number, which needs a table. */
  readonly factor: number | undefined;
  /** Times this gives mm, rad, kg, N and s multiplied out; differs from `factor` for a density (kg/mm³) and a heat (N·mm/mm) only. */
  readonly coherent: number | undefined;
}

export interface UnitKindEntry {
  readonly base: string;
  readonly words: string;
  readonly dimension: UnitDimension;
}

const none: UnitDimension = { length: 0, angle: 0, mass: 0, force: 0, time: 0, money: 0 };

export const unitKinds: Readonly<Record<UnitKind, UnitKindEntry>> = {
  length: { base: 'mm', words: 'length', dimension: { ...none, length: 1 } },
  angle: { base: 'rad', words: 'angle', dimension: { ...none, angle: 1 } },
  area: { base: 'mm2', words: 'area', dimension: { ...none, length: 2 } },
  volume: { base: 'mm3', words: 'volume', dimension: { ...none, length: 3 } },
  fourth: { base: 'mm4', words: 'second moment of area', dimension: { ...none, length: 4 } },
  mass: { base: 'kg', words: 'mass', dimension: { ...none, mass: 1 } },
  density: { base: 'kg/m3', words: 'density', dimension: { ...none, mass: 1, length: -3 } },
  force: { base: 'N', words: 'force', dimension: { ...none, force: 1 } },
  stress: { base: 'MPa', words: 'stress or pressure', dimension: { ...none, force: 1, length: -2 } },
  stiffness: { base: 'N/mm', words: 'stiffness', dimension: { ...none, force: 1, length: -1 } },
  turning: { base: 'N*mm', words: 'turning moment or energy', dimension: { ...none, force: 1, length: 1 } },
  heat: { base: 'kJ/mm', words: 'heat put into a weld', dimension: { ...none, force: 1 } },
  time: { base: 's', words: 'time', dimension: { ...none, time: 1 } },
  ratio: { base: '1', words: 'share', dimension: none },
  gauge: { base: 'mm', words: 'gauge number', dimension: { ...none, length: 1 } },
};

/* Exact by definition: 1 in = 25.4 mm, 1 lb = 0.45359237 kg (1959 yard and pound agreement; NIST SP 811 appendix B),
   standard gravity 9.80665 m/s² (3rd CGPM, 1901). */
const inch = 25.4;
const foot = 12 * inch;
const pound = 0.45359237;
const poundForce = pound * 9.80665;

const unit = (kind: UnitKind, factor: number, name: string, ...also: readonly string[]): UnitEntry => ({
  name,
  spellings: [name, ...also],
  kind,
  factor,
  coherent: kind === 'density' ? factor * 1e-9 : kind === 'heat' ? factor * 1e6 : factor,
});

export const units: readonly UnitEntry[] = [
  unit('length', 1, 'mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'),
  unit('length', 10, 'cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'),
  unit('length', 1000, 'm', 'metre', 'metres', 'meter', 'meters'),
  unit('length', inch, 'in', 'inch', 'inches', '"', '″', '”'),
  unit('length', foot, 'ft', 'foot', 'feet', "'", '′', '’'),
  unit('length', inch / 1000, 'thou'),
  { name: 'ga', spellings: ['ga'], kind: 'gauge', factor: undefined, coherent: undefined },
  unit('angle', Math.PI / 180, 'deg', '°', 'degree', 'degrees'),
  unit('angle', 1, 'rad', 'radian', 'radians'),
  unit('area', 1, 'mm2', 'mm²'),
  unit('area', 100, 'cm2', 'cm²'),
  unit('area', 1e6, 'm2', 'm²'),
  unit('area', inch ** 2, 'in2', 'in²'),
  unit('area', foot ** 2, 'ft2', 'ft²'),
  unit('volume', 1, 'mm3', 'mm³'),
  unit('volume', 1000, 'cm3', 'cm³'),
  unit('volume', 1e9, 'm3', 'm³'),
  unit('volume', inch ** 3, 'in3', 'in³'),
  unit('volume', foot ** 3, 'ft3', 'ft³'),
  unit('fourth', 1, 'mm4', 'mm⁴'),
  unit('fourth', 1e4, 'cm4', 'cm⁴'),
  unit('fourth', inch ** 4, 'in4', 'in⁴'),
  unit('mass', 0.001, 'g', 'gram', 'grams'),
  unit('mass', 1, 'kg', 'kilogram', 'kilograms'),
  unit('mass', pound / 16, 'oz', 'ounce', 'ounces'),
  unit('mass', pound, 'lb', 'lbs'),
  unit('density', 1, 'kg/m3', 'kg/m³'),
  unit('density', 1000, 'g/cm3', 'g/cm³'),
  unit('density', pound / (inch / 1000) ** 3, 'lb/in3', 'lb/in³'),
  unit('density', pound / (foot / 1000) ** 3, 'lb/ft3', 'lb/ft³'),
  unit('force', 1, 'N', 'newton', 'newtons'),
  unit('force', 1000, 'kN'),
  unit('force', poundForce, 'lbf'),
  unit('stress', 1e-6, 'Pa', 'N/m2', 'N/m²'),
  unit('stress', 1e-3, 'kPa'),
  unit('stress', 1, 'MPa', 'N/mm2', 'N/mm²'),
  unit('stress', 1000, 'GPa'),
  unit('stress', poundForce / inch ** 2, 'psi', 'lbf/in2', 'lbf/in²'),
  unit('stress', (1000 * poundForce) / inch ** 2, 'ksi'),
  unit('stress', poundForce / foot ** 2, 'lbf/ft2', 'lbf/ft²'),
  unit('stiffness', 1, 'N/mm'),
  unit('stiffness', 0.001, 'N/m'),
  unit('stiffness', 1, 'kN/m'),
  unit('stiffness', poundForce / inch, 'lbf/in'),
  unit('turning', 1, 'Nmm'),
  unit('turning', 1000, 'Nm'),
  unit('turning', 1000, 'J'),
  unit('turning', 1e6, 'kJ'),
  unit('heat', 1, 'kJ/mm'),
  unit('heat', 0.001, 'J/mm'),
  unit('heat', 1 / inch, 'kJ/in'),
  unit('time', 1, 's', 'second', 'seconds'),
  unit('time', 60, 'min', 'minute', 'minutes'),
  unit('time', 3600, 'h', 'hour', 'hours'),
  unit('ratio', 0.01, '%', 'percent'),
];

/** Unit by its spelling, exactly as written (`MPa` and `mpa` differ); nothing when there is no such unit. */
export const unitOf = (written: string): UnitEntry | undefined => units.find((entry) => entry.spellings.includes(written));

/** Words with more than one spelling: what may be written, and the word the tables use. */
export const wordSpellings: Readonly<Record<string, string>> = {
  in: 'inch',
  inches: 'inch',
  mm: 'millimetre',
  millimetres: 'millimetre',
  millimeter: 'millimetre',
  millimeters: 'millimetre',
  miter: 'mitre',
  mitered: 'mitred',
  gage: 'gauge',
  aluminum: 'aluminium',
  galvanized: 'galvanised',
  center: 'centre',
};

/** The tables' own spelling of a word. Look for the word as written first: `in` is a word of its own after `arc`. */
export const tableSpelling = (written: string): string =>
  Object.hasOwn(wordSpellings, written) ? (wordSpellings[written] as string) : written;

/** Words that are words everywhere and never names. */
export const reservedWords: readonly string[] = [
  'let',
  'units',
  'with',
  'check',
  'note',
  'panel',
  'section',
  'piece',
  'strap',
  'survey',
  'assembly',
  'repeat',
  'opposite',
  'and',
  'or',
  'not',
  'yes',
  'no',
];
