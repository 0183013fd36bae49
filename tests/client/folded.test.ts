/** The folded view as the editor shows it, with the server's own answers, in headless Chromium. Pictures go to out/space/ to be looked at. */
import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FromPage, ToPage } from '../../client/messages.js';
import { defaultSettings } from '../../server/lsp/ask.js';
import { foldedOf } from '../../server/lsp/folded.js';
import { nodeFiles } from '../../server/node-files.js';
import { createProject } from '../../server/project.js';
import { CHROMIUM, openHouse, type PageHouse, type ShownPage, type Theme } from './pageInChromium.js';

const samples = path.resolve(import.meta.dirname, '../../samples');
const pictures = path.resolve(import.meta.dirname, '../../out/space');

/** What the server answers about a sample, as the extension hands it to the page. */
const messageOf = (file: string, part?: string, text?: string): Extract<ToPage, { type: 'folded' }> => {
  const whole = path.join(samples, file);
  const project = createProject({ files: nodeFiles(), root: path.dirname(whole) });
  if (text !== undefined) project.setText(whole, text);
  const ask = { project, path: whole, settings: defaultSettings, uriOf: (at: string) => `file://${at}`, files: () => [whole] };
  const answer = foldedOf(ask, 1, part, undefined);
  if (answer.model === undefined || answer.part === undefined) throw new Error(`${file} has nothing to fold: ${answer.reason ?? ''}`);
  const { uri, version, parts, title, model, stale } = answer;
  return { type: 'folded', uri, version, fileName: path.basename(file), parts, part: answer.part, title, model, stale, reason: '' };
};

/** Tells the page to show space, and waits until the code for it has come and drawn. */
const openFolded = async (house: PageHouse, message: ToPage, theme: Theme = 'light', kept?: unknown): Promise<ShownPage> => {
  const shown = await house.open({
    theme,
    width: 1000,
    height: 720,
    kept: kept ?? { uri: '', part: '', view: 'folded', hidden: [], views: [] },
  });
  await shown.send(message);
  await shown.page.locator('#step', { hasText: /./ }).waitFor();
  await shown.page.waitForTimeout(300);
  return shown;
};

/** Folds by the slider to a share of the whole, and reads the scene in the frame in which it is drawn: where there is anything at all, by columns and rows. */
const foldTo = (shown: ShownPage, share: number): Promise<{ readonly drawn: number; readonly bytes: string; readonly step: string }> =>
  shown.page.evaluate(`new Promise((done) => {
    const slider = document.querySelector('#turned');
    slider.value = '${share}';
    slider.dispatchEvent(new Event('input'));
    requestAnimationFrame(() => {
      const copy = document.createElement('canvas');
      copy.width = 250; copy.height = 160;
      const pen = copy.getContext('2d');
      pen.drawImage(document.querySelector('#scene'), 0, 0, 250, 160);
      const { data } = pen.getImageData(0, 0, 250, 160);
      let drawn = 0;
      for (let i = 3; i < data.length; i += 4) if (data[i] > 0) drawn++;
      done({ drawn: drawn / (250 * 160), bytes: copy.toDataURL(), step: document.querySelector('#step').textContent });
    });
  })`);

/** A spot of the window where the pointer is over what is called so, looked for on a grid of three pixels. */
const spotOf = async (shown: ShownPage, name: RegExp): Promise<{ readonly x: number; readonly y: number }> => {
  const spot = await shown.page.evaluate<{ x: number; y: number } | null>(`(() => {
    const canvas = document.querySelector('#scene'), box = canvas.getBoundingClientRect(), words = document.querySelector('#pointed');
    for (let y = box.top + 20; y < box.bottom; y += 3) for (let x = box.left + 20; x < box.right; x += 9) {
      canvas.dispatchEvent(new PointerEvent('pointermove', { clientX: x, clientY: y }));
      if (${String(name)}.test(words.textContent)) return { x, y };
    }
    return null;
  })()`);
  if (spot === null) throw new Error(`nothing in sight is called ${String(name)}`);
  return spot;
};

const picked = async (shown: ShownPage): Promise<readonly string[]> =>
  (await shown.said()).flatMap((message: FromPage) => (message.type === 'reveal' ? [message.id] : []));

