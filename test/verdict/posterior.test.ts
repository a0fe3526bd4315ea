import { describe, expect, it } from 'vitest';
import {
  classMasses,
  logSum,
  marginals,
  normalise,
  normaliseInPlace,
  probabilityOf,
} from '../../src/verdict/posterior.ts';
import { stream } from './random-model.ts';

describe('posterior', () => {
  it('agrees with plain division where that does not overflow', () => {
    const random = stream(3);
    const weights = Float64Array.from({ length: 500 }, () => random() * 4);
    const sum = weights.reduce((a, b) => a + b, 0);
    const posterior = normalise(weights.map(Math.log));
    for (let i = 0; i < weights.length; i++) expect(posterior[i]).toBeCloseTo(weights[i]! / sum, 14);
  });

  it('keeps its footing where e^x would overflow or vanish', () => {
    expect(Array.from(normalise(Float64Array.of(-5000, -5000 + Math.log(3), -Infinity)))).toEqual([
      expect.closeTo(0.25, 12),
      expect.closeTo(0.75, 12),
      0,
    ]);
    expect(logSum(Float64Array.of(900, 900))).toBeCloseTo(900 + Math.LN2, 10);
  });

  it('leaves its input alone, and the other one overwrites it and returns the log of the evidence', () => {
    const logs = Float64Array.of(Math.log(0.2), Math.log(0.1));
    normalise(logs);
    expect(logs[0]).toBe(Math.log(0.2));
    expect(normaliseInPlace(logs)).toBeCloseTo(Math.log(0.3), 12);
    expect(logs[0]).toBeCloseTo(2 / 3, 12);
  });

  it('says so when every hypothesis is excluded', () => {
    const logs = new Float64Array(4).fill(-Infinity);
    expect(normaliseInPlace(logs)).toBe(-Infinity);
    expect(Array.from(logs)).toEqual([0, 0, 0, 0]);
  });

  it('refuses a weight that is no number', () => {
    expect(() => logSum(Float64Array.of(0, Number.NaN))).toThrow(/logWeights\[1\]/);
    expect(() => logSum(Float64Array.of(Infinity))).toThrow(RangeError);
  });

  it('adds up features and classes as a plain loop does', () => {
    const random = stream(11);
    const n = 300;
    const weights = Float64Array.from({ length: n }, () => random());
    const features = Uint32Array.from({ length: n }, () => Math.floor(random() * 2 ** 32));
    const sums = marginals(weights, features, 32);
    for (let f = 0; f < 32; f++) {
      expect(sums[f]).toBeCloseTo(
        probabilityOf(weights, (h) => Math.floor(features[h]! / 2 ** f) % 2 === 1),
        10,
      );
    }
    const classes = Int32Array.from({ length: n }, () => Math.floor(random() * 3));
    expect(classMasses(weights, classes, 3)[2]).toBeCloseTo(
      probabilityOf(weights, (h) => classes[h] === 2),
      10,
    );
    expect(() => marginals(weights, features, 33)).toThrow(RangeError);
    expect(() => marginals(weights, features.slice(1), 4)).toThrow(RangeError);
  });
});
