/** The station Proof in a real browser: the repaired bike read apart, proven, not proven, and asked again. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { breaches, sideways, tooSmall } from './page-rules.ts';
import { PROOF_STORY, putProofStory } from './proof-story.ts';
import { BENCH, openPage, PHONE, skipWithoutBrowser, THEMES } from './served-app.ts';

/** Folder for pictures; none where it is not named. */
const PICTURES = process.env.SCREENS;

async function open(page: Page, address: string, job = PROOF_STORY): Promise<void> {
  await page.goto(`${address}/#/job/${job}/proof`);
  await page.getByRole('heading', { name: 'Proof', level: 1 }).waitFor();
}

/** Says what was repaired, unless it was said already. */
async function repaired(page: Page): Promise<void> {
  const done = page.getByRole('button', { name: 'This is done: prove it' });
  await done.or(page.locator('.lead-line')).first().waitFor();
  if (await done.isVisible()) await done.click();
  await page.locator('.proof .lead-line').waitFor({ timeout: 30_000 });
}

/** Reads what the proof asks for, by its title, with the values of `shows`; the titles in the order they came. */
async function follow(page: Page, shows: (title: string) => string): Promise<string[]> {
  const asked: string[] = [];
  for (let n = 0; n < 12; n++) {
    const title = page.locator('.task-title');
    await page.waitForFunction(
      () => !/One moment/.test(document.querySelector('.task-title')?.textContent ?? 'One moment'),
      null,
      { timeout: 30_000 },
    );
    const words = (await title.textContent())!.trim();
    if (words === 'Nothing more to read' || asked.includes(words)) break;
    asked.push(words);
    // A touch within a quarter of a second of the last is a bounce, and a quick proof asks sooner than that.
    await page.waitForTimeout(300);
    const value = shows(words);
    if (value === 'no' || value === 'yes')
      await page.locator('.seen button', { hasText: value === 'no' ? 'No' : 'Yes' }).click();
    else if (value === 'OL') await page.getByRole('button', { name: 'OL', exact: true }).click();
    else {
      await page.locator('input.figure').fill(value);
      await page.getByRole('button', { name: 'Enter', exact: true }).click();
    }
    await page.waitForFunction(
      (was) => document.querySelector('.task-title')?.textContent?.trim() !== was,
      words,
      {
        timeout: 30_000,
      },
    );
  }
  return asked;
}

/** What a sound bike of this kind shows, by the words of the reading. */
function sound(title: string): string {
  const shows: readonly (readonly [words: RegExp, value: string])[] = [
    [/^Battery volts, engine running: at idle/, '13.9'],
    [/^Battery volts, engine running/, '14.3'],
    [/key off/, '1.2'],
    [/to the case/, 'OL'],
    [/cranking/, '10.7'],
    [/^Look/, 'no'],
    [/at rest/, '12.75'],
  ];
  return shows.find(([words]) => words.test(title))?.[1] ?? '0.05';
}

