/** Holes, slots and cut-outs, with their placings and repeats multiplied out. */
import type { Argument, Ident, Span, Statement } from '../../grammar/syntax.js';
import { holeDiameter, knownSizes } from '../trade/threads.js';
import {
  angleField,
  countField,
  exprOf,
  itemsOf,
  lengthField,
  newNameField,
  pathOf,
  pointField,
  pointOf,
  spanOfPath,
  wordField,
} from './arguments.js';
import { middleOf, moveBeads } from './bead-copies.js';
import { plain as evaluatedPlain } from './dimension.js';
import { either, nearestNames } from './nearest.js';
import { readDrawn } from './outline.js';
import type { CutShape, XY } from './part.js';
import { isInSight } from './paths.js';
import { replace } from './reading.js';
import { readingOfBlock } from './scopes.js';
import { mostFeatures, type PartWork, type PendingBead, type PendingCut, type PendingPlace, withReading } from './work.js';

/** Reads a hole, slot or cut. `lying` are the flanges it lies on when it names none itself: one cut for each. */
export const readCut = (statement: Statement, work: PartWork, lying: readonly string[] | undefined): void => {
  const shaped = shapeOf(statement, work);
  const places = placesOf(statement, work);
  const turned = statement.fields.turned === undefined ? 0 : angleField(work, statement, 'turned', 'The turn');
  if (shaped === undefined || places === undefined || turned === undefined) {
    work.fail();
    return;
  }
  const name = newNameField(statement, 'as');
  const named = placeNamed(statement, 'on');
  const through = throughOf(statement, work);
  const lies: readonly PendingCut['on'][] = named !== undefined ? [named] : lying === undefined ? [undefined] : lying.map((id) => ({ id }));
  for (const on of lies) {
    for (const place of places) {
      if (work.cuts.length >= mostFeatures) {
        tooMany(statement, work);
        return;
      }
      work.cuts.push({
        base: name?.name ?? statement.word.name,
        named: name !== undefined,
        on,
        shape: shaped.shape,
        at: place.at,
        turned,
        span: work.relative(statement.span),
        sizeSpan: work.relative(shaped.span),
        atSpan: work.relative(place.span),
        statement,
        self: {},
        ...(through === undefined ? {} : { through }),
        ...(shaped.dimple === undefined ? {} : { dimple: shaped.dimple }),
      });
    }
  }
};

const placeNamed = (statement: Statement, field: string): PendingPlace | undefined => {
  const path = pathOf(statement.fields[field]);
  return path === undefined ? undefined : { path: path.map((step) => step.name), span: spanOfPath(path) };
};
/** The further face a hole goes through. */
const throughOf = (statement: Statement, work: PartWork): PendingPlace | undefined => {
  const { through, throughTo } = statement.fields;
  if (through === undefined) return undefined;
  if (throughTo === undefined) {
    if (statement.broken || work.throughBothWalls === true) return undefined;
    const at = { start: through.span.end, end: through.span.end };
    work.reading.sink.report(
      through.span,
      'hole/through-to-what',
      'Say which face the hole goes on through: through to base, or a flange, such as through to bottom.',
      { fixes: [{ title: 'Through to base', edits: [{ span: at, text: ' to base' }] }] },
    );
    work.fail();
    return undefined;
  }
  return throughTo.kind === 'word' ? { path: ['base'], span: throughTo.span } : placeNamed(statement, 'throughTo');
};

export const tooMany = (statement: Statement, work: PartWork): void => {
  work.reading.sink.report(
    statement.word.span,
    'number/out-of-range',
    `This makes more than ${mostFeatures} features in one part. Look at the counts.`,
  );
  work.fail();
};

interface Shaped {
  readonly shape: CutShape;
  readonly span: Span;
  readonly dimple?: PendingCut['dimple'];
}
const between = (a: Argument | undefined, b: Argument | undefined, statement: Statement): Span =>
  a === undefined ? statement.word.span : { start: a.span.start, end: b?.span.end ?? a.span.end };

