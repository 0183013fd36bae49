import type { DocumentLink } from 'vscode-languageserver';
import { type Ask, linesOf, rangeOf } from './ask.js';

/** Each `with "path"` that leads to a file. */
export const documentLinks = (ask: Ask): DocumentLink[] => {
  const lines = linesOf(ask);
  return ask.project
    .model(ask.path)
    .links.flatMap((link) =>
      link.target === undefined ? [] : [{ range: rangeOf(lines, link.span), target: ask.uriOf(link.target), tooltip: link.target }],
    );
};