describe.skipIf(skipWithoutBrowser)('the proof', { timeout: 240_000 }, () => {
  const app = useApp();

  test('a sound bike is proven by few readings and looks, and stays so over a reload', async () => {
    await putProofStory(app.laptop.address);
    const { page, faults } = await openPage(app.browser, PHONE);
    await open(page, app.laptop.address);
    await page.locator('.tick').first().waitFor();
    expect(await page.locator('.tick[aria-pressed="true"]').allTextContents()).toEqual([
      'Replace the stator plug, both halves',
      'Replace the stator',
    ]);
    await repaired(page);
    const asked = await follow(page, sound);
    expect(asked.length).toBeGreaterThanOrEqual(4);
    expect(asked.length).toBeLessThanOrEqual(8);
    await page.getByText('things are not looked at yet').waitFor();
    // A slack is not said to be inside without a figure, nor with one that is not.
    const inside = page.getByRole('button', { name: /^Inside what the book wants/ });
    await inside.click();
    await page.getByText('The slack cannot be read').waitFor();
    await page.getByLabel('Slack measured at the tight spot, with its unit').fill('2 in');
    await page.waitForTimeout(300);
    await inside.click();
    await page.getByText('2 in is outside 5/8–7/8 in').waitFor();
    await page.getByLabel('Slack measured at the tight spot, with its unit').fill('3/4 in');
    await page.waitForTimeout(300);
    for (const fine of [
      'All work',
      'Dry all round',
      'At the line',
      'Clear and held',
      'Nothing but the engine',
      'Inside what the book wants',
    ])
      await page.getByRole('button', { name: new RegExp(`^${fine}`) }).click();
    await page.locator('.lead-line', { hasText: '◆ Proven' }).waitFor({ timeout: 30_000 });
    await page.getByRole('button', { name: /write down that it is proven/ }).click();
    await page.getByText('◆ Written down as proven').waitFor();
    // The bike as it came is not touched by what was read since.
    await page.goto(`${app.laptop.address}/#/job/${PROOF_STORY}/readings`);
    await page.locator('.taken-list').waitFor();
    await page.locator('.taken-list > li').nth(5).waitFor();
    expect(await page.locator('.taken-list > li').count()).toBe(6);
    await open(page, app.laptop.address);
    await page.reload();
    await page.locator('.lead-line', { hasText: '◆ Proven' }).waitFor({ timeout: 30_000 });
    await page.getByText('◆ Written down as proven').waitFor();
    expect(faults).toEqual([]);
  });

  test('a repair that did not take: told with what to look at, closed only with a reason, repaired again', async () => {
    await putProofStory(app.laptop.address, 'proof-again');
    const { page, faults } = await openPage(app.browser, BENCH);
    await open(page, app.laptop.address, 'proof-again');
    const again = page.getByRole('button', { name: 'It was repaired once more' });
    await repaired(page);
    for (const rpm of ['idle', '3000']) {
      const key = `batt_volts charged=True lights=low rpm=${rpm}`;
      await page.goto(`${app.laptop.address}/#/job/proof-again/proof?take=${encodeURIComponent(key)}`);
      await page.locator('input.figure').fill('12.5');
      await page.getByRole('button', { name: 'Enter', exact: true }).click();
      await page.locator('.taken-list', { hasText: rpm === 'idle' ? 'at idle' : '3000 rpm' }).waitFor();
    }
    await page.locator('.lead-line', { hasText: '▲ Not proven' }).waitFor({ timeout: 30_000 });
    const why = await page.locator('.why-list').innerText();
    expect(why).toMatch(/That a fault is left: (more than )?9\d/);
    await page.getByText('▲ outside').first().waitFor();
    await page.getByRole('button', { name: 'Close it all the same' }).click();
    const close = page.getByRole('button', { name: 'Close as not proven' });
    expect(await close.isDisabled()).toBe(true);
    await page.getByLabel('Why it is closed now').fill('He rides home on a charged battery.');
    await close.click();
    await page.getByText('▲ Written down as not proven').waitFor();
    await again.click();
    await page.locator('.ticks .tick').nth(1).waitFor();
    await page.locator('.ticks .tick').first().click();
    await page.getByRole('button', { name: 'This is done: prove it' }).click();
    // The next round begins from what the last one left in doubt, with nothing read.
    await page.locator('.taken', { hasText: 'None yet' }).waitFor();
    await page.getByText('2 rounds of repairs').waitFor();
    await page.locator('.lead-line', { hasText: 'Not proven' }).waitFor({ timeout: 30_000 });
    expect(faults).toEqual([]);
  });

  for (const theme of THEMES)
    for (const [width, shape] of [
      [360, PHONE],
      [1280, BENCH],
    ] as const)
      test(`its look: ${theme} at ${width} px`, async () => {
        await putProofStory(app.laptop.address);
        const { page, faults } = await openPage(app.browser, shape, theme);
        const look = async (name: string): Promise<void> => {
          await page.waitForTimeout(300);
          if (PICTURES) {
            mkdirSync(PICTURES, { recursive: true });
            await page.screenshot({
              path: join(PICTURES, `proof-${name}-${theme}-${width}.png`),
              fullPage: true,
            });
          }
          expect(await sideways(page), `${name} must not scroll sideways`).toBe(0);
          expect(await tooSmall(page), `${name}: controls under 64 px`).toEqual([]);
          if (width === 360 || theme === 'paper')
            expect(await breaches(page, theme !== 'paper'), `${name}: accessibility`).toEqual([]);
        };
        await open(page, app.laptop.address);
        await repaired(page);
        await page.locator('.planned, .taken-list').first().waitFor({ timeout: 30_000 });
        await look('stands');
        expect(faults).toEqual([]);
      });
});
