/** Other work that stiffens a panel without a bead: tipped edges, cross-breaks, and the pressed holes among its cuts. */
import type { Statement } from '../../grammar/syntax.js';
import { angleField, itemsOf, lengthField, newNameField } from './arguments.js';
import { type DieAt, dieOf, directionField } from './beads.js';
import { edgeName } from './chains.js';
import type { CrossBreak, Cut, Dimple, EdgeChain, Tip } from './part.js';
import type { PartWork } from './work.js';

/** Reads `tip`. `sofar` are the tips before it, which number those without a name. None when a value is missing (said). */
export const readTip = (
  statement: Statement,
  work: PartWork,
  edgesHere: readonly string[] | undefined,
  sofar: readonly Tip[],
  dieAt: DieAt,
): readonly Tip[] => {
  const edges: { value: string; span: Tip['span'] }[] = [];
  for (const item of itemsOf(statement.fields.edges)) {
    const name = edgeName(item, edgesHere, work);
    if (name === undefined) continue;
    if (edges.some(({ value }) => value === name) || sofar.some((tip) => tip.edges.some(({ value }) => value === name))) {
      work.reading.sink.report(item.span, 'name/repeated', `${name} is tipped already. An edge is tipped once.`);
      continue;
    }
    edges.push({ value: name, span: work.relative(item.span) });
  }
  const width = lengthField(work, statement, 'width', 'The width of the tipped edge');
  const turn = statement.fields.angle === undefined ? Math.PI / 2 : angleField(work, statement, 'angle', 'The turn', 'turn');
  const direction = directionField(statement);
  const name = newNameField(statement, 'as');
  if (name !== undefined && sofar.some((tip) => tip.id === name.name)) {
    work.reading.sink.report(
      name.span,
      'name/repeated',
      `${name.name} already names another feature of this part. Give this one another name.`,
    );
  }
  const die = statement.fields.die === undefined ? undefined : dieOf(statement, 'die', work, dieAt);
  if (die !== undefined && die.shape !== 'tipping') {
    work.reading.sink.report(
      statement.fields.die?.span ?? statement.span,
      'tip/wrong-die',
      `An edge is tipped with a tipping die, and ${die.name} is none. Name a tipping die, or leave the die out and any of the shop’s is taken.`,
    );
  }
  if (width === undefined || turn === undefined || direction === undefined || edges.length === 0) {
    work.fail();
    return [];
  }
  const unnamed = sofar.filter((tip) => /^tip\.\d+$/.test(tip.id)).length;
  const tip: Tip = {
    id: name?.name ?? `tip.${unnamed + 1}`,
    edges,
    width: { value: width, span: work.relative(statement.fields.width?.span ?? statement.span) },
    direction,
    turn,
    die: die === undefined ? undefined : { value: die, span: work.relative(statement.fields.die?.span ?? statement.span) },
    span: work.relative(statement.span),
  };
  return [tip];
};

/** An edge is either turned on the brake or tipped on the roller. */
export const tippedAndBent = (tips: readonly Tip[], chains: readonly EdgeChain[], work: PartWork): void => {
  for (const edge of tips.flatMap((tip) => tip.edges)) {
    if (!chains.some((chain) => chain.edge === edge.value)) continue;
    work.reading.sink.report(
      work.absolute(edge.span),
      'tip/edge-is-bent',
      `${edge.value} is turned on the brake already, in its edge braces, and the roller tips a cut edge of the flat sheet. To turn the flange’s own free edge as well, write another flange or a hem after it; else leave ${edge.value} out here, or take its braces away.`,
    );
    work.fail();
  }
};

/** How far the middle stands out when nothing is said: an eighth of an inch, 3 mm in metric files. Common practice, no source. */
const usualRise = { inch: 25.4 / 8, metric: 3 } as const;

/** Reads `cross_break`; none when a value is missing (said). */
export const readCrossBreak = (statement: Statement, work: PartWork): readonly CrossBreak[] => {
  const { fields } = statement;
  const inches = work.reading.names.units?.name === 'inch';
  const depth =
    fields.depth === undefined
      ? inches
        ? usualRise.inch
        : usualRise.metric
      : lengthField(work, statement, 'depth', 'How far the middle stands out');
  const inset = fields.inset === undefined ? 0 : lengthField(work, statement, 'inset', 'The inset', 'not less than 0');
  const direction = directionField(statement);
  if (depth === undefined || inset === undefined || direction === undefined) {
    work.fail();
    return [];
  }
  return [{ direction, depth, inset, span: work.relative(statement.span) }];
};

/** The holes among the cuts whose rim is pressed. */
export const dimplesAmong = (cuts: readonly Cut[]): readonly Dimple[] =>
  cuts.flatMap(({ id, on, at, span, shape, dimple }) =>
    dimple === undefined || shape.kind !== 'hole'
      ? []
      : [{ id, on, diameter: shape.diameter, depth: dimple.depth, direction: dimple.direction, at, span }],
  );
