/** What the browser's store has beyond the rules of every store: packs of long jobs, and the step up from its first tables. */
import 'fake-indexeddb/auto';
import { openDB } from 'idb';
import { describe, expect, it } from 'vitest';
import type { JobEvent } from '../../src/job/event.ts';
import { canonical } from '../../src/job/stamp.ts';
import { openBrowserStore } from '../../src/web/browser-store.ts';
import { opening, story, take } from '../job/stories.ts';

const long = (job: string, count: number): readonly JobEvent[] =>
  story([opening, ...Array.from({ length: count - 1 }, (_, n) => take('rest_volts', n / 100, '“⅝” "\\'))], {
    job,
    device: job,
  });

async function packsOf(name: string): Promise<readonly { job: string; last: number; text: string }[]> {
  const db = await openDB(name);
  const packs = await db.getAll('pack');
  db.close();
  return packs;
}

describe('a long job', () => {
  it('is read from packs and rows alike, whole and from any place, whatever batches it came in', async () => {
    const store = openBrowserStore('long');
    const [one, other] = [long('one', 1900), long('other', 700)];
    for (const batch of [one.slice(0, 450), other, one.slice(450, 520), one.slice(520, 530), one.slice(530)])
      await store.append(batch);
    await store.append(one.slice(100, 900));
    const rows = await store.since('one', 0);
    expect(rows.map(({ event }) => event)).toEqual(one);
    expect((await store.since('other', 0)).map(({ event }) => event)).toEqual(other);
    for (const at of [0, 1, 449, 450, 519, 521, 1000, 1898, 1899])
      expect(await store.since('one', rows[at]!.seq)).toEqual(rows.slice(at + 1));
    expect(await store.count('one')).toBe(1900);
    await store.close();
    const packs = await packsOf('long');
    expect(packs.filter(({ job }) => job === 'one').length).toBeGreaterThan(1);
  });

  it('is read from its rows where a pack does not agree with them', async () => {
    const store = openBrowserStore('torn');
    const log = long('torn', 800);
    await store.append(log);
    await store.close();
    const db = await openDB('torn');
    const [pack] = await db.getAll('pack');
    await db.put('pack', { ...pack, text: `[${pack.text.slice(1, -1).split(',[')[0]}]` });
    db.close();
    const again = openBrowserStore('torn');
    expect((await again.since('torn', 0)).map(({ event }) => event)).toEqual(log);
    await again.close();
  });
});

describe('a store with the first tables', () => {
  it('opens with all that it holds, and packs it with the next entry', async () => {
    const log = long('old', 700);
    const old = await openDB('old', 1, {
      upgrade: (db) => {
        const events = db.createObjectStore('event', { keyPath: 'seq', autoIncrement: true });
        events.createIndex('id', 'id', { unique: true });
        events.createIndex('job', 'job');
        db.createObjectStore('head', { keyPath: 'job' });
        db.createObjectStore('place');
        db.createObjectStore('text');
      },
    });
    const tx = old.transaction(['event', 'head', 'place'], 'readwrite');
    for (const event of log.slice(0, -1))
      await tx.objectStore('event').add({ id: event.id, job: event.job, body: canonical(event) });
    const { id, at } = log[0]!;
    await tx.objectStore('head').put({
      job: 'old',
      machine: 'm1',
      title: 'Fades',
      invented: true,
      openedAt: at,
      events: 699,
      last: 699,
      openedBy: id,
    });
    await tx.objectStore('place').put(17, 'old');
    await tx.done;
    old.close();
    const store = openBrowserStore('old');
    expect((await store.since('old', 0)).map(({ event }) => event)).toEqual(log.slice(0, -1));
    expect(await store.place('old')).toBe(17);
    await store.append(log.slice(-1));
    expect((await store.since('old', 0)).map(({ event }) => event)).toEqual(log);
    expect(await store.jobs()).toEqual([expect.objectContaining({ job: 'old', events: 700 })]);
    await store.close();
    expect(await packsOf('old')).toHaveLength(1);
  });
});
