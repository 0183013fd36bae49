/** A bend in two pictures: seen from the end of the brake, and where it lies on the blank. Millimetres on paper, y up. */
import type { Blank } from '../../blank/types.js';
import type { BendStep, SectionPicture } from '../../brake/index.js';
import type { Box, Move, Point } from '../../shape/path.js';
import type { Figure } from '../documents/blocks.js';
import { boxMark, type Ink, lineMark, loopMark, type Mark, narrow, polylineMark, wide } from '../pages/page.js';
import { grey, hairline, letters } from './strokes.js';

export const bendFigureSize = { width: 56, height: 42 } as const;
export const keyFigureSize = { width: 38, height: 42 } as const;

const machineTone = '#d8d8d4';
const sheetTone = '#1a1a1a';
const struckTone = '#b3261e';

const around = (points: readonly Point[]): Box => ({
  min: { x: Math.min(...points.map(({ x }) => x)), y: Math.min(...points.map(({ y }) => y)) },
  max: { x: Math.max(...points.map(({ x }) => x)), y: Math.max(...points.map(({ y }) => y)) },
});

/** How much of the clamped side is shown for each mm that the leaf's side reaches, and the least that is shown at all, mm of sheet. */
const heldShare = 1.1;
const least = 18;
/** The farthest that the leaf's side is followed, mm: beyond it the sheet is cut off by the frame of the picture. */
const farthest = 160;

/** The machine's sections toned, the sheet black, what strikes red. Cut off by its frame where the sheet runs on. */
export const bendFigure = (picture: SectionPicture, caption: string): Figure => {
  const { width, height } = bendFigureSize;
  const leaf = picture.part.filter(({ half }) => half === 'leaf').flatMap(({ outline }) => outline);
  const reach = around([{ x: 0, y: 0 }, ...leaf]);
  const span = Math.min(farthest, Math.max(least, reach.max.x, -reach.min.x, reach.max.y, -reach.min.y));
  // Walls that stand on the clamped side are shown as far as there is room.
  const standing = picture.part.filter(({ half }) => half === 'clamped').flatMap(({ outline }) => outline);
  const near = standing.filter(({ x }) => x > -span * (heldShare + 0.6));
  const window = around([
    { x: -span * heldShare, y: -span * 0.16 },
    { x: Math.min(Math.max(reach.max.x, span * 0.25), farthest), y: Math.min(Math.max(reach.max.y, span * 0.35), farthest) },
    ...(reach.min.y < -1 ? [{ x: 0, y: Math.max(reach.min.y, -farthest) }] : []),
    ...(reach.min.x < -span * heldShare ? [{ x: Math.max(reach.min.x, -farthest), y: 0 }] : []),
    ...near.map(({ x, y }) => ({ x: Math.max(x, -span * (heldShare + 0.6)), y: Math.min(Math.max(y, -farthest / 2), farthest / 2) })),
  ]);
  const scale = Math.min((width - 4) / (window.max.x - window.min.x), (height - 4) / (window.max.y - window.min.y), 2);
  const middle = { x: (window.min.x + window.max.x) / 2, y: (window.min.y + window.max.y) / 2 };
  const to = { x: width / 2 - middle.x * scale, y: height / 2 - middle.y * scale };
  const sheet = (outline: readonly Point[], struck: boolean): Mark => {
    const tone = struck ? struckTone : sheetTone;
    return polylineMark(outline, { width: 0.4, colour: tone }, true, tone);
  };
  const machine = picture.machine.flatMap(({ outline }): readonly Mark[] => [
    polylineMark(outline, { width: narrow, colour: grey }, true, machineTone),
  ]);
  const inner: readonly Mark[] = [
    ...picture.beyond.map(({ outline }) => polylineMark(outline, { width: 0.18, colour: '#999999', dash: [1.2, 0.8] }, true)),
    ...machine,
    ...picture.part.map(({ outline, strikes }) => sheet(outline, strikes !== undefined)),
    ...bendZone(picture.bend),
  ];
  // Without a nose to draw, two arrows say where the sheet is held.
  const held = picture.machine.some(({ tool }) => tool === 'nose') ? [] : clampArrows(to, scale, thicknessOf(picture));
  return {
    width,
    height,
    words: caption,
    marks: [
      {
        kind: 'placed',
        clip: { min: { x: 0, y: 0 }, max: { x: width, y: height } },
        to: { x: 0, y: 0 },
        marks: [{ kind: 'placed', scale, to, marks: inner }, ...held],
      },
      boxMark({ min: { x: 0, y: 0 }, max: { x: width, y: height } }, { width: 0.18, colour: '#999999' }),
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

const done: Ink = { width: 0.18, colour: '#888888' };
const outlineInk: Ink = { width: 0.35 };

/** The blank with the bends made already in grey, this one in black and what lies under the nose toned. */
export const keyFigure = (
  blank: Blank,
  step: Pick<BendStep, 'bends' | 'done' | 'clamped'>,
  line: readonly [Point, Point] | undefined,
): Figure => {
  const { width, height } = keyFigureSize;
  const scale = Math.min((width - 3) / Math.max(blank.width, 1), (height - 8) / Math.max(blank.height, 1));
  const shown = { width: blank.width * scale, height: blank.height * scale };
  const to = { x: (width - shown.width) / 2, y: 5 + (height - 6 - shown.height) / 2 };
  const clamped = blank.faces.find(({ id }) => id === step.clamped?.face);
  const lines = blank.bends.map(({ id, from, to: end }): Mark => {
    if (step.bends.includes(id)) return lineMark(from, end, { width: 0.7 });
    return lineMark(from, end, step.done.includes(id) ? { ...done, width: 0.4, colour: '#aaaaaa' } : { ...done, dash: [1, 0.8] });
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
          loopMark([blank.outline], { ...outlineInk, width: Math.min(0.35, wide) }),
        ],
      },
      letters('face toward you; toned: under the nose', { x: width / 2, y: 0.8 }, 1.9, { anchor: 'middle', colour: grey }),
    ],
  };
};
