/** `planish pattern FILE [PART] -o OUT`: the true-size pattern, by the ending of OUT. */
import { statSync } from 'node:fs';
import { basename, extname, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { type PatternFormat, type PatternWish, patternFormats, writePattern } from '../node-sheets.js';
import { type DisplayOptions, type PaperName, papers } from '../sheets/index.js';
import { oneFile, shownPath, writeInPlace } from './files.js';
import { callError, exit, type Io } from './io.js';
import { chosenParts } from './measure.js';
import { openProjects } from './projects.js';
import { sayFinding } from './say-finding.js';
import { didYouMean } from './words.js';

export const help = `planish pattern FILE [PART] -o OUT

Writes the flat blank at true size. The ending of OUT says how: .pdf or .svg to print, .dxf for
a cutting table, .png to look at. When OUT is a folder, each part gets PART.svg, PART.dxf and
PART.pdf in it. When FILE has several parts and OUT is one file, the part's name is added to it.

  -o, --output OUT   a file ending in .svg, .dxf, .pdf or .png, or a folder
      --paper SIZE   for .pdf: a4, a3, letter or tabloid in tiles that overlap, with crosses
                     that fit together; roll for one sheet as long as it must be (default)
      --dpi N        for .png: dots to the inch, 25 to 1200 (default 96)
`;

const formatOf = (ending: string): PatternFormat | undefined => patternFormats.find((format) => `.${format}` === ending);
/** What a folder gets of every part. */
const inFolders: readonly PatternFormat[] = ['svg', 'dxf', 'pdf'];

const paperOf = (word: string | undefined): PatternWish['paper'] => {
  const known = [...Object.keys(papers), 'roll'];
  if (word === undefined || word === 'roll') return 'roll';
  const lower = word.toLowerCase();
  if (lower in papers) return lower as PaperName;
  throw callError(`There is no paper ${word}; say ${known.slice(0, -1).join(', ')} or roll.${didYouMean(word, known)}`);
};
const dpiOf = (word: string | undefined): number => {
  const dpi = Number(word ?? 96);
  if (!(dpi >= 25 && dpi <= 1200)) throw callError(`--dpi is a number from 25 to 1200, not ${word}.`);
  return dpi;
};

interface Target {
  readonly path: string;
  readonly format: PatternFormat;
}

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;

/** Files to write for one part. */
const targetsOf = (out: string, whole: string, part: string, single: boolean): readonly Target[] => {
  const ending = extname(out).toLowerCase();
  if (out.endsWith('/') || out.endsWith('\\') || ending === '' || isFolder(whole)) {
    return inFolders.map((format) => ({ path: join(whole, `${part}.${format}`), format }));
  }
  const format = formatOf(ending);
  if (format !== undefined) {
    return [{ path: single ? whole : join(whole, '..', `${basename(whole, extname(whole))}-${part}${ending}`), format }];
  }
  throw callError(`A pattern ends in .svg, .dxf, .pdf or .png, not in ${ending}.`);
};

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: {
      output: { type: 'string', short: 'o' },
      view: { type: 'string', default: 'blank' },
      paper: { type: 'string' },
      dpi: { type: 'string' },
    },
  });
  const [path, wanted, ...rest] = positionals;
  if (path === undefined || rest.length > 0)
    throw callError('pattern wants one file, and a part of it if you like: planish pattern FILE [PART] -o OUT');
  if (values.output === undefined)
    throw callError('Say where to write it: -o OUT.pdf, -o OUT.svg, -o OUT.dxf, -o OUT.png, or -o a folder.');
  if (values.view !== 'blank') throw callError(`The view ${values.view} is not computed yet; only the blank is.`);
  const wish: PatternWish = { paper: paperOf(values.paper), dotsPerInch: dpiOf(values.dpi) };
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
  for (const { part, blank, beads } of results) {
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
      writeInPlace(target.path, await writePattern(target.format, part, blank.blank, options, { ...wish, beads }));
      io.write(`${shownPath(target.path, io)}\n`);
    }
  }
  const errors = checked.findings.filter((finding) => finding.severity === 'error');
  for (const finding of errors) io.writeError(`\n${sayFinding(checked, finding, io)}\n`);
  return errors.length > 0 ? exit.findings : code;
};
