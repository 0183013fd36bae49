/** The bent shape, drawn above the straight stock it is bent from. */
import { sayAngle } from '../model/display.js';
import type { Strap } from '../model/part.js';
import type { Loop, Point } from '../shape/path.js';
import type { Area, Measure, SpotLabel, Stroke } from './drawing.js';
import { boxOfLoop } from './extent.js';
import type { Items, Scene } from './piece-scene.js';

export interface Above {
  readonly areas: readonly Area[];
  readonly strokes: readonly Stroke[];
  readonly spots: readonly SpotLabel[];
  readonly measures: readonly Measure[];
  readonly corners: readonly Point[];
}

const moved = (loop: Loop, by: Point): Loop => {
  const shift = (point: Point): Point => ({ x: point.x + by.x, y: point.y + by.y });
  return loop.map((move) =>
    move.kind === 'line' ? { kind: 'line', to: shift(move.to) } : { ...move, to: shift(move.to), centre: shift(move.centre) },
  );
};

export const bentAbove = (scene: Scene, bent: NonNullable<Items['bent']>): Above => {
  const { view, letters, part, say } = scene;
  const own = boxOfLoop(bent.shape.outline);
  // The start stands over the start, so that what is straight up to the first bend lies over itself.
  const by: Point = { x: 0, y: view.height + letters * 8 - own.min.y };
  const shift = (point: Point): Point => ({ x: point.x + by.x, y: point.y + by.y });
  const outline = moved(bent.shape.outline, by);
  const box = boxOfLoop(outline);
  const tangents = bent.shape.tangents.map(
    ([a, b]): Stroke => ({
      layer: 'bend_up',
      feature: bent.features[0] ?? 'outline',
      geometry: { kind: 'line', from: shift(a), to: shift(b) },
    }),
  );
  const centre = bent.shape.centres[0];
  const pin = part.kind === 'strap' && centre !== undefined ? pinOf(scene, part, shift(centre)) : undefined;
  const below = box.min.y - letters * 1.6;
  const right = box.max.x + letters * 1.6;
  return {
    areas: [{ feature: 'outline', kind: 'base', loop: outline }],
    strokes: [...(pin?.strokes ?? []), ...tangents, { layer: 'cut', feature: 'outline', geometry: { kind: 'loop', loop: outline } }],
    spots: pin?.spots ?? [],
    measures: [
      {
        feature: 'outline',
        from: { x: box.min.x, y: below },
        to: { x: box.max.x, y: below },
        text: say(box.max.x - box.min.x),
        fault: false,
      },
      {
        feature: 'outline',
        from: { x: right, y: box.min.y },
        to: { x: right, y: box.max.y },
        text: say(box.max.y - box.min.y),
        fault: false,
      },
    ],
    corners: [box.min, box.max, { x: right + letters, y: box.max.y + letters }],
  };
};

const pinOf = (scene: Scene, part: Strap, centre: Point): { readonly strokes: readonly Stroke[]; readonly spots: readonly SpotLabel[] } => {
  const radius = (part.pin ?? 0) / 2;
  const eye = (part.pin ?? 0) / 2 + part.clear / 2 + (scene.shape.kind === 'flat' ? scene.shape.thickness : 0);
  return {
    strokes: [{ layer: 'mark', feature: 'eye', geometry: { kind: 'circle', circle: { centre, radius } } }],
    spots: [
      {
        feature: 'eye',
        at: centre,
        clear: eye,
        text: `pin ⌀ ${scene.say(part.pin ?? 0)}${part.clear > 0 ? `, play ${scene.say(part.clear)}` : ''}, ${sayAngle(part.wrap ?? 0)} round`,
      },
    ],
  };
};
