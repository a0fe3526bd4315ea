import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  compare,
  decimal,
  fromNumber,
  minus,
  over,
  plus,
  rational,
  times,
  toNumber,
} from '../../src/units/rational.ts';

describe('exact fractions', () => {
  test('are kept in lowest terms with a positive denominator', () => {
    expect(rational(6n, -8n)).toEqual({ num: -3n, den: 4n });
    expect(rational(0n, -5n)).toEqual({ num: 0n, den: 1n });
    expect(() => rational(1n, 0n)).toThrow(RangeError);
    expect(() => over(rational(1n), rational(0n))).toThrow(RangeError);
  });

  test.each([
    ['0.0254', 127n, 5000n],
    ['-1.5e-3', -3n, 2000n],
    ['2e3', 2000n, 1n],
    ['.5', 1n, 2n],
    ['5.', 5n, 1n],
  ])('%s', (text, num, den) => {
    expect(decimal(text)).toEqual({ num, den });
  });

  test.each(['', '.', '1,2', 'x', '1e', '--1', ' 1'])('%j is no decimal', (text) => {
    expect(() => decimal(text)).toThrow(RangeError);
  });

  test('the double is the nearest one: as the language itself rounds decimals', () => {
    fc.assert(
      fc.property(
        fc.bigInt({ min: -(10n ** 25n), max: 10n ** 25n }),
        fc.integer({ min: -290, max: 280 }),
        (digits, exponent) => {
          const text = `${digits}e${exponent}`;
          expect(toNumber(decimal(text))).toBe(Number(text) + 0);
        },
      ),
      { numRuns: 3000, seed: 5 },
    );
  });

  test('ties go to the even neighbour', () => {
    const half = rational(1n, 2n);
    const big = rational(2n ** 53n);
    expect(toNumber(plus(big, rational(1n)))).toBe(2 ** 53);
    expect(toNumber(plus(big, rational(3n)))).toBe(2 ** 53 + 4);
    expect(toNumber(plus(big, plus(rational(1n), half)))).toBe(2 ** 53 + 2);
  });

  test('past the largest double it is Infinity', () => {
    expect(toNumber(decimal('1e999'))).toBe(Number.POSITIVE_INFINITY);
    expect(toNumber(decimal('-1e999'))).toBe(Number.NEGATIVE_INFINITY);
  });

  test('every finite double is held exactly', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(toNumber(fromNumber(value))).toBe(value + 0);
      }),
      { numRuns: 3000, seed: 6 },
    );
    expect(() => fromNumber(Number.NaN)).toThrow(RangeError);
  });

  test('the rules of arithmetic hold without rounding', () => {
    const any = fc
      .tuple(fc.bigInt({ min: -1000n, max: 1000n }), fc.bigInt({ min: 1n, max: 1000n }))
      .map(([a, b]) => rational(a, b));
    fc.assert(
      fc.property(any, any, any, (a, b, c) => {
        expect(times(a, plus(b, c))).toEqual(plus(times(a, b), times(a, c)));
        expect(plus(minus(a, b), b)).toEqual(a);
        if (b.num !== 0n) expect(times(over(a, b), b)).toEqual(a);
        expect(compare(a, b)).toBe(-compare(b, a) + 0);
      }),
      { numRuns: 500, seed: 8 },
    );
  });
});
