/**
 * The section of a finished part with its sizes: true arcs, outside lengths of the legs, turns with their inside radii, and the whole. Line widths by
 * ISO 128-2, scales by ISO 5455; thin sheet is filled black as ISO 128-50 has it (from memory).
 */
import type { BendLine, Blank } from '../blank/types.js';
import { type CutPlane, dimensionsOf, type FoldSection, JOINT, type SectionDimension, sectionAt } from '../fold/index.js';
import { sayAngle, sayLengthBare } from '../model/display.js';
import type { Part } from '../model/part.js';
import { startOf } from '../shape/arcs.js';
import { boundingBox } from '../shape/loops.js';
import type { Box, Loop, Move, Point } from '../shape/path.js';
import { arrowMark, boxAroundAll, boxesAlong, boxesTouch, dimensionMarks, textBox } from './dimension-marks.js';
import type { DisplayOptions } from './drawing.js';
import { type Figure, figurePage, unitWords } from './folded-figure.js';
import { boxMark, lineMark, loopMark, type Mark, narrow, type Page, polylineMark, type Run, wide } from './pages/page.js';
import type { Type } from './pages/type.js';

export interface SectionFigureOptions extends DisplayOptions {
  /** The room it may take, mm; of the standard scales it gets the largest that fits. */
  readonly room: { readonly width: number; readonly height: number };
  /** Where it is cut; square to the most bends unless said otherwise. */
  readonly cut?: CutPlane;
}
export interface SectionFigure extends Figure {
  /** Paper to part: 0.5 is drawn half size. */
  readonly scale: number;
}

/** Scales of ISO 5455, large to small. */
const scales = [10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100];
const sayScale = (scale: number): string => (scale >= 1 ? `${scale} : 1` : `1 : ${Math.round(1 / scale)}`);

/** Sheet that comes out thinner than this on paper (mm) is drawn as one black line. */
const thinnest = 1.4;
const textSize = 3;
/** How far dimension lines stand off, and by how much further when something is in the way, mm. */
const off = 7;
const step = 5;

/** Undefined where the plane misses the part. */
export const sectionFigure = (_part: Part, blank: Blank, options: SectionFigureOptions): SectionFigure | undefined => {
  const cut = options.cut ?? sectionPlanes(blank)[0];
  if (cut === undefined) return undefined;
  const section = sectionAt(blank, cut);
  if (section.pieces.length === 0) return undefined;
  const sizes = dimensionsOf(blank, section);
  const breaks = (['x', 'y'] as const).flatMap((axis) => longBreak(section, axis, blank.thickness) ?? []);
  let smallest: SectionFigure | undefined;
  for (const scale of scales) {
    const figure = drawn(section, sizes, blank, scale, breaks, options);
    if (figure.width <= options.room.width && figure.height <= options.room.height) return figure;
    smallest = figure;
  }
  return smallest;
};

/**
 * Planes square to the bends of a part, one for each direction that bends lie in, most bends first. Each stands where it meets most of them and fewest holes.
 */
const sectionPlanes = (blank: Blank): readonly CutPlane[] => {
  const directions: { readonly x: number; readonly y: number; readonly bends: BendLine[] }[] = [];
  for (const bend of blank.bends) {
    const length = Math.hypot(bend.to.x - bend.from.x, bend.to.y - bend.from.y) || 1;
    const [x, y] = [(bend.to.x - bend.from.x) / length, (bend.to.y - bend.from.y) / length];
    const known = directions.find((each) => Math.abs(each.x * y - each.y * x) < 1e-6);
    if (known === undefined) directions.push({ x, y, bends: [bend] });
    else known.bends.push(bend);
  }
  return directions
    .map(({ x, y, bends }) => {
      // Looking along the bends with the base's own right on the right, or its top on the left.
      const normal = y < -1e-9 || (Math.abs(y) < 1e-9 && x < 0) ? { x: -x, y: -y, z: 0 } : { x, y, z: 0 };
      const level = (p: Point): number => p.x * normal.x + p.y * normal.y;
      const places = bends.flatMap(({ from, to }) => SHARES.map((share) => level(from) + (level(to) - level(from)) * share));
      let best: { readonly cut: CutPlane; readonly score: number } | undefined;
      for (const place of places) {
        const cut = { point: { x: normal.x * place, y: normal.y * place, z: 0 }, normal: { ...normal, x: -normal.x, y: -normal.y } };
        const { pieces } = sectionAt(blank, cut);
        const score = 1000 * pieces.filter(({ square }) => square).length - pieces.length;
        if (best === undefined || score > best.score) best = { cut, score };
      }
      return best;
    })
    .flatMap((best) => best ?? [])
    .sort((a, b) => b.score - a.score)
    .map(({ cut }) => cut);
};
const SHARES = [0.5, 0.42, 0.58, 0.33, 0.67, 0.2, 0.8];

