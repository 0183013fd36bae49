/** Models of files in memory, for the tests of this room. */
import { parse, type Tree } from '../../grammar/index.js';
import { type Environment, type FileModel, loadFile, type MeasuredTree } from '../../server/model/index.js';
import type { Panel, Part, Section } from '../../server/model/part.js';

export interface Built {
  readonly model: (name: string) => FileModel;
  readonly env: Environment;
  /** The same project after an edit of one file; models of the others are made anew too, from their last ones. */
  readonly edit: (name: string, text: string) => Built;
}
export interface Options {
  readonly measured?: (file: string, part: string, model: (name: string) => FileModel | undefined) => MeasuredTree | undefined;
  readonly root?: string;
  readonly real?: (path: string) => string;
  readonly shopFile?: string;
}

/** Files by name, all in the folder /job. */
export const build = (files: Readonly<Record<string, string>>, options: Options = {}, before?: ReadonlyMap<string, FileModel>): Built => {
  const at = (name: string): string => (name.startsWith('/') ? name : `/job/${name}`);
  const texts = new Map(Object.entries(files).map(([name, text]) => [at(name), text]));
  const trees = new Map<string, Tree>();
  const models = new Map<string, FileModel>();
  const treeOf = (path: string): Tree | undefined => {
    const text = texts.get(path);
    if (text === undefined) return undefined;
    const tree = trees.get(path) ?? parse(text);
    trees.set(path, tree);
    return tree;
  };
  const modelOf = (path: string): FileModel | undefined => {
    const known = models.get(path);
    const tree = treeOf(path);
    if (known !== undefined || tree === undefined) return known;
    const model = loadFile(path, tree, env, before?.get(path));
    models.set(path, model);
    return model;
  };
  const env: Environment = {
    treeOf,
    modelOf,
    real: options.real ?? ((path) => path),
    root: options.root ?? '/job',
    measured: (file, part) => options.measured?.(file, part, modelOf),
    ...(options.shopFile === undefined ? {} : { shopFile: options.shopFile }),
    trail: { steps: [] },
  };
  return {
    env,
    model: (name) => {
      const model = modelOf(at(name));
      if (model === undefined) throw new Error(`no file ${name}`);
      return model;
    },
    edit: (name, text) => build({ ...Object.fromEntries(texts), [at(name)]: text }, options, models),
  };
};

export const modelOf = (text: string, options?: Options): FileModel => build({ 'part.planish': text }, options).model('part.planish');
const partOf = (text: string, name: string): Part => {
  const part = modelOf(text).part(name);
  if (part === undefined) throw new Error(`no part ${name}`);
  return part;
};
export const panelOf = (text: string, name: string): Panel => {
  const part = partOf(text, name);
  if (part.kind !== 'panel') throw new Error(`${name} is no panel`);
  return part;
};
export const sectionOf = (text: string, name: string): Section => {
  const part = partOf(text, name);
  if (part.kind !== 'section') throw new Error(`${name} is no section`);
  return part;
};

/** A tree of measured lengths, mm, from a plain object. */
export const measuredLengths = (tree: { readonly [step: string]: number | object }): MeasuredTree =>
  Object.fromEntries(
    Object.entries(tree).map(([name, below]) => [
      name,
      typeof below === 'number'
        ? ({ kind: 'number', value: below, dim: { length: 1, angle: 0, mass: 0, force: 0, time: 0, money: 0 }, bare: false } as const)
        : measuredLengths(below as { readonly [step: string]: number | object }),
    ]),
  );
