// `npm start`: sets itself up, builds, and runs the program on the samples, saying what it does. Results go to out/.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { installPackages, root, run, say } from './setup.mjs';

const out = path.join(root, 'out');
const program = path.join(root, 'dist/planish.cjs');

/** Runs the built command line and keeps what it wrote. */
const planish = (...args) => {
  const done = spawnSync(process.execPath, [program, ...args], { cwd: root, encoding: 'utf8', maxBuffer: 1 << 28 });
  if (done.error) throw done.error;
  return { code: done.status, text: done.stdout, errors: done.stderr };
};

/** A table for a terminal: as wide as its widest cell in each column. */
const table = (head, rows) => {
  const widths = head.map((_, column) => Math.max(...[head, ...rows].map((row) => row[column].length)));
  const line = (row) =>
    row
      .map((cell, column) => (column < 2 || column === row.length - 1 ? cell.padEnd(widths[column]) : cell.padStart(widths[column])))
      .join('  ')
      .trimEnd();
  return [line(head), widths.map((width) => '-'.repeat(width)).join('  '), ...rows.map(line)].map((text) => `  ${text}`).join('\n');
};

/** Width by height of a blank, or how long a piece is. */
const sizeToCut = ({ blank, length_mm }) => {
  if (blank !== undefined) return `${millimetres(blank.width_mm)} x ${millimetres(blank.height_mm)}`;
  return length_mm === undefined ? 'not laid out' : `${millimetres(length_mm)} long`;
};
const millimetres = (value) => (value === undefined ? '-' : value.toFixed(1));

installPackages();
say('Building …');
if (!run(process.execPath, ['.ci/build.mjs', '--production'])) {
  say('The build failed; see above.');
  process.exit(1);
}

say('\nplanish check samples');
const checked = planish('check', 'samples');
say(checked.text.trimEnd());
if (checked.errors !== '') say(checked.errors.trimEnd());

const files = fs
  .readdirSync(path.join(root, 'samples'), { recursive: true })
  .map(String)
  .filter((name) => name.endsWith('.planish'))
  .sort();

say('\nMeasuring each file (kept in out/samples as measured.json and measured.txt) and writing true-size patterns of every part …');
fs.rmSync(path.join(out, 'samples'), { recursive: true, force: true });
const rows = [];
let failed = checked.code !== 0;
for (const name of files) {
  const file = path.join('samples', name);
  const folder = path.join('out/samples', name.replace(/\.planish$/, ''));
  const measured = planish('measure', file, '--json');
  failed ||= measured.code !== 0;
  const { parts } = JSON.parse(measured.text);
  if (parts.length === 0) continue;
  fs.mkdirSync(path.join(root, folder), { recursive: true });
  fs.writeFileSync(path.join(root, folder, 'measured.json'), measured.text);
  fs.writeFileSync(path.join(root, folder, 'measured.txt'), planish('measure', file).text);
  const drawn = planish('pattern', file, '-o', `${folder}/`);
  failed ||= drawn.code !== 0;
  const written = drawn.text.split('\n').filter((each) => /\.(svg|dxf|pdf)$/.test(each));
  for (const part of parts) {
    const own = written.filter((each) => path.basename(each).replace(/\.\w+$/, '') === part.name);
    const base = own.length === 0 ? '-' : `${own[0].replace(/\.\w+$/, '')}{${own.map((each) => path.extname(each)).join(',')}}`;
    rows.push([
      `${part.name} (${part.kind})`,
      part.sheet ?? part.stock ?? '-',
      sizeToCut(part),
      (part.blank?.mass_kg ?? part.mass_kg)?.toFixed(3) ?? '-',
      String((part.blank?.bends ?? part.bends)?.length ?? 0),
      base,
    ]);
  }
}
say(`\n${table(['part', 'cut from', 'size to cut, mm', 'kg', 'bends', 'patterns'], rows)}`);

/** The folders in samples/ that hold part files: each is one job. */
const jobs = [...new Set(files.map((name) => path.dirname(name)))].filter((name) => name !== '.');
const steps = [
  [
    'planning beads and bends',
    (job) =>
      files
        .filter((name) => path.dirname(name) === job)
        .map((name) => [planish('plan', path.join('samples', name)), `${job}/plan-${path.basename(name, '.planish')}.txt`]),
  ],
  [
    'laying out sheets and lengths',
    (job) => [[planish('cut', `samples/${job}`, '--seconds', '4', '-o', `out/samples/${job}/cutting/`), `${job}/cutting.txt`]],
  ],
  ['writing the job booklet', (job) => [[planish('book', `samples/${job}`, '-o', `out/samples/${job}/booklet.pdf`), undefined]]],
];
for (const job of jobs) {
  for (const [words, run] of steps) {
    say(`\n${job}: ${words} …`);
    for (const [done, kept] of run(job)) {
      failed ||= done.code !== 0;
      if (done.code !== 0) say(done.errors.trimEnd());
      if (kept === undefined) say(done.text.trimEnd());
      else if (done.text.trim() !== '') fs.writeFileSync(path.join(out, 'samples', kept), done.text);
    }
  }
}

say(`
${rows.length} parts of ${files.length} files. For each job: out/samples/JOB/booklet.pdf for the bench, cutting/ with what to buy and the nested sheets,
plan-*.txt with the order of beads and bends, and the patterns above at true size (.pdf and .svg to print, .dxf for a cutting table).

To see a part beside its text while you type:
  npm run try            VS Code's workbench in your browser, with the extension, on the samples
  npm run package && code --install-extension planish.vsix && code samples
                         the extension in your own VS Code

On the command line:     node dist/planish.cjs --help
`);
process.exit(failed ? 1 : 0);
