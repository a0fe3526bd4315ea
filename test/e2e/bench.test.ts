/**
 * The bench in a real browser: a job played from its complaint to its last step by touch, by keyboard, and with the laptop
 * dead in the middle; every trap walked into on the way; every tap taken back.
 */
import { describe, expect, test } from 'vitest';
import { foldJob } from '../../src/job/fold.ts';
import type { StoredEvent } from '../../src/log/store.ts';
import { useApp } from './app-hooks.ts';
import { keys } from './bench-keys.ts';
import { finger, play, signAll, skipping } from './bench-player.ts';
import { putStory, STORY } from './bench-story.ts';
import { BENCH, openPage, openStation, PHONE, skipWithoutBrowser } from './served-app.ts';
import { putJob, SINGLE } from './worked-jobs.ts';

describe.skipIf(skipWithoutBrowser)('the bench', { timeout: 300_000 }, () => {
  const app = useApp();
  const stateOf = async (job: string) => {
    const answer = await fetch(`${app.laptop.address}/api/jobs/${job}?since=0`);
    const { events } = (await answer.json()) as { events: readonly StoredEvent[] };
    const { last: _last, ...state } = foldJob(events.map(({ event }) => event));
    return { state, events: events.map(({ event }) => event) };
  };

  test('is played by touch at 360 px from the complaint to the last step, and catches every trap', async () => {
    const { page, faults } = await openPage(app.browser, PHONE);
    const hand = finger(page, skipping(page));
    const job = { ...SINGLE, job: 'bench-by-touch' };
    await putJob(app.laptop.address, job);
    await page.clock.install({ time: new Date() });
    await openStation(page, app.laptop.address, 'complaint', job.job);
    await page.getByRole('heading', { name: 'Complaint' }).waitFor();
    await openStation(page, app.laptop.address, 'verdict', job.job);
    await page.getByRole('link', { name: 'Plan the way in' }).click();
    await page.locator('.way-steps').first().waitFor({ timeout: 60_000 });
    await page.getByRole('link', { name: 'Bench' }).click();
    await page.locator('#bench-step').waitFor({ timeout: 60_000 });
    const caught = new Set<number>();
    const steps = await play(page, hand, hand.press, {
      caught,
      at: async (step) => {
        // 17: the fill is looked at while the drain plug is not signed.
        if (!/drain plug/.test(step) || caught.has(17)) return;
        for (let n = 0; n < 20 && !/Pour/.test((await page.locator('#bench-step').textContent()) ?? ''); n++)
          await hand.press(page.getByRole('button', { name: /^Next/ }));
        const waits = await page.locator('[aria-label="What comes first"]').textContent();
        expect(waits).toMatch(/drain plug is not signed/);
        caught.add(17);
        for (let n = 0; n < 20 && (await page.locator('#bench-step').textContent()) !== step; n++)
          await hand.press(page.getByRole('button', { name: /^Back/ }));
      },
    });
    expect(steps.length).toBeGreaterThan(40);
    await page.getByText('Every step is done').waitFor();
    // 4 stands at a nut that this way leaves alone: test/e2e/bench-hands.test.ts comes to it.
    expect([...caught].sort((a, b) => a - b)).toEqual([
      1, 2, 3, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20,
    ]);
    await page
      .getByText(/All on the/)
      .first()
      .waitFor();
    const { state } = await stateOf(job.job);
    expect(state.bench.records.length).toBeGreaterThan(20);
    expect(state.bench.overrides).toEqual([]);
    // Nothing wrong was signed on the way.
    expect(state.bench.records.filter(({ words }) => words.why !== undefined)).toEqual([]);
    expect(faults).toEqual([]);
  });

  test('is played by the keyboard alone at 1280 px, with the laptop dead in the middle and a reload there', async () => {
    const { page, faults } = await openPage(app.browser, BENCH);
    const pause = skipping(page);
    const hand = keys(page, pause);
    const job = { ...SINGLE, job: 'bench-by-keys' };
    await putJob(app.laptop.address, job);
    await page.clock.install({ time: new Date() });
    await openStation(page, app.laptop.address, 'bench', job.job);
    await page.locator('#bench-step').waitFor({ timeout: 60_000 });
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 30_000 });
    // A pedal's key, wherever the focus is.
    const pedal = async () => {
      await pause(280);
      await page.keyboard.press('PageDown');
    };
    const before = await play(page, hand, pedal, { until: (n) => n === 14 });
    await app.laptop.kill();
    const dead = await play(page, hand, pedal, { until: (n) => n === 4 });
    await page.reload();
    await page.locator('#bench-step').waitFor({ timeout: 60_000 });
    const reloaded = await play(page, hand, pedal, { until: (n) => n === 4 });
    await app.laptop.start();
    const rest = await play(page, hand, pedal);
    const all = [...before, ...dead, ...reloaded, ...rest];
    expect(new Set(all).size).toBe(all.length);
    await page.getByText('Every step is done').waitFor();
    await expect
      .poll(async () => (await stateOf(job.job)).state.way.ticks.length, { timeout: 30_000 })
      .toBeGreaterThanOrEqual(all.length);
    expect(faults).toEqual([]);
  });

  const taps = Number(process.env.TAPS ?? 400);
  test('takes every tap back: after undoing, the job is what it was', {
    timeout: 300_000 + 300 * taps,
  }, async () => {
    const { page, faults } = await openPage(app.browser, PHONE);
    const job = { ...SINGLE, job: 'bench-taps' };
    await putJob(app.laptop.address, job);
    await page.clock.install({ time: new Date() });
    await openStation(page, app.laptop.address, 'bench', job.job);
    await page.locator('#bench-step').waitFor({ timeout: 60_000 });
    const before = (await stateOf(job.job)).state;
    await page.evaluate(async (count) => {
      // A linear congruential stream (Numerical Recipes): the same taps each time.
      let seed = 7;
      const random = () => {
        seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
        return seed / 2 ** 32;
      };
      for (let n = 0; n < count; n++) {
        const buttons = [...document.querySelectorAll<HTMLButtonElement>('main button:not(:disabled)')];
        const button = buttons[Math.floor(random() * buttons.length)];
        button?.click();
        for (const input of document.querySelectorAll<HTMLInputElement>('main input:not([type=file])')) {
          if (random() > 0.05) continue;
          input.value = ['1 1/4 in', '20 °C', 'because', '60 N·m', '0'][Math.floor(random() * 5)]!;
          input.dispatchEvent(new Event('input', { bubbles: true }));
        }
        await new Promise((done) => setTimeout(done, 12));
      }
      document.querySelector<HTMLButtonElement>('.bench-lock button')?.blur();
    }, taps);
    // The last touches may have locked the screen, at once or a moment later: held until it is open, as a hand would.
    const unlock = page.getByRole('button', { name: /^Unlock/ });
    await page.waitForTimeout(500);
    for (let n = 0; n < 10 && (await unlock.count()) > 0; n++) {
      const box = (await unlock.boundingBox())!;
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.mouse.down();
      await page.waitForTimeout(1000 + 500 * n);
      await page.mouse.up();
      await page.waitForTimeout(300);
    }
    expect(await unlock.count(), 'the lock opens when it is held').toBe(0);
    const made = (await stateOf(job.job)).events.length;
    const undo = page.locator('.at-bench').getByRole('button', { name: 'Undo', exact: true });
    for (let n = 0; n < taps * 2; n++) {
      await undo.first().click();
      if ((await page.getByText('nothing more that can be taken back').count()) > 0) break;
      await page.clock.fastForward(255);
    }
    await page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 30_000 });
    const after = await stateOf(job.job);
    console.log(`${taps} taps, ${made - 14} entries written, ${after.events.length} after undoing`);
    expect(after.state).toEqual(before);
    expect(faults).toEqual([]);
  });

  test('shows its clocks on every page, tells when a window closes, and outlives a reload', async () => {
    const { page, faults } = await openPage(app.browser, PHONE);
    await putStory(app.laptop.address);
    await page.clock.install({ time: new Date() });
    await page.goto(`${app.laptop.address}/#/job/${STORY}/bench?take=rotor-wipe`);
    await page.locator('#bench-step').waitFor({ timeout: 60_000 });
    const hand = finger(page, skipping(page));
    await signAll(page, hand);
    await hand.press(page.getByRole('button', { name: 'Done', exact: true }));
    const clocks = page.locator('.clocks');
    await clocks.getByText(/to begin: lower the rotor on its key/).waitFor();
    await page.reload();
    await clocks.getByText(/to begin: lower the rotor on its key/).waitFor({ timeout: 30_000 });
    await openStation(page, app.laptop.address, 'readings', STORY);
    await clocks.getByText(/to begin: lower the rotor on its key/).waitFor({ timeout: 30_000 });
    // Off the job it says whose clock it is, on another device too, and leads there.
    const far = await openPage(app.browser, BENCH);
    for (const away of [page, far.page])
      for (const place of ['sums', 'machines', '']) {
        await away.goto(`${app.laptop.address}/#/${place}`);
        const clock = away.locator('.clocks a', { hasText: 'lower the rotor on its key' });
        await clock.getByText('A stator on an evening').waitFor({ timeout: 30_000 });
        expect(await clock.getAttribute('href')).toMatch(new RegExp(`/job/${STORY}/bench\\?take=`));
      }
    expect(far.faults).toEqual([]);
    await far.page.context().close();
    await openStation(page, app.laptop.address, 'readings', STORY);
    await clocks.getByText(/to begin: lower the rotor on its key/).waitFor({ timeout: 30_000 });
    // Ten minutes is the file's window; the last third of it hurries.
    await page.clock.fastForward('08:00');
    await page.locator('.clock.hurry').waitFor();
    await page.locator('.clocks.flash').waitFor();
    await page.clock.fastForward('03:00');
    await page
      .locator('.clock.late')
      .getByText(/Too late to begin/)
      .waitFor();
    await page.locator('.clock.late a').click();
    // One touch does the earlier step again, and its record with it.
    await hand.press(page.getByRole('button', { name: /^Do it again: Wipe the rotor/ }));
    await page.locator('#bench-step', { hasText: 'Wipe the rotor' }).waitFor({ timeout: 60_000 });
    await expect.poll(() => page.locator('.bench-ask.open').count()).toBe(1);
    expect(faults).toEqual([]);
  });

  test('carries what was done otherwise to the next job on the same bike', async () => {
    const { page } = await openPage(app.browser, PHONE);
    await putStory(app.laptop.address);
    await page.goto(`${app.laptop.address}/#/new`);
    await page
      .getByRole('button', { name: /Ardmoor/ })
      .first()
      .click();
    await page.getByRole('button', { name: /^Open/ }).first().click();
    await page.locator('nav.stations').waitFor();
    await page.getByRole('link', { name: 'Way in' }).click();
    const left = page.getByRole('button', { name: /A stator on an evening: / });
    await left.waitFor({ timeout: 30_000 });
    await page.waitForTimeout(300);
    await left.click();
    await page.getByText(/^It has high-strength locker/).waitFor();
    await page.getByText('Because: nothing else at hand').waitFor();
  });

  test('is signed from a second device, and the bar at the first is free', async () => {
    const job = { ...SINGLE, job: 'bench-two' };
    await putJob(app.laptop.address, job);
    const [hands, lead] = [await openPage(app.browser, PHONE), await openPage(app.browser, BENCH)];
    const at = `${app.laptop.address}/#/job/${job.job}/bench?take=plug-retainer`;
    for (const { page } of [hands, lead]) {
      await page.goto(`${app.laptop.address}/#/job/${job.job}/way`);
      await page.locator('#way-to').waitFor({ timeout: 30_000 });
      await page.goto(at);
      await page.locator('#bench-step', { hasText: 'wire retainer' }).waitFor({ timeout: 60_000 });
    }
    await hands.page.getByRole('button', { name: '◎ 1 thing first' }).waitFor();
    await signAll(lead.page, keys(lead.page));
    await hands.page.getByRole('button', { name: 'Done', exact: true }).waitFor({ timeout: 10_000 });
    expect([...hands.faults, ...lead.faults]).toEqual([]);
  });
});
