/** Photographs in the browser: what waits is never let go; of the rest, the newest that fit stay. */
import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openPhotoStore } from '../../src/web/photo-store.ts';

let count = 0;
const fresh = (room?: number) => openPhotoStore(`photos-${count++}`, room);
const bytes = (length: number, value = 1) => new Uint8Array(length).fill(value).buffer;

describe('photographs in the browser', () => {
  it('come back byte for byte, also after the page was opened anew', async () => {
    const name = `photos-${count++}`;
    const store = openPhotoStore(name);
    await store.keep('a', bytes(3, 7), true, 1);
    await store.close();
    const again = openPhotoStore(name);
    const found = await again.find('a');
    expect([...new Uint8Array(found!.bytes)]).toEqual([7, 7, 7]);
    expect(found!.waiting).toBe(true);
    expect(await again.find('b')).toBeNull();
    await again.close();
  });

  it('wait in the order they were taken, until the laptop has them', async () => {
    const store = fresh();
    await store.keep('b', bytes(1), true, 2);
    await store.keep('a', bytes(1), true, 1);
    await store.keep('c', bytes(1), false, 0);
    expect(await store.waiting()).toEqual(['a', 'b']);
    await store.setWaiting('a', false);
    await store.setWaiting('nobody', true);
    expect(await store.waiting()).toEqual(['b']);
    await store.setWaiting('c', true);
    expect(await store.waiting()).toEqual(['c', 'b']);
  });

  it('that wait go on waiting when the same one is seen elsewhere', async () => {
    const store = fresh();
    await store.keep('a', bytes(1), true, 1);
    await store.keep('a', bytes(1), false, 2);
    expect(await store.waiting()).toEqual(['a']);
  });

  it('make room: the oldest that the laptop has goes first, one that waits never', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.nat(9), fc.integer({ min: 1, max: 40 }), fc.boolean()), { maxLength: 15 }),
        async (deeds) => {
          const store = fresh(100);
          const told = new Map<string, { size: number; waiting: boolean; at: number }>();
          for (const [at, [number, size, waiting]] of deeds.entries()) {
            const before = told.get(`${number}`);
            told.set(`${number}`, { size, waiting: waiting || before?.waiting === true, at });
            await store.keep(`${number}`, bytes(size), waiting, at);
            // What the store must have let go by now, reckoned beside it.
            let left = 100;
            for (const [name, one] of [...told].sort((a, b) => b[1].at - a[1].at)) {
              if (one.waiting) continue;
              left -= one.size;
              if (left < 0) told.delete(name);
            }
          }
          for (let number = 0; number < 10; number++)
            expect((await store.find(`${number}`)) !== null).toBe(told.has(`${number}`));
          const waits = [...told].filter(([, { waiting }]) => waiting).sort((a, b) => a[1].at - b[1].at);
          expect(await store.waiting()).toEqual(waits.map(([name]) => name));
          await store.close();
        },
      ),
      { seed: 3, numRuns: 60 },
    );
  });
});
