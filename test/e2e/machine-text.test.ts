/** A machine file of two thousand lines, to be read: laid out where it is in view and nowhere else, and all there all the same. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { breaches, sideways } from './page-rules.ts';
import { BENCH, openPage, PHONE, skipWithoutBrowser } from './served-app.ts';

const TWIN = readFileSync('machines/ardmoor-650-pathway.json', 'utf8');
const LINES = TWIN.split('\n');
/** Words of the file's last lines: far from what is seen first. */
const DEEP = LINES.findLastIndex((line, index) => /"\w{5,}"/.test(line) && LINES.indexOf(line) === index);

/** Blocks of lines, and how many of them the browser has laid out, count. */
const laidOut = (page: Page): Promise<readonly [all: number, laid: number]> =>
  page.evaluate(() => {
    const blocks = [...document.querySelectorAll('.file-block')];
    const laid = blocks.filter(({ lastElementChild }) =>
      lastElementChild!.checkVisibility({ contentVisibilityAuto: true }),
    );
    return [blocks.length, laid.length] as const;
  });
const top = (page: Page): Promise<number> => page.evaluate(() => document.querySelector('.file')!.scrollTop);
/** The number of the line in which the field's cursor stands. */
const cursorLine = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const area = document.querySelector<HTMLTextAreaElement>('textarea.file')!;
    return area.value.slice(0, area.selectionStart).split('\n').length;
  });

