/**
 * The neutral drawing of a flat blank: what is drawn, on which layer, under which feature id, and where its words go. The picture
 * in the editor and the true-size patterns are written from it, so that they cannot disagree. Millimetres, blank coordinates, y up.
 */
import type { Span } from '../../grammar/syntax.js';
import type { NotReckoned, StiffnessAnswer } from '../bead/index.js';
import type { BeadResult, Path } from '../bead/types.js';
import type { BendLine, Blank, BlankCut } from '../blank/types.js';
import { sayAngle, sayBendSum, sayLengthBare, sayMass, saySize, sayThickness } from '../model/display.js';
import type { HomeUnit } from '../model/model.js';
import type { Part } from '../model/part.js';
import type { Box, Circle, Loop, Move, Point } from '../shape/path.js';
import { type Additions, joined, nothingAdded } from './bead-additions.js';
import { drawnBeads, markedBeads, sheetToCut } from './bead-drawing.js';
import { boxOfLoop } from './extent.js';
import { drawnLoads } from './load-drawing.js';

export type Layer =
  | 'cut'
  | 'cut_inside'
  | 'bend_up'
  | 'bend_down'
  | 'brake_line'
  | 'mark'
  /** An edge that metal hides. */
  | 'hidden'
  | 'relief'
  | 'dimension'
  | 'label'
  /** Middle of a bead whose crown stands toward the face, or away from it. */
  | 'bead_up'
  | 'bead_down'
  /** Feet of a bead, and the sheet between them as a broad line. */
  | 'bead_edge'
  | 'bead_body'
  /** The roller's frame where it asks most, and how far in it reaches. */
  | 'frame'
  | 'reach_limit'
  /** An edge that bows: where the sheet is cut, how it lies once rolled, what it is trimmed to. */
  | 'rough_cut'
  | 'lies_after'
  | 'trim'
  /** A load, and where the panel gives most under it. */
  | 'load';

export type Geometry =
  | { readonly kind: 'loop'; readonly loop: Loop }
  | { readonly kind: 'line'; readonly from: Point; readonly to: Point }
  | { readonly kind: 'circle'; readonly circle: Circle }
  | { readonly kind: 'path'; readonly path: Path };

/** One thing drawn. `feature` is the id that picture, findings and source share: `outline`, `bend:top.1`, `cut:hole.1`. */
export interface Stroke {
  readonly layer: Layer;
  readonly feature: string;
  readonly geometry: Geometry;
  /** Of a `bead_body`: how broad it is, mm. */
  readonly breadth?: number;
}
/** Sheet shown as an area under the strokes: a face, or the zone that a bend uses up. */
export interface Area {
  readonly feature: string;
  readonly kind: 'base' | 'flange' | 'zone_up' | 'zone_down' | 'out_of_reach';
  readonly loop: Loop;
}
/** A feature that can be pointed at: its own words for a tooltip, and where it is written (from the start of the part). */
export interface Feature {
  readonly id: string;
  readonly title: string;
  readonly span: Span;
}
/** A position along x or y from the blank’s lower left corner, always written from the exact value. */
export interface RunningMark {
  readonly axis: 'x' | 'y';
  readonly at: number;
  readonly text: string;
  readonly feature: string;
  /** Where on the part the thin line to the number starts: the other coordinate. */
  readonly from: number;
}
/** Words that belong on a straight thing, for the layout to place. */
export interface LineLabel {
  readonly feature: string;
  readonly layer: Layer;
  readonly from: Point;
  readonly to: Point;
  /** Half the width of the bend's zone, which the words stay clear of, mm. */
  readonly clear: number;
  readonly text: string;
  /** The same with less, where the whole finds no room on the line. */
  readonly short: string;
}
/** Words that belong beside a hole. */
export interface SpotLabel {
  readonly feature: string;
  readonly at: Point;
  /** How far from the centre the words must stay, mm. */
  readonly clear: number;
  readonly text: string;
}
/** A distance drawn within the part, with arrows at both ends and its words beside it. */
export interface Measure {
  readonly feature: string;
  readonly from: Point;
  readonly to: Point;
  readonly text: string;
  /** It is more than it may be. */
  readonly fault: boolean;
}
/** What is drawn, and how sizes are written on it. */
export interface DisplayOptions {
  /** The file's own unit; without one, millimetres. */
  readonly unit: HomeUnit | undefined;
  /** Smallest fraction of an inch shown: 64 by default. */
  readonly denominator?: number;
  /** What the part's roller work comes to, to be drawn with the blank. */
  readonly beads?: BeadResult | undefined;
  /** How far it gives under its loads, to be drawn with the finished blank. */
  readonly stiffness?: StiffnessAnswer | NotReckoned | undefined;
  /** `as cut`: the blank given is the sheet before rolling, and beads are lines to be marked. Else they are drawn as they lie afterwards. */
  readonly beadsLie?: 'rolled' | 'as cut';
}
export interface Drawing {
  readonly box: Box;
  readonly areas: readonly Area[];
  readonly strokes: readonly Stroke[];
  readonly features: readonly Feature[];
  readonly overall: { readonly width: string; readonly height: string };
  readonly running: readonly RunningMark[];
  readonly lineLabels: readonly LineLabel[];
  readonly spotLabels: readonly SpotLabel[];
  readonly measures: readonly Measure[];
  /** Places outside the blank that have to be seen too. */
  readonly beyond: readonly Point[];
}

