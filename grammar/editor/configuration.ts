/** How the editor types in a part file: comments, brackets, indenting. */

/** The language configuration, ready to be written as JSON. */
export const languageConfiguration = (): object => ({
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
  wordPattern: '[\\p{L}_][\\p{L}\\p{N}_]*|\\d+(?:\\.\\d+)?',
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
