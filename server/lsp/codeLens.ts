import type { CodeLens } from 'vscode-languageserver';
import { isCutFromLength } from '../sheets/index.js';
import { type Ask, linesOf, rangeOf } from './ask.js';
import { commands, type PartCommandArguments } from './protocol.js';
import { partSummary, placedParts } from './say.js';

/** Above each part: its blank at a glance, which opens the picture, and the true-size pattern. */
export const codeLenses = (ask: Ask): CodeLens[] => {
  const lines = linesOf(ask);
  return placedParts(ask).flatMap(({ result, start }) => {
    const { part, blank } = result;
    const range = rangeOf(lines, { start: start + part.nameSpan.start, end: start + part.nameSpan.end });
    const args: PartCommandArguments = [{ uri: ask.uriOf(ask.path), part: part.name }];
    const summary = partSummary(ask, result);
    if (summary === '') return [];
    const title = blank.blank === undefined ? (isCutFromLength(part) && !part.broken ? `cut ${summary}` : summary) : `blank ${summary}`;
    const show: CodeLens = { range, command: { title, command: commands.showPicture, arguments: args } };
    if (blank.blank === undefined && (part.broken || !isCutFromLength(part))) return [show];
    return [show, { range, command: { title: 'export pattern', command: commands.exportPattern, arguments: args } }];
  });
};
