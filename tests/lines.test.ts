import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lineIndex } from '../server/lines.js';

test('counts lines and columns from nought, in UTF-16 code units', () => {
  const lines = lineIndex('ab\n𝒜c\r\nd');
  expect(lines.lineCount).toBe(3);
  expect(lines.position(1)).toEqual({ line: 0, column: 1 });
  expect(lines.position(5)).toEqual({ line: 1, column: 2 });
  expect(lines.position(8)).toEqual({ line: 2, column: 0 });
});

test('takes a place past the end of a line as the end of that line', () => {
  const lines = lineIndex('ab\r\ncd');
  expect(lines.offset({ line: 0, column: 99 })).toBe(2);
  expect(lines.offset({ line: 9, column: 0 })).toBe(6);
  expect(lines.position(99)).toEqual({ line: 1, column: 2 });
});

test('there and back again comes to the same offset', () => {
  const texts = fc.array(fc.constantFrom('a', '½', '𝒜', '\n', '\r\n', '\r'), { maxLength: 30 }).map((pieces) => pieces.join(''));
  fc.assert(
    fc.property(texts, fc.nat(40), (text, wanted) => {
      const lines = lineIndex(text);
      const offset = Math.min(wanted, text.length);
      const between = text[offset - 1] === '\r' && text[offset] === '\n';
      expect(lines.offset(lines.position(offset))).toBe(between ? offset - 1 : offset);
    }),
  );
});
