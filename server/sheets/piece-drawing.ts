/**
 * The drawing of what is cut from a length: a piece of tube, bar, rod or angle seen from the side before bending, a strap flat, and the bent shape above it.
 * x runs from the start, y from the bottom, so that the numbers are those of the file.
 */
import type { Span } from '../../grammar/syntax.js';
import { sayAngle, sayLengthBare } from '../model/display.js';
import type { Piece, PieceBend, PieceEnd } from '../model/part.js';
import type { Box, Loop, Move, Point } from '../shape/path.js';
import { pieceWork } from '../stock/index.js';
import { bentShape, type Stretch } from './bent-shape.js';
import type { DisplayOptions, Drawing, Measure, SpotLabel, Stroke } from './drawing.js';
import { bentAbove } from './piece-above.js';
import { type EndLines, endLines, insetOf, type SideView, sideViewOf } from './piece-ends.js';
import { cutSize, cutStrokes, heightMarks, holeLabels } from './piece-holes.js';
import { type Items, running, type Scene, zone, zoneLines } from './piece-scene.js';
import { type CutFromLength, pieceTitle, sayEnd } from './piece-words.js';
import { strapItems } from './strap-drawing.js';

const silent = { say: String };
/** Letters as a share of the length, as on a blank's picture. */
const lettersShare = 0.024;

/**
 * @param letters height of the letters, mm of the part; a share of its length unless given
 * @returns undefined while its stock or its length is not known
 */
export const drawPiece = (part: CutFromLength, options: DisplayOptions, letters?: number): Drawing | undefined => {
  const work = pieceWork(part, silent);
  const { stock, length } = work;
  if (stock?.shape === undefined || length === undefined || !(length > 0)) return undefined;
  const scene: Scene = {
    part,
    work,
    stock,
    shape: stock.shape,
    view: sideViewOf(stock.shape),
    length,
    options,
    say: (mm) => sayLengthBare(mm, options.unit, options.denominator),
    letters: letters ?? length * lettersShare,
  };
  return part.kind === 'piece' ? drawingOf(scene, pieceItems(scene, part)) : drawingOf(scene, strapItems(scene, part));
};

const drawingOf = (scene: Scene, items: Items): Drawing => {
  const { part, view, length } = scene;
  const box: Box = { min: { x: 0, y: 0 }, max: { x: length, y: view.height } };
  const above = items.bent === undefined ? undefined : bentAbove(scene, items.bent);
  const marks = [...items.running, ...part.cuts.flatMap((cut) => [running(scene, cut.at.x, `cut:${cut.id}`)])];
  const kept = marks.filter(
    (mark, i) =>
      mark.at > 0.005 && Math.abs(mark.at - length) > 0.005 && marks.findIndex((other) => Math.abs(other.at - mark.at) < 0.005) === i,
  );
  return {
    box,
    areas: [{ feature: 'outline', kind: 'base', loop: items.outline }, ...items.areas, ...(above?.areas ?? [])],
    strokes: [
      ...part.cuts.flatMap((cut) => cutStrokes(cut)),
      ...items.strokes,
      { layer: 'cut', feature: 'outline', geometry: { kind: 'loop', loop: items.outline } },
      ...(above?.strokes ?? []),
    ],
    features: [
      { id: 'outline', title: pieceTitle(part, scene.work, scene.options), span: outlineSpan(part) },
      ...items.features,
      ...part.cuts.map((cut) => ({
        id: `cut:${cut.id}`,
        title: `${cut.id}: ${cutSize(scene, cut)} at ${scene.say(cut.at.x)} from the start, ${scene.say(cut.at.y)} up`,
        span: cut.span,
      })),
    ],
    overall: { width: scene.say(length), height: scene.say(view.height) },
    running: [...kept, ...heightMarks(scene)],
    lineLabels: [],
    spotLabels: [...holeLabels(scene), ...items.spots, ...(above?.spots ?? [])],
    measures: [...items.measures, ...(above?.measures ?? [])],
    beyond: above?.corners ?? [],
  };
};

