import type { Fix, Span } from '../../grammar/syntax.js';

export type Severity = 'error' | 'warning' | 'information' | 'hint';

/** What the program says about the text: where, what, the numbers, the cure. The one form all rooms use. */
export interface Finding {
  /** Path of the file, as the project names it. */
  readonly file: string;
  /** Absolute offsets in that file (project.ts makes them so; inside a part they are counted from the start of the part's statement). */
  readonly span: Span;
  /** `family/kebab-name`. */
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly fixes: readonly Fix[];
  /** Ids of drawn features to light up in the picture. */
  readonly features?: readonly string[];
  /** Other places that matter, with a few words each. */
  readonly related?: readonly { readonly file: string; readonly span: Span; readonly message: string }[];
}
