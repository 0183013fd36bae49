/** Watches part files until told to stop; changes that come together are handed on together. */
import { resolve } from 'node:path';
import { watch } from 'chokidar';
import { projectPath } from '../node-files.js';
import { exit, type Io } from './io.js';

const settle = 60;

/**
 * @param onChange called with the changed files, never twice at once
 * @returns the exit code, once `io.stop` (or Ctrl+C, which ends the process) says so
 */
export const watchFiles = (paths: readonly string[], io: Io, onChange: (changed: readonly string[]) => Promise<void>): Promise<number> => {
  const watcher = watch(
    (paths.length === 0 ? ['.'] : paths).map((path) => resolve(io.cwd, path)),
    {
      ignoreInitial: true,
      ignored: (path, stats) =>
        /[\\/](node_modules|\.[^\\/.][^\\/]*)([\\/]|$)/.test(path.slice(io.cwd.length)) ||
        (stats?.isFile() === true && !path.endsWith('.planish')),
    },
  );
  const waiting = new Set<string>();
  let timer: NodeJS.Timeout | undefined;
  let working: Promise<void> = Promise.resolve();
  const flush = (): void => {
    const changed = [...waiting].sort();
    waiting.clear();
    working = working
      .then(() => onChange(changed))
      .catch((error: unknown) => io.writeError(`${error instanceof Error ? error.message : String(error)}\n`));
  };
  watcher.on('all', (event, path) => {
    if (event === 'addDir' || event === 'unlinkDir') return;
    waiting.add(projectPath(path));
    clearTimeout(timer);
    timer = setTimeout(flush, settle);
  });
  watcher.on('ready', () => io.write('Watching. Ctrl+C ends it.\n'));
  return new Promise((done) => {
    io.stop?.addEventListener('abort', () => {
      clearTimeout(timer);
      void watcher
        .close()
        .then(() => working)
        .then(() => done(exit.fine));
    });
  });
};
