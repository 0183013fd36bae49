/** What to cut, do and measure on the strips of a coupon, in words: for hovers, findings and drawings alike. */
import { sayAngle, sayLength, sayLengthBare } from '../model/display.js';
import type { HomeUnit } from '../model/model.js';
import type { Coupon, CouponBox, CouponPiece, CutStep } from './coupon.js';

export interface CouponWords {
  readonly unit: HomeUnit | undefined;
  readonly denominator?: number;
}

/** Strips of an inch file are cut to quarters of an inch, others to 5 mm. */
export const cutStepOf = (unit: HomeUnit | undefined): CutStep => (unit?.name === 'inch' || unit?.name === 'foot' ? 6.35 : 5);

const say = (mm: number, { unit, denominator }: CouponWords): string => sayLength(mm, unit, denominator);

/** `6 × 4 1/4 in`: along x by along y. */
export const pieceSize = ({ width, height }: CouponPiece, words: CouponWords): string =>
  `${sayLengthBare(width, words.unit, words.denominator)} × ${say(height, words)}`;

/** What is done to a piece: `bead up right across with half_round, in 2 passes`. */
export const pieceWork = (piece: CouponPiece, words: CouponWords): string => {
  switch (piece.kind) {
    case 'bead':
      return `bead ${piece.direction} right across with ${piece.die.name}, in ${passes(piece.passes)}`;
    case 'corner':
      return `bead ${piece.direction} round a corner of radius ${say(piece.corner, words)} with ${piece.die.name}, both ends running off, in ${passes(piece.passes)}`;
    case 'bend':
      return `bend ${piece.direction} ${sayAngle(piece.turn)} across the middle, inside radius ${say(piece.radius, words)}`;
  }
};
const passes = (count: number): string => (count === 1 ? '1 pass' : `${count} passes`);

/** How the grain lies to the bead or bend of a piece; undefined where it does not matter. */
export const pieceGrain = ({ grain, kind }: CouponPiece): string | undefined => {
  if (grain === undefined) return undefined;
  if (kind === 'corner') return grain === 'x' ? 'grain along its width' : 'grain along its height';
  return grain === 'y' ? `grain along the ${kind}` : `grain across the ${kind}`;
};

/** To a hundredth of a millimetre or a thousandth of an inch: what a calliper reads, since a strip tells by that much. */
const fine = (mm: number, { unit }: CouponWords): string =>
  unit?.name === 'inch' || unit?.name === 'foot'
    ? `${(mm / 25.4).toFixed(3)} in`
    : `${(mm / (unit?.mm ?? 1)).toFixed(unit === undefined || unit.mm === 1 ? 2 : 3)} ${unit === undefined || unit.mm === 1 ? 'mm' : unit.name}`;

/** What a measure should come to: one value, or from … to …; undefined where it can't be said. */
export const expectedOf = ({ expected, what }: CouponBox, words: CouponWords): string | undefined => {
  if (expected === undefined) return undefined;
  const [least, most] = expected;
  const one = (value: number): string => (what === 'angle' ? sayAngle(value) : fine(value, words));
  return one(least) === one(most) ? one(least) : `${one(least)} to ${one(most)}`;
};

/** One line for a list of parts: `3 strips to try`. */
export const couponSummary = ({ pieces }: Coupon): string => (pieces.length === 1 ? '1 strip to try' : `${pieces.length} strips to try`);

/** Everything to cut, in one sentence. */
export const whatToCut = (coupon: Coupon, words: CouponWords): string =>
  `${coupon.pieces.length === 1 ? 'Strip' : 'Strips'} to try before ${coupon.panel} is cut, from ${coupon.sheet.name}: ${coupon.pieces
    .map((piece) => `${pieceSize(piece, words)} to ${pieceWork(piece, words)}`)
    .join('; ')}.`;
