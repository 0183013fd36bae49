/** Everything written about a part, told in the terms in which it was designed, for holding two versions against each other. */
import { sayAngle, sayExactly, sayLength, sayThickness, writeAngle } from '../model/display.js';
import type { HomeUnit } from '../model/model.js';
import type {
  Bead,
  CornerRule,
  CrossBreak,
  Cut,
  Dimple,
  EdgeChain,
  EdgeStep,
  Load,
  OutlineEdge,
  Panel,
  Part,
  Section,
  SectionStep,
  Tip,
  XY,
} from '../model/part.js';
import { type Facts, putPiece } from './compare-piece.js';
import { isCutFromLength } from './piece-words.js';

export interface CompareOptions {
  readonly unit: HomeUnit | undefined;
  readonly denominator?: number;
}

/** How numbers are told. */
interface Saying {
  readonly length: (mm: number) => string;
  readonly angle: (rad: number) => string;
  readonly thickness: (mm: number) => string;
  readonly place: (at: XY) => string;
}
const sayingOf = ({ unit, denominator }: CompareOptions, exact: boolean): Saying => {
  const length = (mm: number): string => (exact ? sayExactly(mm, unit) : sayLength(mm, unit, denominator));
  return {
    length,
    angle: (rad) => (exact ? `${writeAngle(rad)}°` : sayAngle(rad)),
    thickness: (mm) => (exact ? sayExactly(mm, unit) : sayThickness(mm, unit)),
    place: ({ x, y }) => `${length(x)}, ${length(y)}`,
  };
};

/**
 * Everything written about a part, by a name that stays the same when only its value changes.
 *
 * @param exact numbers as near as anybody can measure, and not as a rule reads them
 */
export const writtenFacts = (part: Part, options: CompareOptions, exact = false): Facts => {
  const facts: Facts = new Map();
  const say = sayingOf(options, exact);
  const { length, place } = say;
  facts.set('kind of part', part.kind);
  facts.set(
    'quantity',
    part.quantityOpposite === 0 ? String(part.quantity) : `${part.quantity} and ${part.quantityOpposite} opposite hand`,
  );
  if (part.finish !== undefined) facts.set('finish', part.finish);
  if (part.note !== undefined) facts.set('note', part.note);
  if (part.grain !== undefined) facts.set('grain', `along ${part.grain.value}`);
  if (part.face !== undefined) facts.set('face', part.face);
  if (isCutFromLength(part)) {
    putPiece(facts, part, { ...say, unit: options.unit });
    for (const cut of part.cuts) putCut(facts, cut, say);
    return facts;
  }
  if (part.kind !== 'panel' && part.kind !== 'section') return facts;
  putSheet(facts, part, say);
  if (part.kind === 'section') {
    facts.set('leg sizes', part.convention);
    if (part.length !== undefined) facts.set('length', length(part.length.value));
    for (const step of part.firstEdge) putStep(facts, step, `first edge, ${step.kind} ${step.id}`, say);
    for (const [index, step] of part.steps.entries()) putSectionStep(facts, step, index, say);
    for (const step of part.lastEdge) putStep(facts, step, `last edge, ${step.kind} ${step.id}`, say);
    for (const cut of part.cuts) putCut(facts, cut, say);
    return facts;
  }
  const { outline } = part;
  if (outline !== undefined) {
    facts.set('outline sizes', outline.convention);
    if (outline.rectangle) {
      const xs = outline.edges.map(({ to }) => to.x);
      const ys = outline.edges.map(({ to }) => to.y);
      facts.set('outline width', length(Math.max(...xs) - Math.min(...xs)));
      facts.set('outline height', length(Math.max(...ys) - Math.min(...ys)));
    } else {
      facts.set('outline starts at', place(outline.start));
      outline.edges.forEach((edge, index) => {
        facts.set(`outline, ${edge.name === undefined ? `step ${index + 1}` : `edge ${edge.name}`}`, drawnStep(edge, say));
      });
    }
  }
  for (const chain of part.edges) putChain(facts, chain, '', say);
  for (const [index, corner] of part.corners.entries()) putCorner(facts, corner, index, say);
  for (const cut of part.cuts) putCut(facts, cut, say);
  for (const bead of part.beads) putBead(facts, bead, say);
  for (const tip of part.tips) putTip(facts, tip, say);
  for (const [index, each] of part.crossBreaks.entries()) putCrossBreak(facts, each, index, say);
  for (const dimple of part.dimples) putDimple(facts, dimple, say);
  for (const [index, load] of part.loads.entries()) putLoad(facts, load, index, say);
  return facts;
};

/** `to 4 in, 0 in`; of an arc its radius, its centre and the way it turns, since the radius alone leaves four. */
const drawnStep = ({ to, arc, convention }: OutlineEdge, { length, place }: Saying): string => {
  const curve =
    arc === undefined
      ? ''
      : ` on an arc of radius ${length(Math.hypot(to.x - arc.centre.x, to.y - arc.centre.y))} about ${place(arc.centre)}, turning ${arc.turn}`;
  return `to ${place(to)}${curve}${convention === undefined ? '' : `, ${convention}`}`;
};

