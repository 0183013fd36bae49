/** Where the words of bends and holes go: along the line, beyond its end, beside the hole, or in a column at the right of the part. */
import type { Box, Point } from '../shape/path.js';
import type { Drawing, LineLabel, SpotLabel } from './drawing.js';
import { boxOfText, crosses, free, type Lanes, type Obstacles, obstaclesOf, type PlacedText, spread, textLength } from './placing.js';

/** A place for a label, and the point of its own line from which it is seen. */
interface Candidate {
  readonly text: PlacedText;
  readonly base: Point;
}

/** Places along a bend line, on either side, clear of its own zone; largest text first. */
const lineCandidates = (label: LineLabel, words: string, height: number): readonly Candidate[] => {
  const length = Math.hypot(label.to.x - label.from.x, label.to.y - label.from.y);
  if (length < 1e-6) return [];
  const raw = Math.atan2(label.to.y - label.from.y, label.to.x - label.from.x);
  // Read from below or from the right: turned more than −90° and up to +90°.
  const turn = raw > Math.PI / 2 + 1e-9 ? raw - Math.PI : raw <= -Math.PI / 2 + 1e-9 ? raw + Math.PI : raw;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return [1, 0.8, 0.65].flatMap((scale) => {
    const size = height * scale;
    if (textLength(words, size) > length) return [];
    const near = Math.max(label.clear + size * 0.65, size * 0.85);
    return [0.5, 0.3, 0.7, 0.18, 0.82].flatMap((share) =>
      [near, -near, near + size * 0.4, -near - size * 0.4, near + size * 0.85, -near - size * 0.85].map((side): Candidate => {
        const base = { x: label.from.x + (label.to.x - label.from.x) * share, y: label.from.y + (label.to.y - label.from.y) * share };
        const at = { x: base.x - sin * side, y: base.y + cos * side };
        return { base, text: { layer: 'label', feature: label.feature, text: words, at, height: size, turn, anchor: 'middle' } };
      }),
    );
  });
};

/** Places beyond the ends of a short bend line, in line with it. */
const endCandidates = (label: LineLabel, words: string, height: number): readonly Candidate[] => {
  const length = Math.hypot(label.to.x - label.from.x, label.to.y - label.from.y);
  if (length < 1e-6) return [];
  const [dx, dy] = [(label.to.x - label.from.x) / length, (label.to.y - label.from.y) / length];
  return [0.9, 0.7].flatMap((scale) => {
    const size = height * scale;
    const beyond = (end: Point, ux: number, uy: number): Candidate => {
      // Text that would stand on its head is turned over and ends where it would have begun.
      const backward = ux < -1e-9 || (Math.abs(ux) <= 1e-9 && uy < 0);
      return {
        base: end,
        text: {
          layer: 'label',
          feature: label.feature,
          text: words,
          at: { x: end.x + ux * size * 0.9, y: end.y + uy * size * 0.9 },
          height: size,
          turn: backward ? Math.atan2(-uy, -ux) : Math.atan2(uy, ux),
          anchor: backward ? 'end' : 'start',
        },
      };
    };
    return [beyond(label.to, dx, dy), beyond(label.from, -dx, -dy)];
  });
};

const spotCandidates = (label: SpotLabel, height: number): readonly PlacedText[] =>
  [0.9, 0.7].flatMap((scale) => {
    const size = height * scale;
    const reach = label.clear + size * 0.85;
    const side = label.clear * 1.4 + size * 0.7;
    const at = (dx: number, dy: number, anchor: PlacedText['anchor']): PlacedText => ({
      layer: 'label',
      feature: label.feature,
      text: label.text,
      at: { x: label.at.x + dx, y: label.at.y + dy },
      height: size,
      turn: 0,
      anchor,
    });
    const near = label.clear * 0.75 + size * 0.35;
    return [
      at(near, near + size * 0.3, 'start'),
      at(-near, near + size * 0.3, 'end'),
      at(near, -near - size * 0.3, 'start'),
      at(-near, -near - size * 0.3, 'end'),
      at(side, 0, 'start'),
      at(-side, 0, 'end'),
      at(0, reach, 'middle'),
      at(0, -reach, 'middle'),
    ];
  });

