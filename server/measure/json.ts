/** `measure --json`, schema 1: mm, kg, degrees. A key stands only when its value has been worked out; nothing is made up. */
import type { BeadResult, NotReckoned, StiffnessAnswer, WorkedBead } from '../bead/index.js';
import type { BendLine, Blank } from '../blank/types.js';
import { bendingReport, type Plan } from '../brake/index.js';
import type { FoldResult } from '../fold/types.js';
import type { LineIndex } from '../lines.js';
import type { Finding } from '../model/finding.js';
import type { Part } from '../model/part.js';
import type { Loop, Point } from '../shape/path.js';
import {
  bendsOf,
  endProperties,
  endsOf,
  eyeOf,
  eyeProperties,
  type Length,
  lengthOf,
  lengthProperties,
  pieceBendProperties,
} from './piece-properties.js';
import {
  beadProperties,
  bendProperties,
  blankProperties,
  foldedProperties,
  type Property,
  partProperties,
  type Quantity,
  sheetOf,
  stiffnessProperties,
} from './properties.js';

type Pair = readonly [number, number];
export type MoveJson = { readonly to: Pair; readonly centre?: Pair; readonly turn?: 'left' | 'right' };
type Keys = Readonly<Record<string, number | string | boolean>>;

export interface FindingJson {
  readonly file: string;
  /** From 1. */
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly rule: string;
  readonly severity: Finding['severity'];
  readonly message: string;
}
export interface MeasureJson {
  readonly schema: 1;
  readonly file: string;
  readonly parts: readonly Readonly<Record<string, unknown>>[];
  readonly findings: readonly FindingJson[];
}

/** A millionth of a millimetre or a degree: below it there is only what floating point leaves behind. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;
const pair = (p: Point): Pair => [rounded(p.x), rounded(p.y)];

const suffix: Readonly<Record<Quantity, string>> = {
  length: '_mm',
  thickness: '_mm',
  'bend sum': '_mm',
  angle: '_deg',
  area: '_mm2',
  mass: '_kg',
  count: '',
  ratio: '',
  frequency: '_hz',
  text: '',
  'yes or no': '',
};

const keysOf = <From>(properties: readonly Property<From>[], from: From): Keys => {
  const keys: Record<string, number | string | boolean> = {};
  for (const { name, quantity, inJson, read } of properties) {
    const value = inJson ? read(from) : undefined;
    if (typeof value === 'string' || typeof value === 'boolean') keys[name] = value;
    else if (value !== undefined) keys[name + suffix[quantity]] = rounded(quantity === 'angle' ? (value * 180) / Math.PI : value);
  }
  return keys;
};

const loopJson = (loop: Loop): readonly MoveJson[] =>
  loop.map((move) => (move.kind === 'line' ? { to: pair(move.to) } : { to: pair(move.to), centre: pair(move.centre), turn: move.turn }));

const bendJson = (bend: BendLine): Readonly<Record<string, unknown>> => ({
  name: bend.id,
  ...keysOf(bendProperties, bend),
  from: pair(bend.from),
  to: pair(bend.to),
});

const blankJson = (blank: Blank): Readonly<Record<string, unknown>> => ({
  ...keysOf(blankProperties, blank),
  outline: loopJson(blank.outline),
  holes: blank.cutouts.flatMap(({ circle }) =>
    circle === undefined ? [] : [{ at: pair(circle.centre), diameter_mm: rounded(2 * circle.radius) }],
  ),
  cutouts: blank.cutouts.flatMap(({ circle, loop }) => (circle === undefined ? [loopJson(loop)] : [])),
  bends: blank.bends.map(bendJson),
});

const beadJson = (bead: WorkedBead): Readonly<Record<string, unknown>> => ({ name: bead.id, ...keysOf(beadProperties, bead) });

/** The finished part's box as width, height, depth, and what it says beside. */
const foldedJson = (folded: FoldResult): Readonly<Record<string, unknown>> => {
  const { width_mm, height_mm, depth_mm, ...rest } = keysOf(foldedProperties, folded);
  return { envelope_mm: [width_mm, height_mm, depth_mm], ...rest };
};

