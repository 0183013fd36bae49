/** Beads and bands: the die, the way the crown stands, the path and the ends, each with the places of its numbers. */
import type { Statement } from '../../grammar/syntax.js';
import { lengthField, newNameField, pathOf, wordField } from './arguments.js';
import { notCopied } from './bead-copies.js';
import { pathOfBead } from './bead-paths.js';
import { sayLength } from './display.js';
import type { Bead, BeadEnd, Direction, Outline } from './part.js';
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

/** The side a row names, if it names one. */
export const directionField = (row: Statement): Direction | undefined => {
  const word = wordField(row, 'direction');
  return word === 'up' || word === 'down' ? word : undefined;
};
