/** What is turned up at the edges: chains of flanges, flanges on flanges, and what lies on them. */
import type { Argument, Statement } from '../../grammar/syntax.js';
import { angleField, itemsOf, lengthField, pathOf, spanOfPath, wordField } from './arguments.js';
import { readCut } from './cuts.js';
import { sayAngle } from './display.js';
import { type EdgeStepWord, kindOfStep, mayFollow, noFlatOn, readEdgeStep } from './edgeSteps.js';
import { either, nearestNames, together } from './nearest.js';
import { conventionField } from './outline.js';
import type { Direction, EdgeChain, EdgeStep, FlangeEnds, FlangeStep } from './part.js';
import { pathText, replace } from './reading.js';
import { readingOfBlock } from './scopes.js';
import { type FlangeIds, type GrowingChain, stepIds } from './stepIds.js';
import { type PartWork, withReading } from './work.js';

/** Names of the edges that a block may name; undefined when the outline can't be had, and any name is taken. */
type Edges = readonly string[] | undefined;
/** The edges of the outline, or of a flange. */
export interface EdgesHere {
  readonly names: Edges;
  /** On a drawn outline a flange's own ends are its start and finish, whatever the edge is called. */
  readonly drawn: boolean;
}

/** The flange an edge block stands in. */
interface ParentFlange {
  readonly id: string;
  readonly direction: Direction | undefined;
}

/** A name of an edge that exists here, or a finding. */
export const edgeName = (item: Argument, edges: Edges, work: PartWork): string | undefined => {
  const path = pathOf(item);
  const name = path === undefined ? undefined : pathText(path);
  if (path === undefined || name === undefined) {
    work.fail();
    return undefined;
  }
  if (edges === undefined || edges.includes(name)) return name;
  const near = nearestNames(name, edges);
  const cure =
    near.length > 0
      ? `Did you mean ${either(near)}?`
      : edges.length > 0
        ? `There is ${together(edges)}.`
        : 'Name one in the outline: right 5 as bottom.';
  const span = spanOfPath(path);
  work.reading.sink.report(span, 'name/unknown', `There is no edge ${name} here. ${cure}`, {
    fixes: near.map((other) => replace(span, other, `Change to ${other}`)),
  });
  work.fail();
  return undefined;
};

/** The chains of one `edge` block: one for each edge it names. */
export const readEdgeBlock = (
  statement: Statement,
  work: PartWork,
  here: EdgesHere,
  parent: ParentFlange | undefined,
  flanges: FlangeIds,
): readonly EdgeChain[] => {
  const named: { readonly name: string; readonly item: Argument }[] = [];
  for (const item of itemsOf(statement.fields.edges)) {
    const name = edgeName(item, here.names, work);
    if (name === undefined) continue;
    if (named.some((other) => other.name === name)) {
      work.reading.sink.report(item.span, 'name/repeated', `${name} is named twice in this block.`);
      continue;
    }
    named.push({ name, item });
  }
  const from = lengthField(work, statement, 'from', 'Where the stretch begins', 'not less than 0');
  const to = lengthField(work, statement, 'to', 'Where the stretch ends');
  if (from !== undefined && to !== undefined && to <= from) {
    work.reading.sink.report(
      statement.fields.to?.span ?? statement.span,
      'number/out-of-range',
      'The stretch must end farther along the edge than it begins.',
    );
    work.fail();
  }
  const statements = statement.block?.statements ?? [];
  const inner = withReading(work, readingOfBlock(statements, work.reading));
  const chains: readonly (GrowingChain & { readonly item: Argument })[] = named.map(({ name, item }) => ({
    name,
    item,
    prefix: parent === undefined ? name : `${parent.id}.${name}`,
    turning: name === 'free' ? parent?.direction : undefined,
    steps: [] as EdgeStep[],
    end: undefined,
  }));
  for (const step of statements) {
    if (step.broken || step.entry === undefined) {
      if (step.word.name !== 'let') work.fail();
      if (step.entry === undefined) continue;
    }
    readStep(step, inner, chains, flanges, here.drawn);
  }
  return chains.map(({ name, item, steps }) => ({
    edge: name,
    edgeSpan: work.relative(item.span),
    from,
    to,
    steps,
    span: work.relative(statement.span),
  }));
};

const readStep = (step: Statement, work: PartWork, chains: readonly GrowingChain[], flanges: FlangeIds, drawn: boolean): void => {
  const word = step.entry?.word;
  switch (word) {
    case 'flange':
      if (mayFollow(step, work, chains)) readFlange(step, work, chains, flanges, drawn);
      return;
    case 'hem':
    case 'curl':
    case 'joggle':
    case 'tab':
    case 'rolled':
      if (mayFollow(step, work, chains)) readEdgeStep(step, word satisfies EdgeStepWord, work, chains, flanges);
      return;
    case 'hole':
    case 'slot':
    case 'cut':
      readCutOfChain(step, word, work, chains, flanges);
      return;
    default:
      if (step.entry?.computed === false) work.later(step);
  }
};

