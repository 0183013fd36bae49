/** Beads and bands: the die, the way the crown stands, the path and the ends, each with the places of its numbers. */
import type { Argument, Span, Statement } from '../../grammar/syntax.js';
import { itemsOf, lengthField, newNameField, pathOf, pointOf, wordField } from './arguments.js';
import { notCopied } from './bead-copies.js';
import { edgeName } from './chains.js';
import { sayLength } from './display.js';
import type { Bead, BeadEnd, BeadPath, Direction, Outline, Sourced, XY } from './part.js';
import type { Entry } from './reading.js';
import { readingOfBlock } from './scopes.js';
import type { Die } from './shop.js';
import { entryNamed } from './things.js';
import { mostFeatures, type PartWork, withReading } from './work.js';

/** Points nearer than this are one, mm. */
const together = 0.001;

/** A die of the shop by its entry. */
export type DieAt = (entry: Entry) => Die | undefined;

const pathWords = ['line', 'rectangle', 'path', 'along', 'arc', 'circle'] as const;

/** Reads one bead or band into the work; a bead without a die is kept for its place, one without a path or a side is not. */
export const readBead = (statement: Statement, work: PartWork, outline: Outline | undefined, dieAt: DieAt): void => {
  const kind = statement.entry?.word === 'band' ? 'band' : 'bead';
  const name = newNameField(statement, 'name');
  const statements = statement.block?.statements ?? [];
  const inner = withReading(work, readingOfBlock(statements, work.reading));
  if (statements.some((row) => (row.broken || row.entry === undefined) && row.word.name !== 'let')) inner.fail();
  if (name === undefined || statement.block === undefined) {
    work.fail();
    return;
  }
  const rows = statements.filter((row) => row.entry !== undefined && row.entry.word !== 'let');
  const die = theOnly(rows, ['die'], inner);
  const direction = theOnly(rows, ['up', 'down'], inner);
  const path = theOnly(rows, pathWords, inner);
  const ends = theOnly(rows, ['ends'], inner);
  const width = theOnly(rows, ['width'], inner);
  reportMissing(statement, name.name, kind, { die, direction, path, width }, rows, work);
  const read = die === undefined ? undefined : dieOf(die, 'die', inner, dieAt);
  const wide = width === undefined ? undefined : lengthField(inner, width, 'width', 'The band’s width');
  if (read !== undefined && die !== undefined) fitsItsUse(kind, read, die, wide, width, inner);
  const drawn = path === undefined ? undefined : pathOfBead(path, inner, outline);
  if (drawn === undefined || path === undefined || direction === undefined || (kind === 'band' && wide === undefined)) {
    work.fail();
    return;
  }
  if (work.beads.length >= mostFeatures) {
    work.reading.sink.report(
      statement.word.span,
      'number/out-of-range',
      `This makes more than ${mostFeatures} features in one part. Look at the counts.`,
    );
    work.fail();
    return;
  }
  const ring = drawn.kind === 'rectangle' || drawn.kind === 'circle';
  if (ring && ends !== undefined) {
    work.reading.sink.report(
      ends.span,
      'bead/ring-with-ends',
      `A bead all round has neither start nor finish, so it takes no ends. Take this line out.`,
      { severity: 'warning', fixes: [{ title: 'Take out the ends', edits: [{ span: ends.span, text: '' }] }] },
    );
  }
  const start = endOf(ends, 'start') ?? 'open';
  work.beads.push({
    kind,
    id: name.name,
    die: read === undefined || die === undefined ? undefined : { value: read, span: work.relative(die.fields.die?.span ?? die.span) },
    direction: direction.entry?.word === 'down' ? 'down' : 'up',
    path: drawn,
    start,
    finish: endOf(ends, 'finish') ?? start,
    width: wide,
    copy: notCopied,
    nameSpan: work.relative(name.span),
    pathSpan: work.relative(path.span),
    span: work.relative(statement.span),
    statement,
  });
};

const endOf = (row: Statement | undefined, field: string): BeadEnd | undefined => {
  const word = row === undefined ? undefined : wordField(row, field);
  return word === 'closed' || word === 'open' || word === 'run off' ? word : undefined;
};

/** The one row that begins with any of the words; a second one is reported at its first word, and the first counts. */
const theOnly = (rows: readonly Statement[], words: readonly string[], work: PartWork): Statement | undefined => {
  const [first, ...more] = rows.filter((row) => words.includes(row.entry?.word ?? ''));
  for (const row of more) {
    const [a, b] = [first?.word.name ?? '', row.word.name];
    const why =
      a === b
        ? `${a} is already given above, in the same braces.`
        : words.includes('up')
          ? 'A crown stands up or down, and this bead says both.'
          : `A bead has one path, and ${a} is given above.`;
    work.reading.sink.report(row.word.span, 'bead/said-twice', `${why} Keep one of the two.`);
    work.fail();
  }
  return first;
};

