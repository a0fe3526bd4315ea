/**
 * The ride balance on a phone and at the bench: the day edited by touch, kept over a reload, looked at in three themes.
 * With SCREENS set to a folder a picture of each is written there.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { breaches, sideways, tooSmall } from './page-rules.ts';
import { WIDTHS, type Width } from './screens.ts';
import { openPage, PHONE, skipWithoutBrowser, THEMES } from './served-app.ts';

const RIDE = '/#/ride/ardmoor-650-pathway';

async function ridden(page: Page): Promise<void> {
  await page.locator('.ride-verdict').waitFor({ timeout: 30_000 });
  await page.locator('.ride-advice').waitFor({ timeout: 30_000 });
}

async function addOne(page: Page, ask: string, text: string): Promise<void> {
  await page.getByLabel(ask).fill(text);
  await page.getByLabel(ask).press('Enter');
}

/** Long enough for the next touch not to be taken for a bounce. */
const pause = (page: Page) => page.waitForTimeout(300);

describe.skipIf(skipWithoutBrowser)('the ride balance', { timeout: 120_000 }, () => {
  const app = useApp();

  test('by touch: a leg slowed, a load added, the verdict turns and survives a reload', async () => {
    const { page, faults } = await openPage(app.browser, PHONE);
    await page.goto(`${app.laptop.address}${RIDE}`);
    await ridden(page);
    await page.getByRole('heading', { name: 'It stays charged' }).waitFor();

    // The first leg opened, its speed brought to 1000 rpm by the big buttons.
    await page
      .getByRole('button', { name: /^▸? ?town/ })
      .first()
      .tap();
    const less = page.getByRole('button', { name: 'Engine speed: less' });
    for (let n = 0; n < 8; n++) {
      await less.tap();
      await page.waitForTimeout(90);
    }
    expect(await page.getByLabel('Engine speed, rpm').inputValue()).toBe('1000');
    await page.getByLabel('Time, min').fill('90');
    await page.getByRole('button', { name: 'Air: less' }).tap();
    await addOne(page, 'One load more', 'heated jacket 90 W');
    await page.getByText('90 W · while riding').waitFor();
    await addOne(page, 'One leg more', 'crawl home 1000 rpm 40 min');
    await page.getByText('1000 rpm · 40 min · low beam').waitFor();
    await page.getByRole('heading', { name: 'It does not stay charged' }).waitFor();
    await page
      .locator('.ride-advice li', { hasText: /Keep the engine at/ })
      .first()
      .waitFor();

    // The bar at the foot leads to what comes of it.
    await page.getByRole('button', { name: 'It does not stay charged' }).tap();
    await expect
      .poll(() => page.locator('.ride-verdict').evaluate((verdict) => verdict.getBoundingClientRect().top))
      .toBeLessThan(200);

    // It runs in one leg only, and follows that leg when it is called otherwise.
    await page.getByRole('button', { name: /heated jacket/ }).tap();
    await page.getByRole('radio', { name: 'in some legs' }).tap();
    await page.locator('.toggles button', { hasText: /^crawl home$/ }).tap();
    await pause(page);
    await page.locator('.toggles button', { hasText: /^town$/ }).tap();
    await page.getByText('90 W · in crawl home').waitFor();
    await page.locator('.fold', { hasText: 'crawl home' }).first().tap();
    await page
      .locator('.ride-list > li', { hasText: '40 min' })
      .getByLabel('Name', { exact: true })
      .fill('long way');
    await page.getByText('90 W · in long way').waitFor();

    await page.reload();
    await ridden(page);
    await page.getByText('1000 rpm · 1 h 30 min · low beam').waitFor();
    await page.getByText('90 W · in long way').waitFor();

    // And back: a leg taken out, all of it begun anew.
    await page.locator('.fold', { hasText: 'long way' }).first().tap();
    await page.getByRole('button', { name: 'Take “long way” out' }).tap();
    await page.getByText('90 W · while riding').waitFor();
    expect(await page.locator('.ride-list', { hasText: 'long way' }).count()).toBe(0);
    await pause(page);
    await page.getByRole('button', { name: 'Undo' }).tap();
    await page.getByText('90 W · in long way').waitFor();
    await pause(page);
    await page.getByRole('button', { name: 'Begin anew' }).tap();
    await page.getByRole('heading', { name: 'It stays charged' }).waitFor();
    await pause(page);
    await page.getByRole('button', { name: 'Undo' }).tap();
    await page.getByText('90 W · in long way').waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test('says what cannot be read, where it was written, and loses nothing', async () => {
    const { page, faults } = await openPage(app.browser, PHONE);
    await page.goto(`${app.laptop.address}${RIDE}`);
    await ridden(page);
    await addOne(page, 'One leg more', 'ferry 30 min');
    await page
      .getByText('it has no engine speed: write e.g. "town 1800 rpm 20 min", or "engine off".')
      .waitFor();
    expect(await page.getByLabel('One leg more').inputValue()).toBe('ferry 30 min');
    await addOne(page, 'One load more', 'jacket');
    await page.getByText('it does not say what it draws').waitFor();
    await page.getByLabel('Air, °C').fill('warm');
    await page.getByText('Write a figure from −30 to 50; 15 °C still counts.').waitFor();
    await page.getByLabel('Air, °C').fill('-5');
    await page.getByText('23 °F').waitFor();
    // What another program left in the same place is no ride.
    await page.evaluate(() => localStorage.setItem('ride ardmoor-650-pathway', '{"legs":[{}]}'));
    await page.reload();
    await ridden(page);
    expect(await page.getByLabel('Air, °C').inputValue()).toBe('15');
    await page.goto(`${app.laptop.address}/#/ride/no-such-bike`);
    await page.getByRole('heading', { name: 'The machine file cannot be opened' }).waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });

  for (const theme of THEMES)
    for (const width of [360, 1280] as const satisfies readonly Width[])
      test(`looks as it must, ${theme} at ${width} px`, async () => {
        const { page, faults } = await openPage(app.browser, WIDTHS[width], theme);
        await page.goto(`${app.laptop.address}${RIDE}`);
        await ridden(page);
        await addOne(page, 'One leg more', 'crawl 1000 rpm 1 h');
        await addOne(page, 'One leg more', 'ferry 30 min');
        await addOne(page, 'One load more', 'heated jacket 65 W in crawl');
        // One leg and one load stand open.
        await page.getByRole('button', { name: /crawl/ }).first().click();
        await pause(page);
        await page.getByRole('button', { name: /heated jacket/ }).click();
        await ridden(page);
        await pause(page);
        const folder = process.env.SCREENS;
        if (folder) {
          mkdirSync(folder, { recursive: true });
          await page.evaluate(() => document.fonts.ready);
          await page.screenshot({ path: join(folder, `ride-${width}-${theme}.png`), fullPage: true });
        }
        expect(await sideways(page)).toBe(0);
        expect(await tooSmall(page)).toEqual([]);
        expect(await breaches(page, theme !== 'paper' && width !== 360)).toEqual([]);
        expect(faults).toEqual([]);
        await page.context().close();
      });
});
