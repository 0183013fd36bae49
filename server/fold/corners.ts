/** How far apart the flanges of a corner stand once folded: what the welder has to fill, or the file to take off. */
import type { BendLine, Blank } from '../blank/types.js';
import { apart } from '../shape/arcs.js';
import { solidsApart, solidsOverlap } from '../shape/solids.js';
import { type Box3, boxes3Meet, type Vector } from '../shape/space.js';
import { clashOf, TOUCHING } from './collisions.js';
import type { ThickPiece } from './parts.js';
import type { CornerGap } from './types.js';

/** Returns of neighbouring flanges count as meeting when they come so near, in thicknesses. Common practice, no source. */
const RETURNS_MEET = 10;

/**
 * Least distances of flanges that hang on the same face and follow one another round it, of the flanges that hang
 * on them where they meet, and of a tab on the end of one with the other.
 * Overlap is negative: by the least shift that would free them.
 */
export const cornerGaps = (blank: Blank, pieces: readonly ThickPiece[]): readonly CornerGap[] => {
  const faces = new Map<string, ThickPiece[]>();
  for (const piece of pieces) {
    if (piece.face === undefined) continue;
    const list = faces.get(piece.face);
    if (list === undefined) faces.set(piece.face, [piece]);
    else list.push(piece);
  }
  const hangingOn = new Map<string, BendLine[]>();
  for (const bend of blank.bends) {
    const list = hangingOn.get(bend.parent);
    if (list === undefined) hangingOn.set(bend.parent, [bend]);
    else list.push(bend);
  }
  const gaps: CornerGap[] = [];
  const measure = (a: string, b: string, most: number): boolean => {
    const gap = gapOf(faces.get(a) ?? [], faces.get(b) ?? []);
    if (gap === undefined || gap.gap > most) return false;
    gaps.push({ a: `face:${a}`, b: `face:${b}`, ...gap });
    return true;
  };
  for (const bends of hangingOn.values()) {
    for (const first of bends) {
      for (const second of bends) {
        if (first === second || !followRound(first, second, blank.thickness)) continue;
        measure(first.child, second.child, Number.POSITIVE_INFINITY);
        const [one, other] = [hangingOn.get(first.child) ?? [], hangingOn.get(second.child) ?? []];
        for (const p of one) if (acrossEnd(p, first)) measure(p.child, second.child, RETURNS_MEET * blank.thickness);
        for (const q of other) if (acrossEnd(q, second)) measure(q.child, first.child, RETURNS_MEET * blank.thickness);
        let [a, b] = [one, other];
        while (a.length > 0 && b.length > 0) {
          for (const p of a) for (const q of b) measure(p.child, q.child, RETURNS_MEET * blank.thickness);
          a = a.flatMap(({ child }) => hangingOn.get(child) ?? []);
          b = b.flatMap(({ child }) => hangingOn.get(child) ?? []);
        }
      }
    }
  }
  return gaps;
};

/** Whether a bend runs across the end of the flange that it hangs on, as a tab's does that closes a corner. */
const acrossEnd = (bend: BendLine, flange: BendLine): boolean => {
  const [a, b] = bend.tangentParent;
  const [c, d] = flange.tangentParent;
  return Math.abs((b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x)) > 0.1 * apart(a, b) * apart(c, d);
};

/** Whether the second bend begins round a corner from where the first ends, walking round their face anticlockwise. */
const followRound = (first: BendLine, second: BendLine, thickness: number): boolean => {
  const [, end] = first.tangentParent;
  const [start] = second.tangentParent;
  const room = 4 * (first.radius + second.radius + 2 * thickness);
  if (apart(end, start) > room) return false;
  const [a, b] = first.tangentParent;
  const [c, d] = second.tangentParent;
  const turn = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x);
  return turn > 1e-6 * apart(a, b) * apart(c, d);
};

const gapOf = (a: readonly ThickPiece[], b: readonly ThickPiece[]): { readonly gap: number; readonly at: Vector } | undefined => {
  let best: { readonly gap: number; readonly at: Vector } | undefined;
  for (const p of a) {
    for (const q of b) {
      const clash = overlapping(p, q) ? clashOf(p, q) : undefined;
      if (clash !== undefined) {
        if (best === undefined || -clash.depth < best.gap) best = { gap: -clash.depth, at: clash.at };
        continue;
      }
      const pairs = p
        .outline()
        .flatMap(({ solid: one }) => q.outline().map(({ solid: other }) => ({ one, other, least: boxesApart(one.box, other.box) })));
      pairs.sort((first, second) => first.least - second.least);
      for (const { one, other, least } of pairs) {
        if (best !== undefined && least >= best.gap) break;
        const { distance, at } = solidsApart(one, other);
        if (best === undefined || distance < best.gap) best = { gap: distance, at };
      }
    }
  }
  return best;
};

const overlapping = (a: ThickPiece, b: ThickPiece): boolean =>
  boxes3Meet(a.box, b.box, -TOUCHING) &&
  a.outline().some(({ solid: one }) => b.outline().some(({ solid: other }) => solidsOverlap(one, other, TOUCHING)));

const boxesApart = (a: Box3, b: Box3): number =>
  Math.hypot(
    Math.max(0, a.min.x - b.max.x, b.min.x - a.max.x),
    Math.max(0, a.min.y - b.max.y, b.min.y - a.max.y),
    Math.max(0, a.min.z - b.max.z, b.min.z - a.max.z),
  );
