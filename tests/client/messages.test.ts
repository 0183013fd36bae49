import { describe, expect, test } from 'vitest';
import { follows, messageFor } from '../../client/documentPicture.js';
import { readFromPage, readKeptState } from '../../client/messages.js';
import { picturePage } from '../../client/page.js';
import { NOTHING_KEPT, readKept, viewFor, withLayer, withView } from '../../client/preview/kept.js';
import { FIT, type View } from '../../client/preview/viewport.js';
import type { PictureResult } from '../../server/lsp/protocol.js';

const answer: PictureResult = {
  uri: 'file:///job/gate.planish',
  version: 4,
  parts: [{ name: 'gate', kind: 'panel', summary: '30 1/4 × 13 in' }],
  part: 'gate',
  svg: '<svg/>',
  title: 'gate, panel',
  features: [],
  stale: false,
  partRange: undefined,
  reason: undefined,
};

describe('what the page is told', () => {
  test('a first answer is a whole picture', () => {
    expect(messageFor(answer, 'gate.planish', undefined)).toMatchObject({
      type: 'picture',
      version: 4,
      part: 'gate',
      svg: '<svg/>',
      stale: false,
    });
  });

  test('the same drawing again is not sent again', () => {
    const shown = { uri: answer.uri, part: 'gate', svg: '<svg/>' };
    const message = messageFor({ ...answer, version: 5, stale: true, reason: 'no sheet' }, 'gate.planish', shown);
    expect(message).toMatchObject({ type: 'unchanged', version: 5, stale: true, reason: 'no sheet' });
    expect(message).not.toHaveProperty('svg');
  });

  test('another part with the same drawing is sent, since its view and title are its own', () => {
    expect(messageFor(answer, 'gate.planish', { uri: answer.uri, part: 'lid', svg: '<svg/>' }).type).toBe('picture');
  });

  test('a file without parts says so by name', () => {
    const message = messageFor({ ...answer, parts: [], part: undefined, svg: undefined }, 'shop.planish', undefined);
    expect(message).toMatchObject({ type: 'nothing', reason: 'shop.planish has no parts to draw.' });
  });
});

describe('following the cursor', () => {
  test.each([
    ['never', true, false],
    ['never', false, false],
    ['on click', true, true],
    ['on click', false, false],
    ['always', true, true],
    ['always', false, true],
  ])('%s, by mouse %s: %s', (setting, byMouse, expected) => {
    expect(follows(setting, byMouse)).toBe(expected);
  });
});

describe('what the page says is read with care', () => {
  const about = { uri: 'file:///job/gate.planish', version: 2 };
  test('our own messages come through', () => {
    expect(readFromPage({ ...about, type: 'reveal', id: 'bend:top.1', extra: 1 })).toEqual({ ...about, type: 'reveal', id: 'bend:top.1' });
    expect(readFromPage({ ...about, type: 'ready', part: '', view: 'flat' })).toEqual({ ...about, type: 'ready', part: '', view: 'flat' });
    expect(readFromPage({ ...about, type: 'chooseView', view: 'folded' })).toEqual({ ...about, type: 'chooseView', view: 'folded' });
  });
  test.each([
    null,
    'reveal',
    {},
    { ...about, type: 'reveal' },
    { ...about, type: 'run', part: 'x' },
    { type: 'ready', part: '', uri: 3, version: 1 },
  ])('anything else does not: %j', (value) => expect(readFromPage(value)).toBeUndefined());
  test('the state of an earlier page names its document, or nothing', () => {
    expect(readKeptState({ uri: 'file:///a', part: 'gate', views: [] })).toEqual({ uri: 'file:///a', part: 'gate' });
    expect(readKeptState({ uri: 5 })).toBeUndefined();
  });
});

describe('what the page keeps', () => {
  const close: View = { kind: 'held', x: 1, y: 2, unit: 0.1 };
  test('each part of each file has its own view, and comes back from JSON as it was', () => {
    const kept = withLayer(withView(withView(NOTHING_KEPT, 'a', 'gate', close), 'a', 'lid', FIT), 'marks', false);
    const read = readKept(JSON.parse(JSON.stringify(kept)));
    expect(read).toEqual(kept);
    expect(viewFor(read, 'a', 'gate')).toEqual(close);
    expect(viewFor(read, 'b', 'gate')).toEqual(FIT);
    expect(withLayer(read, 'marks', true).hidden).toEqual([]);
  });
  test('only the 40 latest views are kept', () => {
    let kept = NOTHING_KEPT;
    for (let turn = 0; turn < 60; turn++) kept = withView(kept, 'a', `part_${turn}`, close);
    expect(kept.views.map(([key]) => key)).toEqual(Array.from({ length: 40 }, (_, index) => `a#part_${index + 20}`));
  });
});

describe('the page', () => {
  const html = picturePage({
    nonce: 'N0NCE',
    source: 'https://own.example',
    script: 'https://own.example/preview.js',
    foldedScript: 'https://own.example/folded.js',
    style: 'https://own.example/preview.css',
  });
  test('its policy lets nothing in but its own script and style sheet', () => {
    expect(html).toContain(
      `content="default-src 'none'; style-src https://own.example; script-src 'nonce-N0NCE'; base-uri 'none'; form-action 'none'"`,
    );
  });
  test('it has no inline style and no inline handler, which the policy would stop', () => {
    expect(html).not.toMatch(/\sstyle=|\son[a-z]+=|<style/);
    expect(html.match(/<script/g)).toHaveLength(1);
  });
});
