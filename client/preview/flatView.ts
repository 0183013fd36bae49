/** The flat blank in the page: pan and zoom by the drawing's viewBox, layers, pointing at features. */
import { boxOnScreen, extentOf, featureNear, light, lineOf, readDrawing, show, sizeWords } from './drawing.js';
import { viewFor, withLayer, withView } from './kept.js';
import { find, type Shared } from './memory.js';
import {
  type Box,
  bringIntoSight,
  FIT,
  panBy,
  type Size,
  type Spot,
  toPicture,
  unitOf,
  type View,
  viewBoxOf,
  wheelFactor,
  writeViewBox,
  zoomAbout,
} from './viewport.js';

export interface FlatView {
  /** Shows SVG text; false when it is no picture. `moved` says that it is another part than before. */
  draw(svg: string, uri: string, part: string, moved: boolean): boolean;
  isEmpty(): boolean;
  clear(reason: string): void;
  light(ids: ReadonlySet<string>): void;
  zoom(factor: number): void;
  fit(): void;
}

export const createFlatView = ({ memory, reveal }: Shared): FlatView => {
  const host = find('#drawing', HTMLElement);
  const sheet = find('#sheet', HTMLElement);
  const empty = find('#empty', HTMLElement);
  let view: View = FIT;
  let extent: Box = { x: 0, y: 0, width: 100, height: 100 };
  let lit: ReadonlySet<string> = new Set();

  const size = (): Size => ({ width: sheet.clientWidth, height: sheet.clientHeight });
  const applyView = (): void => {
    const drawing = host.querySelector('svg');
    // While another view is in front there is no room to draw in.
    if (drawing === null || sheet.clientWidth === 0) return;
    drawing.setAttribute('viewBox', writeViewBox(viewBoxOf(view, extent, size())));
    sizeWords(drawing, unitOf(view, extent, size()));
  };
  const look = (next: View): void => {
    view = next;
    applyView();
    const kept = memory.kept();
    memory.keep(withView(kept, memory.uri(), kept.part, view));
  };
  const centre = (): Spot => ({ x: sheet.clientWidth / 2, y: sheet.clientHeight / 2 });
  const zoom = (factor: number, spot: Spot = centre()): void => look(zoomAbout(view, extent, size(), spot, factor));
  const pan = (right: number, down: number): void => look(panBy(view, extent, size(), right, down));

  const showLayers = (): void => {
    const { hidden } = memory.kept();
    host.dataset.hidden = hidden.join(' ');
    for (const box of document.querySelectorAll<HTMLInputElement>('input[data-layer]'))
      box.checked = !hidden.includes(box.dataset.layer ?? '');
  };
  find('#layers', HTMLFieldSetElement).addEventListener('change', (event) => {
    const box = event.target;
    if (!(box instanceof HTMLInputElement) || box.dataset.layer === undefined) return;
    memory.keep(withLayer(memory.kept(), box.dataset.layer, box.checked));
    showLayers();
  });

  sheet.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      const area = sheet.getBoundingClientRect();
      zoom(wheelFactor(event.deltaY, event.deltaMode, event.ctrlKey), { x: event.clientX - area.left, y: event.clientY - area.top });
    },
    { passive: false },
  );

  let drag: { x: number; y: number; moved: boolean } | undefined;
  sheet.addEventListener('pointerdown', (event) => {
    if (event.button !== 0 && event.button !== 1) return;
    drag = { x: event.clientX, y: event.clientY, moved: false };
    sheet.setPointerCapture(event.pointerId);
  });
  sheet.addEventListener('pointermove', (event) => {
    if (drag === undefined) {
      sheet.classList.toggle('over', featureNear(host, event.clientX, event.clientY) !== undefined);
      return;
    }
    const right = event.clientX - drag.x;
    const down = event.clientY - drag.y;
    // A hand trembles by a pixel or two while it clicks; that is no drag.
    if (!drag.moved && Math.hypot(right, down) < 4) return;
    drag = { x: event.clientX, y: event.clientY, moved: true };
    sheet.classList.add('dragging');
    pan(right, down);
  });
  // The click comes after the hand let go: whether it had dragged is remembered until then.
  let dragged = false;
  const letGo = (): void => {
    dragged = drag?.moved ?? false;
    drag = undefined;
    sheet.classList.remove('dragging');
  };
  sheet.addEventListener('pointerup', letGo);
  sheet.addEventListener('pointercancel', letGo);
  sheet.addEventListener('click', (event) => {
    const wasDrag = dragged;
    dragged = false;
    if (wasDrag) return;
    const id =
      (event.target instanceof Element ? lineOf(host, event.target) : undefined) ?? featureNear(host, event.clientX, event.clientY);
    if (id !== undefined) reveal(id);
  });

  const keys: Readonly<Record<string, () => void>> = {
    ArrowLeft: () => pan(40, 0),
    ArrowRight: () => pan(-40, 0),
    ArrowUp: () => pan(0, 40),
    ArrowDown: () => pan(0, -40),
    '+': () => zoom(1.25),
    '=': () => zoom(1.25),
    '-': () => zoom(1 / 1.25),
    '−': () => zoom(1 / 1.25),
    '0': () => look(FIT),
  };
  sheet.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const focused = document.activeElement?.closest('[data-id]')?.getAttribute('data-id');
    const action = (event.key === 'Enter' || event.key === ' ') && focused ? () => reveal(focused) : keys[event.key];
    if (action === undefined) return;
    event.preventDefault();
    action();
  });
  sheet.addEventListener('focusin', (event) => {
    const id = event.target instanceof Element ? event.target.getAttribute('data-id') : null;
    if (id === null) return;
    // Scrolling would move the frame, not the drawing; the view does the moving.
    sheet.scrollTo(0, 0);
  });

  new ResizeObserver(applyView).observe(sheet);
  showLayers();

  return {
    draw: (svg, uri, part, moved) => {
      const next = readDrawing(svg);
      if (next === undefined) return false;
      extent = extentOf(next);
      if (moved || host.querySelector('svg') === null) view = viewFor(memory.kept(), uri, part);
      show(host, next, lit, unitOf(view, extent, size()));
      applyView();
      empty.hidden = true;
      sheet.classList.remove('bare');
      return true;
    },
    isEmpty: () => host.querySelector('svg') === null,
    clear: (reason) => {
      host.replaceChildren();
      empty.hidden = false;
      empty.textContent = reason;
      sheet.classList.add('bare');
    },
    light: (ids) => {
      lit = ids;
      light(host, lit);
      const box = lit.size === 0 || sheet.clientWidth === 0 ? undefined : boxOnScreen(host, lit);
      if (box === undefined) return;
      const area = sheet.getBoundingClientRect();
      const corner = toPicture(view, extent, size(), { x: box.left - area.left, y: box.top - area.top });
      const unit = unitOf(view, extent, size());
      const next = bringIntoSight(view, extent, size(), { x: corner.x, y: corner.y, width: box.width * unit, height: box.height * unit });
      if (next !== view) look(next);
    },
    zoom: (factor) => zoom(factor),
    fit: () => look(FIT),
  };
};