const shapeOf = (statement: Statement, work: PartWork): Shaped | undefined => {
  const { fields } = statement;
  if (statement.word.name === 'hole') return holeOf(statement, work);
  if (statement.word.name === 'dimple') return dimpleOf(statement, work);
  if (statement.word.name === 'slot') {
    const width = lengthField(work, statement, 'width', 'The slot’s width');
    const length = lengthField(work, statement, 'length', 'The slot’s length');
    if (width === undefined || length === undefined) return undefined;
    if (length < width - 1e-9) {
      work.reading.sink.report(
        between(fields.width, fields.length, statement),
        'shape/slot-shorter-than-wide',
        'A slot is written width by length overall, and this length is less than the width. Change the two round and turn the slot by 90.',
      );
      return undefined;
    }
    return { shape: { kind: 'slot', width, length }, span: between(fields.width, fields.length, statement) };
  }
  switch (wordField(statement, 'shape')) {
    case 'rectangle': {
      const width = lengthField(work, statement, 'width', 'The opening’s width');
      const height = lengthField(work, statement, 'height', 'The opening’s height');
      const corner = fields.corner === undefined ? 0 : lengthField(work, statement, 'corner', 'The corner’s radius', 'not less than 0');
      if (width === undefined || height === undefined || corner === undefined) return undefined;
      if (corner > Math.min(width, height) / 2 + 1e-9) {
        work.reading.sink.report(
          fields.corner?.span ?? statement.span,
          'shape/corner-too-round',
          'The corner’s radius can be half the shorter side at most.',
        );
        return undefined;
      }
      return { shape: { kind: 'rectangle', width, height, corner }, span: between(fields.width, fields.height, statement) };
    }
    case 'circle': {
      const diameter = lengthField(work, statement, 'diameter', 'The diameter');
      return diameter === undefined
        ? undefined
        : { shape: { kind: 'hole', diameter, thread: undefined }, span: between(fields.diameter, undefined, statement) };
    }
    case 'drawn': {
      const inner = readingOfBlock(statement.block?.statements ?? [], work.reading);
      const drawn = readDrawn(statement, withReading(work, inner), work.relative);
      return drawn === undefined
        ? undefined
        : { shape: { kind: 'drawn', start: drawn.start, edges: drawn.edges }, span: statement.word.span };
    }
    default:
      return undefined;
  }
};

const dimpleOf = (statement: Statement, work: PartWork): Shaped | undefined => {
  const { fields } = statement;
  const diameter = lengthField(work, statement, 'diameter', 'The diameter');
  const depth = lengthField(work, statement, 'depth', 'The rim’s depth');
  const direction = wordField(statement, 'direction');
  if (diameter === undefined || (direction !== 'up' && direction !== 'down') || (fields.depth !== undefined && depth === undefined))
    return undefined;
  return {
    shape: { kind: 'hole', diameter, thread: undefined },
    span: between(fields.diameter, undefined, statement),
    dimple: { depth, direction },
  };
};

const holeOf = (statement: Statement, work: PartWork): Shaped | undefined => {
  const fit = statement.fields.fit;
  const word = wordField(statement, 'fitWord');
  if (word !== 'tapped' && word !== 'clearance' && word !== 'drill') {
    const thread = threadAlone(statement, work);
    if (thread !== undefined) {
      const words = [`clearance ${thread.name}`, `tapped ${thread.name}`];
      work.reading.sink.report(
        thread.span,
        'name/unknown',
        `A hole that ${thread.name} passes is written ${words[0]}; one for its thread, ${words[1]}.`,
        {
          fixes: words.map((text) => replace(thread.span, text, `Write ${text}`)),
        },
      );
      return undefined;
    }
    const diameter = lengthField(work, statement, 'diameter', 'The diameter');
    const span = between(statement.fields.diameter, undefined, statement);
    return diameter === undefined ? undefined : { shape: { kind: 'hole', diameter, thread: undefined }, span };
  }
  if (fit?.kind !== 'size') return undefined;
  const diameter = holeDiameter(word, fit.value);
  if (diameter !== undefined) return { shape: { kind: 'hole', diameter, thread: `${word} ${fit.value}` }, span: fit.span };
  const near = nearestSizes(fit.value, knownSizes(word));
  const cure = near.length > 0 ? `Did you mean ${either(near)}?` : 'Give the diameter itself.';
  work.reading.sink.report(fit.span, 'hole/unknown-size', `The tables have no ${word} hole for ${fit.value}. ${cure}`, {
    fixes: near.map((size) => replace(fit.span, size, `Change to ${size}`)),
  });
  return undefined;
};

