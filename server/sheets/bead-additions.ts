/** The parts of a drawing that roller work adds to. */
import type { Drawing } from './drawing.js';

export type Additions = Pick<Drawing, 'areas' | 'strokes' | 'features' | 'lineLabels' | 'spotLabels' | 'measures' | 'beyond'>;

export const nothingAdded: Additions = { areas: [], strokes: [], features: [], lineLabels: [], spotLabels: [], measures: [], beyond: [] };

/** Several together, in order. */
export const joined = (all: readonly Additions[]): Additions => ({
  areas: all.flatMap(({ areas }) => areas),
  strokes: all.flatMap(({ strokes }) => strokes),
  features: all.flatMap(({ features }) => features),
  lineLabels: all.flatMap(({ lineLabels }) => lineLabels),
  spotLabels: all.flatMap(({ spotLabels }) => spotLabels),
  measures: all.flatMap(({ measures }) => measures),
  beyond: all.flatMap(({ beyond }) => beyond),
});
