/** The finished part: where everything stands, how large it is, what runs into what, and how its corners close. */

import type { Fix, Span } from '../../grammar/syntax.js';
import type { BendLine, Blank, Face } from '../blank/types.js';
import type { Finding } from '../model/finding.js';
import type { EdgeChain, FlangeStep, Panel, Section } from '../model/part.js';
import { type Box3, boxesJoined, pointFrom, type Vector } from '../shape/space.js';
import { clashes, type PieceClash, shiftToFree } from './collisions.js';
import { cornerGaps } from './corners.js';
import { type ThickPiece, thickPieces } from './parts.js';
import { foldPieces } from './state.js';
import type { Collision, CornerGap, FoldedState, FoldResult } from './types.js';

/** How lengths are written in messages and fixes: the project knows the file's unit, this room does not. */
export interface FoldWords {
  readonly say: (mm: number) => string;
  readonly write?: (mm: number, towards: 'up' | 'down' | 'nearest') => string;
}

const IN_MILLIMETRES: FoldWords = { say: (mm) => `${Math.round(mm * 100) / 100} mm` };

/**
 * The blank folded up.
 *
 * @param words how lengths are written in messages; millimetres when left out
 * @returns always an answer; findings have spans relative to the part
 */
export const foldPart = (part: Panel | Section, blank: Blank, words: FoldWords = IN_MILLIMETRES): FoldResult => {
  const folded = foldPieces(blank, () => 1);
  const pieces = thickPieces(blank, folded);
  const found = clashes(pieces);
  const order = orderOf(blank);
  const collisions = found.map(({ a, b, depth, at }): Collision => {
    const [first, second] = inOrder(order, a.feature, b.feature);
    return { a: first, b: second, depth, at };
  });
  let gaps: readonly CornerGap[] | undefined;
  return {
    blank,
    finished: folded.state,
    envelope: pieces.map(({ box }) => box).reduce(boxesJoined, NOTHING),
    collisions,
    // Measured when first asked for, and from the blank anew: a keystroke doesn't ask, and thick pieces are not worth keeping.
    get gaps() {
      gaps ??= cornerGaps(
        blank,
        thickPieces(
          blank,
          foldPieces(blank, () => 1),
        ),
      );
      return gaps;
    },
    findings: reported(part, blank, words, folded.state, found),
  };
};

const NOTHING: Box3 = {
  min: { x: Number.POSITIVE_INFINITY, y: Number.POSITIVE_INFINITY, z: Number.POSITIVE_INFINITY },
  max: { x: Number.NEGATIVE_INFINITY, y: Number.NEGATIVE_INFINITY, z: Number.NEGATIVE_INFINITY },
};

/** Pieces in the order they are written: the base, then each bend with what lies beyond it. */
const orderOf = (blank: Blank): ReadonlyMap<string, number> => {
  const order = new Map<string, number>();
  blank.bends.forEach((bend, i) => {
    order.set(`bend:${bend.id}`, 2 * i + 1);
    order.set(`face:${bend.child}`, 2 * i + 2);
  });
  return order;
};
const inOrder = (order: ReadonlyMap<string, number>, a: string, b: string): readonly [string, string] =>
  (order.get(a) ?? 0) <= (order.get(b) ?? 0) ? [a, b] : [b, a];

interface Offence extends PieceClash {
  readonly span: Span;
  readonly earlier: ThickPiece;
  readonly later: ThickPiece;
}

/** One finding for each place in the text, at the step that is written later; the deepest tells. */
const reported = (
  part: Panel | Section,
  blank: Blank,
  words: FoldWords,
  state: FoldedState,
  found: readonly PieceClash[],
): readonly Finding[] => {
  const order = orderOf(blank);
  const spans = new Map<string, Span>();
  for (const bend of blank.bends) spans.set(`bend:${bend.id}`, bend.span);
  for (const face of blank.faces) if (face.bend !== undefined) spans.set(`face:${face.id}`, face.span);
  const places = new Map<string, Offence[]>();
  for (const clash of found) {
    const [first] = inOrder(order, clash.a.feature, clash.b.feature);
    const [earlier, later] = first === clash.a.feature ? [clash.a, clash.b] : [clash.b, clash.a];
    const span = spans.get(later.feature) ?? part.nameSpan;
    const key = `${span.start} ${span.end}`;
    places.set(key, [...(places.get(key) ?? []), { ...clash, span, earlier, later }]);
  }
  return [...places.values()].map((offences) => findingOf(part, blank, words, state, offences));
};

