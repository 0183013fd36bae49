// biome-ignore-all lint/suspicious/noTemplateCurlyInString: snippets of the protocol are written that way
import { describe, expect, it } from 'vitest';
import type { Pattern, StatementEntry } from '../../grammar/vocabulary/pattern.js';
import {
  anyOrder,
  block,
  choice,
  length,
  list,
  name,
  newName,
  option,
  optional,
  point,
  sequence,
  word,
} from '../../grammar/vocabulary/pattern.js';
import { beginsWithName, fieldOfWord, snippetOf, wantedOf } from '../../server/lsp/patternText.js';

const entry = (first: string, pattern: Pattern): StatementEntry => ({
  word: first,
  id: first,
  family: 'part',
  places: ['file'],
  pattern,
  summary: '',
  example: '',
  note: '',
  arguments: {},
  computed: true,
});
const flange = entry(
  'flange',
  sequence(
    length('length'),
    choice('direction', 'up', 'down'),
    anyOrder(optional(option('radius', length('radius'))), optional(option('as', newName('as', 'flange')))),
  ),
);
const hole = entry('hole', sequence(length('diameter'), option('at', list('at', point('at')))));
const panel = entry('panel', sequence(newName('name', 'part'), block('panel')));

describe('what a statement’s form tells the editor', () => {
  it('a snippet has a stop for each argument that must be there', () => {
    expect(snippetOf(flange)).toBe('flange ${1:length} ${2|up,down|}');
    expect(snippetOf(panel)).toBe('panel ${1:name} {\n\t$0\n}');
    expect(snippetOf(entry('close', optional(word('as'))))).toBe('close');
  });

  it('what has a name already is chosen from a list: an empty stop, and the editor is told', () => {
    const sheet = entry('sheet', name('sheet', 'sheet'));
    const edge = entry('edge', sequence(list('edges', name('edges', 'edge')), block('edge')));
    expect(snippetOf(sheet)).toBe('sheet $1');
    expect(snippetOf(edge)).toBe('edge $1 {\n\t$0\n}');
    expect([sheet, edge, panel, flange].map(beginsWithName)).toEqual([true, true, false, false]);
  });

  it('knows what an argument must be, and which argument a word brings', () => {
    expect([wantedOf(flange, 'radius'), wantedOf(hole, 'at'), wantedOf(flange, 'nothing')]).toEqual(['length', 'point', undefined]);
    expect([fieldOfWord(flange, 'radius'), fieldOfWord(flange, 'down'), fieldOfWord(hole, 'at'), fieldOfWord(flange, 'xyz')]).toEqual([
      'radius',
      'direction',
      'at',
      undefined,
    ]);
  });
});
