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

/** The text of a file without its byte order mark: UTF-8, or UTF-16 when the mark says so, as some systems' own tools write it. */
export const decoded = (bytes: Uint8Array): string => {
  const [first, second] = bytes;
  const encoding = first === 0xff && second === 0xfe ? 'utf-16le' : first === 0xfe && second === 0xff ? 'utf-16be' : 'utf-8';
  return new TextDecoder(encoding).decode(bytes);
};

/** Open buffers are the project's business (`setText`); this reads the disk only. Unreadable files count as absent. */
export const nodeFiles = (): Files => ({
  read: (path) => {
    try {
      return decoded(readFileSync(path));
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
