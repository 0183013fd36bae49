/** The drawing inside the page: reading it safely, patching it in, finding and lighting its features. */
import morphdom from 'morphdom';
import { sanitise } from './sanitise.js';
import { type Box, readViewBox } from './viewport.js';

/** Reads SVG text as a picture and strips it to drawing elements. Undefined when it is not an SVG document. */
export const readDrawing = (svg: string): SVGSVGElement | undefined => {
  const root = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  if (!(root instanceof SVGSVGElement) || root.querySelector('parsererror') !== null) return undefined;
  sanitise(root);
  return document.importNode(root, true);
};

/** The drawing's own extent, before the reader's view replaces its viewBox. */
export const extentOf = (drawing: SVGSVGElement): Box =>
  readViewBox(drawing.getAttribute('viewBox')) ?? { x: 0, y: 0, width: 100, height: 100 };

const featuresOf = (host: Element): readonly SVGElement[] =>
  [...host.querySelectorAll('[data-id]')].filter((element): element is SVGElement => element instanceof SVGElement);

const idOf = (element: Element): string => element.getAttribute('data-id') ?? '';

/** The plane areas under the lines: they belong to a feature too, but come last wherever one must be chosen. */
const isArea = (element: Element): boolean => element.closest('.areas') !== null;

/**
 * Makes the drawing fit for a reader: a name for each feature, and one place in the Tab order for each, however many groups it has.
 */
const prepare = (drawing: SVGSVGElement, lit: ReadonlySet<string>): void => {
  drawing.removeAttribute('width');
  drawing.removeAttribute('height');
  const features = featuresOf(drawing);
  for (const element of features) element.classList.toggle('lit', lit.has(idOf(element)));
  const reached = new Set<string>();
  const strokes = features.filter((element) => element.closest('.strokes') !== null);
  for (const element of [...strokes, ...features.filter((each) => !strokes.includes(each))]) {
    const id = idOf(element);
    if (reached.has(id)) continue;
    reached.add(id);
    element.setAttribute('tabindex', '0');
    element.setAttribute('role', 'img');
    element.setAttribute('aria-label', element.querySelector(':scope > title')?.textContent ?? id);
  }
};

/** Largest height of words on the screen, px: closer than that they keep their size, so that a close look shows the lines and not the letters. */
const LARGEST_WORDS = 15;

/** Sizes the words for a view of so many mm to the pixel. They stay centred on their own line; see the 0.36 in the drawing's writer. */
export const sizeWords = (drawing: Element, unit: number): void => {
  for (const words of drawing.querySelectorAll('text')) {
    words.dataset.size ??= words.getAttribute('font-size') ?? '3';
    words.dataset.y ??= words.getAttribute('y') ?? '0';
    const full = Number(words.dataset.size);
    const height = Math.min(full, LARGEST_WORDS * unit);
    words.setAttribute('font-size', String(height));
    words.setAttribute('y', String(Number(words.dataset.y) - 0.36 * (full - height)));
  }
};

/** Keys for the patcher: several strokes may share a feature, so each carries its turn among them. */
const keysOf = (...roots: readonly Element[]): WeakMap<Node, string> => {
  const keys = new WeakMap<Node, string>();
  for (const root of roots) {
    const seen = new Map<string, number>();
    for (const element of featuresOf(root)) {
      const name = `${element.localName} ${idOf(element)}`;
      const turn = seen.get(name) ?? 0;
      seen.set(name, turn + 1);
      keys.set(element, `${name} ${turn}`);
    }
  }
  return keys;
};

/** Shows `next` in `host`, changing only what differs, so that focus and hover stay where they are. */
export const show = (host: Element, next: SVGSVGElement, lit: ReadonlySet<string>, unit: number): void => {
  prepare(next, lit);
  sizeWords(next, unit);
  const current = host.querySelector('svg');
  if (current === null) {
    host.replaceChildren(next);
    return;
  }
  next.setAttribute('viewBox', current.getAttribute('viewBox') ?? '');
  const keys = keysOf(current, next);
  morphdom(current, next, {
    getNodeKey: (node) => keys.get(node),
    onBeforeElUpdated: (from, to) => !from.isEqualNode(to),
  });
};

export const light = (host: Element, lit: ReadonlySet<string>): void => {
  for (const element of featuresOf(host)) element.classList.toggle('lit', lit.has(idOf(element)));
};

/** The feature an element of the drawing belongs to, unless it is only the sheet beneath the lines. */
export const lineOf = (host: Element, hit: Element): string | undefined => {
  const feature = host.contains(hit) ? hit.closest('[data-id]') : null;
  return feature === null || isArea(feature) ? undefined : idOf(feature);
};

/** Reach of a click, px: thin lines are hard to hit, so the nearest feature within this distance counts. */
const REACHES = [0, 3, 6];
const COMPASS = [0, 1, 2, 3, 4, 5, 6, 7].map((eighth) => (eighth * Math.PI) / 4);

/** The feature at or next to a spot of the window; lines win over the areas beneath them. */
export const featureNear = (host: Element, clientX: number, clientY: number): string | undefined => {
  let under: string | undefined;
  for (const reach of REACHES) {
    for (const angle of reach === 0 ? [0] : COMPASS) {
      for (const hit of document.elementsFromPoint(clientX + reach * Math.cos(angle), clientY + reach * Math.sin(angle))) {
        const feature = host.contains(hit) ? hit.closest('[data-id]') : null;
        if (feature === null) continue;
        if (!isArea(feature)) return idOf(feature);
        under ??= idOf(feature);
      }
    }
  }
  return under;
};

/** Where some features stand in the picture, from where they stand on the screen. */
export const boxOnScreen = (host: Element, ids: ReadonlySet<string>): DOMRect | undefined => {
  const boxes = featuresOf(host)
    .filter((element) => ids.has(idOf(element)))
    .map((element) => element.getBoundingClientRect())
    .filter((box) => box.width > 0 || box.height > 0);
  if (boxes.length === 0) return undefined;
  const left = Math.min(...boxes.map((box) => box.left));
  const top = Math.min(...boxes.map((box) => box.top));
  return new DOMRect(left, top, Math.max(...boxes.map((box) => box.right)) - left, Math.max(...boxes.map((box) => box.bottom)) - top);
};
