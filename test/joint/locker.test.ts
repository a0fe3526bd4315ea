import { describe, expect, test } from 'vitest';
import { lockerAt, lockerClock, lockerPace } from '../../src/joint/locker.ts';

function clockAt(temperature: number, surface: 'steel' | 'aluminium' = 'steel') {
  const clock = lockerClock({ temperature, surface });
  if (!clock.ok) throw new Error(clock.why);
  return clock;
}

describe('pace', () => {
  test('never quicker when colder, low end never above the high end', () => {
    let last = lockerPace(5);
    for (let t = 6; t <= 149; t++) {
      const pace = lockerPace(t);
      expect(pace.low).toBeLessThanOrEqual(last.low);
      expect(pace.high).toBeLessThanOrEqual(last.high);
      expect(pace.low).toBeLessThanOrEqual(pace.high + 1e-12);
      last = pace;
    }
    expect(lockerPace(22)).toEqual({ low: 1, high: 1 });
  });
});

describe('what may be done', () => {
  test('wet, setting, set, full, in this order and never back', () => {
    const clock = clockAt(12, 'aluminium');
    const times = [0, 0.1, 0.3, 0.5, 1, 2, 10, 30, 60, 100, 200, 400].map((hours) => hours * 3600);
    const phases = times.map((elapsed) => lockerAt(clock, elapsed).phase);
    expect([...new Set(phases)]).toEqual(['wet', 'setting', 'set', 'full']);
    const may = { no: 0, perhaps: 1, yes: 2 };
    for (let i = 1; i < times.length; i++) {
      const [before, after] = [lockerAt(clock, times[i - 1]!), lockerAt(clock, times[i]!)];
      expect(may[after.handle]).toBeGreaterThanOrEqual(may[before.handle]);
      expect(may[after.load]).toBeGreaterThanOrEqual(may[before.load]);
    }
    expect(lockerAt(clock, clock.full.low).load).toBe('perhaps');
    expect(lockerAt(clock, clock.full.high).load).toBe('yes');
  });

  test('the sentence names the time', () => {
    expect(lockerAt(clockAt(22), 60).words).toContain('10 min after it went on');
    expect(lockerAt(clockAt(22), 3600).words).toContain('full strength comes 24 h after');
  });
});

describe('refusals and mistakes', () => {
  test('too cold, too hot, plated without primer', () => {
    expect(lockerClock({ temperature: 2, surface: 'steel' })).toMatchObject({
      ok: false,
      why: expect.stringMatching(/^At 2 °C .*warm the parts above 5 °C/),
    });
    expect(lockerClock({ temperature: 160, surface: 'steel' })).toMatchObject({
      ok: false,
      why: expect.stringContaining('cool'),
    });
    expect(lockerClock({ temperature: 22, surface: 'plated' })).toMatchObject({
      ok: false,
      why: expect.stringContaining('plated'),
    });
  });

  test('temperatures and times that cannot be', () => {
    expect(() => lockerClock({ temperature: Number.NaN, surface: 'steel' })).toThrow('temperature must be');
    expect(() => lockerAt(clockAt(22), -1)).toThrow('elapsed must be a finite number from 0, got -1');
  });
});
