/** From a bead's path as written to lines and arcs in the part's own coordinates. */
import type { Bead, BeadPath, Outline, Panel } from '../model/part.js';
import { apart } from '../shape/arcs.js';
import { circleLoop, signedArea } from '../shape/loops.js';
import { linesMeet } from '../shape/meetings.js';
import type { Loop, Move, Placement, Point } from '../shape/path.js';
import { rounded } from './fillet.js';
import { offsetPath } from './offset.js';
import { carriedPath, leftOf, pathOfLoop, reversedPath } from './path.js';
import { sayRounded } from './rounded.js';
import type { Path, Unworked, Words } from './types.js';

export interface Written {
  readonly paths: readonly Path[];
  readonly unworked: readonly Unworked[];
}
interface Job {
  readonly panel: Panel;
  readonly bead: Bead;
  readonly words: Words;
  readonly unworked: Unworked[];
}

/** The finished outline, anticlockwise whichever way it was drawn; ids name its edges (`edge:top`). */
export const finishedOutline = (outline: Outline): Loop => {
  const moves = outline.edges.map((edge): Move => {
    const id = edge.name === undefined ? undefined : `edge:${edge.name}`;
    return edge.arc === undefined
      ? { kind: 'line', to: edge.to, id }
      : { kind: 'arc', to: edge.to, centre: edge.arc.centre, turn: edge.arc.turn, id };
  });
  if (moves.length === 0) return [];
  const path: Path = { start: outline.start, moves, closed: true };
  return (signedArea(moves) > 0 ? path : reversedPath(path)).moves;
};

/** Paths in the part's coordinates with the copy's mirror and shift done. */
export const writtenPaths = (panel: Panel, bead: Bead, words: Words): Written => {
  const job: Job = { panel, bead, words, unworked: [] };
  const by = copyPlacement(bead.copy);
  return { paths: pathsOf(job, bead.path).map((path) => carriedPath(by, path)), unworked: job.unworked };
};

/** First mirrored, then moved. */
const copyPlacement = ({ mirrorX, mirrorY, shift }: Bead['copy']): Placement => {
  const turnedRound = mirrorX ? -1 : 1;
  return { cos: turnedRound, sin: 0, tx: shift.x, ty: shift.y, mirrored: mirrorX !== mirrorY };
};

const refuse = (job: Job, kind: Unworked['kind'], span: Unworked['span'], message: string): readonly Path[] => {
  job.unworked.push({ id: job.bead.id, span, kind, message });
  return [];
};

const pathsOf = (job: Job, written: BeadPath): readonly Path[] => {
  switch (written.kind) {
    case 'line':
      return openPath(job, [written.from.value, written.to.value], undefined);
    case 'path':
      return openPath(
        job,
        written.points.map((point) => point.value),
        written.corner,
      );
    case 'rectangle':
      return insets(job, written.inset.value).flatMap((path) => withCorners(job, path, written.corner));
    case 'along':
      return alongEdges(job, written);
    case 'arc':
      return throughPoints(job, written.from.value, written.through.value, written.to.value);
    case 'circle':
      return written.radius.value > 0
        ? [pathOfLoop(circleLoop({ centre: written.centre.value, radius: written.radius.value }))]
        : refuse(job, 'no-length', written.radius.span, 'this circle has no radius: write one above zero');
  }
};

const openPath = (job: Job, points: readonly Point[], corner: CornerWritten): readonly Path[] => {
  const spread = points.filter((p, i) => i === 0 || apart(p, points[i - 1] as Point) > 1e-9);
  const [start, ...rest] = spread;
  if (start === undefined || rest.length === 0) {
    return refuse(job, 'no-length', job.bead.pathSpan, `${job.bead.id} starts and ends at the same point: give it two points apart`);
  }
  const ring = rest.length > 2 && apart(start, rest.at(-1) as Point) < 1e-9;
  return withCorners(job, { start, moves: rest.map((to): Move => ({ kind: 'line', to })), closed: ring }, corner);
};

type CornerWritten = { readonly value: number; readonly span: Unworked['span'] } | undefined;

/** Corners as written, else as tight as the die goes, else sharp. */
const withCorners = (job: Job, path: Path, corner: CornerWritten): readonly Path[] => {
  const radius = corner?.value ?? job.bead.die?.value.tightestTurn ?? 0;
  const answer = rounded(path, radius);
  if (answer.largest !== undefined && corner !== undefined) {
    const { say } = job.words;
    refuse(
      job,
      'corner-too-large',
      corner.span,
      `a corner of ${say(radius)} does not fit between the neighbouring corners of ${job.bead.id}; the largest that fits is ${sayRounded(job.words, answer.largest, 'down')}`,
    );
  }
  return [answer.path];
};

