/**
 * The façade: texts in, answers out. The command line and the language server ask here and compute nothing themselves. All caches of the program are
 * here: one tree and one model per file, and per part what its blank and the rules came to, kept by the part's content so that an edit costs only
 * the parts it touches. Every answer is the same as a fresh project would give.
 */
import { parse } from '../grammar/index.js';
import type { Tree } from '../grammar/syntax.js';
import {
  type AskedStrips,
  askedStrips,
  type BeadResult,
  type NotReckoned,
  panelStiffness,
  type StiffnessAnswer,
  workBeads,
} from './bead/index.js';
import { type BendingAnswers, createBendingAnswers } from './bending.js';
import { layOut, type Words } from './blank/index.js';
import type { Blank, BlankResult } from './blank/types.js';
import { toTheEnd } from './brake/index.js';
import type { Files } from './files.js';
import { fromProblem, inOrder, madeAbsolute, madeAbsoluteThroughout } from './findings.js';
import { foldPart } from './fold/index.js';
import type { FoldResult } from './fold/types.js';
import { measuredTree } from './measure/index.js';
import { sayBothLengths, sayLength, writeLength } from './model/display.js';
import type { Finding, Severity } from './model/finding.js';
import { loadFile } from './model/index.js';
import type { Environment, FileModel, MeasuredTree, Trail } from './model/model.js';
import type { Part } from './model/part.js';
import { judge } from './rules/index.js';
import { pieceWork } from './stock/index.js';

export interface ProjectOptions {
  readonly files: Files;
  /** Absolute path; `with` may not leave it. */
  readonly root: string;
  /** Absolute path of the shop file for files that bring none. */
  readonly shopFile?: string;
  /** By rule name; `off` silences it. */
  readonly severities?: Readonly<Record<string, Severity | 'off'>>;
  /** Smallest fraction of an inch written; 64 unless given. */
  readonly denominator?: number;
}
export interface PartResult {
  readonly part: Part;
  readonly blank: BlankResult;
  /** The finished part, folded from the blank; undefined where there is no blank, or one whose pieces lie over each other flat. */
  readonly folded?: FoldResult | undefined;
  /** Of the blank, or of the last good one while there is none now; undefined for parts without roller work. */
  readonly beads: BeadResult | undefined;
  /** How far it gives under its loads, or why that can't be said; undefined for parts without loads, or without a blank. */
  readonly stiffness?: StiffnessAnswer | NotReckoned | undefined;
  /** All that is said inside this part, absolute. */
  readonly findings: readonly Finding[];
  /** What this part's blank was when it could last be laid out; undefined while it can be now. */
  readonly lastGood: Blank | undefined;
  /** What a piece or a strap was when all of it could last be read; undefined while it can be now. */
  readonly lastGoodPart?: Part | undefined;
  readonly key: string;
}
export interface Project extends BendingAnswers {
  /** An open buffer; it counts instead of the file until forgotten. */
  readonly setText: (path: string, text: string) => void;
  /** The buffer is closed: the file's own text counts again. */
  readonly forget: (path: string) => void;
  /** The file was changed, made or removed on disk. */
  readonly invalidate: (path: string) => void;
  /** Of a file that is not there: the tree of an empty text. */
  readonly tree: (path: string) => Tree;
  readonly model: (path: string) => FileModel;
  readonly parts: (path: string) => readonly PartResult[];
  /** All that can be said at once: everything but what wants a plan of bending. */
  readonly findings: (path: string) => readonly Finding[];
  /** The trials of a file that ask for strips, each with the strips designed for its panel. */
  readonly askedTrials: (path: string) => readonly AskedStrips[];
  /**
   * The same findings, pausing after each part, so that a newer edit can be taken in between. Returns undefined when one was: the answer is no
   * longer wanted.
   */
  readonly findingsInSteps: (path: string) => Generator<undefined, readonly Finding[] | undefined>;
  /** Known files, this one not among them, whose findings may change when this one does. */
  readonly dependents: (path: string) => readonly string[];
}

