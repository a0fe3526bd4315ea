/** The station Handover in a real browser: calendar, chapters, cost, minutes learnt, the bike over the years. */
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { putStory, STORY } from './bench-story.ts';
import { breaches, sideways, tooSmall } from './page-rules.ts';
import { PROOF_STORY, putProofStory } from './proof-story.ts';
import { BENCH, openPage, PHONE, skipWithoutBrowser, THEMES } from './served-app.ts';

/** Folder for pictures; none where it is not named. */
const PICTURES = process.env.SCREENS;

describe.skipIf(skipWithoutBrowser)('the handover', { timeout: 240_000 }, () => {
  const app = useApp();

  test('reminders as a calendar made in the browser, money noted and taken back, minutes learnt and forgotten', async () => {
    await putStory(app.laptop.address);
    const { page, faults } = await openPage(app.browser, PHONE);
    await page.goto(`${app.laptop.address}/#/job/${STORY}/handover`);
    await page.getByRole('heading', { name: 'Handover', level: 1 }).waitFor();
    await page.getByText('what is handed over now will say so').waitFor();
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Keep as a calendar file' }).click(),
    ]);
    const text = readFileSync(await file.path(), 'utf8');
    expect(text).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect(text.match(/BEGIN:VEVENT/g)?.length).toBeGreaterThan(2);

    await page.getByRole('button', { name: 'Note what was paid' }).click();
    await page.getByLabel('Amount').fill('a lot');
    await page.getByRole('button', { name: 'Note it' }).click();
    await page.getByText('The amount must be a figure from 0 up').waitFor();
    // A second touch within a quarter of a second is a bounce.
    await page.waitForTimeout(300);
    await page.getByLabel('Amount').fill('42,50');
    await page.getByLabel('What was bought (may be left empty)').fill('gasket and locker');
    await page.getByRole('button', { name: 'Note it' }).click();
    await page.getByRole('button', { name: 'Take back: 42.50 gasket and locker' }).waitFor();
    expect(await page.locator('.cost').first().innerText()).toMatch(/Together\s+\S+\s+42\.50/);

    await page.getByRole('button', { name: /learn from these minutes/ }).click();
    await page.getByText('Later plans for this bike go by the minutes of').waitFor();
    await page.goto(`${app.laptop.address}/#/job/${STORY}/way`);
    const learnt = page.getByRole('button', { name: /are learnt from 1 job on this bike/ });
    await learnt.waitFor({ timeout: 30_000 });
    await learnt.click();
    await page.getByRole('button', { name: /Do not go by the minutes of this job/ }).click();
    await learnt.waitFor({ state: 'detached' });
    expect(faults).toEqual([]);
  });

  test('a pack with the laptop there, and one sentence where nothing was done yet', async () => {
    await putProofStory(app.laptop.address);
    const { page } = await openPage(app.browser, BENCH);
    await page.goto(`${app.laptop.address}/#/job/${PROOF_STORY}/handover`);
    const [file] = await Promise.all([
      page.waitForEvent('download', { timeout: 60_000 }),
      page.getByRole('link', { name: 'Keep the how-to pack' }).click(),
    ]);
    expect(
      readFileSync(await file.path())
        .subarray(0, 2)
        .toString(),
    ).toBe('PK');
    await page.getByText('No clip was started at the bench').waitFor();
    // The demo's bike is the same: a new job begins from what is known of it.
    await page.goto(`${app.laptop.address}/#/job/${PROOF_STORY}/complaint`);
    const before = page.locator('section[aria-labelledby="before"]');
    await before.getByText('fades on the ferry run').waitFor();
    expect(await before.innerText()).toContain('No repair was written down.');
  });

  for (const theme of THEMES)
    for (const [width, shape] of [
      [360, PHONE],
      [1280, BENCH],
    ] as const)
      test(`its look: ${theme} at ${width} px`, async () => {
        await putStory(app.laptop.address);
        await putProofStory(app.laptop.address);
        const { page, faults } = await openPage(app.browser, shape, theme);
        for (const job of [STORY, PROOF_STORY]) {
          await page.goto(`${app.laptop.address}/#/job/${job}/handover`);
          await page.locator('#history').waitFor();
          await page.waitForTimeout(400);
          if (PICTURES) {
            mkdirSync(PICTURES, { recursive: true });
            await page.screenshot({
              path: join(PICTURES, `handover-${job}-${theme}-${width}.png`),
              fullPage: true,
              scale: 'css',
            });
          }
          expect(await sideways(page), `${job} must not scroll sideways`).toBe(0);
          expect(await tooSmall(page), `${job}: controls under 64 px`).toEqual([]);
          if (width === 360 || theme === 'paper')
            expect(await breaches(page, theme !== 'paper'), `${job}: accessibility`).toEqual([]);
        }
        expect(faults).toEqual([]);
      });
});
