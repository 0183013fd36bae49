/** A person's first half hour, driven through Chromium: open the sample, slip, see it, mend it, look at the picture, take the pattern away. */

import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { type Browser, chromium, type FrameLocator, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { createHands } from './hands.js';
import { chromiumArguments, chromiumPath, ensureInstalled, installVsix, prepare, start } from './workbench.mjs';

const root = path.resolve(import.meta.dirname, '../..');
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'planish-person-'));
const workspace = path.join(scratch, 'cargo-trike');
const pictures = path.join(root, 'out/editor');

let browser: Browser;
let server: Awaited<ReturnType<typeof start>>;
let page: Page;
const foreign = new Set<string>();

beforeAll(async () => {
  ensureInstalled();
  fs.mkdirSync(pictures, { recursive: true });
  fs.cpSync(path.join(root, 'samples/cargo-trike'), workspace, { recursive: true });
  prepare(scratch);
  await installVsix(scratch, path.join(root, 'planish.vsix'));
  server = await start(scratch);
  browser = await chromium.launch({ executablePath: chromiumPath, headless: true, args: chromiumArguments });
  page = await browser.newPage({ viewport: { width: 1500, height: 950 } });
  // A busy machine takes its time.
  page.setDefaultTimeout(60_000);
  page.on('request', (request) => {
    const url = new URL(request.url());
    // The page of a webview has an address of its own that VS Code's service worker answers within the browser.
    const own = url.hostname === '127.0.0.1' || url.hostname.endsWith('.vscode-resource.vscode-cdn.net');
    if (/^(https?|wss?):$/.test(url.protocol) && !own) foreign.add(url.origin);
  });
  await page.goto(server.pageUrl(workspace));
  await page.locator('.monaco-workbench').waitFor({ timeout: 60_000 });
});
afterEach(async (context) => {
  if (context.task.result?.state !== 'fail') return;
  await page.screenshot({ path: path.join(pictures, `failed-${context.task.name.replace(/\W+/g, '-')}.png`) });
  // Where only what is printed is kept, that says as much as the picture.
  for (const part of [
    '.tabs-container',
    '.editor-instance .view-lines',
    '.markers-panel',
    '.statusbar',
    '.quick-input-widget',
    '.action-widget',
  ])
    for (const text of await page.locator(part).allInnerTexts()) if (text.trim() !== '') console.log(`${part}: ${text}`);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
  fs.rmSync(scratch, { recursive: true, force: true });
});

const { command, goBehind, lineOfCursor, takeCure } = createHands(() => page);
const editor = () => page.locator('.editor-instance .monaco-editor').first();
const errorMarks = () => page.locator('.squiggly-error');
const picture = (): FrameLocator => page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');

const fileText = (): string => fs.readFileSync(path.join(workspace, 'gate.planish'), 'utf8');

/** What a file holds; nothing while it is not there. It is there before all of it is written. */
const textOf = (file: string): string => (fs.existsSync(file) ? fs.readFileSync(file, 'utf8') : '');

test('opens the sample: no errors, and a picture beside the text', async () => {
  await page.locator('.explorer-folders-view .monaco-list-row', { hasText: 'gate.planish' }).dblclick({ timeout: 60_000 });
  await editor().locator('.view-line').first().waitFor();
  await command('Planish: Show Picture Beside the Text');
  await picture().locator('svg [data-id^="bend:"]').first().waitFor({ state: 'attached', timeout: 60_000 });
  expect(await errorMarks().count()).toBe(0);
  await page.screenshot({ path: path.join(pictures, 'picture.png') });
});

test('a mistyped size gets a squiggle, its message and a fix, and the picture follows', async () => {
  const before = await picture().locator('svg').first().innerHTML();
  await goBehind('flange 5/8');
  await page.keyboard.press('Backspace');
  await page.keyboard.press('Backspace');
  await page.keyboard.press('Backspace');
  await page.keyboard.type('1/8');
  await errorMarks().first().waitFor({ timeout: 60_000 });
  await page.keyboard.press('Control+Shift+M');
  await page
    .locator('.markers-panel .monaco-list-row', { hasText: /grips 3\/8 in/ })
    .first()
    .waitFor();
  await page.screenshot({ path: path.join(pictures, 'finding.png') });
  await page.keyboard.press('Control+Shift+M');
  await expect.poll(async () => (await picture().locator('svg').first().innerHTML()) !== before, { timeout: 60_000 }).toBe(true);
  const broken = await picture().locator('svg').first().innerHTML();

  await goBehind('flange 1/8');
  await page.keyboard.press('ArrowLeft');
  await takeCure('3/8');
  await expect.poll(() => errorMarks().count(), { timeout: 60_000 }).toBe(0);
  await expect.poll(async () => (await picture().locator('svg').first().innerHTML()) !== broken, { timeout: 60_000 }).toBe(true);
  await page.keyboard.press('Control+s');
  await expect.poll(() => fileText().includes('flange 3/8'), { timeout: 60_000 }).toBe(true);
});

