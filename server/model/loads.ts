/** What a panel carries and which edges hold it. */
import type { Statement } from '../../grammar/syntax.js';
import { itemsOf, lengthField, numberField, pointField, wordField } from './arguments.js';
import { edgeName } from './chains.js';
import type { Load, Sourced } from './part.js';
import type { PartWork } from './work.js';

/** None when a value is missing or one of its edges is there (said). A wrong load spoils no shape, so the part stays whole. */
export const readLoad = (statement: Statement, around: PartWork, edgesHere: readonly string[] | undefined): readonly Load[] => {
  const { fields } = statement;
  const work: PartWork = { ...around, fail: () => undefined };
  const load = loadOf(statement, work);
  const all = fields.held?.kind === 'word';
  const held: Sourced<string>[] = [];
  let missed = false;
  for (const item of all ? [] : itemsOf(fields.held)) {
    const name = edgeName(item, edgesHere, work);
    if (name === undefined) missed = true;
    else if (held.some(({ value }) => value === name)) work.reading.sink.report(item.span, 'name/repeated', `${name} is named twice here.`);
    else held.push({ value: name, span: work.relative(item.span) });
  }
  if (load === undefined || missed || (!all && held.length === 0)) return [];
  return [
    {
      load,
      held: all ? 'all' : held,
      fixing: wordField(statement, 'fixing') === 'clamped' ? 'clamped' : 'simply',
      span: work.relative(statement.span),
    },
  ];
};

const loadOf = (statement: Statement, work: PartWork): Load['load'] | undefined => {
  const { fields } = statement;
  if (wordField(statement, 'load') === 'spread') {
    const pressure = numberField(work, statement, 'pressure', 'pressure', 'The pressure', 'more than 0');
    return pressure === undefined ? undefined : { kind: 'spread', pressure };
  }
  const force = numberField(work, statement, 'force', 'force', 'The force', 'more than 0');
  const at = pointField(work, statement, 'at');
  const width = fields.width === undefined ? 0 : lengthField(work, statement, 'width', 'The patch’s width');
  const height = fields.height === undefined ? 0 : lengthField(work, statement, 'height', 'The patch’s height');
  if (force === undefined || at === undefined || width === undefined || height === undefined) return undefined;
  return { kind: 'patch', force, at, width, height };
};
