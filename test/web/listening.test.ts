/** Listening over a connection that stands and is silent: a clock that only moves when told. */
import { describe, expect, it } from 'vitest';
import { listen, SILENT_MS, type Source } from '../../src/web/listening.ts';

interface Made extends Source {
  readonly say: (word: string, data?: string) => void;
  readyState: number;
}

function world() {
  const sources: Made[] = [];
  const rows: string[] = [];
  const timers: { at: number; act: () => void }[] = [];
  const state = { now: 1000, silences: 0 };
  const ports = {
    open: (): Made => {
      const hears = new Map<string, (event: MessageEvent<string>) => void>();
      const made: Made = {
        readyState: 1,
        addEventListener: (type, hear) => void hears.set(type, hear),
        close: () => {
          made.readyState = 2;
        },
        say: (word, data = '') => hears.get(word)?.({ data } as MessageEvent<string>),
      };
      sources.push(made);
      return made;
    },
    took: (data: string) => rows.push(data),
    silent: async () => {
      state.silences += 1;
    },
    later: (act: () => void, ms: number) => {
      const timer = { at: state.now + ms, act };
      timers.push(timer);
      return () => void (timers.includes(timer) && timers.splice(timers.indexOf(timer), 1));
    },
    now: () => state.now,
  };
  const pass = async (ms: number): Promise<void> => {
    const until = state.now + ms;
    for (;;) {
      const next = timers.filter(({ at }) => at <= until).sort((a, b) => a.at - b.at)[0];
      if (!next) break;
      timers.splice(timers.indexOf(next), 1);
      state.now = Math.max(state.now, next.at);
      next.act();
      await Promise.resolve().then(() => undefined);
    }
    state.now = until;
    for (let turn = 0; turn < 5; turn++) await Promise.resolve();
  };
  return { sources, rows, state, timers, pass, listening: listen(ports) };
}

describe('listening', () => {
  it('stays on a connection over which a breath comes', async () => {
    const w = world();
    for (let n = 0; n < 60; n++) {
      await w.pass(5000);
      w.sources[0]!.say(n % 5 === 0 ? 'events' : 'breath', `rows ${n}`);
    }
    expect(w.sources).toHaveLength(1);
    expect(w.state.silences).toBe(0);
    expect(w.rows).toHaveLength(12);
  });

  it('gives a silent one up, and the next as well, until one speaks; a late word of an old one counts for nothing', async () => {
    const w = world();
    w.sources[0]!.say('open');
    await w.pass(SILENT_MS + 2000);
    expect([w.sources.length, w.state.silences, w.sources[0]!.readyState]).toEqual([2, 1, 2]);
    w.sources[0]!.say('events', 'late');
    await w.pass(SILENT_MS + 2000);
    expect([w.sources.length, w.state.silences]).toEqual([3, 2]);
    w.sources[2]!.say('events', 'row');
    await w.pass(SILENT_MS - 2000);
    expect([w.sources.length, w.rows]).toEqual([3, ['row']]);
  });

  it('looks at once when a device wakes, and listens anew where it was refused, without an alarm', async () => {
    const w = world();
    w.state.now += 3_600_000;
    w.listening.look();
    await w.pass(0);
    expect([w.sources.length, w.state.silences]).toEqual([2, 1]);
    w.sources[1]!.readyState = 2;
    await w.pass(SILENT_MS + 2000);
    expect([w.sources.length, w.state.silences]).toEqual([3, 1]);
  });

  it('ends, and leaves no timer', async () => {
    const w = world();
    await w.pass(5000);
    w.listening.end();
    expect([w.timers.length, w.sources[0]!.readyState]).toEqual([0, 2]);
  });
});
