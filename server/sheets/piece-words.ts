/** What a length of stock, its ends and the whole piece are called on a drawing. */
import { sayAngle, sayLength, sayLengthBare, sayMass, sayThickness } from '../model/display.js';
import type { Part, Piece, PieceEnd, Strap } from '../model/part.js';
import type { PieceWork } from '../stock/index.js';
import type { StockShape } from '../trade/tube.js';
import type { DisplayOptions } from './drawing.js';

export type CutFromLength = Piece | Strap;
export const isCutFromLength = (part: Part): part is CutFromLength => part.kind === 'piece' || part.kind === 'strap';

/** `round tube 1, wall 0.065 in`, as the shop would ask for it. */
export const sayStock = (shape: StockShape, options: DisplayOptions): string => {
  const say = (mm: number): string => sayLengthBare(mm, options.unit, options.denominator);
  const wall = (mm: number): string => `wall ${sayThickness(mm, options.unit)}`;
  switch (shape.kind) {
    case 'round tube':
      return `round tube ${say(shape.diameter)}, ${wall(shape.wall)}`;
    case 'square tube':
      return shape.width === shape.height
        ? `square tube ${say(shape.width)}, ${wall(shape.wall)}`
        : `tube ${say(shape.width)} × ${say(shape.height)}, ${wall(shape.wall)}`;
    case 'round':
      return `round ${say(shape.diameter)}`;
    case 'square':
      return `square ${say(shape.side)}`;
    case 'flat':
      return `flat ${say(shape.width)} × ${say(shape.thickness)}`;
    case 'angle':
      return `angle ${say(shape.first)} × ${say(shape.second)} × ${say(shape.thickness)}`;
  }
};

/** `mitre 45°`, `cope 60° onto round_1`; undefined for a square end. */
export const sayEnd = (end: PieceEnd, angle: (rad: number) => string = sayAngle): string | undefined => {
  if (end.kind === 'square') return undefined;
  const turned = Math.abs(end.turned) < 1e-9 ? '' : `, turned ${angle(end.turned)}`;
  return end.kind === 'mitre'
    ? `mitre ${angle(end.angle)}${turned}`
    : `cope ${angle(end.angle)}${end.onto === undefined ? '' : ` onto ${end.onto.name}`}${turned}`;
};

/** `top_rail, piece, square_1 square tube 1, wall 0.065, 30 long, 28 between short points, 1.4 lb`. */
export const pieceTitle = (part: CutFromLength, work: PieceWork, options: DisplayOptions): string => {
  const say = (mm: number): string => sayLength(mm, options.unit, options.denominator);
  const { stock, length, shortLength, mass } = work;
  const short = length !== undefined && shortLength !== undefined && length - shortLength > 0.005;
  return [
    part.name,
    part.kind,
    ...(stock === undefined ? [] : [`${stock.name}${stock.shape === undefined ? '' : ` (${sayStock(stock.shape, options)})`}`]),
    ...(length === undefined ? [] : [short ? `${say(length)} over the long points` : `${say(length)} long`]),
    ...(short ? [`${say(shortLength)} between the short points`] : []),
    ...(mass === undefined ? [] : [sayMass(mass, options.unit)]),
  ].join(', ');
};
