/** The path of a bead: its points, its edges, its numbers, each with its place in the text. */
import type { Argument, Expr, Span, Statement } from '../../grammar/syntax.js';
import { exprOf, itemsOf, lengthField, pointOf } from './arguments.js';
import { edgeName } from './chains.js';
import { sayLength } from './display.js';
import type { BeadPath, Outline, Sourced, WrittenNumber, WrittenPoint, XY } from './part.js';
import type { PartWork } from './work.js';

/** Points nearer than this are one, mm. */
const together = 0.001;

/** One number as it stands, with a sign at most. */
const isPlainNumber = (expr: Expr): boolean =>
  expr.kind === 'number' || (expr.kind === 'unary' && expr.op === '-' && expr.operand.kind === 'number');

const numberAt = (work: PartWork, value: number | undefined, argument: Argument | undefined): WrittenNumber | undefined => {
  const expr = exprOf(argument);
  if (value === undefined || argument === undefined) return undefined;
  return { value, span: work.relative(argument.span), ...(expr !== undefined && isPlainNumber(expr) ? { plain: true } : {}) };
};
const pointAt = (work: PartWork, argument: Argument | undefined): WrittenPoint | undefined => {
  const at = pointOf(work, argument)?.at;
  if (at === undefined || argument === undefined) return undefined;
  const expr = exprOf(argument);
  const span = work.relative(argument.span);
  if (expr?.kind !== 'point') return { value: at, span };
  const place = (one: Expr): Span | undefined => (isPlainNumber(one) ? work.relative(one.span) : undefined);
  return { value: at, span, plain: { x: place(expr.x), y: place(expr.y) } };
};

/** The path a row draws. Undefined when a value is missing or the path can't be (said). */
export const pathOfBead = (row: Statement, work: PartWork, outline: Outline | undefined): BeadPath | undefined => {
  const { fields } = row;
  const cornerAsked = fields.corner !== undefined;
  const corner = cornerAsked
    ? numberAt(work, lengthField(work, row, 'corner', 'The corner’s radius', 'not less than 0'), fields.corner)
    : undefined;
  if (cornerAsked && corner === undefined) return undefined;
  const inset = (): WrittenNumber | undefined =>
    numberAt(work, lengthField(work, row, 'inset', 'The inset', 'not less than 0'), fields.inset);
  switch (row.entry?.word) {
    case 'line': {
      const from = pointAt(work, fields.from);
      const to = pointAt(work, fields.to);
      if (from === undefined || to === undefined) return undefined;
      return long([from, to], [fields.from, fields.to], work) ? { kind: 'line', from, to } : undefined;
    }
    case 'path': {
      const items = itemsOf(fields.points);
      const points = items.flatMap((item) => pointAt(work, item) ?? []);
      if (points.length < 2 || points.length !== items.length) return undefined;
      return long(points, items, work) ? { kind: 'path', points, corner } : undefined;
    }
    case 'rectangle': {
      const by = inset();
      if (by === undefined) return undefined;
      if (outline !== undefined && !outline.rectangle) {
        work.reading.sink.report(
          row.word.span,
          'bead/not-a-rectangle',
          'rectangle follows the four edges of a rectangular outline, and this one is drawn. Write along and its edges, or path and its points.',
        );
        return undefined;
      }
      return roomInside(by.value, fields.inset?.span ?? row.span, outline, work) ? { kind: 'rectangle', inset: by, corner } : undefined;
    }
    case 'along': {
      const by = inset();
      const edges = edgesInOrder(row, work, outline);
      return by === undefined || edges === undefined ? undefined : { kind: 'along', edges, inset: by, corner };
    }
    case 'arc': {
      const from = pointAt(work, fields.from);
      const through = pointAt(work, fields.through);
      const to = pointAt(work, fields.to);
      if (from === undefined || through === undefined || to === undefined) return undefined;
      return bends(from.value, through.value, to.value) ? { kind: 'arc', from, through, to } : noArc(row, work);
    }
    case 'circle': {
      const centre = pointAt(work, fields.centre);
      const radius = numberAt(work, lengthField(work, row, 'radius', 'The radius'), fields.radius);
      return centre === undefined || radius === undefined ? undefined : { kind: 'circle', centre, radius };
    }
    default:
      return undefined;
  }
};

/** Neighbouring points must be apart. */
const long = (points: readonly Sourced<XY>[], written: readonly (Argument | undefined)[], work: PartWork): boolean => {
  for (const [i, point] of points.entries()) {
    const before = points[i - 1];
    if (before === undefined || Math.hypot(point.value.x - before.value.x, point.value.y - before.value.y) > together) continue;
    work.reading.sink.report(
      written[i]?.span ?? point.span,
      'bead/no-length',
      'This point is the one before it, so there is nothing to roll between them.',
    );
    return false;
  }
  return true;
};

const bends = (a: XY, b: XY, c: XY): boolean => {
  const chord = Math.hypot(c.x - a.x, c.y - a.y);
  const off = Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
  return chord > together && off / chord > together;
};
const noArc = (row: Statement, work: PartWork): undefined => {
  work.reading.sink.report(
    row.fields.through?.span ?? row.span,
    'bead/no-arc',
    'These three points lie on one straight line, so no arc goes through them. Move the middle one off it, or write line from … to ….',
  );
  return undefined;
};

const roomInside = (inset: number, span: Span, outline: Outline | undefined, work: PartWork): boolean => {
  if (outline === undefined) return true;
  const xs = outline.edges.map((edge) => edge.to.x);
  const ys = outline.edges.map((edge) => edge.to.y);
  const least = Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  if (2 * inset < least - together) return true;
  const unit = work.reading.names.units;
  work.reading.sink.report(
    span,
    'bead/inset-too-great',
    `An inset of ${sayLength(inset, unit)} on both sides leaves nothing of an outline ${sayLength(least, unit)} across. It must be less than ${sayLength(least / 2, unit)}.`,
  );
  return false;
};

/** Edges named once each, every one beside the one before; undefined when any is wrong (said). */
const edgesInOrder = (row: Statement, work: PartWork, outline: Outline | undefined): readonly Sourced<string>[] | undefined => {
  const names = outline?.edges.flatMap((edge) => edge.name ?? []);
  const items = itemsOf(row.fields.edges);
  const edges: Sourced<string>[] = [];
  for (const item of items) {
    const name = edgeName(item, names, work);
    if (name === undefined) return undefined;
    if (edges.some((edge) => edge.value === name)) {
      work.reading.sink.report(item.span, 'name/repeated', `${name} is named twice in this path.`);
      return undefined;
    }
    const before = edges[edges.length - 1]?.value;
    if (before !== undefined && outline !== undefined && !beside(before, name, outline)) {
      work.reading.sink.report(
        item.span,
        'bead/edges-apart',
        `${name} doesn’t meet ${before}, so a bead can’t go on from the one to the other. Name edges in the order they follow round the outline, or write two beads.`,
      );
      return undefined;
    }
    edges.push({ value: name, span: work.relative(item.span) });
  }
  return edges.length === 0 ? undefined : edges;
};
const beside = (a: string, b: string, { edges }: Outline): boolean => {
  const i = edges.findIndex((edge) => edge.name === a);
  const j = edges.findIndex((edge) => edge.name === b);
  const apart = Math.abs(i - j);
  return i >= 0 && j >= 0 && (apart === 1 || apart === edges.length - 1);
};
