/** The bench in every theme and at both widths: WCAG with enhanced contrast, sizes for gloves, nothing sideways. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { LOOKED_AT, putStory, STORY } from './bench-story.ts';
import { breaches, sideways, tooSmall } from './page-rules.ts';
import { BENCH, openPage, PHONE, skipWithoutBrowser, THEMES } from './served-app.ts';

/** Folder for pictures, one for each step; none where it is not named. */
const PICTURES = process.env.SCREENS;

describe.skipIf(skipWithoutBrowser)('the look of the bench', { timeout: 240_000 }, () => {
  const app = useApp();

  for (const theme of THEMES)
    for (const [width, shape] of [
      [360, PHONE],
      [1280, BENCH],
    ] as const)
      test(`${theme} at ${width} px`, async () => {
        await putStory(app.laptop.address);
        const { page, faults } = await openPage(app.browser, shape, theme);
        for (const step of LOOKED_AT) {
          await page.goto(`${app.laptop.address}/#/job/${STORY}/bench?take=${step}`);
          await page.locator('#bench-step').waitFor({ timeout: 60_000 });
          await page.waitForTimeout(150);
          if (PICTURES) {
            mkdirSync(PICTURES, { recursive: true });
            await page.screenshot({ path: join(PICTURES, `bench-${step}-${theme}-${width}.png`) });
          }
          expect(await sideways(page), `${step} must not scroll sideways`).toBe(0);
          expect(await tooSmall(page), `${step}: controls under 64 px`).toEqual([]);
          const sizes = await page.evaluate(() => {
            const of = (what: string) => document.querySelector(what)!;
            return {
              bar: Math.min(
                ...[...document.querySelectorAll('.bench-bar button')].map(
                  (bar) => bar.getBoundingClientRect().height,
                ),
              ),
              words: Number.parseFloat(getComputedStyle(of('#bench-step')).fontSize),
              figure: [...document.querySelectorAll('.bench-figure .figure')].map((figure) =>
                Number.parseFloat(getComputedStyle(figure).fontSize),
              ),
            };
          });
          expect(sizes.bar, `${step}: the bar`).toBeGreaterThanOrEqual(96);
          expect(sizes.words, `${step}: its words`).toBeGreaterThanOrEqual(30);
          for (const size of sizes.figure) expect(size, `${step}: its figure`).toBeGreaterThanOrEqual(64);
          if (width === 360 || theme === 'paper')
            expect(await breaches(page, theme !== 'paper'), `${step}: accessibility`).toEqual([]);
        }
        // What covers the page: the lock for wiping.
        await page.getByRole('button', { name: /^This device/ }).click();
        await page.getByRole('button', { name: 'Wipe the screen' }).click();
        await page.getByRole('dialog', { name: 'Locked for wiping' }).waitFor();
        expect(await breaches(page, theme !== 'paper'), 'the lock: accessibility').toEqual([]);
        expect(await tooSmall(page), 'the lock: controls under 64 px').toEqual([]);
        expect(faults).toEqual([]);
      });
});