const drawn = (
  section: FoldSection,
  sizes: readonly SectionDimension[],
  blank: Blank,
  scale: number,
  breaks: readonly LongBreak[],
  options: SectionFigureOptions,
): SectionFigure => {
  const put = (p: Point): Point => {
    const q = breaks.reduce(shortened, p);
    return { x: q.x * scale, y: q.y * scale };
  };
  const loops = section.pieces.map(({ loop }) => scaled(loop, put));
  const thin = blank.thickness * scale < thinnest;
  const body: readonly Mark[] = thin
    ? [loopMark(loops, { width: 0.05 }, '#000000')]
    : [
        loopMark(loops, undefined, '#d9d9d9'),
        { kind: 'path', runs: section.pieces.flatMap(({ loop }) => outlineRuns(loop, put)), ink: { width: wide } },
      ];
  const taken: Box[] = loops.flatMap(movesBoxes);
  const ends = extremes(section.pieces.map(({ loop }) => loop));
  const marks: Mark[] = breaks.flatMap((each) => breakMarks(section, each, blank.thickness, put));
  const take = (made: { readonly marks: readonly Mark[]; readonly boxes: readonly Box[] }): void => {
    marks.push(...made.marks);
    taken.push(...made.boxes);
  };
  const bare = (mm: number): string => sayLengthBare(mm, options.unit, options.denominator);
  for (const size of sizes) {
    if (size.kind !== 'leg') continue;
    take(firstFree(taken, (far) => dimensionMarks(put(size.from), put(size.to), size.away, far, bare(size.length), textSize)));
  }
  const turns = sizes.flatMap((size): readonly Mark[] => {
    if (size.kind !== 'turn') return [];
    const made = turnMarks(taken, size, put, bare);
    taken.push(...made.boxes);
    return made.marks;
  });
  for (const size of sizes) {
    // One leg alone along a direction already says how large the whole is.
    if (size.kind !== 'overall' || saidByALeg(sizes, size)) continue;
    take(overallMarks(taken, size, ends[size.along], put, bare));
  }
  marks.push(...turns);
  const box = boxAroundAll(taken);
  const pad = 2;
  return {
    scale,
    width: box.max.x - box.min.x + 2 * pad,
    height: box.max.y - box.min.y + 2 * pad,
    marks: [{ kind: 'placed', marks: [...body, ...marks], to: { x: pad - box.min.x, y: pad - box.min.y } }],
  };
};

const scaled = (loop: Loop, put: (p: Point) => Point): Loop =>
  loop.map(
    (move): Move => (move.kind === 'line' ? { ...move, to: put(move.to) } : { ...move, to: put(move.to), centre: put(move.centre) }),
  );

/** The outline without the joints, where one piece runs on into the next. */
const outlineRuns = (loop: Loop, put: (p: Point) => Point): readonly Run[] => {
  const moves = scaled(loop, put);
  return moves.flatMap((move, i): Run[] => (move.id === JOINT ? [] : [{ start: startOf(moves, i), moves: [move], closed: false }]));
};

const movesBoxes = (loop: Loop): readonly Box[] =>
  loop.flatMap((move, i): readonly Box[] => (move.kind === 'arc' ? [boundingBox(loop)] : boxesAlong(startOf(loop, i), move.to)));

interface Placing {
  readonly marks: readonly Mark[];
  readonly boxes: readonly Box[];
}
/** The dimension standing as near as nothing is in its way. */
const firstFree = (taken: readonly Box[], make: (far: number) => Placing): Placing => {
  for (let far = off; far <= off + 6 * step; far += step) {
    const made = make(far);
    if (!made.boxes.some((box) => taken.some((other) => boxesTouch(box, other, 0.3)))) return made;
  }
  return make(off);
};

