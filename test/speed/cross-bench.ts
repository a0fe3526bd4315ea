/**
 * How long a tick takes from the finger on one device to the screen of another: two browsers of their own with one laptop, on
 * loopback, over as many jobs as it needs: `npm run cross [TICKS]`; needs Chromium.
 */
import type { Locator, Page } from 'playwright-core';
import { BENCH, openChromium, openLaptop, openPage, openStation, PHONE } from '../e2e/served-app.ts';
import { putJob, SINGLE } from '../e2e/worked-jobs.ts';

const ticks = Number(process.argv[2] ?? 100);
/** A hand does not tick faster, ms. */
const PAUSE_MS = 400;
/** Steps that are ticked in one job, count. */
const STEPS = 12;

/** When the page shows the words, ms since 1970. Not by frames: a page behind another has none. */
function shows(page: Page, words: string): Promise<number> {
  return page.evaluate(
    (what) =>
      new Promise<number>((done) => {
        const there = (): boolean => document.body.textContent?.includes(what) === true;
        if (there()) return done(Number.NaN);
        const watch = new MutationObserver(() => {
          if (!there()) return;
          watch.disconnect();
          done(Date.now());
        });
        watch.observe(document.body, { subtree: true, childList: true, characterData: true });
      }),
    words,
  );
}

/** Presses a button as a finger does; when it was let go, ms since 1970. */
async function press(page: Page, button: Locator): Promise<number> {
  const pressed = page.evaluate(
    () =>
      new Promise<number>((done) =>
        addEventListener('pointerup', () => done(Date.now()), { once: true, capture: true }),
      ),
  );
  await button.click();
  return pressed;
}

async function cross(from: Page, to: Page, done: number): Promise<number> {
  const words = `, ${done} done`;
  const shown = shows(to, words);
  await from.waitForTimeout(PAUSE_MS);
  const pressed = await press(
    from,
    from.locator('.way-steps > li.next').getByRole('button', { name: /^Done/ }),
  );
  return (await shown) - pressed;
}

function tell(what: string, times: readonly number[]): void {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (part: number) => sorted[Math.min(sorted.length - 1, Math.ceil(part * sorted.length) - 1)];
  console.log(
    `${what}: p50 ${at(0.5)} ms, p95 ${at(0.95)} ms, at worst ${sorted.at(-1)} ms of ${sorted.length} (asked p95 150)`,
  );
}

const laptop = await openLaptop();
const [here, there] = [await openChromium(), await openChromium()];
try {
  const one = (await openPage(here, BENCH)).page;
  const other = (await openPage(there, PHONE)).page;
  const times: number[] = [];
  for (let n = 0; times.length < ticks; n++) {
    const job = { ...SINGLE, job: `cross-${n}` };
    await putJob(laptop.address, job);
    for (const page of [one, other]) {
      await openStation(page, laptop.address, 'way', job.job);
      await page.locator('.way-steps').first().waitFor({ timeout: 60_000 });
    }
    await one.waitForTimeout(1000);
    for (let done = 1; done <= STEPS && times.length < ticks; done++) {
      const [from, to] = done % 3 === 0 ? [other, one] : [one, other];
      times.push(await cross(from, to, done));
    }
    console.error(`${times.length} ticks`);
  }
  tell('a tick, finger to the other screen', times);
} finally {
  await here.close();
  await there.close();
  await laptop.end();
}
