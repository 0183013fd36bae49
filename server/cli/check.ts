/** `planish check [PATH…]`: everything the program has to say about the files. */
import { parseArgs } from 'node:util';
import type { Severity } from '../model/finding.js';
import { findFiles, shownPath } from './files.js';
import { callError, exit, type Io } from './io.js';
import { type FileFindings, openProjects, type Projects } from './projects.js';
import { atLeast, sayFinding, summary } from './say-finding.js';

export const help = `planish check [PATH…]

Says what is wrong in the files: where, what, the numbers, the cure. Without a PATH, every
.planish file under this folder.

  --format text|json|sarif   how it is written (text). sarif is SARIF 2.1.0, for pull requests
  --fail-on error|warning|note|never
                             from which severity on the exit code is 1 (error)
  --watch                    stay, and check again whenever a file changes
`;

const formats = ['text', 'json', 'sarif'] as const;
type Format = (typeof formats)[number];
type Threshold = Severity | 'never';
const thresholds: Readonly<Record<string, Threshold>> = { error: 'error', warning: 'warning', note: 'information', never: 'never' };

const isFormat = (text: string): text is Format => formats.some((format) => format === text);

/** Progress on a terminal when there is enough to wait for; none in a pipe. */
const showProgress = (io: Io, done: number, all: number): void => {
  if (!io.interactive || all < 40) return;
  io.writeError(done === all ? `\r${' '.repeat(30)}\r` : `\rchecking ${done} of ${all} …`);
};

const checkAll = (files: readonly string[], projects: Projects, io: Io): readonly FileFindings[] =>
  files.map((file, index) => {
    const checked = projects.check(file);
    showProgress(io, index + 1, files.length);
    return checked;
  });

const report = async (checked: readonly FileFindings[], format: Format, io: Io): Promise<void> => {
  if (format === 'text') {
    for (const file of checked) {
      for (const finding of file.findings) if (finding.severity !== 'hint') io.write(`${sayFinding(file, finding, io)}\n\n`);
    }
    io.write(`${summary(checked)}\n`);
    return;
  }
  const machine = await import('./check-formats.js');
  const named = checked.map((file) => ({ ...file, shown: shownPath(file.path, io) }));
  io.write(format === 'json' ? machine.checkJson(named) : machine.checkSarif(named, (path) => shownPath(path, io)));
};

const codeOf = (checked: readonly FileFindings[], threshold: Threshold): number => {
  if (threshold === 'never') return exit.fine;
  return checked.some((file) => file.findings.some((finding) => atLeast(finding.severity, threshold))) ? exit.findings : exit.fine;
};

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: {
      format: { type: 'string', default: 'text' },
      'fail-on': { type: 'string', default: 'error' },
      watch: { type: 'boolean', default: false },
    },
  });
  const format = values.format;
  if (!isFormat(format)) throw callError(`--format takes text, json or sarif, not ${format}.`);
  const threshold = thresholds[values['fail-on']];
  if (threshold === undefined) throw callError(`--fail-on takes error, warning, note or never, not ${values['fail-on']}.`);
  if (values.watch && format !== 'text') throw callError('--watch writes text only.');
  const projects = openProjects(io);
  const files = await findFiles(positionals, io);
  if (files.length === 0) {
    io.writeError('There is no .planish file here. `planish new panel NAME` starts one.\n');
    return exit.call;
  }
  const checked = checkAll(files, projects, io);
  await report(checked, format, io);
  if (!values.watch) return codeOf(checked, threshold);
  const { watchFiles } = await import('./watch.js');
  return watchFiles(positionals, io, async (changed) => {
    for (const project of projects.all()) for (const path of changed) project.invalidate(path);
    const now = await findFiles(positionals, io);
    io.write(`\n${changed.map((path) => shownPath(path, io)).join(', ')} changed\n\n`);
    await report(checkAll(now, projects, io), 'text', io);
  });
};