const bare = (mm: number, options: DisplayOptions): string => sayLengthBare(mm, options.unit, options.denominator);

const tiny = 1e-6;
/** Beyond this many kinds of hole, sizes written on the picture hide the part; the tooltip still has them. */
const mostHoleLabels = 10;
const mostCentreMarks = 80;

const sheetOf = (part: Part): string => ('sheet' in part && part.sheet !== undefined ? part.sheet.value.name : 'no sheet');

/** One line that says what the drawing shows: part, kind, sheet and thickness, blank size, mass. */
export const drawingTitle = (part: Part, blank: Blank | undefined, options: DisplayOptions): string => {
  if (blank === undefined) return `${part.name}, ${part.kind}`;
  const size = saySize(blank.width, blank.height, options.unit, options.denominator);
  const mass = blank.mass === undefined ? '' : `, ${sayMass(blank.mass, options.unit)}`;
  const cut = options.beadsLie === 'as cut' ? undefined : sheetToCut(options.beads, options);
  const what = cut === undefined ? `blank ${size}` : `rolled blank ${size}, ${cut}`;
  return `${part.name}, ${part.kind}, ${sheetOf(part)} ${sayThickness(blank.thickness, options.unit)}, ${what}${mass}`;
};

/** `top.1  up 90°  R 1/16`. */
export const bendWords = (bend: BendLine, options: DisplayOptions): string =>
  `${bend.id}  ${bend.direction} ${sayAngle(bend.turn)}  R ${bare(bend.radius, options)}`;

const bendTitle = (bend: BendLine, options: DisplayOptions): string =>
  `${bend.id}: turn ${bend.direction} ${sayAngle(bend.turn)}, inside radius ${bare(bend.radius, options)}, ` +
  `allowance ${sayBendSum(bend.allowance, options.unit)} by ${bend.method} (${bend.source})`;

/** Overall sizes of a cut in words: `⌀ 9/32`, `1/4 × 1`. */
export const cutWords = (part: Part, cut: BlankCut, options: DisplayOptions): string => {
  if (cut.circle !== undefined) return `⌀ ${bare(2 * cut.circle.radius, options)}`;
  const written = 'cuts' in part ? part.cuts.find((each) => each.id === cut.id) : undefined;
  if (written?.shape.kind === 'slot') return `${bare(written.shape.width, options)} × ${bare(written.shape.length, options)}`;
  if (written?.shape.kind === 'rectangle') return `${bare(written.shape.width, options)} × ${bare(written.shape.height, options)}`;
  const box = boxOfLoop(cut.loop);
  return `${bare(box.max.x - box.min.x, options)} × ${bare(box.max.y - box.min.y, options)}`;
};

const cutTitle = (part: Part, cut: BlankCut, options: DisplayOptions): string =>
  `${cut.id}: ${cutWords(part, cut, options)} at ${bare(cut.centre.x, options)}, ${bare(cut.centre.y, options)} from the blank’s lower left corner${movedWords(cut.id, options)}`;

/** Where a hole is marked on the sheet as cut, when it is not where it ends up. */
const movedWords = (id: string, options: DisplayOptions): string => {
  if (options.beadsLie === 'as cut') return '';
  const moved = options.beads?.drawIn?.moved.find((one) => one.id === id && one.kind !== 'bend');
  return moved === undefined
    ? ''
    : `; marked before rolling at ${bare(moved.to.x, options)}, ${bare(moved.to.y, options)} from the lower left corner of the sheet to cut`;
};

