/** A mechanic with a bike that nobody has entered: from an empty store to a first verdict, every entry counted. */
import { mkdirSync } from 'node:fs';
import type { Locator, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { openPage, PHONE, skipWithoutBrowser } from './served-app.ts';

/** Most entries that it may take, count. A touch is one, and so is a field that is filled. */
const MOST = 40;
const SCREENS = process.env.SCREENS;

/** A hand whose entries are counted. */
function countedHand(page: Page) {
  let count = 0;
  return {
    count: () => count,
    touch: async (what: Locator) => {
      count += 1;
      await what.click();
      // A second touch within a quarter of a second is taken for a bounce.
      await page.waitForTimeout(300);
    },
    fill: async (what: Locator, text: string) => {
      count += 1;
      await what.fill(text);
    },
    show: async (name: string) => {
      if (SCREENS === undefined) return;
      mkdirSync(SCREENS, { recursive: true });
      await page.screenshot({ path: `${SCREENS}/own-bike-${name}.png`, fullPage: true, scale: 'css' });
    },
  };
}

/** What this bike shows, by the reading that is asked for: its battery is flat because the stator hardly gives anything. */
const SHOWS: readonly (readonly [RegExp, string])[] = [
  [/^ac_volts/, '6 V'],
  [/^rest_volts/, '12.2 V'],
  [/^batt_volts/, '12.3 V'],
  [/^crank_volts/, '10.4 V'],
  [/^ohms_pair/, '0.2 Ω'],
  [/^ohms_case/, 'OL'],
  [/^drop_/, '0.05 V'],
  [/^drain/, '2 mA'],
  [/^loss|^diode/, '0.5 V'],
];

describe.skipIf(skipWithoutBrowser)("a bike of one's own", { timeout: 240_000 }, () => {
  const app = useApp();

  test(`comes to a first verdict in at most ${MOST} entries`, async () => {
    const { page, faults } = await openPage(app.browser, PHONE);
    const hand = countedHand(page);
    const button = (name: string | RegExp) => page.getByRole('button', { name });
    await page.goto(`${app.laptop.address}/#/`);
    await hand.touch(page.getByRole('link', { name: 'Open a new job' }));
    await hand.touch(page.getByRole('link', { name: 'None of these: begin with your own bike' }));
    await page.getByRole('heading', { name: 'Begin with your own bike' }).waitFor();
    await hand.touch(button(/^Alternator under a crank cover/));
    await hand.fill(page.getByLabel('Who made it?'), 'Corvane');
    await hand.fill(page.getByLabel('Which model is it?'), '500 Tramontane');
    await hand.touch(page.getByRole('radio', { name: 'three wires' }));
    await hand.fill(page.getByLabel('How many amps or watts can the alternator give?'), '25 A');
    await hand.fill(page.getByLabel('How many AC volts does the unplugged stator give between two wires?'), '16 V at 1000 rpm');
    await hand.touch(page.getByRole('radio', { name: 'shunt' }));
    await hand.fill(page.getByLabel('What is its capacity?'), '12 Ah');
    await hand.fill(page.getByLabel('How many watts has the headlamp?'), '60/55 W');
    await hand.fill(page.getByLabel(/^What was added that draws current/), 'none');
    await hand.show('1-begin');
    await hand.touch(button('Open a job on it'));
    await page.getByRole('heading', { name: 'Complaint' }).waitFor();
    await hand.show('2-complaint');
    await hand.touch(page.getByRole('link', { name: /Readings/ }).last());

    // The proposed reading, again and again, until the verdict names what is dead.
    const field = page.locator('.entry input');
    let taken = 0;
    for (; taken < 8; taken++) {
      await field.waitFor({ timeout: 60_000 });
      await expect.poll(() => page.url(), { timeout: 60_000 }).toMatch(/take=/);
      const key = decodeURIComponent(/take=([^&]*)/.exec(page.url())![1]!.replaceAll('+', ' '));
      const shows = SHOWS.find(([kind]) => kind.test(key))?.[1];
      expect(shows, key).toBeDefined();
      await hand.fill(field, shows!);
      await hand.touch(page.locator('.keypad').getByRole('button', { name: 'Enter' }));
      await expect.poll(() => page.locator('.taken-list > li').count(), { timeout: 30_000 }).toBe(taken + 1);
      const said = (await page.locator('.so-far').textContent()) ?? '';
      if (/enough|clear/.test(said)) break;
    }
    await hand.show('3-readings');
    await hand.touch(page.getByRole('link', { name: 'Verdict' }).first());
    await page.locator('.lead-line').first().waitFor({ timeout: 60_000 });
    await hand.show('4-verdict');
    console.log(`own bike: ${hand.count()} entries, ${taken} readings, ${await page.locator('.lead-line').first().textContent()}`);
    expect(hand.count()).toBeLessThanOrEqual(MOST);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
