/**
 * What roller work adds to the drawing of a blank: the beads as they lie in the finished sheet, the roller's frame where it asks most, how far this throat
 * reaches, and edges that have to be trimmed; or, on the sheet as it is cut, the lines to be marked for rolling. Blank coordinates, mm, y up.
 */
import type { BeadResult, Path, TippedEdge, WorkedBead, WorkedCrossBreak, WorkedTip } from '../bead/types.js';
import { sayAngle, sayBendSum, sayLengthBare, saySize } from '../model/display.js';
import type { Direction } from '../model/part.js';
import { apart } from '../shape/arcs.js';
import type { Point } from '../shape/path.js';
import { type Additions, joined, nothingAdded } from './bead-additions.js';
import { besidePath, longestStraight, pointsOf, shiftedPath } from './bead-paths.js';
import type { DisplayOptions, LineLabel, SpotLabel, Stroke } from './drawing.js';
import { alongArc } from './extent.js';
import { drawnBow, drawnReach, shownReaches } from './reach-drawing.js';

/** A bow below this is not worth a line, mm. Common practice, no source. */
const hair = 1;

const beadFeature = (id: string): string => `bead:${id}`;
const centre = (direction: Direction): 'bead_up' | 'bead_down' => (direction === 'up' ? 'bead_up' : 'bead_down');
const bare = (mm: number, options: DisplayOptions): string => sayLengthBare(mm, options.unit, options.denominator);

const percent = (strain: number): string => `${Math.round(strain * 1000) / 10} %`;

/** `border: bead up, half_round_3_8, 92 1/2 in long; takes in 0.03 in (0 to 0.05); reach 5 of 8 in; 2 passes`. */
const beadTitle = (bead: WorkedBead, options: DisplayOptions): string => {
  const reach = bead.reaches[0];
  const twice = bead.kind === 'band' ? 2 : 1;
  const sum = (mm: number): string => sayBendSum(mm * twice, options.unit);
  const passes = bead.forming?.passes.length;
  return [
    `${bead.id}: ${bead.kind} ${bead.direction}, ${bead.die.name}, ${bare(bead.length, options)} long`,
    `takes in ${sum(bead.takeIn.used)} (${sum(0)} to ${sum(bead.takeIn.full)})`,
    ...(bead.forming === undefined ? [] : [`stretches ${percent(bead.forming.strain)} on the average`]),
    ...(reach === undefined ? [] : [`reach ${bare(reach.needed, options)} of ${bare(reach.throat, options)} on ${reach.roller.name}`]),
    ...(passes === undefined ? [] : [`${passes} ${passes === 1 ? 'pass' : 'passes'}`]),
  ].join('; ');
};

const bodyOf = (bead: WorkedBead): readonly Stroke[] => {
  const feature = beadFeature(bead.id);
  const layer = 'bead_body' as const;
  const land = bead.kind === 'band' ? bead.tracks.slice(0, 1).flatMap((track) => landOf(bead, track.path)) : [];
  return [
    ...land.map((path): Stroke => ({ layer, feature, geometry: { kind: 'path', path: path.path }, breadth: path.breadth })),
    ...bead.tracks.map((track): Stroke => ({ layer, feature, geometry: { kind: 'path', path: track.path }, breadth: bead.width })),
  ];
};
/** The set-off sheet between the two steps of a band, as a broad line along its middle. */
const landOf = (bead: WorkedBead, track: Path): readonly { readonly path: Path; readonly breadth: number }[] => {
  const middle = bead.middle[0];
  if (middle === undefined) return [];
  const apartBy = 2 * distanceTo(middle, track.start);
  return bead.middle.map((path) => ({ path, breadth: apartBy }));
};
/** From a place to the start of a path: the two tracks of a band begin square beside its middle. */
const distanceTo = (path: Path, place: Point): number => apart(path.start, place);

const linesOf = (bead: WorkedBead): readonly Stroke[] => {
  const feature = beadFeature(bead.id);
  return bead.tracks.flatMap((track): readonly Stroke[] => [
    ...[1, -1].map(
      (side): Stroke => ({
        layer: 'bead_edge',
        feature,
        geometry: { kind: 'path', path: besidePath(track.path, (side * bead.width) / 2) },
      }),
    ),
    { layer: centre(bead.direction), feature, geometry: { kind: 'path', path: track.path } },
  ]);
};

