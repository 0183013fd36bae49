/**
 * The vocabulary: every statement of the language, once. Parser, checks, completion, hover, colours, the formatter and the printed
 * reference read these tables and repeat nothing of them. An entry's pattern is what follows its first word.
 */
import { assemblyStatements } from './assembly.js';
import { beadStatements } from './bead.js';
import { cornerStatements } from './corner.js';
import { cutStatements } from './cut.js';
import { edgeStatements } from './edge.js';
import { explainIn } from './explain.js';
import { fileStatements } from './file.js';
import { machineStatements } from './machines.js';
import { outlineStatements } from './outline.js';
import { partStatements } from './part.js';
import type { Place, StatementEntry } from './pattern.js';
import { pieceStatements } from './piece.js';
import { sectionStatements } from './section.js';
import { shopStatements } from './shop.js';
import { surveyStatements } from './survey.js';
import { trialStatements } from './trial.js';

export { functions } from './functions.js';
export * from './units.js';

/** Every statement, in the order of the reference. */
export const entries: readonly StatementEntry[] = [
  ...fileStatements,
  ...shopStatements,
  ...machineStatements,
  ...trialStatements,
  ...partStatements,
  ...outlineStatements,
  ...edgeStatements,
  ...cornerStatements,
  ...cutStatements,
  ...beadStatements,
  ...sectionStatements,
  ...pieceStatements,
  ...surveyStatements,
  ...assemblyStatements,
];

/** Every place a statement may stand, in the order they first occur; the top of a file is "file". */
export const places: readonly Place[] = [...new Set(entries.flatMap((entry) => entry.places))];

const byPlace: ReadonlyMap<Place, ReadonlyMap<string, StatementEntry>> = new Map(
  places.map((place) => [place, new Map(entries.filter((entry) => entry.places.includes(place)).map((entry) => [entry.word, entry]))]),
);

/** The statements that may stand in a place; none for a place that does not exist. */
export const entriesAt = (place: Place): readonly StatementEntry[] => [...(byPlace.get(place)?.values() ?? [])];

/** The statement that begins with this word (in the tables' own spelling) in this place. */
export const entryAt = (place: Place, word: string): StatementEntry | undefined => byPlace.get(place)?.get(word);

/** The manual's page for a statement, a word within statements, a function or a unit, as markdown; nothing for any other word. */
export const explainWord = (word: string): string | undefined => explainIn(entries, word);
