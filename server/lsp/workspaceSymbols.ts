import { type SymbolInformation, SymbolKind } from 'vscode-languageserver';
import type { NameKind } from '../../grammar/vocabulary/pattern.js';
import { type Ask, linesOf, rangeOf } from './ask.js';

/** Named things of all files whose names hold the letters asked for, in that order. */
export const workspaceSymbols = (ask: Ask, query: string): SymbolInformation[] => {
  const found: SymbolInformation[] = [];
  for (const path of new Set([...(ask.path === '' ? [] : [ask.path]), ...ask.files()])) {
    const wanted = ask.project.model(path).symbols.definitions.filter((one) => lettersInOrder(query, one.name));
    if (wanted.length === 0) continue;
    const lines = linesOf(ask, path);
    for (const one of wanted) {
      found.push({
        name: one.name,
        kind: kinds[one.kind],
        location: { uri: ask.uriOf(path), range: rangeOf(lines, one.span) },
        ...(one.part === undefined || one.part === one.name ? {} : { containerName: one.part }),
      });
    }
  }
  return found;
};

const lettersInOrder = (query: string, name: string): boolean => {
  const letters = name.toLowerCase();
  let at = 0;
  for (const letter of query.toLowerCase()) {
    at = letters.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
};

const kinds: Readonly<Record<NameKind, SymbolKind>> = {
  value: SymbolKind.Constant,
  part: SymbolKind.Class,
  material: SymbolKind.Object,
  sheet: SymbolKind.Object,
  stock: SymbolKind.Object,
  die: SymbolKind.Object,
  roller: SymbolKind.Object,
  brake: SymbolKind.Object,
  saw: SymbolKind.Object,
  welder: SymbolKind.Object,
  trial: SymbolKind.Event,
  file: SymbolKind.Namespace,
  edge: SymbolKind.Property,
  flange: SymbolKind.Property,
  feature: SymbolKind.Field,
  leg: SymbolKind.Property,
  curve: SymbolKind.Field,
  index: SymbolKind.Variable,
  place: SymbolKind.Property,
};
