/** Bare lengths in files that don't say what their lengths are in: one finding for each such file. */
import type { Fix, Span, Tree } from '../../grammar/syntax.js';
import type { Finding } from './finding.js';
import { shortPath } from './names.js';
import type { FileNames } from './reading.js';

/** @param needs bare lengths, by the file whose unit is wanted; spans absolute in the file being read */
export const unitsFindings = (names: FileNames, needs: readonly { readonly file: string; readonly span: Span }[]): readonly Finding[] => {
  const first = new Map<string, Span>();
  for (const { file, span } of needs) {
    const known = first.get(file);
    if (known === undefined || span.start < known.start) first.set(file, span);
  }
  return [...first].map(([file, span]) => {
    const own = file === names.path;
    const tree = own ? names.tree : names.env.treeOf(file);
    const said = own ? 'This file doesn’t say' : `This comes from ${shortPath(file)}, which doesn’t say`;
    return {
      file: names.path,
      span,
      rule: 'unit/bare-without-units',
      severity: 'error',
      message: `${said} what its lengths are in. Start it with units inch or units millimetre, or write a unit after each number.`,
      fixes: tree === undefined ? [] : [unitsFix('inch', file, tree, own), unitsFix('millimetre', file, tree, own)],
    };
  });
};

const unitsFix = (unit: string, file: string, tree: Tree, own: boolean): Fix => {
  const at = placeForUnits(tree);
  const edit = { span: { start: at.offset, end: at.offset }, text: at.after ? `\n\nunits ${unit}` : `units ${unit}\n\n` };
  return {
    title: own ? `Start with units ${unit}` : `Start ${shortPath(file)} with units ${unit}`,
    edits: [own ? edit : { ...edit, file }],
  };
};

/** After the files it brings, else before its first statement and the note above that. */
const placeForUnits = (tree: Tree): { readonly offset: number; readonly after: boolean } => {
  let last: number | undefined;
  for (const statement of tree.statements) {
    if (statement.word.name !== 'with') break;
    last = statement.span.end;
  }
  if (last !== undefined) {
    const lineEnd = tree.text.indexOf('\n', last);
    return { offset: lineEnd < 0 ? tree.text.length : lineEnd, after: true };
  }
  let offset = tree.statements[0]?.span.start ?? 0;
  for (;;) {
    const lineStart = tree.text.lastIndexOf('\n', offset - 1) + 1;
    if (lineStart === 0) return { offset: tree.text.startsWith('///') ? 0 : offset === 0 ? 0 : lineStart, after: false };
    const above = tree.text.lastIndexOf('\n', lineStart - 2) + 1;
    if (!tree.text.slice(above, lineStart).trimStart().startsWith('///')) return { offset: lineStart, after: false };
    offset = above;
  }
};
