/**
 * What changed between two versions of a file's parts, in the terms in which they were designed: sheet, outline, steps of the edges, corners, holes, beads;
 * and after those what follows from them: blank, bends, mass, reach, order.
 */
import type { Blank } from '../blank/types.js';
import type { MeasureRow } from '../measure/index.js';
import { sayAngle, sayLength } from '../model/display.js';
import type { HomeUnit } from '../model/model.js';
import type { Bead, CornerRule, Cut, EdgeChain, EdgeStep, Part, SectionStep, XY } from '../model/part.js';
import type { Box } from '../shape/path.js';
import { drawBlank } from './drawing.js';
import { type Ink, type Mark, narrow, type Page, wide } from './pages/page.js';
import { inkOf, marksOfStroke } from './pattern-marks.js';

/** One version of a part with all that is known of it. */
export interface Version {
  readonly part: Part;
  readonly blank: Blank | undefined;
  /** Its measured properties, as the table for people has them. */
  readonly rows: readonly MeasureRow[];
}
export interface Change {
  readonly part: string;
  /** `edge top, flange 1: length`, `blank width`. */
  readonly what: string;
  readonly old: string | undefined;
  readonly new: string | undefined;
  /** Written by the designer, or what follows from it. */
  readonly kind: 'written' | 'follows';
}
export interface PartComparison {
  readonly name: string;
  readonly state: 'same' | 'changed' | 'added' | 'removed';
  readonly changes: readonly Change[];
  readonly old: Version | undefined;
  readonly new: Version | undefined;
}
export interface CompareOptions {
  readonly unit: HomeUnit | undefined;
  readonly denominator?: number;
}

type Facts = Map<string, string>;

/** Everything written about a part, by a name that stays the same when only its value changes. */
const written = (part: Part, options: CompareOptions): Facts => {
  const facts: Facts = new Map();
  const length = (mm: number): string => sayLength(mm, options.unit, options.denominator);
  const place = ({ x, y }: XY): string => `${length(x)}, ${length(y)}`;
  facts.set('kind of part', part.kind);
  facts.set(
    'quantity',
    part.quantityOpposite === 0 ? String(part.quantity) : `${part.quantity} and ${part.quantityOpposite} opposite hand`,
  );
  if (part.finish !== undefined) facts.set('finish', part.finish);
  if (part.note !== undefined) facts.set('note', part.note);
  if (part.grain !== undefined) facts.set('grain', `along ${part.grain.value}`);
  if (part.kind !== 'panel' && part.kind !== 'section') return facts;
  if (part.sheet !== undefined) {
    facts.set('sheet', part.sheet.value.name);
    facts.set('sheet thickness', length(part.sheet.value.thickness));
  }
  for (const cut of part.cuts) putCut(facts, cut, length, place);
  if (part.kind === 'section') {
    if (part.length !== undefined) facts.set('length', length(part.length.value));
    for (const step of part.firstEdge) putStep(facts, step, `first edge, ${step.kind} ${step.id}`, length);
    for (const [index, step] of part.steps.entries()) putSectionStep(facts, step, index, length);
    for (const step of part.lastEdge) putStep(facts, step, `last edge, ${step.kind} ${step.id}`, length);
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
        const arc =
          edge.arc === undefined
            ? ''
            : ` on an arc of radius ${length(Math.hypot(edge.to.x - edge.arc.centre.x, edge.to.y - edge.arc.centre.y))}`;
        facts.set(`outline, ${edge.name === undefined ? `step ${index + 1}` : `edge ${edge.name}`}`, `to ${place(edge.to)}${arc}`);
      });
    }
  }
  for (const chain of part.edges) putChain(facts, chain, '', length);
  for (const [index, corner] of part.corners.entries()) putCorner(facts, corner, index, length);
  for (const bead of part.beads) putBead(facts, bead, length, place);
  return facts;
};

type Say = (mm: number) => string;
type SayPlace = (at: XY) => string;

const putChain = (facts: Facts, chain: EdgeChain, before: string, length: Say): void => {
  for (const step of chain.steps) putStep(facts, step, `${before}edge ${chain.edge}, ${step.kind} ${step.id}`, length);
  if (chain.from !== undefined || chain.to !== undefined) {
    const end = (at: number | undefined): string => (at === undefined ? 'its end' : length(at));
    facts.set(`${before}edge ${chain.edge}, stretch of ${chain.steps[0]?.id ?? 'nothing'}`, `${end(chain.from)} to ${end(chain.to)}`);
  }
};

const putStep = (facts: Facts, step: EdgeStep, name: string, length: Say): void => {
  const put = (what: string, value: string): void => void facts.set(`${name}: ${what}`, value);
  if ('direction' in step) put('direction', step.direction);
  switch (step.kind) {
    case 'flange':
      put('length', step.taper === undefined ? length(step.length) : `${length(step.length)} tapering to ${length(step.taper)}`);
      put('angle', sayAngle(step.turn));
      if (step.radius !== undefined) put('inside radius', length(step.radius));
      if (step.convention !== undefined) put('measured', step.convention);
      for (const chain of step.edges) putChain(facts, chain, `${step.id}, `, length);
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
      return;
    case 'tab':
      put('size', `${length(step.width)} by ${length(step.length)}`);
      put('places', step.at === undefined ? 'the middle' : step.at.map(length).join(', '));
      return;
    case 'rolled':
      put('radius', length(step.radius));
      put('angle', sayAngle(step.turn));
      return;
  }
};

