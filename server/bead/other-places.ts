/** Where tips, cross-breaks and pressed holes lie on the blank. */
import type { Blank, Face } from '../blank/types.js';
import type { Panel } from '../model/part.js';
import type { Sheet } from '../model/shop.js';
import { apart } from '../shape/arcs.js';
import { boundingBox, place } from '../shape/loops.js';
import type { Loop, Move, Point } from '../shape/path.js';
import { crossBreakWork, dimpleWork, tipWork } from './other-work.js';
import { carriedPath } from './path.js';
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

/** From corner to corner of the base's flat, each end short of its corner by the inset along the diagonal. */
export const crossBreaksOf = (panel: Panel, blank: Blank, words: Words): readonly WorkedCrossBreak[] =>
  panel.crossBreaks.flatMap((one): readonly WorkedCrossBreak[] => {
    const face = faceOf(blank, undefined);
    if (face === undefined) return [];
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
    return [
      {
        lines: [...shorten(min, max), ...shorten({ x: min.x, y: max.y }, { x: max.x, y: min.y })],
        direction: one.direction,
        depth: one.depth,
        work: crossBreakWork(one, max.x - min.x, max.y - min.y, blank.thickness, words),
        span: one.span,
      },
    ];
  });

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
