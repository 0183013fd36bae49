/** Where tips, cross-breaks and pressed holes lie on the blank. */
import type { Blank, Face } from '../blank/types.js';
import type { Panel } from '../model/part.js';
import type { Sheet } from '../model/shop.js';
import { apart } from '../shape/arcs.js';
import { boundingBox, place } from '../shape/loops.js';
import type { Loop, Move, Point } from '../shape/path.js';
import { nearest, spansOf } from './nearest.js';
import { crossBreakWork, dimpleWork, tipWork } from './other-work.js';
import { carriedPath, startDirection, turnFrom } from './path.js';
import { type Around, dimpleSpacings } from './spacing.js';
import type { TippedEdge, Words, WorkedCrossBreak, WorkedDimple, WorkedTip } from './types.js';
import { finishedOutline } from './written.js';

const faceOf = (blank: Blank, on: string | undefined): Face | undefined => blank.faces.find((face) => face.id === (on ?? 'base'));

export const dimplesOf = (panel: Panel, blank: Blank, sheet: Sheet, around: Around): readonly WorkedDimple[] =>
  panel.dimples.flatMap((dimple): readonly WorkedDimple[] => {
    const face = faceOf(blank, dimple.on);
    if (face === undefined) return [];
    const at = place(face.place, dimple.at);
    const { id, diameter, direction, span } = dimple;
    const work = dimpleWork(dimple, sheet);
    const foot = work?.footDiameter ?? diameter;
    return [{ id, at, diameter, direction, spacings: dimpleSpacings(around, id, at, foot), work, span }];
  });

/** Two places are one corner's, and three in a line no corner, mm and rad. */
const CORNER = 1e-6;

/** The corners of a drawn outline in order, straight-through ones left out; undefined when any of its edges is round. */
const cornersOf = (outline: Loop): readonly Point[] | undefined => {
  if (outline.some((move) => move.kind === 'arc')) return undefined;
  const points = outline.map(({ to }) => to);
  return points.filter((p, i) => {
    const before = points[(i + points.length - 1) % points.length] as Point;
    const after = points[(i + 1) % points.length] as Point;
    const [a, b] = [startDirection(before, { kind: 'line', to: p }), startDirection(p, { kind: 'line', to: after })];
    return apart(before, p) > CORNER && apart(p, after) > CORNER && Math.abs(turnFrom(a, b)) > CORNER;
  });
};

/** The four corners of the base's flat from the lower left round; undefined unless the outline has just four, all turning out. */
const fourCorners = (panel: Panel, face: Face): readonly [Point, Point, Point, Point] | undefined => {
  const corners = panel.outline === undefined ? undefined : cornersOf(finishedOutline(panel.outline));
  if (corners?.length !== 4) return undefined;
  const turnsOut = corners.every((p, i) => {
    const [before, after] = [corners[(i + 3) % 4] as Point, corners[(i + 1) % 4] as Point];
    return (p.x - before.x) * (after.y - p.y) - (p.y - before.y) * (after.x - p.x) > 0;
  });
  if (!turnsOut) return undefined;
  const lowerLeft = corners.reduce((best, p, i) => (p.x + p.y < (corners[best] as Point).x + (corners[best] as Point).y ? i : best), 0);
  const own = [...corners.slice(lowerLeft), ...corners.slice(0, lowerLeft)].map((corner) => {
    const at = place(face.place, corner);
    return face.polygon.reduce((best, { to }) => (apart(to, at) < apart(best, at) ? to : best), (face.polygon[0] as Move).to);
  });
  return own as unknown as readonly [Point, Point, Point, Point];
};

/** From corner to corner of the base's flat, each end short of its corner by the inset along the diagonal. */
export const crossBreaksOf = (panel: Panel, blank: Blank, words: Words, around: Around): readonly WorkedCrossBreak[] =>
  panel.crossBreaks.flatMap((one): readonly WorkedCrossBreak[] => {
    const face = faceOf(blank, undefined);
    if (face === undefined || face.polygon.length === 0) return [];
    const { min, max } = boundingBox(face.polygon);
    const shorten = (a: Point, b: Point): readonly (readonly [Point, Point])[] => {
      const length = apart(a, b);
      if (length <= 2 * one.inset) return [];
      const along = { x: ((b.x - a.x) / length) * one.inset, y: ((b.y - a.y) / length) * one.inset };
      return [
        [
          { x: a.x + along.x, y: a.y + along.y },
          { x: b.x - along.x, y: b.y - along.y },
        ],
      ];
    };
    const corners = fourCorners(panel, face);
    const lines = corners === undefined ? [] : [...shorten(corners[0], corners[2]), ...shorten(corners[3], corners[1])];
    return [
      {
        lines,
        fault: corners === undefined ? 'not-four-cornered' : lines.length < 2 ? 'inset-too-great' : undefined,
        meets: metOnTheWay(lines, around),
        direction: one.direction,
        depth: one.depth,
        work: crossBreakWork(one, max.x - min.x, max.y - min.y, blank.thickness, words),
        span: one.span,
      },
    ];
  });

/** Holes that the lines run over, and beads that they run across or along, each with the first place. */
const metOnTheWay = (lines: WorkedCrossBreak['lines'], around: Around): WorkedCrossBreak['meets'] => {
  const spans = lines.flatMap(([from, to]) => spansOf(from, [{ kind: 'line', to }]));
  const holes = around.holes.flatMap((hole): WorkedCrossBreak['meets'] => {
    const gap = nearest(spans, hole.spans, CORNER);
    return gap === undefined ? [] : [{ kind: 'hole', id: hole.id, at: gap.at[1] }];
  });
  const beads = new Map<string, Point>();
  for (const { bead, width, spans: own } of around.tracks) {
    const gap = beads.has(bead) ? undefined : nearest(spans, own, width / 2);
    if (gap !== undefined) beads.set(bead, gap.at[1]);
  }
  return [...holes, ...[...beads].map(([id, at]) => ({ kind: 'bead' as const, id, at }))];
};

export const tipsOf = (panel: Panel, blank: Blank, sheet: Sheet, words: Words): readonly WorkedTip[] => {
  const outline = panel.outline === undefined ? [] : finishedOutline(panel.outline);
  const base = faceOf(blank, undefined);
  if (base === undefined) return [];
  return panel.tips.map((tip): WorkedTip => {
    const edges = tip.edges.flatMap((named): readonly TippedEdge[] => {
      const index = outline.findIndex((move) => move.id === `edge:${named.value}`);
      if (index < 0) return [];
      const from = startAt(outline, index);
      const move = outline[index] as Move;
      const curve: Pick<TippedEdge, 'radius' | 'strains'> =
        move.kind === 'line'
          ? { radius: undefined, strains: undefined }
          : { radius: apart(move.centre, from), strains: move.turn === 'left' ? 'shrink' : 'stretch' };
      const path = carriedPath(base.place, { start: from, moves: [move], closed: false });
      return [{ edge: named.value, path, ...curve, work: tipWork(tip, { edge: named.value, ...curve }, sheet, words) }];
    });
    return { id: tip.id, direction: tip.direction, width: tip.width.value, turn: tip.turn, edges, span: tip.span };
  });
};

const startAt = (outline: Loop, index: number): Point => (outline[(index + outline.length - 1) % outline.length] as Move).to;
