/** From the words of a call to the command that answers them. Each command is loaded only when it is called, so that start-up stays quick. */
import { callMessage, exit, type Io } from './io.js';
import { version } from './version.js';
import { didYouMean } from './words.js';

interface Command {
  readonly help: string;
  readonly run: (argv: readonly string[], io: Io) => Promise<number>;
}

const commands: Readonly<Record<string, { readonly summary: string; readonly load: () => Promise<Command> }>> = {
  check: { summary: 'what is wrong in the files, and the cure', load: () => import('./check.js') },
  measure: { summary: 'the numbers: blank, bends, mass', load: () => import('./measure.js') },
  pattern: { summary: 'the true-size pattern: .pdf, .svg, .dxf, .png', load: () => import('./pattern.js') },
  compare: { summary: 'what changed between two versions', load: () => import('./compare.js') },
  plan: { summary: 'the order of the bends on this shop’s brake, or what blocks it', load: () => import('./plan.js') },
  cut: { summary: 'what to buy, and how to cut it from sheets and lengths', load: () => import('./cut.js') },
  book: { summary: 'the job booklet for the bench: .pdf or .html', load: () => import('./book.js') },
  format: { summary: 'tidy files in place', load: () => import('./format.js') },
  explain: { summary: 'the manual’s page for a rule or a word', load: () => import('./explain.js') },
  new: { summary: 'a starting file: panel, section, shop', load: () => import('./new.js') },
  serve: { summary: 'the language server on stdio, for any editor', load: () => import('./serve.js') },
};

const mainHelp = (): string => {
  const longest = Math.max(...Object.keys(commands).map((name) => name.length));
  const lines = Object.entries(commands).map(([name, { summary }]) => `  ${name.padEnd(longest)}  ${summary}`);
  return `planish: sheet-metal parts written as text

  planish COMMAND --help says more about each.

${lines.join('\n')}

Exit codes: 0 nothing wrong, 1 findings, 2 the call was wrong, 3 a fault of the program.
`;
};

const answer = async (argv: readonly string[], io: Io): Promise<number> => {
  const [name, ...rest] = argv;
  if (name === undefined) {
    io.writeError(mainHelp());
    return exit.call;
  }
  if (name === '--help' || name === '-h' || name === 'help') {
    const asked = commands[rest[0] ?? ''];
    io.write(asked === undefined ? mainHelp() : (await asked.load()).help);
    return exit.fine;
  }
  if (name === '--version' || name === '-v') {
    io.write(`planish ${version}\n`);
    return exit.fine;
  }
  const command = Object.hasOwn(commands, name) ? commands[name] : undefined;
  if (command === undefined) {
    io.writeError(`There is no command ${name}.${didYouMean(name, Object.keys(commands))} \`planish --help\` lists them.\n`);
    return exit.call;
  }
  const loaded = await command.load();
  const ownWords = rest.includes('--') ? rest.slice(0, rest.indexOf('--')) : rest;
  if (ownWords.includes('--help') || ownWords.includes('-h')) {
    io.write(loaded.help);
    return exit.fine;
  }
  return loaded.run(rest, io);
};

/** Runs one call and answers its exit code. Never throws. */
export const runProgram = async (argv: readonly string[], io: Io): Promise<number> => {
  try {
    return await answer(argv, io);
  } catch (error) {
    const message = callMessage(error);
    if (message !== undefined) {
      io.writeError(`${message}\n`);
      return exit.call;
    }
    io.writeError(`A fault of the program, not of your file: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
    return exit.fault;
  }
};
