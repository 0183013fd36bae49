/**
 * What roller work adds to the drawing of a blank: the beads as they lie in the finished sheet, the roller's frame where it asks most, how far this throat
 * reaches, and edges that have to be trimmed; or, on the sheet as it is cut, the lines to be marked for rolling. Blank coordinates, mm, y up.
 */
import type { BeadResult, Bow, Path, Reach, TippedEdge, WorkedBead, WorkedTip } from '../bead/types.js';
import { sayBendSum, sayLengthBare, saySize } from '../model/display.js';
import type { Direction } from '../model/part.js';
import { apart } from '../shape/arcs.js';
import type { Move, Point } from '../shape/path.js';
import type { Area, DisplayOptions, Drawing, Feature, LineLabel, SpotLabel, Stroke } from './drawing.js';
import { alongArc } from './extent.js';

/** The parts of a drawing that roller work adds to. */
export type Additions = Pick<Drawing, 'areas' | 'strokes' | 'features' | 'lineLabels' | 'spotLabels' | 'measures' | 'beyond'>;

export const nothingAdded: Additions = { areas: [], strokes: [], features: [], lineLabels: [], spotLabels: [], measures: [], beyond: [] };

/** A bow below this is not worth a line, mm. Common practice, no source. */
const hair = 1;

export const beadFeature = (id: string): string => `bead:${id}`;
const centre = (direction: Direction): 'bead_up' | 'bead_down' => (direction === 'up' ? 'bead_up' : 'bead_down');
const bare = (mm: number, options: DisplayOptions): string => sayLengthBare(mm, options.unit, options.denominator);

/** The path set off to its left; where moves no longer meet they are joined straight, and arcs of which nothing is left fall away. */
export const besidePath = (path: Path, left: number): Path => {
  const shifted: { readonly from: Point; readonly move: Move }[] = [];
  let from = path.start;
  for (const move of path.moves) {
    const one = moveBeside(from, move, left);
    if (one !== undefined) shifted.push(one);
    from = move.to;
  }
  const start = shifted[0]?.from ?? path.start;
  const moves: Move[] = [];
  let at = start;
  for (const one of shifted) {
    if (apart(at, one.from) > 1e-6) moves.push({ kind: 'line', to: one.from });
    moves.push(one.move);
    at = one.move.to;
  }
  if (path.closed && apart(at, start) > 1e-6) moves.push({ kind: 'line', to: start });
  return { start, moves, closed: path.closed };
};
const moveBeside = (from: Point, move: Move, left: number): { readonly from: Point; readonly move: Move } | undefined => {
  if (move.kind === 'line') {
    const length = apart(from, move.to);
    if (length < 1e-9) return undefined;
    const off = { x: (-left * (move.to.y - from.y)) / length, y: (left * (move.to.x - from.x)) / length };
    const put = (p: Point): Point => ({ x: p.x + off.x, y: p.y + off.y });
    return { from: put(from), move: { kind: 'line', to: put(move.to) } };
  }
  const radius = apart(move.centre, from);
  const other = radius + (move.turn === 'left' ? -left : left);
  if (other < 1e-6) return undefined;
  const put = (p: Point): Point => ({
    x: move.centre.x + ((p.x - move.centre.x) * other) / radius,
    y: move.centre.y + ((p.y - move.centre.y) * other) / radius,
  });
  return { from: put(from), move: { ...move, to: put(move.to) } };
};

/** The longest straight move, for the words. */
const longestStraight = (paths: readonly Path[]): { readonly from: Point; readonly to: Point } | undefined => {
  let best: { readonly from: Point; readonly to: Point } | undefined;
  for (const path of paths) {
    let from = path.start;
    for (const move of path.moves) {
      if (move.kind === 'line' && (best === undefined || apart(from, move.to) > apart(best.from, best.to) + 1e-6))
        best = { from, to: move.to };
      from = move.to;
    }
  }
  return best;
};

const percent = (strain: number): string => `${Math.round(strain * 1000) / 10} %`;

