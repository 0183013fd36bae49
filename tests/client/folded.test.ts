/**
 * The folded view as the editor shows it, with the server's own answers, in headless Chromium, where the processor draws space: slowly, so the window is small.
 * PLANISH_PICTURES=1 draws samples in every theme into out/space/, to be looked at.
 */
import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FromPage, ToPage } from '../../client/messages.js';
import { placedPart } from '../../client/preview/folded/placing.js';
import { FIRST_LOOK } from '../../client/preview/kept.js';
import { defaultSettings } from '../../server/lsp/ask.js';
import type { FoldOrder } from '../../server/lsp/bendOrder.js';
import { foldedOf } from '../../server/lsp/folded.js';
import { nodeFiles } from '../../server/node-files.js';
import { createProject } from '../../server/project.js';
import { CHROMIUM, openHouse, type PageHouse, type ShownPage, type Theme } from './pageInChromium.js';

const samples = path.resolve(import.meta.dirname, '../../samples');
const pictures = path.resolve(import.meta.dirname, '../../out/space');

type FoldedMessage = Extract<ToPage, { type: 'folded' }>;

/** What the server answers about a sample, as the extension hands it to the page. */
const messageOf = (file: string, part?: string, text?: string, order?: FoldOrder): FoldedMessage => {
  const whole = path.join(samples, file);
  const project = createProject({ files: nodeFiles(), root: path.dirname(whole) });
  if (text !== undefined) project.setText(whole, text);
  const ask = { project, path: whole, settings: defaultSettings, uriOf: (at: string) => `file://${at}`, files: () => [whole] };
  const answer = foldedOf(ask, 1, part, undefined, () => order);
  if (answer.model === undefined || answer.part === undefined) throw new Error(`${file} has nothing to fold: ${answer.reason ?? ''}`);
  const { uri, version, parts, title, model, stale } = answer;
  return { type: 'folded', uri, version, fileName: path.basename(file), parts, part: answer.part, title, model, stale, reason: '' };
};
const gate = messageOf('cargo-trike/gate.planish');

const nothingKept = { uri: '', part: '', view: 'folded', hidden: [], views: [], looks: [] };

/** Tells the page to show space, and waits until the code for it has come and drawn. */
const openFolded = async (house: PageHouse, message: ToPage, kept: unknown = nothingKept): Promise<ShownPage> => {
  const shown = await house.open({ width: 520, height: 420, kept });
  await shown.send(message);
  await shown.page.locator('#step', { hasText: /./ }).waitFor();
  return shown;
};

interface Scene {
  /** Share of the canvas on which something is drawn. */
  readonly drawn: number;
  readonly bytes: string;
  /** Relative luminances (0…1) of what is drawn, from the darkest to the lightest: fifty of them evenly spread over the pixels. */
  readonly luminances: readonly number[];
  readonly step: string;
}

/** Folds by the slider to a share of the whole, and reads the scene in the frame in which it is drawn. */
const foldTo = (shown: ShownPage, share: number): Promise<Scene> =>
  shown.page.evaluate(`new Promise((done) => {
    const slider = document.querySelector('#turned'), scene = document.querySelector('#scene');
    slider.value = '${share}';
    slider.dispatchEvent(new Event('input'));
    requestAnimationFrame(() => {
      const copy = document.createElement('canvas');
      copy.width = scene.width; copy.height = scene.height;
      const pen = copy.getContext('2d');
      pen.drawImage(scene, 0, 0);
      const { data } = pen.getImageData(0, 0, copy.width, copy.height);
      const linear = (c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
      const all = [];
      for (let i = 0; i < data.length; i += 4)
        if (data[i + 3] === 255) all.push(0.2126 * linear(data[i] / 255) + 0.7152 * linear(data[i + 1] / 255) + 0.0722 * linear(data[i + 2] / 255));
      all.sort((a, b) => a - b);
      const luminances = Array.from({ length: 50 }, (_, k) => all[Math.round((k / 49) * (all.length - 1))]);
      done({ drawn: (4 * all.length) / data.length, bytes: copy.toDataURL(), luminances, step: document.querySelector('#step').textContent });
    });
  })`);

/**
 * Where on the canvas the middles of a feature's triangles are, reckoned from the fold and the first look alone: seen square on, the box round the part in
 * the middle with 54 px free on every side. Only triangles that turn to the eye.
 */
