/**
 * The picture page: shows what the extension sends, keeps the reader's view, and reports what was picked.
 * It knows nothing of sheet metal; every word and line comes from the server.
 */
import { type Coalescer, createCoalescer, wallClock } from '../coalesce.js';
import type { FromPage, PartChoice, ToPage } from '../messages.js';
import { boxOnScreen, extentOf, featureNear, light, lineOf, readDrawing, show, sizeWords } from './drawing.js';
import { type Kept, readKept, viewFor, withLayer, withView } from './kept.js';
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

interface EditorApi {
  postMessage(message: FromPage): void;
  getState(): unknown;
  setState(state: Kept): void;
}
declare const acquireVsCodeApi: () => EditorApi;

type PictureMessage = Extract<ToPage, { type: 'picture' }>;

const find = <E extends Element>(selector: string, kind: new () => E): E => {
  const element = document.querySelector(selector);
  if (!(element instanceof kind)) throw new Error(`the page has no ${selector}`);
  return element;
};

const start = (editor: EditorApi): void => {
  const host = find('#drawing', HTMLElement);
  const sheet = find('#sheet', HTMLElement);
  const chooser = find('#part', HTMLSelectElement);
  const banner = find('#banner', HTMLElement);
  const empty = find('#empty', HTMLElement);
  const titleBlock = find('#title', HTMLElement);

  let kept = readKept(editor.getState());
  let uri = kept.uri;
  let version = 0;
  let view: View = FIT;
  let extent: Box = { x: 0, y: 0, width: 100, height: 100 };
  let lit: ReadonlySet<string> = new Set();

  const size = (): Size => ({ width: sheet.clientWidth, height: sheet.clientHeight });
  const keep = (next: Kept): void => {
    kept = next;
    editor.setState(kept);
  };

  const applyView = (): void => {
    const drawing = host.querySelector('svg');
    if (drawing === null) return;
    drawing.setAttribute('viewBox', writeViewBox(viewBoxOf(view, extent, size())));
    sizeWords(drawing, unitOf(view, extent, size()));
  };
  const look = (next: View): void => {
    view = next;
    applyView();
    keep(withView(kept, uri, kept.part, view));
  };

  const offerParts = (parts: readonly PartChoice[], part: string): void => {
    const options = parts.map(({ name, kind, summary }) => {
      const option = document.createElement('option');
      option.value = name;
      option.textContent = name;
      option.title = [kind, summary].filter((word) => word !== '').join(', ');
      return option;
    });
    const same =
      options.length === chooser.options.length && options.every((option, index) => chooser.options[index]?.isEqualNode(option) === true);
    if (!same) chooser.replaceChildren(...options);
    chooser.value = part;
    chooser.disabled = parts.length < 2;
  };

  const say = (stale: boolean, reason: string): void => {
    const words = stale ? ['Last good picture: the text has an error', reason].filter((part) => part !== '').join('. ') : reason;
    banner.hidden = words === '';
    if (banner.textContent !== words) banner.textContent = words;
    document.body.classList.toggle('stale', stale);
  };

  const writeTitle = (title: string): void => {
    const cells = title.split(', ').map((words) => {
      const cell = document.createElement('span');
      cell.textContent = words;
      return cell;
    });
    titleBlock.replaceChildren(...cells);
  };

  const draw = (message: PictureMessage): void => {
    const next = readDrawing(message.svg);
    if (next === undefined) return;
    const moved = message.uri !== uri || message.part !== kept.part || host.querySelector('svg') === null;
    uri = message.uri;
    extent = extentOf(next);
    if (moved) {
      view = viewFor(kept, uri, message.part);
      keep({ ...kept, uri, part: message.part });
    }
    show(host, next, lit, unitOf(view, extent, size()));
    applyView();
    empty.hidden = true;
    sheet.classList.remove('bare');
    offerParts(message.parts, message.part);
    writeTitle(message.title);
    say(message.stale, message.reason);
  };

  const drawings: Coalescer<PictureMessage> = createCoalescer(draw, wallClock);

  const lightUp = (ids: readonly string[]): void => {
    lit = new Set(ids);
    light(host, lit);
    const box = lit.size === 0 ? undefined : boxOnScreen(host, lit);
    if (box === undefined) return;
    const area = sheet.getBoundingClientRect();
    const corner = toPicture(view, extent, size(), { x: box.left - area.left, y: box.top - area.top });
    const unit = unitOf(view, extent, size());
    const next = bringIntoSight(view, extent, size(), { x: corner.x, y: corner.y, width: box.width * unit, height: box.height * unit });
    if (next !== view) look(next);
  };

  const showNothing = (message: Extract<ToPage, { type: 'nothing' }>): void => {
    uri = message.uri;
    keep({ ...kept, uri, part: message.part });
    host.replaceChildren();
    empty.hidden = false;
    empty.textContent = message.reason;
    sheet.classList.add('bare');
    offerParts(message.parts, message.part);
    writeTitle(message.fileName);
    say(false, '');
  };

  const receive = (message: ToPage): void => {
    version = message.version;
    switch (message.type) {
      case 'picture':
        drawings.push(message);
        return;
      case 'unchanged':
        offerParts(message.parts, message.part);
        writeTitle(message.title);
        say(message.stale, message.reason);
        return;
      case 'lit':
        if (message.uri === uri) lightUp(message.ids);
        return;
      case 'nothing':
        showNothing(message);
        return;
    }
  };

  const post = (
    message: { readonly type: 'ready' | 'choosePart'; readonly part: string } | { readonly type: 'reveal'; readonly id: string },
  ): void => editor.postMessage({ ...message, uri, version });

  const centre = (): Spot => ({ x: sheet.clientWidth / 2, y: sheet.clientHeight / 2 });
  const zoom = (factor: number, spot: Spot = centre()): void => look(zoomAbout(view, extent, size(), spot, factor));
  const pan = (right: number, down: number): void => look(panBy(view, extent, size(), right, down));

  const showLayers = (): void => {
    host.dataset.hidden = kept.hidden.join(' ');
    for (const box of document.querySelectorAll<HTMLInputElement>('input[data-layer]'))
      box.checked = !kept.hidden.includes(box.dataset.layer ?? '');
  };

  window.addEventListener('message', (event: MessageEvent<ToPage>) => receive(event.data));
  chooser.addEventListener('change', () => post({ type: 'choosePart', part: chooser.value }));
  find('#closer', HTMLButtonElement).addEventListener('click', () => zoom(1.4));
  find('#farther', HTMLButtonElement).addEventListener('click', () => zoom(1 / 1.4));
  find('#fit', HTMLButtonElement).addEventListener('click', () => look(FIT));
  find('#layers', HTMLFieldSetElement).addEventListener('change', (event) => {
    const box = event.target;
    if (!(box instanceof HTMLInputElement) || box.dataset.layer === undefined) return;
    keep(withLayer(kept, box.dataset.layer, box.checked));
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
    if (id !== undefined) post({ type: 'reveal', id });
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
    const action = (event.key === 'Enter' || event.key === ' ') && focused ? () => post({ type: 'reveal', id: focused }) : keys[event.key];
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
  post({ type: 'ready', part: kept.part });
};

start(acquireVsCodeApi());