/** What a part came to, whatever stands above it in its file. */
interface Judged {
  readonly blank: BlankResult;
  /** Of the blank and of the rules, relative to the part. */
  readonly findings: readonly Finding[];
}
interface FileState {
  buffer: string | undefined;
  /** Read from disk and still true; null when there is no such file. */
  disk: string | null | undefined;
  tree: Tree | undefined;
  model: FileModel | undefined;
  /** The model before the last change, from which the next takes over what did not change. */
  previous: FileModel | undefined;
  /** Files that the last model brought. */
  brings: readonly string[];
  parts: readonly PartResult[] | undefined;
  findings: readonly Finding[] | undefined;
  /** By part key: this version of the file, and the one before, so that undoing an edit is as cheap as making it. */
  judged: ReadonlyMap<string, Judged>;
  judgedBefore: ReadonlyMap<string, Judged>;
  /** By the part itself, for sizes measured across parts, which are asked for before keys are known. Of this model and the one before. */
  blanks: Map<Part, BlankResult>;
  blanksBefore: ReadonlyMap<Part, BlankResult>;
  lastGood: ReadonlyMap<string, Blank>;
  /** The same of what is cut from a length, whose drawing needs the part alone. */
  lastGoodParts: ReadonlyMap<string, Part>;
}

const newState = (): FileState => ({
  buffer: undefined,
  disk: undefined,
  tree: undefined,
  model: undefined,
  previous: undefined,
  brings: [],
  parts: undefined,
  findings: undefined,
  judged: new Map(),
  judgedBefore: new Map(),
  blanks: new Map(),
  blanksBefore: new Map(),
  lastGood: new Map(),
  lastGoodParts: new Map(),
});

const nothingDecided: readonly Finding[] = [];
const nothingLaidOut: BlankResult = { blank: undefined, findings: [] };

/** Pictures kept of parts whose name is gone, which happens while a name is being typed. */
const keptStrangers = 8;

