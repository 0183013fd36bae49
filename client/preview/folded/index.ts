/** The part in space: what the second script gives the page. */
import type { FoldedModel, FoldedPlace } from '../../../server/lsp/protocol.js';
import { lookFor, withLook } from '../kept.js';
import { find, type Shared } from '../memory.js';
import { calm, createEye, type Eye } from './camera.js';
import { createScene, type PartScene } from './scene.js';
import { drawMeasures } from './sizes.js';

export interface FoldedView {
  show(model: FoldedModel, uri: string, part: string, moved: boolean): void;
  light(ids: ReadonlySet<string>): void;
  zoom(factor: number): void;
  fit(): void;
  /** Whether the view is in front. */
  seen(yes: boolean): void;
  /** Something went wrong: says so in place of the part. */
  fail(reason: string): void;
}

/** Time for one bend while it plays, and for all of them, ms. */
const BEND_TIME = 800;
const LONGEST_PLAY = 10_000;

export const createFoldedView = ({ memory, reveal }: Shared): FoldedView => {
  const space = find('#space', HTMLElement);
  const canvas = find('#scene', HTMLCanvasElement);
  const excuse = find('#no_space', HTMLElement);
  const fail = (reason: string): void => {
    excuse.hidden = false;
    excuse.textContent = reason;
    space.classList.add('bare');
  };
  const nowhere: FoldedView = { show: () => {}, light: () => {}, zoom: () => {}, fit: () => {}, seen: () => {}, fail };
  let scene: PartScene;
  try {
    scene = createScene(canvas);
  } catch {
    fail('This window can’t draw in space: it has no WebGL. The flat picture and the files to export are all there.');
    return nowhere;
  }
  return viewOf(scene, { space, canvas, fail, memory, reveal });
};

interface Parts extends Shared {
  readonly space: HTMLElement;
  readonly canvas: HTMLCanvasElement;
  readonly fail: (reason: string) => void;
}

