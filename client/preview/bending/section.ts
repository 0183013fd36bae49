/**
 * One bend seen from the end of the brake, drawn so that it can be moved: the sheet is slid and turned about the bend's middle, the apron turned with the leaf.
 * Millimetres, y up inside the drawing; see `BendingMotion` for what is turned by how much.
 */
import type { BendingMotion, BendingSheet } from '../../../server/lsp/protocol.js';
import type { Box } from '../viewport.js';
import type { Pose } from './pose.js';

export interface SectionDrawing {
  readonly svg: SVGSVGElement;
  /** What a fitted view shows, in the picture's coordinates, y down. */
  readonly extent: Box;
  move(pose: Pose): void;
  /** Words keep their size on the screen: mm to a pixel. */
  sizeWords(unit: number): void;
}

type Corner = readonly [number, number];
const cornersOf = (outline: readonly number[]): readonly Corner[] =>
  Array.from({ length: outline.length / 2 }, (_, i) => [outline[2 * i] as number, outline[2 * i + 1] as number]);

const space = 'http://www.w3.org/2000/svg';
const made = <K extends keyof SVGElementTagNameMap>(name: K, attributes: Readonly<Record<string, string | number>> = {}) => {
  const element = document.createElementNS(space, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  return element;
};
const polygon = (outline: readonly number[], classes: string): SVGPolygonElement =>
  made('polygon', { points: outline.join(' '), class: classes });

let drawings = 0;

/** @param words angle beside the arc; left out of a thumbnail */
export const drawSection = (motion: BendingMotion, stopped: boolean, words: string | undefined): SectionDrawing => {
  const name = `bend_clash_${++drawings}`;
  const svg = made('svg', { class: `bend_section${stopped ? ' stopped' : ''}` });
  const flipped = made('g', { transform: 'scale(1 -1)' });
  const [ax, ay] = motion.about;
  const degrees = (turn: number): number => (turn * 180) / Math.PI;

  const sheet = ({ id, outline, beyond, strikes }: BendingSheet): SVGPolygonElement => {
    const drawn = polygon(outline, beyond ? 'beyond' : strikes ? 'sheet strikes' : 'sheet');
    drawn.dataset.id = id;
    return drawn;
  };
  const group = (classes: string, ...children: readonly SVGElement[]): SVGGElement => {
    const element = made('g', { class: classes });
    element.append(...children);
    return element;
  };
  const machine = motion.machine.map(({ tool, outline, struck }) => ({
    tool,
    drawn: polygon(outline, `machine ${tool}${struck && stopped ? ' struck' : ''}`),
    clash: struck && stopped ? polygon(outline, 'clash') : undefined,
  }));
  const apron = machine.find(({ tool }) => tool === 'apron');
  const clip = made('clipPath', { id: name });
  const struckSheets = [...motion.held.map((one) => ({ one, swings: false })), ...motion.swings.map((one) => ({ one, swings: true }))]
    .filter(({ one }) => one.strikes)
    .map(({ one, swings }) => ({ swings, drawn: polygon(one.outline, '') }));
  clip.append(...struckSheets.map(({ drawn }) => drawn));
  const clashes = machine.flatMap(({ clash }) => clash ?? []);
  const clash = group('clashes', ...clashes);
  clash.setAttribute('clip-path', `url(#${name})`);

  const [behind, front] = [(one: BendingSheet) => one.beyond, (one: BendingSheet) => !one.beyond];
  const swingsBehind = group('', ...motion.swings.filter(behind).map(sheet));
  const swings = group('', ...motion.swings.filter(front).map(sheet));
  const straight = made('rect', { class: 'sheet zone', y: ay - motion.outside, height: motion.outside - motion.inside });
  const arc = made('path', { class: 'sheet zone' });
  flipped.append(
    clip,
    group('behind', ...motion.held.filter(behind).map(sheet), swingsBehind),
    group('tools', ...machine.map(({ drawn }) => drawn)),
    group('held', ...motion.held.filter(front).map(sheet)),
    swings,
    straight,
    arc,
    clash,
  );
  svg.append(flipped);

  const extent = extentOf(motion, stopped);
  const names = words === undefined ? [] : toolWords(motion, extent);
  svg.append(...names, ...(words === undefined ? [] : angleMarks(motion, extent, words, flipped)));
  const leafName = names.find(({ dataset }) => dataset.tool === 'apron');
  const [leafX, leafY] = [Number(leafName?.getAttribute('x')) - ax, -Number(leafName?.getAttribute('y')) - ay];

  const at = (radius: number, turn: number): string => `${ax + radius * Math.sin(turn)} ${ay - radius * Math.cos(turn)}`;
  return {
    svg,
    extent,
    move: ({ leaf, sheet: turn, formed }) => {
      const turned = `rotate(${degrees(turn)} ${ax} ${ay})`;
      const slid = `${turned} translate(${-motion.allowance * formed} 0)`;
      for (const moving of [swings, swingsBehind, ...struckSheets.flatMap((one) => (one.swings ? [one.drawn] : []))])
        moving.setAttribute('transform', slid);
      const swung = `rotate(${degrees(leaf)} ${ax} ${ay})`;
      apron?.drawn.setAttribute('transform', swung);
      apron?.clash?.setAttribute('transform', swung);
      // The word goes along, upright.
      leafName?.setAttribute('x', String(ax + Math.cos(leaf) * leafX - Math.sin(leaf) * leafY));
      leafName?.setAttribute('y', String(-(ay + Math.sin(leaf) * leafX + Math.cos(leaf) * leafY)));
      const left = motion.allowance * (1 - formed);
      straight.setAttribute('x', String(ax));
      straight.setAttribute('width', String(Math.max(0, left)));
      straight.setAttribute('transform', turned);
      const { inside, outside } = motion;
      const bent = turn > 1e-4;
      const large = turn > Math.PI ? 1 : 0;
      if (bent)
        arc.setAttribute(
          'd',
          `M${at(outside, 0)}A${outside} ${outside} 0 ${large} 1 ${at(outside, turn)}L${at(inside, turn)}A${inside} ${inside} 0 ${large} 0 ${at(inside, 0)}Z`,
        );
      else arc.removeAttribute('d');
      svg.classList.toggle('at_clash', stopped && Math.abs(turn - motion.rests) < 1e-3);
    },
    sizeWords: (unit) => {
      for (const text of svg.querySelectorAll('text')) text.setAttribute('font-size', String(12 * unit));
    },
  };
};

/** Least and most of the sheet that a fitted view shows, mm; what lies farther is cut off by the frame. */
const LEAST_SPAN = 16;
const MOST_SPAN = 140;

/** The bend with what swings, standing walls near it, and some of the machine. */
const extentOf = (motion: BendingMotion, stopped: boolean): Box => {
  const [ax, ay] = motion.about;
  const swung = (outline: readonly number[], turn: number): readonly Corner[] => {
    const slide = motion.allowance * Math.min(1, turn / motion.set);
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    return cornersOf(outline).map(([x, y]) => {
      const [dx, dy] = [x - slide - ax, y - ay];
      return [ax + cos * dx - sin * dy, ay + sin * dx + cos * dy];
    });
  };
  const swings = motion.swings.flatMap(({ outline }) => [motion.from, motion.rests].flatMap((turn) => swung(outline, turn)));
  const struck = stopped
    ? [
        ...motion.held.flatMap(({ outline, strikes }) => (strikes ? cornersOf(outline) : [])),
        ...motion.swings.flatMap(({ outline, strikes }) => (strikes ? swung(outline, motion.rests) : [])),
      ]
    : [];
  const reach = Math.max(...swings.map(([x, y]) => Math.hypot(x - ax, y - ay)), 0);
  const span = Math.min(MOST_SPAN, Math.max(LEAST_SPAN, reach));
  const held = motion.held.flatMap(({ outline }) => cornersOf(outline)).filter(([x]) => x > -1.8 * span);
  const within = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);
  const shown: readonly Corner[] = [
    [-0.95 * span, -0.4 * span],
    [0.3 * span, 0.5 * span],
    ...[...swings, ...held, ...struck].map(([x, y]): Corner => [within(x, -1.8 * span, 1.1 * span), within(y, -0.7 * span, 1.25 * span)]),
  ];
  const [xs, ys] = [shown.map(([x]) => x), shown.map(([, y]) => y)];
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  return { x: left, y: -high, width: right - left, height: high - low };
};

