/** What is written about a piece or a strap, for holding two versions against each other. */
import type { HomeUnit } from '../model/model.js';
import type { XY } from '../model/part.js';
import type { CutFromLength } from './piece-words.js';
import { sayEnd, sayStock } from './piece-words.js';

/** What is said of a part, by a name that stays the same when only its value changes. */
export type Facts = Map<string, string>;

export interface PieceSaying {
  readonly length: (mm: number) => string;
  readonly angle: (rad: number) => string;
  readonly thickness: (mm: number) => string;
  readonly place: (at: XY) => string;
  readonly unit: HomeUnit | undefined;
}

export const putPiece = (facts: Facts, part: CutFromLength, { length, angle, thickness, unit }: PieceSaying): void => {
  const stock = part.stock?.value;
  if (stock !== undefined) {
    facts.set('cut from', stock.name);
    if (stock.shape !== undefined) facts.set('stock', sayStock(stock.shape, { unit }));
    if (stock.material !== undefined) facts.set('stock material', stock.material.name);
  }
  if (part.kind === 'strap') {
    if (part.pin !== undefined) facts.set('pin', length(part.pin));
    facts.set('play on the pin', thickness(part.clear));
    if (part.wrap !== undefined) facts.set('wrap', angle(part.wrap));
    for (const [index, tail] of part.tails.entries()) facts.set(index === 0 ? 'tail' : 'second tail', length(tail));
    return;
  }
  if (part.length !== undefined) facts.set('length', length(part.length.value));
  facts.set('start', sayEnd(part.startEnd, angle) ?? 'square');
  facts.set('finish', sayEnd(part.finishEnd, angle) ?? 'square');
  for (const [index, bend] of part.bends.entries()) {
    const turned = Math.abs(bend.turned) < 1e-9 ? '' : `, turned ${angle(bend.turned)}`;
    facts.set(`bend ${index + 1}`, `${angle(bend.turn)} at ${length(bend.at)}, radius ${length(bend.radius)}${turned}`);
  }
};