/** A hole among the steps lies on what stands just above it. */
const readCutOfChain = (step: Statement, word: string, work: PartWork, chains: readonly GrowingChain[], flanges: FlangeIds): void => {
  const above = chains.map((chain) => chain.steps[chain.steps.length - 1]);
  if (step.fields.on === undefined) {
    if (chains.some((chain) => chain.steps.length === 0 && !flanges.counts.has(chain.prefix))) {
      work.reading.sink.report(
        step.word.span,
        'shape/no-flange-above',
        `Within edge braces a ${word} lies on the flange just above it, and there is none. Write it after the flange.`,
      );
      work.fail();
      return;
    }
    const why = above.map((last) => noFlatOn(kindOfStep(last), `A ${word}`)).find((said) => said !== undefined);
    if (why !== undefined) {
      work.reading.sink.report(step.word.span, 'shape/no-flat-there', why);
      work.fail();
      return;
    }
  }
  readCut(
    step,
    work,
    above.flatMap((last) => (last === undefined ? [] : [last.id])),
  );
};

const flangeEdges = (edge: string, drawn: boolean): readonly string[] => {
  if (drawn) return ['start', 'finish', 'free'];
  if (edge === 'top' || edge === 'bottom') return ['left', 'right', 'free'];
  if (edge === 'left' || edge === 'right') return ['bottom', 'top', 'free'];
  return ['start', 'finish', 'free'];
};

const readFlange = (step: Statement, work: PartWork, chains: readonly GrowingChain[], flanges: FlangeIds, drawn: boolean): void => {
  const length = lengthField(work, step, 'length', 'The flange’s length');
  const turn = step.fields.angle === undefined ? Math.PI / 2 : angleField(work, step, 'angle', 'The flange’s angle', 'turn');
  const radius = lengthField(work, step, 'radius', 'The inside radius', 'not less than 0');
  const taper = lengthField(work, step, 'taper', 'The flange’s length at the far end');
  const word = wordField(step, 'direction');
  const direction = word === 'up' || word === 'down' ? word : undefined;
  const ends = endsOf(step, work);
  if (length === undefined || turn === undefined || direction === undefined) work.fail();
  for (const { chain, id, name } of stepIds(step, work, chains, flanges)) {
    const edges: EdgeChain[] = [];
    const statements = step.block?.statements ?? [];
    const inner = withReading(work, readingOfBlock(statements, work.reading));
    const here = { names: flangeEdges(chain.name, drawn), drawn };
    for (const nested of statements) readInFlange(nested, inner, { id, direction }, here, edges, flanges);
    if (length === undefined || turn === undefined || direction === undefined) continue;
    const flange: FlangeStep = {
      kind: 'flange',
      id,
      name,
      length,
      lengthSpan: work.relative(step.fields.length?.span ?? step.span),
      direction,
      turn,
      turnSpan: work.relative(step.fields.angle?.span ?? step.fields.direction?.span ?? step.span),
      radius,
      ...(step.fields.radius === undefined ? {} : { radiusSpan: work.relative(step.fields.radius.span) }),
      ...(taper === undefined ? {} : { taper }),
      ...(ends === undefined ? {} : { ends }),
      convention: conventionField(step),
      span: work.relative(step.span),
      edges,
    };
    chain.steps.push(flange);
    chain.turning = direction;
  }
};

/** How the ends of a flange are cut, where the statement says so. */
const endsOf = (step: Statement, work: PartWork): FlangeEnds | undefined => {
  switch (wordField(step, 'ends')) {
    case 'square':
      return { kind: 'square' };
    case 'mitred': {
      const angle = angleField(work, step, 'endsAngle', 'The ends’ angle');
      if (angle === undefined) return undefined;
      if (angle > 0 && angle < Math.PI / 2 - 1e-9) return { kind: 'mitred', angle };
      work.reading.sink.report(
        step.fields.endsAngle?.span ?? step.span,
        'number/out-of-range',
        `The ends’ angle is how far each is cut away from square: more than 0° and less than 90°, not ${sayAngle(angle)}. A right mitre between two square flanges is 45.`,
      );
      work.fail();
      return undefined;
    }
    case 'back': {
      const distance = lengthField(work, step, 'endsBack', 'How far the ends stand back', 'not less than 0');
      return distance === undefined ? undefined : { kind: 'back', distance };
    }
    default:
      return undefined;
  }
};

const readInFlange = (
  nested: Statement,
  work: PartWork,
  flange: ParentFlange,
  here: EdgesHere,
  edges: EdgeChain[],
  flanges: FlangeIds,
): void => {
  if (nested.broken || nested.entry === undefined) {
    if (nested.word.name !== 'let') work.fail();
    if (nested.entry === undefined) return;
  }
  switch (nested.entry.word) {
    case 'edge':
      edges.push(...readEdgeBlock(nested, work, here, flange, flanges));
      return;
    case 'hole':
    case 'slot':
    case 'cut':
      readCut(nested, work, [flange.id]);
      return;
    default:
      if (!nested.entry.computed) work.later(nested);
  }
};