const putChain = (facts: Facts, chain: EdgeChain, before: string, say: Saying): void => {
  const { length } = say;
  for (const step of chain.steps) putStep(facts, step, `${before}edge ${chain.edge}, ${step.kind} ${step.id}`, say);
  if (chain.from !== undefined || chain.to !== undefined) {
    const end = (at: number | undefined): string => (at === undefined ? 'its end' : length(at));
    facts.set(`${before}edge ${chain.edge}, stretch of ${chain.steps[0]?.id ?? 'nothing'}`, `${end(chain.from)} to ${end(chain.to)}`);
  }
};

const putStep = (facts: Facts, step: EdgeStep, name: string, say: Saying): void => {
  const { length, angle } = say;
  const put = (what: string, value: string): void => void facts.set(`${name}: ${what}`, value);
  if ('direction' in step) put('direction', step.direction);
  switch (step.kind) {
    case 'flange':
      put('length', step.taper === undefined ? length(step.length) : `${length(step.length)} tapering to ${length(step.taper)}`);
      put('angle', angle(step.turn));
      if (step.radius !== undefined) put('inside radius', length(step.radius));
      if (step.convention !== undefined) put('measured', step.convention);
      if (step.ends !== undefined)
        put(
          'ends',
          step.ends.kind === 'square'
            ? 'square'
            : step.ends.kind === 'mitred'
              ? `mitred ${angle(step.ends.angle)}`
              : `back ${length(step.ends.distance)}`,
        );
      for (const chain of step.edges) putChain(facts, chain, `${step.id}, `, say);
      return;
    case 'hem':
      put('depth', length(step.depth));
      put(
        'style',
        step.style.kind === 'closed' || step.style.kind === 'double'
          ? step.style.kind
          : step.style.kind === 'open'
            ? `open ${length(step.style.gap)}`
            : `teardrop ${length(step.style.diameter)}`,
      );
      return;
    case 'curl':
      put('wire', length(step.wire));
      return;
    case 'joggle':
      put('depth', length(step.depth));
      put('over', length(step.over));
      if (step.run !== undefined) put('run', length(step.run));
      return;
    case 'tab':
      put('size', `${length(step.width)} by ${length(step.length)}`);
      put('places', step.at === undefined ? 'the middle' : step.at.map(length).join(', '));
      return;
    case 'rolled':
      put('radius', length(step.radius));
      put('angle', angle(step.turn));
      return;
  }
};

const putCorner = (facts: Facts, { edges, treatment }: CornerRule, index: number, { length }: Saying): void => {
  const name = edges === undefined ? `corner all${index === 0 ? '' : ` (${index + 1})`}` : `corner ${edges.join(' ')}`;
  const relief =
    'relief' in treatment && treatment.relief !== undefined
      ? treatment.relief.kind === 'round'
        ? `, relief round ${length(treatment.relief.diameter)}`
        : treatment.relief.kind === 'square'
          ? `, relief square ${length(treatment.relief.side)}`
          : ', no relief'
      : '';
  const words = ((): string => {
    switch (treatment.kind) {
      case 'open':
        return 'open';
      case 'radius':
        return `radius ${length(treatment.radius)}`;
      case 'chamfer':
        return `chamfer ${length(treatment.size)}`;
      case 'notch':
        return `notch ${length(treatment.width)} by ${length(treatment.depth)}`;
      case 'mitred':
        return `mitred, gap ${length(treatment.gap)}`;
      case 'lap':
        return `${treatment.over} laps over ${treatment.under} by ${length(treatment.by)}`;
      case 'butt':
        return `${treatment.over} butts over ${treatment.under}`;
    }
  })();
  facts.set(name, `${words}${relief}`);
};

const putCut = (facts: Facts, cut: Cut, say: Saying): void => {
  const { length, angle, place } = say;
  const { shape } = cut;
  const size = ((): string => {
    switch (shape.kind) {
      case 'hole':
        return shape.thread === undefined ? `⌀ ${length(shape.diameter)}` : `tapped ${shape.thread}`;
      case 'slot':
        return `slot ${length(shape.width)} by ${length(shape.length)}`;
      case 'rectangle':
        return `${length(shape.width)} by ${length(shape.height)}${shape.corner === 0 ? '' : `, corners ${length(shape.corner)}`}`;
      case 'drawn':
        return `drawn, ${shape.edges.length} steps`;
    }
  })();
  facts.set(`${cut.id}: size`, size);
  if (shape.kind === 'drawn') {
    facts.set(`${cut.id}: starts at`, place(shape.start));
    for (const [index, edge] of shape.edges.entries()) facts.set(`${cut.id}: step ${index + 1}`, drawnStep(edge, say));
  }
  facts.set(`${cut.id}: place`, `${place(cut.at)}${cut.on === undefined ? '' : ` on ${cut.on}`}`);
  if (cut.through !== undefined) facts.set(`${cut.id}: through to`, cut.through);
  if (cut.turned !== 0) facts.set(`${cut.id}: turned`, angle(cut.turned));
};

