/** Brake-formed sections: legs and turns in order across the strip. */
import type { Span, Statement } from '../../grammar/syntax.js';
import { angleField, lengthField, newNameField, wordField } from './arguments.js';
import { readCut } from './cuts.js';
import { either, nearestNames, together } from './nearest.js';
import { conventionField } from './outline.js';
import type { Convention, Cut, Section, SectionStep } from './part.js';
import { replace } from './reading.js';
import { settleCuts } from './settledCuts.js';
import { isAside, type PartWork } from './work.js';

type Rows = ReadonlyMap<string, Statement>;

export const readSection = (
  statements: readonly Statement[],
  rows: Rows,
  work: PartWork,
): Pick<Section, 'kind' | 'length' | 'convention' | 'steps' | 'cuts'> => {
  const { sink } = work.reading;
  const lengthRow = rows.get('length');
  const length = lengthRow === undefined ? undefined : lengthField(work, lengthRow, 'length', 'The section’s length');
  const steps: SectionStep[] = [];
  const legs = new Map<string, string>();
  let convention: Convention | undefined;
  let last: 'leg' | 'turn' | undefined;
  let legCount = 0;
  for (const statement of statements) {
    if (isAside(statement)) continue;
    switch (statement.entry?.word) {
      case 'leg': {
        if (last === 'leg') {
          sink.report(statement.word.span, 'shape/legs-without-turn', 'Between two legs there must be a turn: turn up 90.');
          work.fail();
        }
        last = 'leg';
        legCount++;
        const size = lengthField(work, statement, 'length', 'The leg’s length');
        const name = newNameField(statement, 'as');
        legs.set(`leg.${legCount}`, `leg.${legCount}`);
        if (name !== undefined) {
          if (legs.has(name.name))
            sink.report(name.span, 'name/repeated', `${name.name} already names another leg of this section. Give this one another name.`);
          legs.set(name.name, `leg.${legCount}`);
        }
        if (size !== undefined) {
          const lengthSpan = work.relative(statement.fields.length?.span ?? statement.span);
          steps.push({ kind: 'leg', length: size, lengthSpan, name: name?.name, span: work.relative(statement.span) });
        }
        break;
      }
      case 'turn': {
        if (last !== 'leg') {
          sink.report(
            statement.word.span,
            'shape/turn-without-leg',
            last === undefined ? 'A section begins with a leg: leg 15.' : 'Between two turns there must be a leg: leg 15.',
          );
          work.fail();
        }
        last = 'turn';
        const direction = wordField(statement, 'direction');
        const turn = statement.fields.angle === undefined ? Math.PI / 2 : angleField(work, statement, 'angle', 'The turn', 'turn');
        const radius = lengthField(work, statement, 'radius', 'The inside radius', 'not less than 0');
        const own = conventionField(statement);
        if (own !== undefined && convention !== undefined && own !== convention) {
          const span = statement.fields.convention?.span ?? statement.span;
          sink.report(
            span,
            'shape/mixed-conventions',
            `The legs above are measured ${convention} and these ${own}. A section is measured one way throughout.`,
          );
          work.fail();
        }
        convention ??= own;
        if (turn !== undefined && (direction === 'up' || direction === 'down')) {
          steps.push({ kind: 'turn', turn, direction, radius, span: work.relative(statement.span) });
        } else work.fail();
        break;
      }
      case 'hole':
      case 'slot':
      case 'cut':
        readCut(statement, work, undefined);
        break;
      default:
        if (statement.entry?.computed === false) work.later(statement);
    }
  }
  if (last === 'turn') {
    const turns = statements.filter((statement) => statement.entry?.word === 'turn');
    const end = turns[turns.length - 1];
    if (end !== undefined)
      sink.report(end.word.span, 'shape/turn-without-leg', 'A section ends with a leg: add the leg that this turn folds up.');
    work.fail();
  }
  const lies = (path: readonly string[], span: Span): string | undefined => {
    const said = path.join('.');
    const id = legs.get(said);
    if (id !== undefined) return id;
    const near = nearestNames(said, legs.keys());
    const cure = near.length > 0 ? `Did you mean ${either(near)}?` : `There is ${together([...legs.keys()])}.`;
    sink.report(span, 'name/unknown', `There is no ${'leg'} ${said} here. ${cure}`, {
      fixes: near.map((other) => replace(span, other, `Change to ${other}`)),
    });
    return undefined;
  };
  const cuts: readonly Cut[] = settleCuts(work, { lies, base: 'leg.1' });
  return {
    kind: 'section',
    length:
      length === undefined || lengthRow === undefined
        ? undefined
        : { value: length, span: work.relative(lengthRow.fields.length?.span ?? lengthRow.span) },
    convention: convention ?? 'outside',
    steps,
    cuts,
  };
};
