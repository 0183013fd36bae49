/** Measured properties as values of the language, by the steps of a path. */
import type { BeadResult, NotReckoned, StiffnessAnswer } from '../bead/index.js';
import type { Blank } from '../blank/types.js';
import type { Plan } from '../brake/index.js';
import type { FoldResult } from '../fold/types.js';
import * as dimension from '../model/dimension.js';
import type { MeasuredTree } from '../model/model.js';
import type { Part } from '../model/part.js';
import type { Value } from '../model/values.js';
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
  stockProperties,
} from './piece-properties.js';
import {
  beadProperties,
  bendingProperties,
  bendProperties,
  blankProperties,
  cutProperties,
  foldedProperties,
  type Property,
  partProperties,
  type Quantity,
  sheetOf,
  sheetProperties,
  stiffnessProperties,
} from './properties.js';

const dimensionOf = (quantity: Exclude<Quantity, 'text' | 'yes or no'>): (typeof dimension)['length'] => {
  switch (quantity) {
    case 'length':
    case 'thickness':
    case 'bend sum':
      return dimension.length;
    case 'angle':
      return dimension.angle;
    case 'area':
      return dimension.area;
    case 'mass':
      return dimension.mass;
    case 'count':
    case 'ratio':
    case 'frequency':
      return dimension.plain;
  }
};

const asValue = (quantity: Quantity, read: number | string | boolean): Value => {
  if (typeof read === 'boolean' || quantity === 'yes or no') return { kind: 'yesno', yes: read === true };
  if (typeof read === 'string' || quantity === 'text') return { kind: 'text', text: String(read) };
  return { kind: 'number', value: read, dim: dimensionOf(quantity), bare: false };
};

const branch = <From>(properties: readonly Property<From>[], from: From): { [step: string]: MeasuredTree | Value } => {
  const steps: { [step: string]: MeasuredTree | Value } = {};
  for (const { name, quantity, read } of properties) {
    const value = read(from);
    // What is known by name but cannot be worked out (a mass without a density) leaves a check undecided; the name itself is right.
    steps[name] = value === undefined ? { kind: 'unknown' } : asValue(quantity, value);
  }
  return steps;
};

type Growing = { [step: string]: Growing | MeasuredTree | Value };

/** Names are the user's own (`__proto__` is one a person may write), so the objects they hang on inherit nothing. */
const nothing = (): Growing => Object.create(null) as Growing;

/** Hangs a branch at a dotted place: `top.1` under `bends` becomes `bends.top.1`. */
const hang = (root: Growing, place: string, leaf: MeasuredTree): void => {
  const steps = place.split('.');
  let at = root;
  for (const step of steps) {
    const next = (at[step] ?? nothing()) as Growing;
    at[step] = next;
    at = next;
  }
  Object.assign(at, leaf);
};

/** What rooms beyond the blank come to, worked out when it is asked for. */
export interface Further {
  readonly beads?: () => BeadResult | undefined;
  readonly stiffness?: () => StiffnessAnswer | NotReckoned | undefined;
  readonly folded?: () => FoldResult | undefined;
  /** Undefined also while the plan is not made yet. */
  readonly bending?: () => Plan | undefined;
}

/** Of what is cut from a length; undefined while that length is not known. */
const lengthTree = (length: Length): MeasuredTree | undefined => {
  const { work } = length;
  const { stock } = work;
  if (work.length === undefined || stock === undefined) return undefined;
  const eye = eyeOf(length);
  return {
    ...branch(lengthProperties, length),
    ...Object.fromEntries(Object.entries(endsOf(length)).map(([name, end]) => [name, branch(endProperties, end)])),
    ...(eye === undefined ? {} : { eye: branch(eyeProperties, eye) }),
    get stock() {
      return branch(stockProperties, stock);
    },
    get bends() {
      const bends = nothing();
      for (const [i, bend] of bendsOf(length).entries()) hang(bends, String(i + 1), branch(pieceBendProperties, bend));
      return bends;
    },
  };
};

/**
 * What `part.…` can be asked; undefined while there is no blank, so that whatever reads it is not decided rather than wrong.
 * Branches are made when they are walked: most parts are never asked.
 */
export const measuredTree = (part: Part, blank: Blank | undefined, further: Further = {}): MeasuredTree | undefined => {
  const length = lengthOf(part);
  if (length !== undefined) return lengthTree(length);
  const sheet = sheetOf(part);
  if (blank === undefined || sheet === undefined) return undefined;
  return {
    ...branch(partProperties, { part, blank }),
    get sheet() {
      return branch(sheetProperties, sheet);
    },
    get blank() {
      return branch(blankProperties, blank);
    },
    get folded() {
      const folded = further.folded?.();
      return folded === undefined ? nothing() : branch(foldedProperties, folded);
    },
    get bending() {
      return branch(bendingProperties, further.bending?.());
    },
    get bends() {
      const bends = nothing();
      for (const bend of blank.bends) hang(bends, bend.id, branch(bendProperties, bend));
      return bends;
    },
    get cuts() {
      const cuts = nothing();
      for (const cut of blank.cutouts) hang(cuts, cut.id, branch(cutProperties, cut));
      return cuts;
    },
    get beads() {
      const beads = nothing();
      for (const bead of further.beads?.()?.beads ?? []) hang(beads, bead.id, branch(beadProperties, bead));
      return beads;
    },
    get stiffness() {
      const answer = further.stiffness?.();
      return answer === undefined ? nothing() : branch(stiffnessProperties, answer);
    },
  };
};
