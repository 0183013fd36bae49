/** The roller at the place where most is asked of it, what lies beyond its reach, and edges that bow and are trimmed. Blank coordinates, mm, y up. */
import { edgeOfSheet } from '../bead/index.js';
import type { Bow, Reach, WorkedBead } from '../bead/types.js';
import { sayBendSum, sayLengthBare } from '../model/display.js';
import type { Move, Point } from '../shape/path.js';
import { type Additions, nothingAdded } from './bead-additions.js';
import type { Area, DisplayOptions, Feature, Stroke } from './drawing.js';

const bare = (mm: number, options: DisplayOptions): string => sayLengthBare(mm, options.unit, options.denominator);

type Frame = Reach['worst']['frame'];
const polygon = (points: readonly Point[]): readonly Move[] => points.map((to): Move => ({ kind: 'line', to }));

/** The bead that asks most of the roller, and every written bead that is out of its reach. */
export const shownReaches = (beads: readonly WorkedBead[]): readonly { readonly bead: WorkedBead; readonly reach: Reach }[] => {
  const all = beads.flatMap((bead) => (bead.reaches[0] === undefined ? [] : [{ bead, reach: bead.reaches[0] }]));
  const sorted = [...all].sort((a, b) => b.reach.needed - b.reach.throat - (a.reach.needed - a.reach.throat));
  const seen = new Set<number>();
  return sorted.filter(({ bead, reach }, index) => {
    if ((index > 0 && reach.fits) || seen.has(bead.span.start)) return false;
    seen.add(bead.span.start);
    return true;
  });
};

export const drawnReach = (bead: WorkedBead, reach: Reach, options: DisplayOptions): Additions => {
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

export const drawnBow = (bow: Bow, index: number, span: Feature['span'], options: DisplayOptions): Additions => {
  const named = bow.edge?.startsWith('edge:') === true ? bow.edge.slice('edge:'.length) : bow.side;
  const feature = `bow:${named ?? index + 1}`;
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
        title: `${edgeOfSheet(bow)}: cut to the outer line; it bows as the beads draw in, by up to ${sayBendSum(bow.amount, options.unit)}; trim to the inner line after rolling`,
        span,
      },
    ],
    measures: [
      { feature, from: bow.dimension[0], to: bow.dimension[1], text: `bows ${sayBendSum(bow.amount, options.unit)}`, fault: false },
    ],
    beyond: [...bow.rough],
  };
};