/** A thread of the tables written as though it were the diameter: `hole M6`. */
const threadAlone = ({ fields }: Statement, work: PartWork): Ident | undefined => {
  const expr = exprOf(fields.diameter);
  const [name, more] = expr?.kind === 'name' ? expr.path : [];
  if (name === undefined || more !== undefined || holeDiameter('clearance', name.name) === undefined) return undefined;
  return isInSight(name, work.reading) ? undefined : name;
};

/** The metric sizes next to one that is none, or the sizes that read like it. */
const nearestSizes = (size: string, known: readonly string[]): readonly string[] => {
  const wanted = /^M(\d+(?:\.\d+)?)$/i.exec(size)?.[1];
  if (wanted === undefined) return nearestNames(size, known);
  const metric = known
    .filter((other) => /^M[\d.]+$/.test(other))
    .map((other) => ({ other, off: Math.abs(Number(other.slice(1)) - Number(wanted)) }));
  return metric
    .sort((a, b) => a.off - b.off)
    .slice(0, 2)
    .map(({ other }) => other);
};

interface Place {
  readonly at: XY;
  readonly span: Span;
}
/** `at 20, 30`: numbers two by two, each pair a point that lacks its brackets. */
const pairsWithoutBrackets = (items: readonly Argument[], work: PartWork): boolean => {
  if (items.length < 2 || items.length % 2 === 1 || items.some((item) => exprOf(item)?.kind !== 'number')) return false;
  const pairs = items.flatMap(({ span }, i) => {
    const next = items[i + 1];
    return i % 2 === 1 || next === undefined ? [] : [{ start: span.start, end: next.span.end }];
  });
  const [first, last] = [pairs[0], pairs.at(-1)];
  if (first === undefined || last === undefined) return false;
  const { text } = work.reading.names.tree;
  const edits = pairs.map((span) => ({ span, text: `(${text.slice(span.start, span.end)})` }));
  const words = edits.map((edit) => edit.text).join(', ');
  work.reading.sink.report({ start: first.start, end: last.end }, 'unit/wrong-kind', `A point is written in brackets: ${words}.`, {
    fixes: [{ title: `Write ${words}`, edits }],
  });
  return true;
};

const placesOf = (statement: Statement, work: PartWork): readonly Place[] | undefined => {
  const { fields } = statement;
  switch (wordField(statement, 'placing')) {
    case 'at': {
      if (pairsWithoutBrackets(itemsOf(fields.at), work)) return undefined;
      const points = itemsOf(fields.at).map((item) => pointOf(work, item));
      return points.includes(undefined) ? undefined : points.flatMap((point) => point ?? []);
    }
    case 'along':
      return alongLine(statement, work);
    case 'grid': {
      const columns = countField(work, statement, 'columns', 'The number along x');
      const rows = countField(work, statement, 'rows', 'The number along y');
      const a = lengthField(work, statement, 'a', 'The distance along x', 'any');
      const b = lengthField(work, statement, 'b', 'The distance along y', 'any');
      const origin = pointField(work, statement, 'origin');
      if (columns === undefined || rows === undefined || a === undefined || b === undefined || origin === undefined) return undefined;
      if (columns * rows > mostFeatures) {
        tooMany(statement, work);
        return undefined;
      }
      const span = between(fields.placing, fields.origin, statement);
      return Array.from({ length: columns * rows }, (_, i) => ({
        at: { x: origin.x + (i % columns) * a, y: origin.y + Math.floor(i / columns) * b },
        span,
      }));
    }
    case 'round': {
      const centre = pointField(work, statement, 'centre');
      const radius = lengthField(work, statement, 'radius', 'The radius');
      const count = countField(work, statement, 'count', 'How many');
      const first = fields.startAngle === undefined ? 0 : angleField(work, statement, 'startAngle', 'The first one’s direction');
      if (centre === undefined || radius === undefined || count === undefined || first === undefined) return undefined;
      const span = between(fields.placing, fields.startAngle ?? fields.count, statement);
      return Array.from({ length: count }, (_, i) => {
        const turn = first + (i * 2 * Math.PI) / count;
        return { at: { x: centre.x + radius * Math.cos(turn), y: centre.y + radius * Math.sin(turn) }, span };
      });
    }
    default:
      return undefined;
  }
};

