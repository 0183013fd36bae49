/** Source text carried through the whole program to the blank. */
import { expect } from 'vitest';
import type { Blank } from '../../server/blank/types.js';
import { memoryFiles } from '../../server/files.js';
import { createProject } from '../../server/project.js';

const path = '/job/example.planish';
const open = (text: string) => createProject({ files: memoryFiles({ [path]: text }), root: '/job' });

/** Every part's blank by its name; none of them has an error. */
export const flats = (text: string): ReadonlyMap<string, Blank> => {
  const project = open(text);
  expect(project.findings(path).flatMap(({ severity, message }) => (severity === 'error' ? [message] : []))).toEqual([]);
  return new Map(project.parts(path).flatMap(({ part, blank }) => (blank.blank === undefined ? [] : [[part.name, blank.blank] as const])));
};
/** The rules that speak of the text. */
flats.findings = (text: string): readonly string[] =>
  open(text)
    .findings(path)
    .map(({ rule }) => rule);

/** The blank of the only part. */
export const flat = (text: string): Blank => {
  const [blank] = flats(text).values();
  if (blank === undefined) throw new Error('nothing laid out');
  return blank;
};
