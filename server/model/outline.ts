/** Outlines, rectangular and drawn: lines and true arcs, in the direction they were drawn. */
import type { Span, Statement } from '../../grammar/syntax.js';
import { angleField, lengthField, newNameField, pointField, type Reader, wordField } from './arguments.js';
import { sayLength, writeLength } from './display.js';
import type { Convention, Outline, OutlineEdge, XY } from './part.js';
import { replace } from './reading.js';

/** Points nearer than this are one, mm. */
const together = 0.001;
const apart = (a: XY, b: XY): number => Math.hypot(a.x - b.x, a.y - b.y);

export const conventionField = (statement: Statement): Convention | undefined => {
  const word = wordField(statement, 'convention');
  return word === 'outside' || word === 'inside' || word === 'flat' ? word : undefined;
};

/** `relative` turns absolute spans into the part's own. */
type Relative = (span: Span) => Span;

export const readOutline = (statement: Statement, reader: Reader, relative: Relative): Outline | undefined => {
  const convention = conventionField(statement) ?? 'outside';
  if (wordField(statement, 'shape') === 'rectangle') return rectangle(statement, convention, reader, relative);
  const drawn = readDrawn(statement, reader, relative);
  return drawn === undefined
    ? undefined
    : { convention, rectangle: false, start: drawn.start, edges: drawn.edges, span: relative(statement.span) };
};

const rectangle = (statement: Statement, convention: Convention, reader: Reader, relative: Relative): Outline | undefined => {
  const width = lengthField(reader, statement, 'width', 'The outline’s width');
  const height = lengthField(reader, statement, 'height', 'The outline’s height');
  if (width === undefined || height === undefined) {
    reader.fail();
    return undefined;
  }
  const along = relative(statement.fields.width?.span ?? statement.span);
  const up = relative(statement.fields.height?.span ?? statement.span);
  const edge = (name: string, x: number, y: number, span: Span): OutlineEdge => ({
    name,
    to: { x, y },
    arc: undefined,
    convention: undefined,
    span,
  });
  return {
    convention,
    rectangle: true,
    start: { x: 0, y: 0 },
    edges: [edge('bottom', width, 0, along), edge('right', width, height, up), edge('top', 0, height, along), edge('left', 0, 0, up)],
    span: relative(statement.span),
  };
};

interface DrawnEdge {
  readonly from: XY;
  readonly to: XY;
  readonly name: string | undefined;
  readonly convention: Convention | undefined;
  readonly step: Statement;
  readonly arc: DrawnArc | undefined;
}
type DrawnArc =
  | { readonly kind: 'bulge'; readonly out: boolean; readonly radius: number; readonly large: boolean }
  | { readonly kind: 'through'; readonly point: XY };

