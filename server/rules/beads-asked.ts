/** What the rules about roller work share: the panel with its beads, the written bead behind a worked one, places in the part's own coordinates. */
import type { Span } from '../../grammar/syntax.js';
import type { BeadResult, WorkedBead } from '../bead/types.js';
import type { Bead, Panel } from '../model/part.js';
import type { Point } from '../shape/path.js';
import type { Question, Subject } from './rule.js';
import { type LaidOut, laidOut } from './subject.js';

export interface Rolled extends LaidOut {
  readonly part: Panel;
  readonly beads: BeadResult;
}

/** Undefined while there is nothing to judge: no roller work, no blank, no sheet. */
export const rolled = (subject: Subject): Rolled | undefined => {
  if (subject.beads === undefined) return undefined;
  const ready = laidOut(subject);
  return ready === undefined || ready.part.kind !== 'panel' ? undefined : { ...ready, part: ready.part, beads: subject.beads };
};

export const writtenBead = (part: Panel, id: string): Bead | undefined => part.beads.find((bead) => bead.id === id);

/** The words that say how round the corners are; the path where nothing does. */
export const cornerSpan = (part: Panel, bead: WorkedBead): Span => {
  const path = writtenBead(part, bead.id)?.path;
  return path !== undefined && 'corner' in path && path.corner !== undefined ? path.corner.span : bead.pathSpan;
};

export const beadFeature = (id: string): string => `bead:${id}`;

/** A place on the blank as the part's own coordinates have it: `(18 in, 4 in)`. */
export const placeWords = (subject: Question, { blank }: LaidOut, at: Point): string =>
  `(${subject.say(at.x + blank.datum.x)}, ${subject.say(at.y + blank.datum.y)})`;

/** Copies of one written bead together, in order: what is wrong with its words is said once. */
export const byStatement = <T extends { readonly span: Span }>(all: readonly T[]): readonly (readonly [T, ...T[]])[] => {
  const groups = new Map<number, [T, ...T[]]>();
  for (const one of all) {
    const group = groups.get(one.span.start);
    if (group === undefined) groups.set(one.span.start, [one]);
    else group.push(one);
  }
  return [...groups.values()];
};

const rollerBench = `units inch

material mild_steel { gauge table steel  density 7850 kg/m3  elongation 34 %  hardening 0.20 }
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/16 k 0.42 }
roller hand_roller { throat 8  thickest 16 ga of mild_steel  arm 2 }
die half_round_3_8 { round  width 3/8  depth 1/16  tightest turn 3/4  per pass 1/16 }
`;
/** A whole file: a shop with a bead roller, an empty line, and the part given. */
export const onTheRoller = (part: string): string => `${rollerBench}\n${part}\n`;
/** The same with one panel on which the lines given stand. */
export const onAPanel = (...lines: readonly string[]): string =>
  onTheRoller(`panel floor {\n  sheet crs_18\n  outline rectangle 36 by 24\n${lines.map((line) => `  ${line}\n`).join('')}}`);
