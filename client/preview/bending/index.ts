/** The bending of a part in the page: its steps in a row, the chosen one seen from the end of the brake, and what to do in words. */
import type { BendingModel, BendingMotion } from '../../../server/lsp/protocol.js';
import { stepFor, withStep } from '../kept.js';
import { find, type Shared } from '../memory.js';
import { FIT, panBy, type Size, type Spot, unitOf, type View, viewBoxOf, wheelFactor, writeViewBox, zoomAbout } from '../viewport.js';
import { poseAt } from './pose.js';
import { drawSection, type SectionDrawing } from './section.js';
import { element, stepWords, stopWords } from './words.js';

export interface BendingView {
  show(model: BendingModel, uri: string, part: string, moved: boolean): void;
  /** A new plan is being made: what is shown is of the text before. */
  planning(): void;
  light(ids: ReadonlySet<string>): void;
  zoom(factor: number): void;
  fit(): void;
  /** Whether the view is in front. */
  seen(yes: boolean): void;
}

/** Time for one step while it plays, ms. */
const STEP_TIME = 2200;

/** Someone who wants no motion sees where it ends. */
const calm = (): boolean =>
  matchMedia('(prefers-reduced-motion: reduce)').matches || document.body.classList.contains('vscode-reduce-motion');

/** One place of the row: a step of the plan, or a bend that stops the part. */
interface Item {
  readonly title: string;
  readonly set: string;
  readonly number: string;
  readonly bends: readonly string[];
  readonly motion: BendingMotion | undefined;
  readonly words: () => readonly HTMLElement[];
}

const itemsOf = (model: BendingModel): readonly Item[] =>
  model.possible
    ? model.steps.map((step) => ({ ...step, number: String(step.number), words: () => stepWords(model, step) }))
    : model.stops.map((stop) => ({ ...stop, number: '', set: 'stopped', words: () => stopWords(model, stop) }));

