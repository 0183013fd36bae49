/** Commands whose answers are not computed yet: said plainly, never guessed. */
import { exit, type Io } from './io.js';

const what: Readonly<Record<string, string>> = {
  book: 'the job booklet',
};

export const runLater = (command: string, io: Io): number => {
  io.writeError(`planish ${command}: ${what[command] ?? command} is not computed yet.\n`);
  return exit.call;
};
