/** Files brought by `with`: found, or why not, said at the path. */
import type { Span, Statement, Tree } from '../../grammar/syntax.js';
import { newNameField } from './arguments.js';
import type { Environment } from './model.js';
import { shortPath } from './names.js';
import { type Brought, type FileNames, replace, type Sink } from './reading.js';

export interface Link {
  readonly span: Span;
  readonly target: string | undefined;
}

/** Folder of a path, without the last `/`. */
const folder = (path: string): string => path.slice(0, Math.max(path.lastIndexOf('/'), 0));

/** A path with `.` and `..` taken out; undefined when it climbs above the top. */
const tidy = (path: string): string | undefined => {
  const kept: string[] = [];
  for (const step of path.split('/')) {
    if (step === '' || step === '.') continue;
    if (step !== '..') kept.push(step);
    else if (kept.pop() === undefined) return undefined;
  }
  return `${path.startsWith('/') ? '/' : ''}${kept.join('/')}`;
};
const within = (path: string, root: string): boolean => {
  const top = root.endsWith('/') ? root.slice(0, -1) : root;
  return path === top || path.startsWith(`${top}/`);
};

/**
 * The files a tree brings, and its links. A file is brought only when it is there, inside the project's root (links resolved), not the file
 * itself, and not brought already.
 */
export const readBrought = (
  path: string,
  tree: Tree,
  env: Environment,
  sink: Sink,
  namesOf: (path: string) => FileNames | undefined,
): { readonly brought: readonly Brought[]; readonly links: readonly Link[] } => {
  const brought: Brought[] = [];
  const links: Link[] = [];
  const missing = (alias: ReturnType<typeof newNameField>): Brought => ({
    path: '',
    alias: alias?.name,
    aliasSpan: alias?.span,
    names: () => undefined,
  });
  let any = false;
  for (const statement of tree.statements) {
    if (statement.word.name !== 'with') continue;
    any = true;
    const text = statement.fields.path;
    const alias = newNameField(statement, 'as');
    if (text?.kind !== 'text') {
      brought.push(missing(alias));
      continue;
    }
    const target = findTarget(path, text.value, text.span, statement, env, sink);
    if (target !== undefined && brought.some((other) => other.path === target && other.alias === alias?.name)) {
      sink.report(text.span, 'name/brought-twice', `${shortPath(target)} is brought already. Once is enough.`, {
        fixes: [{ title: 'Take this line out', edits: [{ span: statement.span, text: '' }] }],
        severity: 'warning',
      });
      links.push({ span: text.span, target });
      continue;
    }
    if (alias !== undefined && brought.some((other) => other.alias === alias.name)) {
      sink.report(alias.span, 'name/repeated', `${alias.name} already names another file. Give this one another name.`);
    }
    links.push({ span: text.span, target });
    brought.push(
      target === undefined ? missing(alias) : { path: target, alias: alias?.name, aliasSpan: alias?.span, names: () => namesOf(target) },
    );
  }
  const shop = env.shopFile;
  if (!any && shop !== undefined && shop !== path && env.treeOf(shop) !== undefined) {
    brought.push({ path: shop, alias: undefined, aliasSpan: undefined, names: () => namesOf(shop) });
  }
  return { brought, links };
};

const findTarget = (path: string, written: string, span: Span, _statement: Statement, env: Environment, sink: Sink): string | undefined => {
  if (written.includes('\\')) {
    const cure = written.replaceAll('\\', '/');
    sink.report(span, 'name/file-missing', `Folders in a path are parted by /, on every machine: "${cure}".`, {
      fixes: [replace(span, `"${cure}"`, 'Write it with /')],
    });
    return undefined;
  }
  const outside = (): undefined => {
    sink.report(
      span,
      'name/file-outside',
      `"${written}" lies outside the project’s folder, and files can only be brought from within it. Put a copy beside this file.`,
    );
    return undefined;
  };
  if (written.trim() === '') {
    sink.report(span, 'name/file-missing', 'Name the file to bring: with "shop.planish".');
    return undefined;
  }
  if (written.startsWith('/') || /^[a-z]+:/i.test(written)) return outside();
  const target = tidy(`${folder(path)}/${written}`);
  if (target === undefined || !within(target, env.root)) return outside();
  if (target === path) {
    sink.report(span, 'name/file-itself', 'A file can’t bring itself; its own names are in sight already. Take this line out.');
    return undefined;
  }
  if (env.treeOf(target) === undefined) {
    const ending = written.endsWith('.planish') ? '' : ' Part files end in .planish.';
    sink.report(span, 'name/file-missing', `There is no file "${written}" here. The path counts from this file’s own folder.${ending}`, {
      fixes: ending === '' || env.treeOf(`${target}.planish`) === undefined ? [] : [replace(span, `"${written}.planish"`, 'Add .planish')],
    });
    return undefined;
  }
  return within(env.real(target), env.real(env.root)) ? target : outside();
};
