/** Files as a git revision holds them. Only `git show` and `git ls-tree` are run, and nothing is changed. */
import { spawnSync } from 'node:child_process';
import { relative, resolve } from 'node:path';
import type { Files } from './files.js';
import { decoded, projectPath } from './node-files.js';

export interface Revision {
  readonly files: Files;
  /** Absolute paths of the part files under a folder of that revision, or the file itself. */
  readonly partFiles: (path: string) => readonly string[];
  /** Top folder of the repository, absolute. */
  readonly root: string;
}

const git = (folder: string, words: readonly string[]): { readonly ok: boolean; readonly out: Buffer; readonly words: string } => {
  const done = spawnSync('git', [...words], { cwd: folder, maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'pipe'] });
  const fault = done.error === undefined ? done.stderr.toString('utf8').trim() : `git: ${done.error.message}`;
  return { ok: done.error === undefined && done.status === 0, out: done.stdout ?? Buffer.alloc(0), words: fault };
};

/**
 * @param folder    a folder within the repository
 * @param revision  anything git understands: `HEAD`, `HEAD~2`, a tag, a hash
 * @returns the revision, or in words why there is none
 */
export const openRevision = (folder: string, revision: string): Revision | string => {
  const top = git(folder, ['rev-parse', '--show-toplevel']);
  if (!top.ok) return top.words.includes('not a git repository') ? `${folder} is not in a git repository.` : top.words;
  const root = projectPath(top.out.toString('utf8').trim());
  const commit = git(root, ['rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{commit}`]);
  if (!commit.ok) return `There is no revision ${revision} in this repository.`;
  const hash = commit.out.toString('utf8').trim();
  const within = (path: string): string => relative(root, resolve(path)).replaceAll('\\', '/');
  const known = new Map<string, string | undefined>();
  return {
    root,
    files: {
      read: (path) => {
        if (!known.has(path)) {
          const shown = git(root, ['show', `${hash}:${within(path)}`]);
          known.set(path, shown.ok ? decoded(shown.out) : undefined);
        }
        return known.get(path);
      },
      real: (path) => path,
    },
    partFiles: (path) => {
      const listed = git(root, ['ls-tree', '-r', '-z', '--name-only', hash, '--', within(path) === '' ? '.' : within(path)]);
      if (!listed.ok) return [];
      return listed.out
        .toString('utf8')
        .split('\0')
        .filter((name) => name.endsWith('.planish'))
        .map((name) => projectPath(resolve(root, name)))
        .sort();
    },
  };
};
/** The folder of a path that may no longer be there. */
