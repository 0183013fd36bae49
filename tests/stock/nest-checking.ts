/** An independent look at a nesting result: the polygon library alone, on the outlines as drawn, with true arcs as fine chords. */
import { Clipper, EndType, FillRule, JoinType, type Paths64 } from 'clipper2-ts';
import { placeLoop, tessellate } from '../../server/shape/index.js';
import type { Loop } from '../../server/shape/path.js';
import type { NestQuestion, NestResult, PieceToNest } from '../../server/stock/types.js';

const SCALE = 1e5;
const toPath = (loop: Loop): { x: number; y: number }[] =>
  tessellate(loop, 1e-3).map((p) => ({ x: Math.round(p.x * SCALE), y: Math.round(p.y * SCALE) }));

/** Outline less holes, where it lies. */
const material = (piece: PieceToNest, place: NestResult['placements'][number]['place']): Paths64 =>
  Clipper.difference(
    Clipper.union([toPath(placeLoop(place, piece.outline))], FillRule.NonZero),
    Clipper.union(
      piece.holes.map((hole) => toPath(placeLoop(place, hole))),
      FillRule.NonZero,
    ),
    FillRule.NonZero,
  );

/** A thousandth of a millimetre each way for rounding: two pieces that lie closer than that to the kerf are not blamed. */
const slack = 2e-3;

/**
 * What is wrong with a result, in words; empty when nothing is.
 *
 * Each piece is grown by half the kerf with round corners; no two may share area, and none may leave its sheet less the margin.
 */
export const faults = (question: NestQuestion, result: NestResult): string[] => {
  const said: string[] = [];
  const byId = new Map(question.pieces.map((piece) => [piece.id, piece]));
  const grownBy = (question.kerf / 2 - slack) * SCALE;
  const bodies = result.placements.map((placement) => {
    const piece = byId.get(placement.id) as PieceToNest;
    const own = material(piece, placement.place);
    const grown = Clipper.inflatePaths(own, grownBy, JoinType.Round, EndType.Polygon, 2, 1e-4 * SCALE);
    return { placement, own, grown, box: Clipper.getBoundsPaths(grown) };
  });
  for (const [i, a] of bodies.entries()) {
    const sheet = result.sheets[a.placement.sheet];
    if (sheet === undefined) {
      said.push(`${a.placement.id} lies on no sheet`);
      continue;
    }
    const box = Clipper.getBoundsPaths(a.own);
    const inside =
      box.left / SCALE >= question.margin - slack &&
      box.top / SCALE >= question.margin - slack &&
      box.right / SCALE <= sheet.width - question.margin + slack &&
      box.bottom / SCALE <= sheet.height - question.margin + slack;
    if (!inside) said.push(`${a.placement.id} #${a.placement.copy} leaves sheet ${a.placement.sheet}`);
    for (const b of bodies.slice(i + 1)) {
      if (a.placement.sheet !== b.placement.sheet) continue;
      if (a.box.left > b.box.right || b.box.left > a.box.right || a.box.top > b.box.bottom || b.box.top > a.box.bottom) continue;
      const shared = Clipper.areaPaths(Clipper.intersect(a.grown, b.grown, FillRule.NonZero)) / (SCALE * SCALE);
      if (shared > 1e-3) said.push(`${a.placement.id} #${a.placement.copy} and ${b.placement.id} #${b.placement.copy} share ${shared} mm²`);
    }
    for (const free of sheet.offcuts) {
      const corner = (x: number, y: number): { x: number; y: number } => ({ x: Math.round(x * SCALE), y: Math.round(y * SCALE) });
      const rectangle = [
        corner(free.x, free.y),
        corner(free.x + free.width, free.y),
        corner(free.x + free.width, free.y + free.height),
        corner(free.x, free.y + free.height),
      ];
      const shared = Clipper.areaPaths(Clipper.intersect([rectangle], a.grown, FillRule.NonZero)) / (SCALE * SCALE);
      if (shared > 1e-3) said.push(`offcut at ${free.x}, ${free.y} cuts ${a.placement.id}`);
    }
  }
  const laid = new Map<string, number>();
  for (const { id } of result.placements) laid.set(id, (laid.get(id) ?? 0) + 1);
  for (const { id, count } of result.unplaced) laid.set(id, (laid.get(id) ?? 0) + count);
  for (const piece of question.pieces) {
    if ((laid.get(piece.id) ?? 0) !== piece.quantity)
      said.push(`${piece.id}: ${laid.get(piece.id) ?? 0} accounted for, not ${piece.quantity}`);
  }
  return said;
};

/** Steps at most, so that a test takes the same way on every machine. */
export const forSteps = (most: number): (() => boolean) => {
  let left = most;
  return () => left-- > 0;
};
