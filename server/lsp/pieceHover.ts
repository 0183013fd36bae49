/** What hover says of a piece or a strap, and of the statements that cut and bend it. */
import { sayMass } from '../model/display.js';
import { type CutFromLength, drawPiece, sayEnd, sayStock } from '../sheets/index.js';
import { pieceWork } from '../stock/index.js';
import type { Ask } from './ask.js';
import { plain } from './documentation.js';
import { displayOptions } from './picture.js';
import { type PlacedPart, sayLengthFully } from './say.js';

/** Of the part's name: what it is cut from, how long, how its ends are cut, what it weighs. */
export const pieceRows = (ask: Ask, part: CutFromLength): readonly string[] => {
  if (part.broken) return ['not drawn: see the findings'];
  const options = displayOptions(ask);
  const { stock, length, shortLength, mass } = pieceWork(part, { say: String });
  const sloping = length !== undefined && shortLength !== undefined && length - shortLength > 0.005;
  const ends =
    part.kind === 'piece'
      ? (
          [
            ['start', part.startEnd],
            ['finish', part.finishEnd],
          ] as const
        ).flatMap(([name, end]) => {
          const words = sayEnd(end);
          return words === undefined ? [] : [`${name}: ${plain(words)}`];
        })
      : [];
  return [
    ...(stock === undefined
      ? []
      : [`from ${plain(stock.name)}${stock.shape === undefined ? '' : `, ${plain(sayStock(stock.shape, options))}`}`]),
    ...(length === undefined ? [] : [`cut ${sayLengthFully(ask, length)}${sloping ? ' over the long points' : ''}`]),
    ...(sloping ? [`${sayLengthFully(ask, shortLength)} between the short points`] : []),
    ...ends,
    ...(mass === undefined ? [] : [`${sayMass(mass, options.unit)} each`]),
  ];
};

/** Of a statement: what its drawing says of the things it makes. */
export const pieceSums = (
  ask: Ask,
  { result, start }: PlacedPart,
  statement: { readonly start: number; readonly end: number },
): readonly string[] => {
  const { part } = result;
  if ((part.kind !== 'piece' && part.kind !== 'strap') || part.broken) return [];
  const own = { start: statement.start - start, end: statement.end - start };
  const features = drawPiece(part, displayOptions(ask))?.features ?? [];
  const said = features.filter(
    ({ span }) => own.start <= span.start && span.end <= own.end && span.end - span.start < part.span.end - part.span.start,
  );
  // The whole piece is told at its name.
  return own.end - own.start >= part.span.end - part.span.start ? [] : [...new Set(said.map(({ title }) => plain(title)))];
};