describe.skipIf(skipWithoutBrowser)('the text of a machine file', { timeout: 120_000 }, () => {
  const app = useApp();
  const open = async (options: typeof PHONE): Promise<Page> => {
    const { page } = await openPage(app.browser, options);
    await page.goto(`${app.laptop.address}/#/machines/ardmoor-650-pathway/text`);
    await page.locator('.file-block').first().waitFor();
    await page.evaluate(() => document.fonts.ready);
    await page.waitForTimeout(200);
    return page;
  };

  test('is laid out where it is in view, and no line moves when it comes into view', async () => {
    const page = await open(PHONE);
    const [all, laid] = await laidOut(page);
    expect(all).toBeGreaterThan(30);
    expect(laid).toBeGreaterThan(0);
    expect(laid).toBeLessThanOrEqual(6);
    const size = () =>
      page.evaluate(() => {
        const { scrollHeight, scrollWidth } = document.querySelector('.file')!;
        return [scrollHeight, scrollWidth];
      });
    const before = await size();
    await page.evaluate(() => {
      const frame = document.querySelector('.file')!;
      frame.scrollTop = frame.scrollHeight;
    });
    await page.waitForTimeout(300);
    expect(await size()).toEqual(before);
    expect((await laidOut(page))[1]).toBeLessThanOrEqual(6);
    // Its last number stands beside its last line, and the longest line can be scrolled to its end.
    const [number, words, longest] = await page.evaluate(() => {
      const block = [...document.querySelectorAll('.file-block')].at(-1)!;
      const [numbers, code] = block.children;
      const width = Math.max(...[...document.querySelectorAll('code')].map(({ scrollWidth }) => scrollWidth));
      return [numbers!.getBoundingClientRect().height, code!.getBoundingClientRect().height, width] as const;
    });
    expect(number).toBe(words);
    expect(before[1]).toBeGreaterThanOrEqual(longest);
    await page.context().close();
  });

  test('is found, spoken and printed whole, and scrolled by keys', async () => {
    const page = await open(BENCH);
    expect(await page.evaluate(() => document.querySelector('.file')!.textContent!.length)).toBeGreaterThan(
      TWIN.length,
    );
    const words = LINES[DEEP]!.trim();
    const code = page.locator('.file code').last();
    expect(
      await page.evaluate(
        (sought) => (globalThis as unknown as { find: (one: string) => boolean }).find(sought),
        words,
      ),
    ).toBe(true);
    expect(await page.evaluate(() => getSelection()!.toString())).toBe(words);
    expect(await code.ariaSnapshot()).toContain('}');
    await page.locator('.file').focus();
    await page.keyboard.press('PageDown');
    await expect.poll(() => top(page)).toBeGreaterThan(200);
    await page.keyboard.press('Home');
    await expect.poll(() => top(page)).toBe(0);
    expect(await breaches(page, false)).toEqual([]);
    expect(await sideways(page)).toBe(0);
    await page.emulateMedia({ media: 'print' });
    const [all, laid] = await laidOut(page);
    expect(laid).toBe(all);
    const cut = await page.evaluate(() => {
      const frame = document.querySelector('.file')!;
      return [frame.scrollHeight - frame.clientHeight, frame.scrollWidth - frame.clientWidth];
    });
    expect(cut).toEqual([0, 0]);
    await page.context().close();
  });

  test('becomes a field where it is touched, and is read again from the same line on', async () => {
    const page = await open(PHONE);
    await page.evaluate(() => {
      document.querySelector('.file')!.scrollTop = 20_000;
    });
    await page.waitForTimeout(200);
    const line = page.locator('.file-block', { hasText: LINES[590]!.trim() }).first();
    await line.waitFor();
    await page.locator('.file').tap({ position: { x: 200, y: 180 } });
    await page.locator('textarea.file').waitFor();
    expect(await page.locator('textarea.file').inputValue()).toBe(TWIN);
    expect(await top(page)).toBe(20_000);
    // 180 px below the top edge, lines of 34.2 px.
    const touched = await cursorLine(page);
    expect(Math.abs(touched - (Math.floor((20_000 + 180) / 34.2) + 1))).toBeLessThanOrEqual(1);
    await page.keyboard.type('x');
    await page.getByRole('button', { name: 'Show line numbers' }).tap();
    await page.locator('.file-block').first().waitFor();
    expect(await top(page)).toBe(20_000);
    expect((await page.locator('.file code').allTextContents()).join('').length).toBe(TWIN.length + 2);
    await page.waitForTimeout(300);
    await page.getByRole('button', { name: 'Change the text' }).tap();
    await page.locator('textarea.file').waitFor();
    expect(await top(page)).toBe(20_000);
    expect(await cursorLine(page)).toBe(Math.ceil(20_000 / 34.2) + 1);
    await page.context().close();
  });

  test('becomes a field by the key Enter', async () => {
    const page = await open(BENCH);
    await page.locator('.file').focus();
    await page.keyboard.press('End');
    await expect
      .poll(() =>
        page.evaluate(() => {
          const { scrollHeight, scrollTop, clientHeight } = document.querySelector('.file')!;
          return scrollHeight - scrollTop - clientHeight;
        }),
      )
      .toBeLessThan(2);
    await page.keyboard.press('Enter');
    await page.locator('textarea.file').waitFor();
    await expect.poll(() => cursorLine(page)).toBeGreaterThan(1800);
    expect(await page.locator('textarea.file').inputValue()).toBe(TWIN);
    await page.context().close();
  });

  test('takes no estimate in while it does not read, and says so', async () => {
    const page = await open(BENCH);
    await page.getByRole('button', { name: 'Change the text' }).click();
    await page.locator('textarea.file').fill('{ "version": 2,');
    await page.locator('.findings').getByText(/./).first().waitFor();
    await page.goto(`${app.laptop.address}/#/machines/ardmoor-650-pathway/estimate`);
    await page.getByLabel('AC volts read between two pins').fill('51 V');
    await page.getByLabel('Engine speed').fill('3000 rpm');
    for (const group of await page.getByRole('radiogroup').all())
      if ((await group.locator('[aria-checked=true]').count()) === 0)
        await group.getByRole('radio').first().click();
    await page.getByText('nothing can be taken into it').waitFor();
    expect(await page.getByRole('button', { name: /^Take it into the file/ }).isDisabled()).toBe(true);
    await page.context().close();
  });
});
