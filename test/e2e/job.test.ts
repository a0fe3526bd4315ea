/** A job done with the app as a mechanic does it: keys, keyboard, slips, a laptop that dies, a page that is reloaded. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { tasksDuring } from './page-tasks.ts';
import {
  BENCH,
  DEMO,
  type Laptop,
  openChromium,
  openLaptop,
  openPage,
  openStation,
  PHONE,
  skipWithoutBrowser,
} from './served-app.ts';

interface Row {
  readonly event: {
    readonly id: string;
    readonly type: string;
    readonly key?: string;
    readonly value?: unknown;
  };
}

async function eventsOf(laptop: Laptop, job = DEMO): Promise<Row['event'][]> {
  const answer = await fetch(`${laptop.address}/api/jobs/${job}`);
  const body = (await answer.json()) as { events: Row[] };
  return body.events.map((row) => row.event);
}

function outboxOf(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    Object.keys(localStorage).filter((key) => key.startsWith('chargewright.outbox.')),
  );
}

const url = (laptop: Laptop, take: string): string =>
  `${laptop.address}/#/job/${DEMO}/readings?take=${encodeURIComponent(take)}`;

async function press(page: Page, keys: string): Promise<void> {
  let before = '';
  for (const key of keys) {
    // Nobody presses one key twice as fast as a program does.
    if (key === before) await page.waitForTimeout(150);
    before = key;
    const name = key === '.' ? 'point' : key === '-' ? 'change the sign' : key;
    await page.locator('.keypad').getByRole('button', { name, exact: true }).click();
  }
}

const enterKey = (page: Page) => page.locator('.keypad').getByRole('button', { name: 'Enter' });
const field = (page: Page) => page.locator('.entry input');
const soFar = async (page: Page) => (await page.locator('.so-far').textContent()) ?? '';
const allKept = (page: Page) =>
  page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 20_000 });

describe.skipIf(skipWithoutBrowser)('a job on screen', { timeout: 120_000 }, () => {
  let browser: Browser;
  let laptop: Laptop;
  let page: Page;
  let faults: readonly string[];
  beforeAll(async () => {
    browser = await openChromium();
  });
  afterAll(async () => {
    await browser?.close();
  });
  beforeEach(async () => {
    laptop = await openLaptop();
    ({ page, faults } = await openPage(browser, BENCH));
  }, 180_000);
  afterEach(async () => {
    await page.context().close();
    await laptop.end();
    expect(faults).toEqual([]);
  });

  test('a reading by the big keys changes the verdict and outlives a reload', async () => {
    await openStation(page, laptop.address, 'readings');
    await page.goto(url(laptop, 'ohms_case pin=a temp=cold'));
    await page.getByRole('heading', { name: 'Ohms from a stator pin to the case: pin a' }).waitFor();
    await page.locator('.so-far b').waitFor();
    const before = await soFar(page);
    await press(page, '0.3');
    expect(await field(page).inputValue()).toBe('0.3');
    await enterKey(page).click();
    await page.locator('.taken-list').getByText('0.3 Ω').waitFor();
    await expect.poll(() => soFar(page), { timeout: 20_000 }).not.toBe(before);
    const fault = page.locator('.so-far b');
    const after = await fault.textContent();
    expect(after).toMatch(/stator/);
    await allKept(page);
    expect(await outboxOf(page)).toEqual([]);
    await page.reload();
    await page.locator('.taken-list').getByText('0.3 Ω').waitFor();
    await expect.poll(() => fault.textContent(), { timeout: 20_000 }).toBe(after);
  });

  test('a reading by the keyboard, typed without touching the field first', async () => {
    await page.goto(url(laptop, 'batt_volts lights=off rpm=5000'));
    await field(page).waitFor();
    await page.keyboard.type('13,4');
    expect(await field(page).inputValue()).toBe('13,4');
    await page.locator('.band').getByText('a sound bike').first().waitFor();
    // Half typed: it outlives a reload too.
    await page.reload();
    await field(page).waitFor();
    expect(await field(page).inputValue()).toBe('13,4');
    await page.keyboard.press('Enter');
    await page.locator('.taken-list').getByText('13.4 V').first().waitFor();
    await allKept(page);
    const taken = (await eventsOf(laptop)).filter((event) => event.key === 'batt_volts lights=off rpm=5000');
    expect(taken).toEqual([expect.objectContaining({ type: 'readingTaken', value: 13.4, entered: '13,4' })]);
  });

  test('slips of the hand get a sentence, and what was typed stays', async () => {
    await page.goto(url(laptop, 'batt_volts lights=off rpm=5000'));
    const trouble = page.locator('.trouble');
    const taken = page.locator('.taken-list > li');
    await field(page).waitFor();
    // The list is drawn a few lines at a time: it stands still once two looks agree.
    let count = -1;
    await expect
      .poll(
        async () => {
          const before = count;
          count = await taken.count();
          return count > 0 && count === before;
        },
        { interval: 250 },
      )
      .toBe(true);
    const tryIt = async (text: string): Promise<string> => {
      await field(page).fill(text);
      await field(page).press('Enter');
      const said = (await trouble.textContent()) ?? '';
      expect(await field(page).inputValue()).toBe(text);
      return said;
    };
    expect(await tryIt('')).toContain('Nothing is typed yet');
    expect(await tryIt('1,234')).toMatch(/1\.234 or 1234/);
    expect(await tryIt('12 A')).toContain('measures amps, but this reading is volts');
    expect(await tryIt('12 furlongs')).toContain('not a unit known here');
    expect(await tryIt('twelve')).toContain('is not a number');
    expect(await tryIt('1420')).toContain('cannot be');
    expect(await trouble.getByRole('button', { name: /enter it/ }).count()).toBe(0);
    expect(await taken.count()).toBe(count);
    // Only surprising: one touch mends it, another insists.
    await tryIt('-14.2');
    await trouble.getByRole('button', { name: 'Use 14.2' }).click();
    expect(await field(page).inputValue()).toBe('14.2');
    await tryIt('28.4');
    await trouble.getByRole('button', { name: /It really shows that/ }).click();
    await taken.getByText('28.4 V').waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByText('Withdrawn, not counted').waitFor();
    expect(await taken.filter({ has: page.locator('.value') }).count()).toBe(count);
  });

  test('a dead laptop loses nothing', async () => {
    await page.goto(url(laptop, 'sg cell=1'));
    await field(page).waitFor();
    await allKept(page);
    // Without a service worker, as at an address in the house, the other stations come some seconds after the first.
    // A station is more than one file: nothing else came for a second, that is all of them.
    await page.waitForFunction(
      () => {
        const files = performance.getEntriesByType('resource') as PerformanceResourceTiming[];
        const last = Math.max(...files.map(({ responseEnd }) => responseEnd));
        return files.some(({ name }) => /\/complaint-/.test(name)) && performance.now() - last > 1000;
      },
      null,
      { timeout: 30_000 },
    );
    await laptop.kill();
    await press(page, '1.255');
    await enterKey(page).click();
    await page.getByText('1 entry not on the laptop yet').first().waitFor();
    await page.getByRole('link', { name: 'Complaint' }).click();
    await page.getByRole('button', { name: 'Short trips only' }).click();
    await page.getByText('2 entries not on the laptop yet').first().waitFor();
    expect(await outboxOf(page)).toHaveLength(2);
    // The page is closed before the laptop comes back: the browser still has both.
    const context = page.context();
    await page.close();
    await laptop.start();
    page = await context.newPage();
    await openStation(page, laptop.address, 'readings');
    await page.locator('.taken-list').getByText('1.255').waitFor();
    await allKept(page);
    expect(await outboxOf(page)).toEqual([]);
    const events = await eventsOf(laptop);
    expect(events.filter((event) => event.key === 'sg cell=1')).toHaveLength(1);
    expect(events.filter((event) => event.type === 'complaintHeard')).toHaveLength(2);
    expect(new Set(events.map((event) => event.id)).size).toBe(events.length);
  });

  test('an open page sends by itself once the laptop is back', async () => {
    await page.goto(url(laptop, 'sg cell=1'));
    await field(page).waitFor();
    await laptop.kill();
    await press(page, '1.2');
    await enterKey(page).click();
    await page.getByText('1 entry not on the laptop yet').first().waitFor();
    await laptop.start();
    await allKept(page);
    expect((await eventsOf(laptop)).filter((event) => event.key === 'sg cell=1')).toHaveLength(1);
  });

  test('withdrawing and accepting can be taken back, and stand when they are not', async () => {
    await openStation(page, laptop.address, 'readings');
    const counted = page.locator('.taken-list .value');
    await expect.poll(() => counted.count()).toBe(6);
    await page.getByRole('button', { name: 'Withdraw: Battery volts at rest' }).click();
    await expect.poll(() => counted.count()).toBe(5);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => counted.count()).toBe(6);
    await openStation(page, laptop.address, 'verdict');
    const accept = page.getByRole('button', { name: 'Accept this verdict' });
    await accept.click();
    await page.getByText('◆ Accepted').waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => page.getByText('◆ Accepted').count()).toBe(0);
    await page.waitForTimeout(450);
    await accept.click();
    await page.getByText('◆ Accepted').waitFor();
    await page.reload();
    await page.getByText('◆ Accepted').waitFor();
    await allKept(page);
    const kinds = (await eventsOf(laptop)).map((event) => event.type);
    expect(kinds.filter((kind) => kind === 'verdictAccepted')).toHaveLength(1);
    expect(kinds).not.toContain('readingWithdrawn');
  });

  test('a reading that does not fit is flagged with the value that was meant, and taken again', async () => {
    await page.goto(url(laptop, 'stator_ac pair=ab rpm=3000 temp=cold'));
    await field(page).fill('5.06');
    await field(page).press('Enter');
    const doubt = page.locator('.doubt');
    await doubt.first().waitFor({ timeout: 30_000 });
    expect(await doubt.first().textContent()).toMatch(
      /read as 5\.06 V\. It looks too low by a factor of ten; 50\.6 V may have been meant/,
    );
    await page.locator('.taken-list').getByText('▲ does not fit').waitFor();
    await doubt.getByRole('button', { name: 'Take it again' }).click();
    await page
      .getByRole('heading', { name: /AC volts between two stator pins, unplugged: pins a–b/ })
      .waitFor();
    await field(page).fill('50.6');
    await field(page).press('Enter');
    await expect.poll(() => doubt.count(), { timeout: 20_000 }).toBe(0);
    await page.locator('.taken-list').getByText('before that: 50.6 V, 5.06 V').waitFor();
  });

  test('a new job from the list to its first reading, on a phone', async () => {
    const phone = await openPage(browser, PHONE);
    const hand = phone.page;
    await hand.goto(laptop.address);
    await hand.getByRole('link', { name: 'Open a new job' }).tap();
    await hand.getByRole('button', { name: 'Open the job' }).tap();
    await hand.getByText('Choose the machine first').waitFor();
    await hand.getByRole('button', { name: /Oskerlund 420/ }).tap();
    // A second touch of the same button within a quarter of a second would be a bounce.
    await hand.waitForTimeout(300);
    await hand.getByRole('button', { name: 'Open the job' }).tap();
    await hand.getByRole('heading', { name: 'Complaint' }).waitFor();
    await hand.getByLabel("In the owner's words").fill('Dies at the lights.');
    await hand.getByRole('button', { name: 'Headlight dims at idle' }).tap();
    await hand.getByRole('link', { name: /On to the readings/ }).tap();
    await hand.locator('.keypad, .seen').first().waitFor({ timeout: 30_000 });
    await hand.getByRole('button', { name: 'Take another reading' }).tap();
    await hand.getByLabel('Find a reading').fill('rest');
    await hand
      .getByRole('button', { name: /Battery volts at rest/ })
      .first()
      .tap();
    await hand.getByRole('heading', { name: 'Battery volts at rest' }).waitFor();
    for (const key of ['1', '2', 'point', '6'])
      await hand.locator('.keypad').getByRole('button', { name: key, exact: true }).tap();
    await hand.locator('.keypad').getByRole('button', { name: 'Enter' }).tap();
    await hand.locator('.taken-list').getByText('12.6 V').waitFor();
    await allKept(hand);
    const job = new URL(hand.url()).hash.split('/')[2] ?? '';
    const events = await eventsOf(laptop, job);
    expect(events.map((event) => event.type).sort()).toEqual(
      ['jobOpened', 'complaintHeard', 'complaintHeard', 'readingTaken'].sort(),
    );
    expect(phone.faults).toEqual([]);
    await phone.page.context().close();
  });

  test('a bouncing finger types once, and the screen never waits for the verdict', async () => {
    await page.goto(url(laptop, 'batt_volts lights=low rpm=idle'));
    await field(page).waitFor();
    await page.locator('.so-far b').waitFor({ timeout: 30_000 });
    await page.locator('.keypad').getByRole('button', { name: '1', exact: true }).dblclick();
    expect(await field(page).inputValue()).toBe('1');
    await page.waitForTimeout(300);
    await press(page, '3.6');
    const before = await soFar(page);
    const tasks = await tasksDuring(browser, page, async () => {
      await enterKey(page).click();
      await expect.poll(() => soFar(page), { timeout: 30_000, interval: 20 }).not.toBe(before);
    });
    // One worker infers, the other draws.
    expect(page.workers()).toHaveLength(2);
    // A page that infers itself is deaf for longer than that; the time is the processor's, whatever else the computer does.
    expect(tasks[0], 'longest task on the page, ms').toBeLessThan(50);
  });

  test('addresses lead where they say, and nowhere gently', async () => {
    await page.goto(`${laptop.address}/#/job/no-such-job/verdict`);
    await page.getByRole('heading', { name: 'No such job' }).waitFor();
    await page.goto(`${laptop.address}/#/dip`);
    await page.getByText('leads nowhere in this version').waitFor();
    await page.goto(url(laptop, 'moon_phase'));
    await page.getByText('knows no reading called “moon_phase”').waitFor();
  });
});
