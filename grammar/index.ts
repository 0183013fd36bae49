/**
 * Text to syntax tree and back. Knows the words of the language (the vocabulary), nothing of metal; imports chevrotain only; reads no files.
 * Parsing never fails: what can't be understood is a problem with a place and a cure, and the rest of the tree stands.
 */

export { expectedAt } from './expected.js';
export { parse } from './parser.js';
export { format } from './printer.js';
export type * from './syntax.js';
export { usage, usageWithParameters } from './usage.js';
export { entries } from './vocabulary/index.js';
export type * from './vocabulary/pattern.js';
export { partsOfExpression, walkStatements } from './walk.js';
