/** Sections of a brake's nose, bed and apron, as measured across it. */
import type { Statement } from '../../grammar/syntax.js';
import { itemsOf, pointOf, type Reader } from './arguments.js';
import type { XY } from './part.js';
import type { Brake } from './shop.js';

/** Points nearer than this are one, mm. */
const together = 0.001;

/** The profiles that can be had; one that crosses itself or encloses nothing is left out, and said. Closed: the last corner runs back to the first. */
export const readProfiles = (rows: ReadonlyMap<string, Statement>, reader: Reader): Pick<Brake, 'nose' | 'bed' | 'apron'> => {
  const nose = profileOf(rows.get('nose'), reader);
  const bed = profileOf(rows.get('bed'), reader);
  const apron = profileOf(rows.get('apron'), reader);
  return { ...(nose === undefined ? {} : { nose }), ...(bed === undefined ? {} : { bed }), ...(apron === undefined ? {} : { apron }) };
};

const profileOf = (row: Statement | undefined, reader: Reader): readonly XY[] | undefined => {
  if (row === undefined || row.broken) return undefined;
  const items = itemsOf(row.fields.points);
  const read = items.map((item) => pointOf(reader, item)?.at);
  const all = read.flatMap((point) => point ?? []);
  if (all.length !== items.length) return undefined;
  // Written closed or open, it is the same polygon.
  const points = all.filter((point, i) => !same(point, all[(i + all.length - 1) % all.length]) || all.length === 1);
  const word = row.word.name;
  const { report } = reader.reading.sink;
  if (points.length < 3) {
    report(
      row.fields.points?.span ?? row.span,
      'shape/profile-too-few',
      `A profile needs three corners or more that differ, and this has ${points.length}.`,
    );
    return undefined;
  }
  const crossing = crossingOf(points);
  if (crossing !== undefined) {
    const item = items[all.indexOf(points[crossing] as XY)];
    report(
      item?.span ?? row.span,
      'shape/profile-crosses-itself',
      `The ${word}’s profile crosses itself after this corner. Write its corners in order, going round the metal one way.`,
    );
    return undefined;
  }
  return points;
};

const same = (a: XY, b: XY | undefined): boolean => b !== undefined && Math.hypot(a.x - b.x, a.y - b.y) < together;

/** The first side that meets another one which is not its neighbour, or runs back over it; undefined where there is none. */
const crossingOf = (points: readonly XY[]): number | undefined => {
  const n = points.length;
  const at = (i: number): XY => points[i % n] as XY;
  for (let i = 0; i < n; i++) {
    const [a, b, c] = [at(i), at(i + 1), at(i + 2)];
    const turned = side(a, b, c);
    const back = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) < 0;
    if (Math.abs(turned) < together ** 2 && back) return i;
    for (let j = i + 2; j < n; j++) {
      if ((j + 1) % n === i) continue;
      if (meet(a, b, at(j), at(j + 1))) return i;
    }
  }
  return undefined;
};
/** Twice the area of a b c, positive when c lies left of a to b. */
const side = (a: XY, b: XY, c: XY): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
const meet = (a: XY, b: XY, c: XY, d: XY): boolean => {
  const [p, q, r, s] = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)];
  if (p === 0 && q === 0) {
    const along = (t: XY): number => (t.x - a.x) * (b.x - a.x) + (t.y - a.y) * (b.y - a.y);
    const [from, to] = [Math.min(along(c), along(d)), Math.max(along(c), along(d))];
    return to >= 0 && from <= along(b);
  }
  return p * q <= 0 && r * s <= 0;
};
