/** The bench in a real browser: the demo job played to its last step, with records, holds, undo and a dead laptop. */
import { describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { finger, signAll } from './bench-player.ts';
import { openPage, openStation, PHONE, skipWithoutBrowser } from './served-app.ts';
import { putJob, SINGLE } from './worked-jobs.ts';

describe.skipIf(skipWithoutBrowser)('the bench', { timeout: 600_000 }, () => {
  const app = useApp();

  test('is played by touch at 360 px', async () => {
    const { page, faults } = await openPage(app.browser, PHONE);
    await putJob(app.laptop.address, SINGLE);
    await page.clock.install({ time: new Date() });
    await openStation(page, app.laptop.address, 'bench', SINGLE.job);
    await page.locator('#bench-step').waitFor({ timeout: 60_000 });
    const hand = finger(page);
    const seen: string[] = [];
    for (let n = 0; n < 80; n++) {
      const head = await page.locator('h1').textContent();
      if (process.env.SCOUT)
        await page.screenshot({
          path: `${process.env.SCOUT}/${String(n).padStart(2, '0')}.png`,
          fullPage: true,
        });
      if ((await page.locator('#bench-step').count()) === 0) break;
      seen.push(head ?? '');
      const signed = await signAll(page, hand);
      if (process.env.SCOUT)
        console.log(
          n,
          head,
          signed.join(' | '),
          await page.locator('[aria-label="What comes first"]').allTextContents(),
        );
      const waits = page.locator('[aria-label="What comes first"] .warn');
      while ((await waits.count()) > 0) {
        console.log(await waits.allTextContents());
        await page.clock.fastForward('01:00:00');
        await page.waitForTimeout(500);
      }
      const over = page.getByRole('button', { name: /^(Done|Over)/ });
      if ((await over.count()) === 0) {
        console.log(await page.locator('.bench-bar').textContent());
        break;
      }
      await hand.press(over.first());
      await page.waitForFunction((old) => document.querySelector('h1')?.textContent !== old, head, {
        timeout: 20_000,
      });
    }
    expect(faults).toEqual([]);
    console.log(seen.length);
  });
});
