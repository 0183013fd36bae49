import { readdirSync } from 'node:fs';
import type { Files } from '../files.js';
import { createProject, type Project } from '../project.js';
import { type Ask, defaultSettings } from './ask.js';
import type { Settings } from './protocol.js';
import { folderOf, isWithin, pathOfUri, uriOfPath } from './uri.js';

/** Which files exist under a folder: `deep` goes into the folders within. Absolute paths with `/`. */
export type ListFiles = (folder: string, deep: boolean) => readonly string[];

/** What the editor has open, grouped into projects: one for each workspace folder, one for each other folder with an open file. */
export interface Workspace {
  readonly setFolders: (uris: readonly string[]) => void;
  readonly setSettings: (settings: Settings) => void;
  readonly setText: (uri: string, version: number, text: string) => void;
  readonly close: (uri: string) => void;
  /** Files changed, came or went on the disk. */
  readonly diskChanged: (uris: readonly string[]) => void;
  readonly ask: (uri: string) => Ask;
  /** One question per project, for requests about the whole workspace. */
  readonly asks: () => readonly Ask[];
  /** Version of an open document; undefined when it is not open. */
  readonly version: (uri: string) => number | undefined;
  readonly openUris: () => readonly string[];
  /** Reads the part files of the workspace folders one at a time, so that it is known who brings whom before anyone asks. */
  readonly explore: () => Generator<undefined, void>;
  /** Other files whose findings may change with this one. */
  readonly dependents: (uri: string) => readonly string[];
}

interface Root {
  readonly project: Project;
  readonly deep: boolean;
  files: readonly string[] | undefined;
}
interface OpenDocument {
  readonly uri: string;
  readonly version: number;
  readonly text: string;
}

/** A workspace of more part files than this is read as files are opened. */
const mostExplored = 300;

export const createWorkspace = (files: Files, listFiles: ListFiles): Workspace => {
  let folders: readonly string[] = [];
  let settings: Settings = defaultSettings;
  const roots = new Map<string, Root>();
  const open = new Map<string, OpenDocument>();

  const uriOf = (path: string): string => open.get(path)?.uri ?? uriOfPath(path);
  const folderHolding = (path: string): string | undefined =>
    folders.filter((folder) => isWithin(folder, path)).sort((a, b) => b.length - a.length)[0];

  const rootOf = (path: string): Root => {
    const folder = folderHolding(path);
    const at = folder ?? folderOf(path);
    const known = roots.get(at);
    if (known !== undefined) return known;
    const project = createProject({
      files,
      root: at,
      severities: settings.severities,
      denominator: settings.display.denominator,
      ...(settings.shopFile === ''
        ? {}
        : { shopFile: settings.shopFile.startsWith('/') ? settings.shopFile : `${at}/${settings.shopFile}` }),
    });
    // A folder that nobody opened as a workspace may be someone's home: only the files beside the open one are looked at.
    const root: Root = { project, deep: folder !== undefined, files: undefined };
    roots.set(at, root);
    for (const [openPath, document] of open)
      if ((folderHolding(openPath) ?? folderOf(openPath)) === at) project.setText(openPath, document.text);
    return root;
  };
  const filesOf = (at: string, root: Root): readonly string[] => {
    root.files ??= listFiles(at, root.deep);
    const opened = [...open.keys()].filter((path) => (folderHolding(path) ?? folderOf(path)) === at);
    return [...new Set([...root.files, ...opened])].sort();
  };
  const askAbout = (path: string): Ask => {
    const root = rootOf(path);
    const at = folderHolding(path) ?? folderOf(path);
    return { project: root.project, path, settings, uriOf, files: () => filesOf(at, root) };
  };

  return {
    setFolders: (uris) => {
      folders = uris.map(pathOfUri).map((path) => (path.length > 1 ? path.replace(/\/+$/, '') : path));
      roots.clear();
    },
    setSettings: (fresh) => {
      settings = fresh;
      roots.clear();
    },
    setText: (uri, version, text) => {
      const path = pathOfUri(uri);
      // The root first: making one hands it every document already open.
      const { project } = rootOf(path);
      open.set(path, { uri, version, text });
      project.setText(path, text);
    },
    close: (uri) => {
      const path = pathOfUri(uri);
      open.delete(path);
      rootOf(path).project.forget(path);
    },
    diskChanged: (uris) => {
      for (const root of roots.values()) root.files = undefined;
      for (const path of uris.map(pathOfUri)) rootOf(path).project.invalidate(path);
    },
    ask: (uri) => askAbout(pathOfUri(uri)),
    asks: () => {
      for (const folder of folders) rootOf(`${folder}/`);
      return [...roots].map(([at, root]) => ({ project: root.project, path: '', settings, uriOf, files: () => filesOf(at, root) }));
    },
    version: (uri) => open.get(pathOfUri(uri))?.version,
    openUris: () => [...open.values()].map((document) => document.uri),
    explore: function* () {
      for (const folder of folders) {
        const root = rootOf(`${folder}/`);
        for (const path of filesOf(folder, root).slice(0, mostExplored)) {
          void root.project.model(path).brings;
          yield undefined;
          if (roots.get(folder) !== root) break;
        }
      }
    },
    dependents: (uri) => {
      const path = pathOfUri(uri);
      return rootOf(path)
        .project.dependents(path)
        .filter((other) => other !== path)
        .map(uriOf);
    },
  };
};

/** Part files on the disk. Folders that hold no one's own work are passed by; a very large tree is cut off rather than waited for. */
export const listPartFiles: ListFiles = (folder, deep) => {
  const found: string[] = [];
  const waiting = [folder];
  let visited = 0;
  for (let at = waiting.shift(); at !== undefined && visited < 5000; at = waiting.shift()) {
    visited++;
    try {
      for (const entry of readdirSync(at, { withFileTypes: true })) {
        const path = at.endsWith('/') ? `${at}${entry.name}` : `${at}/${entry.name}`;
        if (entry.isFile() && entry.name.endsWith('.planish')) found.push(path);
        else if (deep && entry.isDirectory() && !entry.name.startsWith('.') && entry.name !== 'node_modules') waiting.push(path);
      }
    } catch {
      // A folder that can't be read holds nothing for us.
    }
  }
  return found.sort();
};
