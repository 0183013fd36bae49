import { DocumentHighlight, DocumentHighlightKind, type Location, type Position } from 'vscode-languageserver';
import { type Ask, linesOf, rangeOf } from './ask.js';
import { definitionOf, nameAt, occurrencesOf, referencesIn } from './names.js';

/** Every place in the project where the name under the cursor is used. */
export const references = (ask: Ask, position: Position, withDefinition: boolean): Location[] => {
  const name = nameAt(ask.project.model(ask.path), linesOf(ask).offsetAt(position));
  if (name?.target === undefined) return [];
  const linesByPath = new Map<string, ReturnType<typeof linesOf>>();
  return occurrencesOf(ask, name.target)
    .filter((one) => withDefinition || !one.definition)
    .map((one) => {
      const lines = linesByPath.get(one.path) ?? linesOf(ask, one.path);
      linesByPath.set(one.path, lines);
      return { uri: ask.uriOf(one.path), range: rangeOf(lines, one.span) };
    });
};

/** The same within this file, to light up. */
export const documentHighlights = (ask: Ask, position: Position): DocumentHighlight[] => {
  const lines = linesOf(ask);
  const name = nameAt(ask.project.model(ask.path), lines.offsetAt(position));
  if (name?.target === undefined) return [];
  const definition = name.target.file === ask.path ? definitionOf(ask, name.target) : undefined;
  const made = definition === undefined ? [] : [DocumentHighlight.create(rangeOf(lines, definition.span), DocumentHighlightKind.Write)];
  const used = referencesIn(ask, ask.path, name.target).map((one) =>
    DocumentHighlight.create(rangeOf(lines, one.span), DocumentHighlightKind.Read),
  );
  return [...made, ...used];
};
