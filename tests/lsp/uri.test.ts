import { describe, expect, it } from 'vitest';
import { isWithin, pathOfUri, relativePath, uriOfPath } from '../../server/lsp/uri.js';

describe('client names of files', () => {
  it.each([
    ['file:///home/shop/gate.planish', '/home/shop/gate.planish'],
    ['file:///home/my%20shop/t%C3%BCr.planish', '/home/my shop/tür.planish'],
    ['file:///home/shop/50%25.planish', '/home/shop/50%.planish'],
    ['file:///C%3A/shop/gate.planish', 'c:/shop/gate.planish'],
    ['file:///c:/shop/gate.planish', 'c:/shop/gate.planish'],
    ['file://bench/share/gate.planish', '//bench/share/gate.planish'],
    ['untitled:Untitled-1', '/~unsaved~/untitled/Untitled-1'],
  ])('%s is the path %s', (uri, path) => expect(pathOfUri(uri)).toBe(path));

  it.each([
    '/home/my shop/tür.planish',
    '/a/50%.planish',
    '/a/b#c?d.planish',
    'c:/shop/gate.planish',
    '//bench/share/gate.planish',
    '/~unsaved~/untitled/Untitled-1',
  ])('%s comes back from its name', (path) => expect(pathOfUri(uriOfPath(path))).toBe(path));

  it('a folder holds what is under it, not what only begins alike', () => {
    expect([isWithin('/shop', '/shop/a.planish'), isWithin('/shop', '/shopping/a.planish'), isWithin('/', '/a.planish')]).toEqual([
      true,
      false,
      true,
    ]);
  });

  it('a path is written the way a `with` would', () => {
    expect(relativePath('/shop/parts/gate.planish', '/shop/shop.planish')).toBe('../shop.planish');
    expect(relativePath('/shop/gate.planish', '/shop/parts/lid.planish')).toBe('parts/lid.planish');
  });
});
