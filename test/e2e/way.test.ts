/** The way in on screen: from a verdict's repair to a plan, and planned anew when something will not come. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Laptop, openChromium, openLaptop, openPage, PHONE, skipWithoutBrowser } from './served-app.ts';

describe.skipIf(skipWithoutBrowser)('the way in', { timeout: 120_000 }, () => {
  let laptop: Laptop;
  let browser: Browser;
  beforeAll(async () => {
    laptop = await openLaptop();
    browser = await openChromium();
  }, 180_000);
  afterAll(async () => {
    await browser?.close();
    await laptop?.end();
  });

  test('is planned for what the verdict calls for, drawn, listed, and planned anew', async () => {
    const { page, faults } = await openPage(browser, PHONE);
    await page.goto(`${laptop.address}/#/way/ardmoor-650-pathway?repairs=replace-stator`);
    await page.locator('.way-steps').first().waitFor({ timeout: 60_000 });
    expect(await page.locator('.toggles button[aria-pressed=true]').allTextContents()).toEqual(['stator']);
    await page.getByText('nine times in ten').waitFor();
    expect(await page.locator('.dip-scroll svg').count()).toBe(1);
    expect(await page.locator('.way-list li').allTextContents()).toContainEqual(
      expect.stringContaining('primary cover gasket'),
    );
    const steps = () => page.locator('.way-steps').allTextContents();
    expect((await steps()).join(' ')).not.toContain('Take the tensioner out with its shoe');

    await page.getByRole('button', { name: /It will not come: Slacken the tensioner shoe/ }).click();
    await page.getByText('Planned anew: one thing does not come.').waitFor();
    await expect
      .poll(async () => (await steps()).join(' '), { timeout: 60_000 })
      .toContain('Take the tensioner out with its shoe');

    // The drawing scrolls in a frame of its own, larger and smaller, never the page.
    const width = () => page.locator('.dip-scroll svg').evaluate((svg) => svg.getBoundingClientRect().width);
    const before = await width();
    await page.waitForTimeout(300);
    await page.getByRole('button', { name: 'Larger' }).click();
    expect(await width()).toBeGreaterThan(before);
    const [scroll, room] = await page.evaluate(() => {
      const root = document.documentElement;
      return [root.scrollWidth, root.clientWidth] as const;
    });
    expect(scroll).toBeLessThanOrEqual(room);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test('says why there is no plan', async () => {
    const { page } = await openPage(browser, PHONE);
    await page.goto(`${laptop.address}/#/way/no-such-bike`);
    await page.getByText('There is no such machine here').waitFor();
    await page.context().close();
  });
});
