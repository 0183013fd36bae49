/** Kinds of value as exponents, and their names in plain words. */
import type { ValueKind } from '../../grammar/vocabulary/pattern.js';
import type { UnitKind } from '../../grammar/vocabulary/units.js';
import type { HomeUnit } from './model.js';
import type { Dimension, Value } from './values.js';

const of = (length: number, angle = 0, mass = 0, force = 0, time = 0, money = 0): Dimension => ({
  length,
  angle,
  mass,
  force,
  time,
  money,
});

export const plain: Dimension = of(0);
export const length: Dimension = of(1);
export const angle: Dimension = of(0, 1);
export const area: Dimension = of(2);
const volume: Dimension = of(3);
const fourth: Dimension = of(4);
export const mass: Dimension = of(0, 0, 1);
const density: Dimension = of(-3, 0, 1);
const force: Dimension = of(0, 0, 0, 1);
export const stress: Dimension = of(-2, 0, 0, 1);
const stiffness: Dimension = of(-1, 0, 0, 1);
const moment: Dimension = of(1, 0, 0, 1);
export const time: Dimension = of(0, 0, 0, 0, 1);
export const money: Dimension = of(0, 0, 0, 0, 0, 1);
const curvature: Dimension = of(-1);

export const sameDimension = (a: Dimension, b: Dimension): boolean =>
  a === b ||
  (a.length === b.length && a.angle === b.angle && a.mass === b.mass && a.force === b.force && a.time === b.time && a.money === b.money);

export const isPlain = (d: Dimension): boolean => sameDimension(d, plain);

/** a · b^power. */
export const combine = (a: Dimension, b: Dimension, power: number): Dimension => {
  if (b === plain || power === 0) return a;
  const sum = of(
    a.length + b.length * power,
    a.angle + b.angle * power,
    a.mass + b.mass * power,
    a.force + b.force * power,
    a.time + b.time * power,
    a.money + b.money * power,
  );
  return isPlain(sum) ? plain : sum;
};

interface KindName {
  readonly dim: Dimension;
  readonly one: string;
  readonly many: string;
  /** How one would be written, for a cure. */
  readonly sample: string;
}
const kinds: Readonly<Record<string, KindName>> = {
  length: { dim: length, one: 'a length', many: 'lengths', sample: '3/4 in' },
  angle: { dim: angle, one: 'an angle', many: 'angles', sample: '90 deg' },
  area: { dim: area, one: 'an area', many: 'areas', sample: '100 mm2' },
  volume: { dim: volume, one: 'a volume', many: 'volumes', sample: '100 mm3' },
  fourth: { dim: fourth, one: 'a second moment of area', many: 'second moments of area', sample: '2 in4' },
  mass: { dim: mass, one: 'a mass', many: 'masses', sample: '2 kg' },
  density: { dim: density, one: 'a density', many: 'densities', sample: '7850 kg/m3' },
  force: { dim: force, one: 'a force', many: 'forces', sample: '200 N' },
  stress: { dim: stress, one: 'a stress', many: 'stresses', sample: '210 MPa' },
  stiffness: { dim: stiffness, one: 'a stiffness', many: 'stiffnesses', sample: '5 N/mm' },
  moment: { dim: moment, one: 'a moment', many: 'moments', sample: '20 Nm' },
  time: { dim: time, one: 'a time', many: 'times', sample: '10 min' },
  money: { dim: money, one: 'a price', many: 'prices', sample: '58' },
  curvature: { dim: curvature, one: 'a curvature', many: 'curvatures', sample: '1 / (2 in)' },
  number: { dim: plain, one: 'a plain number', many: 'plain numbers', sample: '2' },
};
const wanted: Readonly<Record<ValueKind, string | undefined>> = {
  any: undefined,
  length: 'length',
  angle: 'angle',
  area: 'area',
  volume: 'volume',
  mass: 'mass',
  density: 'density',
  force: 'force',
  stress: 'stress',
  stiffness: 'stiffness',
  time: 'time',
  money: 'money',
  ratio: 'number',
  count: 'number',
  number: 'number',
  point: undefined,
  condition: undefined,
  moment: 'moment',
  pressure: 'stress',
  heat: 'force',
  curvature: 'curvature',
};

