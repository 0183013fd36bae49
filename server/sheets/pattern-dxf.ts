/**
 * The true-size pattern as ASCII DXF, release 12: the form every cutting table reads. Millimetres, y up, the blank's lower left corner at
 * the origin. Arcs stay arcs: outlines are closed POLYLINEs whose vertices carry bulges, round holes are CIRCLEs.
 * Source: the published DXF reference, release 12 (group codes, header variables); $INSUNITS came with release 2000 and older readers pass over it.
 */
import type { BeadResult, Path } from '../bead/types.js';
import type { Blank } from '../blank/types.js';
import { sayThickness } from '../model/display.js';
import type { Part } from '../model/part.js';
import type { Loop, Move, Point } from '../shape/path.js';
import type { NestPicture } from '../stock/index.js';
import { otherMarks } from './bead-drawing.js';
import { workLines } from './drawing.js';
import { boxOfLoop, startOf, sweepOf } from './extent.js';

type Pair = readonly [code: number, value: string];

/** Layer names with the DXF colour number and line type. 7 black/white, 1 red, 3 green, 5 blue, 6 magenta, 8 grey. */
const layers: readonly (readonly [name: string, colour: number, lineType: string])[] = [
  ['cut', 7, 'CONTINUOUS'],
  ['cut_inside', 7, 'CONTINUOUS'],
  ['bend_up', 3, 'CONTINUOUS'],
  ['bend_down', 5, 'DASHED'],
  ['bead_up', 1, 'CENTER'],
  ['bead_down', 6, 'CENTER'],
  ['brake_line', 8, 'CONTINUOUS'],
  ['mark', 8, 'CENTER'],
  ['text', 8, 'CONTINUOUS'],
];

const number = (value: number): string => {
  const text = value.toFixed(9).replace(/0+$/, '');
  const whole = text.endsWith('.') ? `${text}0` : text;
  return whole === '-0.0' ? '0.0' : whole;
};