test('while the text is broken the last good picture stays, marked', async () => {
  await goBehind('flange 3/8');
  await page.keyboard.type(' + ');
  await picture().locator('body.stale').waitFor({ timeout: 60_000 });
  expect(await picture().locator('svg [data-id^="bend:"]').count()).toBeGreaterThan(0);
  for (let press = 0; press < 3; press++) await page.keyboard.press('Backspace');
  await expect.poll(() => errorMarks().count(), { timeout: 60_000 }).toBe(0);
  await picture().locator('body:not(.stale)').waitFor({ timeout: 60_000 });
});

test('a click on a bend line lands on its source', async () => {
  await page.keyboard.press('Control+1');
  await page.keyboard.press('Control+Home');
  await expect.poll(lineOfCursor, { timeout: 60_000 }).toBe(1);
  // A hand clicks near the line, not exactly on it: it is a pixel wide.
  const drawn = await picture().locator('svg [data-id="bend:hinge_side"]').first().boundingBox();
  if (drawn === null) throw new Error('the bend line is not drawn');
  await page.mouse.click(drawn.x + drawn.width * 0.3, drawn.y + drawn.height / 2 + 2);
  await expect.poll(lineOfCursor, { timeout: 60_000 }).toBeGreaterThan(1);
  const line = fileText().split('\n')[(await lineOfCursor()) - 1] ?? '';
  expect(line).toMatch(/as hinge_side/);
});

test('the pattern is saved as DXF', async () => {
  await goBehind('panel gate');
  await command('Planish: Export Pattern…');
  await page.locator('.quick-input-list .monaco-list-row', { hasText: 'DXF' }).first().waitFor({ timeout: 60_000 });
  await page.locator('.quick-input-widget input').first().fill('DXF');
  await page.keyboard.press('Enter');
  await page.locator('.quick-input-title', { hasText: 'Pattern of gate' }).waitFor({ timeout: 60_000 });
  await page.locator('.quick-input-widget').getByText('OK', { exact: true }).click();
  const saved = path.join(workspace, 'gate.dxf');
  await expect.poll(() => textOf(saved), { timeout: 60_000 }).toContain('$INSUNITS');
});

