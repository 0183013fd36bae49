import fs from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { ToPage } from '../../client/messages.js';
import { CHROMIUM, openHouse, type PageHouse } from './pageInChromium.js';

const uri = 'file:///job/gate.planish';
const parts = [
  { name: 'gate', kind: 'panel', summary: '200 × 100 mm' },
  { name: 'lid', kind: 'panel', summary: '' },
];

/** A picture as the server writes it, in little: 200 by 100 mm, one bend up at y = 80, one hole in the middle. */
const drawing = (
  extra = '',
  width = 200,
): string => `<svg xmlns="http://www.w3.org/2000/svg" class="planish_picture" role="img" aria-label="gate" viewBox="0 -100 ${width} 100">
<g class="areas"><g class="feature base" data-id="base"><title>base</title><path class="area base" d="M0 0L${width} 0L${width} -100L0 -100Z"/></g></g>
<g class="dimensions"><path class="dimension" d="M0 -5L${width} -5"/></g>
<g class="strokes"><g class="feature outline" data-id="outline"><title>outline</title><path class="cut" d="M0 0L${width} 0L${width} -100L0 -100Z"/></g>
<g class="feature bend" data-id="bend:top.1"><title>top.1: turn up 90°</title><path class="bend_up" d="M0 -80L${width} -80"/></g>
<g class="feature cut" data-id="cut:hole.1"><title>hole.1: 6</title><circle class="cut_inside" cx="100" cy="-50" r="10"/></g></g>
<g class="texts"><g class="feature bend" data-id="bend:top.1"><text class="text label middle" x="100" y="-84" font-size="4" text-anchor="middle">top.1</text></g></g>
${extra}</svg>`;

const picture = (svg = drawing(), more: Partial<Extract<ToPage, { type: 'picture' }>> = {}): ToPage => ({
  type: 'picture',
  uri,
  version: 1,
  fileName: 'gate.planish',
  parts,
  part: 'gate',
  title: 'gate, panel, crs_12, blank 200 × 100 mm',
  svg,
  stale: false,
  reason: '',
  ...more,
});