const spotsOf = (message: FoldedMessage, feature: string, canvas: { readonly width: number; readonly height: number }) => {
  const placed = placedPart(message.model.moving);
  placed.place(() => 1);
  const { around, down } = FIRST_LOOK;
  const right = [Math.cos(around), Math.sin(around), 0];
  const back = [Math.sin(down) * Math.sin(around), -Math.sin(down) * Math.cos(around), Math.cos(down)];
  const up = [-Math.cos(down) * Math.sin(around), Math.cos(down) * Math.cos(around), Math.sin(down)];
  const along = (axis: readonly number[], from: Float32Array, at: number): number =>
    axis.reduce((sum, part, i) => sum + part * (from[at + i] ?? 0), 0);
  const own = placed.positions.subarray(0, 3 * placed.sheetCorners);
  const ends = [0, 1, 2].map((axis) => {
    const values = own.filter((_, i) => i % 3 === axis);
    return [Math.min(...values), Math.max(...values)] as const;
  });
  /** From the box round the part: what lies furthest along a direction is one of its corners. */
  const range = (axis: readonly number[]): readonly [number, number] => [
    ends.reduce((sum, [low, high], i) => sum + Math.min(low * (axis[i] ?? 0), high * (axis[i] ?? 0)), 0),
    ends.reduce((sum, [low, high], i) => sum + Math.max(low * (axis[i] ?? 0), high * (axis[i] ?? 0)), 0),
  ];
  const [[left, rightmost], [low, high]] = [range(right), range(up)];
  const scale = Math.min((canvas.width - 108) / (rightmost - left), (canvas.height - 108) / (high - low));
  const onCanvas = (from: Float32Array, corners: readonly number[]): { readonly x: number; readonly y: number } => {
    const middle = (axis: readonly number[]): number => corners.reduce((sum, corner) => sum + along(axis, from, 3 * corner), 0) / 3;
    return {
      x: canvas.width / 2 + scale * (middle(right) - (left + rightmost) / 2),
      y: canvas.height / 2 - scale * (middle(up) - (low + high) / 2),
    };
  };
  const ofSurface = placed.faces
    .filter((range) => range.feature === feature && range.side !== 'rim')
    .flatMap(({ first, count }) =>
      Array.from({ length: count }, (_, i) => [...placed.triangles.slice(3 * (first + i), 3 * (first + i) + 3)]),
    )
    .filter(([corner = 0]) => along(back, placed.normals, 3 * corner) > 0.2)
    .map((corners) => onCanvas(placed.positions, corners));
  const ofHoles = placed.fillRanges
    .filter((range) => range.feature === feature)
    .flatMap(({ first, count }) =>
      Array.from({ length: count }, (_, i) => onCanvas(placed.fills, [3 * (first + i), 3 * (first + i) + 1, 3 * (first + i) + 2])),
    );
  return [...ofSurface, ...ofHoles];
};

/** The first of a feature's spots over which the pointer is told its name; others may be hidden behind the part. */
const spotCalled = async (
  shown: ShownPage,
  message: FoldedMessage,
  feature: string,
  name: RegExp,
): Promise<{ readonly x: number; readonly y: number }> => {
  const box = await shown.page.locator('#scene').boundingBox();
  if (box === null) throw new Error('space is not in sight');
  const spots = spotsOf(message, feature, box).map(({ x, y }) => ({ x: box.x + x, y: box.y + y }));
  const spot = await shown.page.evaluate<{ x: number; y: number } | null>(`(() => {
    const canvas = document.querySelector('#scene'), words = document.querySelector('#pointed');
    return ${JSON.stringify(spots)}.find(({ x, y }) => {
      canvas.dispatchEvent(new PointerEvent('pointermove', { clientX: x, clientY: y }));
      return ${String(name)}.test(words.textContent);
    }) ?? null;
  })()`);
  if (spot === null) throw new Error(`none of ${spots.length} places of ${feature} is called ${String(name)}`);
  return spot;
};

const picked = async (shown: ShownPage): Promise<readonly string[]> =>
  (await shown.said()).flatMap((message: FromPage) => (message.type === 'reveal' ? [message.id] : []));

