/** What the screen must hold in every theme and at both widths: WCAG rules, sizes, no sideways scrolling, policy. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { SUMS } from '../../src/sum/catalogue.ts';
import { useApp } from './app-hooks.ts';
import { breaches, sideways, tooSmall } from './page-rules.ts';
import { WIDTHS, type Width, walkScreens } from './screens.ts';
import { DEMO, openPage, skipWithoutBrowser, THEMES } from './served-app.ts';

/** Sums that the accessibility rules are run on: one with choices and a drawing, one with entries refused. */
const SUM_RULES = ['sum break-loose', 'sum refused'];

/** Parts of the drawing whose spoken name does not begin with the title that is seen. */
function misnamed(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('[data-member]')]
      .filter((member) => {
        const seen = member.querySelector('text')?.firstChild?.textContent ?? '';
        return seen === '' || !(member.getAttribute('aria-label') ?? '').startsWith(seen.trim());
      })
      .map((member) => member.outerHTML.slice(0, 200)),
  );
}

/** Gaps between neighbouring entry keys, px. */
function keyGaps(page: Page): Promise<number[]> {
  return page.evaluate(() => {
    const edges = [...document.querySelectorAll('.key')].map((key) => key.getBoundingClientRect());
    const gaps: number[] = [];
    for (const a of edges)
      for (const b of edges) {
        if (a === b) continue;
        const across = Math.max(a.left - b.right, b.left - a.right);
        const down = Math.max(a.top - b.bottom, b.top - a.bottom);
        gaps.push(Math.max(across, down));
      }
    return gaps;
  });
}

describe.skipIf(skipWithoutBrowser)('the look', { timeout: 120_000 }, () => {
  const app = useApp();

  for (const theme of THEMES) {
    for (const width of [360, 1280] as const satisfies readonly Width[]) {
      test(`${theme} at ${width} px`, async () => {
        const seen: string[] = [];
        const faults = await walkScreens(
          app.browser,
          app.laptop.address,
          theme,
          width,
          async ({ name, page }) => {
            seen.push(name);
            expect(await sideways(page), `${name} must not scroll sideways`).toBe(0);
            expect(await tooSmall(page), `${name}: controls under 64 px, keys under 80 px`).toEqual([]);
            expect(await misnamed(page), `${name}: parts with another name than is seen`).toEqual([]);
            if (name === 'entry') {
              const gaps = await keyGaps(page);
              expect(gaps.length).toBeGreaterThan(100);
              expect(Math.min(...gaps), 'gap between keys').toBeGreaterThanOrEqual(11.5);
            }
            const body = await page.evaluate(() =>
              Number.parseFloat(getComputedStyle(document.body).fontSize),
            );
            expect(body).toBeGreaterThanOrEqual(18);
            // The rules see the same page at both widths; colours differ by theme only.
            // The verdict is looked at with its reasons open; sums are all of one make.
            const alike = name === 'verdict' || (name.startsWith('sum ') && !SUM_RULES.includes(name));
            if ((width === 360 || theme === 'paper') && !alike) {
              expect(await breaches(page, theme !== 'paper'), `${name}: accessibility`).toEqual([]);
            }
          },
        );
        expect(seen).toEqual([
          'jobs',
          'sums',
          ...SUMS.map(({ id }) => `sum ${id}`),
          'sum refused',
          'machines',
          'machine',
          'way',
          'devices',
          'self test',
          'pair',
          'new',
          'complaint',
          'readings',
          'catalogue',
          'entry',
          'verdict',
          'reasons',
          'set odds',
        ]);
        expect(faults, 'errors in the page').toEqual([]);
      });
    }
  }

  test('on a laptop the next reading, the tips and the keys stand on one screen; on a phone the keys are near', async () => {
    const take = encodeURIComponent('ohms_case pin=a temp=cold');
    for (const [width, least] of [
      [1280, 15],
      [360, 14],
    ] as const) {
      const { page } = await openPage(app.browser, WIDTHS[width]);
      await page.goto(`${app.laptop.address}/#/job/${DEMO}/readings?take=${take}`);
      await page.locator('.loop-figure .probes').waitFor({ timeout: 30_000 });
      await page.locator('.so-far b').waitFor({ timeout: 30_000 });
      const seen = await page.evaluate(() => {
        const at = (what: string) => document.querySelector(what)!.getBoundingClientRect();
        const drawing = document.querySelector<SVGSVGElement>('.loop-figure svg')!;
        const scale = drawing.getBoundingClientRect().width / drawing.viewBox.baseVal.width;
        const sizes = [...drawing.querySelectorAll('text')].map((text) =>
          Number(text.getAttribute('font-size')),
        );
        return {
          letters: Math.min(...sizes) * scale,
          task: at('.task-title').bottom,
          firstRow: at('.key').bottom,
          keys: at('.keypad').bottom,
          tips: at('.loop-figure .probes').bottom,
        };
      });
      expect(seen.letters, `letters of the loop at ${width} px`).toBeGreaterThanOrEqual(least);
      if (width === 1280) {
        for (const what of ['task', 'keys', 'tips'] as const)
          expect(seen[what], what).toBeLessThanOrEqual(800);
      } else {
        // Two thirds of a phone's screen to scroll at most, or one touch on "To the keys".
        expect(seen.firstRow).toBeLessThanOrEqual(740 * 1.67);
      }
      await page.context().close();
    }
  });

  test('nothing is fetched from anywhere else', async () => {
    const context = await app.browser.newContext();
    const page = await context.newPage();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.goto(`${app.laptop.address}/`);
    await page.locator('.job-list li').first().waitFor();
    expect(asked.length).toBeGreaterThan(3);
    expect(asked.filter((url) => !url.startsWith(app.laptop.address))).toEqual([]);
    await context.close();
  });
});
