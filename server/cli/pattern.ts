/** `planish pattern FILE [PART] -o OUT`: the true-size pattern, by the ending of OUT. */
import { statSync } from 'node:fs';
import { basename, extname, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type { Blank } from '../blank/types.js';
import type { Part } from '../model/part.js';
import { type DisplayOptions, patternDxf, patternSvg } from '../sheets/index.js';
import { oneFile, shownPath, writeInPlace } from './files.js';
import { callError, exit, type Io } from './io.js';
import { chosenParts } from './measure.js';
import { openProjects } from './projects.js';
import { sayFinding } from './say-finding.js';

export const help = `planish pattern FILE [PART] -o OUT

Writes the flat blank at true size. The ending of OUT says how: .svg to print, .dxf for a
cutting table. When OUT is a folder, each part gets PART.svg and PART.dxf in it. When FILE has
several parts and OUT is one file, the part's name is added to it.

  -o, --output OUT   a file ending in .svg or .dxf, or a folder
`;

const writers: Readonly<Record<string, (part: Part, blank: Blank, options: DisplayOptions) => string>> = {
  '.svg': (part, blank, options) => patternSvg(part, blank, part.name, options),
  '.dxf': patternDxf,
};
const later = ['.pdf', '.png', '.html'];

interface Target {
  readonly path: string;
  readonly ending: string;
}

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;

/** Files to write for one part. */
const targetsOf = (out: string, whole: string, part: string, single: boolean): readonly Target[] => {
  const ending = extname(out).toLowerCase();
  if (out.endsWith('/') || out.endsWith('\\') || ending === '' || isFolder(whole)) {
    return Object.keys(writers).map((each) => ({ path: join(whole, `${part}${each}`), ending: each }));
  }
  if (writers[ending] !== undefined) {
    return [{ path: single ? whole : join(whole, '..', `${basename(whole, extname(whole))}-${part}${ending}`), ending }];
  }
  throw callError(
    later.includes(ending)
      ? `Patterns ending in ${ending} are not computed yet. Use .svg or .dxf.`
      : `A pattern ends in .svg or .dxf, not in ${ending}.`,
  );
};

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: { output: { type: 'string', short: 'o' }, view: { type: 'string', default: 'blank' }, paper: { type: 'string' } },
  });
  const [path, wanted, ...rest] = positionals;
  if (path === undefined || rest.length > 0)
    throw callError('pattern wants one file, and a part of it if you like: planish pattern FILE [PART] -o OUT');
  if (values.output === undefined) throw callError('Say where to write it: -o OUT.svg, -o OUT.dxf, or -o a folder.');
  if (values.view !== 'blank') throw callError(`The view ${values.view} is not computed yet; only the blank is.`);
  if (values.paper !== undefined)
    throw callError('Tiling onto paper sizes is not computed yet; the .svg is one page of the part’s own size.');
  const projects = openProjects(io);
  const file = oneFile(path, io);
  const shown = shownPath(file, io);
  const results = chosenParts(projects.of(file).parts(file), wanted, shown);
  if (results.length === 0) throw callError(`There is no part in ${shown}.`);
  const whole = resolve(io.cwd, values.output);
  const options: DisplayOptions = { unit: projects.of(file).model(file).units };
  const drawable = results.filter(({ part, blank }) => blank.blank !== undefined || part.kind === 'panel' || part.kind === 'section');
  const checked = projects.check(file);
  let code: number = exit.fine;
  const written = new Set<string>();
  for (const { part, blank } of results) {
    // Two parts of one name would go to one file; that the name is given twice is said with the findings.
    if (written.has(part.name)) continue;
    written.add(part.name);
    const targets = targetsOf(values.output, whole, part.name, drawable.length <= 1);
    if (blank.blank === undefined) {
      if (part.kind !== 'panel' && part.kind !== 'section') {
        io.write(`${part.name}: a ${part.kind} has no pattern yet.\n`);
        continue;
      }
      io.writeError(`${part.name} can't be laid out, so no pattern was written.\n`);
      code = exit.findings;
      continue;
    }
    for (const target of targets) {
      writeInPlace(target.path, writers[target.ending]?.(part, blank.blank, options) ?? '');
      io.write(`${shownPath(target.path, io)}\n`);
    }
  }
  const errors = checked.findings.filter((finding) => finding.severity === 'error');
  for (const finding of errors) io.writeError(`\n${sayFinding(checked, finding, io)}\n`);
  return errors.length > 0 ? exit.findings : code;
};