interface Given {
  readonly die: Statement | undefined;
  readonly direction: Statement | undefined;
  readonly path: Statement | undefined;
  readonly width: Statement | undefined;
}
/** One message at the name for everything that is missing. A row that could not be read has been spoken of already. */
const reportMissing = (
  statement: Statement,
  name: string,
  kind: Bead['kind'],
  given: Given,
  rows: readonly Statement[],
  work: PartWork,
): void => {
  const unread = (statement.block?.statements ?? []).some((row) => row.entry === undefined);
  const at = newNameField(statement, 'name');
  if (unread || at === undefined || statement.broken) return;
  const example = kind === 'band' ? 'step_16' : 'half_round_3_8';
  const missing = [
    ...(given.die === undefined ? [`the die it is rolled with (die ${example})`] : []),
    ...(given.direction === undefined ? ['which way its crown stands (up or down)'] : []),
    ...(given.path === undefined ? ['its path (line from (4, 4) to (12, 4), or rectangle inset 2 corner 1)'] : []),
    ...(kind === 'band' && given.width === undefined ? ['how wide it is over both shoulders (width 3)'] : []),
  ];
  if (missing.length === 0) return;
  const words = missing.length === 1 ? missing[0] : `${missing.slice(0, -1).join(', ')} and ${missing[missing.length - 1]}`;
  const lead = rows.length === 0 ? `${name} is empty. Say ` : `${kind === 'band' ? 'Band' : 'Bead'} ${name} doesn’t say `;
  work.reading.sink.report(at.span, 'bead/incomplete', `${lead}${words}.`);
};

/** The die a row names; undefined, with the reason said, when it can't be had. */
export const dieOf = (row: Statement, field: string, work: PartWork, dieAt: DieAt): Die | undefined => {
  const path = pathOf(row.fields[field]);
  if (path === undefined) return undefined;
  const steps = path.map((step) => step.name);
  work.reading.dependencies?.thing('die', steps);
  const entry = entryNamed('die', path, work.reading);
  return entry === undefined ? undefined : dieAt(entry);
};

const shapes: Readonly<Record<Die['shape'], string>> = {
  round: 'a half-round bead',
  vee: 'a sharp bead',
  flat: 'a flat-topped bead',
  step: 'a single step',
  tipping: 'a tipped edge',
};
const fitsItsUse = (
  kind: Bead['kind'],
  die: Die,
  dieRow: Statement,
  wide: number | undefined,
  width: Statement | undefined,
  work: PartWork,
): void => {
  const { report } = work.reading.sink;
  const named = dieRow.fields.die?.span ?? dieRow.span;
  if (kind === 'band' && die.shape !== 'step') {
    report(
      named,
      'bead/wrong-die',
      `A band is two steps side by side and wants a step die; ${die.name} leaves ${shapes[die.shape]}. Name a step die, or make this a bead.`,
    );
    return;
  }
  if (kind === 'bead' && die.shape === 'tipping') {
    report(
      named,
      'bead/wrong-die',
      `${die.name} is a tipping die: it turns up an edge and leaves no bead. Name a round, vee, flat or step die, or write tip.`,
    );
    return;
  }
  const lacks = [...(die.depth === undefined ? ['depth'] : []), ...(die.width === undefined && die.shape !== 'step' ? ['width'] : [])];
  if (lacks.length > 0) {
    report(
      named,
      'bead/die-without-size',
      `Die ${die.name} doesn’t say its ${lacks.join(' and its ')}, so nothing can be worked out of this ${kind}. Measure one it has rolled and write it in the die’s braces.`,
    );
  }
  if (kind === 'band' && wide !== undefined && die.width !== undefined && wide < 2 * die.width - together) {
    const unit = work.reading.names.units;
    report(
      width?.fields.width?.span ?? dieRow.span,
      'bead/band-too-narrow',
      `The two shoulders of die ${die.name} take ${sayLength(2 * die.width, unit)}, and the band is ${sayLength(wide, unit)} over both. Make it wider.`,
    );
  }
};

const sourced = <T>(work: PartWork, value: T | undefined, argument: Argument | undefined): Sourced<T> | undefined =>
  value === undefined || argument === undefined ? undefined : { value, span: work.relative(argument.span) };
const pointAt = (work: PartWork, argument: Argument | undefined): Sourced<XY> | undefined =>
  sourced(work, pointOf(work, argument)?.at, argument);

