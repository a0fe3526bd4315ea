/** Shares evened out: closed forms and what must stay as it was. Temperature scaling after Guo et al. 2017, from memory. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FaultId } from '../../src/fault/catalogue.ts';
import { TEMPER, tempered } from '../../src/verdict/temper.ts';
import type { Told } from '../../src/verdict/told.ts';

const line = (faults: readonly FaultId[], share: number, found = 1): Told => ({
  faults,
  repairs: [],
  share,
  probability: share * found,
});

describe('tempered shares', () => {
  it('takes the root of the odds at a power of one half: 16 to 1 become 4 to 1', () => {
    const [a, b] = tempered([line(['drain'], 16 / 17), line([], 1 / 17)], 0.5);
    expect(a!.share).toBeCloseTo(0.8, 12);
    expect(b!.share).toBeCloseTo(0.2, 12);
  });

  it('looks at a set as a whole, however many lines it came in, and these keep their shares of it', () => {
    const whole = tempered([line(['drain'], 0.9), line([], 0.1)]);
    const parts = tempered([line(['drain'], 0.6), line([], 0.1), line(['drain'], 0.3)]);
    expect(parts[0]!.share + parts[2]!.share).toBeCloseTo(whole[0]!.share, 12);
    expect(parts[0]!.share / parts[2]!.share).toBeCloseTo(2, 12);
    expect(parts[1]!.share).toBeCloseTo(whole[1]!.share, 12);
  });

  it('keeps the sum, the order and "none of these" of any list, and is never bolder', () => {
    const names: FaultId[] = ['drain', 'overload', 'breaker-joint' as FaultId, 'rotor-weak' as FaultId];
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 1e-9, max: 1, noNaN: true }), { minLength: 2, maxLength: 4 }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        (weights, found) => {
          const total = weights.reduce((sum, w) => sum + w, 0);
          const list = weights.map((w, n) => line([names[n]!], w / total, found));
          const told = tempered(list);
          const sum = (of: (t: Told) => number) => told.reduce((all, t) => all + of(t), 0);
          expect(sum((t) => t.share)).toBeCloseTo(1, 9);
          expect(sum((t) => t.probability)).toBeCloseTo(found, 9);
          for (let a = 0; a < list.length; a++)
            for (let b = 0; b < list.length; b++)
              if (list[a]!.share > list[b]!.share)
                expect(told[a]!.share).toBeGreaterThanOrEqual(told[b]!.share);
          expect(Math.max(...told.map((t) => t.share))).toBeLessThanOrEqual(
            Math.max(...list.map((t) => t.share)) + 1e-12,
          );
        },
      ),
    );
  });

  it('leaves a list alone at a power of one, and one that nothing speaks for', () => {
    const list = [line(['drain'], 0.7), line([], 0.3)];
    expect(tempered(list, 1).map((t) => t.share)).toEqual([0.7, 0.3]);
    expect(tempered([line([], 0)]).map((t) => t.share)).toEqual([0]);
    expect(TEMPER).toBeLessThan(1);
  });
});
