/** One length of tube or bar with its cuts, sloping ends drawn as they slope. */
import { sayLengthBare } from '../../model/display.js';
import type { Part, PieceEnd } from '../../model/part.js';
import type { LengthOutcome } from '../../stock/index.js';
import { acrossMitre, mitreRun, type StockShape } from '../../trade/tube.js';
import type { Figure } from '../documents/blocks.js';
import type { DisplayOptions } from '../drawing.js';
import { boxMark, type Ink, type Mark, narrow, polylineMark } from '../pages/page.js';
import type { Type } from '../pages/type.js';

const thin: Ink = { width: narrow };
const metal = '#e9eef2';
const height = 7;

/** How far a mitred end leans in, seen from the side; other ends are drawn square. */
const lean = (end: PieceEnd, shape: StockShape | undefined): number =>
  end.kind === 'mitre' && shape !== undefined && Math.abs(Math.sin(end.turned)) < 1e-9
    ? mitreRun(acrossMitre(shape, end.turned), end.angle)
    : 0;

/**
 * @param scale mm on paper to one of the stock, the same for all lengths of a stock
 */
export const lengthFigure = (
  cut: LengthOutcome['result']['cuts'][number],
  stock: { readonly name: string; readonly shape: StockShape | undefined },
  partOf: (id: string) => Part | undefined,
  numbers: ReadonlyMap<string, number>,
  scale: number,
  options: DisplayOptions,
  type: Type,
): Figure => {
  const room = cut.length * scale;
  const say = (mm: number): string => sayLengthBare(mm, options.unit, options.denominator);
  const pieces = cut.pieces.flatMap((piece): readonly Mark[] => {
    const part = partOf(piece.id);
    const [start, finish] = part?.kind === 'piece' ? [lean(part.startEnd, stock.shape), lean(part.finishEnd, stock.shape)] : [0, 0];
    const [from, to] = [piece.from * scale, (piece.from + piece.length) * scale];
    const [a, b] = [start * scale, finish * scale];
    // The long side lies at the bottom, of one turned over at the top.
    const corners = [
      { x: from, y: 0 },
      { x: to, y: 0 },
      { x: to - b, y: height },
      { x: from + a, y: height },
    ].map(({ x, y }) => ({ x, y: piece.turnedOver ? height - y : y }));
    const clear = (to - from - a - b) * 0.94;
    const number = numbers.get(piece.id);
    const words = [`${piece.id}  ${say(piece.length)}`, ...(number === undefined ? [] : [`${number}`])].map((text) => ({
      text,
      letters: Math.min(2.6, clear / Math.max(type.width(text, 1), 0.1)),
    }));
    const shown = words.find(({ letters }) => letters >= 1.8) ?? words[1];
    return [
      polylineMark(corners, thin, true, metal),
      ...(shown === undefined || shown.letters < 1
        ? []
        : [
            {
              kind: 'text' as const,
              text: shown.text,
              at: { x: (from + a + to - b) / 2, y: height / 2 - shown.letters * 0.36 },
              size: shown.letters,
              anchor: 'middle' as const,
            },
          ]),
    ];
  });
  return {
    width: room,
    height,
    caption: `${cut.times === 1 ? '' : `${cut.times} × `}${cut.stock}, ${say(cut.length)}: ${say(cut.left)} left`,
    words: `${cut.stock} cut into ${cut.pieces.map(({ id }) => id).join(', ')}`,
    marks: [boxMark({ min: { x: 0, y: 0 }, max: { x: room, y: height } }, thin), ...pieces],
  };
};