/** `90°  R 1.6` on a leader from the outside of the bend, outward; where that is taken, a little to one side or further out. */
const turnMarks = (
  taken: readonly Box[],
  size: Extract<SectionDimension, { kind: 'turn' }>,
  put: (p: Point) => Point,
  bare: (mm: number) => string,
): Placing => {
  const [tip, centre] = [put(size.middle), put(size.centre)];
  const words = `${sayAngle(size.turn)}  R ${bare(size.inside)}`;
  const outward = Math.atan2(tip.y - centre.y, tip.x - centre.x);
  const make = (angle: number, far: number): Placing => {
    const end = { x: tip.x + Math.cos(angle) * far, y: tip.y + Math.sin(angle) * far };
    const right = Math.cos(angle) >= 0;
    const at = { x: end.x + (right ? 1 : -1) * 2.5, y: end.y - 0.36 * textSize };
    const anchor = right ? 'start' : 'end';
    const shelf = { x: end.x + (right ? 1 : -1) * 2, y: end.y };
    return {
      marks: [
        lineMark(tip, end, { width: narrow }),
        lineMark(end, shelf, { width: narrow }),
        arrowMark(tip, end),
        boxMark(textBox(words, at, textSize, 0, anchor), undefined, '#ffffff'),
        { kind: 'text', text: words, at, size: textSize, anchor },
      ],
      boxes: [textBox(words, at, textSize, 0, anchor)],
    };
  };
  for (const far of [6, 9, 13, 18, 24]) {
    for (const turn of [0, 0.35, -0.35, 0.7, -0.7, 1.1, -1.1]) {
      const made = make(outward + turn, far);
      if (!made.boxes.some((box) => taken.some((other) => boxesTouch(box, other)))) return made;
    }
  }
  return make(outward, 6);
};

const saidByALeg = (sizes: readonly SectionDimension[], { along, length }: Extract<SectionDimension, { kind: 'overall' }>): boolean =>
  sizes.some(
    (leg) =>
      leg.kind === 'leg' && Math.abs(leg.length - length) < 1e-6 && Math.abs(Math.abs(leg.to[along] - leg.from[along]) - length) < 1e-6,
  );

/** The outermost places each way, of several the one nearest to where the size is written: below, or on the left. */
const extremes = (loops: readonly Loop[]): Readonly<Record<'x' | 'y', readonly [Point, Point]>> => {
  const points = loops.flatMap((loop) => [...loop.map(({ to }) => to), ...crests(loop)]);
  const outermost = (axis: 'x' | 'y', sign: 1 | -1): Point => {
    const other = axis === 'x' ? 'y' : 'x';
    return points.reduce((best, p) => {
      const gain = sign * (p[axis] - best[axis]);
      return gain > 1e-6 || (gain > -1e-6 && p[other] < best[other]) ? p : best;
    });
  };
  return { x: [outermost('x', -1), outermost('x', 1)], y: [outermost('y', -1), outermost('y', 1)] };
};

/** Where a bend is outermost each way. */
const crests = (loop: Loop): readonly Point[] => {
  const { min, max } = boundingBox(loop);
  return loop.flatMap((move): readonly Point[] => {
    if (move.kind === 'line') return [];
    const { x, y } = move.centre;
    return [
      { x: min.x, y },
      { x: max.x, y },
      { x, y: min.y },
      { x, y: max.y },
    ];
  });
};

/** A stretch of plain sheet left out of the drawing, so that bends can be drawn large: along an axis, from here on, so much. */
interface LongBreak {
  readonly axis: 'x' | 'y';
  readonly at: number;
  readonly less: number;
}

const shortened = (p: Point, { axis, at, less }: LongBreak): Point => {
  const past = p[axis] <= at ? 0 : Math.min(less, p[axis] - at);
  return axis === 'x' ? { x: p.x - past, y: p.y } : { x: p.x, y: p.y - past };
};

/** A plate that runs straight along an axis. */
const runsAlong = (loop: Loop, axis: 'x' | 'y', thickness: number): boolean => {
  const { min, max } = boundingBox(loop);
  const other = axis === 'x' ? 'y' : 'x';
  return loop.every(({ kind }) => kind === 'line') && max[other] - min[other] < thickness + 1e-6;
};

