/** What is turned up at the edges: chains of flanges, flanges on flanges, and what lies on them. */
import type { Argument, Statement } from '../../grammar/syntax.js';
import { angleField, itemsOf, lengthField, newNameField, pathOf, spanOfPath, wordField } from './arguments.js';
import { readCut } from './cuts.js';
import { either, nearestNames, together } from './nearest.js';
import { conventionField } from './outline.js';
import type { EdgeChain, EdgeStep, FlangeStep } from './part.js';
import { pathText, replace } from './reading.js';
import { readingOfBlock } from './scopes.js';
import { type PartWork, withReading } from './work.js';

/** Where flanges may be found by name: `top` (its first), `top.2`, `lip`. */
export interface FlangeIds {
  readonly ids: Map<string, string>;
  /** Steps so far on each edge. */
  readonly counts: Map<string, number>;
}
export const noFlanges = (): FlangeIds => ({ ids: new Map(), counts: new Map() });

/** Names of the edges that a block may name; undefined when the outline can't be had, and any name is taken. */
type Edges = readonly string[] | undefined;
/** The edges of the outline, or of a flange. */
export interface EdgesHere {
  readonly names: Edges;
  /** On a drawn outline a flange's own ends are its start and finish, whatever the edge is called. */
  readonly drawn: boolean;
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
  parent: string | undefined,
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
  const chains = named.map(({ name, item }) => ({
    name,
    item,
    prefix: parent === undefined ? name : `${parent}.${name}`,
    steps: [] as EdgeStep[],
  }));
  for (const step of statements) {
    if (step.broken || step.entry === undefined) {
      if (step.word.name !== 'let') work.fail();
      if (step.entry === undefined) continue;
    }
    readEdgeStep(step, inner, chains, flanges, here.drawn);
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

interface GrowingChain {
  readonly name: string;
  readonly prefix: string;
  readonly steps: EdgeStep[];
}

const readEdgeStep = (step: Statement, work: PartWork, chains: readonly GrowingChain[], flanges: FlangeIds, drawn: boolean): void => {
  const word = step.entry?.word;
  switch (word) {
    case 'flange':
      readFlange(step, work, chains, flanges, drawn);
      return;
    case 'hem':
    case 'curl':
    case 'joggle':
    case 'tab':
    case 'rolled':
      work.later(step);
      for (const chain of chains) {
        const id = nextId(chain, flanges);
        register(id, id, flanges);
      }
      return;
    case 'hole':
    case 'slot':
    case 'cut': {
      const above = chains.map((chain) => chain.steps[chain.steps.length - 1]);
      if (chains.some((chain) => chain.steps.length === 0 && !flanges.counts.has(chain.prefix)) && step.fields.on === undefined) {
        work.reading.sink.report(
          step.word.span,
          'shape/no-flange-above',
          `Within edge braces a ${word} lies on the flange just above it, and there is none. Write it after the flange.`,
        );
        work.fail();
        return;
      }
      readCut(
        step,
        work,
        above.flatMap((last) => (last === undefined ? [] : [last.id])),
      );
      return;
    }
    default:
      if (step.entry?.computed === false) work.later(step);
  }
};

const nextId = (chain: GrowingChain, flanges: FlangeIds): string => {
  const n = (flanges.counts.get(chain.prefix) ?? 0) + 1;
  flanges.counts.set(chain.prefix, n);
  return `${chain.prefix}.${n}`;
};
const register = (place: string, id: string, flanges: FlangeIds): void => {
  flanges.ids.set(place, id);
  flanges.ids.set(id, id);
  if (place.endsWith('.1')) flanges.ids.set(place.slice(0, -2), id);
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
  const direction = wordField(step, 'direction');
  for (const [field, word] of [
    ['taper', 'flange … to'],
    ['ends', 'flange … ends'],
  ] as const) {
    if (step.fields[field] !== undefined && wordField(step, field) !== 'square') work.later(step, word);
  }
  if (length === undefined || turn === undefined || (direction !== 'up' && direction !== 'down')) work.fail();
  const name = newNameField(step, 'as');
  if (name !== undefined && chains.length > 1) {
    work.reading.sink.report(
      name.span,
      'name/repeated',
      `${name.name} would name ${chains.length} flanges at once, one on each edge. Give this edge a block of its own, or leave the name out.`,
    );
  }
  for (const [i, chain] of chains.entries()) {
    const place = nextId(chain, flanges);
    const own = name !== undefined && i === 0 ? name.name : undefined;
    if (own !== undefined && flanges.ids.get(own) === own && name !== undefined) {
      work.reading.sink.report(name.span, 'name/repeated', `${own} already names another flange of this part. Give this one another name.`);
    }
    const id = own !== undefined && !flanges.ids.has(own) ? own : place;
    register(place, id, flanges);
    const edges: EdgeChain[] = [];
    const statements = step.block?.statements ?? [];
    const inner = withReading(work, readingOfBlock(statements, work.reading));
    for (const nested of statements) readInFlange(nested, inner, id, { names: flangeEdges(chain.name, drawn), drawn }, edges, flanges);
    if (length === undefined || turn === undefined || (direction !== 'up' && direction !== 'down')) continue;
    const flange: FlangeStep = {
      kind: 'flange',
      id,
      name: own,
      length,
      lengthSpan: work.relative(step.fields.length?.span ?? step.span),
      direction,
      turn,
      turnSpan: work.relative(step.fields.angle?.span ?? step.fields.direction?.span ?? step.span),
      radius,
      convention: conventionField(step),
      span: work.relative(step.span),
      edges,
    };
    chain.steps.push(flange);
  }
};

const readInFlange = (nested: Statement, work: PartWork, id: string, here: EdgesHere, edges: EdgeChain[], flanges: FlangeIds): void => {
  if (nested.broken || nested.entry === undefined) {
    if (nested.word.name !== 'let') work.fail();
    if (nested.entry === undefined) return;
  }
  switch (nested.entry.word) {
    case 'edge':
      edges.push(...readEdgeBlock(nested, work, here, id, flanges));
      return;
    case 'hole':
    case 'slot':
    case 'cut':
      readCut(nested, work, [id]);
      return;
    default:
      if (!nested.entry.computed) work.later(nested);
  }
};