test('the part folded: a drag turns it, the slider unfolds it, a click on a flange lands on its source; it is saved as GLB', async () => {
  await goBehind('panel gate');
  await command('Planish: Show the Folded Part');
  const step = picture().locator('#step');
  await picture().locator('#step', { hasText: 'finished, 5 bends' }).waitFor({ timeout: 60_000 });
  const frame = await picture().locator('#scene').boundingBox();
  if (frame === null) throw new Error('space is not in sight');
  const [x, y] = [frame.x + frame.width / 2, frame.y + frame.height / 2];
  const seen = async (): Promise<string> => (await page.screenshot({ clip: frame })).toString('base64');
  await page.screenshot({ path: path.join(pictures, 'folded-light.png') });

  const before = await seen();
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 80, y - 40, { steps: 5 });
  await page.mouse.up();
  await page.mouse.move(x, frame.y + 3);
  await expect.poll(async () => (await seen()) !== before, { timeout: 60_000 }).toBe(true);

  const slider = await picture().locator('#turned').boundingBox();
  if (slider === null) throw new Error('there is no slider');
  await page.mouse.click(slider.x + slider.width * 0.5, slider.y + slider.height / 2);
  await expect.poll(() => step.textContent(), { timeout: 60_000 }).toMatch(/^bend 3 of 5, /);
  await page.screenshot({ path: path.join(pictures, 'folding-light.png') });
  await picture().locator('#turned').press('End');
  await page.mouse.click(slider.x + slider.width - 2, slider.y + slider.height / 2);
  await expect.poll(() => step.textContent(), { timeout: 60_000 }).toMatch(/^finished/);

  await command('Preferences: Toggle between Light/Dark Themes');
  await picture().locator('body.vscode-dark').waitFor({ timeout: 60_000 });
  await picture().locator('[data-side=iso]').click();
  await page.waitForTimeout(600);
  await page.screenshot({ path: path.join(pictures, 'folded-dark.png') });

  // From the front only the hinge side is seen, across the middle.
  await picture().locator('[data-side=front]').click();
  await page.waitForTimeout(600);
  await page.mouse.move(x, y);
  await picture()
    .locator('#pointed', { hasText: /^flange hinge_side/ })
    .waitFor({ timeout: 60_000 });
  await page.mouse.click(x, y);
  await expect.poll(async () => fileText().split('\n')[(await lineOfCursor()) - 1] ?? '', { timeout: 60_000 }).toMatch(/as hinge_side/);

  await command('Planish: Export Pattern…');
  await page.locator('.quick-input-list .monaco-list-row', { hasText: 'GLB' }).first().waitFor({ timeout: 60_000 });
  await page.locator('.quick-input-widget input').first().fill('GLB');
  await page.keyboard.press('Enter');
  await page.locator('.quick-input-title', { hasText: 'Folded gate' }).waitFor({ timeout: 60_000 });
  await page.locator('.quick-input-widget').getByText('OK', { exact: true }).click();
  const saved = path.join(workspace, 'gate.glb');
  await expect
    .poll(() => fs.existsSync(saved) && fs.readFileSync(saved).subarray(0, 4).toString('latin1'), { timeout: 60_000 })
    .toBe('glTF');

  await picture().locator('#tab_flat').click();
  await picture().locator('svg [data-id="bend:hinge_side"]').first().waitFor({ timeout: 60_000 });
  // Back to the text, where the next file is to be opened.
  await page.keyboard.press('Control+1');
});

test('the bending: step by step in the picture, at the bends in the text; what can’t be bent is told, and the fix frees it', async () => {
  await page.locator('.explorer-folders-view .monaco-list-row', { hasText: 'gate.planish' }).dblclick({ timeout: 60_000 });
  await goBehind('panel gate');
  await command('Planish: Plan the Bending');
  const steps = picture().locator('#bend_steps li');
  await steps.first().waitFor({ timeout: 120_000 });
  expect(await steps.count()).toBe(5);
  await picture().locator('#bend_after').click();
  await picture()
    .locator('#bend_words h2', { hasText: /^Step 2 of 5/ })
    .waitFor();
  await picture().locator('#bend_play:not(.playing)').waitFor({ timeout: 60_000 });
  await editor()
    .locator('.view-line', { hasText: /flange.1\/2.down.*step.\d,.set.90\.\d°/ })
    .first()
    .waitFor({ timeout: 60_000 });
  await page.screenshot({ path: path.join(pictures, 'bending-dark.png') });
  await command('Preferences: Toggle between Light/Dark Themes');
  await picture().locator('body.vscode-light').waitFor({ timeout: 60_000 });
  await page.screenshot({ path: path.join(pictures, 'bending-light.png') });
  // The name of the bend leads to its words.
  const bend = (await picture().locator('.bend_name').textContent()) ?? '';
  await picture().locator('.bend_name').click();
  const edge = bend.startsWith('top') ? /flange 1\/2/ : /flange/;
  await expect.poll(async () => fileText().split('\n')[(await lineOfCursor()) - 1] ?? '', { timeout: 60_000 }).toMatch(edge);

  const keeper = path.join(workspace, 'keeper.planish');
  const body =
    '  sheet crs_18\n  outline rectangle 2 1/2 by 2\n  edge top {\n    flange 1 1/8 up as riser\n    flange 1 5/8 up as bridge\n  }\n';
  fs.writeFileSync(keeper, `with "shop.planish"\nunits inch\n\npanel keeper {\n${body}}\n`);
  await page.keyboard.press('Control+1');
  await page.locator('.explorer-folders-view .monaco-list-row', { hasText: 'keeper.planish' }).dblclick({ timeout: 60_000 });
  await picture().locator('#bending.blocked .stop_words', { hasText: 'strikes the nose' }).waitFor({ timeout: 120_000 });
  await errorMarks().first().waitFor({ timeout: 60_000 });
  await page.screenshot({ path: path.join(pictures, 'bending-stopped.png') });
  await goBehind('as riser');
  await takeCure(/^Make riser/);
  await expect.poll(() => errorMarks().count(), { timeout: 60_000 }).toBe(0);
  await picture()
    .locator('#bend_lead', { hasText: /^2 steps on bench_leaf/ })
    .waitFor({ timeout: 120_000 });
  await page.keyboard.press('Control+1');
  await command('View: Revert and Close Editor');
  fs.rmSync(keeper);
  await picture().locator('#tab_flat').click();
  await page.keyboard.press('Control+1');
});