/** What the work is laid to: the brake line; of what is made by hand, where it starts and ends. Of a joggle nothing, its two bends lie so near each other. */
export const workLines = (bend: BendLine): readonly (readonly [Point, Point])[] => {
  switch (bend.make) {
    case 'turn':
    case 'hem':
      return [bend.brakeLine];
    case 'curl':
    case 'roll':
      return [bend.tangentParent, bend.tangentChild];
    case 'joggle':
      return [];
  }
};

const bendStrokes = (bend: BendLine): readonly Stroke[] => {
  const feature = `bend:${bend.id}`;
  return [
    ...workLines(bend).map(([from, to]): Stroke => ({ layer: 'brake_line', feature, geometry: { kind: 'line', from, to } })),
    { layer: bend.direction === 'up' ? 'bend_up' : 'bend_down', feature, geometry: { kind: 'line', from: bend.from, to: bend.to } },
  ];
};

const cutStroke = (cut: BlankCut): Stroke => ({
  layer: 'cut_inside',
  feature: `cut:${cut.id}`,
  geometry: cut.circle !== undefined ? { kind: 'circle', circle: cut.circle } : { kind: 'loop', loop: cut.loop },
});

/** How far a centre mark stands out from the centre of something half as wide as `half`, mm. */
const markReach = (half: number): number => half + Math.min(3, half * 0.35) + 0.4;

const centreMark = (cut: BlankCut): readonly Stroke[] => {
  const box = boxOfLoop(cut.loop);
  const across = cut.circle !== undefined ? markReach(cut.circle.radius) : markReach((box.max.x - box.min.x) / 2);
  const along = cut.circle !== undefined ? markReach(cut.circle.radius) : markReach((box.max.y - box.min.y) / 2);
  const { x, y } = cut.centre;
  const line = (from: Point, to: Point): Stroke => ({ layer: 'mark', feature: `cut:${cut.id}`, geometry: { kind: 'line', from, to } });
  return [line({ x: x - across, y }, { x: x + across, y }), line({ x, y: y - along }, { x, y: y + along })];
};

/** Running dimensions of the bend lines that lie square to an edge of the sheet; two at one place share a number. */
const runningMarks = (blank: Blank, options: DisplayOptions): readonly RunningMark[] => {
  const marks: RunningMark[] = [];
  const add = (axis: 'x' | 'y', at: number, feature: string, from: number): void => {
    const same = marks.findIndex((mark) => mark.axis === axis && Math.abs(mark.at - at) < 0.005);
    const other = marks[same];
    if (other === undefined) marks.push({ axis, at, feature, from, text: bare(at, options) });
    else marks[same] = { ...other, from: Math.min(other.from, from) };
  };
  for (const bend of blank.bends) {
    const feature = `bend:${bend.id}`;
    if (Math.abs(bend.from.x - bend.to.x) < tiny) add('x', bend.from.x, feature, Math.min(bend.from.y, bend.to.y));
    else if (Math.abs(bend.from.y - bend.to.y) < tiny) add('y', bend.from.y, feature, Math.min(bend.from.x, bend.to.x));
  }
  return marks;
};

/** One label for all holes of one size on one face: `4 × ⌀ 9/32`, at the hole nearest the face's upper right. */
const holeLabels = (part: Part, blank: Blank, options: DisplayOptions): readonly SpotLabel[] => {
  const groups = new Map<string, BlankCut[]>();
  for (const cut of blank.cutouts) {
    const key = `${cut.face}|${cutWords(part, cut, options)}`;
    groups.set(key, [...(groups.get(key) ?? []), cut]);
  }
  if (groups.size > mostHoleLabels) return [];
  return [...groups.values()].flatMap((cuts) => {
    const shown = cuts.reduce((best, cut) => (cut.centre.x + cut.centre.y > best.centre.x + best.centre.y + tiny ? cut : best));
    const words = cutWords(part, shown, options);
    const box = boxOfLoop(shown.loop);
    const clear = shown.circle?.radius ?? Math.min(box.max.x - box.min.x, box.max.y - box.min.y) / 2;
    return [
      {
        feature: `cut:${shown.id}`,
        at: shown.centre,
        clear: markReach(clear),
        text: cuts.length === 1 ? words : `${cuts.length}${shown.circle === undefined ? ' off,' : ' ×'} ${words}`,
      },
    ];
  });
};