/** `border: bead up, half_round_3_8, 92 1/2 in long; takes in 0.03 in (0 to 0.05); reach 5 of 8 in; 2 passes`. */
export const beadTitle = (bead: WorkedBead, options: DisplayOptions): string => {
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

type Frame = Reach['worst']['frame'];
const polygon = (points: readonly Point[]): readonly Move[] => points.map((to): Move => ({ kind: 'line', to }));

/** The bead that asks most of the roller, and every written bead that is out of its reach. */
const shownReaches = (beads: readonly WorkedBead[]): readonly { readonly bead: WorkedBead; readonly reach: Reach }[] => {
  const all = beads.flatMap((bead) => (bead.reaches[0] === undefined ? [] : [{ bead, reach: bead.reaches[0] }]));
  const sorted = [...all].sort((a, b) => b.reach.needed - b.reach.throat - (a.reach.needed - a.reach.throat));
  const seen = new Set<number>();
  return sorted.filter(({ bead, reach }, index) => {
    if ((index > 0 && reach.fits) || seen.has(bead.span.start)) return false;
    seen.add(bead.span.start);
    return true;
  });
};

const drawnReach = (bead: WorkedBead, reach: Reach, options: DisplayOptions): Additions => {
  const feature = `reach:${bead.id}`;
  const { worst, limit } = reach;
  const end = { x: worst.at.x + worst.toFrame.x * reach.needed, y: worst.at.y + worst.toFrame.y * reach.needed };
  const words = `${bare(reach.needed, options)} of ${bare(reach.throat, options)}`;
  // Where it fits, only the sheet that passes the frame is shown; where it doesn't, the whole room that the throat leaves.
  const share = reach.fits ? Math.min(1, reach.needed / reach.throat) : 1;
  const [a, b, c, d] = shortened(worst.frame, share);
  return {
    areas: limit.beyond.map((points): Area => ({ feature, kind: 'out_of_reach', loop: polygon(points) })),
    strokes: [
      ...limit.lines.map(
        (points): Stroke => ({
          layer: 'reach_limit',
          feature,
          geometry: { kind: 'path', path: { start: points[0] ?? worst.at, moves: polygon(points.slice(1)), closed: false } },
        }),
      ),
      { layer: 'frame', feature, geometry: { kind: 'loop', loop: polygon([b, c, d, a]) } },
    ],
    features: [
      {
        id: feature,
        title: `${reach.roller.name} at the place where ${bead.id} asks most of it: ${words} throat. Shaded: out of its reach for a bead in this direction.`,
        span: bead.pathSpan,
      },
    ],
    lineLabels: [],
    spotLabels: [],
    measures: [{ feature, from: worst.at, to: end, text: words, fault: !reach.fits }],
    beyond: [a, b, c, d, end],
  };
};

/** The room beside the track cut down to a share of its length; its first two corners are those at the track. */
const shortened = ([a, b, c, d]: Frame, share: number): Frame => {
  const between = (p: Point, q: Point): Point => ({ x: p.x + (q.x - p.x) * share, y: p.y + (q.y - p.y) * share });
  return [a, b, between(b, c), between(a, d)];
};

const edgeName = (edge: string | undefined): string => edge?.replace(/^(edge|face):/, '') ?? 'an edge without a name';
const drawnBow = (bow: Bow, index: number, span: Feature['span'], options: DisplayOptions): Additions => {
  const feature = `bow:${bow.edge?.replace(/^(edge|face):/, '') ?? index + 1}`;
  const line = (layer: 'rough_cut' | 'trim', [from, to]: readonly [Point, Point]): Stroke => ({
    layer,
    feature,
    geometry: { kind: 'line', from, to },
  });
  return {
    ...nothingAdded,
    strokes: [
      line('rough_cut', bow.rough),
      {
        layer: 'lies_after',
        feature,
        geometry: { kind: 'path', path: { start: bow.lies[0] ?? bow.rough[0], moves: polygon(bow.lies.slice(1)), closed: false } },
      },
      line('trim', bow.trim),
    ],
    features: [
      {
        id: feature,
        title: `${edgeName(bow.edge)}: cut to the outer line; it bows as the beads draw in, by up to ${sayBendSum(bow.amount, options.unit)}; trim to the inner line after rolling`,
        span,
      },
    ],
    measures: [
      { feature, from: bow.dimension[0], to: bow.dimension[1], text: `bows ${sayBendSum(bow.amount, options.unit)}`, fault: false },
    ],
    beyond: [...bow.rough],
  };
};

const joined = (all: readonly Additions[]): Additions => ({
  areas: all.flatMap(({ areas }) => areas),
  strokes: all.flatMap(({ strokes }) => strokes),
  features: all.flatMap(({ features }) => features),
  lineLabels: all.flatMap(({ lineLabels }) => lineLabels),
  spotLabels: all.flatMap(({ spotLabels }) => spotLabels),
  measures: all.flatMap(({ measures }) => measures),
  beyond: all.flatMap(({ beyond }) => beyond),
});

/** Beads without a straight to write along: beside the middle of their path. */
const roundLabels = (beads: readonly WorkedBead[]): readonly SpotLabel[] =>
  beads.flatMap((bead): readonly SpotLabel[] => {
    const path = bead.middle[0];
    const index = path === undefined ? 0 : Math.floor((path.moves.length - 1) / 2);
    const move = path?.moves[index];
    if (path === undefined || move === undefined || longestStraight(bead.tracks.map((track) => track.path)) !== undefined) return [];
    const from = path.moves[index - 1]?.to ?? path.start;
    const at = move.kind === 'arc' ? alongArc(from, move, 0.5) : move.to;
    return [{ feature: beadFeature(bead.id), at, clear: bead.width / 2, text: `${bead.id}  ${bead.direction}` }];
  });

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
const pointsOf = ({ start, moves }: Path): readonly Point[] => [start, ...moves.map(({ to }) => to)];
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
        features: [
          {
            id: feature,
            title: `cross-break ${one.direction}: two light bends from corner to corner, the middle ${bare(one.depth, options)} proud`,
            span: one.span,
          },
        ],
      };
    }),
    ...result.tips.map((tip): Additions => {
      const feature = `tip:${tip.id}`;
      return {
        ...nothingAdded,
        strokes: tip.edges.flatMap((edge): readonly Stroke[] => [
          { layer: 'rough_cut', feature, geometry: { kind: 'path', path: cutEdge(edge) } },
          { layer: tip.direction === 'up' ? 'bend_up' : 'bend_down', feature, geometry: { kind: 'path', path: edge.path } },
        ]),
        features: [{ id: feature, title: tipTitle(tip, options), span: tip.span }],
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

/** A path moved without turning. */
const shiftedPath = ({ start, moves, closed }: Path, by: Point): Path => {
  const put = (p: Point): Point => ({ x: p.x + by.x, y: p.y + by.y });
  return {
    start: put(start),
    moves: moves.map(
      (move): Move => (move.kind === 'line' ? { ...move, to: put(move.to) } : { ...move, to: put(move.to), centre: put(move.centre) }),
    ),
    closed,
  };
};

/** Lines of tipped edges and cross-breaks on the sheet as it is cut, each with the way its sheet turns. */
export const otherMarks = ({
  tips,
  crossBreaks,
  drawIn,
}: BeadResult): readonly { readonly feature: string; readonly direction: Direction; readonly path: Path }[] => {
  const by = drawIn?.shift ?? { x: 0, y: 0 };
  return [
    ...tips.flatMap((tip) =>
      tip.edges.map((edge) => ({ feature: `tip:${tip.id}`, direction: tip.direction, path: shiftedPath(edge.path, by) })),
    ),
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
    lineLabels: marks.flatMap(({ track, path }): readonly LineLabel[] => {
      const bead = owner.get(track);
      const line = longestStraight([path]);
      if (bead === undefined || line === undefined) return [];
      const short = `${track}  ${bead.direction}`;
      return [
        { feature: beadFeature(bead.id), layer: centre(bead.direction), ...line, clear: 0, text: `${short}  ${bead.die.name}`, short },
      ];
    }),
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
  if (beads === undefined || beadsLie !== 'as cut' || beads.beads.length === 0) return [];
  const bows = (beads.drawIn?.bows ?? []).filter(({ amount }) => amount > hair);
  const trimmed =
    bows.length === 0
      ? ''
      : ` Edges bow by up to ${sayBendSum(Math.max(...bows.map(({ amount }) => amount)), options.unit)}: trim them after rolling.`;
  return [`This is the sheet before rolling, with what the beads draw in. Long dash and dot: middle of a bead.${trimmed}`];
};
