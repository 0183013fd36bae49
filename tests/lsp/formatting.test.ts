import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDocument, formatOnType, formatRange, lineEdits } from '../../server/lsp/formatting.js';
import { edited, scene } from './support.js';

const untidy = `units   inch
// the rear gate
panel gate {
sheet crs_18
    outline rectangle 12 by 8
  hole 1/4 at (1,1)
}
`;
const tidy = `units inch
// the rear gate
panel gate {
  sheet   crs_18
  outline rectangle 12 by 8
  hole    1/4 at (1, 1)
}
`;

describe('formatting', () => {
  it('the whole file, with a change for each line that changes and none for the others', () => {
    const { ask, text } = scene(untidy);
    const edits = formatDocument(ask);
    const after = edited(text, edits);
    expect(after.split('\n').map((line) => line.replace(/\s+/g, ' ').trim())).toEqual(
      tidy.split('\n').map((line) => line.replace(/\s+/g, ' ').trim()),
    );
    expect(formatDocument(scene(after).ask)).toEqual([]);
    expect(edits.map((edit) => edit.range.start.line)).not.toContain(1);
  });

  it('a selection changes only its own lines', () => {
    const { ask } = scene(untidy);
    const edits = formatRange(ask, { start: { line: 3, character: 0 }, end: { line: 4, character: 0 } });
    expect(edits.map((edit) => edit.range.start.line)).toEqual([3]);
  });

  it('a closing brace tidies the statement it closes and nothing above it', () => {
    const { ask, position } = scene(`${untidy.trimEnd()}|\n`);
    const lines = formatOnType(ask, position, '}').map((edit) => edit.range.start.line);
    expect(lines.length).toBeGreaterThan(0);
    expect(Math.min(...lines)).toBeGreaterThanOrEqual(2);
    expect(formatOnType(ask, position, 'x')).toEqual([]);
  });
});

describe('changes between two texts', () => {
  const apply = (before: string, after: string): string => {
    let text = before;
    for (const change of [...lineEdits(before, after)].reverse()) text = text.slice(0, change.start) + change.text + text.slice(change.end);
    return text;
  };
  it('give the second text when applied to the first, whatever the two are', () => {
    const texts = fc
      .array(fc.constantFrom('a', 'b {', '}', ' a', 'a b', '', '// c', '\t'), { maxLength: 12 })
      .map((rows) => rows.join('\n'));
    fc.assert(fc.property(texts, texts, (before, after) => apply(before, after) === after));
  });
  it('leave out what did not change', () => {
    expect(lineEdits('a\n  b\nc\n', 'a\nb\nc\n')).toEqual([{ start: 2, end: 6, text: 'b\n' }]);
  });
});