const boxOfBlank = (blank: Blank): Box =>
  blank.outline.length === 0 ? { min: { x: 0, y: 0 }, max: { x: blank.width, y: blank.height } } : boxOfLoop(blank.outline);

const areasOf = (blank: Blank): readonly Area[] =>
  blank.faces.flatMap((face, index): readonly Area[] => {
    const bend = blank.bends.find((each) => each.id === face.bend);
    const own: Area = { feature: `face:${face.id}`, kind: index === 0 ? 'base' : 'flange', loop: face.polygon };
    return face.zone === undefined || bend === undefined
      ? [own]
      : [own, { feature: `bend:${bend.id}`, kind: bend.direction === 'up' ? 'zone_up' : 'zone_down', loop: face.zone }];
  });

const featuresOf = (part: Part, blank: Blank, options: DisplayOptions): readonly Feature[] => [
  {
    id: 'outline',
    title: drawingTitle(part, blank, options),
    span: 'outline' in part && part.outline !== undefined ? part.outline.span : part.nameSpan,
  },
  ...blank.faces.map((face) => ({ id: `face:${face.id}`, title: face.bend === undefined ? 'base' : `flange ${face.id}`, span: face.span })),
  ...blank.bends.map((bend) => ({ id: `bend:${bend.id}`, title: bendTitle(bend, options), span: bend.span })),
  ...blank.cutouts.map((cut) => ({ id: `cut:${cut.id}`, title: cutTitle(part, cut, options), span: cut.span })),
  ...blank.reliefs.map((relief) => ({
    id: `relief:${relief.id}`,
    title: `relief ${relief.kind} ${bare(relief.size, options)}: ${relief.reason}`,
    span: relief.span,
  })),
];

const reliefStroke = (relief: Blank['reliefs'][number]): Stroke => {
  const half = relief.size / 2;
  const { x, y } = relief.at;
  const corner = (dx: number, dy: number): Move => ({ kind: 'line', to: { x: x + dx * half, y: y + dy * half } });
  return {
    layer: 'relief',
    feature: `relief:${relief.id}`,
    geometry:
      relief.kind === 'round'
        ? { kind: 'circle', circle: { centre: relief.at, radius: half } }
        : { kind: 'loop', loop: [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)] },
  };
};

/** Everything to be drawn of a part's blank. Pure; the order of the answer is the order of drawing and never varies. */
export const drawBlank = (part: Part, blank: Blank, options: DisplayOptions): Drawing => {
  const centres = blank.cutouts.length <= mostCentreMarks ? blank.cutouts.flatMap(centreMark) : [];
  const rolled = joined([additionsOf(options), loadsOf(part, blank, options)]);
  return {
    box: boxOfBlank(blank),
    areas: [...areasOf(blank), ...rolled.areas],
    strokes: [
      ...rolled.strokes,
      ...blank.reliefs.map(reliefStroke),
      ...centres,
      ...blank.bends.flatMap(bendStrokes),
      ...blank.cutouts.map(cutStroke),
      { layer: 'cut', feature: 'outline', geometry: { kind: 'loop', loop: blank.outline } },
    ],
    features: [...featuresOf(part, blank, options), ...rolled.features],
    overall: { width: bare(blank.width, options), height: bare(blank.height, options) },
    running: runningMarks(blank, options),
    lineLabels: [
      ...blank.bends.map(
        (bend): LineLabel => ({
          feature: `bend:${bend.id}`,
          layer: bend.direction === 'up' ? 'bend_up' : 'bend_down',
          from: bend.from,
          to: bend.to,
          text: bendWords(bend, options),
          short: `${bend.id}  ${bend.direction} ${sayAngle(bend.turn)}`,
          clear: bend.allowance / 2,
        }),
      ),
      ...rolled.lineLabels,
    ],
    spotLabels: [...holeLabels(part, blank, options), ...rolled.spotLabels],
    measures: rolled.measures,
    beyond: rolled.beyond,
  };
};

const loadsOf = (part: Part, blank: Blank, options: DisplayOptions): Additions =>
  part.kind === 'panel' && options.beadsLie !== 'as cut' ? drawnLoads(part, blank, options.stiffness, options) : nothingAdded;

const additionsOf = (options: DisplayOptions): Additions => {
  if (options.beads === undefined) return nothingAdded;
  return options.beadsLie === 'as cut' ? markedBeads(options.beads, options) : drawnBeads(options.beads, options);
};