const outlineSpan = (part: CutFromLength): Span =>
  part.kind === 'piece' ? (part.length?.span ?? part.nameSpan) : (part.stock?.span ?? part.nameSpan);

// ends and bends of a piece

const noEnd = (view: SideView): EndLines => ({
  rim: [
    { x: 0, y: 0 },
    { x: 0, y: view.height },
  ],
  seen: undefined,
  behind: undefined,
  run: 0,
});

const pieceItems = (scene: Scene, part: Piece): Items => {
  const { view, shape, length, say } = scene;
  const ends = (['start', 'finish'] as const).map((name) => {
    const end = name === 'start' ? part.startEnd : part.finishEnd;
    const inset = insetOf(end, shape);
    const lines = inset === undefined ? noEnd(view) : endLines(view, inset);
    const from = (point: Point): Point => (name === 'start' ? point : { x: length - point.x, y: point.y });
    return { name, end, lines, from, feature: `end:${name}` };
  });
  const [start, finish] = ends as [(typeof ends)[0], (typeof ends)[0]];
  const line = (to: Point): Move => ({ kind: 'line', to });
  const outline: Loop = [...finish.lines.rim.map(finish.from), ...[...start.lines.rim].reverse().map(start.from)].map(line);
  const insetAt = (lines: EndLines, y: number): number => {
    const index = lines.rim.findIndex((point) => point.y >= y - 1e-9);
    const [b, a] = [lines.rim[index], lines.rim[index - 1]];
    if (b === undefined) return 0;
    if (a === undefined || Math.abs(b.y - a.y) < 1e-9) return b.x;
    return a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y);
  };
  const inner = view.hidden.map((fromMiddle): Stroke => {
    const y = fromMiddle + view.height / 2;
    return {
      layer: 'hidden',
      feature: 'outline',
      geometry: { kind: 'line', from: { x: insetAt(start.lines, y), y }, to: { x: length - insetAt(finish.lines, y), y } },
    };
  });
  const polyline = (layer: Stroke['layer'], feature: string, points: readonly Point[]): Stroke => {
    const [first = { x: 0, y: 0 }, ...rest] = points;
    return { layer, feature, geometry: { kind: 'path', path: { start: first, moves: rest.map(line), closed: false } } };
  };
  const edges = ends.flatMap(({ lines, from, feature, end }): readonly Stroke[] =>
    end.kind === 'square'
      ? []
      : [
          ...(lines.behind === undefined ? [] : [polyline('hidden', feature, lines.behind.map(from))]),
          ...(lines.seen === undefined ? [] : [polyline('bend_up', feature, lines.seen.map(from))]),
          polyline('cut', feature, lines.rim.map(from)),
        ],
  );
  const cutEnds = ends.filter(({ end }) => end.kind !== 'square');
  const bends = [...part.bends].sort((a, b) => a.at - b.at);
  return {
    areas: bends.map((bend, i) => ({
      feature: `bend:${i + 1}`,
      kind: goesDown(bend) ? 'zone_down' : 'zone_up',
      loop: zone(scene, bend.at, bend.at + bend.radius * bend.turn),
    })),
    strokes: [
      ...inner,
      ...bends.flatMap((bend, i) => zoneLines(scene, `bend:${i + 1}`, bend.at, bend.at + bend.radius * bend.turn, goesDown(bend))),
      ...edges,
    ],
    outline,
    features: [
      ...cutEnds.map(({ feature, name, end, lines }) => ({
        id: feature,
        title: `${name}: ${sayEnd(end) ?? 'square'}, its short point ${say(lines.run)} behind the long one`,
        span: end.kind === 'square' ? part.nameSpan : end.span,
      })),
      ...bends.map((bend, i) => ({ id: `bend:${i + 1}`, title: bendTitle(scene, bend, i), span: bend.span })),
    ],
    running: [
      ...cutEnds
        .filter(({ lines }) => lines.run > 0.005)
        .map(({ name, lines, feature }) => running(scene, name === 'start' ? lines.run : length - lines.run, feature)),
      ...bends.flatMap((bend, i) => [
        running(scene, bend.at, `bend:${i + 1}`),
        running(scene, bend.at + bend.radius * bend.turn, `bend:${i + 1}`),
      ]),
    ],
    spots: [
      ...cutEnds.map(({ feature, name, end, lines }): SpotLabel => {
        const words = sayEnd(end) ?? '';
        const out = Math.min(lines.run, length / 2);
        return { feature, at: { x: name === 'start' ? out : length - out, y: view.height }, clear: 0, text: words };
      }),
      ...bends.map(
        (bend, i): SpotLabel => ({
          feature: `bend:${i + 1}`,
          at: { x: bend.at + (bend.radius * bend.turn) / 2, y: view.height },
          clear: 0,
          text: bendWords(scene, bend),
        }),
      ),
    ],
    measures: shortMeasure(scene, start.lines.run, finish.lines.run),
    bent: pieceBent(scene, part, bends, start.lines, finish.lines),
  };
};

