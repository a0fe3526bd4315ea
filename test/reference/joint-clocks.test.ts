/** Locker and sealant clocks against what manuals of the US Army and standards print, and what is only remembered. */
import { describe, expect, test } from 'vitest';
import {
  LOCKER_SERVICE,
  LOCKER_UNDO_HEAT,
  lockerAdvice,
  lockerAt,
  lockerClock,
} from '../../src/joint/locker.ts';
import { sealantAt, sealantClock } from '../../src/joint/sealant.ts';

const MINUTE = 60;
const HOUR = 3600;
const DAY = 24 * HOUR;

function locker(temperature: number, surface: 'steel' | 'aluminium' | 'stainless', primer = false) {
  const clock = lockerClock({ temperature, surface, primer });
  if (!clock.ok) throw new Error(clock.why);
  return clock;
}

describe('locker', () => {
  test('makers’ sheets in general: handling in 10–30 min, full in 24 h at room temperature', () => {
    const { handling, full } = locker(22, 'steel');
    expect(handling).toEqual({ low: 10 * MINUTE, high: 30 * MINUTE });
    expect(full).toEqual({ low: 24 * HOUR, high: 24 * HOUR });
  });

  test('makers’ sheets in general: full in 30 min at 120 °C', () => {
    const { full } = locker(120, 'steel');
    expect(full.low / MINUTE).toBeCloseTo(30, 9);
    expect(full.high / MINUTE).toBeCloseTo(30, 9);
  });

  test('makers’ sheets in general: stainless needs primer', () => {
    expect(lockerClock({ temperature: 22, surface: 'stainless' })).toMatchObject({
      ok: false,
      why: expect.stringContaining('primer'),
    });
    expect(locker(22, 'stainless', true).ok).toBe(true);
  });

  test('from memory: cold doubles or worse, aluminium is slower', () => {
    const cold = locker(10, 'steel');
    expect(cold.full.low).toBeGreaterThanOrEqual(2 * 24 * HOUR);
    expect(cold.full.high).toBeGreaterThan(cold.full.low);
    expect(locker(22, 'aluminium').full.high).toBeGreaterThan(locker(22, 'steel').full.high);
    expect(cold.sources.some(({ fromMemory }) => fromMemory)).toBe(true);
  });

  test('US Army TM 10-3930-643-20: −54 to 149 °C, clean and dry first, wet the bottom threads of a blind hole', () => {
    expect(LOCKER_SERVICE).toEqual({ low: -54, high: 149 });
    expect(lockerClock({ temperature: 22, surface: 'steel', clean: false })).toMatchObject({ ok: false });
    expect(lockerAdvice('medium', true, false).join(' ')).toMatch(
      /Clean and dry .* bottom two or three threads/,
    );
  });

  test('from memory: high strength wants about 230–315 °C to come apart, never near magnets or seals', () => {
    expect(LOCKER_UNDO_HEAT).toEqual({ low: 230, high: 315 });
    expect(lockerAdvice('high', false, true).join(' ')).toMatch(/230–315 °C.*magnet or a seal/);
    expect(lockerAdvice('medium', false, true).join(' ')).not.toContain('°C');
  });

  test('common practice, no source: the torque is never set again once it sets', () => {
    const clock = locker(22, 'steel');
    expect(lockerAt(clock, 9 * MINUTE).turn).toBe('yes');
    for (const elapsed of [10 * MINUTE, HOUR, 2 * DAY]) {
      expect(lockerAt(clock, elapsed).turn).toBe('no');
      expect(lockerAt(clock, elapsed).words).toContain('never set the torque again');
    }
  });
});

describe('sealant', () => {
  const BEAD = { temperature: 22, humidity: 0.5, depth: 0.006, cure: 'neutral' } as const;

  test('US Army TM 9-2320-302-20: skins in 15–30 min; the joint is closed before', () => {
    const clock = sealantClock(BEAD);
    if (!clock.ok) throw new Error(clock.why);
    expect(clock.skin).toEqual({ low: 15 * MINUTE, high: 30 * MINUTE });
    expect(sealantAt(clock, 14 * MINUTE).close).toBe('yes');
    expect(sealantAt(clock, 15 * MINUTE).close).toBe('no');
  });

  test('from memory: 2–3 mm a day from an open face, 1–7 days to full strength', () => {
    const clock = sealantClock(BEAD);
    if (!clock.ok) throw new Error(clock.why);
    expect(clock.through.low).toBeCloseTo(2 * DAY, 3);
    expect(clock.through.high).toBeCloseTo(3 * DAY, 3);
    expect(clock.full.high).toBeCloseTo(7 * DAY, 3);
    const thin = sealantClock({ ...BEAD, depth: 0.001 });
    expect(thin.ok && thin.full.low).toBeCloseTo(DAY, 3);
    expect(clock.sources.filter(({ fromMemory }) => fromMemory)).toHaveLength(1);
  });

  test('MIL-A-46106B: acid cure attacks copper and electronics', () => {
    const near = { ...BEAD, nearElectrics: true };
    expect(sealantClock({ ...near, cure: 'acid' })).toMatchObject({
      ok: false,
      why: expect.stringContaining('neutral-cure'),
    });
    expect(sealantClock(near)).toMatchObject({ ok: true });
  });

  test('not fuel-resistant, clean faces, never on a gasket specified dry', () => {
    expect(sealantClock({ ...BEAD, touchesFuel: true })).toMatchObject({ ok: false });
    expect(sealantClock({ ...BEAD, clean: false })).toMatchObject({ ok: false });
    expect(sealantClock({ ...BEAD, dryGasket: true })).toMatchObject({
      ok: false,
      why: expect.stringContaining('dry'),
    });
  });
});