const alongLine = (statement: Statement, work: PartWork): readonly Place[] | undefined => {
  const { fields } = statement;
  const from = pointField(work, statement, 'from');
  const to = pointField(work, statement, 'to');
  const count = countField(work, statement, 'count', 'How many');
  const every = lengthField(work, statement, 'every', 'The distance');
  if (from === undefined || to === undefined || (count === undefined && every === undefined)) return undefined;
  const span = between(fields.placing, fields.every ?? fields.count, statement);
  const long = Math.hypot(to.x - from.x, to.y - from.y);
  if (count !== undefined) {
    return Array.from({ length: count }, (_, i) => {
      const share = count === 1 ? 0 : i / (count - 1);
      return { at: { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share }, span };
    });
  }
  const step = every ?? 1;
  // A thousandth of a millimetre beyond the end still counts as at the end.
  const steps = Math.floor((long + 0.001) / step);
  if (steps >= mostFeatures) {
    tooMany(statement, work);
    return undefined;
  }
  return Array.from({ length: steps + 1 }, (_, i) => {
    const share = long === 0 ? 0 : (i * step) / long;
    return { at: { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share }, span };
  });
};

/** One turn of the braces after another, each moved on along x or y. `each` reads a statement that may stand there. */
export const readRepeat = (statement: Statement, work: PartWork, each: (inner: Statement, work: PartWork) => void): void => {
  const count = countField(work, statement, 'count', 'How many times');
  const along = wordField(statement, 'along');
  const indexName = newNameField(statement, 'as');
  const first =
    statement.fields.start === undefined ? 1 : countField(work, statement, 'start', 'The first number', Number.MIN_SAFE_INTEGER, 1e9);
  const evenly = statement.fields.evenly !== undefined;
  const every = evenly ? undefined : lengthField(work, statement, 'every', 'The step', 'any');
  const from = evenly ? lengthField(work, statement, 'from', 'The first place', 'any') : undefined;
  const to = evenly ? lengthField(work, statement, 'to', 'The last place', 'any') : undefined;
  const statements = statement.block?.statements ?? [];
  const known = evenly ? from !== undefined && to !== undefined : every !== undefined;
  if (count === undefined || first === undefined || !known || (along !== 'x' && along !== 'y')) {
    work.fail();
    return;
  }
  const step = evenly ? (count === 1 ? 0 : ((to ?? 0) - (from ?? 0)) / (count - 1)) : (every ?? 0);
  /** Of the first feature in the first turn: with `evenly`, that is what lands on the first place. */
  let begin: number | undefined;
  for (let turn = 0; turn < count; turn++) {
    // Repeats within repeats multiply, with or without anything to draw in them.
    if (work.turns.left <= 0) {
      if (work.turns.left === 0) tooMany(statement, work);
      work.turns.left = -1;
      return;
    }
    work.turns.left--;
    const index =
      indexName === undefined
        ? undefined
        : ({ name: indexName, value: { kind: 'number', value: first + turn, dim: evaluatedPlain, bare: true } } as const);
    const reading = readingOfBlock(statements, work.reading, index);
    const before = work.cuts.length;
    const beadsBefore = work.beads.length;
    for (const inner of statements) each(inner, withReading(work, reading));
    if (turn === 0) begin = evenly ? (firstPlace(work.cuts[before], work.beads[beadsBefore])?.[along] ?? 0) : undefined;
    const shift = turn * step + (evenly ? (from ?? 0) - (begin ?? 0) : 0);
    for (let i = before; i < work.cuts.length; i++) {
      const cut = work.cuts[i];
      if (cut !== undefined)
        work.cuts[i] = {
          ...cut,
          at: along === 'x' ? { x: cut.at.x + shift, y: cut.at.y } : { x: cut.at.x, y: cut.at.y + shift },
          ...(cut.mirror?.across === along ? { mirror: { ...cut.mirror, at: cut.mirror.at + shift } } : {}),
        };
    }
    moveBeads(work, beadsBefore, along === 'x' ? { x: shift, y: 0 } : { x: 0, y: shift });
    if (work.cuts.length + work.beads.length >= mostFeatures) return;
  }
};

/** Where the feature written first stands: a cut's centre, a bead's middle. */
const firstPlace = (cut: PendingCut | undefined, bead: PendingBead | undefined): XY | undefined => {
  if (cut === undefined || (bead !== undefined && bead.statement.span.start < cut.statement.span.start)) {
    return bead === undefined ? undefined : middleOf(bead);
  }
  return cut.at;
};
