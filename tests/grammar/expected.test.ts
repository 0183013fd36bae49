/** `|` is the cursor. */
import { describe, expect, test } from 'vitest';
import { expectedAt } from '../../grammar/index.js';

const at = (marked: string) => expectedAt(marked.replace('|', ''), marked.indexOf('|'));
const inEdge = (line: string, after = ''): ReturnType<typeof at> =>
  at(`panel gate {\n  edge top {\n    ${line}${after}\n  }\n  hole 1/4 at (1, 2)\n}\n`);

describe('what may come at the cursor', () => {
  test('statements of the place, on a new line', () => {
    const found = inEdge('|');
    expect(found.place).toBe('edge');
    expect(found.statements.map((s) => s.word)).toEqual(expect.arrayContaining(['flange', 'hem', 'curl', 'joggle']));
    expect(found.statements.map((s) => s.word)).not.toContain('outline');
    expect(found.words).toEqual([]);
    expect(found.blockStack.map((b) => [b.word, b.name])).toEqual([
      ['panel', 'gate'],
      ['edge', undefined],
    ]);
  });
  test('the top of a file', () => {
    expect(at('|').statements.map((s) => s.word)).toEqual(expect.arrayContaining(['panel', 'section', 'units', 'let', 'sheet']));
    expect(at('units inch\n\npan|').statements.map((s) => s.word)).toContain('panel');
  });
  test('a word half typed is the prefix', () => {
    const found = inEdge('fla|');
    expect(found.prefix.end - found.prefix.start).toBe(3);
    expect(found.statements.map((s) => s.word)).toContain('flange');
  });
  test('a length, then a direction, then what may follow', () => {
    expect(inEdge('flange |').wants).toEqual([{ value: 'length', field: 'length' }]);
    expect(inEdge('flange |').words).toEqual([]);
    expect(inEdge('flange wid|').wants).toEqual([{ value: 'length', field: 'length' }]);
    expect(inEdge('flange wid|').fieldAt).toBe('length');
    const direction = inEdge('flange 3/4 |');
    expect(direction.words).toEqual(['up', 'down']);
    expect(direction.afterNumber).toBe(true);
    expect(direction.fieldAt).toBe('direction');
    const rest = inEdge('flange 3/4 down |');
    expect(rest.words).toEqual(expect.arrayContaining(['radius', 'ends', 'as', '{']));
    expect(rest.wants).toContainEqual({ value: 'angle', field: 'angle' });
    expect(rest.statement?.entry.word).toBe('flange');
  });
  test('an option already given is not offered again', () => {
    const found = inEdge('flange 3/4 down radius 1/8 |');
    expect(found.words).not.toContain('radius');
    expect(found.words).toContain('ends');
  });
  test('inside an option', () => {
    expect(inEdge('flange 3/4 down radius |').wants).toEqual([{ value: 'length', field: 'radius' }]);
    expect(inEdge('flange 3/4 down ends |').words).toEqual(expect.arrayContaining(['square', 'mitred', 'back']));
  });
  test('what stands after the cursor does not matter', () => {
    expect(inEdge('flange | down radius 1/8').wants).toEqual([{ value: 'length', field: 'length' }]);
    expect(inEdge('flange 3/4 |', '\n    hem 3/8 closed').words).toEqual(['up', 'down']);
  });
  test('names and new names', () => {
    expect(at('panel gate {\n  sheet |\n}').wants).toEqual([{ name: 'sheet', field: 'sheet' }]);
    expect(at('panel |').wants).toEqual([{ newName: 'part', field: 'name' }]);
    expect(at('panel gate {\n  edge top, |\n}').wants).toEqual([{ name: 'edge', field: 'edge' }]);
    expect(at('with |').wants).toEqual([{ text: true, field: 'path' }]);
  });
  test('inside a sum, and inside brackets', () => {
    expect(at('panel gate {\n  outline rectangle wide - |\n}').wants).toEqual([{ value: 'length', field: 'width' }]);
    const point = at('panel gate {\n  hole 1/4 at (|)\n}');
    expect(point.wants).toEqual([{ value: 'length', field: 'point' }]);
    expect(point.inBrackets).toBe(true);
  });
  test('after a point', () => {
    const found = at('panel gate {\n  check gate.blank.hei| <= 3\n}');
    expect(found.afterDot).toEqual(['gate', 'blank']);
    expect(found.prefix.end - found.prefix.start).toBe(3);
    expect(at('panel gate {\n  check gate.|\n}').afterDot).toEqual(['gate']);
  });
  test('in one line, the statement may go on or another begin', () => {
    const found = at('panel gate {\n  edge top { flange 1 up | }\n}');
    expect(found.words).toContain('radius');
    expect(found.statements.map((s) => s.word)).toContain('hem');
  });
  test('in a comment nothing', () => {
    const found = at('// let a|\nlet b = 3');
    expect([found.words, found.wants, found.statements]).toEqual([[], [], []]);
  });
  test('broken text before the cursor', () => {
    expect(at('pannel x {\n}\nlet = \npanel gate {\n  flnge 3\n  edge top {\n    flange |').wants).toEqual([
      { value: 'length', field: 'length' },
    ]);
    expect(inEdge('flange upp 3 |').statement?.entry.word).toBe('flange');
  });
  test('never throws, at any offset of a broken text', () => {
    const text = 'panel gate {\n  edge top { flange 3/4 dwon (\n  hole 1/4 at (1, "x\n}} let = 3.a..b { ; , #';
    for (let i = 0; i <= text.length; i++) expect(expectedAt(text, i).prefix.start).toBeLessThanOrEqual(i);
  });
});
