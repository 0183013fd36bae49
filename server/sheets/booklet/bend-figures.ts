/** A bend in two pictures: seen from the end of the brake, and where it lies on the blank. Millimetres on paper, y up. */
import type { Blank } from '../../blank/types.js';
import type { BendStep, SectionPicture } from '../../brake/index.js';
import type { Box, Move, Point } from '../../shape/path.js';
import type { Figure } from '../documents/blocks.js';
import { boxMark, type Ink, lineMark, loopMark, type Mark, narrow, polylineMark } from '../pages/page.js';
import { grey, hairline, letters } from './strokes.js';

export interface Size {
  readonly width: number;
  readonly height: number;
}
/** Both pictures of a step fill one of two columns. @param room width of the text, mm */
export const cardFigures = (room: number): { readonly bend: Size; readonly key: Size } => {
  const column = (room - 6) / 2 - 3;
  return { bend: { width: column * 0.59, height: 30 }, key: { width: column * 0.41, height: 30 } };
};

/** Enlargements and reductions of ISO 5455, as far as a part goes on a page. */
const scales = [2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20] as const;
const sayScale = (scale: number): string => (scale >= 1 ? `${scale}:1` : `1:${Math.round(1 / scale)}`);

const machineTone = '#d8d8d4';
const sheetTone = '#1a1a1a';
const struckTone = '#b3261e';

const around = (points: readonly Point[]): Box => ({
  min: { x: Math.min(...points.map(({ x }) => x)), y: Math.min(...points.map(({ y }) => y)) },
  max: { x: Math.max(...points.map(({ x }) => x)), y: Math.max(...points.map(({ y }) => y)) },
});

/** How much of the held side is shown for each mm that the leaf's side reaches, and the least that is shown at all, mm of sheet. */
const heldShare = 1.1;
const least = 14;
/** The farthest that the leaf's side is followed, mm: beyond it the sheet is cut off by the frame of the picture. */
const farthest = 105;

/** The machine's sections toned, the sheet black, what strikes red. Cut off by its frame where the sheet runs on. */
export const bendFigure = (picture: SectionPicture, words: string, { width, height }: Size): Figure => {
  const leaf = picture.part.filter(({ half }) => half === 'leaf').flatMap(({ outline }) => outline);
  const struck = picture.part.filter(({ strikes }) => strikes !== undefined).flatMap(({ outline }) => outline);
  const reach = around([{ x: 0, y: 0 }, ...leaf]);
  const span = Math.min(farthest, Math.max(least, reach.max.x, -reach.min.x, reach.max.y, -reach.min.y));
  // Walls that stand on the held side are shown as far as there is room.
  const standing = picture.part.filter(({ half }) => half === 'clamped').flatMap(({ outline }) => outline);
  const near = [...standing, ...struck].filter(({ x }) => x > -span * (heldShare + 0.6));
  const within = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);
  const window = around([
    { x: -span * heldShare, y: -span * 0.16 },
    { x: within(reach.max.x, span * 0.25, farthest), y: within(reach.max.y, span * 0.35, farthest) },
    ...(reach.min.y < -1 ? [{ x: 0, y: Math.max(reach.min.y, -farthest) }] : []),
    ...(reach.min.x < -span * heldShare ? [{ x: Math.max(reach.min.x, -farthest), y: 0 }] : []),
    ...near.map(({ x, y }) => ({ x: Math.max(x, -span * (heldShare + 0.6)), y: within(y, -farthest / 2, farthest / 2) })),
  ]);
  const fits = Math.min((width - 3) / (window.max.x - window.min.x), (height - 3) / (window.max.y - window.min.y));
  const scale = scales.find((each) => each <= fits) ?? fits;
  const middle = { x: (window.min.x + window.max.x) / 2, y: (window.min.y + window.max.y) / 2 };
  const to = { x: width / 2 - middle.x * scale, y: height / 2 - middle.y * scale };
  const sheet = (outline: readonly Point[], strikes: boolean): Mark => {
    const tone = strikes ? struckTone : sheetTone;
    return polylineMark(outline, { width: 0.3, colour: tone }, true, tone);
  };
  const inner: readonly Mark[] = [
    ...picture.beyond.map(({ outline }) => polylineMark(outline, { width: 0.18, colour: '#999999', dash: [1.2, 0.8] }, true)),
    ...picture.machine.map(({ outline }) => polylineMark(outline, { width: narrow, colour: grey }, true, machineTone)),
    ...picture.part.map(({ outline, strikes }) => sheet(outline, strikes !== undefined)),
    ...bendZone(picture.bend),
  ];
  // Without a nose to draw, two arrows say where the sheet is held.
  const held = picture.machine.some(({ tool }) => tool === 'nose') ? [] : clampArrows(to, scale, thicknessOf(picture));
  const frame = { min: { x: 0, y: 0 }, max: { x: width, y: height } };
  const corner = { min: { x: width - 8, y: 0 }, max: { x: width, y: 4 } };
  return {
    width,
    height,
    words,
    marks: [
      { kind: 'placed', clip: frame, to: { x: 0, y: 0 }, marks: [{ kind: 'placed', scale, to, marks: inner }, ...held] },
      boxMark(corner, undefined, '#ffffff'),
      letters(sayScale(scale), { x: width - 4, y: 1.2 }, 2.2, { anchor: 'middle', colour: grey }),
      boxMark(frame, { width: 0.18, colour: '#999999' }),
    ],
  };
};