const goesDown = ({ turned }: PieceBend): boolean => Math.cos(turned) < -1e-9;
const inPlane = ({ turned }: PieceBend): boolean => Math.abs(Math.sin(turned)) < 1e-6;
const bendWords = ({ say }: Scene, bend: PieceBend): string =>
  `${sayAngle(bend.turn)}  R ${say(bend.radius)}${Math.abs(bend.turned) < 1e-9 ? '' : `, turned ${sayAngle(bend.turned)}`}`;
const bendTitle = (scene: Scene, bend: PieceBend, index: number): string =>
  `bend ${index + 1}: ${sayAngle(bend.turn)}, radius ${scene.say(bend.radius)} to the middle of the stock, from ${scene.say(bend.at)} to ${scene.say(bend.at + bend.radius * bend.turn)} along the straight stock${Math.abs(bend.turned) < 1e-9 ? '' : `, its plane turned ${sayAngle(bend.turned)} from the first`}`;

/** The other of the two lengths that a sloping end has, above the piece. */
const shortMeasure = (scene: Scene, atStart: number, atFinish: number): readonly Measure[] => {
  const { length, view, letters, say } = scene;
  const short = length - atStart - atFinish;
  if (atStart + atFinish < 0.005 || short <= 0) return [];
  const y = view.height + letters * 2.6;
  return [
    {
      feature: 'outline',
      from: { x: atStart, y },
      to: { x: length - atFinish, y },
      text: `${say(short)} between the short points`,
      fault: false,
    },
  ];
};

const pieceBent = (scene: Scene, part: Piece, bends: readonly PieceBend[], start: EndLines, finish: EndLines): Items['bent'] => {
  if (bends.length === 0 || !bends.every(inPlane)) return undefined;
  const stretches: Stretch[] = [];
  let at = 0;
  for (const bend of bends) {
    if (bend.at < at - 1e-6) return undefined;
    if (bend.at > at + 1e-6) stretches.push({ kind: 'straight', length: bend.at - at });
    stretches.push({ kind: 'bend', turn: goesDown(bend) ? -bend.turn : bend.turn, radius: bend.radius });
    at = bend.at + bend.radius * bend.turn;
  }
  if (at > scene.length + 1e-6) return undefined;
  if (at < scene.length - 1e-6) stretches.push({ kind: 'straight', length: scene.length - at });
  const ends = (lines: EndLines, end: PieceEnd, straight: boolean): readonly [number, number] =>
    straight && end.kind === 'mitre' ? [(lines.rim[0] as Point).x, (lines.rim[lines.rim.length - 1] as Point).x] : [0, 0];
  const shape = bentShape(stretches, scene.view.height, {
    start: ends(start, part.startEnd, stretches[0]?.kind === 'straight'),
    finish: ends(finish, part.finishEnd, stretches[stretches.length - 1]?.kind === 'straight'),
  });
  return { shape, features: bends.map((_, i) => `bend:${i + 1}`) };
};