/** The steps of a drawn outline or cut-out. Undefined when it can't be drawn, with the reason said. */
export const readDrawn = (
  statement: Statement,
  reader: Reader,
  relative: Relative,
): { readonly start: XY; readonly edges: readonly OutlineEdge[] } | undefined => {
  const steps = statement.block?.statements ?? [];
  const report = reader.reading.sink.report;
  let start: XY | undefined;
  let at: XY | undefined;
  let closed = false;
  let good = statement.block !== undefined;
  const edges: DrawnEdge[] = [];
  const failing: Reader = {
    reading: reader.reading,
    fail: () => {
      good = false;
      reader.fail();
    },
  };
  for (const step of steps) {
    if (step.broken || step.entry === undefined || !step.entry.computed) {
      failing.fail();
      if (step.entry === undefined) continue;
    }
    const word = step.entry.word;
    if (closed) {
      report(step.word.span, 'shape/after-close', 'The outline is closed above; nothing can be drawn after that.');
      failing.fail();
      break;
    }
    if (word === 'from') {
      if (start !== undefined) {
        report(
          step.word.span,
          'shape/second-start',
          'An outline starts once. Go on from the last point with line to, or draw the opening as a cut.',
        );
        failing.fail();
        continue;
      }
      start = pointField(failing, step, 'point');
      at = start;
      if (start === undefined) break;
      continue;
    }
    if (at === undefined || start === undefined) {
      if (good) report(step.word.span, 'shape/no-start', 'An outline begins with the point it starts from: from (0, 0).');
      failing.fail();
      break;
    }
    if (word === 'close') {
      closed = true;
      if (apart(at, start) > together) edges.push(drawnEdge(step, at, start, undefined));
      continue;
    }
    const to = stepEnd(step, word, at, failing);
    if (to === undefined) {
      failing.fail();
      break;
    }
    if (apart(at, to) <= together) {
      const cure = word === 'arc' ? 'Draw a full circle as two arcs.' : 'Take it out, or give it another end.';
      report(step.span, 'shape/no-length', `This step ends where it begins. ${cure}`);
      failing.fail();
      continue;
    }
    edges.push(drawnEdge(step, at, to, word === 'arc' ? arcOf(step, failing) : undefined));
    at = to;
  }
  if (!good) return undefined;
  if (start === undefined || at === undefined || edges.length === 0) {
    report(
      statement.word.span,
      'shape/no-start',
      'A drawn outline needs steps: from (0, 0), then right, up, line to …, and close at the end.',
    );
    reader.fail();
    return undefined;
  }
  if (!closed && apart(at, start) > together) {
    reportOpen(statement, start, at, reader);
    return undefined;
  }
  return settle(start, edges, reader, relative);
};

const reportOpen = (statement: Statement, start: XY, at: XY, reader: Reader): void => {
  const { names, sink } = reader.reading;
  const say = (p: XY): string => `(${sayLength(p.x, names.units)}, ${sayLength(p.y, names.units)})`;
  const last = statement.block?.statements[statement.block.statements.length - 1];
  const end = last?.span.end ?? statement.span.end;
  const indent = last === undefined ? '' : (/(?:^|\n)([ \t]*)[^\n]*$/.exec(names.tree.text.slice(0, last.span.start))?.[1] ?? '');
  sink.report(
    last?.span ?? statement.word.span,
    'shape/open-outline',
    `The outline stops at ${say(at)} and began at ${say(start)}, ${sayLength(apart(at, start), names.units)} apart. End it with close.`,
    { fixes: [replace({ start: end, end }, `\n${indent}close`, 'Add close')] },
  );
  reader.fail();
};

const drawnEdge = (step: Statement, from: XY, to: XY, arc: DrawnArc | undefined): DrawnEdge => ({
  from,
  to,
  arc,
  name: newNameField(step, 'as')?.name,
  convention: conventionField(step),
  step,
});

const stepEnd = (step: Statement, word: string, at: XY, reader: Reader): XY | undefined => {
  if (word === 'arc') return pointField(reader, step, 'to');
  if (word === 'line' && step.fields.to !== undefined) return pointField(reader, step, 'to');
  const along = lengthField(reader, step, 'length', 'The length');
  if (along === undefined) return undefined;
  switch (word) {
    case 'right':
      return { x: at.x + along, y: at.y };
    case 'left':
      return { x: at.x - along, y: at.y };
    case 'up':
      return { x: at.x, y: at.y + along };
    case 'down':
      return { x: at.x, y: at.y - along };
    case 'line': {
      const turn = angleField(reader, step, 'angle', 'The direction');
      return turn === undefined ? undefined : { x: at.x + along * Math.cos(turn), y: at.y + along * Math.sin(turn) };
    }
    default:
      return undefined;
  }
};

const arcOf = (step: Statement, reader: Reader): DrawnArc | undefined => {
  if (step.fields.through !== undefined) {
    const point = pointField(reader, step, 'through');
    return point === undefined ? undefined : { kind: 'through', point };
  }
  const radius = lengthField(reader, step, 'radius', 'The radius');
  const bulge = wordField(step, 'bulge');
  if (radius === undefined || bulge === undefined) {
    reader.fail();
    return undefined;
  }
  return { kind: 'bulge', out: bulge === 'out', radius, large: step.fields.large !== undefined };
};

