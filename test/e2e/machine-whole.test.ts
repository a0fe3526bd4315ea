/** What is done with a machine file as a whole: given away and taken in elsewhere, sheets, offers of the bench, figures from little. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, describe, expect, test } from 'vitest';
import { fileFromAnswers } from '../../src/start/file-from-answers.ts';
import { useApp } from './app-hooks.ts';
import { putStory } from './bench-story.ts';
import { BENCH, type Laptop, openLaptop, openPage, skipWithoutBrowser } from './served-app.ts';

type File = {
  readonly sources: Readonly<Record<string, { readonly kind: string; readonly title: string }>>;
  readonly charging: Readonly<
    Record<string, Readonly<Record<string, { is: string; from: string; also?: { is: string }[] }>>>
  >;
};

async function keep(laptop: Laptop, id: string, text: string): Promise<void> {
  const kept = await fetch(`${laptop.address}/api/machines/${id}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ text }),
  });
  expect(kept.status).toBe(201);
}

const textOf = async (laptop: Laptop, id: string): Promise<string> =>
  (await fetch(`${laptop.address}/api/machines/${id}`)).text();

async function save(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText(/Saved as version/).waitFor();
}

const begun = fileFromAnswers(
  { template: 'single', maker: 'Corvane', model: '250 Sirocco', rated: '12 A' },
  '2026-11-28',
);
const BEGUN = begun.ok ? begun.text : '';

describe.skipIf(skipWithoutBrowser)('a machine file as a whole', { timeout: 240_000 }, () => {
  const app = useApp();
  const others: Laptop[] = [];
  afterAll(async () => {
    for (const laptop of others) await laptop.end();
  });

  test('is fetched as a pack, taken in on an empty store, and says the same there', async () => {
    await keep(app.laptop, 'sirocco', BEGUN);
    const { page, faults } = await openPage(app.browser, BENCH);
    await page.goto(`${app.laptop.address}/#/machines/sirocco/share`);
    await page.getByRole('button', { name: /Look over what was written in words/ }).click();
    await page.getByText(/Begun on 2026-11-28/).waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'Download the pack' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('sirocco.zip');
    const path = join(process.env.SCREENS ?? '/tmp', `sirocco-${process.pid}.zip`);
    if (process.env.SCREENS) mkdirSync(process.env.SCREENS, { recursive: true });
    await download.saveAs(path);

    const other = await openLaptop();
    others.push(other);
    await page.goto(`${other.address}/#/machines`);
    const field = page.getByLabel('A machine file, or a pack somebody gave you');
    await field.setInputFiles({
      name: 'holiday.zip',
      mimeType: 'application/zip',
      buffer: Buffer.from('PK no zip'),
    });
    await page.locator('.warn').waitFor();
    expect(await page.locator('.warn').textContent()).toMatch(/zip/);
    await field.setInputFiles(path);
    await page.getByRole('button', { name: /^Keep it as corvane-250-sirocco/ }).click();
    await page.getByRole('heading', { name: 'Corvane 250 Sirocco' }).waitFor();
    expect(JSON.parse(await textOf(other, 'corvane-250-sirocco'))).toEqual(JSON.parse(BEGUN));
    // Once more it is known.
    await page.goto(`${other.address}/#/machines`);
    await field.setInputFiles(path);
    await page.getByText('It is here already, as corvane-250-sirocco.').waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test('says what would help most, takes a figure from little, and a sheet beside the book', async () => {
    await keep(app.laptop, 'sharpened', BEGUN);
    const { page, faults } = await openPage(app.browser, BENCH);
    const at = (part: string): string => `${app.laptop.address}/#/machines/sharpened/${part}`;
    await page.goto(at('sharpen'));
    const lines = page.locator('.sharpen > li');
    await lines.first().waitFor({ timeout: 60_000 });
    expect(await lines.count()).toBeGreaterThanOrEqual(3);
    await page
      .locator('.sharpen a', { hasText: /AC volts/i })
      .first()
      .click();
    await expect
      .poll(() =>
        page.evaluate(() => document.activeElement?.closest('[data-place]')?.getAttribute('data-place')),
      )
      .toBe('$.charging.alternator.openVolts.is');

    await page.goto(at('estimate'));
    await page.getByLabel('AC volts read between two pins').fill('51 V');
    await page.getByLabel('Engine speed').fill('3000 rpm');
    for (const radio of await page.locator('[role=radiogroup]').all()) {
      if ((await radio.locator('[aria-checked=true]').count()) === 0)
        await radio.getByRole('radio').first().click();
    }
    const answer = await page.locator('.big-answer').textContent();
    expect(answer).toMatch(/V/);
    await page.getByRole('button', { name: 'Take it into the file, as measured' }).click();
    await page.goto(at('sheet'));
    await page.getByRole('radio', { name: 'regulator' }).click();
    await page.getByLabel('What the sheet is called').fill('Sheet of the new regulator (invented)');
    await page.getByLabel('Charge volts, battery charged, 5000 rpm').fill('14.2–14.8 V');
    await page.waitForTimeout(300);
    await page.getByRole('button', { name: 'Enter the sheet' }).click();
    await page.getByText('1 figure is entered beside what stood there.').waitFor();
    await save(page);
    const file = JSON.parse(await textOf(app.laptop, 'sharpened')) as File;
    const volts = file.charging.alternator!.openVolts!;
    expect(volts.is).toBe(answer);
    expect(file.sources[volts.from]!.kind).toBe('measured');
    expect(file.charging.regulator!.chargeVolts!.also!.map(({ is }) => is)).toContain('14.2–14.8 V');
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test('is offered what a job found; taken it stands in the file, turned down it does not come again', async () => {
    await putStory(app.laptop.address);
    const { page, faults } = await openPage(app.browser, BENCH);
    await page.goto(`${app.laptop.address}/#/machines/ardmoor-650-pathway/learned`);
    const offers = page.locator('.differences > li');
    await offers.first().waitFor({ timeout: 60_000 });
    const before = await offers.count();
    expect(before).toBeGreaterThanOrEqual(2);
    const turned = await offers.last().locator('strong').textContent();
    await offers.last().getByRole('button', { name: /^No/ }).click();
    await expect.poll(() => offers.count()).toBe(before - 1);
    await page.waitForTimeout(300);
    await offers
      .first()
      .getByRole('button', { name: /^Take it/ })
      .click();
    await expect.poll(() => offers.count(), { timeout: 20_000 }).toBe(before - 2);
    await page.locator('.machine-state', { hasText: 'not saved yet' }).waitFor();
    await page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 20_000 });
    await page.reload();
    await expect.poll(() => offers.count(), { timeout: 60_000 }).toBe(before - 2);
    expect(await page.locator('.differences strong').allTextContents()).not.toContain(turned);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
