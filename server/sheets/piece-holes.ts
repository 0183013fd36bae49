/** Holes and slots of a piece or a strap as its side view has them. */
import type { Cut } from '../model/part.js';
import type { Loop, Point } from '../shape/path.js';
import type { RunningMark, SpotLabel, Stroke } from './drawing.js';
import { boxOfLoop } from './extent.js';
import type { Scene } from './piece-scene.js';

export const cutStrokes = (cut: Cut): readonly Stroke[] => {
  const feature = `cut:${cut.id}`;
  const { at, shape } = cut;
  const mark = (half: Point): readonly Stroke[] => [
    { layer: 'mark', feature, geometry: { kind: 'line', from: { x: at.x - half.x, y: at.y }, to: { x: at.x + half.x, y: at.y } } },
    { layer: 'mark', feature, geometry: { kind: 'line', from: { x: at.x, y: at.y - half.y }, to: { x: at.x, y: at.y + half.y } } },
  ];
  const reach = (half: number): number => half * 1.35 + 0.4;
  if (shape.kind === 'hole') {
    const radius = shape.diameter / 2;
    return [
      ...mark({ x: reach(radius), y: reach(radius) }),
      { layer: 'cut_inside', feature, geometry: { kind: 'circle', circle: { centre: at, radius } } },
    ];
  }
  if (shape.kind !== 'slot') return [];
  const [cos, sin] = [Math.cos(cut.turned), Math.sin(cut.turned)];
  const place = (x: number, y: number): Point => ({ x: at.x + x * cos - y * sin, y: at.y + x * sin + y * cos });
  const radius = shape.width / 2;
  const straight = Math.max(0, shape.length / 2 - radius);
  const loop: Loop = [
    { kind: 'line', to: place(straight, -radius) },
    { kind: 'arc', to: place(straight, radius), centre: place(straight, 0), turn: 'left' },
    { kind: 'line', to: place(-straight, radius) },
    { kind: 'arc', to: place(-straight, -radius), centre: place(-straight, 0), turn: 'left' },
  ];
  const box = boxOfLoop(loop);
  return [
    ...mark({ x: reach((box.max.x - box.min.x) / 2), y: reach((box.max.y - box.min.y) / 2) }),
    { layer: 'cut_inside', feature, geometry: { kind: 'loop', loop } },
  ];
};

export const cutSize = ({ say }: Scene, { shape }: Cut): string => {
  switch (shape.kind) {
    case 'hole':
      return shape.thread === undefined ? `⌀ ${say(shape.diameter)}` : `${shape.thread} (⌀ ${say(shape.diameter)})`;
    case 'slot':
      return `${say(shape.width)} × ${say(shape.length)}`;
    case 'rectangle':
      return `${say(shape.width)} × ${say(shape.height)}`;
    case 'drawn':
      return 'cut-out';
  }
};

/** Holes of one size share a label at the last of them. */
export const holeLabels = (scene: Scene): readonly SpotLabel[] => {
  const groups = new Map<string, Cut[]>();
  for (const cut of scene.part.cuts) {
    const words = cutSize(scene, cut);
    groups.set(words, [...(groups.get(words) ?? []), cut]);
  }
  return [...groups].map(([words, cuts]) => {
    const last = cuts.reduce((best, cut) => (cut.at.x > best.at.x ? cut : best));
    return {
      feature: `cut:${last.id}`,
      // Above the edge, where no hidden line runs.
      at: { x: last.at.x, y: scene.view.height },
      clear: 0,
      text: cuts.length === 1 ? words : `${cuts.length} × ${words}`,
    };
  });
};

/** Heights of hole centres, each once. */
export const heightMarks = (scene: Scene): readonly RunningMark[] => {
  const heights = new Map<string, RunningMark>();
  for (const { at, id } of scene.part.cuts) {
    const key = at.y.toFixed(2);
    if (!heights.has(key)) heights.set(key, { axis: 'y', at: at.y, text: scene.say(at.y), feature: `cut:${id}`, from: 0 });
  }
  return [...heights.values()];
};
