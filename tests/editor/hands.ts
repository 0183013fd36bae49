/** What a person's hands do in the workbench: give a command, find words, read where the cursor is. */
import type { Locator, Page } from 'playwright-core';

export interface Hands {
  command(title: string): Promise<void>;
  /** Puts the cursor behind the words, by the editor's own search; sure of it only when just these words are selected. */
  goBehind(words: string): Promise<void>;
  lineOfCursor(): Promise<number>;
  /** Asks for the cures at the cursor and takes the one with these words. */
  takeCure(words: string | RegExp): Promise<void>;
}

const isDone = (work: Promise<void>): Promise<boolean> =>
  work.then(
    () => true,
    () => false,
  );
/** Whether it comes to be seen before long. */
const isSeen = (what: Locator): Promise<boolean> => isDone(what.waitFor({ timeout: 8000 }));

export const createHands = (page: () => Page): Hands => {
  const command = async (title: string): Promise<void> => {
    const box = page().locator('.quick-input-widget input').first();
    // A workbench that is still starting lets a key go by, and one that opens a file closes the box again.
    for (let turn = 0; ; turn++) {
      if (!(await box.isVisible())) await page().keyboard.press('F1');
      const filled = (await isSeen(box)) && (await isDone(box.fill(`>${title}`, { timeout: 5000 })));
      if (filled) break;
      if (turn === 8) throw new Error(`the box for "${title}" does not stay open`);
    }
    // The list is ranked by use: the row wanted may not be the first.
    const row = page()
      .locator('.quick-input-list .monaco-list-row')
      .filter({ has: page().getByText(title, { exact: true }) });
    await row.first().click();
  };

  const statusOfCursor = async (): Promise<string> =>
    (await page()
      .locator('.statusbar-item', { hasText: /Ln \d+/ })
      .first()
      .textContent()) ?? '';

  const goBehind = async (words: string): Promise<void> => {
    for (let turn = 0; turn < 8; turn++) {
      await page().keyboard.press('Control+1');
      await page().keyboard.press('Control+Home');
      await page().keyboard.press('Control+f');
      const find = page().locator('.find-widget.visible textarea').first();
      // A workbench that is still opening the file lets a key go by, or takes it elsewhere.
      if (!(await isSeen(find))) {
        await page().keyboard.press('Escape');
        continue;
      }
      await find.fill(words);
      if (!(await isSeen(page().locator('.find-widget.visible .matchesCount', { hasText: /of \d/ }).first()))) continue;
      await page().keyboard.press('Enter');
      // The first Escape may close a parameter hint that lies over the widget.
      for (let press = 0; press < 5 && (await page().locator('.find-widget.visible').count()) > 0; press++) {
        await page().keyboard.press('Escape');
        await page().waitForTimeout(150);
      }
      const deadline = Date.now() + 2000;
      while (Date.now() < deadline) {
        if ((await statusOfCursor()).includes(`(${words.length} selected)`)) {
          await page().keyboard.press('ArrowRight');
          return;
        }
        await page().waitForTimeout(50);
      }
    }
    throw new Error(`"${words}" could not be found and selected`);
  };

  const lineOfCursor = async (): Promise<number> => Number(/Ln (\d+)/.exec(await statusOfCursor())?.[1]);

  const takeCure = async (words: string | RegExp): Promise<void> => {
    const offered = page().locator('.action-widget .monaco-list-row', { hasText: words }).first();
    // Asked for before the findings of the last key are in, none is offered: a person asks again.
    for (let turn = 0; turn < 8; turn++) {
      await page().keyboard.press('Control+.');
      if ((await isSeen(offered)) && (await isDone(offered.click({ timeout: 5000 })))) return;
      await page().keyboard.press('Escape');
    }
    throw new Error(`no cure "${words}" is offered`);
  };

  return { command, goBehind, lineOfCursor, takeCure };
};