/** Of a section that is mostly one long plate, the middle of it; undefined where leaving it out would gain little. */
const longBreak = ({ pieces }: FoldSection, axis: 'x' | 'y', thickness: number): LongBreak | undefined => {
  const boxes = pieces.map(({ loop }) => ({ box: boundingBox(loop), plain: runsAlong(loop, axis, thickness) }));
  const whole = boxAroundAll(boxes.map(({ box }) => box));
  // What must stay whole: everything that is not plain, and the ends of what is.
  const kept = boxes
    .flatMap(({ box: { min, max }, plain }): (readonly [number, number])[] =>
      plain
        ? [
            [min[axis], min[axis]],
            [max[axis], max[axis]],
          ]
        : [[min[axis], max[axis]]],
    )
    .sort((a, b) => a[0] - b[0]);
  let best: readonly [number, number] = [0, 0];
  let reached = whole.min[axis];
  for (const [from, to] of kept) {
    if (from - reached > best[1] - best[0]) best = [reached, from];
    reached = Math.max(reached, to);
  }
  const length = best[1] - best[0];
  const rest = whole.max[axis] - whole.min[axis] - length;
  const stays = Math.max(2.5 * rest, 30 * thickness);
  return length > 2 * stays ? { axis, at: best[0] + stays / 2, less: length - stays } : undefined;
};

/** Each plate that is broken: a gap between two zigzag lines. Source: ISO 128-2, line type 01.1 with zigzag. */
const breakMarks = ({ pieces }: FoldSection, { axis, at, less }: LongBreak, thickness: number, put: (p: Point) => Point): readonly Mark[] =>
  pieces.flatMap(({ loop }): readonly Mark[] => {
    const { min, max } = boundingBox(loop);
    if (!runsAlong(loop, axis, thickness) || min[axis] > at || max[axis] < at + less) return [];
    const other = axis === 'x' ? 'y' : 'x';
    const [low, high] = [put({ ...min, [axis]: at }), put({ ...max, [axis]: at })];
    const reach = 2;
    const gap = 0.8;
    const spot = (along: number, across: number): Point =>
      axis === 'x' ? { x: low.x + along, y: across } : { x: across, y: low.y + along };
    const [bottom, top] = [low[other] - reach, high[other] + reach];
    const middle = (bottom + top) / 2;
    const zigzag = (along: number): Mark =>
      polylineMark(
        [
          spot(along, bottom),
          spot(along, middle - 0.7),
          spot(along - 0.6, middle - 0.25),
          spot(along + 0.6, middle + 0.25),
          spot(along, middle + 0.7),
          spot(along, top),
        ],
        { width: narrow },
      );
    return [
      polylineMark(
        [spot(-gap, bottom), spot(gap, bottom), spot(gap, top), spot(-gap, top)],
        { width: 0.01, colour: '#ffffff' },
        true,
        '#ffffff',
      ),
      zigzag(-gap),
      zigzag(gap),
    ];
  });

/** Below everything and to the left of everything. */
const overallMarks = (
  taken: readonly Box[],
  size: Extract<SectionDimension, { kind: 'overall' }>,
  [first, last]: readonly [Point, Point],
  put: (p: Point) => Point,
  bare: (mm: number) => string,
): Placing => {
  const all = boxAroundAll(taken);
  const feet: readonly [Point, Point] = [put(first), put(last)];
  const inX = size.along === 'x';
  const [from, to] = feet.map((foot): Point => (inX ? { x: foot.x, y: all.min.y } : { x: all.min.x, y: foot.y })) as [Point, Point];
  return dimensionMarks(from, to, inX ? { x: 0, y: -1 } : { x: -1, y: 0 }, 5, bare(size.length), textSize, feet);
};

/** A page of its own, A4 lying: a section for each direction that bends lie in, two at most. Undefined for a part without bends. */
export const sectionPage = (part: Part, blank: Blank, options: DisplayOptions, type: Type): Page | undefined => {
  const planes = sectionPlanes(blank).slice(0, 2);
  if (planes.length === 0) return undefined;
  const drawAll = (room: { readonly width: number; readonly height: number }): readonly SectionFigure[] =>
    planes.flatMap(
      (cut) => sectionFigure(part, blank, { ...options, room: { ...room, width: room.width / planes.length - 4 }, cut }) ?? [],
    );
  // The words name the scales, so the figures are drawn once to learn them; the room is the same both times but for a line.
  const said = drawAll({ width: 277, height: 165 });
  const words = said.map(({ scale }) => sayScale(scale)).join(' and ');
  return figurePage(`${part.name}, section`, part, blank, options, type, () => said, [
    `Section of the finished part, scale ${words}. Sizes in ${unitWords(options)}: legs outside, R inside, turns from flat.`,
  ]);
};
