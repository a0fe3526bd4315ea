/** Decision problems drawn at random, the same for the same seed: 5 faults, 1–3 present at once, 7 tests of three outcomes. */
import { separateRepairs, type TestModel, type TestTable } from '../../src/verdict/lookahead.ts';

/** Uniform numbers in [0, 1): mulberry32, enough for making test problems. */
export function stream(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function randomModel(
  seed: number,
  tests = 7,
  setUps = 0,
): { model: TestModel; weights: Float64Array } {
  const random = stream(seed * 7919);
  const between = (low: number, high: number) => low + (high - low) * random();
  const faults = 5;
  const sets = Array.from({ length: 32 }, (_, mask) => mask).filter((mask) => {
    const size = [0, 1, 2, 3, 4].filter((f) => (mask >> f) & 1).length;
    return size >= 1 && size <= 3;
  });
  const odds = Array.from({ length: faults }, () => between(0.05, 0.5));
  const raw = sets.map((mask) => odds.reduce((p, odd, f) => p * ((mask >> f) & 1 ? odd : 1), 1));
  const sum = raw.reduce((a, b) => a + b, 0);
  const weights = Float64Array.from(raw, (value) => value / sum);
  const tables: TestTable[] = Array.from({ length: tests }, () => {
    // A test looks at one or two faults; its three outcomes blur into each other.
    const first = Math.floor(random() * faults);
    const second = Math.floor(random() * faults);
    const patterns = Array.from({ length: 4 }, () => {
      const shares = [random() ** 6, random() ** 6, random() ** 6].map((value) => value + 0.01);
      const total = shares.reduce((a, b) => a + b, 0);
      return shares.map((share) => share / total);
    });
    const given = new Float64Array(sets.length * 3);
    sets.forEach((mask, h) => {
      given.set(patterns[((mask >> first) & 1) + 2 * ((mask >> second) & 1)]!, h * 3);
    });
    return {
      cost: between(1, 15),
      setUps: setUps > 0 && random() < 0.5 ? 1 << Math.floor(random() * setUps) : 0,
      outcomes: 3,
      given,
    };
  });
  const doCost = Array.from({ length: faults }, () => between(20, 100));
  const missCost = doCost.map((cost) => cost * between(1.5, 4));
  return {
    model: {
      hypotheses: sets.length,
      tests: tables,
      setUpCost: Array.from({ length: setUps }, () => between(3, 20)),
      stopLoss: separateRepairs(Uint32Array.from(sets), doCost, missCost),
      classes: Int32Array.from(sets, (_, h) => h),
      nClasses: sets.length,
    },
    weights,
  };
}
