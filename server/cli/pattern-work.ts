/** `planish pattern FILE [PART] --view bends|beads -o OUT`: how the part is bent or rolled, step by step, as sheets to print. */
import { basename, extname, join, resolve } from 'node:path';
import { type WorkSheetFormat, type WorkSheetWish, workSheetFormats, writeWorkSheet } from '../node-work-sheet.js';
import type { PartResult, Project } from '../project.js';
import { isFolder, shownPath, writeInPlace } from './files.js';
import { callError, exit, type Io } from './io.js';

export const workViews = ['bends', 'beads'] as const;

const none = { bends: 'has no bends.', beads: 'has no beads.' } as const;

/** @returns the exit code */
export const writeWorkSheets = async (
  project: Project,
  file: string,
  results: readonly PartResult[],
  out: string,
  wish: WorkSheetWish,
  io: Io,
): Promise<number> => {
  const whole = resolve(io.cwd, out);
  const ending = extname(out).toLowerCase();
  const folder = ending === '' || out.endsWith('/') || out.endsWith('\\') || isFolder(whole);
  const format: WorkSheetFormat | undefined = folder ? 'pdf' : workSheetFormats.find((each) => `.${each}` === ending);
  if (format === undefined) throw callError(`The ${wish.work} are drawn as .pdf, .svg or .png, not as ${ending}.`);
  const stem = (part: string): string =>
    folder
      ? join(whole, `${part}-${wish.work}`)
      : join(whole, '..', `${basename(whole, extname(whole))}${results.length === 1 ? '' : `-${part}`}`);
  let code: number = exit.fine;
  for (const result of results) {
    const { part, blank } = result;
    const sheets = await writeWorkSheet(format, { path: file, name: shownPath(file, io), project }, result, wish);
    if (sheets === undefined) {
      const laidOut = blank.blank !== undefined || (part.kind !== 'panel' && part.kind !== 'section');
      const words = `${part.name} ${laidOut ? none[wish.work] : "can't be laid out; see planish check."}\n`;
      // Of one part that was asked for, nothing written is a failure; among others it is not.
      if (results.length > 1 && laidOut) io.write(words);
      else {
        io.writeError(words);
        code = exit.findings;
      }
      continue;
    }
    for (const [index, data] of sheets.entries()) {
      const path = `${stem(part.name)}${sheets.length === 1 ? '' : `-${index + 1}`}.${format}`;
      writeInPlace(path, data);
      io.write(`${shownPath(path, io)}\n`);
    }
  }
  return code;
};