/** Release 12 text is ASCII: signs have codes (`%%d` degree, `%%c` diameter, `%%p` plus or minus), accents fall away, the rest is written `\U+6A4B` as DXF does. */
export const dxfText = (text: string): string =>
  text
    .replace(/[\r\n\t]+/g, ' ')
    .replace(/%%/g, '% %')
    .replace(/°/g, '%%d')
    .replace(/⌀|ø|Ø/g, '%%c')
    .replace(/±/g, '%%p')
    .replace(/×/g, 'x')
    .replace(/−|–|—/g, '-')
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/[^\u0020-\u007e]/g, (unit) => {
      const code = unit.charCodeAt(0);
      return code < 0x80 ? '?' : `\\U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
    });

const point = (at: Point, first = 10): readonly Pair[] => [
  [first, number(at.x)],
  [first + 10, number(at.y)],
  [first + 20, '0.0'],
];

const header = (extent: { readonly min: Point; readonly max: Point }): readonly Pair[] => [
  [0, 'SECTION'],
  [2, 'HEADER'],
  [9, '$ACADVER'],
  [1, 'AC1009'],
  [9, '$INSUNITS'],
  [70, '4'],
  [9, '$MEASUREMENT'],
  [70, '1'],
  [9, '$LUNITS'],
  [70, '2'],
  [9, '$EXTMIN'],
  ...point(extent.min),
  [9, '$EXTMAX'],
  ...point(extent.max),
  [0, 'ENDSEC'],
];

const lineType = (name: string, words: string, dashes: readonly number[]): readonly Pair[] => [
  [0, 'LTYPE'],
  [2, name],
  [70, '0'],
  [3, words],
  [72, '65'],
  [73, String(dashes.length)],
  [40, number(dashes.reduce((sum, dash) => sum + Math.abs(dash), 0))],
  ...dashes.map((dash): Pair => [49, number(dash)]),
];

const table = (name: string, entries: readonly (readonly Pair[])[]): readonly Pair[] => [
  [0, 'TABLE'],
  [2, name],
  [70, String(entries.length)],
  ...entries.flat(),
  [0, 'ENDTAB'],
];

const tables = (): readonly Pair[] => [
  [0, 'SECTION'],
  [2, 'TABLES'],
  ...table('LTYPE', [
    lineType('CONTINUOUS', 'Solid line', []),
    lineType('DASHED', '__ __ __ __', [3, -0.75]),
    lineType('CENTER', '____ . ____ .', [6, -0.75, 0.125, -0.75]),
  ]),
  ...table(
    'LAYER',
    [['0', 7, 'CONTINUOUS'] as const, ...layers].map(([name, colour, type]): readonly Pair[] => [
      [0, 'LAYER'],
      [2, name],
      [70, '0'],
      [62, String(colour)],
      [6, type],
    ]),
  ),
  ...table('STYLE', [
    [
      [0, 'STYLE'],
      [2, 'STANDARD'],
      [70, '0'],
      [40, '0.0'],
      [41, '1.0'],
      [50, '0.0'],
      [71, '0'],
      [42, '2.5'],
      [3, 'txt'],
      [4, ''],
    ],
  ]),
  [0, 'ENDSEC'],
];

const circle = (layer: string, centre: Point, radius: number): readonly Pair[] => [
  [0, 'CIRCLE'],
  [8, layer],
  ...point(centre),
  [40, number(radius)],
];
const line = (layer: string, from: Point, to: Point): readonly Pair[] => [[0, 'LINE'], [8, layer], ...point(from), ...point(to, 11)];
const text = (words: string, at: Point, height: number, turn = 0): readonly Pair[] => [
  [0, 'TEXT'],
  [8, 'text'],
  ...point(at),
  [40, number(height)],
  [1, dxfText(words)],
  [50, number((turn * 180) / Math.PI)],
];

/** Bulge of a move: the tangent of a quarter of the angle swept, positive for a left turn. */
const bulgeOf = (loop: Loop, index: number): number => {
  const move = loop[index];
  if (move === undefined || move.kind === 'line') return 0;
  return Math.tan(sweepOf(startOf(loop, index), move) / 4) * (move.turn === 'left' ? 1 : -1);
};

/** A path as it is: open with its two ends, or closed; arcs by their bulges. */
const polyline = (layer: string, path: Path): readonly Pair[] => {
  const [only] = path.moves;
  if (!path.closed && path.moves.length === 1 && only?.kind === 'line') return line(layer, path.start, only.to);
  const starts = path.moves.map((_, index) => (index === 0 ? path.start : (path.moves[index - 1] as Move).to));
  const vertices = path.moves.flatMap((move, index): readonly Pair[] => {
    const start = starts[index] as Point;
    const bulge = move.kind === 'line' ? 0 : Math.tan(sweepOf(start, move) / 4) * (move.turn === 'left' ? 1 : -1);
    const vertex: readonly Pair[] = [[0, 'VERTEX'], [8, layer], ...point(start)];
    return bulge === 0 ? vertex : [...vertex, [42, number(bulge)]];
  });
  const last = path.moves[path.moves.length - 1];
  const end: readonly Pair[] = path.closed || last === undefined ? [] : [[0, 'VERTEX'], [8, layer], ...point(last.to)];
  return [
    [0, 'POLYLINE'],
    [8, layer],
    [66, '1'],
    ...point({ x: 0, y: 0 }),
    [70, path.closed ? '1' : '0'],
    ...vertices,
    ...end,
    [0, 'SEQEND'],
    [8, layer],
  ];
};

const beadEntities = (beads: BeadResult | undefined): readonly Pair[] => {
  const directions = new Map((beads?.beads ?? []).flatMap((bead) => bead.tracks.map((track) => [track.id, bead.direction] as const)));
  const others = beads === undefined ? [] : otherMarks(beads);
  const bent = others.flatMap(({ direction, path }) => polyline(direction === 'up' ? 'bend_up' : 'bend_down', path));
  const rolled = (beads?.drawIn?.marks ?? []).flatMap(({ track, path }) =>
    polyline(directions.get(track) === 'down' ? 'bead_down' : 'bead_up', path),
  );
  return [...rolled, ...bent];
};

/** A loop that is one circle, however many arcs it is made of. */
const wholeCircle = (loop: Loop): { readonly centre: Point; readonly radius: number } | undefined => {
  const [first] = loop;
  if (first === undefined || first.kind !== 'arc') return undefined;
  const { centre, turn } = first;
  const round = loop.every(
    (move) => move.kind === 'arc' && move.turn === turn && Math.hypot(move.centre.x - centre.x, move.centre.y - centre.y) < 1e-6,
  );
  return round ? { centre, radius: Math.hypot(first.to.x - centre.x, first.to.y - centre.y) } : undefined;
};

const closedPolyline = (layer: string, loop: Loop): readonly Pair[] => {
  const whole = wholeCircle(loop);
  if (whole !== undefined) return circle(layer, whole.centre, whole.radius);
  return [
    [0, 'POLYLINE'],
    [8, layer],
    [66, '1'],
    ...point({ x: 0, y: 0 }),
    [70, '1'],
    ...loop.flatMap((_, index): readonly Pair[] => {
      const bulge = bulgeOf(loop, index);
      const vertex: readonly Pair[] = [[0, 'VERTEX'], [8, layer], ...point(startOf(loop, index))];
      return bulge === 0 ? vertex : [...vertex, [42, number(bulge)]];
    }),
    [0, 'SEQEND'],
    [8, layer],
  ];
};

const bendEntities = (blank: Blank): readonly Pair[] =>
  blank.bends.flatMap((bend) => [
    ...line(bend.direction === 'up' ? 'bend_up' : 'bend_down', bend.from, bend.to),
    ...workLines(bend).flatMap(([from, to]) => line('brake_line', from, to)),
  ]);

const cutEntities = (blank: Blank): readonly Pair[] =>
  blank.cutouts.flatMap((cut) => {
    if (cut.circle === undefined) return closedPolyline('cut_inside', cut.loop);
    const { centre, radius } = cut.circle;
    const reach = radius * 0.5;
    return [
      ...circle('cut_inside', centre, radius),
      ...line('mark', { x: centre.x - reach, y: centre.y }, { x: centre.x + reach, y: centre.y }),
      ...line('mark', { x: centre.x, y: centre.y - reach }, { x: centre.x, y: centre.y + reach }),
    ];
  });

const words = (part: Part, blank: Blank): readonly Pair[] => {
  const sheet = 'sheet' in part && part.sheet !== undefined ? part.sheet.value.name : 'no sheet';
  const degrees = (radians: number): string => `${Number(((radians * 180) / Math.PI).toFixed(2))}°`;
  return [
    ...text(`${part.name}  ${sheet}  ${sayThickness(blank.thickness, undefined)}  units: mm`, { x: 0, y: -8 }, 3.5),
    ...blank.bends.flatMap((bend, index) =>
      text(`${bend.id}  ${bend.direction} ${degrees(bend.turn)}  R ${Number(bend.radius.toFixed(3))}`, { x: 0, y: -13 - 5 * index }, 2.5),
    ),
  ];
};

/**
 * The blank as a DXF file's text (lines ended by CR LF). Coordinates to 1e-9 mm.
 * Layers: cut, cut_inside, bend_up, bend_down, bead_up, bead_down, brake_line, mark, text.
 *
 * @param beads what the beads come to, when `blank` is the sheet as it is cut before rolling
 */
export const patternDxf = (part: Part, blank: Blank, beads?: BeadResult): string => {
  const extent = blank.outline.length === 0 ? { min: { x: 0, y: 0 }, max: { x: blank.width, y: blank.height } } : boxOfLoop(blank.outline);
  return whole(extent, [
    ...(blank.outline.length === 0 ? [] : closedPolyline('cut', blank.outline)),
    ...cutEntities(blank),
    ...bendEntities(blank),
    ...beadEntities(beads),
    ...words(part, blank),
  ]);
};

/** A nested sheet: its edge as a mark, every piece with its holes to cut, its name where there is room. */
export const nestDxf = (picture: NestPicture): string => {
  const max = { x: picture.width, y: picture.height };
  const edge: Loop = [{ x: max.x, y: 0 }, max, { x: 0, y: max.y }, { x: 0, y: 0 }].map((to) => ({ kind: 'line', to }));
  return whole({ min: { x: 0, y: 0 }, max }, [
    ...closedPolyline('mark', edge),
    ...picture.pieces.flatMap((piece) => [
      ...closedPolyline('cut', piece.outline),
      ...piece.holes.flatMap((hole) => closedPolyline('cut_inside', hole)),
      ...text(piece.flipped ? `${piece.id} (turned over)` : piece.id, piece.label, Math.min(8, Math.max(2, piece.labelRoom * 0.3))),
    ]),
  ]);
};

const whole = (extent: { readonly min: Point; readonly max: Point }, entities: readonly Pair[]): string => {
  const pairs: readonly Pair[] = [...header(extent), ...tables(), [0, 'SECTION'], [2, 'ENTITIES'], ...entities, [0, 'ENDSEC'], [0, 'EOF']];
  return pairs.map(([code, value]) => `${String(code).padStart(3)}\r\n${value}\r\n`).join('');
};
