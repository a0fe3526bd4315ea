/** A network that falls silent: nothing is refused and nothing comes. The app notices, says what waits, and recovers. */
import { describe, expect, test } from 'vitest';
import { writeEvent } from '../../src/job/stamp.ts';
import { useApp } from './app-hooks.ts';
import { DEMO, openPage, PHONE, skipWithoutBrowser } from './served-app.ts';
import { openSilentProxy } from './silent-proxy.ts';

describe.skipIf(skipWithoutBrowser)('a network that falls silent', { timeout: 180_000 }, () => {
  const app = useApp();

  test('what is entered waits and is counted; when it speaks again all goes out, and what others wrote comes in', async () => {
    const proxy = await openSilentProxy(app.laptop.address);
    const { page, faults } = await openPage(app.browser, PHONE);
    await page.goto(`${proxy.address}/#/job/${DEMO}/complaint`);
    const words = page.locator('textarea').first();
    await words.waitFor({ timeout: 30_000 });
    await page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 30_000 });
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 60_000 });
    await page.waitForTimeout(1000);

    proxy.hush();
    await words.fill('Said while the network was silent.');
    await words.blur();
    await page.getByText('1 not sent yet').waitFor();
    const log = `${app.laptop.address}/api/jobs/${DEMO}`;
    const theirs = writeEvent(
      { job: DEMO, who: 'other', device: 'other' },
      { type: 'complaintHeard', words: 'Said on another device.', symptoms: [] },
      null,
      Date.now() + 1000,
    );
    const sent = await fetch(`${log}/events`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify([theirs]),
    });
    expect(sent.status).toBe(200);
    // Given up and asked for anew, still into the silence: by then the page has noticed.
    await expect.poll(() => proxy.swallowed(), { timeout: 60_000 }).toBeGreaterThan(1);
    await page.getByText('1 not sent yet').waitFor();

    proxy.speak();
    await page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 60_000 });
    await expect.poll(() => words.inputValue(), { timeout: 60_000 }).toBe('Said on another device.');
    const { events } = (await (await fetch(log)).json()) as { events: { event: { words?: string } }[] };
    const said = events.filter(({ event }) => event.words === 'Said while the network was silent.');
    expect(said).toHaveLength(1);

    // And the stream lives again: what comes now comes at once, not with the next look.
    const next = { ...theirs, id: theirs.id.replace('-0000-', '-0001-'), words: 'And once more.' };
    const begun = performance.now();
    await fetch(`${log}/events`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify([next]),
    });
    await expect.poll(() => words.inputValue(), { timeout: 30_000, interval: 50 }).toBe('And once more.');
    console.log(
      `after a silence an entry of another device shows in ${Math.round(performance.now() - begun)} ms`,
    );
    expect(faults).toEqual([]);
    await page.context().close();
    await proxy.close();
  });
});
