/** One project per root, opened when a file of it is first asked for, and the findings of a file with the text they point into. */
import { type LineIndex, lineIndex } from '../lines.js';
import type { Finding } from '../model/finding.js';
import { nodeFiles } from '../node-files.js';
import { createProject, type Project } from '../project.js';
import { rootOf } from './files.js';
import type { Io } from './io.js';

export interface FileFindings {
  readonly path: string;
  readonly text: string;
  readonly lines: LineIndex;
  readonly findings: readonly Finding[];
}
export interface Projects {
  readonly of: (file: string) => Project;
  /** Everything that is said of a file; without what wants a plan of bending, which takes its time, when `plans` is false. */
  readonly check: (file: string, plans?: boolean) => FileFindings;
  readonly all: () => readonly Project[];
}

export const openProjects = (io: Io): Projects => {
  const open = new Map<string, Project>();
  const files = nodeFiles();
  const of = (file: string): Project => {
    const root = rootOf(file, io);
    const known = open.get(root);
    if (known !== undefined) return known;
    const project = createProject({ files, root });
    open.set(root, project);
    return project;
  };
  return {
    of,
    all: () => [...open.values()],
    check: (path, plans = true) => {
      const project = of(path);
      const text = project.tree(path).text;
      return { path, text, lines: lineIndex(text), findings: plans ? project.findingsWithPlans(path) : project.findings(path) };
    },
  };
};
