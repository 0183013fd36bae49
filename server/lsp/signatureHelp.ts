import type { Position, SignatureHelp } from 'vscode-languageserver';
import { expectedAt, usageWithParameters } from '../../grammar/index.js';
import { functions } from '../../grammar/vocabulary/functions.js';
import { type Ask, linesOf } from './ask.js';

/** How the statement, or the function, being written goes on, with the argument under the cursor marked. */
export const signatureHelp = (ask: Ask, position: Position): SignatureHelp | undefined => {
  const lines = linesOf(ask);
  const text = lines.getText();
  const offset = lines.offsetAt(position);
  if (ask.project.tree(ask.path).comments.some((comment) => comment.start < offset && offset <= comment.end)) return undefined;
  return functionSignature(text, offset) ?? statementSignature(text, offset);
};

const functionSignature = (text: string, offset: number): SignatureHelp | undefined => {
  let depth = 0;
  let commas = 0;
  for (let at = offset - 1; at >= 0 && text[at] !== '\n'; at--) {
    const sign = text[at];
    if (sign === ')') depth++;
    else if (sign === ',' && depth === 0) commas++;
    else if (sign === '(' && depth > 0) depth--;
    else if (sign === '(') {
      const name = /[\p{L}_][\p{L}\p{N}_]*$/u.exec(text.slice(Math.max(0, at - 40), at))?.[0];
      const found = functions.find((one) => one.name === name);
      if (found === undefined) return undefined;
      const inner = found.usage.slice(found.usage.indexOf('(') + 1, -1);
      const parameters: [number, number][] = [];
      let start = found.name.length + 1;
      for (const parameter of inner.split(', ')) {
        parameters.push([start, start + parameter.length]);
        start += parameter.length + 2;
      }
      return {
        signatures: [{ label: found.usage, documentation: found.summary, parameters: parameters.map((span) => ({ label: span })) }],
        activeSignature: 0,
        activeParameter: Math.min(commas, parameters.length - 1),
      };
    }
  }
  return undefined;
};

const statementSignature = (text: string, offset: number): SignatureHelp | undefined => {
  const expected = expectedAt(text, offset);
  const entry = expected.statement?.entry;
  if (entry === undefined) return undefined;
  const signature = usageWithParameters(entry);
  const field = expected.fieldAt;
  const active = signature.parameters.findIndex((parameter) => parameter.field === field);
  return {
    signatures: [
      {
        label: signature.label,
        documentation: entry.summary,
        parameters: signature.parameters.map((parameter) => {
          const help = entry.arguments[parameter.field];
          const documentation =
            help === undefined ? undefined : help.default === undefined ? help.summary : `${help.summary} Left out: ${help.default}.`;
          return { label: [parameter.start, parameter.end], ...(documentation === undefined ? {} : { documentation }) };
        }),
      },
    ],
    activeSignature: 0,
    // Past the last parameter means "none of them is marked".
    activeParameter: active < 0 ? signature.parameters.length : active,
  };
};
