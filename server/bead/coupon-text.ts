/** The `trial` statements for a coupon's pieces, to paste into the file and fill in. */
import { decimal, writeAngle, writeLength } from '../model/display.js';
import type { HomeUnit } from '../model/model.js';
import type { Named, Sheet } from '../model/shop.js';
import type { Coupon, CouponPiece } from './coupon.js';

/** How a sheet or a die is named where the statements go: `bench.crs_18` where its file was brought under a name. */
export type WrittenName = (thing: Named) => string;
const bareName: WrittenName = ({ name }) => name;

/**
 * A `trial` for each piece that one can be read from. What is to be measured stands as a comment with a gap: take the strokes away and write the number.
 * A corner piece tells of no number that is reckoned with, so it has none.
 */
export const trialTexts = (
  coupon: Coupon,
  unit: HomeUnit | undefined,
  named: WrittenName = bareName,
): readonly { readonly piece: string; readonly text: string }[] =>
  coupon.pieces.flatMap((piece) => {
    const text = trialText(piece, coupon.sheet, unit, named);
    return text === undefined ? [] : [{ piece: piece.name, text }];
  });

const finestStep = (unit: HomeUnit | undefined): string =>
  unit?.name === 'inch' ? '1/64' : unit === undefined ? '0.1 mm' : String(0.1 / unit.mm);

/** As a rule reads it where that is the size itself, else in decimals. */
const written = (mm: number, unit: HomeUnit | undefined): string => {
  const parts = (mm / 25.4) * 64;
  if (unit?.name === 'inch' && Math.abs(parts - Math.round(parts)) < 1e-6) return writeLength(mm, unit);
  const bare = decimal(mm / (unit?.mm ?? 1), unit?.name === 'inch' || unit?.name === 'foot' ? 4 : unit?.name === 'metre' ? 6 : 3);
  return unit === undefined ? `${bare} mm` : bare;
};

const trialText = (piece: CouponPiece, sheet: Sheet, unit: HomeUnit | undefined, named: WrittenName): string | undefined => {
  const write = (mm: number): string => written(mm, unit);
  const head = [
    `trial ${piece.name} {`,
    `  sheet ${named(sheet)}`,
    `  strip ${write(piece.width)} by ${write(piece.height)} to ${finestStep(unit)}`,
  ];
  // Bead and bend both run along y on their strips.
  const grain = piece.grain === undefined ? [] : [`  grain ${piece.grain === 'x' ? 'across' : 'along'}`];
  switch (piece.kind) {
    case 'bead':
      return [
        ...head,
        ...grain,
        `  beaded ${named(piece.die)} length ${write(piece.height)} passes ${piece.passes}`,
        `  // measured width ____ to ${finestStep(unit)}`,
        `  // measured depth ____ to ${finestStep(unit)}`,
        '}',
        '',
      ].join('\n');
    case 'bend':
      return [
        ...head,
        ...grain,
        `  bent ${writeAngle(piece.turn)} radius ${write(piece.radius)}`,
        `  // measured legs ____, ____ to ${finestStep(unit)}`,
        '  // measured angle ____ to 0.5',
        `  // measured radius ____ to ${finestStep(unit)}`,
        '}',
        '',
      ].join('\n');
    case 'corner':
      return undefined;
  }
};
