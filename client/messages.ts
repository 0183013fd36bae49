/**
 * What the extension and the page inside the preview say to one another. Both sides compile this file.
 * Every message names the document and the version it speaks of, so that a late one can be told from a fresh one.
 */
import type { BendingModel, FoldedModel } from '../server/lsp/protocol.js';

/** The views of one part in the preview. */
export type ViewName = 'flat' | 'folded' | 'bending';
const VIEWS: readonly ViewName[] = ['flat', 'folded', 'bending'];
export const isViewName = (value: unknown): value is ViewName => VIEWS.some((name) => name === value);

export interface About {
  /** The document's address, as the editor writes it. */
  readonly uri: string;
  /** The document's version when this was true. */
  readonly version: number;
}

/** One line of the part chooser. */
export interface PartChoice {
  readonly name: string;
  readonly kind: string;
  /** Blank size and the like, in the file's own unit; empty when there is no blank. */
  readonly summary: string;
}

/** From the extension to the page. */
export type ToPage = About &
  (
    | {
        readonly type: 'picture';
        readonly fileName: string;
        readonly parts: readonly PartChoice[];
        readonly part: string;
        /** One line: part, kind, sheet, blank size, mass, parted by commas. */
        readonly title: string;
        /** A whole SVG document; the page takes only drawing elements from it. */
        readonly svg: string;
        /** The text is broken: this is the last picture that could be drawn. */
        readonly stale: boolean;
        /** What is wrong with the text, when something is; empty otherwise. */
        readonly reason: string;
      }
    /** The part folded, for the view in space. */
    | {
        readonly type: 'folded';
        readonly fileName: string;
        readonly parts: readonly PartChoice[];
        readonly part: string;
        readonly title: string;
        readonly model: FoldedModel;
        readonly stale: boolean;
        readonly reason: string;
      }
    /** How the part is bent, step by step. */
    | {
        readonly type: 'bending';
        readonly fileName: string;
        readonly parts: readonly PartChoice[];
        readonly part: string;
        readonly title: string;
        readonly model: BendingModel;
        readonly stale: boolean;
        readonly reason: string;
      }
    /** The plan of the bending is being made. */
    | {
        readonly type: 'planning';
        readonly parts: readonly PartChoice[];
        readonly part: string;
        readonly title: string;
      }
    /** A command asks for this view. */
    | { readonly type: 'view'; readonly view: ViewName }
    /** The text moved on and the drawing stayed as it was. */
    | {
        readonly type: 'unchanged';
        readonly parts: readonly PartChoice[];
        readonly part: string;
        readonly title: string;
        readonly stale: boolean;
        readonly reason: string;
      }
    /** Features that belong to the text under the cursor. */
    | { readonly type: 'lit'; readonly ids: readonly string[] }
    /** There is nothing to draw, and why, in words for the reader. */
    | {
        readonly type: 'nothing';
        readonly fileName: string;
        readonly parts: readonly PartChoice[];
        readonly part: string;
        readonly reason: string;
      }
  );

/** From the page to the extension. */
export type FromPage = About &
  /** The page has loaded; `part` and `view` are what it showed last. */
  (
    | { readonly type: 'ready'; readonly part: string; readonly view: ViewName }
    | { readonly type: 'chooseView'; readonly view: ViewName }
    | { readonly type: 'choosePart'; readonly part: string }
    /** The reader picked a drawn feature and wants its source. */
    | { readonly type: 'reveal'; readonly id: string }
  );

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null;

/** Reads a message from the page; undefined when it is not one of ours, since a page is not to be trusted with more. */
export const readFromPage = (value: unknown): FromPage | undefined => {
  if (!isRecord(value)) return undefined;
  const { type, uri, version, part, id, view } = value;
  if (typeof uri !== 'string' || typeof version !== 'number') return undefined;
  if (type === 'reveal') return typeof id === 'string' ? { type, uri, version, id } : undefined;
  if (type === 'choosePart') return typeof part === 'string' ? { type, uri, version, part } : undefined;
  if (type === 'ready') return typeof part === 'string' && isViewName(view) ? { type, uri, version, part, view } : undefined;
  if (type === 'chooseView') return isViewName(view) ? { type, uri, version, view } : undefined;
  return undefined;
};

/** The document and part that a page showed before a reload, from the state it kept. */
export const readKeptState = (value: unknown): { readonly uri: string; readonly part: string } | undefined =>
  isRecord(value) && typeof value.uri === 'string' && typeof value.part === 'string' ? { uri: value.uri, part: value.part } : undefined;
