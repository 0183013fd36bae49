/**
 * The mark-out of one blank: every line and centre as running offsets from two datum edges, in the order a hand would scribe them. Offsets are exact and
 * are rounded only where they are printed, each from its own total, so that nothing adds up.
 */
import type { BendLine, Blank } from '../blank/types.js';
import { sayLengthBare } from '../model/display.js';
import type { Part } from '../model/part.js';
import type { Move, Point } from '../shape/path.js';
import { bendWords, cutWords, type DisplayOptions, type Drawing, drawBlank, type Stroke } from './drawing.js';

/** A line square to a datum edge, scribed with the edge as guide. */
export interface ScribedLine {
  /** The edge it is measured from. */
  readonly from: 'left' | 'bottom';
  readonly at: number;
  /** Where it begins and ends along the datum edge, for each run of it; between two runs there is no line. */
  readonly runs: readonly (readonly [number, number])[];
  readonly what: readonly string[];
  readonly features: readonly string[];
}
/** A centre to punch: from the left and from the bottom edge. */
export interface PunchedCentre {
  readonly at: Point;
  readonly what: string;
  readonly feature: string;
  /** What goes there without the feature's own name: the same for all holes of one size. */
  readonly size: string;
}
/** What neither square nor centre serves: sloping lines by their two ends, arcs by centre, radius and ends. */
export interface DrawnLine {
  readonly from: Point;
  readonly to: Point;
  readonly arc: { readonly centre: Point; readonly radius: number } | undefined;
  readonly what: string;
  readonly feature: string;
}
export interface MarkOut {
  readonly width: number;
  readonly height: number;
  readonly lines: readonly ScribedLine[];
  readonly centres: readonly PunchedCentre[];
  readonly drawn: readonly DrawnLine[];
}

/** Nearer than this is the same place, mm. */
export const same = 0.0005;

interface Found {
  readonly from: Point;
  readonly to: Point;
  readonly what: string;
  readonly feature: string;
}

/** Lines of a stroke that are scribed, and what they are. */
const linesOfStroke = (
  stroke: Stroke,
  words: (feature: string) => string,
): readonly (Found & { readonly arc?: Extract<Move, { kind: 'arc' }> })[] => {
  const { geometry, feature, layer } = stroke;
  const what = words(feature);
  switch (layer) {
    case 'cut': {
      if (geometry.kind !== 'loop') return [];
      const { loop } = geometry;
      return loop.map((move, i) => ({
        from: (loop[(i + loop.length - 1) % loop.length] as Move).to,
        to: move.to,
        what: 'cut',
        feature,
        ...(move.kind === 'arc' ? { arc: move } : {}),
      }));
    }
    case 'mark':
    case 'relief':
    case 'dimension':
    case 'label':
    case 'cut_inside':
      return [];
    default: {
      if (geometry.kind === 'line') return [{ from: geometry.from, to: geometry.to, what: `${lineWord(layer)} ${what}`, feature }];
      if (geometry.kind !== 'path') return [];
      // Middles of beads, and lines of tipped edges and cross-breaks: marked where they are drawn, straights and arcs each for itself.
      return geometry.path.moves.map((move, i) => ({
        from: i === 0 ? geometry.path.start : (geometry.path.moves[i - 1] as Move).to,
        to: move.to,
        what: `${lineWord(layer)} ${what}`,
        feature,
        ...(move.kind === 'arc' ? { arc: move } : {}),
      }));
    }
  }
};
const lineWord = (layer: Stroke['layer']): string =>
  layer === 'brake_line' ? 'brake line' : layer.startsWith('bend') ? 'bend' : layer.startsWith('bead') ? 'bead' : 'line';

/** Never made on a brake, so there is no nose to lay a line under. */
const handMade: ReadonlySet<BendLine['make']> = new Set(['curl', 'roll', 'joggle']);
/** Where a curl or a roll starts and ends; a joggle's two bends are so near each other that their middles say it all. */
const linesByHand = (bend: BendLine, layer: Stroke['layer'], words: string): readonly Found[] => {
  const { make, tangentParent, tangentChild } = bend;
  const line = (which: string, [from, to]: readonly [Point, Point]): Found => ({
    from,
    to,
    what: `${which} ${words}`,
    feature: `bend:${bend.id}`,
  });
  if (layer === 'brake_line') return [];
  if (make === 'joggle') return [line('bend', [bend.from, bend.to])];
  return [line('start of', tangentParent), line('end of', tangentChild), line('middle of', [bend.from, bend.to])];
};

/** What of a straight line can be scribed: a bead that runs off goes on past the edge. Undefined where nothing of it lies between the edges. */
const onSheet = <T extends Found>(line: T, { width, height }: Blank): T | undefined => {
  const { from, to } = line;
  let [first, last] = [0, 1];
  for (const [a, b, size] of [
    [from.x, to.x, width],
    [from.y, to.y, height],
  ] as const) {
    if (Math.abs(b - a) < same) continue;
    const [enters, leaves] = [(0 - a) / (b - a), (size - a) / (b - a)].sort((p, q) => p - q) as [number, number];
    first = Math.max(first, enters);
    last = Math.min(last, leaves);
  }
  if (first >= last) return undefined;
  const at = (share: number): Point => ({ x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share });
  return { ...line, from: first === 0 ? from : at(first), to: last === 1 ? to : at(last) };
};

