/** What a piece or a strap comes to: the length to cut, its mass, and what stands in the way of making it. */
import type { Finding } from '../model/finding.js';
import type { Piece, PieceEnd, Strap } from '../model/part.js';
import type { Stock } from '../model/shop.js';
import { acrossMitre, copeReach, eyeLength, mitreRun, type StockShape, sectionArea } from '../trade/tube.js';

export interface PieceWork {
  readonly stock: Stock | undefined;
  /** Over the long points, before bending; of a strap, worked out from pin, wrap and tails. mm */
  readonly length: number | undefined;
  /** Between the short points of its ends, mm. */
  readonly shortLength: number | undefined;
  /** How far the short point of either end lies behind the long one, mm. */
  readonly runs: { readonly start: number; readonly finish: number };
  /** Along the bent piece's middle, from end to end, as it stands: the same sheet of metal, so the same length. kg */
  readonly mass: number | undefined;
  readonly findings: readonly Finding[]; // spans relative to the part
}
export interface PieceWords {
  readonly say: (mm: number) => string;
}

/** How much shorter an end is at its short side. */
const runOf = (end: PieceEnd, shape: StockShape | undefined): number => {
  if (shape === undefined || end.kind === 'square') return 0;
  if (end.kind === 'mitre') return mitreRun(acrossMitre(shape, end.turned), end.angle);
  const branch = outerRadius(shape);
  const main = end.onto?.shape === undefined ? undefined : outerRadius(end.onto.shape);
  if (branch === undefined || main === undefined || branch > main + 1e-9) return 0;
  const { least, most } = copeReach(main, branch, end.angle);
  return most - least;
};
const outerRadius = (shape: StockShape): number | undefined =>
  shape.kind === 'round tube' || shape.kind === 'round' ? shape.diameter / 2 : undefined;

export const pieceWork = (part: Piece | Strap, words: PieceWords): PieceWork => {
  const findings: Finding[] = [];
  const say = (span: Finding['span'], rule: string, message: string, severity: Finding['severity'] = 'error'): void => {
    findings.push({ file: part.file, span, rule, severity, message, fixes: [] });
  };
  const stock = part.stock?.value;
  if (part.stock === undefined && !part.broken)
    say(part.nameSpan, 'stock/missing', `${part.name} doesn't say what it is cut from. Add tube, bar, rod or angle and its name.`);
  const length = part.kind === 'piece' ? part.length?.value : strapLength(part, stock);
  if (length === undefined && !part.broken && stock !== undefined)
    say(
      part.nameSpan,
      'stock/no-length',
      part.kind === 'piece'
        ? `${part.name} doesn't say how long it is. Add length 30.`
        : `${part.name} can't be worked out: it needs a flat bar, round pin and wrap.`,
    );
  if (part.kind === 'piece') judgePiece(part, stock, say, words);
  const area = stock?.shape === undefined ? undefined : sectionArea(stock.shape);
  const density = stock?.material?.density;
  const runs = part.kind === 'piece' ? [runOf(part.startEnd, stock?.shape), runOf(part.finishEnd, stock?.shape)] : [0, 0];
  const [atStart = 0, atFinish = 0] = runs;
  if (length !== undefined && stock?.length !== undefined && length > stock.length + 1e-6)
    say(
      part.kind === 'piece' ? (part.length?.span ?? part.nameSpan) : part.nameSpan,
      'stock/longer-than-sold',
      `${part.name} is ${words.say(length)} long and ${stock.name} is sold in ${words.say(stock.length)}: make it of two, or find a longer length.`,
      'warning',
    );
  return {
    stock,
    length,
    runs: { start: atStart, finish: atFinish },
    shortLength: length === undefined ? undefined : Math.max(0, length - atStart - atFinish),
    // Half of each sloping end is cut away.
    mass:
      length === undefined || area === undefined || density === undefined
        ? undefined
        : (length - (atStart + atFinish) / 2) * area * density * 1e-9,
    findings,
  };
};

/** The neutral line of the eye and the tails that lie beyond its touch. Undefined until all of them are known. */
const strapLength = (part: Strap, stock: Stock | undefined): number | undefined => {
  if (part.pin === undefined || part.wrap === undefined || stock?.shape?.kind !== 'flat') return undefined;
  return eyeLength(part.pin + part.clear, stock.shape.thickness, part.wrap) + part.tails.reduce((sum, tail) => sum + tail, 0);
};

const judgePiece = (
  part: Piece,
  stock: Stock | undefined,
  say: (span: Finding['span'], rule: string, message: string, severity?: Finding['severity']) => void,
  words: PieceWords,
): void => {
  for (const end of [part.startEnd, part.finishEnd]) {
    if (end.kind !== 'cope' || stock?.shape === undefined) continue;
    const branch = outerRadius(stock.shape);
    const main = end.onto?.shape === undefined ? undefined : outerRadius(end.onto.shape);
    if (end.onto !== undefined && (branch === undefined || main === undefined))
      say(
        end.span,
        'stock/cope-of-what',
        'A cope is worked out where round meets round. Square tube is mitred, or sits on the flat with a square end.',
        'warning',
      );
    else if (branch !== undefined && main !== undefined && branch > main + 1e-9)
      say(
        end.span,
        'stock/cope-too-big',
        `${stock.name} is ${words.say(2 * branch)} across and does not sit on ${end.onto?.name ?? 'it'}, which is ${words.say(2 * main)}.`,
      );
  }
  const length = part.length?.value;
  if (length === undefined) return;
  let free = 0;
  for (const bend of [...part.bends].sort((a, b) => a.at - b.at)) {
    const end = bend.at + bend.radius * bend.turn;
    if (bend.at < free - 1e-6)
      say(
        bend.span,
        'stock/bends-overlap',
        `This bend starts at ${words.say(bend.at)}, before the one before it ends at ${words.say(free)}.`,
      );
    else if (end > length + 1e-6)
      say(
        bend.span,
        'stock/bend-off-the-end',
        `This bend takes up ${words.say(end - bend.at)} from ${words.say(bend.at)} on and runs past the end at ${words.say(length)}.`,
      );
    free = end;
  }
};