/** Beads without a straight to write along: beside the middle of their path. */
const roundLabels = (beads: readonly WorkedBead[]): readonly SpotLabel[] =>
  beads.flatMap((bead) => roundLabel(bead, bead.id, bead.middle[0], bead.width / 2));
const roundLabel = (bead: WorkedBead, name: string, path: Path | undefined, clear: number): readonly SpotLabel[] => {
  const index = path === undefined ? 0 : Math.floor((path.moves.length - 1) / 2);
  const move = path?.moves[index];
  if (path === undefined || move === undefined || longestStraight(bead.tracks.map((track) => track.path)) !== undefined) return [];
  const from = path.moves[index - 1]?.to ?? path.start;
  const at = move.kind === 'arc' ? alongArc(from, move, 0.5) : move.to;
  return [{ feature: beadFeature(bead.id), at, clear, text: `${name}  ${bead.direction}  ${bead.die.name}` }];
};

/** One label for all copies of a bead: `rib.1 … rib.5  up  half_round_3_8`. */
const labelsOf = (beads: readonly WorkedBead[]): readonly LineLabel[] => {
  const groups = new Map<number, WorkedBead[]>();
  for (const bead of beads) groups.set(bead.span.start, [...(groups.get(bead.span.start) ?? []), bead]);
  return [...groups.values()].flatMap((copies) => {
    const [bead] = copies;
    const line = bead === undefined ? undefined : longestStraight(bead.tracks.map(({ path }) => path));
    if (bead === undefined || line === undefined) return [];
    const name = bead.id.replace(/\.1$/, '');
    const short = copies.length === 1 ? `${bead.id}  ${bead.direction}` : `${copies.length} × ${name}  ${bead.direction}`;
    const label: LineLabel = {
      feature: beadFeature(bead.id),
      layer: centre(bead.direction),
      ...line,
      clear: bead.width / 2,
      text: `${short}  ${bead.die.name}`,
      short,
    };
    return [label];
  });
};

/** The outline runs anticlockwise, so the sheet that a tip takes lies to the right of its edge. */
const cutEdge = (edge: TippedEdge): Path => besidePath(edge.path, -(edge.work?.sums.added ?? 0));
const tipTitle = (tip: WorkedTip, options: DisplayOptions): string =>
  [
    `${tip.id}: edge tipped ${tip.direction}, ${bare(tip.width, options)} wide`,
    ...tip.edges.flatMap(({ edge, work }) =>
      work === undefined
        ? []
        : [
            `${edge} is cut ${sayBendSum(work.sums.added, options.unit)} larger${work.strain === undefined ? '' : ` and ${work.strain.strain < 0 ? 'shrinks' : 'stretches'} by ${percent(Math.abs(work.strain.strain))}`}`,
          ],
    ),
  ].join('; ');

/** `tip up 90°  1/4` along a tipped edge. */
const tipLabels = (tip: WorkedTip, path: Path, options: DisplayOptions): readonly LineLabel[] => {
  const line = longestStraight([path]);
  if (line === undefined) return [];
  const short = `tip ${tip.direction}`;
  const layer = tip.direction === 'up' ? 'bend_up' : 'bend_down';
  return [
    { feature: `tip:${tip.id}`, layer, ...line, clear: 0, text: `${short} ${sayAngle(tip.turn)}  ${bare(tip.width, options)} wide`, short },
  ];
};

/** Beside the middle, where the diagonals meet. */
const breakLabels = (one: WorkedCrossBreak, feature: string, options: DisplayOptions, by: Point = { x: 0, y: 0 }): readonly SpotLabel[] => {
  const [line] = one.lines;
  if (line === undefined) return [];
  const at = { x: (line[0].x + line[1].x) / 2 + by.x, y: (line[0].y + line[1].y) / 2 + by.y };
  return [{ feature, at, clear: 12, text: `cross-break ${one.direction}, middle ${bare(one.depth, options)} proud` }];
};