/** What is cut from a length: nothing of it lies flat. */
const lengthJson = (length: Length): Readonly<Record<string, unknown>> => {
  const { part, work } = length;
  const bends = bendsOf(length);
  const eye = eyeOf(length);
  const ends = Object.entries(endsOf(length)).map(([name, end]) => [name, keysOf(endProperties, end)]);
  return {
    name: part.name,
    kind: part.kind,
    ...(work.stock === undefined ? {} : { stock: work.stock.name }),
    ...keysOf(lengthProperties, length),
    ...(ends.length === 0 ? {} : { ends: Object.fromEntries(ends) as unknown }),
    ...(bends.length === 0 ? {} : { bends: bends.map((bend, i) => ({ name: String(i + 1), ...keysOf(pieceBendProperties, bend) })) }),
    ...(eye === undefined ? {} : { eye: keysOf(eyeProperties, eye), tails_mm: eye.tails.map(rounded) }),
    holes: part.cuts.map(({ at, shape }) =>
      shape.kind === 'hole'
        ? { at: pair(at), diameter_mm: rounded(shape.diameter) }
        : shape.kind === 'slot'
          ? { at: pair(at), width_mm: rounded(shape.width), length_mm: rounded(shape.length) }
          : { at: pair(at) },
    ),
  };
};

const partJson = (
  part: Part,
  blank: Blank | undefined,
  beads: BeadResult | undefined,
  folded: FoldResult | undefined,
  stiffness: StiffnessAnswer | NotReckoned | undefined,
  bending: Plan | undefined,
): Readonly<Record<string, unknown>> => {
  const length = lengthOf(part);
  if (length !== undefined) return lengthJson(length);
  const sheet = sheetOf(part);
  return {
    name: part.name,
    kind: part.kind,
    ...(sheet === undefined ? {} : { sheet: sheet.name }),
    ...keysOf(partProperties, { part, blank }),
    ...(blank === undefined ? {} : { blank: blankJson(blank) }),
    ...(blank === undefined || folded === undefined ? {} : { folded: foldedJson(folded) }),
    ...(blank === undefined || beads === undefined || beads.beads.length === 0 ? {} : { beads: beads.beads.map(beadJson) }),
    ...(stiffness === undefined || 'message' in stiffness ? {} : { stiffness: keysOf(stiffnessProperties, stiffness) }),
    ...(blank === undefined || bending === undefined ? {} : { bending: bendingReport(bending) }),
  };
};

/** A finding with its place counted as editors show it, from 1. */
export const findingJson = (file: string, finding: Finding, lines: LineIndex): FindingJson => {
  const start = lines.position(finding.span.start);
  const end = lines.position(finding.span.end);
  return {
    file,
    line: start.line + 1,
    column: start.column + 1,
    endLine: end.line + 1,
    endColumn: end.column + 1,
    rule: finding.rule,
    severity: finding.severity,
    message: finding.message,
  };
};

/**
 * @param file     the file's name as the caller wrote it
 * @param results  its parts with their blanks; a blank that could not be laid out is left out
 * @param findings of this file, absolute spans
 * @param lines    of this file's text
 */
export const measureJson = (
  file: string,
  results: readonly {
    readonly part: Part;
    readonly blank: { readonly blank: Blank | undefined };
    readonly beads?: BeadResult | undefined;
    readonly stiffness?: StiffnessAnswer | NotReckoned | undefined;
    readonly folded?: FoldResult | undefined;
    /** The plan of its bends; undefined without bends or without a brake. */
    readonly bending?: Plan | undefined;
  }[],
  findings: readonly Finding[],
  lines: LineIndex,
): MeasureJson => ({
  schema: 1,
  file,
  parts: results.map(({ part, blank, beads, folded, stiffness, bending }) =>
    partJson(part, blank.blank, beads, folded, stiffness, bending),
  ),
  findings: findings.map((finding) => findingJson(file, finding, lines)),
});