describe.skipIf(!fs.existsSync(CHROMIUM))('the folded view in a browser', () => {
  let house: PageHouse;
  beforeAll(async () => {
    fs.mkdirSync(pictures, { recursive: true });
    house = await openHouse();
  }, 60000);
  afterAll(() => house.close());

  test('the flat picture does not wait for the code that draws space', async () => {
    const shown = await house.open();
    expect(shown.asked.filter((at) => at.endsWith('.js'))).toEqual(['/preview.js']);
    await shown.page.locator('#tab_folded').click();
    expect(await shown.said()).toContainEqual({ type: 'chooseView', view: 'folded', uri: '', version: 0 });
    await shown.send(messageOf('cargo-trike/gate.planish'));
    await shown.page.locator('#step', { hasText: 'finished, 5 bends' }).waitFor();
    expect(shown.asked.filter((at) => at.endsWith('.js'))).toEqual(['/preview.js', '/folded.js']);
    expect(shown.stopped).toEqual([]);
    expect(shown.foreign).toEqual([]);
    expect((await shown.kept()) as object).toMatchObject({ view: 'folded' });
  });

  test('the part is drawn, and the slider folds it bend by bend', async () => {
    const shown = await openFolded(house, messageOf('cargo-trike/produce-box.planish'));
    const finished = await foldTo(shown, 1);
    const half = await foldTo(shown, 0.47);
    const flat = await foldTo(shown, 0);
    for (const { drawn } of [finished, half, flat]) expect(drawn).toBeGreaterThan(0.1);
    expect(new Set([finished.bytes, half.bytes, flat.bytes]).size).toBe(3);
    expect(flat.step).toBe('flat');
    // Eight bends: the four rims, which lie furthest out, then the four walls. 0.47 of eight is in the fourth.
    expect(half.step).toMatch(/^bend 4 of 8, (top|right|bottom|left)\.2: down 90°$/);
    expect((await foldTo(shown, 0.55)).step).toMatch(/^bend 5 of 8, (top|right|bottom|left)\.1: up 90°$/);
    expect((await foldTo(shown, 1)).bytes).toBe(finished.bytes);
  });

  test('how it is looked at and how far it is folded outlives a reload', async () => {
    const message = messageOf('cargo-trike/gate.planish');
    const shown = await openFolded(house, message);
    await shown.page.keyboard.press('Tab');
    await shown.page.locator('#space').focus();
    await shown.page.keyboard.press(',');
    await shown.page.keyboard.press('2');
    await shown.page.waitForTimeout(700);
    const kept = (await shown.kept()) as {
      readonly looks: readonly [string, { readonly turned: number; readonly around: number; readonly down: number }][];
    };
    expect(kept.looks[0]?.[1].turned).toBeCloseTo(4 / 5, 9);
    // From the right: a quarter turn from the front, level.
    expect(kept.looks[0]?.[1].around).toBeCloseTo(Math.PI / 2, 3);
    expect(kept.looks[0]?.[1].down).toBeCloseTo(Math.PI / 2, 3);
    const again = await openFolded(house, message, 'light', kept);
    expect((await again.said())[0]).toMatchObject({ type: 'ready', view: 'folded', part: 'gate' });
    expect(await again.page.locator('#step').textContent()).toMatch(/^bend 4 of 5/);
  });

  test('a face, a bend and a hole can be pointed at, and a click asks for their text', async () => {
    const shown = await openFolded(house, messageOf('cargo-trike/gate.planish'));
    for (const [name, id] of [
      [/^base/, 'face:base'],
      [/^flange hinge_side/, 'face:hinge_side'],
      [/^hinge_side: turn down/, 'bend:hinge_side'],
      [/^hand_hold/, 'cut:hand_hold'],
    ] as const) {
      const { x, y } = await spotOf(shown, name);
      await shown.page.mouse.click(x, y);
      expect((await picked(shown)).at(-1)).toBe(id);
    }
  });

  test('a drag turns the part and picks nothing', async () => {
    const shown = await openFolded(house, messageOf('cargo-trike/gate.planish'));
    const before = await foldTo(shown, 1);
    await shown.page.mouse.move(500, 300);
    await shown.page.mouse.down();
    await shown.page.mouse.move(560, 330, { steps: 4 });
    await shown.page.mouse.up();
    expect(await picked(shown)).toEqual([]);
    expect((await foldTo(shown, 1)).bytes).not.toBe(before.bytes);
  });

  test('what the cursor stands on in the text is lit, in the colour of the theme, and named', async () => {
    const message = messageOf('cargo-trike/gate.planish');
    const shown = await openFolded(house, message);
    const before = await foldTo(shown, 1);
    await shown.send({ type: 'lit', uri: message.uri, version: 1, ids: ['face:hinge_side', 'bend:hinge_side'] });
    expect((await foldTo(shown, 1)).bytes).not.toBe(before.bytes);
    expect(await shown.page.locator('#pointed').textContent()).toBe('flange hinge_side');
    await shown.send({ type: 'lit', uri: message.uri, version: 1, ids: [] });
    expect((await foldTo(shown, 1)).bytes).toBe(before.bytes);
  });

  test('what collides is said, and its colour explained', async () => {
    const text = `units mm
material mild_steel { density 7850 kg/m3 }
sheet st { material mild_steel thickness 1.5 mm bend radius 2 k 0.42 }
panel clip { sheet st outline rectangle 40 by 60 edge left, right { flange 30 up flange 30 up } }`;
    const message = messageOf('cargo-trike/gate.planish', 'clip', text);
    expect(message.model.collisions).toHaveLength(1);
    const shown = await openFolded(house, message);
    expect(await shown.page.locator('#pointed').textContent()).toMatch(/runs .* into/);
    expect(await shown.page.locator('.clash_key').isVisible()).toBe(true);
    await shown.page.screenshot({ path: path.join(pictures, 'clash-light.png') });
  });

  test('an old fold is marked as the flat picture is', async () => {
    const shown = await openFolded(house, { ...messageOf('cargo-trike/gate.planish'), stale: true, reason: 'a size is missing' });
    expect(await shown.page.locator('body.stale').count()).toBe(1);
    expect(await shown.page.locator('#banner').textContent()).toBe('Last good picture: the text has an error. a size is missing');
  });

  test('an edit is on the screen within two frames of its message', async () => {
    const shown = await openFolded(house, messageOf('cargo-trike/gate.planish'));
    const edited = messageOf(
      'cargo-trike/gate.planish',
      'gate',
      fs.readFileSync(path.join(samples, 'cargo-trike/gate.planish'), 'utf8').replace('flange 1 down', 'flange 2 down'),
    );
    const frames = await shown.page.evaluate<number>(`new Promise((done) => {
      let frames = 0;
      window.postMessage(${JSON.stringify(edited)}, '*');
      const look = () => {
        frames++;
        if (document.querySelector('#title').textContent.includes('11 × 2 in')) done(frames);
        else requestAnimationFrame(look);
      };
      requestAnimationFrame(look);
    })`);
    expect(frames).toBeLessThanOrEqual(2);
    expect(await shown.page.locator('#sizes').textContent()).toContain('2 in');
  });

  test('a window without WebGL says so in plain words', async () => {
    const shown = await house.open({ flatOnly: true, kept: { uri: '', part: '', view: 'folded', hidden: [], views: [] } });
    await shown.send(messageOf('cargo-trike/gate.planish'));
    await shown.page.locator('#no_space', { hasText: 'no WebGL' }).waitFor();
  });

  test.each<Theme>(['light', 'dark', 'high contrast'])(
    'pictures to look at: %s',
    async (theme) => {
      for (const [file, part] of [
        ['cargo-trike/gate.planish', 'gate'],
        ['cargo-trike/produce-box.planish', 'produce_box'],
        ['tool-cabinet/french-cleat.planish', 'cabinet_cleat'],
      ] as const) {
        const shown = await openFolded(house, messageOf(file, part), theme);
        await shown.page.screenshot({ path: path.join(pictures, `${part}-${theme.replace(' ', '-')}.png`) });
        expect(shown.stopped).toEqual([]);
      }
    },
    60000,
  );
});
