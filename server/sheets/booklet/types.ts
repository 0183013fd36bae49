/** What a job booklet is made from: the parts with all that was worked out of them, and what the person at the desk adds. */
import type { BeadResult, NotReckoned, StiffnessAnswer } from '../../bead/index.js';
import type { Blank } from '../../blank/types.js';
import type { Planned } from '../../brake/index.js';
import type { FoldResult } from '../../fold/types.js';
import { sayLength, sayLengthBare, saySize } from '../../model/display.js';
import type { HomeUnit } from '../../model/model.js';
import type { Part } from '../../model/part.js';
import type { PieceWork } from '../../stock/index.js';
import type { CuttingOutcome } from '../cutting/outcome.js';
import type { Block } from '../documents/blocks.js';
import type { DisplayOptions } from '../drawing.js';

export interface BookletFinding {
  readonly severity: 'error' | 'warning' | 'information' | 'hint';
  readonly rule: string;
  readonly message: string;
  /** From 1. */
  readonly line: number;
}
export interface BookletFile {
  /** As it is shown: `cargo-trike/gate.planish`. */
  readonly name: string;
  readonly findings: readonly BookletFinding[];
}
export interface BookletPart {
  readonly file: string;
  readonly part: Part;
  /** The net blank; undefined when it can't be laid out. */
  readonly blank: Blank | undefined;
  readonly folded: FoldResult | undefined;
  readonly beads: BeadResult | undefined;
  readonly stiffness: StiffnessAnswer | NotReckoned | undefined;
  /** Of a panel or section with bends and a brake. */
  readonly planned: Planned | undefined;
  /** Of a piece or a strap. */
  readonly work: PieceWork | undefined;
  /** Errors and warnings said inside the part. */
  readonly findings: readonly BookletFinding[];
  readonly unit: HomeUnit | undefined;
}
/** Data fields of ISO 7200; what is left out is left empty, to be written by hand. */
export interface BookletFields {
  readonly owner?: string;
  readonly number?: string;
  readonly creator?: string;
  readonly approver?: string;
  readonly revision?: string;
  /** Of issue, YYYY-MM-DD. */
  readonly date: string;
}
export interface BookletInput {
  readonly title: string;
  readonly files: readonly BookletFile[];
  readonly parts: readonly BookletPart[];
  /** Undefined when nothing is cut. */
  readonly cutting: CuttingOutcome | undefined;
  readonly fields: BookletFields;
}
export interface BookletOptions {
  /** Of the whole job, for what is not one part's. */
  readonly unit: HomeUnit | undefined;
  readonly denominator?: number;
  /** The other unit after each size. */
  readonly bothUnits?: boolean;
  /** Width and greatest height of a drawing on the page, mm. */
  readonly room: number;
  readonly tallest: number;
  /** How many sheets blocks of their own take, so that drawings can be as large as costs none more. */
  readonly sheets?: (blocks: readonly Block[]) => number;
}

/** How sizes are written in a part's own unit. */
export interface Saying {
  /** `30 1/4 in`, with the other unit after it when both are wanted. */
  readonly say: (mm: number) => string;
  readonly bare: (mm: number) => string;
  readonly size: (width: number, height: number) => string;
  readonly both: boolean;
  readonly display: DisplayOptions;
}
export const sayingIn = (unit: HomeUnit | undefined, options: BookletOptions): Saying => {
  const { denominator } = options;
  const both = options.bothUnits === true;
  const inches = unit?.name === 'inch' || unit?.name === 'foot';
  const other = (mm: number): string => (inches ? mm.toFixed(1) : (mm / 25.4).toFixed(3));
  const sign = inches ? 'mm' : 'in';
  return {
    say: (mm) => `${sayLength(mm, unit, denominator)}${both ? ` (${other(mm)} ${sign})` : ''}`,
    bare: (mm) => sayLengthBare(mm, unit, denominator),
    size: (width, height) => `${saySize(width, height, unit, denominator)}${both ? ` (${other(width)} × ${other(height)} ${sign})` : ''}`,
    both,
    display: { unit, ...(denominator === undefined ? {} : { denominator }) },
  };
};

/** The sheet as it is cut and marked, before any rolling. */
export const cutBlank = ({ blank, beads }: Pick<BookletPart, 'blank' | 'beads'>): Blank | undefined => beads?.drawIn?.asCut ?? blank;

/** `2 off`, `1 off and 1 of the opposite hand`. */
export const howMany = (part: Part): string =>
  part.quantityOpposite > 0 ? `${part.quantity} off and ${part.quantityOpposite} of the opposite hand` : `${part.quantity} off`;

/** Everything people wrote about the job that a caution may hang on: names and notes, in lower case. */
export const wordsOfJob = (input: BookletInput): string =>
  [
    input.title,
    ...input.files.map(({ name }) => name),
    ...input.parts.flatMap(({ part }) => [part.name, part.note ?? '', part.finish ?? '']),
  ]
    .join('\n')
    .toLowerCase();