test('a part typed from nothing comes alive', async () => {
  await command('File: New Untitled Text File');
  await command('Change Language Mode');
  await page.locator('.quick-input-widget input').first().fill('Planish');
  await page.locator('.quick-input-list .monaco-list-row', { hasText: 'Planish' }).first().waitFor();
  await page.keyboard.press('Enter');
  await page.locator('.statusbar-item', { hasText: 'Planish' }).first().waitFor();
  // Closing braces comes with the language's configuration, which the workbench loads once the language is in use.
  await expect
    .poll(
      async () => {
        await page.keyboard.press('Control+a');
        await page.keyboard.type('{');
        const typed = await page.locator('.editor-instance .view-line').first().textContent();
        await page.keyboard.press('Control+a');
        await page.keyboard.press('Delete');
        return typed;
      },
      { timeout: 60_000, interval: 500 },
    )
    .toBe('{}');
  // As hands do it: the editor closes braces, indents and offers words meanwhile; none of that may get in the way.
  const lines = [
    'units inch',
    'material mild_steel { gauge table steel; density 7850 kg/m3 }',
    'sheet scrap { material mild_steel; thickness 20 ga; bend radius 1/16 k 0.42 }',
    'let wide = 4 in + 40 deg',
    'panel scoop {',
    'sheet scrap',
    'outline rectangle 6 by 4 inside',
    'edge left, right { flange 1 1/2 up }',
    'hole 3/16 at (3, 2)',
  ];
  for (const line of lines) {
    await page.keyboard.type(line, { delay: 8 });
    await page.keyboard.press('Enter');
  }
  await errorMarks().first().waitFor({ timeout: 60_000 });
  await page.screenshot({ path: path.join(pictures, 'typed.png') });
  await goBehind(' + 40 deg');
  for (let press = 0; press < ' + 40 deg'.length; press++) await page.keyboard.press('Backspace');
  await expect.poll(() => errorMarks().count(), { timeout: 60_000 }).toBe(0);
  await goBehind('panel scoop');
  // Inside 6 with walls on both sides: wider than 6 by two walls and their bends, 4 high.
  await page
    .locator('.statusbar-item', { hasText: /scoop: .*× 4 in/ })
    .first()
    .waitFor({ timeout: 60_000 });
  await picture().locator('svg [data-id="bend:left.1"]').first().waitFor({ state: 'attached', timeout: 60_000 });
  await picture().locator('svg[aria-label*="scoop"]').first().waitFor({ state: 'attached', timeout: 60_000 });
  await page.screenshot({ path: path.join(pictures, 'typed-right.png') });
});

test('the list of words opens while one is typed; a statement taken from it opens the list of its names', async () => {
  const fresh = path.join(workspace, 'tread.planish');
  fs.writeFileSync(fresh, 'with "shop.planish"\nunits inch\n\npanel tread {\n}\n');
  await page.locator('.explorer-folders-view .monaco-list-row', { hasText: 'tread.planish' }).dblclick({ timeout: 60_000 });
  await page
    .locator('.editor-instance .view-line', { hasText: /panel.tread/ })
    .first()
    .waitFor({ timeout: 60_000 });
  await goBehind('panel tread {');
  await page.keyboard.press('Enter');
  await page.keyboard.type('sh', { delay: 50 });
  const words = page.locator('.suggest-widget.visible .monaco-list-row');
  await words.filter({ hasText: 'The sheet this is cut from.' }).first().waitFor({ timeout: 60_000 });
  await page.keyboard.press('Enter');
  await words.filter({ hasText: 'alu_050' }).first().waitFor({ timeout: 60_000 });
  await page.keyboard.type('crs_18', { delay: 50 });
  await words.filter({ hasText: 'crs_18' }).first().waitFor({ timeout: 60_000 });
  await page.screenshot({ path: path.join(pictures, 'names.png') });
  await page.keyboard.press('Enter');
  await page.keyboard.press('Control+s');
  await expect.poll(() => fs.readFileSync(fresh, 'utf8'), { timeout: 60_000 }).toMatch(/panel tread \{\s+sheet crs_18\s+\}/);
  await command('View: Close Editor');
  fs.rmSync(fresh);
});

