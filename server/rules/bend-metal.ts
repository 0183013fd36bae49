/** What a part's metal asks of its bends: how each line lies to the grain, and the tightest inside radius for that. */
import type { Fix, Span } from '../../grammar/syntax.js';
import type { BendLine } from '../blank/types.js';
import type { Part } from '../model/part.js';
import { type GrainLine, type TightestRadius, tightestRadius } from '../trade/radii.js';
import type { Subject } from './rule.js';
import { flangesById, type LaidOut } from './subject.js';

/**
 * Radii come in nominal sizes, of tools and of tables alike: 1/16 in (1.5875 mm) and 1.6 mm are one radius to the trade. A shortfall below this
 * is no shortfall (mm).
 */
export const nominal = 0.05;

/** A bend line less than 45° from the grain counts as along it (common practice, no source). Grain that is not stated counts as across. */
const grainLineOf = (grain: 'x' | 'y' | 'any' | undefined, bend: BendLine): GrainLine => {
  if (grain !== 'x' && grain !== 'y') return 'across';
  const dx = Math.abs(bend.to.x - bend.from.x);
  const dy = Math.abs(bend.to.y - bend.from.y);
  return (grain === 'x' ? dx > dy : dy > dx) ? 'along' : 'across';
};

export interface MetalAsks {
  readonly line: GrainLine;
  /** For the line as it lies; undefined when neither the material nor a table knows. */
  readonly least: TightestRadius | undefined;
  /** For a line across the grain. */
  readonly across: TightestRadius | undefined;
}
export const metalAsks = ({ part, blank, sheet }: LaidOut, bend: BendLine, grain = part.grain?.value): MetalAsks => {
  const line = grainLineOf(grain, bend);
  const ask = (way: GrainLine): TightestRadius | undefined =>
    sheet.material === undefined ? undefined : tightestRadius(sheet.material, blank.thickness, way, bend.turn);
  const across = ask('across');
  return { line, least: line === 'across' ? across : ask('along'), across };
};

/** What the shop wrote of its own metal is certain; the published table is cautious for soft drawing steels. */
export const certain = ({ sheet }: LaidOut): boolean => (sheet.material?.tightest.length ?? 0) > 0;

export const tooTight = (radius: number, least: TightestRadius | undefined): boolean =>
  least !== undefined && radius <= least.radius - nominal;

/** The radius as source text: a nominal size of the table, rounded up to what the file can write. */
export const writeRadius = (subject: Subject, radius: number): string => subject.write(radius - nominal / 2, 'up');

/** Writes a larger radius where the bend is written; none where the radius is the sheet's own affair, as for a joggle. */
export const radiusFix = (part: Part, bend: BendLine, radius: string): readonly Fix[] => {
  const title = `Bend it to radius ${radius}`;
  const put = (span: Span, text: string): readonly Fix[] => [{ title, edits: [{ span, text }] }];
  const after = (end: number): Span => ({ start: end, end });
  if (part.kind === 'panel') {
    const flange = flangesById(part).get(bend.step);
    if (flange === undefined) return [];
    return flange.radiusSpan === undefined ? put(after(flange.turnSpan.end), ` radius ${radius}`) : put(flange.radiusSpan, radius);
  }
  if (part.kind !== 'section' || bend.make !== 'turn') return [];
  const turn = part.steps.find((step) => step.kind === 'turn' && step.span.start === bend.span.start);
  return turn?.kind === 'turn' && turn.radius === undefined ? put(after(turn.span.end), ` radius ${radius}`) : [];
};

/** How the radius of a bend is changed, in words. */
export const radiusCure = (bend: BendLine, radius: string): string =>
  bend.make === 'joggle' ? `give the sheet \`bend radius ${radius}\`` : `write \`radius ${radius}\``;

/** Bends that were written in one place, as by a block for several edges, are spoken of together: the worst of them with all their names. */
export const byPlace = (bends: readonly BendLine[]): readonly (readonly BendLine[])[] => {
  const places = new Map<string, BendLine[]>();
  for (const bend of bends) {
    const place = `${bend.span.start}-${bend.span.end}`;
    const there = places.get(place);
    if (there === undefined) places.set(place, [bend]);
    else there.push(bend);
  }
  return [...places.values()];
};

/** `the bend top.1`, `the hems left.1 and top.1`. */
export const named = (what: string, bends: readonly BendLine[]): string => {
  const ids = bends.map(({ id }) => id).sort();
  return ids.length === 1 ? `the ${what} ${ids[0]}` : `the ${what}s ${ids.slice(0, -1).join(', ')} and ${ids.at(-1)}`;
};