const viewOf = (scene: PartScene, { space, canvas, fail, memory, reveal }: Parts): FoldedView => {
  const slider = find('#turned', HTMLInputElement);
  const stops = find('#stops', HTMLDataListElement);
  const output = find('#step', HTMLOutputElement);
  const play = find('#play', HTMLButtonElement);
  const sizesHost = find('#sizes', HTMLElement);
  const words = find('#pointed', HTMLElement);
  const faultKeys = {
    clash: find('.clash_key', HTMLElement),
    error: find('.error_key', HTMLElement),
    warning: find('.warning_key', HTMLElement),
  };

  let model: FoldedModel | undefined;
  let names: ReadonlyMap<string, string> = new Map();
  let lit: ReadonlySet<string> = new Set();
  let pointed: string | undefined;
  let turned = 1;
  let inFront = false;
  let wanted = 0;
  let keeping: ReturnType<typeof setTimeout> | undefined;
  let playing = 0;

  /** The feature spoken of: under the pointer, else under the cursor in the text, which may stand in another part. */
  const inHand = (): string | undefined => pointed ?? [...lit].find((id) => names.has(id));
  /** A bend counts as the flange that it bears. */
  const flangeOf = (id: string | undefined): string | undefined => id?.replace(/^bend:/, 'face:');
  const placesToShow = (): readonly FoldedPlace[] => {
    const own = flangeOf(inHand());
    return model?.places.filter(({ between, clash }) => clash || (own !== undefined && between.some((id) => flangeOf(id) === own))) ?? [];
  };
  const steps = (): number => model?.steps.length ?? 0;

  const paint = (): void => {
    wanted = 0;
    if (!inFront || space.clientWidth === 0) return;
    scene.draw(eye.camera);
    const finished = turned === 1;
    drawMeasures(sizesHost, eye, scene.corners(), finished ? (model?.sizes ?? []) : [], finished ? placesToShow() : []);
  };
  const soon = (): void => {
    if (wanted === 0) wanted = requestAnimationFrame(paint);
  };
  /** Kept when the hand rests, not at every pixel of a drag. */
  const keepSoon = (): void => {
    clearTimeout(keeping);
    keeping = setTimeout(() => {
      const kept = memory.kept();
      memory.keep(withLook(kept, memory.uri(), kept.part, { ...eye.look(), turned }));
    }, 150);
  };
  const eye: Eye = createEye(canvas, (byHand) => {
    soon();
    if (byHand) keepSoon();
  });

  const sayStep = (): void => {
    if (model === undefined) return;
    const at = turned * steps();
    const step = Math.min(steps() - 1, Math.max(0, Math.ceil(at - 1e-6) - 1));
    const said =
      steps() === 0
        ? 'no bends'
        : turned === 0
          ? 'flat'
          : turned === 1
            ? `finished, ${steps()} ${steps() === 1 ? 'bend' : 'bends'}${model.order.planned ? ', as planned' : ''}`
            : `bend ${step + 1} of ${steps()}, ${model.steps[step] ?? ''}`;
    if (output.textContent !== said) output.textContent = said;
    slider.setAttribute('aria-valuetext', said);
    for (const each of [output, slider]) each.title = steps() === 0 ? '' : model.order.words;
  };
  const fold = (share: number): void => {
    turned = Math.min(1, Math.max(0, share));
    slider.value = String(turned);
    const at = turned * steps();
    const shares = new Map<string, number>();
    model?.moving.steps.forEach(({ bends, from, to }, i) => {
      const done = Math.min(1, Math.max(0, at - i));
      // A bend made in two goes rests where the first left it.
      for (const id of bends) if (done > 0 || !shares.has(id)) shares.set(id, from + (to - from) * done);
    });
    scene.setTurned((bend) => shares.get(bend) ?? 1);
    eye.follow(scene.corners());
    sayStep();
    say();
    soon();
  };

  const stop = (): void => {
    playing++;
    play.classList.remove('playing');
    play.setAttribute('aria-label', 'Fold step by step');
  };
  const start = (): void => {
    const turn = ++playing;
    play.classList.add('playing');
    play.setAttribute('aria-label', 'Stop');
    const from = turned === 1 ? 0 : turned;
    const time = Math.min(LONGEST_PLAY, BEND_TIME * Math.max(1, steps()));
    const started = performance.now();
    const frame = (): void => {
      if (turn !== playing) return;
      const share = Math.min(1, from + (performance.now() - started) / time);
      // Who wants no motion sees each bend as it is done.
      fold(calm() ? Math.floor(share * steps() + 1e-9) / Math.max(1, steps()) : share);
      if (share < 1) requestAnimationFrame(frame);
      else {
        stop();
        keepSoon();
      }
    };
    frame();
  };
  play.addEventListener('click', () => (play.classList.contains('playing') ? stop() : start()));
  slider.addEventListener('input', () => {
    stop();
    // Near the end of a bend it snaps to it, so that a hand can stop between bends.
    const raw = Number(slider.value) * steps();
    const near = Math.round(raw);
    fold((Math.abs(raw - near) < 0.06 ? near : raw) / Math.max(1, steps()));
    keepSoon();
  });
  const byBends = (count: number): void => {
    stop();
    const at = turned * steps();
    const next = count > 0 ? Math.floor(at + 1e-6) + 1 : Math.ceil(at - 1e-6) - 1;
    fold(next / Math.max(1, steps()));
    keepSoon();
  };
  slider.addEventListener('keydown', (event) => {
    const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    byBends(by);
  });

  const say = (): void => {
    const id = inHand();
    // Remarks are about the finished part.
    const remarks = turned === 1 ? (model?.remarks ?? []) : [];
    const said = id !== undefined ? (names.get(id) ?? id) : [...(model?.collisions ?? []), ...remarks].join(' ');
    if (words.textContent !== said) words.textContent = said;
    const wrong =
      id === undefined
        ? (model?.collisions.length ?? 0) > 0
        : model?.faults.some((fault) => fault.id === id && fault.severity === 'error') === true;
    words.classList.toggle('fault', wrong);
  };
  const point = (id: string | undefined): void => {
    if (id === pointed) return;
    pointed = id;
    scene.setLit(lit, pointed);
    canvas.classList.toggle('over', id !== undefined);
    say();
    soon();
  };
  const under = (event: PointerEvent | MouseEvent): string | undefined => {
    const area = canvas.getBoundingClientRect();
    const x = ((event.clientX - area.left) / area.width) * 2 - 1;
    return scene.featureAt(eye.camera, x, 1 - ((event.clientY - area.top) / area.height) * 2);
  };

  let pressed: { readonly x: number; readonly y: number } | undefined;
  canvas.addEventListener('pointerdown', (event) => {
    pressed = { x: event.clientX, y: event.clientY };
    space.focus();
  });
  canvas.addEventListener('pointermove', (event) => {
    if (event.buttons === 0) point(under(event));
  });
  canvas.addEventListener('pointerleave', () => point(undefined));
  canvas.addEventListener('pointerup', (event) => {
    // A hand trembles by a pixel or two while it clicks; that is no drag.
    const click = pressed !== undefined && event.button === 0 && Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) < 4;
    pressed = undefined;
    const id = click ? under(event) : undefined;
    if (id !== undefined) reveal(id);
  });

  const goTo = (by: number): void => {
    const ids = [...new Set(model?.moving.pieces.flatMap(({ feature, holes }) => [feature, ...holes.map((hole) => hole.feature)]) ?? [])];
    const at = ids.indexOf(inHand() ?? '');
    point(ids[(at + by + ids.length + (at < 0 && by < 0 ? 1 : 0)) % Math.max(1, ids.length)]);
  };
  const turnTo = (side: string): void => eye.turnTo(side);
  const keys: Readonly<Record<string, (shift: boolean) => void>> = {
    ArrowLeft: (shift) => (shift ? eye.move(40, 0) : eye.orbit(-0.12, 0)),
    ArrowRight: (shift) => (shift ? eye.move(-40, 0) : eye.orbit(0.12, 0)),
    ArrowUp: (shift) => (shift ? eye.move(0, 40) : eye.orbit(0, -0.12)),
    ArrowDown: (shift) => (shift ? eye.move(0, -40) : eye.orbit(0, 0.12)),
    '+': () => eye.zoom(1.25),
    '=': () => eye.zoom(1.25),
    '-': () => eye.zoom(1 / 1.25),
    '−': () => eye.zoom(1 / 1.25),
    '0': () => eye.fit(),
    '1': () => turnTo('front'),
    '2': () => turnTo('right'),
    '3': () => turnTo('top'),
    '5': () => turnTo('iso'),
    ',': () => byBends(-1),
    '.': () => byBends(1),
    n: () => goTo(1),
    p: () => goTo(-1),
    ' ': () => play.click(),
    Enter: () => {
      const id = inHand();
      if (id !== undefined) reveal(id);
    },
  };
  space.addEventListener('keydown', (event) => {
    const action = keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    if (event.ctrlKey || event.metaKey || event.altKey || action === undefined) return;
    event.preventDefault();
    action(event.shiftKey);
  });
  for (const button of document.querySelectorAll<HTMLButtonElement>('[data-side]'))
    button.addEventListener('click', () => turnTo(button.dataset.side ?? ''));

  canvas.addEventListener('webglcontextlost', (event) => {
    event.preventDefault();
    fail(
      'The view in space was given up by this window to save memory. It comes back by itself; if it does not, close this picture and open it again.',
    );
  });
  canvas.addEventListener('webglcontextrestored', () => {
    find('#no_space', HTMLElement).hidden = true;
    space.classList.remove('bare');
    soon();
  });

  const resize = (): void => {
    if (space.clientWidth === 0) return;
    scene.resize(space.clientWidth, space.clientHeight);
    eye.resize(space.clientWidth, space.clientHeight);
    paint();
  };
  new ResizeObserver(resize).observe(space);
  // A change of theme changes the classes of the body and the colours on the root.
  const themes = new MutationObserver(() => {
    scene.recolour();
    soon();
  });
  themes.observe(document.body, { attributes: true, attributeFilter: ['class', 'data-vscode-theme-id'] });
  themes.observe(document.documentElement, { attributes: true, attributeFilter: ['style'] });

  return {
    show: (next, uri, part, moved) => {
      model = next;
      names = new Map(next.names.map(({ id, name }) => [id, name]));
      scene.setModel(next);
      stops.replaceChildren(
        ...Array.from({ length: steps() + 1 }, (_, i) => {
          const stopAt = document.createElement('option');
          stopAt.value = String(i / Math.max(1, steps()));
          return stopAt;
        }),
      );
      slider.disabled = steps() === 0;
      play.disabled = steps() === 0;
      const clashes = next.collisions.length > 0;
      // Holes are not coloured.
      const wrong = new Set(next.faults.flatMap(({ id, severity }) => (id.startsWith('cut:') ? [] : [severity])));
      faultKeys.clash.hidden = !clashes;
      faultKeys.error.hidden = clashes || !wrong.has('error');
      faultKeys.warning.hidden = !wrong.has('warning');
      const look = lookFor(memory.kept(), uri, part);
      if (moved) {
        stop();
        resize();
        fold(look.turned);
        eye.setLook(look);
      } else fold(turned);
      say();
      // A new part in the picture is drawn in this frame, not in the next.
      paint();
    },
    light: (ids) => {
      lit = ids;
      scene.setLit(lit, pointed);
      say();
      soon();
    },
    zoom: eye.zoom,
    fit: eye.fit,
    seen: (yes) => {
      inFront = yes;
      if (yes) resize();
      else stop();
    },
    fail,
  };
};
