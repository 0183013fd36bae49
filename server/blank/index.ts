/**
 * From a part to its flat blank: what must be cut so that the bends bring it to its finished sizes. Every answer carries its findings; nothing here throws,
 * prints, or knows of machines. Lines stay lines and arcs arcs: the outline is walked round the tree of faces, never cut out of polygons.
 */
import type { Panel, Section } from '../model/part.js';
import { reportUnmet } from './corners.js';
import { growBase } from './flanges.js';
import { baseSides } from './outline.js';
import { reportOverlaps } from './overlaps.js';
import { blankOf } from './report.js';
import { legOf, sectionSides } from './section.js';
import type { Job, Words } from './tree.js';
import type { BlankResult } from './types.js';

export type { Words } from './tree.js';
export type * from './types.js';

const IN_MILLIMETRES: Words = { say: (mm) => `${Math.round(mm * 100) / 100} mm` };
const NOTHING: BlankResult = { blank: undefined, findings: [] };

/**
 * The flat blank of a panel or a section.
 *
 * @param words how lengths are written in messages and fixes; millimetres when left out
 * @returns findings always, spans relative to the part; a blank when one could be laid out. Nothing is laid out for a part whose text is broken.
 */
export const layOut = (part: Panel | Section, words: Words = IN_MILLIMETRES): BlankResult => {
  const sheet = part.sheet?.value;
  if (part.broken || sheet === undefined || !(sheet.thickness > 0)) return NOTHING;
  const job: Job = { part, sheet, thickness: sheet.thickness, method: sheet.method, words, findings: [], reliefs: [] };
  return part.kind === 'panel' ? layOutPanel(job, part) : layOutSection(job, part);
};

const layOutPanel = (job: Job, panel: Panel): BlankResult => {
  const { findings } = job;
  if (panel.outline === undefined) return NOTHING;
  const sides = baseSides(job, panel, panel.outline);
  if (sides === undefined) return { blank: undefined, findings };
  const rules = { rules: panel.corners, met: new Set<Panel['corners'][number]>() };
  const base = growBase(job, panel, 'base', sides, rules);
  reportUnmet(job, rules);
  if (findings.some((f) => f.rule === 'shape/nothing-left')) return { blank: undefined, findings };
  reportOverlaps(job, base);
  return { blank: blankOf(job, base, panel.cuts, (on) => on ?? 'base'), findings };
};

const layOutSection = (job: Job, section: Section): BlankResult => {
  const { findings } = job;
  const sides = sectionSides(job, section);
  if (sides === undefined) return { blank: undefined, findings };
  const base = growBase(job, section, 'leg.1', sides, { rules: [], met: new Set() });
  return { blank: blankOf(job, base, section.cuts, (on) => legOf(section, on === 'base' ? undefined : on)), findings };
};
