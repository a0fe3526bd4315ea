/**
 * How soon the app stands with the laptop switched off, at a quarter of this computer's speed: the list of 500 jobs, and a
 * job of 20,000 events. `node scripts/run-ts.mjs test/speed/offline-bench.ts [ROUNDS]`; needs Chromium.
 */
import type { CDPSession, Page } from 'playwright-core';
import type { EventBody } from '../../src/job/event.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import { openChromium, openLaptop, openPage, PHONE } from '../e2e/served-app.ts';

const JOBS = 500;
const EVENTS = 20_000;
const SLOWER = 4;
const START = Date.UTC(2026, 0, 1);

function eventsOf(job: string, bodies: readonly EventBody[], start: number) {
  const device = job.replace(/[^a-z0-9]/g, '').slice(-16);
  let last: string | null = null;
  return bodies.map((body, n) => {
    const event = writeEvent({ job, who: 'bench', device }, body, last, start + n * 1000);
    last = event.id;
    return event;
  });
}

const opened = (title: string): EventBody => ({
  type: 'jobOpened',
  machine: 'ardmoor-650-pathway',
  title,
  invented: true,
});

async function send(address: string, events: readonly object[]): Promise<void> {
  for (let from = 0; from < events.length; from += 2000) {
    const path = from === 0 ? '/api/jobs' : `/api/jobs/${(events[0] as { job: string }).job}/events`;
    const answer = await fetch(`${address}${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(events.slice(from, from + 2000)),
    });
    if (!answer.ok) throw new Error(`the laptop answered ${answer.status}: ${await answer.text()}`);
  }
}

/** From the start of the navigation until something is on screen, ms. */
async function until(page: Page, selector: string): Promise<number> {
  return page.evaluate(
    (what) =>
      new Promise<number>((done) => {
        const look = (): void => {
          if (document.querySelector(what)) requestAnimationFrame(() => done(performance.now()));
          else setTimeout(look, 5);
        };
        look();
      }),
    selector,
  );
}

async function measure(
  page: Page,
  session: CDPSession,
  rounds: number,
  hash: string,
  selector: string,
  slower = SLOWER,
): Promise<number[]> {
  const times: number[] = [];
  for (let round = 0; round < rounds; round++) {
    await page.goto('about:blank');
    await session.send('Emulation.setCPUThrottlingRate', { rate: slower });
    await page.goto(hash, { waitUntil: 'commit' });
    times.push(await until(page, selector));
    await session.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  }
  return times.sort((a, b) => a - b);
}

const rounds = Number(process.argv[2] ?? 12);
const laptop = await openLaptop();
const browser = await openChromium();
try {
  for (let n = 0; n < JOBS - 1; n++)
    await send(laptop.address, eventsOf(`bench-${n}`, [opened(`Job ${n}`)], START + n * 60_000));
  const long = eventsOf(
    'bench-long',
    [
      opened('A long one'),
      ...Array.from(
        { length: EVENTS - 1 },
        (_, n): EventBody =>
          n % 3 === 0
            ? { type: 'readingTaken', key: 'rest_volts', value: 12 + (n % 90) / 100, entered: '12' }
            : { type: n % 3 === 1 ? 'stepDone' : 'stepUndone', step: `step-${n % 70}` },
      ),
    ],
    START + 1e9,
  );
  await send(laptop.address, long);
  const { page } = await openPage(browser, PHONE);
  await page.goto(`${laptop.address}/#/job/bench-long/complaint`);
  await page.locator('textarea').first().waitFor({ timeout: 60_000 });
  await page.goto(`${laptop.address}/#/`);
  await page
    .locator('.job-list li')
    .nth(JOBS - 1)
    .waitFor({ timeout: 60_000 });
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await page.waitForTimeout(4000);
  await laptop.kill();
  const session = await page.context().newCDPSession(page);
  const list = await measure(page, session, rounds, `${laptop.address}/#/`, '.job-list li:nth-child(3)');
  const at = (times: readonly number[], part: number) =>
    times[Math.min(times.length - 1, Math.floor(part * times.length))]!.toFixed(0);
  console.log(
    `list of ${JOBS} jobs, laptop off, ${SLOWER}x slower: p50 ${at(list, 0.5)} ms, p75 ${at(list, 0.75)} ms (asked 500)`,
  );
  const job = await measure(
    page,
    session,
    rounds,
    `${laptop.address}/#/job/bench-long/complaint`,
    'textarea',
  );
  const here = await measure(
    page,
    session,
    rounds,
    `${laptop.address}/#/job/bench-long/complaint`,
    'textarea',
    1,
  );
  console.log(
    `job of ${EVENTS} events, laptop off, at full speed: p50 ${at(here, 0.5)} ms, p75 ${at(here, 0.75)} ms (asked 300)`,
  );
  console.log(
    `job of ${EVENTS} events, laptop off, ${SLOWER}x slower: p50 ${at(job, 0.5)} ms, p75 ${at(job, 0.75)} ms (asked 1000)`,
  );
} finally {
  await browser.close();
  await laptop.end();
}
