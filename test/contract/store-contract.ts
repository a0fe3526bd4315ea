import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { foldJob } from '../../src/job/fold.ts';
import type { JobStore } from '../../src/log/store.ts';
import { logs, opening, START, shuffled, story, take } from '../job/stories.ts';

/** What one kind of store has to offer to be tried. */
export interface Trial {
  readonly name: string;
  /** A store with nothing in it. */
  readonly fresh: () => Promise<JobStore>;
  /** Closes the store and opens what it left behind; null for a store that forgets. */
  readonly reopen: ((store: JobStore) => Promise<JobStore>) | null;
}

/** The rules of src/log/SPEC.md, tried on one kind of store. */
export function storeKeepsItsRules(trial: Trial): void {
  describe(`${trial.name} keeps the rules of a store`, () => {
    let store: JobStore;
    beforeEach(async () => {
      store = await trial.fresh();
    });
    afterEach(() => store.close());

    const idsOf = async (job: string, seq = 0) => (await store.since(job, seq)).map((row) => row.event.id);
    const log = story([opening, take('rest_volts', 12.4), take('batt_volts lights=low rpm=3000', 12.9)]);

    it('1: gives back whole events, to the letter', async () => {
      await fc.assert(
        fc.asyncProperty(logs, async (events) => {
          const held = await trial.fresh();
          await held.append(events);
          expect((await held.since('j1', 0)).map((row) => row.event)).toEqual(
            [...events].sort((a, b) => (a.id < b.id ? -1 : 1)),
          );
          await held.close();
        }),
        { numRuns: 25 },
      );
      const odd = story(
        [
          { type: 'noteAdded', text: '“⅝ in” 力 é \n\t \\ \' "; DROP TABLE event; -- 𝄞' },
          take('diode black=a red=b', null),
          take('visual what=x', false),
          take('rest_volts', 0.1 + 0.2),
        ],
        { job: 'odd', device: 'odd' },
      );
      await store.append(odd);
      expect((await store.since('odd', 0)).map((row) => row.event)).toEqual(odd);
    });

    it('1: gives back NUL and half surrogate pairs within a text, and refuses them in a name', async () => {
      const odd = story([{ type: 'noteAdded', text: 'a\u0000b \ud83d c' }, take('rest_volts', 12)]);
      await store.append(odd);
      expect((await store.since('j1', 0)).map((row) => row.event)).toEqual(odd);
      for (const job of ['j\u0000', 'j\ud83d']) {
        await expect(store.append([{ ...odd[0]!, job }])).rejects.toThrow(RangeError);
        expect(await store.since(job, 0)).toEqual([]);
        expect(await store.count(job)).toBe(0);
      }
      expect(await store.count('j1')).toBe(2);
    });

    it('2: takes each id once, however often and in whatever pieces it is sent', async () => {
      await fc.assert(
        fc.asyncProperty(logs, fc.array(fc.nat(1000), { minLength: 1 }), async (events, seed) => {
          const held = await trial.fresh();
          const sent = shuffled(events, seed);
          for (let from = 0; from < sent.length; from += 4) await held.append(sent.slice(from, from + 4));
          const again = await held.append(events);
          expect(again).toMatchObject({ ok: true, accepted: [] });
          expect(again.ok && [...again.duplicate].sort()).toEqual(events.map((e) => e.id).sort());
          expect(foldJob((await held.since('j1', 0)).map((row) => row.event))).toEqual(foldJob(events));
          await held.close();
        }),
        { numRuns: 15 },
      );
    });

    it('2: answers which were new and which were known', async () => {
      await store.append(log.slice(0, 2));
      expect(await store.append([...log, log[2]!])).toMatchObject({
        ok: true,
        accepted: [log[2]!.id],
        duplicate: [log[0]!.id, log[1]!.id],
      });
    });

    it('2: takes fields in another order for the same event', async () => {
      await store.append(log);
      const turned = Object.fromEntries(Object.entries(log[1]!).reverse()) as unknown as (typeof log)[1];
      expect(await store.append([turned!])).toMatchObject({
        ok: true,
        accepted: [],
        duplicate: [log[1]!.id],
      });
    });

    it('3, 4: refuses other content under a known id, and keeps nothing of that batch', async () => {
      await store.append(log.slice(0, 1));
      const before = await store.since('j1', 0);
      const forged = { ...log[0]!, who: 'somebody else' };
      expect(await store.append([log[1]!, forged, log[2]!])).toMatchObject({ ok: false, event: forged.id });
      expect(await store.append([log[1]!, { ...log[1]!, job: 'j2' }])).toMatchObject({
        ok: false,
        event: log[1]!.id,
      });
      expect(await store.since('j1', 0)).toEqual(before);
    });

    it('5: still has what it answered when it is opened again', async () => {
      if (!trial.reopen) {
        // A store that forgets must at least not pretend: a fresh one is empty.
        expect(await (await trial.fresh()).jobs()).toEqual([]);
        return;
      }
      await store.append(log);
      const before = await store.since('j1', 0);
      store = await trial.reopen(store);
      expect(await store.since('j1', 0)).toEqual(before);
      expect(await store.append(log)).toMatchObject({ ok: true, accepted: [] });
    });

    it('6: gives growing places, so that a reader who asks for the rest misses nothing', async () => {
      const seen: string[] = [];
      let last = 0;
      for (const event of [...log].reverse()) {
        const appended = await store.append([event]);
        const rows = await store.since('j1', last);
        expect(rows.map((row) => row.seq)).toEqual([...rows.map((row) => row.seq)].sort((a, b) => a - b));
        expect(rows.every((row) => row.seq > last)).toBe(true);
        last = rows.at(-1)!.seq;
        expect(appended.ok && appended.last).toBe(last);
        seen.push(...rows.map((row) => row.event.id));
      }
      expect(seen).toEqual(log.map((event) => event.id).reverse());
      expect(await idsOf('j1', last)).toEqual([]);
    });

    it('6: gives each place once when many write at the same time', async () => {
      const writers = ['a', 'b', 'c', 'd', 'e'].map((device) =>
        story(
          Array.from({ length: 20 }, (_, n) => take('rest_volts', n)),
          { device },
        ),
      );
      await Promise.all(writers.flatMap((events) => events.map((event) => store.append([event]))));
      const rows = await store.since('j1', 0);
      expect(new Set(rows.map((row) => row.seq)).size).toBe(100);
      for (const events of writers) {
        const device = events[0]!.device;
        expect(rows.filter((row) => row.event.device === device).map((row) => row.event.id)).toEqual(
          events.map((e) => e.id),
        );
      }
    });

    it('6: refuses a place that is none', async () => {
      for (const seq of [-1, 0.5, Number.NaN])
        await expect(store.since('j1', seq)).rejects.toThrow(RangeError);
    });

    it('10: lists opened jobs, the last written to first, by their first opening', async () => {
      expect(await store.jobs()).toEqual([]);
      await store.append(log);
      const other = story(
        [{ type: 'jobOpened', machine: 'm2', title: 'Other', invented: false }, take('rest_volts', 12)],
        { job: 'j2', device: 'phone' },
      );
      await store.append(other);
      await store.append(story([take('rest_volts', 12)], { job: 'j3', device: 'tablet' }));
      expect((await store.jobs()).map((head) => head.job)).toEqual(['j2', 'j1']);
      const late = story([{ type: 'jobOpened', machine: 'm9', title: 'Late', invented: false }], {
        start: START + 9e6,
      });
      await store.append(late);
      expect((await store.jobs())[0]).toMatchObject({
        job: 'j1',
        machine: 'm1',
        title: 'Fades',
        invented: true,
        openedAt: log[0]!.at,
        events: 4,
      });
    });

    it('22: hands out everything there is, jobs that were never opened among it, in order of place', async () => {
      expect(await store.all()).toEqual([]);
      const unopened = story([take('rest_volts', 12.1)], { job: 'unopened', device: 'd2' });
      await store.append(log.slice(0, 2));
      await store.append(unopened);
      await store.append(log.slice(2));
      const all = await store.all();
      expect(all.map(({ event }) => event)).toEqual([...log.slice(0, 2), ...unopened, ...log.slice(2)]);
      expect(all.filter(({ event }) => event.job === 'j1')).toEqual(await store.since('j1', 0));
      expect(all.map(({ seq }) => seq)).toEqual(all.map(({ seq }) => seq).sort((a, b) => a - b));
    });

    it('takes an empty batch, and knows nothing of a job it never saw', async () => {
      expect(await store.append([])).toEqual({ ok: true, accepted: [], duplicate: [], last: 0 });
      expect(await store.since('never', 0)).toEqual([]);
      expect(await store.count('never')).toBe(0);
      await store.append(log);
      expect(await store.count('j1')).toBe(log.length);
    });

    it('takes thousands of events in one batch', async () => {
      const many = story(Array.from({ length: 2500 }, (_, n) => take('rest_volts', n / 100)));
      expect(await store.append(many)).toMatchObject({ ok: true, last: 2500 });
      expect(await idsOf('j1', 2498)).toHaveLength(2);
      expect(await store.append(many)).toMatchObject({ ok: true, accepted: [], last: 2500 });
    });

    it('throws after closing, and may be closed twice', async () => {
      await store.append(log);
      await store.close();
      await store.close();
      await expect(store.append(log)).rejects.toThrow();
      await expect(store.jobs()).rejects.toThrow();
    });
  });
}
