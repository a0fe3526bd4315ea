/** How long the tasks of a page's own thread take, in time of the processor. */
import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';

interface Traced {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  /** Time of the processor, not of the clock: other programs on this computer do not lengthen it. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/**
 * Tasks of the page's thread while `act` ran, the longest first, ms of the processor. The questions that the test itself puts to the
 * page come as messages of the browser and are left out.
 */
export async function tasksDuring(browser: Browser, page: Page, act: () => Promise<void>): Promise<number[]> {
  const root = await browser.newBrowserCDPSession();
  const events: Traced[] = [];
  root.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as Traced[])));
  const categories = ['toplevel', 'devtools.timeline', 'blink.user_timing', '__metadata'];
  await root.send('Tracing.start', { traceConfig: { includedCategories: categories } });
  await page.evaluate(() => performance.mark('smooth-begins'));
  await act();
  await page.waitForTimeout(250);
  const ended = new Promise((done) => root.once('Tracing.tracingComplete', done));
  await root.send('Tracing.end');
  await ended;
  await root.detach();
  const mark = events.find(({ name }) => name === 'smooth-begins');
  const own = events.filter(({ pid, tid, ph }) => pid === mark?.pid && tid === mark.tid && ph === 'X');
  const tasks = own.filter(({ name, ts }) => name.endsWith('RunTask') && ts >= (mark?.ts ?? 0));
  expect(tasks.length, 'tasks seen').toBeGreaterThan(0);
  const asked = own.filter(({ name }) => name === 'Receive mojo message');
  const ours = tasks.filter(
    ({ ts, dur = 0 }) => !asked.some((one) => one.ts >= ts && one.ts <= ts + dur && (one.dur ?? 0) > dur / 2),
  );
  return ours.map(({ tdur = 0 }) => tdur / 1000).sort((a, b) => b - a);
}