const putCorner = (facts: Facts, { edges, treatment }: CornerRule, index: number, length: Say): void => {
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

const putCut = (facts: Facts, cut: Cut, length: Say, place: SayPlace): void => {
  const { shape } = cut;
  const size = ((): string => {
    switch (shape.kind) {
      case 'hole':
        return shape.thread === undefined ? `⌀ ${length(shape.diameter)}` : `tapped ${shape.thread}`;
      case 'slot':
        return `slot ${length(shape.width)} by ${length(shape.length)}`;
      case 'rectangle':
        return `${length(shape.width)} by ${length(shape.height)}`;
      case 'drawn':
        return `drawn, ${shape.edges.length} steps`;
    }
  })();
  facts.set(`${cut.id}: size`, size);
  facts.set(`${cut.id}: place`, `${place(cut.at)}${cut.on === undefined ? '' : ` on ${cut.on}`}`);
  if (cut.turned !== 0) facts.set(`${cut.id}: turned`, sayAngle(cut.turned));
};

const putBead = (facts: Facts, bead: Bead, length: Say, place: SayPlace): void => {
  const { path } = bead;
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

const putSectionStep = (facts: Facts, step: SectionStep, index: number, length: Say): void => {
  if (step.kind === 'leg') facts.set(`leg ${step.name ?? Math.floor(index / 2) + 1}`, length(step.length));
  else {
    const radius = step.radius === undefined ? '' : `, radius ${length(step.radius)}`;
    facts.set(`turn ${Math.floor(index / 2) + 1}`, `${step.direction} ${sayAngle(step.turn)}${radius}`);
  }
};

/** Rows of the measured table without the part's own name in front. */
const measured = ({ part, rows }: Version): Facts =>
  new Map(
    rows
      // The part's own mass is the blank's; told once is enough.
      .filter(({ quantity, path }) => quantity !== 'text' && !path.endsWith('.blank.mass'))
      .map(({ path, text }) => {
        const place = path.slice(part.name.length + 1);
        const dot = place.lastIndexOf('.');
        const property = place.slice(dot + 1).replaceAll('_', ' ');
        return [dot < 0 ? property : `${place.slice(0, dot)}: ${property}`, text];
      }),
  );

const differences = (name: string, old: Facts, now: Facts, kind: Change['kind']): readonly Change[] =>
  [...new Set([...old.keys(), ...now.keys()])].flatMap((what) => {
    const [before, after] = [old.get(what), now.get(what)];
    return before === after ? [] : [{ part: name, what, old: before, new: after, kind }];
  });

/** Sizes that were always going to follow are told only where they differ. */
export const compareParts = (old: readonly Version[], now: readonly Version[], options: CompareOptions): readonly PartComparison[] => {
  const names = [...new Set([...old, ...now].map(({ part }) => part.name))];
  return names.map((name): PartComparison => {
    const before = old.find(({ part }) => part.name === name);
    const after = now.find(({ part }) => part.name === name);
    if (before === undefined || after === undefined)
      return { name, state: before === undefined ? 'added' : 'removed', changes: [], old: before, new: after };
    const changes = [
      ...differences(name, written(before.part, options), written(after.part, options), 'written'),
      ...differences(name, measured(before), measured(after), 'follows'),
    ];
    return { name, state: changes.length === 0 ? 'same' : 'changed', changes, old: before, new: after };
  });
};

const oldInk: Ink = { width: narrow, dash: [3, 1.5], colour: '#a03020' };
const newInk: Ink = { width: wide };

/** Old thin and dashed, new solid, the two laid over one another as the parts' own coordinates lie. One page, at true size; scaled by whoever places it. */
export const overlayPage = ({ name, old, new: now }: PartComparison, options: CompareOptions): Page | undefined => {
  const shown = [old, now].flatMap((version) =>
    version?.blank === undefined
      ? []
      : [{ drawing: drawBlank(version.part, version.blank, options), datum: version.blank.datum, isOld: version === old }],
  );
  if (shown.length === 0) return undefined;
  const boxes = shown.map(
    ({ drawing, datum }): Box => ({
      min: { x: drawing.box.min.x + datum.x, y: drawing.box.min.y + datum.y },
      max: { x: drawing.box.max.x + datum.x, y: drawing.box.max.y + datum.y },
    }),
  );
  const min = { x: Math.min(...boxes.map((box) => box.min.x)), y: Math.min(...boxes.map((box) => box.min.y)) };
  const max = { x: Math.max(...boxes.map((box) => box.max.x)), y: Math.max(...boxes.map((box) => box.max.y)) };
  const margin = Math.max(8, (max.x - min.x) * 0.03);
  const words = Math.max(3.5, Math.max(max.x - min.x, max.y - min.y) * 0.018);
  const scale = words / 3.5;
  const thicker = (ink: Ink): Ink => ({
    ...ink,
    width: ink.width * scale,
    ...(ink.dash === undefined ? {} : { dash: ink.dash.map((each) => each * scale) }),
  });
  const marks = shown.map(
    ({ drawing, datum, isOld }): Mark => ({
      kind: 'placed',
      to: { x: datum.x - min.x + margin, y: datum.y - min.y + margin + words * 3 },
      marks: drawing.strokes.flatMap((stroke) =>
        marksOfStroke(stroke, (layer) => {
          const own = inkOf(layer);
          if (own === undefined || layer === 'brake_line' || layer === 'mark') return undefined;
          return thicker(isOld ? oldInk : own.width === wide ? newInk : { width: narrow });
        }),
      ),
    }),
  );
  const width = max.x - min.x + 2 * margin;
  return {
    title: `${name}: old dashed, new solid`,
    width: Math.max(width, words * 26),
    height: max.y - min.y + 2 * margin + words * 3,
    marks: [...marks, { kind: 'text', text: `${name}: old thin and dashed, new solid`, at: { x: margin, y: words * 1.2 }, size: words }],
  };
};