const putBead = (facts: Facts, bead: Bead, { length, place: sayPlace }: Saying): void => {
  const { path, copy } = bead;
  // A path is as it is written; a copy lies elsewhere.
  const place = ({ x, y }: XY): string =>
    sayPlace({ x: (copy.mirrorX ? -x : x) + copy.shift.x, y: (copy.mirrorY ? -y : y) + copy.shift.y });
  const corner = 'corner' in path && path.corner !== undefined ? `, corners ${length(path.corner.value)}` : '';
  const words = ((): string => {
    switch (path.kind) {
      case 'line':
        return `line from ${place(path.from.value)} to ${place(path.to.value)}`;
      case 'rectangle':
        return `all round, inset ${length(path.inset.value)}${corner}`;
      case 'path':
        return `through ${path.points.map(({ value }) => place(value)).join('; ')}${corner}`;
      case 'along':
        return `along ${path.edges.map(({ value }) => value).join(', ')}, inset ${length(path.inset.value)}${corner}`;
      case 'arc':
        return `arc from ${place(path.from.value)} through ${place(path.through.value)} to ${place(path.to.value)}`;
      case 'circle':
        return `circle round ${place(path.centre.value)}, radius ${length(path.radius.value)}`;
    }
  })();
  facts.set(`${bead.kind} ${bead.id}: path`, words);
  facts.set(`${bead.kind} ${bead.id}: crown`, bead.direction);
  facts.set(`${bead.kind} ${bead.id}: ends`, `${bead.start}, ${bead.finish}`);
  if (bead.die !== undefined) facts.set(`${bead.kind} ${bead.id}: die`, bead.die.value.name);
  if (bead.width !== undefined) facts.set(`${bead.kind} ${bead.id}: width`, length(bead.width));
};

const putSectionStep = (facts: Facts, step: SectionStep, index: number, { length, angle }: Saying): void => {
  if (step.kind === 'leg') facts.set(`leg ${step.name ?? Math.floor(index / 2) + 1}`, length(step.length));
  else {
    const radius = step.radius === undefined ? '' : `, radius ${length(step.radius)}`;
    facts.set(`turn ${Math.floor(index / 2) + 1}`, `${step.direction} ${angle(step.turn)}${radius}`);
  }
};

const putSheet = (facts: Facts, part: Panel | Section, { length, thickness }: Saying): void => {
  const sheet = part.sheet?.value;
  if (sheet === undefined) return;
  facts.set('sheet', sheet.name);
  facts.set('sheet thickness', thickness(sheet.thickness));
  if (sheet.material !== undefined) facts.set('sheet material', sheet.material.name);
  if (sheet.bendRadius !== undefined) facts.set('sheet bend radius', length(sheet.bendRadius));
  const { method } = sheet;
  if (method === undefined) return;
  facts.set(
    'allowance by',
    method.kind === 'k'
      ? `K ${method.k}`
      : method.kind === 'handbook'
        ? `handbook, ${method.temper}`
        : method.kind === 'trial'
          ? `trial ${method.trial}`
          : method.kind,
  );
};

const putTip = (facts: Facts, tip: Tip, { length, angle }: Saying): void => {
  facts.set(`tip ${tip.id}: edges`, tip.edges.map(({ value }) => value).join(', '));
  facts.set(`tip ${tip.id}: width`, length(tip.width.value));
  facts.set(`tip ${tip.id}: turn`, `${tip.direction} ${angle(tip.turn)}`);
  if (tip.die !== undefined) facts.set(`tip ${tip.id}: die`, tip.die.value.name);
};

const putCrossBreak = (facts: Facts, { direction, depth, inset }: CrossBreak, index: number, { length }: Saying): void => {
  facts.set(`cross-break${index === 0 ? '' : ` ${index + 1}`}`, `${direction}, ${length(depth)} deep, inset ${length(inset)}`);
};

const putDimple = (facts: Facts, { id, diameter, depth, direction, at, on }: Dimple, { length, place }: Saying): void => {
  facts.set(`${id}: rim`, `pressed ${direction}${depth === undefined ? '' : ` ${length(depth)}`}, hole ${length(diameter)}`);
  facts.set(`${id}: place`, `${place(at)}${on === undefined ? '' : ` on ${on}`}`);
};

const putLoad = (facts: Facts, { load, held, fixing }: Load, index: number, { length, place }: Saying): void => {
  const what =
    load.kind === 'spread'
      ? `${Number((load.pressure * 1e6).toPrecision(4))} Pa all over`
      : `${Number(load.force.toPrecision(4))} N at ${place(load.at)} over ${length(load.width)} by ${length(load.height)}`;
  facts.set(`load ${index + 1}`, `${what}, held ${held === 'all' ? 'all round' : held.map(({ value }) => value).join(', ')} ${fixing}`);
};
