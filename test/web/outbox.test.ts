import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Entry, openOutbox, type Sent, type Shelf } from '../../src/web/outbox.ts';

interface Note extends Entry {
  readonly text: string;
}

/** A browser's storage that may be full. */
function shelfOf(kept = new Map<string, string>(), full: () => boolean = () => false): Shelf {
  return {
    keys: () => [...kept.keys()],
    get: (key) => kept.get(key) ?? null,
    set: (key, text) => {
      if (full()) throw new Error('QuotaExceededError');
      kept.set(key, text);
    },
    remove: (key) => void kept.delete(key),
  };
}

/** A laptop with a store, a clock that only moves when told, and an outbox between them. */
function world(options: { kept?: Map<string, string>; full?: () => boolean } = {}) {
  const kept = options.kept ?? new Map<string, string>();
  const store = new Map<string, Note>();
  const arrived: string[] = [];
  const heldUp: (string | null)[] = [];
  const timers: { at: number; act: () => void }[] = [];
  const state = {
    full: null as string | null,
    alive: true,
    now: 1000,
    refuse: (_: Note): string | null => null,
    answers: true,
  };
  const send = async (_job: string, events: readonly Note[]): Promise<Sent> => {
    await Promise.resolve();
    if (!state.alive) return { ok: false, kind: 'unreachable', why: null };
    if (state.full !== null) return { ok: false, kind: 'unreachable', why: state.full };
    const why = events.map(state.refuse).find((said) => said !== null);
    if (why) return { ok: false, kind: 'refused', why };
    for (const event of events) store.set(event.id, event);
    // The laptop has it, but its answer is lost on the way.
    return state.answers
      ? { ok: true, acknowledged: events.map((e) => e.id) }
      : { ok: false, kind: 'unreachable', why: null };
  };
  const outbox = openOutbox<Note>({
    shelf: shelfOf(kept, options.full),
    send,
    changed: () => undefined,
    heldUp: (why) => heldUp.push(why),
    acknowledged: (_, events) => arrived.push(...events.map((event) => event.id)),
    now: () => state.now,
    later: (act, ms) => {
      const timer = { at: state.now + ms, act };
      timers.push(timer);
      return () => void timers.splice(timers.indexOf(timer), timers.includes(timer) ? 1 : 0);
    },
  });
  const settle = async (): Promise<void> => {
    for (let turn = 0; turn < 40; turn += 1) await Promise.resolve();
  };
  const pass = async (ms: number): Promise<void> => {
    state.now += ms;
    for (const timer of timers.splice(0)) {
      if (timer.at <= state.now) timer.act();
      else timers.push(timer);
    }
    await settle();
  };
  return { outbox, kept, store, arrived, heldUp, timers, state, settle, pass };
}

const note = (id: string): Note => ({ id, text: `note ${id}` });

