import type { DefinitionLink, Position } from 'vscode-languageserver';
import { type Ask, linesOf, rangeOf, touches } from './ask.js';
import { definitionOf, nameAt } from './names.js';

/** From a name to the statement that makes it; from a `with` path to the start of its file. */
export const definition = (ask: Ask, position: Position): DefinitionLink[] => {
  const model = ask.project.model(ask.path);
  const lines = linesOf(ask);
  const offset = lines.offsetAt(position);
  const link = model.links.find((one) => touches(one.span, offset));
  if (link !== undefined) {
    if (link.target === undefined) return [];
    const start = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
    return [
      {
        originSelectionRange: rangeOf(lines, link.span),
        targetUri: ask.uriOf(link.target),
        targetRange: start,
        targetSelectionRange: start,
      },
    ];
  }
  const name = nameAt(model, offset);
  if (name?.target === undefined) return [];
  const { target } = name;
  const there = linesOf(ask, target.file);
  const selection = rangeOf(there, target.span);
  const full = definitionOf(ask, target)?.full;
  return [
    {
      originSelectionRange: rangeOf(lines, name.span),
      targetUri: ask.uriOf(target.file),
      targetRange: full === undefined ? selection : rangeOf(there, full),
      targetSelectionRange: selection,
    },
  ];
};
