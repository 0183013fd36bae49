/** What is measured on the finished part, drawn over the scene: its overall sizes, each beside one edge of its box, and places that have a ring and a word. */
import type { FoldedPlace } from '../../../server/lsp/protocol.js';
import type { Eye } from './camera.js';

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** How far the line stands off the box, px; edges seen shorter than this carry no size. */
const OFF = 20;
const SHORTEST = 10;
const TICK = 4;
const SVG = 'http://www.w3.org/2000/svg';

const element = (name: string, attributes: Readonly<Record<string, string | number>>, text = ''): SVGElement => {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  if (text !== '') made.textContent = text;
  return made;
};

/** @param corners x y z of each, mm; @param sizes words for x, y, z, none to draw none */
export const drawMeasures = (
  host: HTMLElement,
  eye: Eye,
  corners: Float32Array,
  sizes: readonly string[],
  places: readonly FoldedPlace[],
): void => {
  const drawing = element('svg', { width: host.clientWidth, height: host.clientHeight });
  if (corners.length > 0) {
    if (sizes.length === 3) drawing.append(...sizesOf(eye, corners, sizes, host));
    drawing.append(...placesOf(eye, places, host));
  }
  host.replaceChildren(drawing);
};

const RING = 6;
/** Words that would lie over others already written, by their middles, px. */
const CLOSE = { across: 70, down: 13 };

const placesOf = (eye: Eye, places: readonly FoldedPlace[], host: HTMLElement): readonly SVGElement[] => {
  const written: Spot[] = [];
  return places.flatMap(({ at, words, clash }) => {
    const { x, y } = eye.onCanvas(...at);
    const kind = clash ? 'place clash' : 'place';
    const ring = element('circle', { class: kind, cx: x, cy: y, r: RING });
    // To the side on which there is more room.
    const right = x < host.clientWidth / 2;
    const spot = { x: x + (right ? RING + 4 : -RING - 4), y: y + 4 };
    if (written.some((other) => Math.abs(other.x - spot.x) < CLOSE.across && Math.abs(other.y - spot.y) < CLOSE.down)) return [ring];
    written.push(spot);
    return [ring, element('text', { class: kind, ...spot, 'text-anchor': right ? 'start' : 'end' }, words)];
  });
};

const sizesOf = (eye: Eye, corners: Float32Array, sizes: readonly string[], host: HTMLElement): readonly SVGElement[] => {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const [i, value] of corners.entries()) {
    low[i % 3] = Math.min(low[i % 3] ?? value, value);
    high[i % 3] = Math.max(high[i % 3] ?? value, value);
  }
  const at = (sides: readonly boolean[]): Spot => {
    const [x = 0, y = 0, z = 0] = sides.map((side, axis) => (side ? high[axis] : low[axis]) ?? 0);
    return eye.onCanvas(x, y, z);
  };
  const centre = eye.onCanvas(
    ((low[0] ?? 0) + (high[0] ?? 0)) / 2,
    ((low[1] ?? 0) + (high[1] ?? 0)) / 2,
    ((low[2] ?? 0) + (high[2] ?? 0)) / 2,
  );
  return [0, 1, 2].flatMap((axis) => dimension(axis, at, centre, sizes[axis] ?? '', host));
};

const dimension = (
  axis: number,
  at: (sides: readonly boolean[]) => Spot,
  centre: Spot,
  words: string,
  host: HTMLElement,
): readonly SVGElement[] => {
  let best: { readonly from: Spot; readonly to: Spot; readonly out: Spot; readonly reach: number } | undefined;
  for (const first of [false, true]) {
    for (const second of [false, true]) {
      const others = [first, second];
      const corner = (own: boolean): Spot =>
        at([0, 1, 2].map((each) => (each === axis ? own : (others[each > axis ? each - 1 : each] ?? false))));
      const [from, to] = [corner(false), corner(true)];
      const length = Math.hypot(to.x - from.x, to.y - from.y);
      if (length < SHORTEST) return [];
      const normal = { x: -(to.y - from.y) / length, y: (to.x - from.x) / length };
      const reach = (from.x - centre.x) * normal.x + (from.y - centre.y) * normal.y;
      const out = reach < 0 ? { x: -normal.x, y: -normal.y } : normal;
      // The outermost edge carries the line; of two as far out, the lower one, then the one on the right.
      const score = Math.abs(reach) + 0.6 * (out.y + 0.2 * out.x);
      if (best === undefined || score > best.reach + 1e-6) best = { from, to, out, reach: score };
    }
  }
  if (best === undefined) return [];
  const { from, to, out } = best;
  const moved = (p: Spot, by: number): Spot => ({ x: p.x + out.x * by, y: p.y + out.y * by });
  const [a, b] = [moved(from, OFF), moved(to, OFF)];
  const line = (p: Spot, q: Spot): SVGElement => element('line', { x1: p.x, y1: p.y, x2: q.x, y2: q.y });
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const tick = (p: Spot): SVGElement => {
    const along = { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
    // A slanting stroke at 45° ends a dimension line where arrows would not be seen.
    const [dx, dy] = [(along.x + out.x) * TICK * 0.8, (along.y + out.y) * TICK * 0.8];
    return line({ x: p.x - dx, y: p.y - dy }, { x: p.x + dx, y: p.y + dy });
  };
  // On the line, which the words interrupt; beside it where the line is too short for them.
  const half = words.length * 3.4;
  const beside = length < 2 * half + 16;
  const centred = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
  const place = beside ? moved(centred, 10 + half * Math.abs(out.x) + 6 * Math.abs(out.y)) : centred;
  const inside = (p: Spot): boolean => p.x > 0 && p.y > 0 && p.x < host.clientWidth && p.y < host.clientHeight;
  // From near at hand a size may lie out of sight; words for it would only stick to the frame.
  if (!inside(centred)) return [];
  const x = Math.min(host.clientWidth - half - 4, Math.max(half + 4, place.x));
  return [
    line(moved(from, 5), moved(from, OFF + 4)),
    line(moved(to, 5), moved(to, OFF + 4)),
    line(a, b),
    tick(a),
    tick(b),
    element('text', { x, y: place.y + 4, 'text-anchor': 'middle' }, words),
  ];
};
