/** The blank to cut and mark before rolling. */
import type { BendLine, Blank, BlankCut, Face } from '../blank/types.js';
import { apart } from '../shape/arcs.js';
import { boundingBox, loopLength, movedBy, signedArea } from '../shape/loops.js';
import type { Loop, Move, Point } from '../shape/path.js';
import { beforeRolling, type Drawing, drawingOf } from './crossings.js';
import { markedPath } from './marks.js';
import { ahead, dot, leftOf } from './path.js';
import { bowsOf, cornerShifts, edgeShifts, movedMoves, notchedCorners, type TippedSheet } from './rough-edges.js';
import type { DrawIn, Moved, Path, TrackEnd, WorkedTip } from './types.js';

export interface TakingTrack {
  readonly track: string;
  readonly path: Path;
  readonly start: TrackEnd | undefined;
  readonly finish: TrackEnd | undefined;
  readonly used: number;
  readonly full: number;
}
export interface Pressed {
  readonly id: string;
  readonly at: Point;
}

/** What the beads draw in, and the blank with it given and with the sheet of tipped edges; undefined without beads and tips. */
export const drawInOf = (
  blank: Blank,
  tracks: readonly TakingTrack[],
  tips: readonly WorkedTip[],
  dimples: readonly Pressed[],
  density: number | undefined,
): DrawIn | undefined => {
  const tipped = tippedSheet(tips);
  if (tracks.length === 0 && tipped.size === 0) return undefined;
  const drawing = drawingOf(
    blank.outline,
    tracks.map(({ path, used }) => ({ path, takeIn: used })),
  );
  const edges = edgeShifts(blank.outline, drawing, tipped);
  const corners = cornerShifts(blank.outline, edges, drawing);
  const rough = outlineAt(blank.outline, corners);
  const box = boundingBox(rough);
  const shift = { x: -box.min.x, y: -box.min.y };
  const used = { width: box.max.x - box.min.x - blank.width, height: box.max.y - box.min.y - blank.height };
  const mover = { drawing, shift, outline: blank.outline, corners };
  const bends = blank.bends.map((bend) => ({ bend, moved: bendMover(mover, bend) }));
  const cuts = blank.cutouts.map((cut) => movedCut(mover, cut));
  const outline = movedBy(notchedCorners(rough, tipped), shift.x, shift.y);
  const area = signedArea(outline) + cuts.reduce((sum, cut) => sum + signedArea(cut.loop), 0);
  const asCut: Blank = {
    ...blank,
    outline,
    cutouts: cuts,
    bends: bends.map(({ bend, moved }) => movedBend(bend, moved)),
    faces: blank.faces.map((face) => movedFace(mover, face, bends)),
    width: box.max.x - box.min.x,
    height: box.max.y - box.min.y,
    area,
    // mm³ of kg/m³
    mass: density === undefined ? undefined : area * blank.thickness * density * 1e-9,
    cutLength: loopLength(outline) + cuts.reduce((sum, cut) => sum + loopLength(cut.loop), 0),
    datum: { x: blank.datum.x - shift.x, y: blank.datum.y - shift.y },
    reliefs: blank.reliefs.map((relief) => ({ ...relief, at: placed(mover, relief.at) })),
  };
  return {
    growth: { none: noneGrowth(blank, tipped, used), used, full: fullGrowth(blank, tracks, tipped, used) },
    asCut,
    shift,
    marks: tracks.map((track) => ({ track: track.track, path: markedPath(drawing, shift, track) })),
    tipMarks: tipMarks(blank.outline, edges, tips, shift),
    moved: [
      ...cuts.map(
        (cut, i): Moved => ({ kind: 'hole', id: cut.id, from: (blank.cutouts[i] as BlankCut).centre, to: cut.centre, uneven: 0 }),
      ),
      ...dimples.map((dimple): Moved => ({ kind: 'dimple', id: dimple.id, from: dimple.at, to: placed(mover, dimple.at), uneven: 0 })),
      ...bends.map(({ bend, moved }): Moved => {
        const middle = { x: (bend.from.x + bend.to.x) / 2, y: (bend.from.y + bend.to.y) / 2 };
        return { kind: 'bend', id: bend.id, from: middle, to: moved.move(middle), uneven: moved.uneven };
      }),
    ],
    bows: bowsOf(blank.outline, edges),
  };
};

