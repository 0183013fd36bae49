/** `planish measure FILE [PART]`: the numbers. */
import { parseArgs } from 'node:util';
import { type MeasureRow, measureJson, measureTable } from '../measure/index.js';
import { oneFile, shownPath } from './files.js';
import { callError, exit, type Io } from './io.js';
import { type FileFindings, openProjects } from './projects.js';
import { sayFinding } from './say-finding.js';
import { colours, counted, didYouMean } from './words.js';

export const help = `planish measure FILE [PART]

The numbers of each part: its sheet, its flat blank, its bends, its beads, its mass; of a piece
or strap its length to cut, its ends and what it is cut from.

  --json   for programs: schema 1, in mm, kg and degrees
`;

const errorsIn = (checked: FileFindings): FileFindings['findings'] => checked.findings.filter((finding) => finding.severity === 'error');

/** Things of one kind side by side, one to a line; on a narrower terminal without the columns that can best be spared. */
const sideBySide = (rows: readonly MeasureRow[], prefix: string, what: string, spared: RegExp, columns: number) => {
  const things = new Map<string, MeasureRow[]>();
  for (const row of rows) {
    if (!row.path.startsWith(prefix)) continue;
    const id = row.path.slice(prefix.length, row.path.lastIndexOf('.'));
    things.set(id, [...(things.get(id) ?? []), row]);
  }
  if (things.size === 0) return undefined;
  const wanted = (row: MeasureRow): boolean => columns >= 110 || !spared.test(row.path);
  const labels = [...new Set([...things.values()].flatMap((own) => own.filter(wanted).map((row) => row.label)))];
  const cells = (own: readonly MeasureRow[]): readonly string[] =>
    labels.map((label) => own.find((row) => row.label === label)?.text ?? '');
  return { head: [what, ...labels], rows: [...things].map(([id, own]) => [id, ...cells(own)]) };
};
/** What matters least at the brake, and at the roller. */
const sparedOfBends = /\.(setback|k|method|deduction)$/;
const sparedOfBeads = /\.(strain_most|draw_in_most|throat|die)$/;

/** Names a part of a file that must have it. */
export const chosenParts = <P extends { readonly part: { readonly name: string } }>(
  results: readonly P[],
  wanted: string | undefined,
  shown: string,
): readonly P[] => {
  if (wanted === undefined) return results;
  const found = results.filter((result) => result.part.name === wanted);
  const names = results.map((result) => result.part.name);
  const there = names.length === 0 ? `There is no part in ${shown}.` : `The parts of ${shown}: ${names.join(', ')}.`;
  if (found.length === 0) throw callError(`There is no part ${wanted}. ${there}${didYouMean(wanted, names)}`);
  return found;
};

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: { json: { type: 'boolean', default: false } },
  });
  const [path, wanted, ...rest] = positionals;
  if (path === undefined || rest.length > 0)
    throw callError('measure wants one file, and a part of it if you like: planish measure FILE [PART]');
  const projects = openProjects(io);
  const file = oneFile(path, io);
  const shown = shownPath(file, io);
  const checked = projects.check(file);
  const project = projects.of(file);
  const results = chosenParts(project.parts(file), wanted, shown).map((result) => ({
    ...result,
    bending: project.planned(file, result)?.plan,
  }));
  const errors = errorsIn(checked);
  const code = errors.length > 0 ? exit.findings : exit.fine;
  if (values.json) {
    io.write(`${JSON.stringify(measureJson(shown, results, checked.findings, checked.lines), undefined, 2)}\n`);
    return code;
  }
  const { default: Table } = await import('cli-table3');
  const drawn = (head: readonly string[], rows: readonly (readonly string[])[]): string => {
    const table = new Table({ head: [...head], colAligns: ['left', 'right', 'left'], style: { head: [], border: [], compact: true } });
    table.push(...rows.map((row) => [...row]));
    return table.toString();
  };
  const paint = colours(io);
  const narrow = io.columns < 72;
  const units = project.model(file).units;
  if (results.length === 0) io.write(`There is no part in ${shown}.\n`);
  for (const { part, blank, beads: rolled, folded, stiffness, bending } of results) {
    const rolledHere = blank.blank === undefined ? undefined : rolled;
    const rows = measureTable(part, blank.blank, units, undefined, rolledHere, folded, stiffness, bending);
    const bends = narrow ? undefined : sideBySide(rows, `${part.name}.bends.`, 'bend', sparedOfBends, io.columns);
    const beads = narrow ? undefined : sideBySide(rows, `${part.name}.beads.`, 'bead', sparedOfBeads, io.columns);
    const own = narrow
      ? rows
      : rows.filter((row) => !row.path.startsWith(`${part.name}.bends.`) && !row.path.startsWith(`${part.name}.beads.`));
    const body = own.map((row) => (narrow ? [row.label, row.text] : [row.label, row.text, row.path]));
    io.write(
      `${paint.bold(`${part.name}, ${part.kind}`)}${blank.blank === undefined && (part.kind === 'panel' || part.kind === 'section') ? ': no blank could be laid out' : ''}\n`,
    );
    io.write(`${drawn(narrow ? ['what', 'size'] : ['what', 'size', 'name in the file'], body)}\n`);
    for (const table of [bends, beads]) if (table !== undefined) io.write(`${drawn(table.head, table.rows)}\n`);
    io.write('\n');
  }
  for (const finding of errors) io.writeError(`${sayFinding(checked, finding, io)}\n\n`);
  if (errors.length > 0)
    io.writeError(`${counted(errors.length, 'error')}: the numbers of the parts concerned are left out rather than guessed.\n`);
  return code;
};
