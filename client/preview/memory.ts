/** What the views of the page share: what is kept, which document and part they show, and a way to the text. */
import type { Kept } from './kept.js';

export interface Memory {
  kept(): Kept;
  keep(next: Kept): void;
  uri(): string;
}

export interface Shared {
  readonly memory: Memory;
  /** The reader picked a feature and wants its source. */
  reveal(id: string): void;
}

export const find = <E extends Element>(selector: string, kind: new () => E): E => {
  const element = document.querySelector(selector);
  if (!(element instanceof kind)) throw new Error(`the page has no ${selector}`);
  return element;
};