describe('the outbox', () => {
  test('keeps an entry until its id is acknowledged, then lets it go', async () => {
    const w = world();
    expect(w.outbox.put('j', note('a'))).toBe(true);
    expect(w.outbox.waiting()).toHaveLength(1);
    expect(w.kept.size).toBe(1);
    await w.settle();
    expect(w.outbox.waiting()).toEqual([]);
    expect(w.kept.size).toBe(0);
    expect(w.arrived).toEqual(['a']);
  });

  test('a laptop with no room says so, and gets the entry once there is', async () => {
    const w = world();
    w.state.full = 'There is no room left.';
    w.outbox.put('j', note('a'));
    await w.settle();
    expect(w.heldUp).toEqual(['There is no room left.']);
    w.state.full = null;
    await w.pass(1000);
    expect(w.heldUp.at(-1)).toBeNull();
    expect(w.arrived).toEqual(['a']);
    expect(w.kept.size).toBe(0);
  });

  test('a dead laptop is tried again and again, ever more slowly, and loses nothing', async () => {
    const w = world();
    w.state.alive = false;
    w.outbox.put('j', note('a'));
    await w.settle();
    expect(w.outbox.waiting()).toHaveLength(1);
    const waits: number[] = [];
    for (let round = 0; round < 7; round += 1) {
      const next = w.timers[0];
      expect(w.timers).toHaveLength(1);
      waits.push((next?.at ?? 0) - w.state.now);
      await w.pass(waits.at(-1) ?? 0);
    }
    expect(waits).toEqual([1000, 2000, 4000, 8000, 15000, 15000, 15000]);
    w.state.alive = true;
    await w.pass(15000);
    expect(w.outbox.waiting()).toEqual([]);
    expect([...w.store.keys()]).toEqual(['a']);
    expect(w.timers).toEqual([]);
  });

  test('an answer lost on the way sends the entry twice and keeps it once', async () => {
    const w = world();
    w.state.answers = false;
    w.outbox.put('j', note('a'));
    await w.settle();
    expect(w.store.size).toBe(1);
    expect(w.kept.size).toBe(1);
    w.state.answers = true;
    await w.outbox.flush();
    expect(w.store.size).toBe(1);
    expect(w.kept.size).toBe(0);
  });

  test('one bad entry does not hold up the others, and stays with its reason', async () => {
    const w = world();
    w.state.alive = false;
    for (const id of ['a', 'b', 'c']) w.outbox.put('j', note(id));
    await w.settle();
    w.state.alive = true;
    w.state.refuse = (event) => (event.id === 'b' ? 'b is no event.' : null);
    await w.outbox.flush();
    expect([...w.store.keys()]).toEqual(['a', 'c']);
    expect(w.outbox.waiting()).toEqual([expect.objectContaining({ refused: 'b is no event.' })]);
    // It is not sent again unasked, but it is when asked.
    w.state.refuse = () => null;
    await w.outbox.flush();
    expect(w.store.has('b')).toBe(false);
    await w.outbox.flush(true);
    expect(w.store.has('b')).toBe(true);
    expect(w.kept.size).toBe(0);
  });

  test('what a closed page left is sent by the next one', async () => {
    const first = world();
    first.state.alive = false;
    first.outbox.put('j', note('a'), 9000);
    first.outbox.put('k', note('b'));
    await first.settle();
    const second = world({ kept: first.kept });
    second.state.now = 20_000;
    expect(second.outbox.waiting().map((w) => w.event.id)).toEqual(['a', 'b']);
    await second.outbox.flush();
    expect([...second.store.keys()].sort()).toEqual(['a', 'b']);
    expect(second.kept.size).toBe(0);
  });

  test('a held entry can be taken back until it goes out', async () => {
    const w = world();
    w.outbox.put('j', note('a'), 9000);
    w.outbox.put('j', note('b'));
    await w.settle();
    expect([...w.store.keys()]).toEqual(['b']);
    expect(w.outbox.drop('a')).toBe(true);
    w.outbox.put('j', note('c'), 9000);
    await w.settle();
    await w.pass(9001);
    expect([...w.store.keys()]).toEqual(['b', 'c']);
    expect(w.outbox.drop('c')).toBe(false);
  });

  test('a full browser says so, holds on in memory and still sends', async () => {
    let full = true;
    const w = world({ full: () => full });
    w.state.alive = false;
    expect(w.outbox.put('j', note('a'))).toBe(false);
    expect(w.outbox.waiting()).toHaveLength(1);
    await w.settle();
    w.state.alive = true;
    full = false;
    await w.outbox.flush();
    expect(w.store.has('a')).toBe(true);
    expect(w.outbox.waiting()).toEqual([]);
  });

  test('leaves alone what it cannot read', () => {
    const kept = new Map([
      ['chargewright.outbox.x', '{"job":"j","ev'],
      ['someone.else', '1'],
    ]);
    expect(world({ kept }).outbox.waiting()).toEqual([]);
    expect(kept.size).toBe(2);
  });

  test('whatever the laptop does, every entry is on the shelf or acknowledged, never neither', async () => {
    const step = fc.constantFrom('put', 'hold', 'die', 'live', 'deaf', 'hear', 'pass', 'flush', 'reopen');
    await fc.assert(
      fc.asyncProperty(fc.array(step, { maxLength: 40 }), async (steps) => {
        const kept = new Map<string, string>();
        let w = world({ kept });
        const reached = new Set<string>();
        let count = 0;
        const check = (): void => {
          for (let n = 0; n < count; n += 1) {
            const id = `e${String(n).padStart(3, '0')}`;
            expect(kept.has(`chargewright.outbox.${id}`) || reached.has(id) || w.store.has(id)).toBe(true);
          }
        };
        for (const what of steps) {
          if (what === 'put' || what === 'hold') {
            w.outbox.put('j', note(`e${String(count).padStart(3, '0')}`), what === 'hold' ? 5000 : 0);
            count += 1;
          } else if (what === 'die' || what === 'live') w.state.alive = what === 'live';
          else if (what === 'deaf' || what === 'hear') w.state.answers = what === 'hear';
          else if (what === 'pass') await w.pass(3000);
          else if (what === 'flush') await w.outbox.flush();
          else {
            await w.settle();
            for (const id of w.store.keys()) reached.add(id);
            w = world({ kept });
          }
          await w.settle();
          check();
        }
        for (const id of w.store.keys()) reached.add(id);
        w.state.alive = true;
        w.state.answers = true;
        w.state.now += 1e6;
        await w.outbox.flush();
        for (const id of w.store.keys()) reached.add(id);
        expect(reached.size).toBe(count);
        expect(kept.size).toBe(0);
      }),
      { numRuns: 200 },
    );
  });
});
