/** A hand-built blank to draw: a tray with five bends, round corner reliefs, holes, a slot and a curved cut-out. Sizes made up. */
import type { BendLine, Blank, BlankCut, Face } from '../../server/blank/types.js';
import type { Panel } from '../../server/model/part.js';
import type { Loop, Move, Point } from '../../server/shape/path.js';
import { common } from '../blank/build.js';

const p = (x: number, y: number): Point => ({ x, y });
const line = (x: number, y: number): Move => ({ kind: 'line', to: p(x, y) });
const span = (start: number) => ({ start, end: start + 10 });
const rectangle = (x0: number, y0: number, x1: number, y1: number): Loop => [line(x1, y0), line(x1, y1), line(x0, y1), line(x0, y0)];

const bend = (id: string, direction: 'up' | 'down', from: Point, to: Point, start: number): BendLine => {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  // The parent lies on the left of from → to.
  const left = { x: -(to.y - from.y) / length, y: (to.x - from.x) / length };
  const shift = (by: number): readonly [Point, Point] => [
    p(from.x + left.x * by, from.y + left.y * by),
    p(to.x + left.x * by, to.y + left.y * by),
  ];
  return {
    id,
    make: 'turn',
    step: id,
    direction,
    turn: Math.PI / 2,
    radius: 1.5,
    allowance: 3,
    method: 'K 0.42',
    source: 'plane geometry',
    k: 0.42,
    setback: 2.7,
    deduction: 2.4,
    from,
    to,
    tangentParent: shift(1.5),
    tangentChild: shift(-1.5),
    brakeLine: shift(0),
    parent: 'base',
    child: id,
    zone: [shift(-1.5)[0], shift(-1.5)[1], shift(1.5)[1], shift(1.5)[0]].map((to) => line(to.x, to.y)),
    span: span(start),
  };
};

const face = (id: string, polygon: Loop, zone: Loop | undefined, start: number): Face => ({
  id,
  polygon,
  zone,
  bend: zone === undefined ? undefined : id,
  place: { cos: 1, sin: 0, tx: 0, ty: 0 },
  span: span(start),
});

const round = (id: string, x: number, y: number, radius: number, start: number): BlankCut => ({
  id,
  loop: [
    { kind: 'arc', to: p(x - radius, y), centre: p(x, y), turn: 'right' },
    { kind: 'arc', to: p(x + radius, y), centre: p(x, y), turn: 'right' },
  ],
  circle: { centre: p(x, y), radius },
  face: 'base',
  centre: p(x, y),
  span: span(start),
});

// Clockwise, as cut-outs run: along the top to the right, round, back along the bottom, round.
const slotLoop: Loop = [
  line(160, 63),
  { kind: 'arc', to: p(160, 57), centre: p(160, 60), turn: 'right' },
  line(140, 57),
  { kind: 'arc', to: p(140, 63), centre: p(140, 60), turn: 'right' },
];

export const tray: Blank = {
  outline: [
    line(320, 0),
    line(320, 25),
    { kind: 'arc', to: p(323, 28), centre: p(323, 25), turn: 'right', id: 'relief:corner.1' },
    line(340, 28),
    line(340, 130),
    line(320, 130),
    line(320, 165),
    line(20, 165),
    line(20, 130),
    line(0, 130),
    line(0, 28),
    line(17, 28),
    { kind: 'arc', to: p(20, 25), centre: p(17, 25), turn: 'right', id: 'relief:corner.2' },
    line(20, 0),
  ],
  cutouts: [
    round('hole.1', 40, 50, 3.5, 200),
    round('hole.2', 300, 50, 3.5, 220),
    { id: 'slot.1', loop: slotLoop, circle: undefined, face: 'base', centre: p(150, 60), span: span(300) },
  ],
  bends: [
    bend('bottom.1', 'up', p(20, 25), p(320, 25), 20),
    bend('top.1', 'down', p(320, 133), p(20, 133), 40),
    bend('top.2', 'down', p(320, 152), p(20, 152), 60),
    bend('left.1', 'up', p(20, 130), p(20, 28), 80),
    bend('right.1', 'up', p(320, 28), p(320, 130), 100),
  ],
  faces: [
    face('base', rectangle(21.5, 26.5, 318.5, 131.5), undefined, 0),
    face('bottom.1', rectangle(20, 0, 320, 23.5), rectangle(20, 23.5, 320, 26.5), 20),
    face('top.1', rectangle(20, 134.5, 320, 150.5), rectangle(20, 131.5, 320, 134.5), 40),
    face('top.2', rectangle(20, 153.5, 320, 165), rectangle(20, 150.5, 320, 153.5), 60),
    face('left.1', rectangle(0, 28, 18.5, 130), rectangle(18.5, 28, 21.5, 130), 80),
    face('right.1', rectangle(321.5, 28, 340, 130), rectangle(318.5, 28, 321.5, 130), 100),
  ],
  width: 340,
  height: 165,
  area: 54000,
  mass: 0.512,
  cutLength: 1100,
  pierces: 4,
  thickness: 1.2,
  datum: p(20, 25),
  reliefs: [
    { id: 'corner.1', at: p(320, 25), size: 6, kind: 'round', automatic: true, reason: 'clears both bends', span: span(400) },
    { id: 'corner.2', at: p(20, 25), size: 6, kind: 'round', automatic: true, reason: 'clears both bends', span: span(400) },
  ],
};

export const trayPart: Panel = {
  ...common,
  kind: 'panel',
  name: 'tray',
  nameSpan: { start: 6, end: 10 },
  span: { start: 0, end: 600 },
  file: '/shop/tray.planish',
  sheet: {
    value: {
      name: 'crs_12',
      file: '/shop/shop.planish',
      span: span(0),
      material: undefined,
      thickness: 1.2,
      size: undefined,
      bendRadius: 1.5,
      method: { kind: 'k', k: 0.42 },
      price: undefined,
      stocked: undefined,
    },
    span: span(14),
  },
  outline: undefined,
  edges: [],
  corners: [],
  beads: [],
  tips: [],
  crossBreaks: [],
  dimples: [],
  loads: [],
  cuts: [
    {
      id: 'slot.1',
      on: undefined,
      shape: { kind: 'slot', width: 6, length: 26 },
      at: p(130, 35),
      turned: 0,
      span: span(300),
      sizeSpan: span(305),
      atSpan: span(310),
    },
  ],
};