const thicknessOf = ({ bend }: SectionPicture): number => bend.outside - bend.inside;

/** The bend itself: a ring from straight down to the turn so far. */
const bendZone = ({ about, inside, outside, turn }: SectionPicture['bend']): readonly Mark[] => {
  if (turn < 1e-6 || !Number.isFinite(outside)) return [];
  const at = (radius: number, angle: number): Point => ({ x: about.x + radius * Math.cos(angle), y: about.y + radius * Math.sin(angle) });
  const [begin, end] = [-Math.PI / 2, -Math.PI / 2 + turn];
  const moves: readonly Move[] = [
    { kind: 'arc', to: at(outside, end), centre: about, turn: 'left' },
    { kind: 'line', to: at(inside, end) },
    { kind: 'arc', to: at(inside, begin), centre: about, turn: 'right' },
    { kind: 'line', to: at(outside, begin) },
  ];
  return [loopMark([moves], { width: 0.3 }, sheetTone)];
};

const clampArrows = (to: Point, scale: number, thickness: number): readonly Mark[] => {
  const x = to.x - 5;
  const [top, bottom] = [to.y + thickness * scale + 0.4, to.y - 0.4];
  const head = (y: number, up: 1 | -1): readonly Mark[] => [
    polylineMark(
      [
        { x, y },
        { x: x - 1.3, y: y + up * 3 },
        { x: x + 1.3, y: y + up * 3 },
      ],
      hairline,
      true,
      machineTone,
    ),
    lineMark({ x, y: y + up * 3 }, { x, y: y + up * 6 }, { width: 0.35 }),
  ];
  return [...head(top, 1), ...head(bottom, -1)];
};

const toCome: Ink = { width: 0.18, colour: '#888888' };

/** The blank with the bends made already in grey, this one thick and what lies under the nose toned. */
export const keyFigure = (
  blank: Blank,
  step: Pick<BendStep, 'bends' | 'done' | 'clamped'>,
  line: readonly [Point, Point] | undefined,
  { width, height }: Size,
): Figure => {
  const scale = Math.min((width - 2) / Math.max(blank.width, 1), (height - 2) / Math.max(blank.height, 1));
  const to = { x: (width - blank.width * scale) / 2, y: (height - blank.height * scale) / 2 };
  const clamped = blank.faces.find(({ id }) => id === step.clamped?.face);
  const lines = blank.bends.map(({ id, from, to: end }): Mark => {
    if (step.bends.includes(id)) return lineMark(from, end, { width: 0.8 });
    return lineMark(from, end, step.done.includes(id) ? { width: 0.4, colour: '#aaaaaa' } : { ...toCome, dash: [1, 0.8] });
  });
  return {
    width,
    height,
    words: `where ${step.bends.join(', ')} lies on the blank`,
    marks: [
      {
        kind: 'placed',
        scale,
        to,
        marks: [
          ...(clamped === undefined || clamped.polygon.length === 0 ? [] : [loopMark([clamped.polygon], undefined, '#dfe3e6')]),
          ...lines,
          ...(line === undefined ? [] : [lineMark(line[0], line[1], { width: narrow, dash: [0.8, 0.6] })]),
          loopMark([blank.outline], { width: 0.3 }),
        ],
      },
    ],
  };
};
