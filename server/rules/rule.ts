/** The form of a rule: one file each, pure, from (part, blank, shop in the part) to findings. */
import type { BeadResult, NotReckoned, StiffnessAnswer } from '../bead/index.js';
import type { BlankResult } from '../blank/types.js';
import type { Plan } from '../brake/index.js';
import type { Finding, Severity } from '../model/finding.js';
import type { Cut, Part } from '../model/part.js';
import type { BlockedBend } from './brake-fit.js';
import type { CutInPlace } from './cuts-in-place.js';

/** What the program asks the rules about. */
export interface Question {
  readonly part: Part;
  readonly blank: BlankResult;
  /** What the roller work of the part comes to; undefined where it has none, or no blank. */
  readonly beads?: BeadResult | undefined;
  /** How far it gives under its loads, or why that can't be said. */
  readonly stiffness?: StiffnessAnswer | NotReckoned | undefined;
  /** Writes a length the way the part's file would: fractions in inch files, 0.1 mm in metric ones, with the unit. */
  readonly say: (mm: number) => string;
  /** Two lengths that stand against each other: in decimals where they would read alike. */
  readonly sayBoth: (a: number, b: number) => readonly [string, string];
  /** Writes a length as source text in the file's own unit, for fixes: `3/8`, `12.5`. Rounded up or down to the display step as asked. */
  readonly write: (mm: number, towards: 'up' | 'down' | 'nearest') => string;
}
/** The same with what several rules ask of it, worked out once. */
export interface Subject extends Question {
  /** Every cut of the blank against its face; empty without a blank. */
  readonly cuts: readonly CutInPlace[];
  /** The written cut of an id, for its places in the text. */
  readonly written: (id: string) => Cut | undefined;
  /** Bends that no brake of the shop can make; empty without a blank or a brake. */
  readonly blocked: readonly BlockedBend[];
}
/** What is asked once the bending of the part is planned, which comes after everything else is said. */
export interface PlannedQuestion extends Question {
  readonly plan: Plan;
  /** As in `Subject`. */
  readonly blocked: readonly BlockedBend[];
}
export interface Rule {
  /** `family/kebab-name`; the family is one of unit name shape bend hem corner hole bead tip dimple break load brake roller sheet fold fit weld door stock check text number. */
  readonly name: string;
  readonly severity: Severity;
  readonly what: string;
  readonly why: string;
  /** A whole file in which the rule speaks. Line of the finding marked by `// error: name` or `// warning: name` (`// error below: name` on the line above where no comment can follow); `// file: name` begins a second file. Empty where no page could hold one. */
  readonly example: string;
  /** The same, put right. */
  readonly cure: string;
  /** Publication, or "common practice, no source". */
  readonly source: string;
  /** Absent for rules that grammar, model or blank speak themselves; their text above is for the manual. */
  readonly check?: (subject: Subject) => readonly Finding[];
  /** What it says of a plan of bending. */
  readonly checkPlan?: (question: PlannedQuestion) => readonly Finding[];
}