/** The foot of each pressed rim, and one label for all rims of one statement. */
const rimsOf = (dimples: BeadResult['dimples'], options: DisplayOptions, moved: (id: string, at: Point) => Point): Additions => {
  const groups = new Map<number, (typeof dimples)[number][]>();
  for (const dimple of dimples) groups.set(dimple.span.start, [...(groups.get(dimple.span.start) ?? []), dimple]);
  return {
    ...nothingAdded,
    strokes: dimples.map(
      (dimple): Stroke => ({
        layer: 'bead_edge',
        feature: `cut:${dimple.id}`,
        geometry: {
          kind: 'circle',
          circle: { centre: moved(dimple.id, dimple.at), radius: (dimple.work?.footDiameter ?? dimple.diameter) / 2 },
        },
      }),
    ),
    spotLabels: [...groups.values()].flatMap((copies): readonly SpotLabel[] => {
      const [first] = copies;
      if (first === undefined) return [];
      const deep = first.work === undefined ? '' : ` ${bare(first.work.depth, options)}`;
      const text = `${copies.length === 1 ? '' : `${copies.length} × `}rim ${first.direction}${deep}`;
      const clear = ((first.work?.footDiameter ?? first.diameter) / 2) * 1.2;
      return [{ feature: `cut:${first.id}`, at: moved(first.id, first.at), clear, text }];
    }),
  };
};

const otherWork = (result: BeadResult, options: DisplayOptions): Additions =>
  joined([
    ...result.crossBreaks.map((one, index): Additions => {
      const feature = `cross_break:${index + 1}`;
      return {
        ...nothingAdded,
        strokes: one.lines.map(
          ([from, to]): Stroke => ({
            layer: one.direction === 'up' ? 'bend_up' : 'bend_down',
            feature,
            geometry: { kind: 'line', from, to },
          }),
        ),
        spotLabels: breakLabels(one, feature, options),
        features: [
          {
            id: feature,
            title: `cross-break ${one.direction}: two light bends from corner to corner, the middle ${bare(one.depth, options)} proud`,
            span: one.span,
          },
        ],
      };
    }),
    rimsOf(result.dimples, options, (_, at) => at),
    ...result.tips.map((tip): Additions => {
      const feature = `tip:${tip.id}`;
      return {
        ...nothingAdded,
        strokes: tip.edges.flatMap((edge): readonly Stroke[] => [
          { layer: 'rough_cut', feature, geometry: { kind: 'path', path: cutEdge(edge) } },
          { layer: tip.direction === 'up' ? 'bend_up' : 'bend_down', feature, geometry: { kind: 'path', path: edge.path } },
        ]),
        features: [{ id: feature, title: tipTitle(tip, options), span: tip.span }],
        lineLabels: tip.edges.flatMap((edge) => tipLabels(tip, edge.path, options)),
        beyond: tip.edges.flatMap((edge) => pointsOf(cutEdge(edge))),
      };
    }),
  ]);

/** The beads as they lie in the net blank, with the roller and the trimming. */
export const drawnBeads = (result: BeadResult, options: DisplayOptions): Additions => {
  const { beads, drawIn } = result;
  const own: Additions = {
    ...nothingAdded,
    strokes: [...beads.flatMap(bodyOf), ...beads.flatMap(linesOf)],
    features: beads.map((bead) => ({ id: beadFeature(bead.id), title: beadTitle(bead, options), span: bead.span })),
    lineLabels: labelsOf(beads),
    spotLabels: roundLabels(beads),
  };
  const first = beads[0];
  return joined([
    ...shownReaches(beads).map(({ bead, reach }) => drawnReach(bead, reach, options)),
    own,
    ...(first === undefined
      ? []
      : (drawIn?.bows ?? []).filter(({ amount }) => amount > hair).map((bow, i) => drawnBow(bow, i, first.span, options))),
    otherWork(result, options),
  ]);
};

/** Lines of cross-breaks, and those from which the tips turn, on the sheet as it is cut, each with the way its sheet turns. */
export const otherMarks = ({
  tips,
  crossBreaks,
  drawIn,
}: BeadResult): readonly { readonly feature: string; readonly direction: Direction; readonly path: Path }[] => {
  const by = drawIn?.shift ?? { x: 0, y: 0 };
  return [
    ...(drawIn?.tipMarks ?? []).flatMap(({ tip: id, path }) => {
      const tip = tips.find((one) => one.id === id);
      return tip === undefined ? [] : [{ feature: `tip:${id}`, direction: tip.direction, path }];
    }),
    ...crossBreaks.flatMap((one, index) =>
      one.lines.map(([from, to]) => ({
        feature: `cross_break:${index + 1}`,
        direction: one.direction,
        path: shiftedPath({ start: from, moves: [{ kind: 'line', to }], closed: false }, by),
      })),
    ),
  ];
};

