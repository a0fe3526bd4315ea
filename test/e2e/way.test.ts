/** The way in on screen: from a verdict's repair to a plan that is kept with the job, ticked off, jammed, and printed. */
import { describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { BENCH, openPage, openStation, PHONE, skipWithoutBrowser } from './served-app.ts';
import { putJob, SINGLE } from './worked-jobs.ts';

describe.skipIf(skipWithoutBrowser)('the way in', { timeout: 120_000 }, () => {
  const app = useApp();

  test('is planned for what the verdict calls for, drawn, listed, jammed and planned anew, and outlives a reload', async () => {
    const { page, faults } = await openPage(app.browser, PHONE);
    const press = async (name: string | RegExp, exact = false) => {
      // A second touch within a quarter of a second would be a bounce.
      await page.waitForTimeout(300);
      await page.getByRole('button', { name, exact }).first().click();
    };
    const steps = async () => (await page.locator('.way-steps').allTextContents()).join(' ');
    await putJob(app.laptop.address, SINGLE);
    await openStation(page, app.laptop.address, 'verdict', SINGLE.job);
    await page.getByRole('link', { name: 'Plan the way in' }).click();
    await page.locator('.way-steps').first().waitFor({ timeout: 60_000 });
    const chosen = page.locator('.way .toggles button[aria-pressed=true]');
    await press(/stator/);
    // What a fold holds is built a moment after it opens.
    await expect.poll(() => chosen.allTextContents(), { timeout: 15_000 }).toContain('stator');
    await page.locator('.screen-only').getByText('nine times in ten').waitFor({ timeout: 60_000 });
    expect(await page.locator('.dip-scroll svg').count()).toBe(1);
    await press(/things to get/);
    await press(/primary cover gasket/);
    await page.locator('.way-list button[aria-pressed=true]').waitFor();

    // The adjuster's nut is seized: another way at once, and what has changed.
    expect(await steps()).not.toContain('Take the tensioner out with its shoe');
    await press(/Slacken the tensioner shoe/);
    await press('Trouble: Slacken the tensioner shoe');
    await press('It will not come at all');
    await page.locator('.way-changes li', { hasText: 'Take the tensioner out with its shoe' }).waitFor({
      timeout: 60_000,
    });
    // The list is built a piece at a time.
    await expect.poll(steps, { timeout: 30_000 }).toContain('Take the tensioner out with its shoe');

    // Three steps done; they are ticked after a reload too, and the jam is still known.
    for (let n = 1; n <= 3; n++) {
      await page.waitForTimeout(300);
      await page.locator('.way-steps > li.next').getByRole('button', { name: /^Done/ }).click();
      await page.getByText(`, ${n} done`).waitFor();
    }
    await page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 20_000 });
    await page.reload();
    await page.locator('.way-steps').first().waitFor({ timeout: 60_000 });
    await page.getByText(', 3 done').waitFor();
    await page.getByText('will not come').first().waitFor();
    await press(/^No longer so/);
    await expect.poll(steps, { timeout: 60_000 }).not.toContain('Take the tensioner out with its shoe');

    // The drawing scrolls in a frame of its own, larger and smaller, never the page; a touch on it opens the step.
    const width = () => page.locator('.dip-scroll svg').evaluate((svg) => svg.getBoundingClientRect().width);
    const before = await width();
    await press('Larger');
    expect(await width()).toBeGreaterThan(before);
    const [scroll, room] = await page.evaluate(() => {
      const root = document.documentElement;
      return [root.scrollWidth, root.clientWidth] as const;
    });
    expect(scroll).toBeLessThanOrEqual(room);
    await page.locator('.dip-scroll').evaluate((frame) => {
      frame.scrollLeft = frame.scrollWidth / 2;
    });
    await page.locator('.dip-scroll').click({ position: { x: 150, y: 100 } });
    await expect.poll(() => page.evaluate(() => document.activeElement?.id ?? '')).toMatch(/^step-/);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test('is the same on a second device, and follows the soonest ride when asked', async () => {
    const { page } = await openPage(app.browser, BENCH);
    await openStation(page, app.laptop.address, 'way', SINGLE.job);
    await page.locator('.way-steps').first().waitFor({ timeout: 60_000 });
    await page.getByText(', 3 done').waitFor();
    const sooner = page.getByRole('button', { name: 'Follow the earliest ride' });
    if ((await sooner.count()) > 0) {
      await sooner.click();
      await page.getByRole('button', { name: 'Follow the least work' }).waitFor({ timeout: 60_000 });
    }
    await page.context().close();
  });

  test('prints the list, the dip and every step, black on white, whatever the theme', async () => {
    const { page } = await openPage(app.browser, BENCH, 'slate');
    await openStation(page, app.laptop.address, 'way', SINGLE.job);
    await page.locator('.way-steps').first().waitFor({ timeout: 60_000 });
    await page.locator('.paper-only').waitFor({ state: 'attached' });
    await page.emulateMedia({ media: 'print' });
    const paper = page.locator('.paper-only');
    expect(await paper.isVisible()).toBe(true);
    expect(await page.locator('.screen-only').isVisible()).toBe(false);
    expect(await paper.evaluate((node) => getComputedStyle(node).color)).toBe('rgb(0, 0, 0)');
    const text = await paper.evaluate((node) => node.textContent);
    for (const words of ['Before you open it', 'primary cover gasket', 'Coming back out', 'book', 'demo'])
      expect(text).toContain(words);
    expect(await paper.locator('svg').count()).toBe(1);
    await page.context().close();
  });

  test('says why there is no plan', async () => {
    const { page } = await openPage(app.browser, PHONE);
    await openStation(page, app.laptop.address, 'way', SINGLE.job);
    await page.getByRole('button', { name: /stator/ }).click();
    await page.locator('.way .toggles button').first().waitFor();
    for (const pressed of await page.locator('.way .toggles button[aria-pressed=true]').all()) {
      await page.waitForTimeout(300);
      await pressed.click();
    }
    await page.getByText('Choose what to get to.').waitFor();
    await page.context().close();
  });
});
