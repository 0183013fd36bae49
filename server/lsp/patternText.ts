import type { Pattern, StatementEntry, ValueKind } from '../../grammar/vocabulary/pattern.js';

/**
 * What to type for a statement, with stops in the required places (snippet syntax of the protocol). Optional arguments are left to
 * completion, which offers them one by one.
 */
export const snippetOf = (entry: StatementEntry): string => {
  let stop = 0;
  const text = (pattern: Pattern): string => {
    switch (pattern.kind) {
      case 'word':
        return pattern.word;
      case 'sign':
        return pattern.sign;
      case 'choice':
        return `\${${++stop}|${pattern.words.join(',')}|}`;
      // An empty stop: a word written there would be taken for the beginning of a name, and hide all the others from the list.
      case 'name':
        return ++stop === 1 ? '$1' : `\${${stop}:${pattern.field}}`;
      case 'value':
      case 'newName':
      case 'size':
      case 'run':
        return `\${${++stop}:${pattern.field}}`;
      case 'text':
        return `"\${${++stop}:${pattern.field}}"`;
      case 'list':
        return Array.from({ length: pattern.least ?? 1 }, () => text(pattern.item)).join(', ');
      case 'sequence':
        return pattern.items.map(text).filter(Boolean).join(' ');
      case 'optional':
        return '';
      case 'anyOrder':
        return pattern.items.map(text).filter(Boolean).join(' ');
      case 'oneOf':
        return pattern.items[0] === undefined ? '' : text(pattern.items[0]);
      case 'block':
        return '{\n\t$0\n}';
    }
  };
  const rest = text(entry.pattern);
  return rest === '' ? entry.word : `${entry.word} ${rest}`;
};

/** Whether a statement goes on with a name there is already, such as that of a sheet or an edge: one chooses it from a list. */
export const beginsWithName = ({ pattern }: StatementEntry): boolean => {
  const first = (at: Pattern | undefined): boolean =>
    at?.kind === 'name' || (at?.kind === 'sequence' && first(at.items[0])) || (at?.kind === 'list' && first(at.item));
  return first(pattern);
};

/** Every step of a pattern, outer ones first. */
function* stepsOf(pattern: Pattern): Generator<Pattern> {
  yield pattern;
  if (pattern.kind === 'sequence' || pattern.kind === 'anyOrder' || pattern.kind === 'oneOf')
    for (const item of pattern.items) yield* stepsOf(item);
  if (pattern.kind === 'optional' || pattern.kind === 'list') yield* stepsOf(pattern.item);
}

/** What kind of value an argument must be, by its field. */
export const wantedOf = (entry: StatementEntry, field: string): ValueKind | undefined => {
  for (const step of stepsOf(entry.pattern)) {
    if (step.kind === 'value' && step.field === field) return step.want;
    if (step.kind === 'list' && step.field === field && step.item.kind === 'value') return step.item.want;
  }
  return undefined;
};

/** The field that a literal word of a statement belongs to: its own, or that of the value it introduces. */
export const fieldOfWord = (entry: StatementEntry, word: string): string | undefined => {
  for (const step of stepsOf(entry.pattern)) {
    if (step.kind === 'word' && step.word === word && step.field !== undefined) return step.field;
    if (step.kind === 'choice' && step.words.some((one) => one === word || one.split(' ').includes(word))) return step.field;
    if (step.kind !== 'sequence') continue;
    const at = step.items.findIndex((item) => item.kind === 'word' && item.word === word);
    const next = at < 0 ? undefined : step.items[at + 1];
    const field = next === undefined ? undefined : firstField(next);
    if (field !== undefined) return field;
  }
  return undefined;
};

const firstField = (pattern: Pattern): string | undefined => {
  for (const step of stepsOf(pattern)) if ('field' in step && step.field !== undefined) return step.field;
  return undefined;
};