describe.skipIf(!fs.existsSync(CHROMIUM))('the picture page in a browser', () => {
  let house: PageHouse;
  beforeAll(async () => {
    house = await openHouse();
  }, 60000);
  afterAll(() => house.close());

  test('says that it is ready, and draws what comes, with nothing stopped by the policy', async () => {
    const shown = await house.open();
    expect(await shown.said()).toEqual([{ type: 'ready', part: '', view: 'flat', uri: '', version: 0 }]);
    await shown.send(picture());
    expect(await shown.page.locator('#drawing svg .bend_up').count()).toBe(1);
    expect(await shown.page.locator('#title').textContent()).toContain('200 × 100 mm');
    expect(await shown.page.locator('#part option').allTextContents()).toEqual(['gate', 'lid']);
    await shown.send(picture(drawing(), { title: 'post, piece, round_1 (round tube 1, wall 0.065 in), 38 in long' }));
    expect(await shown.page.locator('#title span').allTextContents()).toEqual([
      'post',
      'piece',
      'round_1 (round tube 1, wall 0.065 in)',
      '38 in long',
    ]);
    expect(shown.stopped).toEqual([]);
  });

  test('lets in no script, handler, link, style or foreign markup from a drawing', async () => {
    const shown = await house.open();
    const attack =
      '<script>window.hit=1</script><foreignObject><body xmlns="http://www.w3.org/1999/xhtml"><img src="x" onerror="window.hit=1"/></body></foreignObject>' +
      '<g onclick="window.hit=1" onload="window.hit=1"><a href="javascript:window.hit=1"><text>x</text></a><image href="http://elsewhere.test/x.png"/></g>' +
      '<style>path{fill:url(http://elsewhere.test/)}</style><path class="cut" style="fill:red" fill="url(http://elsewhere.test/)" d="M0 0L1 1"/>' +
      '<animate attributeName="href" values="javascript:window.hit=1"/><use href="http://elsewhere.test/#x"/>';
    await shown.send(picture(drawing(attack)));
    const left = await shown.page.evaluate<string[]>(
      `[...document.querySelectorAll('#drawing svg *')].flatMap((e) => [e.localName, ...[...e.attributes].map((a) => a.name)])`,
    );
    for (const name of ['script', 'foreignObject', 'img', 'a', 'image', 'style', 'animate', 'use', 'onclick', 'onload', 'href', 'fill'])
      expect(left).not.toContain(name);
    expect(await shown.page.evaluate('window.hit')).toBeUndefined();
    expect(shown.foreign).toEqual([]);
  });

  test('text that is no picture leaves the last one in place', async () => {
    const shown = await house.open();
    await shown.send(picture());
    await shown.send(picture('<svg xmlns="http://www.w3.org/2000/svg"><path'));
    await shown.send(picture('<html xmlns="http://www.w3.org/1999/xhtml"/>'));
    expect(await shown.page.locator('#drawing svg .bend_up').count()).toBe(1);
  });

  test('a click on or beside a line asks for its source; a drag does not', async () => {
    const shown = await house.open();
    await shown.send(picture());
    const line = await shown.page.locator('#drawing .bend_up').boundingBox();
    if (line === null) throw new Error('no bend line on the page');
    await shown.page.mouse.click(line.x + 50, line.y + 4);
    expect((await shown.said()).at(-1)).toEqual({ type: 'reveal', id: 'bend:top.1', uri, version: 1 });
    const before = await shown.page.locator('#drawing svg').getAttribute('viewBox');
    await shown.page.mouse.move(line.x + 50, line.y);
    await shown.page.mouse.down();
    await shown.page.mouse.move(line.x + 90, line.y + 20, { steps: 4 });
    await shown.page.mouse.up();
    expect((await shown.said()).filter((message) => message.type === 'reveal')).toHaveLength(1);
    expect(await shown.page.locator('#drawing svg').getAttribute('viewBox')).not.toBe(before);
  });

  test('the view and the hidden layers outlive edits and a reload; another part has its own view', async () => {
    const shown = await house.open();
    await shown.send(picture());
    await shown.page.locator('#closer').click();
    await shown.page.locator('#closer').click();
    await shown.page.locator('[data-layer=dimensions]').uncheck();
    const close = await shown.page.locator('#drawing svg').getAttribute('viewBox');
    await shown.send(picture(drawing('', 260), { version: 2 }));
    expect(await shown.page.locator('#drawing svg').getAttribute('viewBox')).toBe(close);
    expect(await shown.page.locator('.dimensions').isVisible()).toBe(false);

    const again = await house.open({ kept: await shown.kept() });
    expect((await again.said())[0]).toMatchObject({ type: 'ready', part: 'gate', uri });
    await again.send(picture(drawing('', 260), { version: 2 }));
    expect(await again.page.locator('#drawing svg').getAttribute('viewBox')).toBe(close);
    expect(await again.page.locator('[data-layer=dimensions]').isChecked()).toBe(false);
    await again.send(picture(drawing(), { part: 'lid' }));
    expect(await again.page.locator('#drawing svg').getAttribute('viewBox')).not.toBe(close);
    await again.send(picture(drawing('', 260), { part: 'gate' }));
    expect(await again.page.locator('#drawing svg').getAttribute('viewBox')).toBe(close);
  });

  test('the wheel zooms about the pointer', async () => {
    const shown = await house.open();
    await shown.send(picture());
    const hole = shown.page.locator('#drawing .cut_inside');
    const before = await hole.boundingBox();
    if (before === null) throw new Error('no hole on the page');
    const middle = { x: before.x + before.width / 2, y: before.y + before.height / 2 };
    await shown.page.mouse.move(middle.x, middle.y);
    await shown.page.mouse.wheel(0, -300);
    await shown.page.waitForTimeout(60);
    const after = await hole.boundingBox();
    if (after === null) throw new Error('no hole on the page');
    expect(after.width).toBeGreaterThan(before.width * 1.1);
    expect(after.x + after.width / 2).toBeCloseTo(middle.x, 0);
    expect(after.y + after.height / 2).toBeCloseTo(middle.y, 0);
  });

  test('text under the cursor lights its lines, and only those, through a redraw', async () => {
    const shown = await house.open();
    await shown.send(picture());
    await shown.send({ type: 'lit', uri, version: 1, ids: ['bend:top.1'] });
    await shown.send(picture(drawing('', 260), { version: 2 }));
    const lit = await shown.page.evaluate(`[...new Set([...document.querySelectorAll('.lit')].map((e) => e.dataset.id))]`);
    expect(lit).toEqual(['bend:top.1']);
  });

  test('an old picture says so and why', async () => {
    const shown = await house.open();
    await shown.send(picture());
    expect(await shown.page.locator('#banner').isVisible()).toBe(false);
    await shown.send({
      type: 'unchanged',
      uri,
      version: 2,
      parts,
      part: 'gate',
      title: 'gate, panel',
      stale: true,
      reason: 'no sheet "crs_99" here',
    });
    expect(await shown.page.locator('#banner').textContent()).toBe('Last good picture: the text has an error. no sheet "crs_99" here');
    await shown.send({
      type: 'nothing',
      uri,
      version: 3,
      fileName: 'shop.planish',
      parts: [],
      part: '',
      reason: 'shop.planish has no parts to draw.',
    });
    expect(await shown.page.locator('#empty').textContent()).toBe('shop.planish has no parts to draw.');
    expect(await shown.page.locator('.chooser').isVisible()).toBe(false);
    expect(await shown.page.locator('#drawing svg').count()).toBe(0);
  });

  test('works by keyboard: Tab from feature to feature, each once and named, Enter to its source, keys for the view', async () => {
    const shown = await house.open();
    await shown.send(picture());
    await shown.page.locator('#sheet').focus();
    const names: string[] = [];
    for (let turn = 0; turn < 4; turn++) {
      await shown.page.keyboard.press('Tab');
      names.push(await shown.page.evaluate<string>(`document.activeElement.getAttribute('aria-label')`));
    }
    expect([...names].sort()).toEqual(['base', 'hole.1: 6', 'outline', 'top.1: turn up 90°']);
    await shown.page.keyboard.press('Enter');
    expect((await shown.said()).at(-1)?.type).toBe('reveal');
    const fitted = await shown.page.locator('#drawing svg').getAttribute('viewBox');
    await shown.page.keyboard.press('+');
    await shown.page.keyboard.press('ArrowLeft');
    expect(await shown.page.locator('#drawing svg').getAttribute('viewBox')).not.toBe(fitted);
    await shown.page.keyboard.press('0');
    expect(await shown.page.locator('#drawing svg').getAttribute('viewBox')).toBe(fitted);
    // The feature in hand stays in hand while the text is edited.
    const held = await shown.page.evaluate<string>(`document.activeElement.dataset.id`);
    await shown.send(picture(drawing('', 260), { version: 2 }));
    expect(await shown.page.evaluate(`document.activeElement.dataset.id`)).toBe(held);
  });

  test('choosing a part asks for it', async () => {
    const shown = await house.open();
    await shown.send(picture());
    await shown.page.locator('#part').selectOption('lid');
    expect((await shown.said()).at(-1)).toEqual({ type: 'choosePart', part: 'lid', uri, version: 1 });
  });

  test('bends up and down differ by line type, and cuts are twice as wide as narrow lines, in every theme', async () => {
    const shown = await house.open();
    const down = '<g class="strokes"><g class="feature bend" data-id="bend:low.1"><path class="bend_down" d="M0 -20L200 -20"/></g></g>';
    await shown.send(picture(drawing(down)));
    for (const theme of ['light', 'dark', 'high contrast', 'high contrast light'] as const) {
      await shown.wear(theme);
      const line = (kind: string) =>
        shown.page.evaluate<{ dash: string; width: number; stroke: string }>(
          `(() => { const s = getComputedStyle(document.querySelector('#drawing .${kind}')); return { dash: s.strokeDasharray, width: parseFloat(s.strokeWidth), stroke: s.stroke }; })()`,
        );
      const [cut, up, below, dimension] = [await line('cut'), await line('bend_up'), await line('bend_down'), await line('dimension')];
      expect(up.dash).toBe('none');
      expect(below.dash).not.toBe('none');
      expect(cut.width).toBeGreaterThanOrEqual(2 * dimension.width);
      for (const { stroke } of [cut, up, below, dimension]) expect(stroke).toMatch(/^rgb/);
    }
  });
});