export const createBendingView = ({ memory, reveal }: Shared): BendingView => {
  const room = find('#bending', HTMLElement);
  const lead = find('#bend_lead', HTMLElement);
  const row = find('#bend_steps', HTMLElement);
  const side = find('#bend_side', HTMLElement);
  const words = find('#bend_words', HTMLElement);
  const bar = find('#bend_bar', HTMLElement);
  const before = find('#bend_before', HTMLButtonElement);
  const after = find('#bend_after', HTMLButtonElement);
  const play = find('#bend_play', HTMLButtonElement);
  const slider = find('#bend_turned', HTMLInputElement);
  const output = find('#bend_at', HTMLOutputElement);

  let model: BendingModel | undefined;
  let items: readonly Item[] = [];
  let chosen = 0;
  let drawing: SectionDrawing | undefined;
  let view: View = FIT;
  let lit: ReadonlySet<string> = new Set();
  let playing = 0;

  const size = (): Size => ({ width: side.clientWidth, height: side.clientHeight });
  const look = (next: View): void => {
    view = next;
    if (drawing === undefined || side.clientWidth === 0) return;
    drawing.svg.setAttribute('viewBox', writeViewBox(viewBoxOf(view, drawing.extent, size())));
    drawing.sizeWords(unitOf(view, drawing.extent, size()));
  };
  const centre = (): Spot => ({ x: side.clientWidth / 2, y: side.clientHeight / 2 });
  const zoom = (factor: number, spot: Spot = centre()): void => {
    if (drawing !== undefined) look(zoomAbout(view, drawing.extent, size(), spot, factor));
  };
  const pan = (right: number, down: number): void => {
    if (drawing !== undefined) look(panBy(view, drawing.extent, size(), right, down));
  };

  const item = (): Item | undefined => items[chosen];
  const stopped = (): boolean => model?.possible === false;
  const degrees = (turn: number): string => `${Math.round((turn * 1800) / Math.PI) / 10}°`;
  /** Moves the leaf to a share of the step. */
  const move = (share: number): void => {
    slider.value = String(share);
    const motion = item()?.motion;
    if (motion === undefined || drawing === undefined) return;
    const pose = poseAt(motion, share, stopped());
    drawing.move(pose);
    const said =
      share >= 1
        ? stopped()
          ? `at ${degrees(motion.rests)}: stopped`
          : Math.abs(motion.set - motion.rests) < 1e-4
            ? `bent to ${degrees(motion.rests)}`
            : `sprung back to ${degrees(motion.rests)}`
        : `leaf at ${degrees(pose.leaf)}`;
    if (output.textContent !== said) output.textContent = said;
    slider.setAttribute('aria-valuetext', said);
  };

  const stop = (): void => {
    playing++;
    play.classList.remove('playing');
    play.setAttribute('aria-label', 'Play this step');
  };
  const start = (): void => {
    if (item()?.motion === undefined) return;
    stop();
    if (calm()) {
      move(1);
      return;
    }
    const turn = ++playing;
    play.classList.add('playing');
    play.setAttribute('aria-label', 'Stop');
    const from = Number(slider.value) >= 1 ? 0 : Number(slider.value);
    const started = performance.now();
    const frame = (): void => {
      if (turn !== playing) return;
      const share = Math.min(1, from + (performance.now() - started) / STEP_TIME);
      move(share);
      if (share < 1) requestAnimationFrame(frame);
      else stop();
    };
    frame();
  };

  const markChosen = (): void => {
    for (const [index, each] of [...row.children].entries()) {
      const yes = index === chosen;
      each.setAttribute('aria-selected', String(yes));
      each.classList.toggle('lit', items[index]?.bends.some((id) => lit.has(id)) === true);
      if (yes) {
        row.setAttribute('aria-activedescendant', each.id);
        each.scrollIntoView({ block: 'nearest', inline: 'nearest' });
      }
    }
    before.disabled = chosen <= 0;
    after.disabled = chosen >= items.length - 1;
  };

  const choose = (index: number, byHand: boolean): void => {
    stop();
    chosen = Math.min(Math.max(0, index), Math.max(0, items.length - 1));
    const now = item();
    drawing = now?.motion === undefined ? undefined : drawSection(now.motion, stopped(), stopped() ? '' : now.set);
    const picture = drawing?.svg ?? element('p', 'by_hand', 'Made by hand: the brake has no part in it.');
    side.replaceChildren(picture, ...(drawing === undefined ? [] : [element('p', 'operator', 'operator’s side →')]));
    words.replaceChildren(...(now?.words() ?? []));
    words.scrollTop = 0;
    for (const control of [slider, play]) control.disabled = drawing === undefined;
    if (drawing === undefined) output.textContent = '';
    look(FIT);
    move(1);
    markChosen();
    if (!byHand) return;
    const kept = memory.kept();
    memory.keep(withStep(kept, memory.uri(), kept.part, chosen));
    start();
  };
  const step = (by: number): void => {
    if (chosen + by >= 0 && chosen + by < items.length) choose(chosen + by, true);
  };
  const revealChosen = (): void => {
    const id = item()?.bends[0];
    if (id !== undefined) reveal(id);
  };

  const thumbnail = (one: Item, index: number): HTMLElement => {
    const entry = element('li', '');
    entry.id = `bend_step_${index}`;
    entry.setAttribute('role', 'option');
    entry.title = `${one.title}, ${one.set}`;
    if (one.motion === undefined) entry.append(element('span', 'no_picture', 'by hand'));
    else {
      const small = drawSection(one.motion, stopped(), undefined);
      small.move(poseAt(one.motion, 1, stopped()));
      const { x, y, width, height } = small.extent;
      small.svg.setAttribute('viewBox', [x, y, width, height].join(' '));
      small.svg.setAttribute('aria-hidden', 'true');
      entry.append(small.svg);
    }
    entry.append(
      element('span', 'step_name', one.number === '' ? one.title : `${one.number}  ${one.title}`),
      element('span', 'step_set', one.set),
    );
    entry.addEventListener('click', () => choose(index, true));
    return entry;
  };

  side.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      const area = side.getBoundingClientRect();
      zoom(wheelFactor(event.deltaY, event.deltaMode, event.ctrlKey), { x: event.clientX - area.left, y: event.clientY - area.top });
    },
    { passive: false },
  );
  let drag: { readonly x: number; readonly y: number; readonly moved: boolean } | undefined;
  side.addEventListener('pointerdown', (event) => {
    if (event.button !== 0 && event.button !== 1) return;
    drag = { x: event.clientX, y: event.clientY, moved: false };
    side.setPointerCapture(event.pointerId);
    side.focus();
  });
  side.addEventListener('pointermove', (event) => {
    if (drag === undefined) return;
    const [right, down] = [event.clientX - drag.x, event.clientY - drag.y];
    // A hand trembles by a pixel or two while it clicks; that is no drag.
    if (!drag.moved && Math.hypot(right, down) < 4) return;
    drag = { x: event.clientX, y: event.clientY, moved: true };
    pan(right, down);
  });
  side.addEventListener('pointerup', (event) => {
    const clicked = drag?.moved === false;
    drag = undefined;
    const hit = clicked ? document.elementFromPoint(event.clientX, event.clientY) : null;
    const id = hit instanceof SVGElement ? hit.dataset.id : undefined;
    if (id !== undefined) reveal(id);
  });
  side.addEventListener('pointercancel', () => {
    drag = undefined;
  });
  words.addEventListener('click', (event) => {
    const id = event.target instanceof Element ? event.target.closest<HTMLElement | SVGElement>('[data-id]')?.dataset.id : undefined;
    if (id !== undefined) reveal(id);
  });

  const keys: Readonly<Record<string, (shift: boolean) => void>> = {
    ArrowLeft: (shift) => (shift ? pan(40, 0) : step(-1)),
    ArrowRight: (shift) => (shift ? pan(-40, 0) : step(1)),
    ArrowUp: (shift) => (shift ? pan(0, 40) : step(-1)),
    ArrowDown: (shift) => (shift ? pan(0, -40) : step(1)),
    PageUp: () => step(-1),
    PageDown: () => step(1),
    Home: () => choose(0, true),
    End: () => choose(items.length - 1, true),
    '+': () => zoom(1.25),
    '=': () => zoom(1.25),
    '-': () => zoom(1 / 1.25),
    '−': () => zoom(1 / 1.25),
    '0': () => look(FIT),
    ',': () => nudge(-0.1),
    '.': () => nudge(0.1),
    ' ': () => play.click(),
    Enter: revealChosen,
  };
  const nudge = (by: number): void => {
    stop();
    move(Math.min(1, Math.max(0, Number(slider.value) + by)));
  };
  for (const host of [row, side])
    host.addEventListener('keydown', (event) => {
      const action = keys[event.key];
      if (event.ctrlKey || event.metaKey || event.altKey || action === undefined) return;
      event.preventDefault();
      action(event.shiftKey);
    });
  before.addEventListener('click', () => step(-1));
  after.addEventListener('click', () => step(1));
  play.addEventListener('click', () => (play.classList.contains('playing') ? stop() : start()));
  slider.addEventListener('input', () => {
    stop();
    move(Number(slider.value));
  });
  new ResizeObserver(() => {
    look(view);
    row.children[chosen]?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }).observe(side);
  matchMedia('(max-width: 640px)').addEventListener('change', () => words.replaceChildren(...(item()?.words() ?? [])));

  return {
    show: (next, uri, part, moved) => {
      // The same plan told again leaves a step that is being played alone.
      const same = !moved && JSON.stringify(next) === JSON.stringify(model);
      room.classList.remove('waiting');
      if (same) return;
      model = next;
      items = itemsOf(next);
      lead.textContent = next.lead;
      room.classList.toggle('blocked', !next.possible);
      row.replaceChildren(...items.map(thumbnail));
      row.hidden = items.length < 2;
      choose(moved ? stepFor(memory.kept(), uri, part) : chosen, false);
    },
    planning: () => room.classList.add('waiting'),
    light: (ids) => {
      const news = [...ids].some((id) => !lit.has(id));
      lit = ids;
      const found = items.findIndex(({ bends }) => bends.some((id) => lit.has(id)));
      // The text under the cursor turns to the step that makes it.
      if (news && found >= 0 && found !== chosen) choose(found, false);
      else markChosen();
    },
    zoom,
    fit: () => look(FIT),
    seen: (yes) => {
      room.hidden = !yes;
      bar.hidden = !yes;
      if (yes) look(view);
      else stop();
    },
  };
};