const insets = (job: Job, inset: number): readonly Path[] => {
  const { outline } = job.panel;
  const written = job.bead.path;
  if (outline === undefined || (written.kind !== 'rectangle' && written.kind !== 'along')) return [];
  const loop = finishedOutline(outline);
  if (loop.length === 0) return [];
  const paths = offsetPath(pathOfLoop(loop), inset, 'sharp').filter((path) => path.closed && signedArea(path.moves) > 1e-9);
  if (paths.length > 0) return paths;
  return refuse(
    job,
    'nothing-inside',
    written.inset.span,
    `an inset of ${job.words.say(inset)} leaves nothing inside the outline: make it smaller`,
  );
};

const alongEdges = (job: Job, written: Extract<BeadPath, { kind: 'along' }>): readonly Path[] => {
  const names = written.edges.map((edge) => `edge:${edge.value}`);
  const outline = job.panel.outline;
  if (outline === undefined || names.length === 0) return [];
  const unknown = written.edges.find((edge) => !outline.edges.some((e) => e.name === edge.value));
  if (unknown !== undefined) {
    return refuse(job, 'edge-unknown', unknown.span, `the outline has no edge named ${unknown.value}`);
  }
  const rings = insets(job, written.inset.value);
  if (rings.length === 0) return [];
  for (const ring of rings) {
    const path = runAlong(ring, names) ?? reversedIf(runAlong(ring, [...names].reverse()));
    if (path !== undefined) return withCorners(job, path, written.corner);
  }
  const apartAt = written.edges.find((edge, i) => i > 0 && !neighbours(outline, (written.edges[i - 1] as typeof edge).value, edge.value));
  if (apartAt !== undefined) {
    const before = written.edges[written.edges.indexOf(apartAt) - 1]?.value ?? '';
    return refuse(
      job,
      'edges-apart',
      apartAt.span,
      `${before} and ${apartAt.value} do not meet at a corner: name the edges in order round the outline, or write one bead for each`,
    );
  }
  return refuse(
    job,
    'nothing-inside',
    written.inset.span,
    `at an inset of ${job.words.say(written.inset.value)} nothing is left of ${written.edges.map((e) => e.value).join(', ')}: make it smaller`,
  );
};

const neighbours = (outline: Outline, a: string, b: string): boolean => {
  const names = outline.edges.map((edge) => edge.name);
  return names.some((name, i) => {
    const next = names[(i + 1) % names.length];
    return (name === a && next === b) || (name === b && next === a);
  });
};

const reversedIf = (path: Path | undefined): Path | undefined => (path === undefined ? undefined : reversedPath(path));

/** The stretch of a ring along these edges in this order; the ring itself when they are all its edges. */
const runAlong = (ring: Path, names: readonly string[]): Path | undefined => {
  const count = ring.moves.length;
  for (let i = 0; i < count; i++) {
    if (ring.moves[i]?.id !== names[0] || ring.moves[(i + count - 1) % count]?.id === names[0]) continue;
    let at = 0;
    let taken = 0;
    while (taken < count) {
      const id = ring.moves[(i + taken) % count]?.id;
      if (id !== names[at]) {
        if (at + 1 < names.length && id === names[at + 1]) at += 1;
        else break;
      }
      taken += 1;
    }
    if (at !== names.length - 1) continue;
    const start = ring.moves[(i + count - 1) % count]?.to ?? ring.start;
    const moves = Array.from({ length: taken }, (_, k) => ring.moves[(i + k) % count] as Move);
    return { start, moves, closed: taken === count };
  }
  return undefined;
};

const throughPoints = (job: Job, from: Point, through: Point, to: Point): readonly Path[] => {
  const half = (a: Point, b: Point): { at: Point; along: Point } | undefined => {
    const length = apart(a, b);
    if (length < 1e-9) return undefined;
    return { at: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, along: leftOf({ x: (b.x - a.x) / length, y: (b.y - a.y) / length }) };
  };
  const one = half(from, through);
  const other = half(through, to);
  if (one === undefined || other === undefined || apart(from, to) < 1e-9) {
    return refuse(job, 'no-length', job.bead.pathSpan, 'an arc needs three different points; for a full turn write `circle`');
  }
  const centre = linesMeet(one, other);
  if (centre === undefined) return [{ start: from, moves: [{ kind: 'line', to }], closed: false }];
  const left = (through.x - from.x) * (to.y - from.y) - (through.y - from.y) * (to.x - from.x) > 0;
  return [{ start: from, moves: [{ kind: 'arc', to, centre, turn: left ? 'left' : 'right' }], closed: false }];
};
