/**
 * What can be measured of a part: one list of properties, read by the language (`gate.blank.width`), by `measure --json` and by the table for people.
 * Nothing is computed here that the part's blank does not already say, and nothing is printed.
 */
export { findingJson, measureJson } from './json.js';

export { type MeasureRow, measureTable } from './table.js';
export { measuredTree } from './tree.js';
