/** The entry of the command line: the one place that knows the process. */
import type { Io } from './io.js';
import { runProgram } from './program.js';

// NO_COLOR (no-color.org) asks for none; FORCE_COLOR for some, also in a pipe.
const wantsColour = (): boolean => {
  const { env } = process;
  if (env.NO_COLOR !== undefined && env.NO_COLOR !== '') return false;
  if (env.FORCE_COLOR !== undefined && env.FORCE_COLOR !== '0') return true;
  return process.stdout.isTTY === true && env.TERM !== 'dumb';
};

const io: Io = {
  write: (text) => void process.stdout.write(text),
  writeError: (text) => void process.stderr.write(text),
  cwd: process.cwd(),
  columns: process.stdout.isTTY === true ? process.stdout.columns : Number.POSITIVE_INFINITY,
  colour: wantsColour(),
  interactive: process.stderr.isTTY === true && process.stdout.isTTY === true,
};

// A reader that closes the pipe early (head, less) has had what it wanted.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

void runProgram(process.argv.slice(2), io).then((code) => {
  process.exitCode = code;
});
