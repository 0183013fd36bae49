/** Measured properties as rows for people. Rows are data; whoever prints them lays them out. */
import type { BeadResult, NotReckoned, StiffnessAnswer } from '../bead/index.js';
import type { Blank } from '../blank/types.js';
import type { Plan } from '../brake/index.js';
import type { FoldResult } from '../fold/types.js';
import { figures, sayAngle, sayArea, sayBendSum, sayLength, sayMass, sayThickness } from '../model/display.js';
import type { HomeUnit } from '../model/model.js';
import type { Part } from '../model/part.js';
import {
  bendsOf,
  endProperties,
  endsOf,
  eyeOf,
  eyeProperties,
  lengthOf,
  lengthProperties,
  pieceBendProperties,
  stockProperties,
} from './piece-properties.js';
import {
  beadProperties,
  bendingProperties,
  bendProperties,
  blankProperties,
  foldedProperties,
  type Property,
  partProperties,
  type Quantity,
  sheetOf,
  sheetProperties,
  stiffnessProperties,
} from './properties.js';

export interface MeasureRow {
  /** As the language writes it: `gate.blank.width`. */
  readonly path: string;
  readonly label: string;
  readonly quantity: Quantity;
  /** mm, rad, mm², kg, or plain. */
  readonly value: number | string | boolean;
  /** In the file's own unit: `30 1/4 in`. */
  readonly text: string;
}

const say = (quantity: Quantity, value: number | string | boolean, unit: HomeUnit | undefined, denominator: number): string => {
  if (typeof value === 'string') return value;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  switch (quantity) {
    case 'length':
      return sayLength(value, unit, denominator);
    case 'thickness':
      return sayThickness(value, unit);
    case 'bend sum':
      return sayBendSum(value, unit);
    case 'angle':
      return sayAngle(value);
    case 'area':
      return sayArea(value, unit);
    case 'mass':
      return sayMass(value, unit);
    case 'frequency':
      return `${figures(value, 3)} Hz`;
    case 'ratio':
      return figures(value, 3);
    case 'count':
    case 'text':
    case 'yes or no':
      return String(value);
  }
};

/**
 * Rows in the order of the property lists: the part, its sheet, its blank, each bend from the base outward; of a piece its length, ends, eye and bends.
 *
 * @param unit        the file's own unit; without one, millimetres
 * @param denominator smallest fraction of an inch shown
 * @param beads       what its beads come to, when it has any
 * @param folded      the finished part; said of parts with bends only
 * @param bending     the plan of its bends, where the shop has a brake
 */
export const measureTable = (
  part: Part,
  blank: Blank | undefined,
  unit: HomeUnit | undefined,
  denominator = 64,
  beads?: BeadResult,
  folded?: FoldResult,
  stiffness?: StiffnessAnswer | NotReckoned,
  bending?: Plan,
): readonly MeasureRow[] => {
  const rows = <From>(prefix: string, properties: readonly Property<From>[], from: From): readonly MeasureRow[] =>
    properties.flatMap(({ name, label, quantity, read }) => {
      const value = read(from);
      return value === undefined
        ? []
        : [{ path: `${prefix}.${name}`, label, quantity, value, text: say(quantity, value, unit, denominator) }];
    });
  const length = lengthOf(part);
  if (length !== undefined) {
    const eye = eyeOf(length);
    // A square end has nothing to tell.
    const ends = Object.entries(endsOf(length)).filter(([, { end }]) => end.kind !== 'square');
    return [
      ...rows(part.name, lengthProperties, length),
      ...(length.work.stock === undefined ? [] : rows(`${part.name}.stock`, stockProperties, length.work.stock)),
      ...ends.flatMap(([name, end]) =>
        rows(`${part.name}.${name}`, endProperties, end)
          .filter(({ path, value }) => !path.endsWith('.turned') || value !== 0)
          .map((row) => ({ ...row, label: `${name}: ${row.label}` })),
      ),
      ...(eye === undefined ? [] : rows(`${part.name}.eye`, eyeProperties, eye)),
      ...bendsOf(length).flatMap((bend, i) => rows(`${part.name}.bends.${i + 1}`, pieceBendProperties, bend)),
    ];
  }
  const sheet = sheetOf(part);
  return [
    ...rows(part.name, partProperties, { part, blank }),
    ...(sheet === undefined ? [] : rows(`${part.name}.sheet`, sheetProperties, sheet)),
    ...(blank === undefined ? [] : rows(`${part.name}.blank`, blankProperties, blank)),
    ...(folded === undefined || blank === undefined || blank.bends.length === 0
      ? []
      : rows(`${part.name}.folded`, foldedProperties, folded)),
    ...(bending === undefined || blank === undefined ? [] : rows(`${part.name}.bending`, bendingProperties, bending)),
    ...(stiffness === undefined || blank === undefined ? [] : rows(`${part.name}.stiffness`, stiffnessProperties, stiffness)),
    ...(blank?.bends ?? []).flatMap((bend) => rows(`${part.name}.bends.${bend.id}`, bendProperties, bend)),
    ...(beads?.beads ?? []).flatMap((bead) => rows(`${part.name}.beads.${bead.id}`, beadProperties, bead)),
  ];
};
