/** Brake-formed sections: legs and turns in order across the strip. */
import type { Span, Statement } from '../../grammar/syntax.js';
import { angleField, lengthField, newNameField, wordField } from './arguments.js';
import { readCut } from './cuts.js';
import { isEdgeStepWord, mayFollow, noFlatOn, readEdgeStep } from './edgeSteps.js';
import { either, nearestNames, together } from './nearest.js';
import { conventionField } from './outline.js';
import type { Convention, Cut, Direction, Section, SectionEdgeStep, SectionStep } from './part.js';
import { replace } from './reading.js';
import { settleCuts } from './settledCuts.js';
import { type FlangeIds, type GrowingChain, noFlanges } from './stepIds.js';
import { isAside, type PartWork } from './work.js';

type Rows = ReadonlyMap<string, Statement>;

export const readSection = (
  statements: readonly Statement[],
  rows: Rows,
  work: PartWork,
): Pick<Section, 'kind' | 'length' | 'convention' | 'steps' | 'firstEdge' | 'lastEdge' | 'cuts'> => {
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
  const flanges = noFlanges();
  const ends = readEnds(statements, work, flanges);
  const lies = (path: readonly string[], span: Span): string | undefined => {
    const said = path.join('.');
    const id = legs.get(said) ?? flanges.ids.get(said);
    if (id !== undefined) {
      const why = noFlatOn(flanges.kinds.get(id), 'A cut');
      if (why === undefined) return id;
      sink.report(span, 'shape/no-flat-there', why);
      return undefined;
    }
    const known = [...legs.keys(), ...flanges.ids.keys()];
    const near = nearestNames(said, known);
    const cure = near.length > 0 ? `Did you mean ${either(near)}?` : `There is ${together(known)}.`;
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
    ...ends,
    cuts,
  };
};

/** What stands before the first leg and after the last: the two long edges of the strip. */
const readEnds = (statements: readonly Statement[], work: PartWork, flanges: FlangeIds): Pick<Section, 'firstEdge' | 'lastEdge'> => {
  const of = (word: string): readonly number[] => statements.flatMap(({ entry }, i) => (entry?.word === word ? [i] : []));
  const [legs, turns] = [of('leg'), of('turn')];
  const [first, last] = [legs[0], legs.at(-1)];
  const before: Statement[] = [];
  const after: Statement[] = [];
  for (const [i, step] of statements.entries()) {
    const word = step.entry?.word;
    if (!isEdgeStepWord(word)) continue;
    if (first === undefined || last === undefined) work.fail();
    else if (i < first) before.unshift(step);
    else if (i > last) after.push(step);
    else {
      const cure =
        word === 'joggle'
          ? 'A set-off between two legs is two turns: turn up 45, a leg, turn down 45'
          : word === 'rolled'
            ? 'A large bend between two legs is a turn with its radius: turn up 90 radius 40'
            : `Write the ${word} before the first leg or after the last`;
      work.reading.sink.report(
        step.word.span,
        'shape/nothing-can-follow',
        `A ${word} stands at an edge of the strip, and here legs follow it. ${cure}.`,
      );
      work.fail();
    }
  }
  const way = (at: number | undefined): Direction | undefined => {
    const written = at === undefined ? undefined : wordField(statements[at] as Statement, 'direction');
    return written === 'up' || written === 'down' ? written : undefined;
  };
  const read = (chain: GrowingChain, own: readonly Statement[]): readonly SectionEdgeStep[] => {
    for (const step of own) {
      const word = step.entry?.word;
      if (isEdgeStepWord(word) && mayFollow(step, work, [chain])) readEdgeStep(step, word, work, [chain], flanges);
    }
    return chain.steps.flatMap((step) => (step.kind === 'flange' ? [] : [step]));
  };
  return {
    firstEdge: read({ name: 'first', prefix: 'first', turning: way(turns[0]), steps: [], end: undefined, inward: true }, before),
    lastEdge: read({ name: 'last', prefix: 'last', turning: way(turns.at(-1)), steps: [], end: undefined }, after),
  };
};