/** Growth were no bead to draw in anything: the tips' alone. */
const noneGrowth = (blank: Blank, tipped: ReadonlyMap<string, TippedSheet>, used: Size): Size =>
  tipped.size === 0
    ? { width: 0, height: 0 }
    : used.width === 0 && used.height === 0
      ? used
      : growthOf(blank, drawingOf(blank.outline, []), tipped);

/** Growth were every bead to draw in all it needs. The sum is linear, so one share for all beads only scales it. */
const fullGrowth = (
  blank: Blank,
  tracks: readonly TakingTrack[],
  tipped: ReadonlyMap<string, TippedSheet>,
  used: { width: number; height: number },
): { width: number; height: number } => {
  const shares = tracks.filter(({ full }) => full > 0).map((track) => track.used / track.full);
  const share = shares[0] ?? 0;
  if (share > 1e-6 && tipped.size === 0 && shares.every((other) => Math.abs(other - share) < 1e-9))
    return { width: used.width / share, height: used.height / share };
  const drawing = drawingOf(
    blank.outline,
    tracks.map(({ path, full }) => ({ path, takeIn: full })),
  );
  return growthOf(blank, drawing, tipped);
};

/** Sheet of tipped edges, by edge feature. */
const tippedSheet = (tips: readonly WorkedTip[]): ReadonlyMap<string, TippedSheet> =>
  new Map(
    tips.flatMap((tip) =>
      tip.edges.flatMap(({ edge, work }): [string, TippedSheet][] => (work === undefined ? [] : [[`edge:${edge}`, work.sums]])),
    ),
  );

/** The line of a tip's bend on the blank as cut: from there on the sheet turns. Of a round edge, about the edge's own middle. */
const tipMarks = (outline: Loop, edges: ReturnType<typeof edgeShifts>, tips: readonly WorkedTip[], shift: Point): DrawIn['tipMarks'] =>
  tips.flatMap((tip) =>
    tip.edges.flatMap(({ edge, work }): DrawIn['tipMarks'] => {
      const index = outline.findIndex((move) => move.id === `edge:${edge}`);
      const found = edges[index];
      const move = outline[index];
      if (found === undefined || move === undefined || work === undefined) return [];
      const out = found.most - work.sums.beyondTangent;
      const start = sum(ahead(found.from, found.out, out), shift);
      const to = sum(ahead(found.to, found.outAtEnd, out), shift);
      const line: Move =
        move.kind === 'line' ? { kind: 'line', to } : { kind: 'arc', to, centre: sum(move.centre, shift), turn: move.turn };
      return [{ tip: tip.id, edge, path: { start, moves: [line], closed: false } }];
    }),
  );

interface Mover {
  readonly drawing: Drawing;
  readonly shift: Point;
  readonly outline: Loop;
  readonly corners: readonly Point[];
}

interface Size {
  readonly width: number;
  readonly height: number;
}
const growthOf = (blank: Blank, drawing: Drawing, tipped: ReadonlyMap<string, TippedSheet>): Size => {
  const edges = edgeShifts(blank.outline, drawing, tipped);
  const { min, max } = boundingBox(outlineAt(blank.outline, cornerShifts(blank.outline, edges, drawing)));
  return { width: max.x - min.x - blank.width, height: max.y - min.y - blank.height };
};

const sum = (a: Point, b: Point): Point => ({ x: a.x + b.x, y: a.y + b.y });

const outlineAt = (outline: Loop, corners: readonly Point[]): Loop => {
  const to = outline.map((move, i) => sum(move.to, corners[i] as Point));
  return movedMoves(outline, (outline.at(-1) as Move).to, to, to.at(-1) as Point);
};

