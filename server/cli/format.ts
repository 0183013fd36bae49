/** `planish format [PATH…]`: tidies files in place. */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { format } from '../../grammar/index.js';
import { decoded } from '../node-files.js';
import { findFiles, shownPath, writeInPlace } from './files.js';
import { exit, type Io } from './io.js';
import { counted } from './words.js';

export const help = `planish format [PATH…]

Tidies spacing and line breaks in place. It never changes a number, nor loses a comment.

  --check   change nothing; name the files that would change, with exit code 1 if there are any
`;

const mark = '\ufeff';

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: { check: { type: 'boolean', default: false } },
  });
  const files = await findFiles(positionals, io);
  let changed = 0;
  for (const file of files) {
    const raw = readFileSync(file);
    const text = decoded(raw);
    // A file in UTF-16 is left in UTF-8, which is what a part file is.
    const marked = raw[0] === 0xef && raw[1] === 0xbb && raw[2] === 0xbf;
    const tidy = format(text);
    if (tidy === text) continue;
    changed += 1;
    io.write(`${shownPath(file, io)}\n`);
    if (!values.check) writeInPlace(file, marked ? mark + tidy : tidy);
  }
  const all = counted(files.length, 'file');
  if (values.check) io.write(changed === 0 ? `${all}, all tidy.\n` : `${changed} of ${all} would change.\n`);
  else io.write(changed === 0 ? `${all}, all tidy already.\n` : `${changed} of ${all} tidied.\n`);
  return values.check && changed > 0 ? exit.findings : exit.fine;
};