const findingOf = (part: Panel | Section, blank: Blank, words: FoldWords, state: FoldedState, offences: readonly Offence[]): Finding => {
  const worst = offences.reduce((most, one) => (one.depth > most.depth ? one : most));
  const { say } = words;
  const { cure, fixes } = cureOf(part, blank, words, state, worst);
  const others = new Set(offences.map(({ earlier, later }) => `${earlier.feature} ${later.feature}`)).size - 1;
  const more = others === 0 ? '' : ` (and ${others} more ${others === 1 ? 'place' : 'places'} of the same kind)`;
  return {
    file: part.file,
    span: worst.span,
    rule: 'fold/collides-with-itself',
    severity: 'error',
    message: `folded up, ${nameOf(worst.later)} runs ${say(worst.depth)} into ${nameOf(worst.earlier)}${more}; ${cure}`,
    fixes,
    features: [...new Set(offences.flatMap(({ a, b }) => [a.feature, b.feature]))],
  };
};

const nameOf = ({ feature, bend, face }: ThickPiece): string => (bend === undefined ? (face ?? feature) : `the bend of ${bend.step}`);

/** A flange that can be freed by losing the most of its length but a fifth is too long; others must be mitred, or stand elsewhere. */
const MOST_TO_LOSE = 0.8;

const cureOf = (
  part: Panel | Section,
  blank: Blank,
  { say, write }: FoldWords,
  state: FoldedState,
  worst: Offence,
): { readonly cure: string; readonly fixes: readonly Fix[] } => {
  let best: { readonly id: string; readonly shorter: number; readonly step: FlangeStep | undefined; readonly setback: number } | undefined;
  for (const [piece, other] of [
    [worst.later, worst.earlier],
    [worst.earlier, worst.later],
  ] as const) {
    const bend = blank.bends.find(({ child }) => child === piece.face);
    const back = bend === undefined ? undefined : drawingBack(bend, state);
    if (bend === undefined || back === undefined || blank.bends.some(({ parent }) => parent === piece.face)) continue;
    const shorter = shiftToFree(piece, other, back);
    const step = part.kind === 'panel' ? flangeNamed(part.edges, bend.step) : undefined;
    const face = blank.faces.find(({ id }) => id === piece.face);
    if (!(shorter > 0) || face === undefined) continue;
    const depth = depthOfFace(bend, face);
    if (shorter > MOST_TO_LOSE * depth) continue;
    // What is taken off the tip frees nothing nearer to the bend.
    if (depthOf(bend, state, worst.at) < depth - shorter - blank.thickness) continue;
    if (best === undefined || shorter < best.shorter) best = { id: bend.step, shorter, step, setback: bend.setback };
  }
  if (best === undefined)
    return { cure: 'cut the ends of one of them back or mitre them, or change where or how far they are bent', fixes: [] };
  const { id, shorter, step, setback } = best;
  const length = (step?.length ?? 0) - shorter;
  const fixes =
    // A length that the bend uses up is no cure, nor is one end alone of a flange that tapers.
    step === undefined || step.taper !== undefined || write === undefined || length <= setback
      ? []
      : [{ title: `Make ${id} ${say(length)}`, edits: [{ span: step.lengthSpan, text: write(length, 'down') }] }];
  return { cure: `make ${id} at least ${say(shorter)} shorter, or give it more room`, fixes };
};

/** How far a face reaches from its bend, mm. */
const depthOfFace = ({ tangentParent, tangentChild }: BendLine, face: Face): number => {
  const dx = tangentChild[0].x - tangentParent[0].x;
  const dy = tangentChild[0].y - tangentParent[0].y;
  const length = Math.hypot(dx, dy) || 1;
  return Math.max(...face.polygon.map(({ to }) => ((to.x - tangentChild[0].x) * dx + (to.y - tangentChild[0].y) * dy) / length));
};

/** How far a place in space lies from a flange's bend, along the flange, mm. */
const depthOf = (bend: BendLine, state: FoldedState, at: Vector): number => {
  const back = drawingBack(bend, state);
  const frame = state.frames.get(bend.child);
  if (back === undefined || frame === undefined) return 0;
  const root = pointFrom(frame, bend.tangentChild[0].x, bend.tangentChild[0].y, 0);
  return (root.x - at.x) * back.x + (root.y - at.y) * back.y + (root.z - at.z) * back.z;
};

/** From the tip of a bend's flange back toward its bend. */
const drawingBack = (bend: BendLine, state: FoldedState): Vector | undefined => {
  const frame = state.frames.get(bend.child);
  if (frame === undefined) return undefined;
  const dx = bend.tangentParent[0].x - bend.tangentChild[0].x;
  const dy = bend.tangentParent[0].y - bend.tangentChild[0].y;
  const length = Math.hypot(dx, dy) || 1;
  return {
    x: (frame.x.x * dx + frame.y.x * dy) / length,
    y: (frame.x.y * dx + frame.y.y * dy) / length,
    z: (frame.x.z * dx + frame.y.z * dy) / length,
  };
};

const flangeNamed = (chains: readonly EdgeChain[], id: string): FlangeStep | undefined => {
  for (const chain of chains) {
    for (const step of chain.steps) {
      if (step.kind !== 'flange') continue;
      const found = step.id === id ? step : flangeNamed(step.edges, id);
      if (found !== undefined) return found;
    }
  }
  return undefined;
};