/** Where a place of the sheet lies before rolling, in the cut blank's coordinates. */
const placed = (mover: Mover, at: Point): Point => sum(sum(at, beforeRolling(mover.drawing, at)), mover.shift);

/** A cut-out keeps its shape and goes where its middle goes. */
const movedCut = (mover: Mover, cut: BlankCut): BlankCut => {
  const centre = placed(mover, cut.centre);
  const [dx, dy] = [centre.x - cut.centre.x, centre.y - cut.centre.y];
  return {
    ...cut,
    centre,
    loop: movedBy(cut.loop, dx, dy),
    circle: cut.circle === undefined ? undefined : { ...cut.circle, centre: { x: cut.circle.centre.x + dx, y: cut.circle.centre.y + dy } },
  };
};

interface BendMover {
  readonly move: (p: Point) => Point;
  readonly uneven: number;
}
/** A bend stays straight and keeps its direction: it moves square to itself by the mean of what its places move, and grows along itself between its ends. */
const bendMover = (mover: Mover, bend: BendLine): BendMover => {
  const length = apart(bend.from, bend.to);
  const along = length < 1e-9 ? { x: 1, y: 0 } : { x: (bend.to.x - bend.from.x) / length, y: (bend.to.y - bend.from.y) / length };
  const across = leftOf(along);
  const count = 16;
  const shifts = Array.from({ length: count }, (_, i) =>
    beforeRolling(mover.drawing, ahead(bend.from, along, (length * (i + 0.5)) / count)),
  );
  const squares = shifts.map((shift) => dot(shift, across));
  const by = squares.reduce((total, s) => total + s, 0) / count;
  const first = dot(shifts[0] as Point, along);
  const last = dot(shifts[count - 1] as Point, along);
  return {
    move: (p) => {
      const share = length < 1e-9 ? 0 : dot({ x: p.x - bend.from.x, y: p.y - bend.from.y }, along) / length;
      return sum(ahead(ahead(p, across, by), along, first + (last - first) * share), mover.shift);
    },
    uneven: Math.max(...squares) - Math.min(...squares),
  };
};

const movedBend = (bend: BendLine, { move }: BendMover): BendLine => {
  const both = ([a, b]: readonly [Point, Point]): readonly [Point, Point] => [move(a), move(b)];
  return {
    ...bend,
    from: move(bend.from),
    to: move(bend.to),
    tangentParent: both(bend.tangentParent),
    tangentChild: both(bend.tangentChild),
    brakeLine: both(bend.brakeLine),
    zone: bend.zone.map((corner) => ({ ...corner, to: move(corner.to) })),
  };
};

/** A face's corners go with the outline where they lie on it, else with the sheet they lie in. */
const movedFace = (mover: Mover, face: Face, bends: readonly { readonly bend: BendLine; readonly moved: BendMover }[]): Face => {
  const own = bends.find(({ bend }) => bend.id === face.bend);
  const corner = (p: Point): Point => {
    const index = mover.outline.findIndex((move) => apart(move.to, p) < 1e-6);
    if (index >= 0) return sum(sum(p, mover.corners[index] as Point), mover.shift);
    return placed(mover, p);
  };
  const to = face.polygon.map((move) => corner(move.to));
  const start = face.polygon.at(-1)?.to;
  const middle = boundingBox(face.polygon);
  const at = { x: (middle.min.x + middle.max.x) / 2, y: (middle.min.y + middle.max.y) / 2 };
  const moved = own === undefined ? placed(mover, at) : own.moved.move(at);
  return {
    ...face,
    polygon: start === undefined ? face.polygon : movedMoves(face.polygon, start, to, to.at(-1) as Point),
    place: { ...face.place, tx: face.place.tx + moved.x - at.x, ty: face.place.ty + moved.y - at.y },
    zone: face.zone === undefined || own === undefined ? face.zone : face.zone.map((move) => ({ ...move, to: own.moved.move(move.to) })),
  };
};
