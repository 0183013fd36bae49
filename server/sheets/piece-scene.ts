/** What the drawing of a length is made from, and what pieces and straps add to it. */
import type { Stock } from '../model/shop.js';
import type { Loop, Point } from '../shape/path.js';
import type { PieceWork } from '../stock/index.js';
import type { StockShape } from '../trade/tube.js';
import type { BentShape } from './bent-shape.js';
import type { Area, DisplayOptions, Feature, Measure, RunningMark, SpotLabel, Stroke } from './drawing.js';
import type { SideView } from './piece-ends.js';
import type { CutFromLength } from './piece-words.js';

/** What a drawing of a length begins with. */
export interface Scene {
  readonly part: CutFromLength;
  readonly work: PieceWork;
  readonly stock: Stock;
  readonly shape: StockShape;
  readonly view: SideView;
  readonly length: number;
  readonly options: DisplayOptions;
  readonly say: (mm: number) => string;
  /** Height of the letters, mm of the part. */
  readonly letters: number;
}

/** What a piece or a strap adds to the plain length. */
export interface Items {
  readonly areas: readonly Area[];
  readonly strokes: readonly Stroke[];
  readonly outline: Loop;
  readonly features: readonly Feature[];
  readonly running: readonly RunningMark[];
  readonly spots: readonly SpotLabel[];
  readonly measures: readonly Measure[];
  readonly bent: { readonly shape: BentShape; readonly features: readonly string[] } | undefined;
}

export const running = (scene: Scene, at: number, feature: string): RunningMark => ({
  axis: 'x',
  at,
  text: scene.say(at),
  feature,
  from: 0,
});
const across = (scene: Scene, at: number): readonly [Point, Point] => [
  { x: at, y: 0 },
  { x: at, y: scene.view.height },
];

export const zone = ({ view }: Scene, from: number, to: number): Loop =>
  [
    { x: to, y: 0 },
    { x: to, y: view.height },
    { x: from, y: view.height },
    { x: from, y: 0 },
  ].map((point) => ({ kind: 'line', to: point }));
export const zoneLines = (scene: Scene, feature: string, from: number, to: number, down: boolean): readonly Stroke[] =>
  [from, to].map((at) => {
    const [a, b] = across(scene, at);
    return { layer: down ? 'bend_down' : 'bend_up', feature, geometry: { kind: 'line', from: a, to: b } };
  });
