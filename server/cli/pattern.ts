/** `planish pattern FILE [PART] -o OUT`: the true-size pattern, by the ending of OUT. */
import { basename, extname, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import {
  type PatternFormat,
  type PatternView,
  type PatternWish,
  patternFormats,
  patternViews,
  writePattern,
  writePiecePattern,
} from '../node-sheets.js';
import { type CutFromLength, type DisplayOptions, isCutFromLength, type PaperName, papers } from '../sheets/index.js';
import { isFolder, oneFile, shownPath, writeInPlace } from './files.js';
import { callError, exit, type Io } from './io.js';
import { chosenParts } from './measure.js';
import { couponsOf, writeCoupons } from './pattern-coupon.js';
import { workViews, writeWorkSheets } from './pattern-work.js';
import { openProjects } from './projects.js';
import { sayFinding } from './say-finding.js';
import { didYouMean } from './words.js';

export const help = `planish pattern FILE [PART] -o OUT

Writes the flat blank at true size. The ending of OUT says how: .pdf or .svg to print, .dxf for
a cutting table, .png to look at. When OUT is a folder, each part gets PART.svg, PART.dxf and
PART.pdf in it. When FILE has several parts and OUT is one file, the part's name is added to it.
A piece or a strap gets its drawing at true size, one with coped ends the papers to wrap round
them, as .svg, .pdf or .png. An OUT that ends in .glb (glTF, metres) or .stl (millimetres) gets the folded part instead, its beads left out.
PART may be a trial that asks for strips: the strips are drawn, with boxes for what you measure.

  -o, --output OUT   a file ending in .svg, .dxf, .pdf, .png, .glb or .stl, or a folder
      --view VIEW    for .svg, .pdf and .png: blank (default); folded, a line drawing of the
                     finished part; section, a cut through it with its sizes; bends or
                     beads, how they are made step by step; coupon, the strips to try
                     before a panel is cut, as for a trial that asks for them
      --paper SIZE   for .pdf: a4, a3, letter or tabloid in tiles that overlap, with crosses
                     that fit together; roll for one sheet as long as it must be (default)
      --dpi N        for .png: dots to the inch, 25 to 1200 (default 96)
`;

const formatOf = (ending: string): PatternFormat | undefined => patternFormats.find((format) => `.${format}` === ending);
/** What a folder gets of every part. */
const inFolders: Readonly<Record<PatternView, readonly PatternFormat[]>> = {
  blank: ['svg', 'dxf', 'pdf'],
  folded: ['svg', 'pdf', 'glb', 'stl'],
  section: ['svg', 'pdf'],
};

const paperOf = (word: string | undefined): PatternWish['paper'] => {
  const known = [...Object.keys(papers), 'roll'];
  if (word === undefined || word === 'roll') return 'roll';
  const lower = word.toLowerCase();
  if (lower in papers) return lower as PaperName;
  throw callError(`There is no paper ${word}; say ${known.slice(0, -1).join(', ')} or roll.${didYouMean(word, known)}`);
};
const viewOf = (word: string): PatternView => {
  const view = patternViews.find((each) => each === word.toLowerCase());
  if (view !== undefined) return view;
  throw callError(
    `There is no view ${word}; say blank, folded, section, bends, beads or coupon.${didYouMean(word, [...patternViews, ...workViews, 'coupon'])}`,
  );
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

/** Files to write for one part. */
const targetsOf = (out: string, whole: string, part: string, single: boolean, view: PatternView): readonly Target[] => {
  const ending = extname(out).toLowerCase();
  if (out.endsWith('/') || out.endsWith('\\') || ending === '' || isFolder(whole)) {
    const drawn = view === 'blank' ? part : `${part}-${view}`;
    return inFolders[view].map((format) => ({
      path: join(whole, `${format === 'glb' || format === 'stl' ? part : drawn}.${format}`),
      format,
    }));
  }
  const format = formatOf(ending);
  if (format !== undefined) {
    return [{ path: single ? whole : join(whole, '..', `${basename(whole, extname(whole))}-${part}${ending}`), format }];
  }
  throw callError(`A pattern ends in .svg, .dxf, .pdf or .png, a folded part in .glb or .stl; not in ${ending}.`);
};

/** Why a part has no file of a kind. */
const whyNot = (format: PatternFormat, view: PatternView, folds: boolean): string => {
  if (format === 'dxf') return `has no ${view} view as DXF; .svg, .pdf and .png have one.`;
  if (!folds) return "can't be folded as it is, so nothing was written of it; see what is wrong with planish check.";
  return 'has no bends, so there is no section of it.';
};

/** The drawing or the wrap-round templates of a piece or strap. Says why where there is none. */
const writePiece = async (
  part: CutFromLength,
  targets: readonly Target[],
  options: DisplayOptions,
  wish: PatternWish,
  io: Io,
): Promise<boolean> => {
  for (const target of targets) {
    const data = wish.view === 'blank' && !part.broken ? await writePiecePattern(target.format, part, options, wish) : undefined;
    if (data === undefined) {
      const why =
        wish.view !== 'blank'
          ? `is a ${part.kind}: it has no ${wish.view} view.`
          : target.format === 'svg' || target.format === 'pdf' || target.format === 'png'
            ? "can't be drawn as it is; see what is wrong with planish check."
            : `is a ${part.kind}: its drawing comes as .svg, .pdf or .png.`;
      io.writeError(`${part.name} ${why}\n`);
      return false;
    }
    writeInPlace(target.path, data);
    io.write(`${shownPath(target.path, io)}\n`);
  }
  return true;
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
  const projects = openProjects(io);
  const file = oneFile(path, io);
  const shown = shownPath(file, io);
  const coupons = couponsOf(projects.of(file), file, wanted, values.view.toLowerCase(), shown);
  if (coupons !== undefined)
    return writeCoupons(coupons, values.output, { unit: projects.of(file).model(file).units }, dpiOf(values.dpi), io);
  const work = workViews.find((each) => each === values.view.toLowerCase());
  if (work !== undefined) {
    const { units } = projects.of(file).model(file);
    const paper = paperOf(values.paper);
    return writeWorkSheets(
      projects.of(file),
      file,
      chosenParts(projects.of(file).parts(file), wanted, shown),
      values.output,
      {
        work,
        ...(paper === 'roll' ? {} : { paper }),
        unit: units,
        dotsPerInch: dpiOf(values.dpi),
        date: new Date().toISOString().slice(0, 10),
      },
      io,
    );
  }
  const view = viewOf(values.view);
  const wish: PatternWish = { view, paper: paperOf(values.paper), dotsPerInch: dpiOf(values.dpi) };
  const results = chosenParts(projects.of(file).parts(file), wanted, shown);
  if (results.length === 0) throw callError(`There is no part in ${shown}.`);
  const whole = resolve(io.cwd, values.output);
  const options: DisplayOptions = { unit: projects.of(file).model(file).units };
  const drawable = results.filter(({ part, blank }) => blank.blank !== undefined || (part.kind !== 'survey' && part.kind !== 'assembly'));
  const checked = projects.check(file, false);
  let code: number = exit.fine;
  const written = new Set<string>();
  for (const { part, blank, beads, folded } of results) {
    // Two parts of one name would go to one file; that the name is given twice is said with the findings.
    if (written.has(part.name)) continue;
    written.add(part.name);
    const targets = targetsOf(values.output, whole, part.name, drawable.length <= 1, view);
    if (isCutFromLength(part)) {
      const kept = targets.filter(({ format }) => !(targets.length > 1 && (format === 'dxf' || format === 'glb' || format === 'stl')));
      if (!(await writePiece(part, kept, options, wish, io))) code = exit.findings;
      continue;
    }
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
      const written = await writePattern(target.format, part, blank.blank, options, { ...wish, beads, folded });
      if (written === undefined) {
        io.writeError(`${part.name} ${whyNot(target.format, view, folded !== undefined)}\n`);
        code = exit.findings;
        continue;
      }
      writeInPlace(target.path, written);
      io.write(`${shownPath(target.path, io)}\n`);
    }
  }
  const errors = checked.findings.filter((finding) => finding.severity === 'error');
  for (const finding of errors) io.writeError(`\n${sayFinding(checked, finding, io)}\n`);
  return errors.length > 0 ? exit.findings : code;
};