const TOOL_WORDS: Readonly<Record<BendingMotion['machine'][number]['tool'], string>> = {
  nose: 'nose',
  beam: 'beam',
  bed: 'bed',
  apron: 'leaf',
};

/** What each part of the machine is called, in the middle of what is seen of it. */
const toolWords = (motion: BendingMotion, extent: Box): readonly SVGTextElement[] =>
  motion.machine.flatMap(({ tool, outline }) => {
    const seen = cutTo(cornersOf(outline), extent);
    const [x, y, area] = middleOf(seen);
    if (area < (extent.width * extent.height) / 150) return [];
    const text = made('text', { x, y: -y, class: 'tool_word' });
    text.textContent = TOOL_WORDS[tool];
    text.dataset.tool = tool;
    return [text];
  });

/** Polygon cut to a box of the picture (y down in the box, up in the polygon): each side in turn. */
const cutTo = (corners: readonly Corner[], box: Box): readonly Corner[] => {
  const sides: readonly ((c: Corner) => number)[] = [
    ([x]) => x - box.x,
    ([x]) => box.x + box.width - x,
    ([, y]) => -box.y - y,
    ([, y]) => y + box.y + box.height,
  ];
  return sides.reduce<readonly Corner[]>(
    (left, inside) =>
      left.flatMap((corner, i) => {
        const next = left[(i + 1) % left.length] as Corner;
        const [a, b] = [inside(corner), inside(next)];
        const share = a / (a - b);
        const cut: Corner = [corner[0] + share * (next[0] - corner[0]), corner[1] + share * (next[1] - corner[1])];
        return [...(a >= 0 ? [corner] : []), ...(a >= 0 !== b >= 0 ? [cut] : [])];
      }),
    corners,
  );
};