export const createProject = (options: ProjectOptions): Project => {
  const severities = options.severities ?? {};
  const denominator = options.denominator ?? 64;
  const states = new Map<string, FileState>();
  const trail: Trail = { steps: [] };
  const beadsByBlank = new WeakMap<Blank, BeadResult>();
  const stiffnessByBlank = new WeakMap<Blank, StiffnessAnswer | NotReckoned | undefined>();
  const foldsByBlank = new WeakMap<Blank, FoldResult>();
  const askedByFile = new WeakMap<FileModel, readonly AskedStrips[]>();
  const wordsByFile = new WeakMap<FileModel, Required<Words>>();

  const stateOf = (path: string): FileState => {
    const known = states.get(path);
    if (known !== undefined) return known;
    const fresh = newState();
    states.set(path, fresh);
    return fresh;
  };

  const textOf = (path: string): string | undefined => {
    const state = stateOf(path);
    if (state.buffer !== undefined) return state.buffer;
    if (state.disk === undefined) state.disk = options.files.read(path) ?? null;
    return state.disk ?? undefined;
  };

  const tree = (path: string): Tree => {
    const state = stateOf(path);
    state.tree ??= parse(textOf(path) ?? '');
    return state.tree;
  };

  /** Lengths in messages and fixes as the file itself would write them. */
  const wordsOf = (file: FileModel): Required<Words> => {
    const known = wordsByFile.get(file);
    if (known !== undefined) return known;
    const words: Required<Words> = {
      say: (mm) => sayLength(mm, file.units, denominator),
      sayBoth: (a, b) => sayBothLengths(a, b, file.units, denominator),
      write: (mm, towards) => writeLength(mm, file.units, towards, denominator),
    };
    wordsByFile.set(file, words);
    return words;
  };

  const blankFor = (file: FileModel, part: Part): BlankResult => {
    const state = stateOf(file.path);
    const laidOutBefore = state.blanks.get(part) ?? state.blanksBefore.get(part);
    const laysFlat = part.kind === 'panel' || part.kind === 'section';
    const blank = laidOutBefore ?? (laysFlat ? layOut(part, wordsOf(file)) : nothingLaidOut);
    state.blanks.set(part, blank);
    return blank;
  };

  /** By the blank, which is one and the same while its part is; what has no roller work costs nothing. */
  const beadsFor = (file: FileModel, part: Part, blank: Blank | undefined): BeadResult | undefined => {
    if (blank === undefined || part.kind !== 'panel') return undefined;
    if (part.beads.length + part.tips.length + part.crossBreaks.length + part.dimples.length === 0) return undefined;
    const known = beadsByBlank.get(blank);
    if (known !== undefined) return known;
    const beads = workBeads(part, blank, wordsOf(file));
    beadsByBlank.set(blank, beads);
    return beads;
  };

  const stiffnessFor = (file: FileModel, part: Part, blank: Blank | undefined): StiffnessAnswer | NotReckoned | undefined => {
    if (blank === undefined || part.kind !== 'panel' || part.loads.length === 0) return undefined;
    if (stiffnessByBlank.has(blank)) return stiffnessByBlank.get(blank);
    const stiffness = panelStiffness(part, wordsOf(file));
    stiffnessByBlank.set(blank, stiffness);
    return stiffness;
  };

  /** The finished part, by the blank; not of one whose pieces lie over each other before they are bent. */
  const foldFor = (file: FileModel, part: Part, result: BlankResult): FoldResult | undefined => {
    const { blank } = result;
    if (blank === undefined || (part.kind !== 'panel' && part.kind !== 'section')) return undefined;
    const known = foldsByBlank.get(blank);
    if (known !== undefined) return known;
    if (result.findings.some(({ rule }) => rule === 'fold/overlap-in-the-flat')) return undefined;
    const folded = foldPart(part, blank, wordsOf(file));
    foldsByBlank.set(blank, folded);
    return folded;
  };

  const measured = (path: string, name: string): MeasuredTree | undefined => {
    if (textOf(path) === undefined) return undefined;
    const file = model(path);
    const part = file.part(name);
    if (part === undefined) return undefined;
    const result = blankFor(file, part);
    return measuredTree(part, result.blank, {
      beads: () => beadsFor(file, part, result.blank),
      stiffness: () => stiffnessFor(file, part, result.blank),
      folded: () => foldFor(file, part, result),
      bending: () => bendings.planNow(file, part, result.blank),
    });
  };

  const environment: Environment = {
    treeOf: (path) => (textOf(path) === undefined ? undefined : tree(path)),
    modelOf: (path) => (textOf(path) === undefined ? undefined : model(path)),
    real: options.files.real,
    root: options.root,
    measured,
    trail,
    ...(options.shopFile === undefined ? {} : { shopFile: options.shopFile }),
  };

  const model = (path: string): FileModel => {
    const state = stateOf(path);
    if (state.model === undefined) {
      state.model = loadFile(path, tree(path), environment, state.previous);
      state.previous = undefined;
      state.brings = state.model.brings;
    }
    return state.model;
  };

  const judgePart = (file: FileModel, part: Part, key: string): Judged => {
    const state = stateOf(file.path);
    const known = state.judged.get(key) ?? state.judgedBefore.get(key);
    if (known !== undefined) {
      state.blanks.set(part, known.blank);
      return known;
    }
    if (part.kind === 'piece' || part.kind === 'strap') return { blank: nothingLaidOut, findings: pieceWork(part, wordsOf(file)).findings };
    const blank = blankFor(file, part);
    const judged = judge({
      part,
      blank,
      beads: beadsFor(file, part, blank.blank),
      stiffness: stiffnessFor(file, part, blank.blank),
      ...wordsOf(file),
    });
    const folded = foldFor(file, part, blank)?.findings ?? nothingDecided;
    return { blank, findings: blank.findings.length + folded.length === 0 ? judged : [...blank.findings, ...folded, ...judged] };
  };

  const resultOf = (file: FileModel, part: Part, key: string, start: number, judged: Judged): PartResult => {
    const { blank } = judged.blank;
    const measures = (): MeasuredTree | undefined =>
      measuredTree(part, blank, {
        beads: () => beadsFor(file, part, blank),
        stiffness: () => stiffnessFor(file, part, blank),
        folded: () => foldFor(file, part, judged.blank),
        bending: () => bendings.planNow(file, part, blank),
      });
    const decided = file.hasChecks(part.name) ? file.decide(part.name, measures()) : nothingDecided;
    const said = [
      ...[...part.findings, ...decided].map((finding) => madeAbsolute(finding, start)),
      ...judged.findings.map((finding) => madeAbsoluteThroughout(finding, start)),
    ];
    const lastGood = judged.blank.blank === undefined ? stateOf(file.path).lastGood.get(part.name) : undefined;
    const beads = beadsFor(file, part, blank ?? lastGood);
    const folded = foldFor(file, part, judged.blank);
    const stiffness = stiffnessFor(file, part, blank);
    const lastGoodPart = part.broken ? stateOf(file.path).lastGoodParts.get(part.name) : undefined;
    return { part, blank: judged.blank, folded, beads, stiffness, findings: inOrder(said, severities), lastGood, lastGoodPart, key };
  };

  const keepLastGood = (state: FileState, results: readonly PartResult[]): void => {
    const present = new Set(results.map(({ part }) => part.name));
    const strangers = [...state.lastGood].filter(([name]) => !present.has(name)).slice(-keptStrangers);
    const kept = new Map(strangers);
    for (const { part, blank, lastGood } of results) {
      const picture = blank.blank ?? lastGood;
      if (picture !== undefined) kept.set(part.name, picture);
    }
    state.lastGood = kept;
    const parts = new Map([...state.lastGoodParts].filter(([name]) => !present.has(name)).slice(-keptStrangers));
    for (const { part, lastGoodPart } of results) {
      const whole = part.broken ? lastGoodPart : part;
      if (whole !== undefined && (part.kind === 'piece' || part.kind === 'strap')) parts.set(part.name, whole);
    }
    state.lastGoodParts = parts;
  };

  const partsInSteps = function* (path: string): Generator<undefined, readonly PartResult[] | undefined> {
    const state = stateOf(path);
    if (state.parts !== undefined) return state.parts;
    const file = model(path);
    for (const name of file.partNames) {
      file.part(name);
      yield undefined;
      if (state.model !== file) return undefined;
    }
    const judged = new Map<string, Judged>();
    const results: PartResult[] = [];
    const { keys, starts } = file;
    for (const [index, part] of file.parts.entries()) {
      // The key holds the file's unit too, in which rules speak.
      const key = keys[index] ?? '';
      const outcome = judgePart(file, part, key);
      judged.set(key, outcome);
      results.push(resultOf(file, part, key, starts[index] ?? part.span.start, outcome));
      yield undefined;
      if (state.model !== file) return undefined;
    }
    state.judgedBefore = state.judged;
    state.judged = judged;
    keepLastGood(state, results);
    state.parts = results;
    return results;
  };

  const findingsInSteps = function* (path: string): Generator<undefined, readonly Finding[] | undefined> {
    const state = stateOf(path);
    if (state.findings !== undefined) return state.findings;
    const results = yield* partsInSteps(path);
    if (results === undefined) return undefined;
    const file = model(path);
    const inText = file.tree.problems.map((problem) => fromProblem(path, problem));
    const asked = askedTrials(path).flatMap(({ finding }) => finding ?? []);
    const all = [...inText, ...file.findings, ...results.flatMap((result) => result.findings), ...asked];
    state.findings = inOrder(all, severities);
    return state.findings;
  };

  const askedTrials = (path: string): readonly AskedStrips[] => {
    const file = model(path);
    const known = askedByFile.get(file);
    if (known !== undefined) return known;
    const asked = file.askedTrials.map((trial) => {
      const { panel } = trial.asks;
      const inSight = file.candidatesAt(trial.asks.span.start, ['trial', 'sheet', 'die']);
      const taken = new Set(inSight.flatMap(({ kind, written }) => (kind === 'trial' && written !== trial.name ? [written] : [])));
      return askedStrips(trial, panel === undefined ? undefined : model(panel.file).part(panel.name), {
        file: path,
        unit: file.units,
        denominator,
        taken,
        written: (thing) => inSight.find(({ target }) => target?.name === thing.name && target.file === thing.file)?.written ?? thing.name,
      });
    });
    askedByFile.set(file, asked);
    return asked;
  };

  const dropAnswers = (state: FileState): void => {
    // A part that points at other places would go on pointing where they were, so a model with such parts is not taken over.
    const pointsElsewhere = state.parts?.some(({ part }) => part.findings.some(({ related }) => related !== undefined)) === true;
    state.previous = pointsElsewhere ? undefined : (state.model ?? state.previous);
    if (state.model !== undefined) {
      state.blanksBefore = state.blanks;
      state.blanks = new Map();
    }
    state.model = undefined;
    state.parts = undefined;
    state.findings = undefined;
  };

  const dependents = (path: string): readonly string[] => {
    const found = new Set<string>();
    const add = (target: string): void => {
      for (const [other, state] of states) {
        if (other !== path && !found.has(other) && state.brings.includes(target)) {
          found.add(other);
          add(other);
        }
      }
    };
    add(path);
    return [...found].sort();
  };

  const changed = (path: string, change: (state: FileState) => void): void => {
    const state = stateOf(path);
    const before = textOf(path);
    change(state);
    const after = textOf(path);
    if (before === after) return;
    state.tree = undefined;
    // A file that comes or goes may be the one that some other file looked for in vain.
    const concerned = before === undefined || after === undefined ? [...states.keys()] : [path, ...dependents(path)];
    for (const other of concerned) dropAnswers(stateOf(other));
  };

  const bendings = createBendingAnswers({
    partsInSteps,
    findings: (path) => findings(path),
    model,
    modelNow: (path) => states.get(path)?.model,
    wordsOf,
    drop: (path) => {
      for (const other of [path, ...dependents(path)]) dropAnswers(stateOf(other));
    },
    severities,
  });

  /** Files that neither stand open nor are brought by one that does are read again when somebody asks. */
  const dropUnreachable = (): void => {
    const wanted = new Set([...states].flatMap(([path, state]) => (state.buffer === undefined ? [] : [path])));
    for (const path of wanted) {
      for (const brought of states.get(path)?.brings ?? []) wanted.add(brought);
    }
    for (const path of [...states.keys()]) if (!wanted.has(path)) states.delete(path);
  };

  const findings = (path: string): readonly Finding[] => toTheEnd(findingsInSteps(path)) ?? [];
  const { planNow: _, ...bendingAnswers } = bendings;

  return {
    ...bendingAnswers,
    setText: (path, text) => changed(path, (state) => Object.assign(state, { buffer: text })),
    forget: (path) => {
      changed(path, (state) => Object.assign(state, { buffer: undefined, disk: undefined }));
      dropUnreachable();
    },
    invalidate: (path) => {
      if (states.has(path)) changed(path, (state) => Object.assign(state, { disk: undefined }));
    },
    tree,
    model,
    parts: (path) => toTheEnd(partsInSteps(path)) ?? [],
    findings,
    askedTrials,
    findingsInSteps,
    dependents,
  };
};
