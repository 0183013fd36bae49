/** Sizes of a section for a drawing: outside lengths of the legs, turns with their inside radii, and the whole. */
import type { BendLine, Blank } from '../blank/types.js';
import { apart, startOf } from '../shape/arcs.js';
import { boundingBox } from '../shape/loops.js';
import type { Loop, Point } from '../shape/path.js';
import { type CutPiece, type FoldSection, JOINT } from './section.js';

export type SectionDimension =
  | {
      readonly kind: 'leg';
      readonly feature: string;
      /** Outside length, mm: to the sharp corner of the outside faces, beyond a square turn to the outermost of the bend. Source: DIN 6935:2011-10. */
      readonly length: number;
      /** Its ends on the leg's outside, and the unit direction away from the sheet, in which the dimension line stands off. */
      readonly from: Point;
      readonly to: Point;
      readonly away: Point;
    }
  | {
      readonly kind: 'turn';
      readonly feature: string;
      /** Turned from flat, rad, > 0, and inside radius, mm. */
      readonly turn: number;
      readonly inside: number;
      readonly direction: BendLine['direction'];
      /** The pipe's centre, and the middle of its outside. */
      readonly centre: Point;
      readonly middle: Point;
    }
  /** Of everything that the plane cuts, along x (its width) and y (its height). */
  | { readonly kind: 'overall'; readonly along: 'x' | 'y'; readonly length: number; readonly from: Point; readonly to: Point };

/**
 * What a fabricator would write on a section of the finished part. Legs and turns are given for bends that are cut square to their axes; others have no true
 * lengths in this plane.
 */
export const dimensionsOf = (blank: Blank, section: FoldSection): readonly SectionDimension[] => {
  const bends = new Map(blank.bends.map((bend) => [`bend:${bend.id}`, bend]));
  const square = section.pieces.flatMap((piece) => {
    const bend = bends.get(piece.feature);
    return bend !== undefined && piece.square ? [{ piece, bend }] : [];
  });
  const found: SectionDimension[] = [];
  for (const piece of section.pieces) {
    if (piece.feature.startsWith('face:')) found.push(...legOf(piece, square, blank.thickness));
  }
  for (const { piece, bend } of square) found.push(...turnOf(piece, bend));
  return [...found, ...overall(section.pieces.map(({ loop }) => loop))];
};

interface SquareBend {
  readonly piece: CutPiece;
  readonly bend: BendLine;
}

const legOf = (piece: CutPiece, square: readonly SquareBend[], thickness: number): readonly SectionDimension[] => {
  const { feature, loop } = piece;
  if (loop.length !== 4) return [];
  // The two ends of a plate's section are as long as the sheet is thick; joints say which end runs on.
  const ends = [0, 1, 2, 3].filter((i) => Math.abs(apart(startOf(loop, i), (loop[i] as Loop[number]).to) - thickness) < 1e-6);
  const [first, second] = loop[ends[0] ?? 0]?.id === JOINT || loop[ends[1] ?? 1]?.id === JOINT ? ends : [];
  if (first === undefined || second === undefined || second - first !== 2) return [];
  const middles = [first, second].map((i) => between(startOf(loop, i), (loop[i] as Loop[number]).to));
  const [a, b] = middles as [Point, Point];
  const flat = apart(a, b);
  if (flat < 1e-9) return [];
  const along = { x: (b.x - a.x) / flat, y: (b.y - a.y) / flat };
  const [before, after] = [bendAt(piece, first, a, square), bendAt(piece, second, b, square)];
  if ((before === undefined && loop[first]?.id === JOINT) || (after === undefined && loop[second]?.id === JOINT)) return [];
  const start = { x: a.x - along.x * (before?.bend.setback ?? 0), y: a.y - along.y * (before?.bend.setback ?? 0) };
  const end = { x: b.x + along.x * (after?.bend.setback ?? 0), y: b.y + along.y * (after?.bend.setback ?? 0) };
  const away = outsideOf(along, a, before ?? after);
  const shift = (p: Point): Point => ({ x: p.x + (away.x * thickness) / 2, y: p.y + (away.y * thickness) / 2 });
  return [{ kind: 'leg', feature, length: apart(start, end), from: shift(start), to: shift(end), away }];
};

const between = (a: Point, b: Point): Point => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });

/** The bend that a plate runs on into at one of its ends. */
const bendAt = (plate: CutPiece, end: number, at: Point, square: readonly SquareBend[]): SquareBend | undefined => {
  if (plate.loop[end]?.id !== JOINT) return undefined;
  const id = plate.feature.slice('face:'.length);
  return square.find(
    ({ piece, bend }) =>
      (bend.parent === id || bend.child === id) &&
      piece.loop.some((move, i) => move.id === JOINT && apart(between(startOf(piece.loop, i), move.to), at) < 1e-6),
  );
};

/** Away from the side to which a leg's bend turns. */
const outsideOf = (along: Point, on: Point, bend: SquareBend | undefined): Point => {
  const left = { x: -along.y, y: along.x };
  const centre = bend === undefined ? undefined : centreOf(bend.piece.loop);
  if (centre === undefined) return left;
  const toward = (centre.x - on.x) * left.x + (centre.y - on.y) * left.y;
  return toward > 0 ? { x: -left.x, y: -left.y } : left;
};

const centreOf = (loop: Loop): Point | undefined => {
  const arc = loop.find(({ kind }) => kind === 'arc');
  return arc?.kind === 'arc' ? arc.centre : undefined;
};

const turnOf = ({ loop, feature }: CutPiece, bend: BendLine): readonly SectionDimension[] => {
  const centre = centreOf(loop);
  if (centre === undefined) return [];
  let outer: { readonly radius: number; readonly middle: Point } | undefined;
  loop.forEach((move, i) => {
    if (move.kind !== 'arc') return;
    const from = startOf(loop, i);
    const radius = apart(from, centre);
    if (outer !== undefined && outer.radius >= radius) return;
    const begin = Math.atan2(from.y - centre.y, from.x - centre.x);
    const half = ((move.turn === 'left' ? 1 : -1) * bend.turn) / 2;
    outer = { radius, middle: { x: centre.x + radius * Math.cos(begin + half), y: centre.y + radius * Math.sin(begin + half) } };
  });
  if (outer === undefined) return [];
  return [{ kind: 'turn', feature, turn: bend.turn, inside: bend.radius, direction: bend.direction, centre, middle: outer.middle }];
};

const overall = (loops: readonly Loop[]): readonly SectionDimension[] => {
  if (loops.length === 0) return [];
  const boxes = loops.map(boundingBox);
  const min = { x: Math.min(...boxes.map((box) => box.min.x)), y: Math.min(...boxes.map((box) => box.min.y)) };
  const max = { x: Math.max(...boxes.map((box) => box.max.x)), y: Math.max(...boxes.map((box) => box.max.y)) };
  return [
    { kind: 'overall', along: 'x', length: max.x - min.x, from: min, to: { x: max.x, y: min.y } },
    { kind: 'overall', along: 'y', length: max.y - min.y, from: min, to: { x: min.x, y: max.y } },
  ];
};