export const markOut = (part: Part, blank: Blank, options: DisplayOptions, drawing: Drawing = drawBlank(part, blank, options)): MarkOut => {
  const bends = new Map(blank.bends.map((bend) => [`bend:${bend.id}`, bendWords(bend, options)]));
  const words = (feature: string): string => bends.get(feature) ?? feature.replace(/^\w+:/, '');
  const lines: ScribedLine[] = [];
  const drawn: DrawnLine[] = [];
  const byHand = new Map(blank.bends.filter(({ make }) => handMade.has(make)).map((bend) => [`bend:${bend.id}`, bend]));
  const all = drawing.strokes.flatMap((stroke): ReturnType<typeof linesOfStroke> => {
    const bend = byHand.get(stroke.feature);
    return bend === undefined ? linesOfStroke(stroke, words) : linesByHand(bend, stroke.layer, words(stroke.feature));
  });
  for (const whole of all) {
    const found = whole.arc === undefined ? onSheet(whole, blank) : whole;
    if (found === undefined) continue;
    if (found.arc !== undefined) {
      const { centre } = found.arc;
      // A round relief is drilled: its centre is among the centres already.
      if (blank.reliefs.some(({ kind, at }) => kind === 'round' && Math.hypot(at.x - centre.x, at.y - centre.y) < same)) continue;
      const radius = Math.hypot(found.to.x - centre.x, found.to.y - centre.y);
      drawn.push({ from: found.from, to: found.to, arc: { centre, radius }, what: found.what, feature: found.feature });
    } else if (Math.abs(found.from.x - found.to.x) < same) addLine(lines, 'left', found.from.x, [found.from.y, found.to.y], found);
    else if (Math.abs(found.from.y - found.to.y) < same) addLine(lines, 'bottom', found.from.y, [found.from.x, found.to.x], found);
    else drawn.push({ from: found.from, to: found.to, arc: undefined, what: found.what, feature: found.feature });
  }
  return {
    width: blank.width,
    height: blank.height,
    lines: toldTogether(lines).sort((a, b) => (a.from === b.from ? a.at - b.at : a.from === 'left' ? -1 : 1)),
    centres: centresOf(part, blank, options),
    drawn,
  };
};

/** From the least on; those that meet or lie over one another are one. */
export const joinedRuns = (runs: ScribedLine['runs']): ScribedLine['runs'] => {
  const out: [number, number][] = [];
  for (const [from, to] of [...runs].sort((a, b) => a[0] - b[0])) {
    const last = out[out.length - 1];
    if (last === undefined || from > last[1] + same) out.push([from, to]);
    else last[1] = Math.max(last[1], to);
  }
  return out;
};

const isCut = ({ what }: ScribedLine): boolean => what.includes('cut');

/** A cut on the line of a bend is told with it where it runs as far; else by itself, or the bend would be cut off. */
const toldTogether = (lines: readonly ScribedLine[]): ScribedLine[] => {
  const out: ScribedLine[] = [];
  for (const line of [...lines].sort((a, b) => Number(isCut(a)) - Number(isCut(b)))) {
    const runsAlike = ({ runs }: ScribedLine): boolean =>
      runs.length === line.runs.length &&
      runs.every(
        ([start, end], i) =>
          Math.hypot(start - (line.runs[i]?.[0] ?? Number.POSITIVE_INFINITY), end - (line.runs[i]?.[1] ?? Number.POSITIVE_INFINITY)) < same,
      );
    const index = out.findIndex((one) => isCut(line) && one.from === line.from && Math.abs(one.at - line.at) < same && runsAlike(one));
    const known = out[index];
    if (known === undefined) out.push(line);
    else out[index] = { ...known, what: [...known.what, ...line.what], features: [...known.features, ...line.features] };
  }
  return out;
};

const addLine = (lines: ScribedLine[], from: 'left' | 'bottom', at: number, ends: readonly [number, number], found: Found): void => {
  const run = [Math.min(...ends), Math.max(...ends)] as const;
  const index = lines.findIndex((line) => line.from === from && Math.abs(line.at - at) < same && isCut(line) === (found.what === 'cut'));
  const known = lines[index];
  if (known === undefined) {
    lines.push({ from, at: Math.abs(at) < same ? 0 : at, runs: [run], what: [found.what], features: [found.feature] });
    return;
  }
  lines[index] = {
    ...known,
    runs: joinedRuns([...known.runs, run]),
    what: known.what.includes(found.what) ? known.what : [...known.what, found.what],
    features: known.features.includes(found.feature) ? known.features : [...known.features, found.feature],
  };
};

/** Of a cut-out drawn step by step the place is where its own (0, 0) lies. */
const isDrawn = (part: Part, id: string): boolean => 'cuts' in part && part.cuts.some((cut) => cut.id === id && cut.shape.kind === 'drawn');

/** Centres and the sizes that go there, row by row from the lower left. */
const centresOf = (part: Part, blank: Blank, options: DisplayOptions): readonly PunchedCentre[] => [
  ...blank.cutouts
    .map((cut) => {
      const size = `${cutWords(part, cut, options)}${isDrawn(part, cut.id) ? ' over all, drawn from here: not its middle' : ''}`;
      return { at: cut.centre, what: `${size}  ${cut.id}`, feature: `cut:${cut.id}`, size };
    })
    .sort((a, b) => (Math.abs(a.at.y - b.at.y) < same ? a.at.x - b.at.x : a.at.y - b.at.y)),
  ...blank.reliefs
    .filter(({ kind }) => kind === 'round')
    .map((relief) => ({
      at: relief.at,
      what: `relief ⌀ ${sayLengthBare(relief.size, options.unit, options.denominator)}`,
      feature: `relief:${relief.id}`,
      size: `relief ⌀ ${sayLengthBare(relief.size, options.unit, options.denominator)}`,
    })),
];
