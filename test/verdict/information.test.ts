import { describe, expect, it } from 'vitest';
import { discreteInformation, entropyBits, gridInformation } from '../../src/verdict/information.ts';
import { stream } from './random-model.ts';

/** The same figure by brute quadrature: 40,000 equal steps, densities computed directly. */
function byQuadrature(
  means: number[],
  sds: number[],
  weights: number[],
  classes: number[],
  count: number,
): number {
  const low = Math.min(...means.map((m, i) => m - 8 * sds[i]!));
  const high = Math.max(...means.map((m, i) => m + 8 * sds[i]!));
  const total = weights.reduce((a, b) => a + b, 0);
  const classMass = Array.from(
    { length: count },
    (_, c) => weights.reduce((s, w, i) => s + (classes[i] === c ? w : 0), 0) / total,
  );
  const steps = 40_000;
  let nats = 0;
  for (let s = 0; s < steps; s++) {
    const x = low + ((s + 0.5) * (high - low)) / steps;
    const density = new Array<number>(count).fill(0);
    means.forEach((m, i) => {
      density[classes[i]!]! +=
        ((weights[i]! / total) * Math.exp(-0.5 * ((x - m) / sds[i]!) ** 2)) /
        (sds[i]! * Math.sqrt(2 * Math.PI));
    });
    const all = density.reduce((a, b) => a + b, 0);
    density.forEach((d, c) => {
      if (d > 0) nats += d * Math.log(d / (classMass[c]! * all));
    });
  }
  return (nats * (high - low)) / steps / Math.LN2;
}

describe('information on a grid', () => {
  it('agrees with brute quadrature on random mixtures within 0.01 bit, from below', () => {
    const random = stream(5);
    for (let trial = 0; trial < 12; trial++) {
      const n = 2 + Math.floor(random() * 12);
      const means = Array.from({ length: n }, () => 10 + 5 * random());
      const sds = Array.from({ length: n }, () => 0.05 + random() ** 2);
      const weights = Array.from({ length: n }, () => random());
      const classes = Array.from({ length: n }, () => Math.floor(random() * 3));
      const exact = byQuadrature(means, sds, weights, classes, 3);
      const bits = gridInformation(...arrays(means, sds, weights, classes), 3);
      expect(bits).toBeLessThan(exact + 1e-4);
      expect(exact - bits).toBeLessThan(0.01);
    }
  });

  it('sees narrow heaps far apart', () => {
    // 0.2 V apart in a range of 60 V: equal bins of 0.6 V would call this reading worthless.
    const bits = gridInformation(
      ...arrays([14.2, 14.4, 55], [0.03, 0.03, 2], [0.45, 0.45, 0.1], [0, 1, 1]),
      2,
    );
    const entropy = entropyBits(Float64Array.of(0.45, 0.55));
    expect(bits).toBeGreaterThan(0.985 * entropy);
    expect(bits).toBeLessThanOrEqual(entropy);
  });

  it('counts "OL" and things seen as outcomes of their own', () => {
    // Class 1 shows "OL" nine times in ten and else the same value as class 0: the channel is the discrete one.
    const extra = { count: 1, given: Float64Array.of(0, 0.9) };
    const bits = gridInformation(...arrays([1, 1], [0.1, 0.1], [0.5, 0.5], [0, 1]), 2, extra);
    const discrete = discreteInformation(
      Float64Array.of(1, 0, 0.1, 0.9),
      2,
      Float64Array.of(0.5, 0.5),
      Int32Array.of(0, 1),
      2,
    );
    expect(bits).toBeCloseTo(discrete, 9);
    // Nothing but extra outcomes: mean and sd are not looked at.
    const seen = { count: 2, given: Float64Array.of(0.9, 0.1, 0.1, 0.9) };
    const only = gridInformation(...arrays([Number.NaN, Number.NaN], [0, 0], [0.5, 0.5], [0, 1]), 2, seen);
    expect(only).toBeCloseTo(0.531004, 6);
  });

  it('is nothing for one class or equal classes, and the same in another unit or with other weights in all', () => {
    const [means, sds, weights, classes] = arrays([1, 2, 3], [0.5, 0.2, 0.5], [1, 2, 1], [0, 1, 0]);
    expect(gridInformation(means, sds, weights, new Int32Array(3), 1)).toBeCloseTo(0, 12);
    expect(gridInformation(...arrays([1, 1], [1, 1], [1, 2], [0, 1]), 2)).toBeCloseTo(0, 9);
    const bits = gridInformation(means, sds, weights, classes, 2);
    const inMilli = gridInformation(
      means.map((v) => 1000 * v),
      sds.map((v) => 1000 * v),
      weights.map((v) => 7 * v),
      classes,
      2,
    );
    expect(inMilli).toBeCloseTo(bits, 9);
    expect(bits).toBeGreaterThan(0.3);
  });

  it('refuses wrong lengths and a standard deviation of nothing', () => {
    expect(() => gridInformation(...arrays([1], [1], [1, 1], [0, 1]), 2)).toThrow(RangeError);
    expect(() => gridInformation(...arrays([1, 2], [0, 1], [1, 1], [0, 1]), 2)).toThrow(/sds/);
    expect(() =>
      discreteInformation(new Float64Array(3), 2, Float64Array.of(1, 1), Int32Array.of(0, 1), 2),
    ).toThrow(/given/);
  });
});

function arrays(
  means: number[],
  sds: number[],
  weights: number[],
  classes: number[],
): [Float64Array, Float64Array, Float64Array, Int32Array] {
  return [
    Float64Array.from(means),
    Float64Array.from(sds),
    Float64Array.from(weights),
    Int32Array.from(classes),
  ];
}
