/** The eye and the tails of a strap, along the flat bar. */
import { sayAngle } from '../model/display.js';
import type { Strap } from '../model/part.js';
import { eyeLength } from '../trade/tube.js';
import { bentShape, type Stretch } from './bent-shape.js';
import { type Items, running, type Scene, zone, zoneLines } from './piece-scene.js';

export const strapItems = (scene: Scene, part: Strap): Items => {
  const { view, length, say, shape } = scene;
  const thickness = shape.kind === 'flat' ? shape.thickness : 0;
  const closes = (part.pin ?? 0) + part.clear;
  const wrap = part.wrap ?? 0;
  const [first = 0, second = 0] = part.tails;
  const eye = eyeLength(closes, thickness, wrap);
  const stretches: readonly Stretch[] = [
    ...(first > 0 ? [{ kind: 'straight', length: first } as const] : []),
    { kind: 'bend', turn: wrap, radius: (closes + thickness) / 2 },
    ...(second > 0 ? [{ kind: 'straight', length: second } as const] : []),
  ];
  const bent = bentShape(stretches, thickness);
  const tails = [
    { id: 'tail:first', from: 0, length: first, words: 'first tail' },
    { id: 'tail:second', from: first + eye, length: second, words: 'second tail' },
  ].filter((tail) => tail.length > 0);
  const y = view.height + scene.letters * 2.6;
  return {
    areas: [{ feature: 'eye', kind: 'zone_up', loop: zone(scene, first, first + eye) }],
    strokes: zoneLines(scene, 'eye', first, first + eye, false),
    outline: zone(scene, 0, length),
    features: [
      {
        id: 'eye',
        title: `eye: ${sayAngle(wrap)} round a pin of ${say(part.pin ?? 0)}${part.clear > 0 ? ` with ${say(part.clear)} play` : ''} takes ${say(eye)} of the bar’s middle line`,
        span: part.spans?.wrap ?? part.nameSpan,
      },
      ...tails.map((tail) => ({ id: tail.id, title: `${tail.words}: ${say(tail.length)}`, span: part.spans?.tail ?? part.nameSpan })),
    ],
    running: [running(scene, first, 'eye'), running(scene, first + eye, 'eye')],
    spots: [],
    measures: [
      ...tails.map((tail) => ({
        feature: tail.id,
        from: { x: tail.from, y },
        to: { x: tail.from + tail.length, y },
        text: `tail ${say(tail.length)}`,
        fault: false,
      })),
      { feature: 'eye', from: { x: first, y }, to: { x: first + eye, y }, text: `eye ${say(eye)}`, fault: false },
    ],
    bent: { shape: bent, features: ['eye'] },
  };
};