test('a bead typed beyond the throat is told while it is typed, and the fix puts it right', async () => {
  const deep = path.join(workspace, 'wide-lid.planish');
  fs.writeFileSync(deep, 'with "shop.planish"\nunits inch\n\npanel wide_lid {\n  sheet crs_18\n  outline rectangle 46 by 44\n}\n');
  await page.locator('.explorer-folders-view .monaco-list-row', { hasText: 'wide-lid.planish' }).dblclick({ timeout: 60_000 });
  await page.locator('.editor-instance .view-line', { hasText: 'outline rectangle 46 by 44' }).first().waitFor({ timeout: 60_000 });
  await goBehind('outline rectangle 46 by 44');
  await page.keyboard.press('Enter');
  await page.keyboard.type('bead rib { die half_round_3_8  up  line from (4, 22) to (42, 22) }', { delay: 8 });
  await errorMarks().first().waitFor({ timeout: 60_000 });
  await page.keyboard.press('Control+Shift+M');
  await page
    .locator('.markers-panel .monaco-list-row', { hasText: /the throat is 18 in: it fits when it is moved 4 in toward the (top|bottom)/ })
    .first()
    .waitFor({ timeout: 60_000 });
  await picture().locator('svg .out_of_reach').first().waitFor({ state: 'attached', timeout: 60_000 });
  await page.screenshot({ path: path.join(pictures, 'out-of-reach.png') });
  await page.keyboard.press('Control+Shift+M');

  await goBehind('line from (4, 22)');
  await page.keyboard.press('ArrowLeft');
  await takeCure('deepest place that fits');
  await expect.poll(() => errorMarks().count(), { timeout: 60_000 }).toBe(0);
  await page.keyboard.press('Control+s');
  await expect
    .poll(() => /line from \(4, (18|26)\) to \(42, (18|26)\)/.test(fs.readFileSync(deep, 'utf8')), { timeout: 60_000 })
    .toBe(true);
  await page.screenshot({ path: path.join(pictures, 'within-reach.png') });
});

test('the job is laid out for cutting, given up once, and its bill is saved', async () => {
  /** The page's own frame, among those of all webviews. */
  const list = async () => {
    for (const frame of page.frames()) if ((await frame.locator('nav.actions').count()) > 0) return frame;
    return undefined;
  };
  await page.locator('.explorer-folders-view .monaco-list-row', { hasText: 'gate.planish' }).dblclick();
  const layOut = async (): Promise<void> => {
    await command('Planish: Cut Lists and Nesting');
    await page.locator('.quick-input-list .monaco-list-row', { hasText: 'All of cargo-trike' }).first().click();
    await page.locator('.notifications-toasts', { hasText: 'Laying out cargo-trike' }).waitFor({ timeout: 60_000 });
  };
  await layOut();
  await page.screenshot({ path: path.join(pictures, 'cutting-progress.png') });
  await page.locator('.notifications-toasts .monaco-button', { hasText: 'Cancel' }).first().click();
  await page.locator('.notifications-toasts', { hasText: 'Laying out cargo-trike' }).waitFor({ state: 'hidden', timeout: 60_000 });
  expect(await list()).toBeUndefined();

  await layOut();
  await expect.poll(async () => (await list()) !== undefined, { timeout: 120_000 }).toBe(true);
  const frame = await list();
  await frame?.locator('h2', { hasText: 'What to have and what to buy' }).waitFor();
  expect(await frame?.locator('figure svg').count()).toBeGreaterThan(8);
  await page.screenshot({ path: path.join(pictures, 'cutting-list.png') });
  await frame?.locator('nav.actions a', { hasText: 'Save' }).click();
  await page.locator('.quick-input-list .monaco-list-row', { hasText: 'Bill of materials as CSV' }).first().click();
  await page.locator('.quick-input-title', { hasText: 'Save the cutting list' }).waitFor();
  await page.locator('.quick-input-widget').getByText('OK', { exact: true }).click();
  const saved = path.join(workspace, 'cargo-trike-cutting.csv');
  await expect.poll(() => textOf(saved), { timeout: 60_000 }).toMatch(/^length,square_1,,240,/m);
});

test('nothing was asked of any other machine', () => {
  expect([...foreign]).toEqual([]);
});
