/** The folded part as a line drawing seen from a corner, hidden lines left out, with its overall sizes: for sheets and booklets. */
import type { Blank } from '../blank/types.js';
import { meshOf, raisedLines } from '../fold/index.js';
import type { FoldResult, Mesh, Turned } from '../fold/types.js';
import { sayLengthBare } from '../model/display.js';
import type { Part } from '../model/part.js';
import type { Box, Point } from '../shape/path.js';
import type { Vector } from '../shape/space.js';
import { boxAroundAll, dimensionMarks } from './dimension-marks.js';
import { type DisplayOptions, drawingTitle } from './drawing.js';
import { eyeOf, isometric, type SeenLine, type Sight, seenLines } from './hidden-lines.js';
import { type Ink, type Mark, narrow, type Page, type Run } from './pages/page.js';
import { paperMargin, papers, turnedOver } from './pages/paper.js';
import { linesOf, type Type } from './pages/type.js';

export interface Figure {
  /** mm on paper; the marks lie within 0…width, 0…height. */
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}
export interface FoldedFigureOptions extends DisplayOptions {
  /** The room it may take, mm; it is drawn as large as fits. */
  readonly room: { readonly width: number; readonly height: number };
  /** From the corner unless said otherwise. */
  readonly sight?: Sight;
  /** How far each bend is turned; finished unless said otherwise. Sizes are given of the finished part only. */
  readonly turned?: Turned;
  readonly sized?: boolean;
}

/** Edges 0.35 mm, tangent lines half as wide: line group 0.35 of ISO 128-2, since a figure is smaller than a drawing. */
const edgeInk: Ink = { width: 0.35 };
const tangentInk: Ink = { width: 0.18, colour: '#555555' };
const textSize = 3;
/** Room that the sizes take on each side, mm. */
const aside = 14;
/** How near chords stay to bends in a figure, mm of the part. */
const chord = 0.1;

export const foldedFigure = (_part: Part, blank: Blank, folded: FoldResult | undefined, options: FoldedFigureOptions): Figure => {
  const { sight = isometric, turned, room } = options;
  const mesh = meshOf(blank, turned, chord);
  const eye = eyeOf(sight);
  const sized = options.sized !== false && turned === undefined && folded !== undefined;
  const { min, max } = seenBox(mesh, eye.onto);
  const margin = sized ? aside : 1;
  const scale = Math.min(
    Math.max(1, room.width - 2 * margin) / Math.max(1e-6, max.x - min.x),
    Math.max(1, room.height - 2 * margin) / Math.max(1e-6, max.y - min.y),
  );
  const onPaper = (p: Point): Point => ({ x: (p.x - min.x) * scale, y: (p.y - min.y) * scale });
  const raised = options.beads === undefined ? [] : raisedLines(blank, options.beads, turned);
  const drawn = linesAsMarks(seenLines(mesh, sight, blank.thickness, raised), onPaper);
  const sizes = sized ? sizesOf(folded, (p) => onPaper(eye.onto(p)), options) : { marks: [], boxes: [] };
  const box = boxAroundAll([{ min: onPaper(min), max: onPaper(max) }, ...sizes.boxes]);
  const pad = 0.5;
  return {
    width: box.max.x - box.min.x + 2 * pad,
    height: box.max.y - box.min.y + 2 * pad,
    marks: [{ kind: 'placed', marks: [...drawn, ...sizes.marks], to: { x: pad - box.min.x, y: pad - box.min.y } }],
  };
};

const seenBox = (mesh: Mesh, onto: (p: Vector) => Vector): Box => {
  const min = { x: Number.POSITIVE_INFINITY, y: Number.POSITIVE_INFINITY };
  const max = { x: Number.NEGATIVE_INFINITY, y: Number.NEGATIVE_INFINITY };
  for (let i = 0; i + 2 < mesh.positions.length; i += 3) {
    const p = onto({ x: mesh.positions[i] ?? 0, y: mesh.positions[i + 1] ?? 0, z: mesh.positions[i + 2] ?? 0 });
    min.x = Math.min(min.x, p.x);
    min.y = Math.min(min.y, p.y);
    max.x = Math.max(max.x, p.x);
    max.y = Math.max(max.y, p.y);
  }
  return { min, max };
};

/** One path for the tangent lines, one over it for the edges. */
const linesAsMarks = (lines: readonly SeenLine[], onPaper: (p: Point) => Point): readonly Mark[] =>
  (['tangent', 'edge'] as const).flatMap((kind): Mark[] => {
    const runs = lines
      .filter((line) => line.kind === kind)
      .map(({ from, to }): Run => ({ start: onPaper(from), moves: [{ kind: 'line', to: onPaper(to) }], closed: false }));
    return runs.length === 0 ? [] : [{ kind: 'path', runs, ink: kind === 'edge' ? edgeInk : tangentInk }];
  });

