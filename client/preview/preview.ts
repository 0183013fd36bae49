/**
 * The picture page: shows what the extension sends in one of its views, keeps how the reader looked at it, and reports what was picked.
 * It knows nothing of sheet metal; every word and line comes from the server.
 */
import { type Coalescer, createCoalescer, wallClock } from '../coalesce.js';
import { type FromPage, isViewName, type PartChoice, type ToPage, type ViewName } from '../messages.js';
import { createBendingView } from './bending/index.js';
import { createFlatView } from './flatView.js';
import { type FoldedView, loadFolded } from './foldedLoader.js';
import { type Kept, readKept } from './kept.js';
import { find, type Memory } from './memory.js';

interface EditorApi {
  postMessage(message: FromPage): void;
  getState(): unknown;
  setState(state: Kept): void;
}
declare const acquireVsCodeApi: () => EditorApi;

type PictureMessage = Extract<ToPage, { type: 'picture' }>;
type FoldedMessage = Extract<ToPage, { type: 'folded' }>;
type BendingMessage = Extract<ToPage, { type: 'bending' }>;

const start = (editor: EditorApi): void => {
  const sheet = find('#sheet', HTMLElement);
  const space = find('#space', HTMLElement);
  const chooser = find('#part', HTMLSelectElement);
  const choosing = find('.chooser', HTMLElement);
  const banner = find('#banner', HTMLElement);
  const titleBlock = find('#title', HTMLElement);
  const empty = find('#empty', HTMLElement);

  let kept = readKept(editor.getState());
  let uri = kept.uri;
  let version = 0;
  let lit: ReadonlySet<string> = new Set();
  const memory: Memory = {
    kept: () => kept,
    keep: (next) => {
      kept = next;
      editor.setState(kept);
    },
    uri: () => uri,
  };
  type Said<M> = M extends FromPage ? Omit<M, 'uri' | 'version'> : never;
  const post = (message: Said<FromPage>): void => editor.postMessage({ ...message, uri, version });
  const shared = { memory, reveal: (id: string) => post({ type: 'reveal', id }) };

  const flat = createFlatView(shared);
  const bending = createBendingView(shared);
  let folded: FoldedView | undefined;
  /** Another part than the one before, for each view by itself. */
  const shownIn: Record<ViewName, string> = { flat: '', folded: '', bending: '' };
  const moved = (view: ViewName, key: string): boolean => {
    const changed = shownIn[view] !== key;
    shownIn[view] = key;
    return changed;
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
    choosing.hidden = parts.length === 0;
  };

  const say = (stale: boolean, reason: string): void => {
    const words = stale ? ['Last good picture: the text has an error', reason].filter((part) => part !== '').join('. ') : reason;
    banner.hidden = words === '';
    if (banner.textContent !== words) banner.textContent = words;
    document.body.classList.toggle('stale', stale);
  };

  const writeTitle = (title: string): void => {
    // What stands in brackets, as a tube and its wall, is one cell.
    const cells = title.split(/, (?![^(]*\))/).map((words) => {
      const cell = document.createElement('span');
      cell.textContent = words;
      return cell;
    });
    titleBlock.replaceChildren(...cells);
  };

  /** The view in front: its own frame, and the tools that belong to it. Where there is nothing to show, the flat frame says why. */
  const bringForward = (view: ViewName, bare: boolean): void => {
    for (const tab of document.querySelectorAll<HTMLButtonElement>('[data-view]')) {
      const chosen = tab.dataset.view === view;
      tab.setAttribute('aria-selected', String(chosen));
      tab.tabIndex = chosen ? 0 : -1;
    }
    const inSpace = view === 'folded' && !bare;
    const atBrake = view === 'bending' && !bare;
    sheet.hidden = inSpace || atBrake;
    space.hidden = !inSpace;
    find('#folding', HTMLElement).hidden = !inSpace;
    find('#sides', HTMLElement).hidden = view !== 'folded';
    find('#layers', HTMLFieldSetElement).hidden = view !== 'flat';
    document.body.dataset.shown = view;
    folded?.seen(inSpace);
    bending.seen(atBrake);
  };

  const settle = (message: PictureMessage | FoldedMessage | BendingMessage): void => {
    uri = message.uri;
    if (message.uri !== kept.uri || message.part !== kept.part) memory.keep({ ...kept, uri, part: message.part });
    bringForward(kept.view, false);
    offerParts(message.parts, message.part);
    writeTitle(message.title);
    say(message.stale, message.reason);
  };

  const draw = (message: PictureMessage): void => {
    if (kept.view !== 'flat') return;
    settle(message);
    flat.draw(message.svg, message.uri, message.part, moved('flat', `${message.uri}#${message.part}`));
  };
  const drawFolded = async (message: FoldedMessage): Promise<void> => {
    if (kept.view !== 'folded') return;
    settle(message);
    folded ??= await loadFolded(shared);
    // The reader may have turned to another view or file while the code for this one was fetched.
    if (kept.view !== 'folded' || uri !== message.uri) return;
    folded.seen(true);
    folded.show(message.model, message.uri, message.part, moved('folded', `${message.uri}#${message.part}`));
    folded.light(lit);
  };

  const drawBending = (message: BendingMessage): void => {
    if (kept.view !== 'bending') return;
    settle(message);
    bending.show(message.model, message.uri, message.part, moved('bending', `${message.uri}#${message.part}`));
    bending.light(lit);
  };
  /** What is shown of the same part stays until its new plan is there. */
  const showPlanning = (message: Extract<ToPage, { type: 'planning' }>): void => {
    if (kept.view !== 'bending') return;
    const same = shownIn.bending === `${message.uri}#${message.part}`;
    uri = message.uri;
    memory.keep({ ...kept, uri, part: message.part });
    bringForward('bending', !same);
    bending.planning();
    if (!same) flat.clear('Working out the order of the bends…');
    offerParts(message.parts, message.part);
    writeTitle(message.title);
    say(false, '');
  };

  const drawings: Coalescer<PictureMessage> = createCoalescer(draw, wallClock);
  const foldings: Coalescer<FoldedMessage> = createCoalescer(drawFolded, wallClock, (reason) => {
    folded?.fail(String(reason));
    if (folded === undefined) {
      bringForward(kept.view, true);
      flat.clear(`The view in space could not be loaded. ${String(reason)}`);
    }
  });

  const lightUp = (ids: readonly string[]): void => {
    lit = new Set(ids);
    if (kept.view === 'folded') folded?.light(lit);
    else if (kept.view === 'bending') bending.light(lit);
    else flat.light(lit);
  };

  const showNothing = (message: Extract<ToPage, { type: 'nothing' }>): void => {
    uri = message.uri;
    memory.keep({ ...kept, uri, part: message.part });
    bringForward(kept.view, true);
    flat.clear(message.reason);
    shownIn.flat = '';
    shownIn.bending = '';
    offerParts(message.parts, message.part);
    writeTitle(message.fileName);
    say(false, '');
  };

  const chooseView = (view: ViewName): void => {
    if (view === kept.view) return;
    memory.keep({ ...kept, view });
    bringForward(view, false);
    // Until the picture comes, the frame says so rather than showing the last one of some other part.
    if (view === 'flat' && flat.isEmpty()) empty.textContent = 'Waiting for the picture…';
    lightUp([...lit]);
  };

  const receive = (message: ToPage): void => {
    if (message.type !== 'view') version = message.version;
    switch (message.type) {
      case 'picture':
        drawings.push(message);
        return;
      case 'folded':
        foldings.push(message);
        return;
      case 'bending':
        drawBending(message);
        return;
      case 'planning':
        showPlanning(message);
        return;
      case 'view':
        chooseView(message.view);
        return;
      case 'unchanged':
        if (kept.view !== 'flat') return;
        bringForward('flat', false);
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

  window.addEventListener('message', (event: MessageEvent<ToPage>) => receive(event.data));
  chooser.addEventListener('change', () => post({ type: 'choosePart', part: chooser.value }));
  const inFront = (): { zoom(factor: number): void; fit(): void } =>
    kept.view === 'folded' && folded !== undefined ? folded : kept.view === 'bending' ? bending : flat;
  find('#closer', HTMLButtonElement).addEventListener('click', () => inFront().zoom(1.4));
  find('#farther', HTMLButtonElement).addEventListener('click', () => inFront().zoom(1 / 1.4));
  find('#fit', HTMLButtonElement).addEventListener('click', () => inFront().fit());

  const tabs = [...document.querySelectorAll<HTMLButtonElement>('[data-view]')];
  const turnTo = (view: string | undefined): void => {
    if (!isViewName(view) || view === kept.view) return;
    chooseView(view);
    post({ type: 'chooseView', view });
  };
  for (const [index, tab] of tabs.entries()) {
    tab.addEventListener('click', () => turnTo(tab.dataset.view));
    tab.addEventListener('keydown', (event) => {
      const by = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
      const next = tabs[(index + by + tabs.length) % tabs.length];
      if (by === 0 || next === undefined) return;
      event.preventDefault();
      next.focus();
      turnTo(next.dataset.view);
    });
  }

  bringForward(kept.view, true);
  post({ type: 'ready', part: kept.part, view: kept.view });
};

start(acquireVsCodeApi());
