/** What an item of the list of words carries. Types only. */
import type { NameKind } from '../../grammar/vocabulary/pattern.js';

/** Enough to fetch the documentation of an item when a person looks at it. */
export type CompletionData =
  | {
      readonly kind: 'statement';
      readonly entry: string;
      /** It goes on with a name there is already: the list of those may open at once. */
      readonly names?: true;
    }
  | { readonly kind: 'word'; readonly entry: string; readonly word: string }
  | {
      readonly kind: 'name';
      readonly uri: string;
      readonly file: string;
      readonly start: number;
      readonly name: string;
      readonly of: NameKind;
    };
