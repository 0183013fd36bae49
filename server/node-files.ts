/**
 * Files on a disk, for the command line and the language server under Node. The one module beside those rooms that may know `node:*`.
 * A browser host uses `memoryFiles` (files.ts) instead, filled with what the host has read.
 */
import { readFileSync, realpathSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Files } from './files.js';

const withForwardSlashes = (path: string): string => path.replaceAll('\\', '/');

/** Absolute, with `/`, the form in which the project names files. */
export const projectPath = (path: string): string => withForwardSlashes(resolve(path));

/** Open buffers are the project's business (`setText`); this reads the disk only. Unreadable files count as absent. */
export const nodeFiles = (): Files => ({
  read: (path) => {
    try {
      const text = readFileSync(path, 'utf8');
      return text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
    } catch {
      return undefined;
    }
  },
  real: (path) => {
    try {
      return withForwardSlashes(realpathSync.native(path));
    } catch {
      return path;
    }
  },
});
