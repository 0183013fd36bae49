/**
 * The view of the bending as the editor shows it, with the server's own answers, in headless Chromium.
 * PLANISH_PICTURES=1 draws some plans in every theme into out/bending/, to be looked at.
 */
import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { bendingMessageFor } from '../../client/documentPicture.js';
import type { ToPage } from '../../client/messages.js';
import { poseAt } from '../../client/preview/bending/pose.js';
import { memoryFiles } from '../../server/files.js';
import { defaultSettings } from '../../server/lsp/ask.js';
import { bendingOf } from '../../server/lsp/bending.js';
import { nodeFiles } from '../../server/node-files.js';
import { createProject, type Project } from '../../server/project.js';
import { boxBrake, leafBrake, metal } from '../brake/build.js';
import { CHROMIUM, openHouse, type PageHouse, type ShownPage, type Theme } from './pageInChromium.js';

type BendingMessage = Extract<ToPage, { type: 'bending' }>;

const answerOf = (project: Project, whole: string, part?: string): BendingMessage => {
  const ask = { project, path: whole, settings: defaultSettings, uriOf: (at: string) => `file://${at}`, files: () => [whole] };
  for (const result of project.parts(whole)) if (part === undefined || result.part.name === part) project.planned(whole, result);
  const message = bendingMessageFor(bendingOf(ask, 1, part, undefined), path.basename(whole));
  if (message.type !== 'bending') throw new Error(`no plan: ${JSON.stringify(message)}`);
  return message;
};
const planOf = (text: string): BendingMessage =>
  answerOf(createProject({ files: memoryFiles({ '/job/a.planish': text }), root: '/job' }), '/job/a.planish');

const tray = planOf(`${metal}${boxBrake}panel a {
  sheet s
  outline rectangle 200 by 150
  edge top { flange 25 up }
  edge left { flange 25 up }
  edge bottom { flange 12 down }
}
`);
const keeper = planOf(`${metal}${leafBrake}panel a {
  sheet s
  outline rectangle 60 by 50
  edge top {
    flange 30 up as riser
    flange 40 up as bridge
  }
}
`);
const nothingKept = { uri: '', part: '', view: 'bending', hidden: [], views: [], looks: [], steps: [] };
const themes: readonly Theme[] = ['light', 'dark', 'high contrast', 'high contrast light'];

const text = async (shown: ShownPage, selector: string): Promise<string> => (await shown.page.locator(selector).textContent()) ?? '';
const chosen = (shown: ShownPage): Promise<string> => text(shown, '#bend_steps [aria-selected=true] .step_name');
/** Turn of what is drawn in the section, degrees. */
const turnOf = (shown: ShownPage, selector: string): Promise<number> =>
  shown.page.evaluate<number>(
    `Number(/rotate\\((-?[\\d.e-]+)/.exec(document.querySelector('#bend_side ${selector}').getAttribute('transform') ?? 'rotate(0')[1])`,
  );

describe('a step in time', () => {
  const motion = tray.model.steps[0]?.motion;
  if (motion === undefined) throw new Error('no picture');
  test('goes with the leaf from before the bend to past it, and springs back while the leaf goes down', () => {
    const poses = Array.from({ length: 101 }, (_, i) => poseAt(motion, i / 100, false));
    expect(poses[0]).toEqual({ leaf: 0, sheet: 0, formed: 0 });
    const most = Math.max(...poses.map(({ sheet }) => sheet));
    expect(most).toBeCloseTo(motion.set, 9);
    expect(poses.at(-1)?.leaf).toBeCloseTo(0, 9);
    expect(poses.at(-1)?.sheet).toBeCloseTo(Math.PI / 2, 6);
    // The sheet never goes farther than the leaf takes it, and never lies through it.
    const top = poses.findIndex(({ sheet }) => sheet === most);
    for (const { leaf, sheet } of poses.slice(0, top)) expect(leaf).toBeCloseTo(sheet, 9);
    for (const { leaf, sheet } of poses.slice(top)) expect(leaf).toBeLessThanOrEqual(sheet + motion.set - motion.rests + 1e-9);
  });
  test('that is stopped goes as far as it is shown', () => {
    const stopped = keeper.model.stops[0]?.motion;
    if (stopped === undefined) throw new Error('no picture');
    expect(poseAt(stopped, 1, true).sheet).toBeCloseTo(stopped.rests, 9);
  });
});

