import { describe, expect, test } from 'vitest';
import { attributeAllowed, elementAllowed } from '../../client/preview/sanitise.js';

const svg = 'http://www.w3.org/2000/svg';

describe('what may enter the page from a drawing', () => {
  test.each(['path', 'circle', 'g', 'text', 'title'])('<%s> may', (name) => expect(elementAllowed(name, svg)).toBe(true));
  test.each(['script', 'foreignObject', 'a', 'image', 'use', 'style', 'animate', 'set', 'iframe', 'SCRIPT'])('<%s> may not', (name) =>
    expect(elementAllowed(name, svg)).toBe(false),
  );
  test('nothing from another language, even under a harmless name', () => {
    expect(elementAllowed('title', 'http://www.w3.org/1999/xhtml')).toBe(false);
    expect(elementAllowed('g', null)).toBe(false);
  });
  test.each([
    ['d', 'M0 0L1 1'],
    ['class', 'feature bend'],
    ['data-id', 'bend:top.1'],
    ['aria-label', 'top.1'],
    ['marker-end', 'url(#arrow)'],
  ])('%s="%s" may', (name, value) => expect(attributeAllowed(name, value)).toBe(true));
  test.each([
    ['onclick', 'run()'],
    ['ONLOAD', 'run()'],
    ['style', 'fill:red'],
    ['href', '#a'],
    ['xlink:href', 'javascript:run()'],
    ['clip-path', 'url(http://elsewhere.test/#a)'],
    ['clip-path', 'url( "//elsewhere.test/" )'],
    ['d', 'M0 0 url(data:x)'],
    ['data-On', 'x'],
  ])('%s="%s" may not', (name, value) => expect(attributeAllowed(name, value)).toBe(false));
});