/** Centre of area, and the area. */
const middleOf = (corners: readonly Corner[]): readonly [number, number, number] => {
  let [x, y, twice] = [0, 0, 0];
  for (const [i, [px, py]] of corners.entries()) {
    const [qx, qy] = corners[(i + 1) % corners.length] as Corner;
    const cross = px * qy - qx * py;
    twice += cross;
    x += (px + qx) * cross;
    y += (py + qy) * cross;
  }
  return Math.abs(twice) < 1e-9 ? [0, 0, 0] : [x / (3 * twice), y / (3 * twice), Math.abs(twice) / 2];
};

/** The way the leaf goes: an arc from flat to where it is set, and the angle. */
const angleMarks = (motion: BendingMotion, extent: Box, words: string, flipped: SVGGElement): readonly SVGTextElement[] => {
  const [ax, ay] = motion.about;
  const radius = Math.min(extent.width, extent.height) * 0.42;
  const at = (turn: number, r = radius): Corner => [ax + r * Math.cos(turn), ay + r * Math.sin(turn)];
  const [from, to] = [at(motion.from), at(motion.set)];
  const large = motion.set - motion.from > Math.PI ? 1 : 0;
  flipped.append(made('path', { class: 'way', d: `M${from.join(' ')}A${radius} ${radius} 0 ${large} 1 ${to.join(' ')}` }));
  const [x, y] = at(motion.from + (motion.set - motion.from) * 0.5, radius * 1.03);
  const text = made('text', { x, y: -y, class: 'angle_word' });
  text.textContent = words;
  return [text];
};