/** The exponents a kind of value must have; undefined for points, conditions and `any`, which are no numbers. */
export const dimensionOf = (want: ValueKind): Dimension | undefined => {
  const kind = wanted[want];
  return kind === undefined ? undefined : kinds[kind]?.dim;
};
export const sampleOf = (want: ValueKind): string => kinds[wanted[want] ?? 'number']?.sample ?? '1';

/** "a length", for what an argument wants. */
export const wantedInWords = (want: ValueKind): string => {
  switch (want) {
    case 'count':
      return 'a whole number';
    case 'ratio':
      return 'a plain number or a percentage';
    case 'point':
      return 'a point, such as (3, 4)';
    case 'condition':
      return 'a condition, such as a <= b';
    case 'any':
      return 'a value';
    case 'heat':
      return 'a heat input, such as 0.5 kJ/mm';
    case 'pressure':
      return 'a pressure';
    default:
      return kinds[wanted[want] ?? 'number']?.one ?? 'a number';
  }
};

/** "a length", for a dimension at hand. */
export const dimensionInWords = (dim: Dimension): string => nameOf(dim)?.one ?? unnamed(dim);
export const dimensionsInWords = (dim: Dimension): string => nameOf(dim)?.many ?? unnamed(dim);
const nameOf = (dim: Dimension): KindName | undefined => Object.values(kinds).find((kind) => sameDimension(kind.dim, dim));

const unnamed = (dim: Dimension): string => {
  const base: readonly (readonly [number, string])[] = [
    [dim.length, 'mm'],
    [dim.angle, 'rad'],
    [dim.mass, 'kg'],
    [dim.force, 'N'],
    [dim.time, 's'],
    [dim.money, 'money'],
  ];
  const power = (n: number, unit: string): string => (n === 1 ? unit : `${unit}^${n}`);
  const over = base.filter(([n]) => n > 0).map(([n, unit]) => power(n, unit));
  const under = base.filter(([n]) => n < 0).map(([n, unit]) => power(-n, unit));
  return `a value in ${over.join('·') || '1'}${under.length > 0 ? `/${under.join('/')}` : ''}`;
};

/** "a length", "a point", "text", for messages. */
export const valueInWords = (value: Value): string => {
  switch (value.kind) {
    case 'number':
      return value.bare ? 'a number without a unit' : dimensionInWords(value.dim);
    case 'point':
      return 'a point';
    case 'text':
      return 'text';
    case 'yesno':
      return 'a yes or no';
    case 'unknown':
      return 'nothing';
  }
};

/** The unit a `units` line names; undefined for a word that is none. Inch: 25.4 mm exactly (international yard and pound agreement, 1959). */
export const homeUnit = (word: string): HomeUnit | undefined => {
  switch (word.toLowerCase()) {
    case 'in':
    case 'inch':
    case 'inches':
      return { name: 'inch', mm: 25.4 };
    case 'ft':
    case 'foot':
    case 'feet':
      return { name: 'foot', mm: 304.8 };
    case 'mm':
    case 'millimetre':
    case 'millimetres':
    case 'millimeter':
    case 'millimeters':
      return { name: 'millimetre', mm: 1 };
    case 'cm':
    case 'centimetre':
    case 'centimetres':
    case 'centimeter':
    case 'centimeters':
      return { name: 'centimetre', mm: 10 };
    case 'm':
    case 'metre':
    case 'metres':
    case 'meter':
    case 'meters':
      return { name: 'metre', mm: 1000 };
    default:
      return undefined;
  }
};
/** The short sign that goes with a home unit in text. */
export const unitSign = (unit: HomeUnit | undefined): string => {
  switch (unit?.name) {
    case 'inch':
      return 'in';
    case 'foot':
      return 'ft';
    case 'centimetre':
      return 'cm';
    case 'metre':
      return 'm';
    default:
      return 'mm';
  }
};

/** Exponents of a written unit. A gauge number is a length once a table has been asked. */
export const dimensionOfUnitKind = (kind: UnitKind): Dimension => {
  switch (kind) {
    case 'ratio':
      return plain;
    case 'gauge':
      return length;
    case 'turning':
      return moment;
    case 'heat':
      return force;
    default:
      return kinds[kind]?.dim ?? plain;
  }
};
