/** Simulation-based calibration, short form: see sbc.ts. The long form: `node scripts/run-ts.mjs test/soak/sbc.ts`. */
import { describe, expect, it } from 'vitest';
import { FAULTS } from '../../src/fault/faults.ts';
import { normalBelow } from '../../src/numbers/normal.ts';
import { atomsOf } from '../../src/verdict/atoms.ts';
import { catalogueWeights } from '../../src/verdict/field.ts';
import { CASCADE, COUNT, mayJoin } from '../../src/verdict/sets.ts';
import { against, evenness, priorOf, type Trial, trials } from './sbc.ts';
import { SBC_BACKS, SBC_KEYS, SBC_SPECS } from './sbc-readings.ts';
import { logUpper, tailZ, zOfLogUpper } from './tail.ts';

describe('what the calibration itself rests on', () => {
  it('normal tails: the table of Abramowitz & Stegun 26.1 and back again', () => {
    // 1 − Φ(1) = .158655254, 1 − Φ(3) = 1.349898e-3, 1 − Φ(6) = 9.865876e-10.
    expect(Math.exp(logUpper(1))).toBeCloseTo(0.158655254, 8);
    expect(Math.exp(logUpper(3)) / 1.349898e-3).toBeCloseTo(1, 6);
    expect(Math.exp(logUpper(6)) / 9.865876e-10).toBeCloseTo(1, 6);
    for (const z of [0, 0.4, 1.9, 2.1, 7, 30]) expect(zOfLogUpper(logUpper(z))).toBeCloseTo(z, 8);
    // A mixture of one is itself on either side; of two, the z of the mean of the probabilities.
    for (const z of [-12, -1, 0.3, 9]) expect(tailZ([{ weight: 2, z }])).toBeCloseTo(z, 8);
    const mixed = tailZ([
      { weight: 1, z: 0.5 },
      { weight: 3, z: -1 },
    ]);
    expect(normalBelow(mixed)).toBeCloseTo(0.25 * normalBelow(0.5) + 0.75 * normalBelow(-1), 6);
  });

  it('the drawn prior is the one believed: counts of faults, cascades, no set twice', () => {
    const spec = SBC_SPECS[0]!;
    const weights = catalogueWeights();
    const ids = [...new Set(atomsOf(spec).map((atom) => atom.fault))];
    const total = Object.values(weights).reduce((sum, w) => sum + w, 0);
    const expected = [COUNT[0], 0, 0, 0];
    const boost = (set: readonly string[]) =>
      CASCADE.reduce((f, [a, b, factor]) => (set.includes(a) && set.includes(b) ? f * factor : f), 1);
    const may = (set: readonly (typeof ids)[number][]) =>
      set.every((fault, n) =>
        mayJoin(
          set.slice(0, n).map((id) => ({ fault: id })),
          { fault },
        ),
      );
    ids.forEach((a, i) => {
      expected[1]! += (COUNT[1] * weights[a]) / total;
      ids.slice(i + 1).forEach((b, j) => {
        if (!may([a, b])) return;
        expected[2]! += (COUNT[2] * 2 * boost([a, b]) * weights[a] * weights[b]) / total ** 2;
        for (const c of ids.slice(i + j + 2)) {
          if (may([a, b, c]))
            expected[3]! +=
              (COUNT[3] * 6 * boost([a, b, c]) * weights[a] * weights[b] * weights[c]) / total ** 3;
        }
      });
    });
    const masses = [0, 0, 0, 0];
    for (const { base } of priorOf(spec)) masses[base.atoms.length]! += base.turns * Math.exp(base.logPrior);
    masses.forEach((mass, n) => {
      expect(mass / expected[n]!).toBeCloseTo(1, 9);
    });
    expect(ids.length).toBeGreaterThan(20);
    expect(new Set(ids.map((id) => FAULTS[id].repair)).size).toBeGreaterThan(10);
  });
});

describe('bikes drawn from the prior that is believed', { timeout: 240_000 }, () => {
  const COUNT_EACH = 20;
  let all: Trial[] = [];
  const every = () => {
    if (all.length === 0)
      all = SBC_SPECS.flatMap((spec) => [...trials(spec, SBC_KEYS, SBC_BACKS, COUNT_EACH)]);
    return all;
  };
  /** The same claims by somebody who is twice as sure. */
  const surer = (trial: Trial) => {
    const sum = trial.claims.reduce((s, [p]) => s + p * p, 0);
    return trial.claims.map(([p, so]) => [(p * p) / sum, so] as const);
  };

  it('sets of faults: Brier score and log score as foretold, and somebody twice as sure is found out', () => {
    const honest = against(every().flatMap((trial) => trial.claims));
    const boaster = against(every().flatMap(surer));
    expect(Math.abs(honest.brierZ)).toBeLessThan(3);
    expect(boaster.brierZ).toBeGreaterThan(honest.brierZ + 2);
    const surprise = every().map((trial) => {
      const foretold = trial.claims.reduce((s, [p]) => s - (p > 0 ? p * Math.log(p) : 0), 0);
      return -Math.log(Math.max(trial.probability, 1e-9)) - foretold;
    });
    const mean = surprise.reduce((s, x) => s + x, 0) / surprise.length;
    const sd = Math.sqrt(surprise.reduce((s, x) => s + (x - mean) ** 2, 0) / surprise.length);
    expect(Math.abs(mean)).toBeLessThan((3.5 * sd) / Math.sqrt(surprise.length));
  });

  it('repairs: as many needed as claimed, in every third of probability', () => {
    const claims = every().flatMap((trial) => trial.repairs);
    for (const [from, to] of [
      [0, 0.1],
      [0.1, 0.8],
      [0.8, 1.01],
    ] as const) {
      const those = against(claims.filter(([p]) => p >= from && p < to));
      expect(those.count).toBeGreaterThan(10);
      // Half a repair is nothing, whatever its deviation.
      if (Math.abs(those.so - those.expected) > 0.5) expect(Math.abs(those.z)).toBeLessThan(3.5);
    }
  });

  it('the rank of the truth is even, by name and by falling probability', () => {
    expect(
      evenness(
        every().map((trial) => trial.byName),
        5,
      ).z,
    ).toBeLessThan(3);
    expect(
      evenness(
        every().map((trial) => trial.byProbability),
        5,
      ).z,
    ).toBeLessThan(3);
    expect(every().length).toBe(COUNT_EACH * SBC_SPECS.length);
  });

  it('the bike’s unknowns and readings kept back lie about as far off as believed', () => {
    const unknowns = every().flatMap((trial) => Object.values(trial.unknowns));
    const kept = every().flatMap((trial) => trial.kept.map(({ z }) => z));
    for (const list of [unknowns, kept]) {
      const square = list.reduce((s, z) => s + z * z, 0) / list.length;
      expect(square).toBeGreaterThan(0.7);
      expect(square).toBeLessThan(1.35);
      expect(list.filter((z) => Math.abs(z) > 4).length).toBeLessThanOrEqual(0.01 * list.length);
    }
    expect(kept.length).toBeGreaterThan(10 * every().length);
  });
});
