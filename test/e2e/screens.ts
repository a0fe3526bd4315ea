/**
 * Every page of the app at 360 and 1280 px in the three themes, one after another. The tests of the look walk
 * through them; with SCREENS set to a folder they also write a picture of each there, for people to look at:
 * `SCREENS=screens npx vitest run test/e2e/look.test.ts`.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { SUMS } from '../../src/sum/catalogue.ts';
import { BENCH, DEMO, openPage, openStation, PHONE, type THEMES } from './served-app.ts';

export const WIDTHS = { 360: PHONE, 1280: BENCH } as const;
export type Width = keyof typeof WIDTHS;

export interface Screen {
  readonly name: string;
  readonly page: Page;
}

async function shoot(page: Page, name: string): Promise<void> {
  const folder = process.env.SCREENS;
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  await page.evaluate(() => document.fonts.ready);
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage: true });
}

/** Walks through all pages of the demo job and hands each one over once it stands still. */
export async function walkScreens(
  browser: Browser,
  address: string,
  theme: (typeof THEMES)[number],
  width: Width,
  look: (screen: Screen) => Promise<void>,
): Promise<readonly string[]> {
  const { page, faults } = await openPage(browser, WIDTHS[width], theme);
  const visit = async (name: string): Promise<void> => {
    await page.waitForTimeout(100);
    await shoot(page, `${name.replaceAll(' ', '-')}-${width}-${theme}`);
    await look({ name, page });
  };
  try {
    await page.goto(`${address}/`);
    await page.locator('.job-list li').first().waitFor();
    await visit('jobs');
    await page.goto(`${address}/#/sums`);
    await page.locator('.job-list li').nth(3).waitFor();
    await visit('sums');
    for (const sum of SUMS) {
      await page.goto(`${address}/#/sums/${sum.id}`);
      await page.getByRole('button', { name: 'Show an example' }).click();
      await page.locator('.sum-lines').waitFor();
      await visit(`sum ${sum.id}`);
    }
    await page.goto(`${address}/#/sums/wrench`);
    await page.locator('.sum input').first().fill('35');
    await page.locator('.sum input').nth(3).fill('-4 in');
    await page.locator('.sum .below.off').nth(1).waitFor();
    await visit('sum refused');
    await page.goto(`${address}/#/machines`);
    await page.locator('.job-list li').nth(2).waitFor();
    await visit('machines');
    await page.goto(`${address}/#/machines/pemburrow-900-carillon`);
    await page.locator('.findings li').first().waitFor();
    await visit('machine');
    await openStation(page, address, 'way');
    await page.getByRole('button', { name: 'stator', exact: true }).click();
    await page.locator('.way-steps').first().waitFor({ timeout: 30_000 });
    // One of each kind of fold and panel.
    await page.getByRole('button', { name: /things to get/ }).click();
    await page.getByRole('button', { name: /one person/ }).click();
    // The first step may be one that runs by itself, to which nothing happens.
    await page.locator('.way-steps > li').nth(1).getByRole('button').first().click();
    await page
      .getByRole('button', { name: /^Trouble/ })
      .first()
      .click();
    await page.locator('.way-trouble').waitFor();
    await visit('way');
    await page.goto(`${address}/#/devices`);
    const shut = page.getByRole('button', { name: 'Open the door' });
    await shut.or(page.getByText('◆ Open')).first().waitFor();
    if ((await shut.count()) > 0) await shut.click();
    await page.waitForTimeout(300);
    await page.getByRole('button', { name: 'Let a device in' }).click();
    await page.locator('svg.code').waitFor();
    await visit('devices');
    await page.goto(`${address}/#/self-test`);
    await page.locator('.self-test').waitFor();
    await visit('self test');
    await page.goto(`${address}/#/pair/nothing`);
    await page.getByRole('button', { name: 'Pair it' }).click();
    await page.locator('.warn').waitFor();
    await visit('pair');
    await page.goto(`${address}/#/new`);
    await page.locator('.toggles').waitFor();
    await visit('new');
    await openStation(page, address, 'complaint');
    await page.locator('.plate').waitFor();
    await visit('complaint');
    await openStation(page, address, 'readings');
    await page.locator('.loop-figure').waitFor();
    await visit('readings');
    await page.getByRole('button', { name: 'Take another reading' }).click();
    await page.locator('.pick-list').first().waitFor();
    await visit('catalogue');
    await page.getByRole('button', { name: 'Close the list' }).click();
    await page.goto(
      `${address}/#/job/${DEMO}/readings?take=${encodeURIComponent('batt_volts lights=low rpm=5000')}`,
    );
    await page.locator('.band svg').waitFor({ timeout: 30_000 });
    await page.locator('.entry input').fill('142');
    await page.locator('.entry input').press('Enter');
    await page.locator('.trouble').waitFor();
    await visit('entry');
    await page.locator('.entry input').fill('');
    await openStation(page, address, 'verdict');
    await visit('verdict');
    // Left-alone repairs, the first suspect, all sets: one of each kind of fold.
    const folds = page.locator(
      '.verdict > section:not(:has(.suspects)) .fold, .suspects > li:first-child .fold',
    );
    for (const fold of await folds.all()) {
      await fold.click();
      // Two touches within a quarter of a second would be a bounce.
      await page.waitForTimeout(300);
    }
    await visit('reasons');
    await openStation(page, address, 'odds');
    await page.getByRole('button', { name: 'Change: one burnt pin in the stator plug' }).click();
    await page.locator('.odds-editor input').first().fill('20');
    await page.locator('.odds-editor input').first().press('Enter');
    await page.getByText('◈ set in this job').waitFor();
    await page.getByRole('button', { name: 'Change: drain with the key off' }).click();
    await page.locator('.odds-editor input').first().fill('70');
    await page.locator('.odds-editor input').first().press('Enter');
    await page.getByText('Above 50 in 100').waitFor();
    await visit('set odds');
  } finally {
    await page.context().close();
  }
  return faults;
}
