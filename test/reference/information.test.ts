/** Expected information of a reading against closed forms and against integration. Each check names its source. */
import { describe, expect, it } from 'vitest';
import { discreteInformation, gridInformation } from '../../src/verdict/information.ts';

/** Abscissae and weights of Gauss–Legendre quadrature on −1 … 1. */
function gaussLegendre(n: number): { readonly x: number; readonly w: number }[] {
  return Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let turn = 0; turn < 50; turn++) {
      let [p, before] = [1, 0];
      for (let k = 1; k <= n; k++) [p, before] = [((2 * k - 1) * x * p - (k - 1) * before) / k, p];
      slope = (n * (x * p - before)) / (x * x - 1);
      const step = p / slope;
      x -= step;
      if (Math.abs(step) < 1e-15) break;
    }
    return { x, w: 2 / ((1 - x * x) * slope * slope) };
  });
}

/** Mutual information of class and value, bits, by integration. */
function integrated(
  means: readonly number[],
  sds: readonly number[],
  weights: readonly number[],
  classes: readonly number[],
): number {
  const total = weights.reduce((a, b) => a + b, 0);
  const count = Math.max(...classes) + 1;
  const prior = Array.from({ length: count }, (_, c) =>
    weights.reduce((sum, w, n) => sum + (classes[n] === c ? w / total : 0), 0),
  );
  // Panels between the places where any heap changes: four a deviation within twelve deviations of each.
  const cuts = new Set<number>();
  means.forEach((mean, n) => {
    for (let k = -48; k <= 48; k++) cuts.add(mean + (k / 4) * sds[n]!);
  });
  const edges = [...cuts].sort((a, b) => a - b);
  const points = gaussLegendre(20);
  let bits = 0;
  for (let n = 0; n + 1 < edges.length; n++) {
    const [from, to] = [edges[n]!, edges[n + 1]!];
    for (const { x, w } of points) {
      const at = (from + to) / 2 + (x * (to - from)) / 2;
      const density = new Array<number>(count).fill(0);
      means.forEach((mean, i) => {
        const z = (at - mean) / sds[i]!;
        density[classes[i]!]! +=
          ((weights[i]! / total) * Math.exp(-0.5 * z * z)) / (sds[i]! * Math.sqrt(2 * Math.PI));
      });
      const all = density.reduce((a, b) => a + b, 0);
      density.forEach((d, c) => {
        if (d > 0) bits += ((w * (to - from)) / 2) * d * Math.log2(d / (prior[c]! * all));
      });
    }
  }
  return bits;
}

describe('expected information', () => {
  // Shannon 1948: capacity of a binary symmetric channel, 1 − H(0.1).
  it('a channel with 10 % errors carries 0.531004 bit', () => {
    const given = Float64Array.of(0.9, 0.1, 0.1, 0.9);
    const bits = discreteInformation(given, 2, Float64Array.of(0.5, 0.5), Int32Array.of(0, 1), 2);
    expect(bits).toBeCloseTo(0.531004, 6);
  });

  // Binary-input Gaussian channel at ±1 sd; computed by quadrature.
  it('two normals at ±1, sd 1, carry 0.485944 bit', () => {
    const [means, sds, weights] = [Float64Array.of(-1, 1), Float64Array.of(1, 1), Float64Array.of(0.5, 0.5)];
    const classes = Int32Array.of(0, 1);
    expect(gridInformation(means, sds, weights, classes, 2)).toBeCloseTo(0.485944, 3);
    expect(Math.abs(gridInformation(means, sds, weights, classes, 2, null, 2048) - 0.485944)).toBeLessThan(
      1e-5,
    );
  });

  // Shannon 1948 / Lindley 1956: half log2(1 + prior variance / noise variance).
  it('a linear reading, prior sd 2 and noise sd 1, carries 1.160964 bit', () => {
    const n = 801;
    const means = new Float64Array(n);
    const weights = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      means[i] = -10 + (20 * i) / (n - 1);
      weights[i] = Math.exp(-0.5 * (means[i]! / 2) ** 2);
    }
    const sds = new Float64Array(n).fill(1);
    const classes = Int32Array.from({ length: n }, (_, i) => i);
    expect(Math.abs(gridInformation(means, sds, weights, classes, n) - 1.160964)).toBeLessThan(2e-3);
    expect(Math.abs(gridInformation(means, sds, weights, classes, n, null, 1024) - 1.160964)).toBeLessThan(
      3e-5,
    );
  });

  // No closed form: the defining integral ∫ Σ p(c) p(x|c) log2 (p(x|c) / p(x)) dx by Gauss–Legendre, 20 points on
  // each quarter of a deviation of every heap (abscissae: Abramowitz & Stegun, table 25.4, here by Newton on the Legendre polynomial).
  describe('mixtures of normals, several to a class, against numerical integration', () => {
    const CASES: readonly (readonly [string, number[], number[], number[], number[]])[] = [
      [
        'three classes, one of two heaps',
        [11.8, 12.6, 13.9, 14.3],
        [0.15, 0.2, 0.3, 0.12],
        [1, 2, 3, 1],
        [0, 1, 2, 0],
      ],
      ['same middle, other width: only the tails tell', [0, 0], [1, 3], [1, 1], [0, 1]],
      [
        'narrow heaps on a broad one',
        [0.2, 14.2, 14.5, 30],
        [0.02, 0.05, 0.05, 12],
        [1, 1, 1, 2],
        [0, 1, 2, 3],
      ],
      ['a rare class', [14.2, 13.1], [0.1, 0.4], [0.97, 0.03], [0, 1]],
    ];
    for (const [name, means, sds, weights, classes] of CASES) {
      it(name, () => {
        const exact = integrated(means, sds, weights, classes);
        const bits = (bins: number) =>
          gridInformation(
            Float64Array.from(means),
            Float64Array.from(sds),
            Float64Array.from(weights),
            Int32Array.from(classes),
            Math.max(...classes) + 1,
            null,
            bins,
          );
        expect(exact).toBeGreaterThan(0.05);
        expect(Math.abs(bits(4096) - exact)).toBeLessThan(5e-5);
        // What the verdict uses: a hundredth of a bit is what it may err.
        expect(Math.abs(bits(96) - exact)).toBeLessThan(0.01);
        // Merging outcomes loses information and never adds any (data processing).
        expect(bits(96)).toBeLessThan(exact + 1e-5);
        expect(bits(12)).toBeLessThan(bits(96) + 1e-6);
      });
    }

    it('the integral itself: the two normals at ±1 once more', () => {
      expect(integrated([-1, 1], [1, 1], [1, 1], [0, 1])).toBeCloseTo(0.485944, 6);
    });
  });
});
