/** How the editor types in a part file: comments, brackets, indenting. */

interface LanguageConfiguration {
  readonly comments: { readonly lineComment: string };
  readonly brackets: readonly (readonly [string, string])[];
  readonly autoClosingPairs: readonly { readonly open: string; readonly close: string; readonly notIn: readonly string[] }[];
  readonly surroundingPairs: readonly (readonly [string, string])[];
  readonly colorizedBracketPairs: readonly (readonly [string, string])[];
  readonly wordPattern: { readonly pattern: string; readonly flags: string };
  readonly indentationRules: { readonly increaseIndentPattern: string; readonly decreaseIndentPattern: string };
  readonly onEnterRules: readonly {
    readonly beforeText: string;
    readonly afterText?: string;
    readonly action: { readonly indent: 'none' | 'indentOutdent'; readonly appendText?: string };
  }[];
  readonly folding: { readonly markers: { readonly start: string; readonly end: string } };
}

/** The language configuration, ready to be written as JSON. */
export const languageConfiguration = (): LanguageConfiguration => ({
  comments: { lineComment: '//' },
  brackets: [
    ['{', '}'],
    ['(', ')'],
  ],
  // No quote here: after a digit it is the inch mark and stands alone.
  autoClosingPairs: [
    { open: '{', close: '}', notIn: ['string', 'comment'] },
    { open: '(', close: ')', notIn: ['string', 'comment'] },
    { open: '“', close: '”', notIn: ['string', 'comment'] },
  ],
  surroundingPairs: [
    ['{', '}'],
    ['(', ')'],
    ['"', '"'],
  ],
  colorizedBracketPairs: [
    ['{', '}'],
    ['(', ')'],
  ],
  // Without its flag \p{L} is read as five characters, no word is one, and the list of words does not open while a word is typed.
  wordPattern: { pattern: '[\\p{L}_][\\p{L}\\p{N}_]*|\\d+(?:\\.\\d+)?', flags: 'u' },
  indentationRules: {
    increaseIndentPattern: '^(?!\\s*//).*(\\{[^}"]*|\\([^)"]*)$',
    decreaseIndentPattern: '^\\s*[})].*$',
  },
  onEnterRules: [
    { beforeText: '^\\s*///.*\\S', action: { indent: 'none', appendText: '/// ' } },
    { beforeText: '^.*\\{\\s*$', afterText: '^\\s*\\}', action: { indent: 'indentOutdent' } },
  ],
  folding: { markers: { start: '^\\s*//\\s*#?region\\b', end: '^\\s*//\\s*#?endregion\\b' } },
});
