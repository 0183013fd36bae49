/** Gauge numbers to thickness, by the table of the metal. */
import type { Expr, Statement } from '../../grammar/syntax.js';
import { type GaugeTable, gaugeRange, gaugeThickness } from '../trade/gauges.js';
import { findNamed, severalMessage, unknownMessage, visibleNames } from './names.js';
import { pathText, type Reading, replace } from './reading.js';

/** The gauge table a material names, from its statement. */
export const gaugeTableOf = (material: Statement | undefined): GaugeTable | undefined => {
  const table = material?.block?.statements.find((statement) => statement.word.name === 'gauge' || statement.word.name === 'gage')?.fields
    .table;
  if (table?.kind !== 'word') return undefined;
  switch (table.word) {
    case 'steel':
    case 'stainless':
    case 'brown and sharpe':
      return table.word;
    case 'galvanised':
    case 'galvanized':
      return 'galvanised';
    default:
      return undefined;
  }
};

/** Thickness of `18 ga`, mm; reports why not. */
export const gaugeInMillimetres = (gauge: number, expr: Extract<Expr, { kind: 'number' }>, reading: Reading): number | undefined => {
  const table = expr.ofMaterial === undefined ? ownTable(gauge, expr, reading) : namedTable(expr.ofMaterial, reading);
  if (table === undefined) return undefined;
  const mm = gaugeThickness(table, gauge);
  if (mm === undefined) {
    const [first, last] = gaugeRange(table);
    reading.sink.report(expr.span, 'number/out-of-range', `The ${table} gauge table has no ${gauge}; it goes from ${first} to ${last}.`);
  }
  return mm;
};

const ownTable = (gauge: number, expr: Extract<Expr, { kind: 'number' }>, reading: Reading): GaugeTable | undefined => {
  const own = reading.gauge;
  if (own === undefined) {
    const materials = visibleNames('material', reading.names);
    reading.sink.report(
      expr.span,
      'unit/gauge-without-material',
      `${gauge} ga is a different thickness in each metal. Say of which: ${gauge} ga of ${materials[0] ?? 'mild_steel'}.`,
      {
        fixes: materials
          .slice(0, 3)
          .map((name) => replace({ start: expr.span.end, end: expr.span.end }, ` of ${name}`, `Write of ${name}`)),
      },
    );
    return undefined;
  }
  if (own.table !== undefined) return own.table;
  const message =
    own.material === undefined
      ? `${gauge} ga can't be read before the sheet says its material. Add material NAME, or give the thickness itself.`
      : `${gauge} ga can't be read: material ${own.material} names no gauge table. Add gauge table steel (or galvanised, stainless, brown and sharpe) to it, or give the thickness itself.`;
  reading.sink.report(expr.span, 'unit/gauge-without-material', message);
  return undefined;
};

const namedTable = (path: NonNullable<Extract<Expr, { kind: 'number' }>['ofMaterial']>, reading: Reading): GaugeTable | undefined => {
  const first = path[0];
  const last = path[path.length - 1];
  if (first === undefined || last === undefined) return undefined;
  const span = { start: first.span.start, end: last.span.end };
  const steps = path.map((step) => step.name);
  reading.dependencies?.thing('material', steps);
  const found = findNamed('material', steps, reading.names);
  if (found.kind === 'several') {
    reading.sink.report(span, 'name/clash', severalMessage(pathText(path), found.entries));
    return undefined;
  }
  if (found.kind === 'none') {
    if (found.hidden) return undefined;
    const { message, near } = unknownMessage('material', pathText(path), visibleNames('material', reading.names));
    reading.sink.report(span, 'name/unknown', message, { fixes: near.map((name) => replace(span, name, `Change to ${name}`)) });
    return undefined;
  }
  const table = gaugeTableOf(found.entry.statement);
  if (table === undefined) {
    reading.sink.report(
      span,
      'unit/gauge-without-material',
      `Material ${pathText(path)} names no gauge table. Add gauge table steel (or galvanised, stainless, brown and sharpe) to it.`,
    );
  }
  return table;
};
