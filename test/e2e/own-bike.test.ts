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

/** What this bike shows, by the words of the reading: its battery is low because the stator gives only some of its volts. */
const SHOWS: readonly (readonly [RegExp, string])[] = [
  [/^AC volts between two stator pins/, '6 V'],
  [/^AC volts from a stator pin to the case/, '0.1 V'],
  [/^AC volts over one mated pin/, '0.02 V'],
  [/^AC volts at the battery posts/, '0.05 V'],
  [/^Battery volts at rest/, '12.2 V'],
  [/^Battery volts with the key on/, '12.0 V'],
  [/^Battery volts/, '12.3 V'],
  [/^Volts at the regulator/, '12.4 V'],
  [/^Volts while cranking/, '10.4 V'],
  [/^Volts lost/, '0.03 V'],
  [/^Drain/, '2 mA'],
  [/^Ohms between/, '0.2 Ω'],
  [/^Ohms from/, 'OL'],
  [/^Diode/, '0.5 V'],
  [/^Look/, 'No'],
];

/** What is asked for next, once the thinking is done. */
async function settled(page: Page): Promise<string> {
  let asked = '';
  await expect
    .poll(
      async () => {
        const kicker = (await page.locator('.kicker').first().textContent()) ?? '';
        asked = (await page.locator('.task-title').textContent()) ?? '';
        return !kicker.includes('thinking') && asked !== '' && asked !== 'One moment';
      },
      { timeout: 60_000 },
    )
    .toBe(true);
  return asked;
}

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
    await hand.fill(page.getByLabel('What make is it?'), 'Corvane');
    await hand.fill(page.getByLabel('What model is it?'), '500 Tramontane');
    await hand.touch(page.getByRole('radio', { name: 'three wires' }));
    await hand.fill(
      page.getByLabel('How many amps or watts can the alternator give?', { exact: true }),
      '25 A',
    );
    await hand.fill(
      page.getByLabel('How many AC volts does the unplugged stator give between two wires?'),
      '16 V at 1000 rpm',
    );
    await hand.touch(page.getByRole('radio', { name: 'shunt' }));
    await hand.fill(page.getByLabel('What is the capacity of the battery?'), '12 Ah');
    await hand.fill(page.getByLabel('How many watts is the headlamp bulb?'), '60/55 W');
    await hand.fill(page.getByLabel(/^What was added that draws current/), 'none');
    await hand.show('1-begin');
    await hand.touch(button('Open a job on it'));
    await page.getByRole('heading', { name: 'Complaint' }).waitFor();
    // What nobody said is said to be wide; what was said is not among it.
    await page.getByText('Nobody has said this bike’s winding and charging volts').waitFor();
    await hand.show('2-complaint');
    await hand.touch(page.getByRole('link', { name: /Readings/ }).last());

    // The proposed reading, again and again, until none is worth its minutes.
    let taken = 0;
    for (; taken < 9; taken++) {
      const asked = await settled(page);
      const shows = SHOWS.find(([words]) => words.test(asked))?.[1];
      if (shows === undefined) break;
      if (shows === 'No')
        await hand.touch(page.locator('.hand').getByRole('button', { name: 'No', exact: true }));
      else {
        await hand.fill(page.locator('.entry input'), shows);
        await hand.touch(page.locator('.keypad').getByRole('button', { name: 'Enter' }));
      }
      await expect.poll(() => page.locator('.taken-list > li').count(), { timeout: 30_000 }).toBe(taken + 1);
    }
    await hand.show('3-readings');
    await hand.touch(page.getByRole('link', { name: 'Verdict' }).first());
    await page.locator('.advice').first().waitFor({ timeout: 60_000 });
    await hand.show('4-verdict');
    console.log(
      `own bike: ${hand.count()} entries, ${taken} readings, ${await page.locator('.verdict .step').first().textContent()}`,
    );
    expect(hand.count()).toBeLessThanOrEqual(MOST);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