describe.skipIf(!fs.existsSync(CHROMIUM))('the folded view in a browser', () => {
  let house: PageHouse;
  beforeAll(async () => {
    house = await openHouse();
  }, 60000);
  afterAll(() => house.close());

  test('the flat picture does not wait for the code that draws space', async () => {
    const shown = await house.open({ width: 520, height: 420 });
    expect(shown.asked.filter((at) => at.endsWith('.js'))).toEqual(['/preview.js']);
    await shown.page.locator('#tab_folded').click();
    expect(await shown.said()).toContainEqual({ type: 'chooseView', view: 'folded', uri: '', version: 0 });
    await shown.send(gate);
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
    // How far apart its corners stand is said of the finished part alone.
    expect(await shown.page.locator('#pointed').textContent()).toBe('');
    // Eight bends: the four rims, which lie furthest out, then the four walls. 0.47 of eight is in the fourth.
    expect(half.step).toMatch(/^bend 4 of 8, (top|right|bottom|left)\.2: down 90°$/);
    expect((await foldTo(shown, 0.55)).step).toMatch(/^bend 5 of 8, (top|right|bottom|left)\.1: up 90°$/);
    expect((await foldTo(shown, 1)).bytes).toBe(finished.bytes);
  });

  test('how it is looked at and how far it is folded outlives a reload', async () => {
    const shown = await openFolded(house, gate);
    await shown.page.locator('#space').focus();
    await shown.page.keyboard.press(',');
    await shown.page.keyboard.press('2');
    const looks = async () =>
      (
        (await shown.kept()) as {
          readonly looks: readonly [string, { readonly turned: number; readonly around: number; readonly down: number }][];
        }
      ).looks;
    // From the right: a quarter turn from the front, level.
    await expect.poll(async () => (await looks())[0]?.[1].around, { timeout: 5000 }).toBeCloseTo(Math.PI / 2, 3);
    const look = (await looks())[0]?.[1];
    expect(look?.down).toBeCloseTo(Math.PI / 2, 3);
    expect(look?.turned).toBeCloseTo(4 / 5, 9);
    const again = await openFolded(house, gate, await shown.kept());
    expect((await again.said())[0]).toMatchObject({ type: 'ready', view: 'folded', part: 'gate' });
    expect(await again.page.locator('#step').textContent()).toMatch(/^bend 4 of 5/);
  });

  test('a window without WebGL says so in plain words', async () => {
    const shown = await house.open({ flatOnly: true, kept: nothingKept });
    await shown.send(gate);
    await shown.page.locator('#no_space', { hasText: 'no WebGL' }).waitFor();
  });

  describe('in one window', () => {
    let shown: ShownPage;
    let jobs = 0;
    /** As from another file, so that it is looked at afresh. */
    const show = async (message: FoldedMessage): Promise<FoldedMessage> => {
      const fresh = { ...message, uri: `file:///job-${++jobs}/part.planish` };
      await shown.send(fresh);
      await shown.send({ type: 'lit', uri: fresh.uri, version: 1, ids: [] });
      return fresh;
    };
    beforeAll(async () => {
      shown = await openFolded(house, gate);
    });

    test('a face, a bend and a hole can be pointed at, and a click asks for their text', async () => {
      await show(gate);
      for (const [id, name] of [
        ['face:base', /^base/],
        ['face:hinge_side', /^flange hinge_side/],
        ['bend:hinge_side', /^hinge_side: turn down/],
        ['cut:hand_hold', /^hand_hold/],
        ['bead:border', /^border: bead up/],
      ] as const) {
        const { x, y } = await spotCalled(shown, gate, id, name);
        await shown.page.mouse.click(x, y);
        expect((await picked(shown)).at(-1)).toBe(id);
      }
    });

    test('a drag turns the part and picks nothing', async () => {
      await show(gate);
      const [before, said] = [await foldTo(shown, 1), (await picked(shown)).length];
      await shown.page.mouse.move(250, 200);
      await shown.page.mouse.down();
      await shown.page.mouse.move(290, 220, { steps: 4 });
      await shown.page.mouse.up();
      expect(await picked(shown)).toHaveLength(said);
      expect((await foldTo(shown, 1)).bytes).not.toBe(before.bytes);
    });

    test('what the cursor stands on in the text is lit, in the colour of the theme, and named', async () => {
      await shown.page.mouse.move(1, 1);
      const { uri } = await show(gate);
      const before = await foldTo(shown, 1);
      await shown.send({ type: 'lit', uri, version: 1, ids: ['face:hinge_side', 'bend:hinge_side'] });
      expect((await foldTo(shown, 1)).bytes).not.toBe(before.bytes);
      // The corners are measured on the fold: the relief leaves the gap that the pattern says.
      expect(await shown.page.locator('#pointed').textContent()).toBe('flange hinge_side; 7/64 in from right.1; 7/64 in from left.1');
      expect(await shown.page.locator('#sizes circle.place').count()).toBe(2);
      expect(await shown.page.locator('#sizes text.place').allTextContents()).toEqual(['7/64 in', '7/64 in']);
      await shown.send({ type: 'lit', uri, version: 1, ids: [] });
      expect((await foldTo(shown, 1)).bytes).toBe(before.bytes);
      expect(await shown.page.locator('#pointed').textContent()).toBe(
        'Its corners stand 3/32− to 7/64 in apart. Its sizes leave out how far its beads stand out.',
      );
      expect(await shown.page.locator('#sizes circle.place').count()).toBe(0);
    });

    test('once a plan is known it folds in that order, a bend in two goes among them, and says so', async () => {
      await show(gate);
      const step = shown.page.locator('#step');
      expect(await step.textContent()).toBe('finished, 5 bends');
      expect(await step.getAttribute('title')).toBe('Folded from the outside in: there is no bend plan.');
      const order = {
        kind: 'planned',
        brake: 'leaf_brake',
        steps: [
          { bends: ['rim'], from: 0, to: 0.5 },
          { bends: ['right.1'], from: 0, to: 1 },
          { bends: ['left.1'], from: 0, to: 1 },
          { bends: ['rim'], from: 0.5, to: 1 },
          { bends: ['top.2'], from: 0, to: 1 },
          { bends: ['hinge_side'], from: 0, to: 1 },
        ],
      } as const;
      await show(messageOf('cargo-trike/gate.planish', 'gate', undefined, order));
      expect(await step.textContent()).toBe('finished, 6 bends, as planned');
      expect(await step.getAttribute('title')).toBe('Folded in the order planned for leaf_brake.');
      const pictureAt = async (share: number): Promise<readonly [string, string]> => {
        const { step: said, bytes } = await foldTo(shown, share);
        return [said, bytes];
      };
      const [[half, afterRim], [side], [rest]] = [await pictureAt(1 / 6), await pictureAt(1.5 / 6), await pictureAt(3.5 / 6)];
      expect([half, side, rest]).toEqual([
        'bend 1 of 6, rim: down to 45° of 90°',
        'bend 2 of 6, right.1: down 90°',
        'bend 4 of 6, rim: down from 45° to 90° of 90°',
      ]);
      // The rim alone, half-way: as it stands with no other bend turned.
      await show(messageOf('cargo-trike/gate.planish', 'gate', undefined, { ...order, steps: [{ bends: ['rim'], from: 0, to: 1 }] }));
      expect((await pictureAt(0.5 / 5))[1]).toBe(afterRim);
    });

    test('what collides is said, and its colour explained', async () => {
      const text = `units mm
material mild_steel { density 7850 kg/m3 }
sheet st { material mild_steel thickness 1.5 mm bend radius 2 k 0.42 }
panel clip { sheet st outline rectangle 40 by 60 edge left, right { flange 30 up flange 30 up } }`;
      const message = messageOf('cargo-trike/gate.planish', 'clip', text);
      expect(message.model.collisions).toHaveLength(1);
      await show(message);
      expect(await shown.page.locator('#pointed').textContent()).toMatch(/runs .* into/);
      expect(await shown.page.locator('#sizes text.clash').textContent()).toBe('1.5 mm too far');
      expect(await shown.page.locator('.clash_key').isVisible()).toBe(true);
    });

    test('what is wrong with a feature is said where it is pointed at, and the colours of faults are explained', async () => {
      const text = `units mm
material mild_steel { density 7850 kg/m3  elongation 34 % }
sheet st { material mild_steel thickness 1 mm bend radius 1 k 0.42 }
die flat_20 { flat  width 20  depth 4  per pass 1 }
roller hand_roller { throat 500  arm 60 }
panel lid { sheet st outline rectangle 300 by 200 edge left { flange 20 up }
  hole 14 at (150, 20) bead rib { die flat_20 up line from (150, 0) to (150, 200) ends run off } }`;
      const lid = await show(messageOf('cargo-trike/gate.planish', 'lid', text));
      expect(await shown.page.locator('.error_key').isVisible()).toBe(true);
      expect(await shown.page.locator('.clash_key').isVisible()).toBe(false);
      expect(await shown.page.locator('#pointed.fault').count()).toBe(0);
      await shown.send({ type: 'lit', uri: lid.uri, version: 1, ids: ['bead:rib'] });
      expect(await shown.page.locator('#pointed.fault').textContent()).toMatch(/^rib: bead up, .*\. Error: rib runs over hole\.1 at/);
      await show(gate);
      expect(await shown.page.locator('.error_key').isVisible()).toBe(false);
    });

    test('an old fold is marked as the flat picture is', async () => {
      await show({ ...gate, stale: true, reason: 'a size is missing' });
      expect(await shown.page.locator('body.stale').count()).toBe(1);
      expect(await shown.page.locator('#banner').textContent()).toBe('Last good picture: the text has an error. a size is missing');
    });

    test('an edit is on the screen within two frames of its message', async () => {
      const { uri } = await show(gate);
      const text = fs.readFileSync(path.join(samples, 'cargo-trike/gate.planish'), 'utf8').replace('flange 1 down', 'flange 2 down');
      const edited = { ...messageOf('cargo-trike/gate.planish', 'gate', text), uri };
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

    test('the colours follow the theme; in each the sheet stands out from the paper and its edges from the sheet', async () => {
      await shown.page.mouse.move(1, 1);
      await show(gate);
      const contrast = (a: number, b: number): number => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
      for (const [theme, paper] of [
        ['dark', 0.0137],
        ['high contrast', 0],
        ['high contrast light', 1],
        ['light', 1],
      ] as const) {
        await shown.wear(theme);
        const { luminances } = await foldTo(shown, 1);
        const [darkest = 0, sheet = 0, lightest = 0] = [luminances[0], luminances[25], luminances[49]];
        // In high contrast lines alone carry the picture.
        if (!theme.startsWith('high')) expect.soft(contrast(sheet, paper), `${theme}: sheet on paper`).toBeGreaterThan(1.2);
        // WCAG 2.1, 1.4.11 (from memory): 3 to 1 for what is needed to understand a picture.
        expect.soft(Math.max(contrast(sheet, darkest), contrast(sheet, lightest)), `${theme}: edges on sheet`).toBeGreaterThan(3);
      }
      expect(shown.stopped).toEqual([]);
    });
  });

  test.skipIf(process.env.PLANISH_PICTURES === undefined).each<Theme>(['light', 'dark', 'high contrast', 'high contrast light'])(
    'pictures to look at: %s',
    async (theme) => {
      fs.mkdirSync(pictures, { recursive: true });
      for (const [file, part] of LOOKED_AT) {
        const shown = await house.open({ theme, width: 1000, height: 720, kept: nothingKept });
        await shown.send(messageOf(file, part));
        await shown.page.locator('#step', { hasText: /./ }).waitFor();
        await shown.page.waitForTimeout(300);
        await shown.page.screenshot({ path: path.join(pictures, `${part}-${theme.replaceAll(' ', '-')}.png`) });
        expect(shown.stopped).toEqual([]);
      }
    },
    300_000,
  );
});

const LOOKED_AT = [
  ['cargo-trike/gate.planish', 'gate'],
  ['cargo-trike/produce-box.planish', 'produce_box'],
  ['cargo-trike/floor.planish', 'floor'],
  ['cargo-trike/seat-box.planish', 'seat_box'],
  ['cargo-trike/rain-lid.planish', 'rain_lid'],
  ['cargo-trike/wash-tray.planish', 'wash_tray'],
  ['cargo-trike/tyre-guard.planish', 'tyre_guard'],
  ['tool-cabinet/drawer.planish', 'drawer'],
  ['tool-cabinet/french-cleat.planish', 'cabinet_cleat'],
] as const;