describe.skipIf(!fs.existsSync(CHROMIUM))('the view', () => {
  let house: PageHouse;
  beforeAll(async () => {
    house = await openHouse();
  }, 60_000);
  afterAll(() => house.close());

  const open = async (message: ToPage, more: Parameters<PageHouse['open']>[0] = {}): Promise<ShownPage> => {
    const shown = await house.open({ width: 860, height: 620, kept: nothingKept, ...more });
    await shown.send(message);
    return shown;
  };

  test('shows each step with its picture, what to do, and where it lies on the blank', async () => {
    const shown = await open(tray);
    expect(await text(shown, '#bend_lead')).toMatch(/^3 steps on bench: turned over (never|once), turned on the bed \w+\.$/);
    expect(await shown.page.locator('#bend_steps li svg').count()).toBe(3);
    expect(await shown.page.locator('#bend_side svg').count()).toBe(1);
    expect(await text(shown, '#bend_words h2')).toMatch(/^Step 1 of 3: /);
    expect(await text(shown, '#bend_words .todo')).toMatch(/under the nose, face (up|down)/);
    expect(await shown.page.locator('.bend_place .this').count()).toBe(1);
    expect(await shown.page.locator('.bend_place .under_nose').count()).toBe(1);
    expect(shown.stopped).toEqual([]);
    expect(shown.foreign).toEqual([]);
  });

  test('a size is not broken over two lines, and words cut off below are shaded', async () => {
    const step = {
      ...tray.model.steps[0],
      words: ['base under the nose, the line 7 41/64− in from the free edge', 'fingers 1 1/4 in + 5 in'],
    };
    const long = { ...tray, model: { ...tray.model, steps: [step, ...tray.model.steps.slice(1)] } } as BendingMessage;
    const shown = await open(long);
    expect(await text(shown, '#bend_words .todo')).toBe(
      'base under the nose, the line 7\u00a041/64−\u00a0in from the free edgefingers 1\u00a01/4\u00a0in + 5\u00a0in',
    );
    expect(await text(shown, '#bend_words .note >> nth=0')).toMatch(/\d\u00a0mm/);
    const shade = (): Promise<string> =>
      shown.page.evaluate<string>("getComputedStyle(document.querySelector('#bend_words')).backgroundAttachment");
    expect(await shade()).toBe('local, scroll');
  });

  test('goes from step to step by keys and buttons, remembers where it was, and goes to the text', async () => {
    const shown = await open(tray);
    await shown.page.locator('#bend_side').focus();
    await shown.page.keyboard.press('ArrowRight');
    expect(await chosen(shown)).toMatch(/^2/);
    await shown.page.locator('#bend_after').click();
    expect(await chosen(shown)).toMatch(/^3/);
    expect(await shown.page.locator('#bend_after').isDisabled()).toBe(true);
    expect(await shown.page.locator('.bend_place .done').count()).toBe(2);
    const again = await open(tray, { kept: await shown.kept() });
    expect(await chosen(again)).toMatch(/^3/);
    await again.page.locator('.bend_name').click();
    await again.page.locator('#bend_side').focus();
    await again.page.keyboard.press('Home');
    await again.page.keyboard.press('Enter');
    const revealed = (await again.said()).flatMap((message) => (message.type === 'reveal' ? [message.id] : []));
    expect(revealed).toEqual([tray.model.steps[2]?.bends[0], tray.model.steps[0]?.bends[0]]);
  });

  test('the leaf is moved by the slider; at rest the sheet has sprung back and the leaf is down', async () => {
    const shown = await open(tray);
    expect(await turnOf(shown, '.apron')).toBeCloseTo(0, 6);
    expect(await turnOf(shown, '.zone[transform]')).toBeCloseTo(90, 3);
    await shown.page.evaluate(
      "(() => { const s = document.querySelector('#bend_turned'); s.value = '0.6'; s.dispatchEvent(new Event('input')); })()",
    );
    expect(await turnOf(shown, '.apron')).toBeGreaterThan(90);
    expect(await text(shown, '#bend_at')).toMatch(/^leaf at 90\.\d°$/);
  });

  test('a step plays when it is chosen, unless the reader wants no motion', async () => {
    const shown = await open(tray);
    await shown.page.emulateMedia({ reducedMotion: 'reduce' });
    await shown.page.locator('#bend_after').click();
    expect(await shown.page.locator('#bend_play.playing').count()).toBe(0);
    expect(await text(shown, '#bend_at')).toMatch(/^sprung back to 90°$/);
    await shown.page.emulateMedia({ reducedMotion: 'no-preference' });
    await shown.page.locator('#bend_after').click();
    expect(await shown.page.locator('#bend_play.playing').count()).toBe(1);
    await shown.page.locator('#bend_play:not(.playing)').waitFor();
    expect(await text(shown, '#bend_at')).toMatch(/^sprung back to/);
  });

  test('what can’t be bent: the bend that stops, what it strikes in the error’s colour, and what was tried', async () => {
    const shown = await open(keeper);
    expect(await text(shown, '#bend_lead')).toMatch(/can’t be bent on bench/);
    expect(await text(shown, '#bend_words h2')).toMatch(/^Stopped: (riser|bridge)/);
    expect(await text(shown, '.stop_words')).toMatch(/strikes the nose/);
    expect(await shown.page.locator('.cures li').count()).toBe(keeper.model.cures.length);
    const colour = (selector: string): Promise<string> =>
      shown.page.evaluate<string>(`getComputedStyle(document.querySelector('#bend_side ${selector}')).fill`);
    expect(await colour('.strikes')).toBe('rgb(208, 32, 42)');
    expect(await shown.page.locator('#bend_side svg.at_clash .clash').count()).toBe(1);
    // Away from where it strikes nothing is red.
    await shown.page.evaluate(
      "(() => { const s = document.querySelector('#bend_turned'); s.value = '0'; s.dispatchEvent(new Event('input')); })()",
    );
    expect(await colour('.strikes')).not.toBe('rgb(208, 32, 42)');
    expect(shown.stopped).toEqual([]);
  });

  test('while a plan is made the last one stays, dimmed; of another part it says that it is being made', async () => {
    const shown = await open(tray);
    const { uri, parts, part, title } = tray;
    await shown.send({ type: 'planning', uri, version: 2, parts, part, title });
    expect(await shown.page.locator('#bending.waiting').count()).toBe(1);
    await shown.send({ ...tray, version: 2 });
    expect(await shown.page.locator('#bending.waiting').count()).toBe(0);
    await shown.send({ type: 'planning', uri, version: 3, parts, part: 'b', title: 'b, panel' });
    expect(await text(shown, '#empty')).toBe('Working out the order of the bends…');
    expect(await shown.page.locator('#bending').isVisible()).toBe(false);
  });

  test('the bend under the cursor turns to its step', async () => {
    const shown = await open(tray);
    const last = tray.model.steps[2]?.bends ?? [];
    await shown.send({ type: 'lit', uri: tray.uri, version: 1, ids: last });
    expect(await chosen(shown)).toMatch(/^3/);
  });

  test('words can be read in every theme', async () => {
    const shown = await open(tray);
    for (const theme of themes) {
      await shown.wear(theme);
      const contrast = await shown.page.evaluate<number>(`(() => {
        const parse = (c) => c.match(/[\\d.]+/g).map(Number);
        const linear = (c) => ((c /= 255) <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
        const lum = (c) => { const [r, g, b] = parse(c).map(linear); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
        const paper = lum(getComputedStyle(document.body).backgroundColor);
        const least = ['#bend_lead', '.todo li', '.note', '.step_set', '#bend_at'].map((s) => document.querySelector(s)).filter(Boolean)
          .map((e) => lum(getComputedStyle(e).color)).map((l) => (Math.max(l, paper) + 0.05) / (Math.min(l, paper) + 0.05));
        return Math.min(...least);
      })()`);
      expect(contrast, theme).toBeGreaterThan(4.5);
    }
  });

  test.skipIf(process.env.PLANISH_PICTURES === undefined)('pictures to look at', { timeout: 300_000 }, async () => {
    const pictures = path.resolve(import.meta.dirname, '../../out/bending');
    fs.mkdirSync(pictures, { recursive: true });
    const samples = path.resolve(import.meta.dirname, '../../samples');
    const project = createProject({ files: nodeFiles(), root: samples });
    const sample = (file: string, part?: string): BendingMessage => answerOf(project, path.join(samples, file), part);
    const shown: readonly (readonly [string, BendingMessage])[] = [
      ['tray', tray],
      ['keeper', keeper],
      ['gate', sample('cargo-trike/gate.planish')],
      ['door', sample('tool-cabinet/door.planish')],
      ['socket', sample('cargo-trike/canopy-socket.planish')],
    ];
    for (const theme of themes) {
      for (const [name, message] of shown) {
        for (const [width, height] of [
          [900, 680],
          [520, 760],
        ] as const) {
          if (theme.startsWith('high') && width < 600) continue;
          const there = await open(message, {
            theme,
            width,
            height,
            kept: { ...nothingKept, steps: [[`${message.uri}#${message.part}`, 2]] },
          });
          await there.page.screenshot({ path: path.join(pictures, `${name}-${theme.replaceAll(' ', '-')}-${width}.png`) });
        }
      }
    }
  });
});
