/** Shims and stack-up: wishes, edges of the choice, warnings, refusals. */
import { describe, expect, it } from 'vitest';
import { chooseShims, type ShimSize, stackWords } from '../../src/drive/choose-shims.ts';
import { barePlay, endPlayWith, shimForAlignment, shimForEndPlay, stepAfter } from '../../src/drive/shim.ts';
import { stackUp, toleranceLeft } from '../../src/drive/stack-up.ts';

const THOU = 0.0254 / 1000;

function stock(...thou: readonly (readonly [number, number])[]): readonly ShimSize[] {
  return thou.map(([thick, count]) => ({ thickness: thick * THOU, count }));
}

function wish(low: number, high: number, target = (low + high) / 2) {
  return { low: low * THOU, high: high * THOU, target: target * THOU };
}

describe('wanted stack', () => {
  it('adds the step to the old stack, and says the step that is left', () => {
    const wanted = shimForAlignment(30 * THOU, -10 * THOU, 2 * THOU);
    expect(wanted.ok && wanted.wish.target / THOU).toBeCloseTo(20, 9);
    expect(stepAfter(30 * THOU, -10 * THOU, 20 * THOU)).toBeCloseTo(0, 12);
    expect(stepAfter(30 * THOU, 10 * THOU, 35 * THOU) / THOU).toBeCloseTo(5, 9);
  });

  it('refuses to take out more than is in', () => {
    const none = shimForAlignment(20 * THOU, -30 * THOU, 2 * THOU);
    expect(none).toMatchObject({
      ok: false,
      why: expect.stringMatching(/30 thou.* proud.*20 thou.*leaves .*10 thou/),
    });
    expect(shimForAlignment(20 * THOU, -21 * THOU, 2 * THOU).ok).toBe(true);
  });

  it('takes the end play without shims from the play over a stack, and back', () => {
    const bare = barePlay(12 * THOU, 40 * THOU);
    expect(endPlayWith(bare, 40 * THOU) / THOU).toBeCloseTo(12, 9);
    const wanted = shimForEndPlay(bare, { low: 2 * THOU, high: 6 * THOU });
    if (!wanted.ok) throw new Error(wanted.why);
    for (const stack of [wanted.wish.low, wanted.wish.high]) {
      const play = endPlayWith(bare, stack) / THOU;
      expect(Math.min(Math.abs(play - 2), Math.abs(play - 6))).toBeLessThan(1e-9);
    }
    expect(endPlayWith(bare, 60 * THOU)).toBeLessThan(0);
  });

  it('refuses where the play is too small without any shim', () => {
    const none = shimForEndPlay(2 * THOU, { low: 5 * THOU, high: 10 * THOU });
    expect(none).toMatchObject({ ok: false, why: expect.stringMatching(/2 thou.*5 thou.*cannot add play/) });
    expect(() => shimForEndPlay(-1, { low: 0, high: 1 })).toThrow(
      /bare must be a finite number from 0, got -1/,
    );
    expect(() => shimForEndPlay(1, { low: 2, high: 1 })).toThrow(/wanted\.low must not be above/);
  });
});