/** Undefined when a value is missing or the path can't be (said). */
const pathOfBead = (row: Statement, work: PartWork, outline: Outline | undefined): BeadPath | undefined => {
  const { fields } = row;
  const cornerAsked = fields.corner !== undefined;
  const corner = cornerAsked
    ? sourced(work, lengthField(work, row, 'corner', 'The corner’s radius', 'not less than 0'), fields.corner)
    : undefined;
  if (cornerAsked && corner === undefined) return undefined;
  const inset = (): Sourced<number> | undefined =>
    sourced(work, lengthField(work, row, 'inset', 'The inset', 'not less than 0'), fields.inset);
  switch (row.entry?.word) {
    case 'line': {
      const from = pointAt(work, fields.from);
      const to = pointAt(work, fields.to);
      if (from === undefined || to === undefined) return undefined;
      return long([from, to], [fields.from, fields.to], work) ? { kind: 'line', from, to } : undefined;
    }
    case 'path': {
      const items = itemsOf(fields.points);
      const points = items.flatMap((item) => pointAt(work, item) ?? []);
      if (points.length < 2 || points.length !== items.length) return undefined;
      return long(points, items, work) ? { kind: 'path', points, corner } : undefined;
    }
    case 'rectangle': {
      const by = inset();
      if (by === undefined) return undefined;
      if (outline !== undefined && !outline.rectangle) {
        work.reading.sink.report(
          row.word.span,
          'bead/not-a-rectangle',
          'rectangle follows the four edges of a rectangular outline, and this one is drawn. Write along and its edges, or path and its points.',
        );
        return undefined;
      }
      return roomInside(by.value, fields.inset?.span ?? row.span, outline, work) ? { kind: 'rectangle', inset: by, corner } : undefined;
    }
    case 'along': {
      const by = inset();
      const edges = edgesInOrder(row, work, outline);
      return by === undefined || edges === undefined ? undefined : { kind: 'along', edges, inset: by, corner };
    }
    case 'arc': {
      const from = pointAt(work, fields.from);
      const through = pointAt(work, fields.through);
      const to = pointAt(work, fields.to);
      if (from === undefined || through === undefined || to === undefined) return undefined;
      return bends(from.value, through.value, to.value) ? { kind: 'arc', from, through, to } : noArc(row, work);
    }
    case 'circle': {
      const centre = pointAt(work, fields.centre);
      const radius = sourced(work, lengthField(work, row, 'radius', 'The radius'), fields.radius);
      return centre === undefined || radius === undefined ? undefined : { kind: 'circle', centre, radius };
    }
    default:
      return undefined;
  }
};

/** Neighbouring points must be apart. */
const long = (points: readonly Sourced<XY>[], written: readonly (Argument | undefined)[], work: PartWork): boolean => {
  for (const [i, point] of points.entries()) {
    const before = points[i - 1];
    if (before === undefined || Math.hypot(point.value.x - before.value.x, point.value.y - before.value.y) > together) continue;
    work.reading.sink.report(
      written[i]?.span ?? point.span,
      'bead/no-length',
      'This point is the one before it, so there is nothing to roll between them.',
    );
    return false;
  }
  return true;
};

const bends = (a: XY, b: XY, c: XY): boolean => {
  const chord = Math.hypot(c.x - a.x, c.y - a.y);
  const off = Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
  return chord > together && off / chord > together;
};
const noArc = (row: Statement, work: PartWork): undefined => {
  work.reading.sink.report(
    row.fields.through?.span ?? row.span,
    'bead/no-arc',
    'These three points lie on one straight line, so no arc goes through them. Move the middle one off it, or write line from … to ….',
  );
  return undefined;
};

const roomInside = (inset: number, span: Span, outline: Outline | undefined, work: PartWork): boolean => {
  if (outline === undefined) return true;
  const xs = outline.edges.map((edge) => edge.to.x);
  const ys = outline.edges.map((edge) => edge.to.y);
  const least = Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  if (2 * inset < least - together) return true;
  const unit = work.reading.names.units;
  work.reading.sink.report(
    span,
    'bead/inset-too-great',
    `An inset of ${sayLength(inset, unit)} on both sides leaves nothing of an outline ${sayLength(least, unit)} across. It must be less than ${sayLength(least / 2, unit)}.`,
  );
  return false;
};

/** Edges named once each, every one beside the one before; undefined when any is wrong (said). */
const edgesInOrder = (row: Statement, work: PartWork, outline: Outline | undefined): readonly Sourced<string>[] | undefined => {
  const names = outline?.edges.flatMap((edge) => edge.name ?? []);
  const items = itemsOf(row.fields.edges);
  const edges: Sourced<string>[] = [];
  for (const item of items) {
    const name = edgeName(item, names, work);
    if (name === undefined) return undefined;
    if (edges.some((edge) => edge.value === name)) {
      work.reading.sink.report(item.span, 'name/repeated', `${name} is named twice in this path.`);
      return undefined;
    }
    const before = edges[edges.length - 1]?.value;
    if (before !== undefined && outline !== undefined && !beside(before, name, outline)) {
      work.reading.sink.report(
        item.span,
        'bead/edges-apart',
        `${name} doesn’t meet ${before}, so a bead can’t go on from the one to the other. Name edges in the order they follow round the outline, or write two beads.`,
      );
      return undefined;
    }
    edges.push({ value: name, span: work.relative(item.span) });
  }
  return edges.length === 0 ? undefined : edges;
};
const beside = (a: string, b: string, { edges }: Outline): boolean => {
  const i = edges.findIndex((edge) => edge.name === a);
  const j = edges.findIndex((edge) => edge.name === b);
  const apart = Math.abs(i - j);
  return i >= 0 && j >= 0 && (apart === 1 || apart === edges.length - 1);
};

/** The side a row names, if it names one. */
export const directionField = (row: Statement): Direction | undefined => {
  const word = wordField(row, 'direction');
  return word === 'up' || word === 'down' ? word : undefined;
};
