/**
 * Makes plans of bending while nobody waits: some time after the last edit, a little at a time, and broken off by the next. What they say is published then, as
 * a second answer; see DEVELOPERS.md, "One keystroke".
 */
import { describeError, nextTurn } from './publish.js';
import type { Workspace } from './workspace.js';

export interface Planner {
  /** A document's text, or something it reads, changed. */
  readonly changed: (uri: string) => void;
  readonly changedAll: () => void;
  readonly closed: (uri: string) => void;
  /** Somebody looks at the bending of this part: its plan comes first, and at once if it is missing. */
  readonly wanted: (uri: string, part: string, missing: boolean) => void;
}

export interface PlannerNeeds {
  readonly workspace: Workspace;
  /** New plans are there for a document. */
  readonly planned: (uri: string) => void;
  readonly failed: (message: string) => void;
}

/** Rest after an edit before plans are made, ms: first answers are asked for and drawn in it. */
const rest = 250;
/** Milliseconds the server works before it looks for newer messages. */
const longestTurn = 8;

export const createPlanner = ({ workspace, planned, failed }: PlannerNeeds): Planner => {
  const waiting = new Set<string>();
  /** By document, the part somebody looks at. */
  const looked = new Map<string, string>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running = false;

  /** True when plans were made; false when there were none to make, or a newer edit came. */
  const plan = async (uri: string): Promise<boolean> => {
    const version = workspace.version(uri);
    const { project, path } = workspace.ask(uri);
    const steps = project.planInSteps(path, looked.get(uri));
    let started = performance.now();
    for (let step = steps.next(); ; step = steps.next()) {
      if (step.done === true) return (step.value ?? 0) > 0;
      // The part that is looked at does not wait for the others.
      if (step.value !== undefined && step.value === looked.get(uri)) planned(uri);
      if (performance.now() - started < longestTurn) continue;
      await nextTurn();
      if (workspace.version(uri) !== version || workspace.ask(uri).project !== project) return false;
      started = performance.now();
    }
  };

  const run = async (): Promise<void> => {
    if (running) return;
    running = true;
    try {
      for (const uri of waiting) {
        waiting.delete(uri);
        if (workspace.version(uri) === undefined && !looked.has(uri)) continue;
        try {
          if (await plan(uri)) planned(uri);
        } catch (error) {
          failed(`bending of ${uri}: ${describeError(error)}`);
        }
        // An edit meanwhile has set its own time to begin anew.
        if (timer !== undefined) return;
      }
    } finally {
      running = false;
    }
  };
  const soon = (ms: number): void => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      timer = undefined;
      void run();
    }, ms);
    timer.unref();
  };
  const changed = (uri: string): void => {
    for (const other of [uri, ...workspace.dependents(uri)]) if (workspace.version(other) !== undefined) waiting.add(other);
    soon(rest);
  };

  return {
    changed,
    changedAll: () => workspace.openUris().forEach(changed),
    closed: (uri) => {
      waiting.delete(uri);
      looked.delete(uri);
    },
    wanted: (uri, part, missing) => {
      looked.set(uri, part);
      if (!missing) return;
      waiting.add(uri);
      if (timer === undefined && !running) soon(0);
    },
  };
};