/** Width, height and depth beside the edges of the box that lie outermost below and to the right. */
const sizesOf = (
  { envelope: { min, max } }: FoldResult,
  onPaper: (p: Vector) => Point,
  options: DisplayOptions,
): { readonly marks: readonly Mark[]; readonly boxes: readonly Box[] } => {
  const centre = onPaper({ x: (min.x + max.x) / 2, y: (min.y + max.y) / 2, z: (min.z + max.z) / 2 });
  const made = (['x', 'y', 'z'] as const).flatMap((axis) => {
    const [p, q] = (['x', 'y', 'z'] as const).filter((other) => other !== axis) as ['x' | 'y' | 'z', 'x' | 'y' | 'z'];
    let best: { readonly from: Point; readonly to: Point; readonly away: Point; readonly score: number } | undefined;
    for (const first of [min[p], max[p]]) {
      for (const second of [min[q], max[q]]) {
        const corner = (own: number): Vector => ({ ...min, [axis]: own, [p]: first, [q]: second });
        const [from, to] = [onPaper(corner(min[axis])), onPaper(corner(max[axis]))];
        const length = Math.hypot(to.x - from.x, to.y - from.y);
        if (length < 4) continue;
        const normal = { x: -(to.y - from.y) / length, y: (to.x - from.x) / length };
        const reach = (from.x - centre.x) * normal.x + (from.y - centre.y) * normal.y;
        const away = reach < 0 ? { x: -normal.x, y: -normal.y } : normal;
        // Of two edges as far out, the lower one carries the size, then the one on the right.
        const score = Math.abs(reach) - 0.5 * away.y + 0.1 * away.x;
        if (best === undefined || score > best.score + 1e-9) best = { from, to, away, score };
      }
    }
    if (best === undefined) return [];
    const words = sayLengthBare(max[axis] - min[axis], options.unit, options.denominator);
    return [dimensionMarks(best.from, best.to, best.away, 7, words, textSize)];
  });
  return { marks: made.flatMap(({ marks }) => marks), boxes: made.flatMap(({ boxes }) => boxes) };
};

/** A page of its own, A4 lying: the figure, and under it what it shows. */
export const foldedPage = (part: Part, blank: Blank, folded: FoldResult, options: DisplayOptions, type: Type): Page =>
  figurePage(`${part.name}, folded`, part, blank, options, type, (room) => [foldedFigure(part, blank, folded, { ...options, room })], [
    `Overall sizes of the finished part in ${unitWords(options)}${(options.beads?.beads.length ?? 0) > 0 ? ', beads not counted' : ''}. Not to scale: do not measure from it.`,
  ]);

export const unitWords = ({ unit }: DisplayOptions): string =>
  unit?.name === 'inch' ? 'inches' : unit === undefined ? 'millimetres' : `${unit.name}s`;

/** Figures one above the other over a few lines of words, on A4 lying. */
export const figurePage = (
  title: string,
  part: Part,
  blank: Blank,
  options: DisplayOptions,
  type: Type,
  draw: (room: { readonly width: number; readonly height: number }) => readonly Figure[],
  words: readonly string[],
): Page => {
  const paper = turnedOver(papers.a4);
  const width = paper.width - 2 * paperMargin;
  const lines = [drawingTitle(part, blank, options), ...words].flatMap((line) => linesOf(type, line, textSize, width));
  const footHeight = lines.length * 4.4 + 6;
  const room = { width, height: paper.height - 2 * paperMargin - footHeight };
  const figures = draw(room);
  const total = figures.reduce((sum, figure) => sum + figure.height, 0);
  const gap = (room.height - total) / (figures.length + 1);
  let top = paper.height - paperMargin;
  const placed = figures.map((figure): Mark => {
    top -= gap + figure.height;
    return { kind: 'placed', marks: figure.marks, to: { x: paperMargin + (room.width - figure.width) / 2, y: top } };
  });
  return {
    title,
    width: paper.width,
    height: paper.height,
    marks: [
      ...placed,
      {
        kind: 'path',
        runs: [
          {
            start: { x: paperMargin, y: paperMargin + footHeight - 3 },
            moves: [{ kind: 'line', to: { x: paperMargin + width, y: paperMargin + footHeight - 3 } }],
            closed: false,
          },
        ],
        ink: { width: narrow },
      },
      ...lines.map(
        (text, index): Mark => ({
          kind: 'text',
          text,
          at: { x: paperMargin, y: paperMargin + (lines.length - 1 - index) * 4.4 + 1 },
          size: textSize,
          bold: index === 0,
        }),
      ),
    ],
  };
};
