/** A comparison as a document: for each part what was changed, what follows, and the overlay. */
import { overlayFigure, type PartComparison } from './compare.js';
import type { CompareOptions } from './compare-facts.js';
import type { Block } from './documents/blocks.js';

export const comparisonBlocks = (
  compared: readonly { readonly file: string; readonly parts: readonly PartComparison[]; readonly options: CompareOptions }[],
  words: { readonly old: string; readonly new: string },
): readonly Block[] => {
  const parts = compared.flatMap(({ file, parts: own, options }) => own.map((part) => ({ file, part, options })));
  const changed = parts.filter(({ part }) => part.state !== 'same');
  const same = parts.filter(({ part }) => part.state === 'same').map(({ part }) => part.name);
  return [
    { kind: 'heading', level: 1, text: 'What changed' },
    { kind: 'paragraph', text: `Old: ${words.old}. New: ${words.new}.` },
    ...(changed.length === 0 ? [{ kind: 'paragraph', text: 'Nothing: every part is the same.' } as const] : []),
    ...changed.flatMap(({ file, part, options }) => partBlocks(file, part, options)),
    ...(changed.length > 0 && same.length > 0 ? [{ kind: 'paragraph', text: `Not changed: ${same.join(', ')}.` } as const] : []),
  ];
};

const partBlocks = (file: string, part: PartComparison, options: CompareOptions): readonly Block[] => {
  const table = (title: string, kind: 'written' | 'follows'): readonly Block[] => {
    const rows = part.changes.filter((change) => change.kind === kind).map((change) => [change.what, change.old ?? '–', change.new ?? '–']);
    if (rows.length === 0) return [];
    const columns = [
      { title, share: 2.4 },
      { title: 'old', share: 2 },
      { title: 'new', share: 2, bold: true },
    ];
    return [{ kind: 'table', columns, rows }];
  };
  const figure = overlayFigure(part, options, 165, 110);
  return [
    { kind: 'heading', level: 2, text: `${part.name} (${file})${part.state === 'changed' ? '' : `: ${part.state}`}` },
    ...table('changed', 'written'),
    ...table('and so', 'follows'),
    ...(figure === undefined ? [] : [{ kind: 'figures', figures: [figure] } as const]),
  ];
};
