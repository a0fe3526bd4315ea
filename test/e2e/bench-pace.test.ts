/**
 * The bench at a quarter of this computer's speed: from a touch to the next picture, and nothing that jumps. A busy computer
 * only makes it longer, so of each kind of touch the best of some rounds is what the page itself needs; a quiet one needs one or two.
 */
import { expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { putStory, STORY } from './bench-story.ts';
import { MOST_MS, paceOf, SLOWER, watchPace } from './pace-watch.ts';
import { openPage, PHONE, skipWithoutBrowser } from './served-app.ts';

const ROUNDS = 8;

/** Touches to be timed, by name. */
const TOUCHES: readonly (readonly [name: string, target: string])[] = [
  ['a signature that lacks something', '.bench-ask.open .sign'],
  ['a look ticked', '.bench-ask.open .toggles button'],
  ['a choice made', '.bench-ask.open [role=radio]'],
  ['a signature', '.bench-ask.open .sign'],
  ['the bar, held up', '.bench-bar button'],
  ['next', '.bench-turn button:last-child'],
  ['back', '.bench-turn button:first-child'],
  ['undo', '.bench-turn button:nth-child(2)'],
  ['the note', '.bench-more button:has-text("Note")'],
];

test.skipIf(skipWithoutBrowser)(
  'a touch shows within 80 ms and nothing jumps, at a quarter of the speed',
  { timeout: 400_000 },
  async () => {
    const app = shared;
    await putStory(app.laptop.address);
    const { page } = await openPage(app.browser, PHONE);
    const best = new Map<string, number>();
    let shift = Number.POSITIVE_INFINITY;
    const client = await page.context().newCDPSession(page);
    await watchPace(page);
    for (let round = 0; round < ROUNDS; round++) {
      await client.send('Emulation.setCPUThrottlingRate', { rate: 1 });
      await page.goto('about:blank');
      await page.goto(`${app.laptop.address}/#/job/${STORY}/bench?take=stator-stage-1`);
      await page.locator('#bench-step').waitFor({ timeout: 60_000 });
      await page.waitForTimeout(1500);
      await client.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
      for (const [name, target] of TOUCHES) {
        await paceOf(page);
        await page.locator(target).first().tap();
        await page.waitForTimeout(500);
        best.set(name, Math.min(best.get(name) ?? Number.POSITIVE_INFINITY, (await paceOf(page)).touch));
      }
      shift = Math.min(shift, (await paceOf(page)).shift);
      if (shift === 0 && [...best.values()].every((ms) => ms <= MOST_MS)) break;
    }
    console.log([...best].map(([name, ms]) => `${name} ${ms} ms`).join(', '), `shift ${shift}`);
    for (const [name, ms] of best) expect(ms, name).toBeLessThanOrEqual(MOST_MS);
    expect(shift, 'layout shift').toBe(0);
  },
);
const shared = useApp();
