/**
 * What can be measured of a part: one list of properties, read by the language (`gate.blank.width`), by `measure --json` and by the table for people.
 * Nothing is computed here that the part's blank does not already say, and nothing is printed.
 */
export { type FindingJson, findingJson, type MeasureJson, measureJson } from './json.js';
export type { Property, Quantity } from './properties.js';
export { type MeasureRow, measureTable } from './table.js';
export { measuredTree } from './tree.js';
