import { describe, expect, test } from 'vitest';
import { type SealantCase, sealantAt, sealantClock } from '../../src/joint/sealant.ts';

const BEAD: SealantCase = { temperature: 20, humidity: 0.5, depth: 0.005, cure: 'neutral' };

function clockOf(bead: SealantCase) {
  const clock = sealantClock(bead);
  if (!clock.ok) throw new Error(clock.why);
  return clock;
}

describe('clock', () => {
  test('cold and dry air only ever lengthens, warm and damp air only shortens', () => {
    const [fair, cold, damp] = [
      clockOf(BEAD),
      clockOf({ ...BEAD, temperature: 6, humidity: 0.2 }),
      clockOf({ ...BEAD, temperature: 38, humidity: 0.9 }),
    ];
    expect(cold.skin.high).toBeGreaterThan(2 * fair.skin.high);
    expect(cold.skin.low).toBe(fair.skin.low);
    expect(damp.skin.low).toBeLessThan(0.7 * fair.skin.low);
    expect(damp.skin.high).toBe(fair.skin.high);
    expect(cold.sources.length).toBe(fair.sources.length + 1);
  });

  test('deeper takes longer; a film is not cured before it skins', () => {
    expect(clockOf({ ...BEAD, depth: 0.01 }).through.high).toBeCloseTo(2 * clockOf(BEAD).through.high, 3);
    const film = clockOf({ ...BEAD, depth: 1e-6 });
    expect(film.through.low).toBe(film.skin.low);
    expect(clockOf({ ...BEAD, depth: 0.03 }).full.high).toBe(clockOf({ ...BEAD, depth: 0.03 }).through.high);
  });

  test('too cold, and figures that cannot be', () => {
    expect(sealantClock({ ...BEAD, temperature: 1 })).toMatchObject({
      ok: false,
      why: expect.stringContaining('warm the parts'),
    });
    expect(() => sealantClock({ ...BEAD, humidity: 50 })).toThrow('humidity must be from 0 to 1, got 50');
    expect(() => sealantClock({ ...BEAD, depth: 0 })).toThrow('depth must be a finite number above 0, got 0');
    expect(() => sealantAt(clockOf(BEAD), -5)).toThrow('elapsed must be');
  });
});

describe('what may be done', () => {
  test('close, wait, fill, load', () => {
    const clock = clockOf(BEAD);
    const at = (hours: number) => {
      const { phase, close, fill, load } = sealantAt(clock, hours * 3600);
      return [phase, close, fill, load].join(' ');
    };
    expect([0, 0.3, 2, 48, 24 * 3, 24 * 8].map(at)).toEqual([
      'open yes no no',
      'skinning no no no',
      'curing no no no',
      'curing no perhaps perhaps',
      'through no yes perhaps',
      'full no yes yes',
    ]);
  });

  test('the sentence names the time', () => {
    expect(sealantAt(clockOf(BEAD), 0).words).toContain('15 min after it was laid');
    expect(sealantAt(clockOf(BEAD), 7200).words).toContain('40 h to 2.5 days');
  });
});
