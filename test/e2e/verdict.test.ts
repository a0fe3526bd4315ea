/** The verdict as a mechanic reads it: three worked jobs, odds of one's own, and a verdict reopened. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import {
  BENCH,
  type Laptop,
  openChromium,
  openLaptop,
  openPage,
  openStation,
  skipWithoutBrowser,
} from './served-app.ts';
import { BURNT_PLUG, putJob, SINGLE, TYPED_WRONG } from './worked-jobs.ts';

const text = async (page: Page, what: string): Promise<string> =>
  ((await page.locator(what).first().textContent()) ?? '').replaceAll('\u00a0', ' ');

const deeds = async (page: Page): Promise<string[]> =>
  (await page.locator('.advice .deed').allTextContents()).map((line) => line.replace(/^.*?: /, ''));

async function eventsOf(laptop: Laptop, job: string): Promise<{ type: string; chance?: number | null }[]> {
  const answer = await fetch(`${laptop.address}/api/jobs/${job}`);
  const body = (await answer.json()) as { events: { event: { type: string; chance?: number | null } }[] };
  return body.events.map((row) => row.event);
}

describe.skipIf(skipWithoutBrowser)('the verdict on screen', { timeout: 120_000 }, () => {
  let browser: Browser;
  let laptop: Laptop;
  let page: Page;
  let faults: readonly string[];
  beforeAll(async () => {
    browser = await openChromium();
    laptop = await openLaptop();
    for (const worked of [SINGLE, BURNT_PLUG, TYPED_WRONG]) await putJob(laptop.address, worked);
  }, 180_000);
  afterAll(async () => {
    await browser?.close();
    await laptop?.end();
  });
  beforeEach(async () => {
    ({ page, faults } = await openPage(browser, BENCH));
  });
  afterEach(async () => {
    await page.context().close();
    expect(faults).toEqual([]);
  });

  test('one fault: one part, what it saves, what would change it, and the reading that decided', async () => {
    await openStation(page, laptop.address, 'verdict', SINGLE.job);
    expect(await text(page, '.lead')).toMatch(/^Almost certainly: .*stator.*, .*9\d in 100\.$/);
    await page.locator('.advice').first().waitFor();
    expect(await deeds(page)).toEqual(['replace the stator']);
    expect(await text(page, '.advice .under')).toMatch(
      /Saves about .+ Worth it as long as its chance is above/,
    );
    await page.locator('.suspects .fold').first().click();
    const reason = page.locator('.effects > li').first();
    await reason.waitFor();
    expect((await reason.textContent()) ?? '').toMatch(
      /pin to the case.*0\.6 Ω.*decisive: .+ times likelier/,
    );
    await page.getByText('None was taken while the harness was moved').waitFor();
    await page.getByText('No reading was taken at heat').waitFor();
  });

  test('a burnt plug with both sides dead: all three called dead, each with its reasons', async () => {
    await openStation(page, laptop.address, 'verdict', BURNT_PLUG.job);
    expect(await text(page, '.lead')).toMatch(/stator lead.*rectifier.*stator plug/);
    await page.locator('.advice').first().waitFor();
    expect((await deeds(page)).sort()).toEqual([
      'replace the regulator',
      'replace the stator',
      'replace the stator plug, both halves',
    ]);
    expect(await page.locator('.suspects > li').count()).toBeGreaterThanOrEqual(3);
    expect(await text(page, '.verdict')).not.toContain('No answer yet');
  });

  test('a reading typed ten times too low is caught, and the repair is the same all the same', async () => {
    await openStation(page, laptop.address, 'verdict', TYPED_WRONG.job);
    expect(await text(page, '.doubt')).toMatch(
      /read as 5\.11 V\. It looks too low by a factor of ten; 51\.1 V may have been meant/,
    );
    await page.locator('.advice').first().waitFor();
    expect(await deeds(page)).toEqual(['replace the stator']);
  });

  test('a reading that nothing else checks says so, on both stations', async () => {
    const job = 'nothing-else-checks';
    await putJob(laptop.address, {
      job,
      title: 'Few readings',
      readings: [
        ['rest_volts', 12.2],
        ['keyoff_mA', 1.4],
        ['keyon_volts', 12.1],
      ],
    });
    await openStation(page, laptop.address, 'readings', job);
    const line = page.locator('.taken-list > li', { hasText: 'Drain with the key off' });
    await line.getByText('nothing else checks this one').waitFor({ timeout: 30_000 });
    await openStation(page, laptop.address, 'verdict', job);
    await page.getByText(/so a slip there would pass unseen:.* drain with the key off/).waitFor();
  });

  test('readings of another bike: what to look at, and no part to buy', async () => {
    const job = 'another-bike';
    await putJob(laptop.address, {
      job,
      title: 'Readings of another bike',
      readings: [
        ['rest_volts', 6.3],
        ['batt_volts lights=low rpm=3000', 7.2],
        ['batt_volts lights=off rpm=5000', 7.3],
        ['stator_ac pair=ab rpm=3000 temp=cold', 20.1],
        ['stator_ac pair=bc rpm=3000 temp=cold', 20.3],
        ['ohms_pair pair=ab through_plug=True', 4.1],
      ],
    });
    await openStation(page, laptop.address, 'verdict', job);
    const said = await text(page, '.misfit');
    expect(said).toMatch(/machine file or the set-up does not fit/);
    for (const what of ['Ardmoor 650 Pathway', 'The engine:', 'The units:']) expect(said).toContain(what);
    await page.getByText('Nothing, until these readings are explained.').waitFor();
    await page.getByText('There is nothing to accept yet.').waitFor();
    expect(await page.locator('.advice').count()).toBe(0);
    expect(await page.getByRole('button', { name: /Accept/ }).count()).toBe(0);
    await openStation(page, laptop.address, 'readings', job);
    await page.locator('.misfit').waitFor({ timeout: 30_000 });
  });

  test('odds of one’s own move the verdict, are said there, and go back to the catalogue', async () => {
    const job = { ...SINGLE, job: 'odds-of-my-own', readings: SINGLE.readings.slice(0, 2) };
    await putJob(laptop.address, job);
    const suspicion = async (): Promise<string> => {
      await page.locator('[data-member="drain"]').waitFor();
      return (await page.locator('[data-member="drain"]').getAttribute('aria-label')) ?? '';
    };
    await openStation(page, laptop.address, 'verdict', job.job);
    const before = await suspicion();
    await page.getByRole('link', { name: 'What usually fails' }).click();
    await page.getByRole('heading', { name: 'What usually fails' }).waitFor();
    await page.getByRole('button', { name: 'Change: drain with the key off' }).click();
    const editor = page.locator('.odds-editor');
    for (const key of ['4', '0']) {
      await editor.getByRole('button', { name: key, exact: true }).click();
    }
    await editor.getByLabel('Why, if you like').fill('third one this year');
    await editor.getByRole('button', { name: 'Enter' }).click();
    await page.getByText('◈ set in this job').waitFor();
    await page.getByText('“third one this year”').waitFor();
    await page.getByRole('link', { name: /Back to the verdict/ }).click();
    await page.getByText('◈ Odds set in this job:').waitFor();
    await expect.poll(suspicion, { timeout: 30_000 }).not.toBe(before);
    await page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 20_000 });
    await expect
      .poll(async () => (await eventsOf(laptop, job.job)).find(({ type }) => type === 'priorSet')?.chance, {
        timeout: 20_000,
      })
      .toBe(0.4);
    await page.getByRole('link', { name: 'See the odds' }).click();
    await page.getByRole('button', { name: 'Change: drain with the key off' }).click();
    await page.getByRole('button', { name: /Back to the catalogue/ }).click();
    await expect.poll(() => page.getByText('◈ set in this job').count()).toBe(0);
    await openStation(page, laptop.address, 'verdict', job.job);
    await expect.poll(suspicion, { timeout: 30_000 }).toBe(before);
  });

  test('an accepted verdict is reopened long after, and what was said stays in the log', async () => {
    await openStation(page, laptop.address, 'verdict', BURNT_PLUG.job);
    await page.getByRole('button', { name: 'Accept this verdict' }).click();
    await page.getByText('◆ Accepted').waitFor();
    await page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 20_000 });
    await page.reload();
    await page.getByRole('button', { name: 'Reopen the verdict' }).click();
    await page.getByText('◇ Reopened').waitFor();
    await page.getByRole('button', { name: 'Accept this verdict' }).waitFor();
    await expect
      .poll(async () => (await eventsOf(laptop, BURNT_PLUG.job)).map(({ type }) => type).slice(-2), {
        timeout: 20_000,
      })
      .toEqual(['verdictAccepted', 'verdictReopened']);
  });
});
