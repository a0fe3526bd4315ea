/**
 * The verdict's building blocks against worked examples from outside. Each check names its source; figures marked
 * "computed" follow from the source's tables by exact arithmetic.
 */
import { describe, expect, it } from 'vitest';
import { discreteInformation } from '../../src/verdict/information.ts';
import { minimalSets } from '../../src/verdict/minimal-sets.ts';
import { marginals, normaliseInPlace, probabilityOf } from '../../src/verdict/posterior.ts';
import {
  type Action,
  bestOrder,
  expectedCost,
  ratioOrder,
  type Situation,
} from '../../src/verdict/repair-order.ts';

/** P(yes) or P(no) from P(yes). */
const of = (yes: number, isYes: boolean) => (isYes ? yes : 1 - yes);
const bit = (h: number, place: number) => ((h >> place) & 1) === 1;
const single = (probabilities: readonly number[]): Situation[] =>
  probabilities.map((probability, i) => ({ faults: 1 << i, probability }));

describe('belief networks, enumerated', () => {
  // Lauritzen & Spiegelhalter, "Local computations with probabilities on graphical structures and their application
  // to expert systems", Journal of the Royal Statistical Society B 50 (1988): the chest clinic and its tables.
  it('chest clinic: been to Asia and short of breath', () => {
    const logWeights = new Float64Array(64);
    const features = new Uint32Array(64);
    for (let h = 0; h < 64; h++) {
      const [tb, smokes, lung, bronchitis, xray] = [
        bit(h, 0),
        bit(h, 1),
        bit(h, 2),
        bit(h, 3),
        bit(h, 4),
      ] as const;
      // Bit 5 is dyspnoea: observed, so the hypotheses without it are excluded.
      const either = tb || lung;
      const dyspnoea = either ? (bronchitis ? 0.9 : 0.7) : bronchitis ? 0.8 : 0.1;
      const weight =
        0.01 *
        of(0.05, tb) *
        of(0.5, smokes) *
        of(smokes ? 0.1 : 0.01, lung) *
        of(smokes ? 0.6 : 0.3, bronchitis) *
        of(either ? 0.98 : 0.05, xray) *
        dyspnoea;
      logWeights[h] = bit(h, 5) ? Math.log(weight) : -Infinity;
      features[h] = (h & 31) | (either ? 32 : 0);
    }
    const evidence = Math.exp(normaliseInPlace(logWeights));
    const [tb, smokes, lung, bronchitis, xray, either] = marginals(logWeights, features, 6);
    expect(evidence).toBeCloseTo(0.004501375, 9);
    expect(tb).toBeCloseTo(0.087751, 6);
    expect(lung).toBeCloseTo(0.099525, 6);
    expect(bronchitis).toBeCloseTo(0.811402, 6);
    expect(either).toBeCloseTo(0.1823, 6);
    expect(smokes).toBeCloseTo(0.62592, 6);
    expect(xray).toBeCloseTo(0.219539, 6);
  });

  // Russell & Norvig, "Artificial Intelligence: A Modern Approach", the burglary network; the book prints .284.
  it('burglary: both neighbours call', () => {
    const logWeights = new Float64Array(8);
    for (let h = 0; h < 8; h++) {
      const [burglary, earthquake, alarm] = [bit(h, 0), bit(h, 1), bit(h, 2)];
      const rings = burglary ? (earthquake ? 0.95 : 0.94) : earthquake ? 0.29 : 0.001;
      const calls = alarm ? 0.9 * 0.7 : 0.05 * 0.01;
      logWeights[h] = Math.log(of(0.001, burglary!) * of(0.002, earthquake!) * of(rings, alarm!) * calls);
    }
    normaliseInPlace(logWeights);
    expect(probabilityOf(logWeights, (h) => bit(h, 0))).toBeCloseTo(0.284172, 6);
  });
});

describe('several faults at once: de Kleer & Williams, "Diagnosing multiple faults", Artificial Intelligence 32 (1987)', () => {
  it('multipliers and adders: the four minimal diagnoses', () => {
    // x = 3·2, y = 2·3, z = 2·3; f = x + y reads 10 (12 expected), g = y + z reads 12. A faulty part says nothing.
    const consistent = (faulty: readonly number[]): boolean => {
      const works = (part: number) => !faulty.includes(part);
      const values = Array.from({ length: 41 }, (_, i) => i - 20);
      const may = (part: number) => (works(part) ? [6] : values);
      for (const x of may(0)) {
        for (const y of may(1)) {
          if (works(3) && x + y !== 10) continue;
          for (const z of may(2)) if (!works(4) || y + z === 12) return true;
        }
      }
      return false;
    };
    const names = ['M1', 'M2', 'M3', 'A1', 'A2'];
    const sets = minimalSets(5, consistent).map((set) => set.map((i) => names[i]!).join('+'));
    expect(sets).toEqual(['M1', 'A1', 'M2+M3', 'M2+A2']);
  });

  it('four inverters in a row, in = 1, out = 0: the middle is the best place to probe', () => {
    // A faulty inverter passes its input on; fault rate .01 each. Computed by exact enumeration.
    const weights = new Float64Array(16);
    const signals = [0, 1, 2].map(() => new Float64Array(32));
    const classes = Int32Array.from({ length: 16 }, (_, h) => h);
    for (let h = 0; h < 16; h++) {
      let signal = true;
      let p = 1;
      for (let part = 0; part < 4; part++) {
        const faulty = bit(h, part);
        p *= of(0.01, faulty);
        if (!faulty) signal = !signal;
        if (part < 3) signals[part]![2 * h + (signal ? 1 : 0)] = 1;
      }
      weights[h] = signal ? 0 : p;
    }
    const [b, c, d] = signals.map((given) => discreteInformation(given, 2, weights, classes, 16));
    expect(b).toBeCloseTo(0.8114, 4);
    expect(c).toBeCloseTo(1, 4);
    expect(d).toBeCloseTo(0.8114, 4);
  });
});

describe('order of repairs', () => {
  // The C/p rule as in Kalagnanam & Henrion, "A comparison of decision analysis and expert rules for sequential
  // diagnosis" (1990); figures computed by hand: 3 + .7·10 + .2·5 and 5 + .8·10 + .3·3.
  it('three causes: best order 2, 1, 3 costs 11.0, worst 3, 1, 2 costs 13.9', () => {
    const actions: Action[] = [10, 3, 5].map((cost, i) => ({ cost, cures: 1 << i }));
    const situations = single([0.5, 0.3, 0.2]);
    const best = bestOrder(actions, situations);
    expect(best.order).toEqual([1, 0, 2]);
    expect(best.expectedCost).toBeCloseTo(11, 12);
    expect(expectedCost(actions, situations, [2, 0, 1])).toBeCloseTo(13.9, 12);
  });

  // Four causes, three actions that share them; both orders computed by hand: 1 + .35 + .15 and 1 + .45.
  it('actions that overlap: greedy costs 1.50, the best order 1.45', () => {
    const actions: Action[] = [0b0011, 0b0110, 0b1100].map((cures) => ({ cost: 1, cures }));
    const situations = single([0.2, 0.25, 0.4, 0.15]);
    const greedy = ratioOrder(actions, situations);
    expect(greedy.order).toEqual([1, 0, 2]);
    expect(greedy.expectedCost).toBeCloseTo(1.5, 12);
    const best = bestOrder(actions, situations);
    expect(best.order).toEqual([2, 0]);
    expect(best.expectedCost).toBeCloseTo(1.45, 12);
  });
});