/**
 * Labels that found no room on the part stand in a column at its right, each with a thin line to its bend. A line that runs up the part is left at its upper
 * end and led over the part: along the edge, it would be taken for the edge's own.
 */
const placeColumn = (labels: readonly LineLabel[], box: Box, height: number, out: Lanes): void => {
  const steep = ({ from, to }: LineLabel): boolean => Math.abs(to.y - from.y) > 4 * Math.abs(to.x - from.x);
  const ends = labels
    .map((label) => {
      const upright = steep(label);
      const end = (upright ? label.from.y > label.to.y : label.from.x > label.to.x) ? label.from : label.to;
      return { label, end, upright, wanted: upright ? box.max.y + height * 1.3 : end.y };
    })
    // Of two led over the part, the one farther left goes higher, so that they do not cross.
    .sort((a, b) => a.wanted - b.wanted || b.end.x - a.end.x || a.label.feature.localeCompare(b.label.feature));
  const places = spread(
    ends.map(({ wanted }) => wanted),
    height * 1.35,
  );
  ends.forEach(({ label, end, upright }, index) => {
    const y = places[index] as number;
    const x = box.max.x + height * 2;
    const way = upright ? [{ x: end.x, y }] : [{ x: box.max.x + height * 0.6, y: end.y }];
    out.lines.push({ feature: label.feature, points: [end, ...way, { x, y }], arrows: 'none' });
    out.texts.push({
      layer: 'label',
      feature: label.feature,
      text: label.text,
      at: { x: x + height * 0.3, y },
      height,
      turn: 0,
      anchor: 'start',
    });
  });
};

const within = (box: Box, text: PlacedText): boolean => {
  const own = boxOfText(text);
  return own.min.x >= box.min.x && own.max.x <= box.max.x && own.min.y >= box.min.y && own.max.y <= box.max.y;
};

/** Nothing else may run between a label and the line it belongs to. */
const faces = (candidate: Candidate, feature: string, obstacles: Obstacles): boolean => {
  const { at } = candidate.text;
  const { base } = candidate;
  const sliver: Box = {
    min: { x: Math.min(at.x, base.x) - 1e-6, y: Math.min(at.y, base.y) - 1e-6 },
    max: { x: Math.max(at.x, base.x) + 1e-6, y: Math.max(at.y, base.y) + 1e-6 },
  };
  return !obstacles.segments.some(
    (segment) => segment.feature !== feature && segment.feature !== 'outline' && crosses(sliver, segment.from, segment.to),
  );
};

/** Places the labels of bends, then those of holes, among what stands already. */
export const placeLabels = (drawing: Drawing, height: number, out: Lanes): void => {
  const obstacles = obstaclesOf(drawing);
  const outside: LineLabel[] = [];
  for (const label of drawing.lineLabels) {
    const candidates = [label.text, label.short].flatMap((words) => lineCandidates(label, words, height));
    const beyond = [label.text, label.short]
      .flatMap((words) => endCandidates(label, words, height))
      .filter(({ text }) => within(drawing.box, text));
    const found = [...candidates, ...beyond].find(
      (candidate) => free(candidate.text, out, obstacles) && faces(candidate, label.feature, obstacles),
    );
    if (found === undefined) outside.push(label);
    else out.texts.push(found.text);
  }
  for (const label of drawing.spotLabels) {
    const roomy = spotCandidates(label, height).filter((candidate) => free(candidate, out, obstacles));
    const found = roomy.find((text) => faces({ text, base: label.at }, label.feature, obstacles)) ?? roomy[0];
    if (found !== undefined) out.texts.push(found);
  }
  placeColumn(outside, drawing.box, height, out);
};
