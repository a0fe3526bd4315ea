/** A phone let in: the code read by another reader than the one that wrote it, the landing page, work, and shut out. */
import jsQR from 'jsqr';
import { describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { BENCH, openPage, openStation, PHONE, skipWithoutBrowser } from './served-app.ts';
import { putJob, SINGLE } from './worked-jobs.ts';

describe.skipIf(skipWithoutBrowser)('another device', { timeout: 180_000 }, () => {
  const app = useApp();

  test('is let in by a code, works on the job with the laptop, and is shut out', async () => {
    await putJob(app.laptop.address, SINGLE);
    const laptop = await openPage(app.browser, BENCH);
    await laptop.page.goto(`${app.laptop.address}/#/devices`);
    await laptop.page.getByText('Shut. Only this laptop is let in.').waitFor();
    await laptop.page.getByRole('button', { name: 'Open the door' }).click();
    await laptop.page.getByText('◆ Open').waitFor({ timeout: 20_000 });
    await laptop.page.waitForTimeout(300);
    await laptop.page.getByRole('button', { name: 'Let a device in' }).click();
    await laptop.page.locator('svg.code').waitFor();
    const written = ((await laptop.page.locator('.address').textContent()) ?? '').replaceAll(/\s/g, '');

    // Its modules as a phone's camera would see them.
    const code = laptop.page.locator('svg.code');
    const side = Number((await code.getAttribute('viewBox'))!.split(' ')[2]) * 8;
    const pixels = new Uint8ClampedArray(4 * side * side).fill(255);
    const dark = (await code.locator('path').getAttribute('d'))!;
    for (const [, x, y] of dark.matchAll(/M(\d+) (\d+)h1v1h-1z/g))
      for (let row = 0; row < 8; row++) {
        const at = 4 * ((8 * Number(y) + row) * side + 8 * Number(x));
        for (let n = at; n < at + 32; n++) if (n % 4 !== 3) pixels[n] = 0;
      }
    expect(jsQR(pixels, side, side)?.data).toBe(written);

    // The first way: let through once, where the browser warns.
    const phone = await openPage(app.browser, { ...PHONE, ignoreHTTPSErrors: true });
    const { page } = phone;
    await page.goto(written);
    await page.getByRole('link', { name: 'Go on' }).click();
    await page.getByRole('heading', { name: 'Pair this device' }).waitFor({ timeout: 20_000 });
    await page.locator('input').fill('phone of the tests');
    await page.getByRole('button', { name: 'Pair it' }).click();
    await page.getByRole('link', { name: new RegExp(SINGLE.title) }).waitFor({ timeout: 20_000 });
    await laptop.page.getByText('phone of the tests').waitFor({ timeout: 20_000 });

    // Both on one job: a tick on the phone shows on the laptop.
    const base = new URL(page.url()).origin;
    await openStation(page, base, 'way', SINGLE.job);
    await openStation(laptop.page, app.laptop.address, 'way', SINGLE.job);
    for (const one of [page, laptop.page])
      await one.locator('.way-steps').first().waitFor({ timeout: 60_000 });
    await page.locator('.way-steps > li.next').getByRole('button', { name: /^Done/ }).click();
    await laptop.page.getByText(', 1 done').waitFor({ timeout: 20_000 });

    await page.goto(`${base}/#/self-test`);
    await page.getByText('Keeps jobs and entries').waitFor();
    await page.goto(`${base}/#/devices`);
    await page.getByText('open this page there').waitFor();

    // Shut out: it sees nothing new, and what it writes waits on it.
    await laptop.page.goto(`${app.laptop.address}/#/devices`);
    await laptop.page.getByRole('button', { name: /^Shut out/ }).click();
    await laptop.page.getByText('No other device yet.').waitFor();
    await openStation(page, base, 'way', SINGLE.job);
    await page.locator('.way-steps').first().waitFor({ timeout: 60_000 });
    await page.waitForTimeout(300);
    await page.locator('.way-steps > li.next').getByRole('button', { name: /^Done/ }).click();
    await page.getByText('1 not sent yet').waitFor();
    expect(await page.evaluate(async () => (await fetch('/api/jobs')).status)).toBe(401);
    expect(laptop.faults).toEqual([]);
    await page.context().close();
    await laptop.page.context().close();
  });
});
