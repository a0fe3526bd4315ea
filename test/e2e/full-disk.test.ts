/** The laptop's disk is full: the app says so in the laptop's words, keeps the entry, and sends it once there is room. */
import { afterAll, describe, expect, test } from 'vitest';
import { openSmallDisk } from '../disk/small-disk.ts';
import { useApp } from './app-hooks.ts';
import { DEMO, openPage, PHONE, skipWithoutBrowser } from './served-app.ts';

const small = skipWithoutBrowser ? null : openSmallDisk(4);

describe.skipIf(small === null)('a laptop without room', { timeout: 120_000 }, () => {
  const app = useApp();
  afterAll(() => small?.end());

  test('says so, keeps what is entered in the browser, and gets it once there is room', async () => {
    await app.laptop.kill();
    await app.laptop.start({ CHARGEWRIGHT_HOME: `${small!.folder}/garage` });
    const { page, faults } = await openPage(app.browser, PHONE);
    await page.goto(`${app.laptop.address}/#/job/${DEMO}/complaint`);
    const words = page.locator('textarea').first();
    await words.waitFor({ timeout: 30_000 });
    small!.fill();
    // The journal may still have a page's room or two.
    for (let n = 0; n < 30 && (await page.getByText('▲ Waiting').count()) === 0; n++) {
      await words.fill(`Fades on the ferry, for the ${n}th time ${'and more '.repeat(60)}`);
      await words.blur();
      await page.waitForTimeout(250);
    }
    await page.getByText(/There is no room left on the disk that holds .*garage\.sqlite/).waitFor();
    await page.getByText(/not sent yet/).waitFor();
    await page.reload();
    await page.getByText(/not sent yet/).waitFor();
    await page.getByText(/There is no room left/).waitFor();
    small!.free();
    await page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 30_000 });
    expect(await page.getByText('▲ Waiting').count()).toBe(0);
    const answer = (await (await fetch(`${app.laptop.address}/api/jobs/${DEMO}`)).json()) as {
      events: { event: { type: string; words?: string } }[];
    };
    const told = answer.events.filter(({ event }) => event.words?.startsWith('Fades on the ferry, for the'));
    expect(told.length).toBeGreaterThan(0);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