describe('choice', () => {
  it('takes one shim where one is within tolerance, though two would be nearer', () => {
    const choice = chooseShims(stock([20, 2], [30, 2], [60, 1]), wish(45, 65, 50), 3);
    expect(choice.ok && choice.stack.counts).toEqual([0, 0, 1]);
  });

  it('takes no shim where none is wanted', () => {
    const choice = chooseShims(stock([10, 1]), wish(-2, 6), 2);
    expect(choice).toMatchObject({ ok: true, onLimit: false, says: 'Fit no shim.' });
    expect(choice.ok && choice.stack.shims).toBe(0);
  });

  it('names the nearest and how far it misses when none fits, on either side', () => {
    const thin = chooseShims(stock([10, 2], [60, 2]), wish(220, 230), 3);
    expect(thin).toMatchObject({
      ok: false,
      why: expect.stringMatching(/nearest is 2 × 1\.524 mm \(60 thou\) \+ .*too thin/),
    });
    expect(!thin.ok && thin.miss / THOU).toBeCloseTo(-90, 9);
    const thick = chooseShims(stock([60, 2]), wish(50, 55), 3);
    expect(!thick.ok && thick.miss / THOU).toBeCloseTo(5, 9);
    const empty = chooseShims([], wish(10, 12), 3);
    expect(empty).toMatchObject({
      ok: false,
      why: expect.stringMatching(/nearest is no shim, .*10 thou\) too thin/),
    });
  });

  it('works in whole steps: 0.1 + 0.2 mm is exactly on a limit of 0.3 mm', () => {
    const sizes = [
      { thickness: 0.0001, count: 1 },
      { thickness: 0.0002, count: 1 },
    ];
    const choice = chooseShims(sizes, { low: 0.0003, high: 0.0004, target: 0.00035 }, 2);
    expect(choice).toMatchObject({
      ok: true,
      onLimit: true,
      says: expect.stringMatching(/on the very limit/),
    });
  });

  it("warns when the shims' own errors may carry the stack past the limit", () => {
    const sizes = stock([60, 2]).map((size) => ({ ...size, error: 0.6 * THOU }));
    const near = chooseShims(sizes, wish(119, 125), 2);
    expect(near).toMatchObject({
      ok: true,
      onLimit: true,
      says: expect.stringMatching(/own errors, .*1\.2 thou/),
    });
    expect(chooseShims(sizes, wish(118, 125), 2)).toMatchObject({ ok: true, onLimit: false });
  });

  it('prefers the thinner stack of two equally near, and single thick shims of two equal ones', () => {
    const equal = chooseShims(stock([20, 1], [24, 1]), wish(18, 26), 1);
    expect(equal.ok && equal.stack.counts).toEqual([1, 0]);
    const same = chooseShims(stock([20, 1], [30, 2], [40, 1]), wish(60, 60), 2);
    expect(same.ok && same.stack.counts).toEqual([1, 0, 1]);
    expect(stackWords(stock([20, 1], [30, 2], [40, 1]), [1, 0, 1])).toBe(
      '1.016 mm (40 thou) + 0.508 mm (20 thou)',
    );
  });

  it('never uses more than are at hand or allowed', () => {
    const choice = chooseShims(stock([10, 0], [20, 1]), wish(38, 42), 6);
    expect(choice.ok).toBe(false);
    expect(chooseShims(stock([20, 9]), wish(38, 42), 1).ok).toBe(false);
    expect(chooseShims(stock([20, 9]), wish(38, 42), 2).ok).toBe(true);
  });

  it.each([
    [
      () => chooseShims(stock([-10, 1]), wish(1, 2), 1),
      /sizes\[0\]\.thickness must be a finite number above 0/,
    ],
    [() => chooseShims(stock([1e6, 1]), wish(1, 2), 1), /sizes\[0\]\.thickness must be from 1e-8 to 0\.1 m/],
    [() => chooseShims(stock([10, 1.5]), wish(1, 2), 1), /sizes\[0\]\.count must be a whole number/],
    [
      () => chooseShims(stock([10, 1]), wish(2, 1, 1), 1),
      /wish\.target must be from wish\.low to wish\.high/,
    ],
    [() => chooseShims(stock([10, 1]), wish(-5, -1), 1), /wish\.high must be a finite number from 0/],
    [() => chooseShims(stock([10, 1]), wish(1, 2), 9), /most must be a whole number from 0 to 8, got 9/],
    [() => chooseShims(Array(25).fill(stock([10, 1])[0]), wish(1, 2), 2), /at most 24 sizes, got 25/],
  ])('throws for input that cannot be (%#)', (call, rule) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(rule);
  });
});

describe('stack-up', () => {
  const parts = [
    { share: 1, nominal: 0.05, tolerance: 0.0001 },
    { share: -1, nominal: 0.02, tolerance: 0.0002 },
    { share: -2, nominal: 0.01, tolerance: 0.00005 },
  ];

  it('adds with signs, widens without, and names the part to measure next', () => {
    const sum = stackUp(parts);
    expect(sum.middle).toBeCloseTo(0.01, 12);
    expect(sum.worst).toBeCloseTo(0.0004, 12);
    expect(sum.rss).toBeCloseTo(Math.sqrt(1e-8 + 4e-8 + 1e-8), 12);
    expect(sum.range.low).toBeCloseTo(0.0096, 12);
    expect(sum.measureNext).toBe(1);
  });

  it('takes a measured part at what it measures', () => {
    const measured = parts.with(1, {
      ...parts[1]!,
      measured: { length: 0.0201, error: 0.00001 },
    } as (typeof parts)[0]);
    const sum = stackUp(measured);
    expect(sum.middle).toBeCloseTo(0.0099, 12);
    expect(sum.worst).toBeCloseTo(0.00021, 12);
  });

  it('says the tolerance left for one more part, or none', () => {
    const left = toleranceLeft(parts, -2, 0.0006, 'worst');
    expect(left).toBeCloseTo(0.0001, 12);
    const rss = toleranceLeft(parts, 1, 0.0006, 'rss')!;
    expect(stackUp([...parts, { share: 1, nominal: 0, tolerance: rss }]).rss).toBeCloseTo(0.0006, 12);
    expect(toleranceLeft(parts, 1, 0.0003, 'worst')).toBeNull();
    expect(toleranceLeft([], 2, 0.001, 'worst')).toBeCloseTo(0.0005, 12);
    expect(() => toleranceLeft(parts, 0, 0.1, 'worst')).toThrow(/share must not be 0/);
    expect(() => stackUp([])).toThrow(/at least 1 part/);
    expect(() => stackUp([{ share: 1, nominal: 0, tolerance: -1 }])).toThrow(/parts\[0\]\.tolerance must/);
  });
});
