/** The hems and curls of a laid-out part, each with its bend and as it was written. */
import type { BendLine } from '../blank/types.js';
import type { CurlStep, EdgeChain, EdgeStep, HemStep } from '../model/part.js';
import { dropReach, type HemStyle, hemRadius } from '../trade/edges.js';
import { aluminiumTemper, type TightestRadius } from '../trade/radii.js';
import { metalAsks, named, tooTight } from './bend-metal.js';
import type { LaidOut } from './subject.js';

const gather = (chains: readonly EdgeChain[], into: Map<string, EdgeStep>): void => {
  for (const { steps } of chains) {
    for (const step of steps) {
      into.set(step.id, step);
      if (step.kind === 'flange') gather(step.edges, into);
    }
  }
};

interface Written<S> {
  readonly step: S;
  /** Every bend written at this place, as by a block for several edges. */
  readonly bends: readonly [BendLine, ...BendLine[]];
}

const written = <K extends 'hem' | 'curl'>(ready: LaidOut, kind: K): readonly Written<Extract<EdgeStep, { kind: K }>>[] => {
  if (!ready.blank.bends.some(({ make }) => make === kind)) return [];
  const steps = new Map<string, EdgeStep>();
  if (ready.part.kind === 'panel') gather(ready.part.edges, steps);
  else for (const step of [...ready.part.firstEdge, ...ready.part.lastEdge]) steps.set(step.id, step);
  const places = new Map<string, { step: Extract<EdgeStep, { kind: K }>; bends: [BendLine, ...BendLine[]] }>();
  for (const bend of ready.blank.bends) {
    const step = steps.get(bend.step);
    if (step?.kind !== kind) continue;
    const place = `${step.span.start}-${step.span.end}`;
    const there = places.get(place);
    if (there === undefined) places.set(place, { step: step as Extract<EdgeStep, { kind: K }>, bends: [bend] });
    else there.bends.push(bend);
  }
  return [...places.values()];
};
export const hemsOf = (ready: LaidOut): readonly Written<HemStep>[] => written(ready, 'hem');
export const curlsOf = (ready: LaidOut): readonly Written<CurlStep>[] => written(ready, 'curl');

/** What the hems or curls of one place are called: by the steps, since a double hem has two bends. */
export const namedSteps = (what: 'hem' | 'curl', bends: readonly BendLine[]): { readonly name: string; readonly several: boolean } => {
  const steps = [...new Map(bends.map((bend) => [bend.step, { ...bend, id: bend.step }])).values()];
  return { name: named(what, steps), several: steps.length > 1 };
};

/**
 * Steel up to this strength is folded flat on itself in every shop, though the table asks for a radius in parts that carry a load (MPa; common practice, no
 * source). It is the upper end of the table's softest row.
 */
const softSteel = 390;

/** Whether the aluminium table has this metal: it says of a temper itself that it folds flat. */
export const inATable = ({ sheet }: LaidOut): boolean =>
  sheet.material?.alloy !== undefined && aluminiumTemper(sheet.material.alloy) !== undefined;

/** The tightest radius asked of a fold, where it is tighter: the largest of its bends. Undefined when none of them is, or nothing is known. */
export const foldAsks = (
  ready: LaidOut,
  bends: readonly BendLine[],
): { readonly least: TightestRadius; readonly line: 'across' | 'along' } | undefined => {
  const { material } = ready.sheet;
  if (material === undefined || (material.tightest.length === 0 && !inATable(ready) && (material.tensile ?? 0) <= softSteel))
    return undefined;
  let worst: { readonly least: TightestRadius; readonly line: 'across' | 'along' } | undefined;
  for (const bend of bends) {
    const { least, line } = metalAsks(ready, bend);
    if (least !== undefined && tooTight(bend.radius, least) && least.radius > (worst?.least.radius ?? 0)) worst = { least, line };
  }
  return worst;
};

/** What is asked by hand, mm: a narrower return can't be started on the brake nor dressed down evenly. Common practice, no source. */
const byHand = 5;
/**
 * The least depth of a hem to an inside radius: four thicknesses of return and not under 5 mm, counted from where the fold's hollow ends; of a teardrop four
 * thicknesses of straight besides. Common practice, no source.
 */
export const leastDepth = (style: HemStyle, thickness: number): number => {
  const radius = hemRadius(style, thickness);
  const plain = radius + Math.max(4 * thickness, byHand);
  if (style.kind !== 'teardrop') return plain;
  // The outer corner of the cut edge stands a little beyond the straight, which leans on the sheet.
  return Math.max(plain, radius + thickness + dropReach(4 * thickness, radius, thickness));
};
