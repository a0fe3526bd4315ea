/** What a page does to a finger: from a touch to the next picture, and what moves though nobody touched it. */
import type { Page } from 'playwright-core';

/** A quarter of this computer's speed. */
export const SLOWER = 4;
/** From a touch to the next picture at most, ms. */
export const MOST_MS = 80;

/** Watches every document that the page opens from now on. */
export async function watchPace(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const seen = { touch: 0, shift: 0, moved: [] as string[] };
    Object.assign(globalThis, { seen });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries())
        if ((entry as PerformanceEventTiming).interactionId > 0)
          seen.touch = Math.max(seen.touch, entry.duration);
    }).observe({ type: 'event', durationThreshold: 16, buffered: true } as PerformanceObserverInit);
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEntry & {
        value: number;
        hadRecentInput: boolean;
        sources: readonly { readonly node: Node | null }[];
      })[]) {
        if (entry.hadRecentInput) continue;
        seen.shift += entry.value;
        const what = entry.sources.map(({ node }) => node?.textContent?.slice(0, 40) ?? '?');
        seen.moved.push(`${entry.value.toFixed(4)} ${what.join(' | ')}`);
      }
    }).observe({ type: 'layout-shift', buffered: true });
  });
}

export interface Pace {
  /** The longest from a touch to the next picture since it was asked last, ms. */
  readonly touch: number;
  /** How much has moved since the page was opened, as the browser adds it up, 1. */
  readonly shift: number;
  readonly moved: readonly string[];
}

export function paceOf(page: Page): Promise<Pace> {
  return page.evaluate(() => {
    const all = (globalThis as unknown as { seen: { touch: number; shift: number; moved: string[] } }).seen;
    const now = { ...all, moved: [...all.moved] };
    all.touch = 0;
    return now;
  });
}
