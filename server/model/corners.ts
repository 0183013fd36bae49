/** What happens where two edges meet. */
import type { Argument, Statement } from '../../grammar/syntax.js';
import { itemsOf, lengthField, pathOf, spanOfPath, wordField } from './arguments.js';
import { edgeName } from './chains.js';
import type { CornerRule, CornerTreatment, Relief } from './part.js';
import { pathText, replace } from './reading.js';
import type { PartWork } from './work.js';

type Pair = readonly [string, string];

/** One `corner` statement. `drawn` are the names of the outline's edges; undefined when the outline can't be had. */
export const readCorner = (statement: Statement, work: PartWork, drawn: readonly string[] | undefined): CornerRule | undefined => {
  const items = statement.fields.edges?.kind === 'word' ? [] : itemsOf(statement.fields.edges);
  const names = items.flatMap((item) => edgeName(item, drawn, work) ?? []);
  const [one, two] = names;
  if (items.length > 0 && (items.length !== 2 || one === two)) {
    work.reading.sink.report(
      statement.fields.edges?.span ?? statement.span,
      'shape/corner-of-two-edges',
      'A corner is where two edges meet: write both, side by side, such as corner top left, or corner all.',
    );
    work.fail();
    return undefined;
  }
  const pair: Pair | undefined = one === undefined || two === undefined ? undefined : [one, two];
  const treatment = treatmentOf(statement, work, items.length === 0 ? 'all' : pair);
  if (treatment === undefined) {
    work.fail();
    return undefined;
  }
  if (items.length > 0 && pair === undefined) return undefined;
  return { edges: pair, treatment, span: work.relative(statement.span) };
};

const treatmentOf = (statement: Statement, work: PartWork, pair: Pair | 'all' | undefined): CornerTreatment | undefined => {
  const word = wordField(statement, 'treatment');
  switch (word) {
    case undefined:
      return statement.broken ? undefined : { kind: 'open', relief: undefined };
    case 'open':
    case 'relief': {
      const relief = reliefOf(statement, work);
      return relief === 'unknown' ? undefined : { kind: 'open', relief };
    }
    case 'mitred': {
      const gap = statement.fields.gap === undefined ? 0 : lengthField(work, statement, 'gap', 'The mitre’s gap', 'not less than 0');
      const relief = reliefOf(statement, work);
      return gap === undefined || relief === 'unknown' ? undefined : { kind: 'mitred', gap, relief };
    }
    case 'lap':
    case 'butt': {
      const relief = reliefOf(statement, work);
      const by = word === 'butt' ? 0 : lengthField(work, statement, 'by', 'How far it laps');
      const order = orderOf(statement, word, work, pair);
      if (relief === 'unknown' || by === undefined || order === undefined) return undefined;
      return word === 'butt' ? { kind: 'butt', ...order, relief } : { kind: 'lap', ...order, by, relief };
    }
    case 'radius': {
      const radius = lengthField(work, statement, 'radius', 'The corner’s radius');
      return radius === undefined ? undefined : { kind: 'radius', radius };
    }
    case 'chamfer': {
      const size = lengthField(work, statement, 'size', 'The chamfer');
      return size === undefined ? undefined : { kind: 'chamfer', size };
    }
    case 'notch': {
      const width = lengthField(work, statement, 'width', 'The notch’s width');
      const depth = lengthField(work, statement, 'depth', 'The notch’s depth');
      return width === undefined || depth === undefined ? undefined : { kind: 'notch', width, depth };
    }
    default:
      work.later(statement, `corner … ${word}`);
      return undefined;
  }
};

/** Which of a corner's two edges goes over the other. */
const orderOf = (
  statement: Statement,
  word: 'lap' | 'butt',
  work: PartWork,
  pair: Pair | 'all' | undefined,
): { readonly over: string; readonly under: string } | undefined => {
  const { sink } = work.reading;
  if (pair === 'all') {
    sink.report(
      statement.fields.edges?.span ?? statement.span,
      'corner/all-has-no-order',
      `Which edge goes over which differs from corner to corner, so all of them can’t be told at once. Write each: corner top left ${word} top over left${word === 'lap' ? ' 1/2' : ''}.`,
    );
    return undefined;
  }
  if (pair === undefined) return undefined;
  const over = ownEdge(statement.fields.over, pair, undefined, work);
  const under = ownEdge(statement.fields.under, pair, over, work);
  return over === undefined || under === undefined ? undefined : { over, under };
};

/** One of the corner's own two edges, and not the one that is taken. */
const ownEdge = (argument: Argument | undefined, pair: Pair, taken: string | undefined, work: PartWork): string | undefined => {
  const path = pathOf(argument);
  if (path === undefined) return undefined;
  const name = pathText(path);
  if (pair.includes(name) && name !== taken) return name;
  const span = spanOfPath(path);
  const left = pair.filter((edge) => edge !== taken);
  const message =
    name === taken
      ? `${name} can’t go over itself. The other edge of this corner is ${left.join(' ')}.`
      : `${name} is not an edge of this corner, which is between ${pair[0]} and ${pair[1]}.`;
  work.reading.sink.report(span, 'corner/not-its-edge', message, {
    fixes: left.map((edge) => replace(span, edge, `Change to ${edge}`)),
  });
  return undefined;
};

const reliefOf = (statement: Statement, work: PartWork): Relief | undefined | 'unknown' => {
  const shape = wordField(statement, 'reliefShape');
  if (shape === undefined) return undefined;
  if (shape === 'none') return { kind: 'none' };
  const size = lengthField(work, statement, 'reliefSize', 'The relief');
  if (size === undefined) return 'unknown';
  return shape === 'round' ? { kind: 'round', diameter: size } : { kind: 'square', side: size };
};