/** On the sheet as it is cut: the middles of the tracks, where they are marked before rolling. */
export const markedBeads = (result: BeadResult, options: DisplayOptions): Additions => {
  const { beads, drawIn } = result;
  const owner = new Map(beads.flatMap((bead) => bead.tracks.map((track) => [track.id, bead] as const)));
  const marks = drawIn?.marks ?? [];
  const placedAt = new Map((drawIn?.moved ?? []).flatMap(({ kind, id, to }) => (kind === 'dimple' ? [[id, to] as const] : [])));
  const rims = rimsOf(result.dimples, options, (id, at) => placedAt.get(id) ?? at);
  const tipped = (drawIn?.tipMarks ?? []).flatMap(({ tip: id, path }) => {
    const tip = result.tips.find((one) => one.id === id);
    return tip === undefined ? [] : tipLabels(tip, path, options);
  });
  const broken = result.crossBreaks.flatMap((one, index) => breakLabels(one, `cross_break:${index + 1}`, options, drawIn?.shift));
  return {
    ...nothingAdded,
    strokes: [
      ...marks.flatMap(({ track, path }): readonly Stroke[] => {
        const bead = owner.get(track);
        if (bead === undefined) return [];
        return [{ layer: centre(bead.direction), feature: beadFeature(bead.id), geometry: { kind: 'path', path } }];
      }),
      ...otherMarks(result).map(
        ({ feature, direction, path }): Stroke => ({
          layer: direction === 'up' ? 'bend_up' : 'bend_down',
          feature,
          geometry: { kind: 'path', path },
        }),
      ),
    ],
    features: beads.map((bead) => ({ id: beadFeature(bead.id), title: beadTitle(bead, options), span: bead.span })),
    spotLabels: [
      ...marks.flatMap(({ track, path }) => {
        const bead = owner.get(track);
        return bead === undefined ? [] : roundLabel(bead, track, path, 0);
      }),
      ...rims.spotLabels,
      ...broken,
    ],
    lineLabels: [
      ...tipped,
      ...marks.flatMap(({ track, path }): readonly LineLabel[] => {
        const bead = owner.get(track);
        const line = longestStraight([path]);
        if (bead === undefined || line === undefined) return [];
        const short = `${track}  ${bead.direction}`;
        return [
          { feature: beadFeature(bead.id), layer: centre(bead.direction), ...line, clear: 0, text: `${short}  ${bead.die.name}`, short },
        ];
      }),
    ],
  };
};

/** `sheet to cut 36 1/8 × 24 1/16 in`, where rolling draws the sheet in; undefined where it stays as it is. */
export const sheetToCut = (result: BeadResult | undefined, options: DisplayOptions): string | undefined => {
  const grown = result?.drawIn?.growth.used;
  const cut = result?.drawIn?.asCut;
  if (grown === undefined || cut === undefined || Math.max(grown.width, grown.height) < 0.005) return undefined;
  return `sheet to cut ${saySize(cut.width, cut.height, options.unit, options.denominator)}`;
};

/** What a pattern of the sheet as cut has to say of its beads: how the lines are drawn, and what is trimmed afterwards. */
export const beadWords = (options: DisplayOptions): readonly string[] => {
  const { beads, beadsLie } = options;
  if (beads === undefined || beadsLie !== 'as cut' || beads.beads.length + beads.tips.length === 0) return [];
  const tipped = beads.tips.length === 0 ? '' : ' Thin or dashed along an edge: where the tipped edge begins to turn.';
  if (beads.beads.length === 0) return [`This is the sheet before its edges are tipped.${tipped}`];
  const bows = (beads.drawIn?.bows ?? []).filter(({ amount }) => amount > hair);
  const trimmed =
    bows.length === 0
      ? ''
      : ` Edges bow by up to ${sayBendSum(Math.max(...bows.map(({ amount }) => amount)), options.unit)}: trim them after rolling.`;
  return [`This is the sheet before rolling, with what the beads draw in. Long dash and dot: middle of a bead.${tipped}${trimmed}`];
};
