/** Which part files a call means, and how files are written: beside, then renamed into place, so that a stop half-way leaves the old one. */
import { existsSync, mkdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { projectPath } from '../node-files.js';
import { callError, type Io } from './io.js';

export const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;

/** Every `.planish` file under a folder but for `node_modules` and folders whose name starts with a dot. */
const filesUnder = async (folder: string): Promise<readonly string[]> => {
  const { glob } = await import('tinyglobby');
  return glob(['**/*.planish'], { cwd: folder, absolute: true, dot: false, ignore: ['**/node_modules/**'], followSymbolicLinks: false });
};

/** Absolute project paths, sorted, each once. A path that does not exist is an error of the call; no paths means the folder stood in. */
export const findFiles = async (paths: readonly string[], io: Io): Promise<readonly string[]> => {
  const found = new Set<string>();
  for (const path of paths.length === 0 ? ['.'] : paths) {
    const whole = resolve(io.cwd, path);
    if (!existsSync(whole)) throw callError(`There is no file or folder ${path}.`);
    for (const file of isFolder(whole) ? await filesUnder(whole) : [whole]) found.add(projectPath(file));
  }
  return [...found].sort();
};

/** One part file that must be there. */
export const oneFile = (path: string, io: Io): string => {
  const whole = resolve(io.cwd, path);
  if (!existsSync(whole)) throw callError(`There is no file ${path}.`);
  if (isFolder(whole)) throw callError(`${path} is a folder; name one part file in it.`);
  return projectPath(whole);
};

/** As a person would name it: relative to the folder stood in when it lies within, with `/`. */
export const shownPath = (path: string, io: Io): string => {
  const short = relative(io.cwd, path).replaceAll('\\', '/');
  return short === '' || short.startsWith('../../../') ? path : short;
};

/**
 * The folder that `with` may not leave: the nearest one above the file that holds a `.git`, else the folder stood in when the file lies
 * within it, else the file's own folder.
 */
export const rootOf = (file: string, io: Io): string => {
  for (let folder = dirname(file); ; folder = dirname(folder)) {
    if (existsSync(join(folder, '.git'))) return projectPath(folder);
    if (dirname(folder) === folder) break;
  }
  const cwd = projectPath(io.cwd);
  return file.startsWith(`${cwd}/`) ? cwd : projectPath(dirname(file));
};

export const writeInPlace = (path: string, text: string | Uint8Array): void => {
  const folder = dirname(path);
  const beside = join(folder, `.${basename(path)}.${process.pid}.part`);
  try {
    mkdirSync(folder, { recursive: true });
    writeFileSync(beside, text);
    renameSync(beside, path);
  } catch (error) {
    rmSync(beside, { force: true });
    throw callError(`${path} can't be written: ${error instanceof Error ? error.message : String(error)}`);
  }
};
