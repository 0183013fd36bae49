import type { CodeLens } from 'vscode-languageserver';
import type { Bending } from '../bending.js';
import { isCutFromLength } from '../sheets/index.js';
import { type Ask, linesOf, rangeOf } from './ask.js';
import { commands, type PartCommandArguments } from './protocol.js';
import { counted, partSummary, placedParts } from './say.js';

/** Above each part: its blank at a glance, which opens the picture, how it is bent, and the true-size pattern. */
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
    const bending = bendingTitle(ask.project.bending(result));
    return [
      show,
      ...(bending === undefined ? [] : [{ range, command: { title: bending, command: commands.planBending, arguments: args } }]),
      { range, command: { title: 'export pattern', command: commands.exportPattern, arguments: args } },
    ];
  });
};

const bendingTitle = (bending: Bending): string | undefined => {
  switch (bending.state) {
    case 'nothing':
      return undefined;
    case 'not yet':
      return 'plan the bending';
    case 'planned':
      return bending.planned.plan.possible
        ? `bending: ${counted(bending.planned.plan.steps.length, 'step')}`
        : `bending: no order ${bending.planned.plan.proven ? 'works' : 'found'}`;
  }
};