const cross = (a: XY, b: XY, c: XY): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

/** Arcs made true; which way round it was drawn tells what `in` and `out` mean. The steps stay in the order and direction drawn. */
const settle = (start: XY, edges: readonly DrawnEdge[], reader: Reader, relative: Relative) => {
  let doubled = 0;
  for (const edge of edges) {
    const middle = edge.arc?.kind === 'through' ? edge.arc.point : undefined;
    if (middle === undefined) doubled += edge.from.x * edge.to.y - edge.to.x * edge.from.y;
    else doubled += edge.from.x * middle.y - middle.x * edge.from.y + middle.x * edge.to.y - edge.to.x * middle.y;
  }
  const clockwise = doubled < -together * together;
  const made: OutlineEdge[] = [];
  let good = true;
  for (const edge of edges) {
    const arc = edge.arc === undefined ? undefined : arcGeometry(edge, edge.arc, clockwise, reader);
    if (arc === 'none') good = false;
    else made.push({ name: edge.name, to: edge.to, arc, convention: edge.convention, span: relative(edge.step.span) });
  }
  if (!good) {
    reader.fail();
    return undefined;
  }
  return { start, edges: made };
};

const arcGeometry = (edge: DrawnEdge, arc: DrawnArc, clockwise: boolean, reader: Reader): OutlineEdge['arc'] | 'none' => {
  const { sink, names } = reader.reading;
  const chord = apart(edge.from, edge.to);
  const span = edge.step.span;
  if (arc.kind === 'through') {
    const area = cross(edge.from, arc.point, edge.to);
    if (Math.abs(area) <= together * chord) {
      sink.report(
        span,
        'shape/arc-is-straight',
        'The arc’s three points lie on one line. Draw it with line to, or move the middle point off the line.',
      );
      return 'none';
    }
    return { centre: circleCentre(edge.from, arc.point, edge.to), turn: area > 0 ? 'left' : 'right' };
  }
  const half = chord / 2;
  if (arc.radius < half - together) {
    const least = writeLength(half, names.units, 'up');
    const radiusSpan = edge.step.fields.radius?.span;
    sink.report(
      radiusSpan ?? span,
      'shape/arc-too-tight',
      `A radius of ${sayLength(arc.radius, names.units)} can't reach across ${sayLength(chord, names.units)}. It must be ${sayLength(half, names.units)} or more.`,
      radiusSpan === undefined ? {} : { fixes: [replace(radiusSpan, least, `Change the radius to ${least}`)] },
    );
    return 'none';
  }
  // With the metal on the left hand, a bulge away from it turns left; drawn the other way round, right.
  const left = arc.out !== clockwise;
  const rise = Math.sqrt(Math.max(arc.radius * arc.radius - half * half, 0));
  const side = (left ? 1 : -1) * (arc.large ? -1 : 1);
  const nx = -(edge.to.y - edge.from.y) / chord;
  const ny = (edge.to.x - edge.from.x) / chord;
  return {
    centre: { x: (edge.from.x + edge.to.x) / 2 + side * rise * nx, y: (edge.from.y + edge.to.y) / 2 + side * rise * ny },
    turn: left ? 'left' : 'right',
  };
};

const circleCentre = (a: XY, b: XY, c: XY): XY => {
  const d = 2 * cross(a, b, c);
  const bx = b.x - a.x;
  const by = b.y - a.y;
  const cx = c.x - a.x;
  const cy = c.y - a.y;
  const bb = bx * bx + by * by;
  const cc = cx * cx + cy * cy;
  return { x: a.x + (cy * bb - by * cc) / d, y: a.y + (bx * cc - cx * bb) / d };
};
