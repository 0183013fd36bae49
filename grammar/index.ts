/**
 * Text to syntax tree and back. Knows the words of the language (the vocabulary), nothing of metal; imports chevrotain only; reads no files.
 * Parsing never fails: what can't be understood is a problem with a place and a cure, and the rest of the tree stands.
 */
export type * from './syntax.js';
export type * from './vocabulary/pattern.js';
export { parse } from './parser.js';
export { format } from './printer.js';
export { entries, entriesAt, entryAt, places } from './vocabulary/index.js';
export { type Expectation, expectedAt } from './expected.js';
export type { Want } from './compiled.js';
export { type Parameter, type Usage, usage, usageWithParameters } from './usage.js';
export { partsOfExpression, walkArguments, walkExpressions, walkStatements } from './walk.js';
