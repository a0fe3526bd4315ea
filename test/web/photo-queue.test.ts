/** The queue of photographs against a laptop that is away, slow, refuses, or dies between taking one and saying so. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openPhotoQueue, type PhotoSent } from '../../src/web/photo-queue.ts';

function bench(answer: (photo: string, time: number) => PhotoSent | 'dies') {
  const waiting = new Set<string>();
  const laptop = new Set<string>();
  const sends: string[] = [];
  const told: { count: number; refused: ReadonlyMap<string, string> }[] = [];
  const heldUp: (string | null)[] = [];
  let timer: { readonly act: () => void; readonly ms: number } | null = null;
  const queue = openPhotoQueue({
    waiting: async () => [...waiting],
    bytes: async (photo) => (waiting.has(photo) ? new ArrayBuffer(1) : null),
    send: async (photo) => {
      sends.push(photo);
      const said = answer(photo, sends.length);
      if (said === 'dies') {
        laptop.add(photo);
        return { ok: false, kind: 'unreachable', why: 'dead' };
      }
      if (said.ok) laptop.add(photo);
      return said;
    },
    acknowledged: async (photo) => void waiting.delete(photo),
    heldUp: (why) => heldUp.push(why),
    changed: (count, refused) => told.push({ count, refused: new Map(refused) }),
    later: (act, ms) => {
      const mine = { act, ms };
      timer = mine;
      return () => {
        if (timer === mine) timer = null;
      };
    },
  });
  return {
    waiting,
    laptop,
    sends,
    told,
    heldUp,
    queue,
    /** How long until it tries by itself, ms; null when it does not. */
    wait: () => timer?.ms ?? null,
    ring: () => {
      const { act } = timer!;
      timer = null;
      act();
      return queue.flush();
    },
  };
}
const OK: PhotoSent = { ok: true };
const AWAY: PhotoSent = { ok: false, kind: 'unreachable', why: 'away' };
const NO: PhotoSent = { ok: false, kind: 'refused', why: 'The photograph is odd.' };

describe('the queue of photographs', () => {
  it('sends each once, in order, and says how many are left', async () => {
    const b = bench(() => OK);
    for (const photo of ['a', 'b', 'c']) b.waiting.add(photo);
    await b.queue.flush();
    expect(b.sends).toEqual(['a', 'b', 'c']);
    expect(b.told.map(({ count }) => count)).toEqual([3, 2, 1, 0]);
    expect(b.wait()).toBeNull();
  });

  it('passes on what a laptop with no room says, and that it has room again', async () => {
    const full: PhotoSent = { ok: false, kind: 'unreachable', why: 'There is no room left.', said: true };
    const b = bench((_photo, time) => (time === 1 ? full : time === 2 ? AWAY : OK));
    b.waiting.add('a');
    await b.queue.flush();
    await b.ring();
    await b.ring();
    expect(b.heldUp).toEqual(['There is no room left.', null, null]);
    expect([...b.laptop]).toEqual(['a']);
  });

  it('tries again by itself, after ever longer waits, while the laptop is away', async () => {
    const b = bench((_photo, time) => (time <= 8 ? AWAY : OK));
    b.waiting.add('a').add('b');
    await b.queue.flush();
    const waits: (number | null)[] = [b.wait()];
    for (let n = 0; n < 7; n++) {
      await b.ring();
      waits.push(b.wait());
    }
    expect(waits).toEqual([1000, 2000, 4000, 8000, 15_000, 30_000, 30_000, 30_000]);
    await b.ring();
    expect([...b.waiting]).toEqual([]);
    expect(b.wait()).toBeNull();
  });

  it('keeps one that is refused and says why, goes on with the others, and sends it again when told', async () => {
    let taken = false;
    const b = bench((photo) => (photo === 'a' && !taken ? NO : OK));
    b.waiting.add('a').add('b');
    await b.queue.flush();
    expect([...b.waiting]).toEqual(['a']);
    expect(b.told.at(-1)).toEqual({ count: 1, refused: new Map([['a', 'The photograph is odd.']]) });
    await b.queue.flush();
    expect(b.sends).toEqual(['a', 'b']);
    taken = true;
    await b.queue.flush(true);
    expect([...b.waiting]).toEqual([]);
    expect(b.told.at(-1)).toEqual({ count: 0, refused: new Map() });
  });

  it('does not forget one that came while the last look was taken', async () => {
    const b = bench(() => OK);
    const first = b.queue.flush();
    b.waiting.add('late');
    void b.queue.flush();
    await first;
    await new Promise((done) => setTimeout(done, 0));
    expect([...b.laptop]).toEqual(['late']);
  });

  it('loses none whatever the laptop does, and ends when it answers', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.constantFrom<PhotoSent | 'dies'>(OK, AWAY, 'dies'), { maxLength: 12 }),
        fc.integer({ min: 1, max: 5 }),
        async (answers, photos) => {
          const b = bench((_photo, time) => answers[time - 1] ?? OK);
          for (let n = 0; n < photos; n++) b.waiting.add(`${n}`);
          await b.queue.flush();
          for (let n = 0; b.wait() !== null; n++) {
            expect(n).toBeLessThan(20);
            for (let one = 0; one < photos; one++)
              expect(b.waiting.has(`${one}`) || b.laptop.has(`${one}`)).toBe(true);
            await b.ring();
          }
          expect(b.waiting.size).toBe(0);
          expect(b.laptop.size).toBe(photos);
        },
      ),
      { seed: 8, numRuns: 200 },
    );
  });
});
