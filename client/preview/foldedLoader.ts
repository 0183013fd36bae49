/** Fetches the code of the view in space when it is first wanted, so that the flat picture never waits for it. */
import type { FoldedView } from './folded/index.js';
import type { Shared } from './memory.js';

export type { FoldedView } from './folded/index.js';

/** What the second script leaves behind for the first. */
interface FoldedBundle {
  readonly createFoldedView: (shared: Shared) => FoldedView;
}
declare global {
  interface Window {
    planishFolded?: FoldedBundle;
  }
}

// Both are known only while this script itself is being run; the page's policy lets in scripts with the nonce alone.
const own = document.currentScript instanceof HTMLScriptElement ? document.currentScript : undefined;
const nonce = own?.nonce ?? '';
const address = own?.dataset.folded ?? '';

const fetched = (): Promise<FoldedBundle> =>
  new Promise((resolve, reject) => {
    const script = document.createElement('script');
    script.nonce = nonce;
    script.src = address;
    script.addEventListener('load', () => {
      if (window.planishFolded === undefined) reject(new Error('its script is not whole'));
      else resolve(window.planishFolded);
    });
    script.addEventListener('error', () => reject(new Error('its script could not be read')));
    document.head.append(script);
  });

export const loadFolded = async (shared: Shared): Promise<FoldedView> =>
  (window.planishFolded ?? (await fetched())).createFoldedView(shared);
