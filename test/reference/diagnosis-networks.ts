/**
 * Small diagnosis networks for comparing posteriors with a solver from outside: variables with listed values, factors,
 * and what was observed. Written as UAI files (the format of the UAI 2008 evaluation of probabilistic inference) for
 * the solver; enumerated set by set for our own `posterior`.
 */

import type { FaultId } from '../../src/fault/catalogue.ts';
import type { Atom } from '../../src/verdict/atoms.ts';
import { catalogueWeights } from '../../src/verdict/field.ts';
import { normaliseInPlace } from '../../src/verdict/posterior.ts';
import { CASCADE, COUNT, extend, makeBase, mayJoin } from '../../src/verdict/sets.ts';
import { stream } from '../verdict/random-model.ts';

export interface Factor {
  /** Variables, the last one running fastest in the table. */
  readonly scope: readonly number[];
  readonly table: readonly number[];
}

export interface Network {
  readonly name: string;
  readonly sizes: readonly number[];
  readonly factors: readonly Factor[];
  /** Variable → value. */
  readonly observed: readonly (readonly [number, number])[];
}

/** A factor from a function of its variables' values. */
export function factorOf(
  sizes: readonly number[],
  scope: readonly number[],
  of: (...values: number[]) => number,
): Factor {
  const table: number[] = [];
  const values = scope.map(() => 0);
  const walk = (at: number): void => {
    if (at === scope.length) {
      table.push(of(...values));
      return;
    }
    for (let v = 0; v < sizes[scope[at]!]!; v++) {
      values[at] = v;
      walk(at + 1);
    }
  };
  walk(0);
  return { scope, table };
}

/** The network as UAI text. 17 digits: nothing is lost between the two sides. */
export function uaiOf(network: Network): string {
  const lines = [
    'MARKOV',
    String(network.sizes.length),
    network.sizes.join(' '),
    String(network.factors.length),
  ];
  for (const { scope } of network.factors) lines.push(`${scope.length} ${scope.join(' ')}`);
  for (const { table } of network.factors)
    lines.push('', String(table.length), table.map((p) => p.toPrecision(17)).join(' '));
  return `${lines.join('\n')}\n`;
}

/** What was observed as UAI evidence text. */
export function evidenceTextOf(network: Network): string {
  return `${network.observed.length}${network.observed.map(([at, value]) => ` ${at} ${value}`).join('')}\n`;
}

/** Every assignment that is not impossible, with its log weight, nats; evidence held fast. */
export function assignments(network: Network): { values: number[][]; logs: Float64Array } {
  const values: number[][] = [];
  const logs: number[] = [];
  const fixed = new Map(network.observed);
  const now = network.sizes.map(() => 0);
  const walk = (at: number): void => {
    if (at === now.length) {
      let log = 0;
      for (const { scope, table } of network.factors) {
        let place = 0;
        for (const variable of scope) place = place * network.sizes[variable]! + now[variable]!;
        log += Math.log(table[place]!);
      }
      if (log === -Infinity) return;
      values.push([...now]);
      logs.push(log);
      return;
    }
    const only = fixed.get(at);
    for (let v = only ?? 0; v <= (only ?? network.sizes[at]! - 1); v++) {
      now[at] = v;
      walk(at + 1);
    }
  };
  walk(0);
  return { values, logs: Float64Array.from(logs) };
}

/** Posterior of each assignment by our own `posterior`, by its values' text, and the log of the evidence, nats. */
export function ownPosterior(network: Network): { shares: Map<string, number>; logEvidence: number } {
  const { values, logs } = assignments(network);
  const logEvidence = normaliseInPlace(logs);
  return { shares: new Map(values.map((v, n) => [v.join(' '), logs[n]!])), logEvidence };
}

/** Six faults, five tests that each see two or three of them through noisy-or, two pairs that breed each other. */
function noisyOr(): Network {
  const random = stream(41);
  const faults = 6;
  const tests = 5;
  const sizes = [...new Array<number>(faults).fill(2), ...new Array<number>(tests).fill(2)];
  const factors: Factor[] = [];
  for (let f = 0; f < faults; f++) {
    const odds = 0.03 + 0.2 * random();
    factors.push(factorOf(sizes, [f], (on) => (on ? odds : 1 - odds)));
  }
  for (const [a, b, factor] of [
    [0, 1, 4],
    [2, 4, 2.5],
  ] as const)
    factors.push(factorOf(sizes, [a, b], (x, y) => (x && y ? factor : 1)));
  for (let t = 0; t < tests; t++) {
    const sees = [t % faults, (t + 1) % faults, (t + 3) % faults];
    const strength = sees.map(() => 0.5 + 0.45 * random());
    const leak = 0.02 + 0.05 * random();
    factors.push(
      factorOf(sizes, [...sees, faults + t], (...v) => {
        let quiet = 1 - leak;
        sees.forEach((_, n) => {
          if (v[n]) quiet *= 1 - strength[n]!;
        });
        return v[3] ? 1 - quiet : quiet;
      }),
    );
  }
  return {
    name: 'noisy-or',
    sizes,
    factors,
    observed: [
      [6, 1],
      [7, 1],
      [8, 0],
      [9, 1],
    ],
  };
}

/** The same kind with three-outcome readings, each of which may have been taken wrongly, and one slip that two share. */
function withMistakes(): Network {
  const random = stream(97);
  const faults = 4;
  const tests = 3;
  // Faults, then the mistake of each reading (right, shifted, anything), then one shared mistake, then the readings.
  const sizes = [...[2, 2, 2, 2], ...[3, 3, 3], 2, ...[3, 3, 3]];
  const shared = faults + tests;
  const factors: Factor[] = [];
  for (let f = 0; f < faults; f++) {
    const odds = 0.05 + 0.15 * random();
    factors.push(factorOf(sizes, [f], (on) => (on ? odds : 1 - odds)));
  }
  factors.push(factorOf(sizes, [0, 1], (x, y) => (x && y ? 3 : 1)));
  factors.push(factorOf(sizes, [shared], (on) => (on ? 0.02 : 0.98)));
  for (let t = 0; t < tests; t++) {
    factors.push(factorOf(sizes, [faults + t], (m) => [0.97, 0.02, 0.01][m]!));
    const shows = Array.from({ length: 4 }, () => {
      const raw = [random() ** 3, random() ** 3, random() ** 3].map((x) => x + 0.02);
      const sum = raw.reduce((a, b) => a + b, 0);
      return raw.map((x) => x / sum);
    });
    const scope = [t, (t + 1) % faults, faults + t, ...(t < 2 ? [shared] : []), shared + 1 + t];
    factors.push(
      factorOf(sizes, scope, (...v) => {
        const right = shows[v[0]! + 2 * v[1]!]!;
        const outcome = v.at(-1)!;
        if (v[2] === 2) return 1 / 3;
        // A shifted reading shows the next outcome; the shared slip shifts both of its readings.
        const shift = (v[2] === 1 ? 1 : 0) + (t < 2 && v[3] === 1 ? 1 : 0);
        return right[(outcome - shift + 3) % 3]!;
      }),
    );
  }
  return {
    name: 'mistakes',
    sizes,
    factors,
    observed: [
      [8, 2],
      [9, 0],
      [10, 1],
    ],
  };
}

/** Eight faults of the catalogue: three that one repair cures, two in each other's cascade, two that have none. */
export const REDUCED: readonly FaultId[] = [
  ...(['plug-pin', 'regulator-dead', 'diode-shorted', 'stator-shorted-turns'] as const),
  ...(['battery-sulphated', 'regulator-runaway', 'drain', 'overload'] as const),
];

/** What a prior of sets is made of. */
export interface Prior {
  /** Chance of 0, 1, 2, 3 faults. */
  readonly count: readonly number[];
  /** Share of each of the eight among all faults. */
  readonly share: readonly number[];
  readonly cascade: readonly (readonly [FaultId, FaultId, number])[];
}

/** The prior that the kept answers were made with: guesses change, the arithmetic may not. */
const KEPT: Prior = {
  count: [0.1, 0.46, 0.3, 0.14],
  share: [0.07, 0.06, 0.05, 0.04, 0.09, 0.03, 0.06, 0.05],
  cascade: [
    ['plug-pin', 'regulator-dead', 1.6],
    ['plug-pin', 'diode-shorted', 1.6],
    ['plug-pin', 'stator-shorted-turns', 1.6],
    ['battery-sulphated', 'regulator-runaway', 1.5],
    ['drain', 'overload', 1.3],
  ],
};

/** The verdict's own prior as it is now. */
export function todaysPrior(): Prior {
  const weights = catalogueWeights();
  const total = Object.values(weights).reduce((sum, w) => sum + w, 0);
  return { count: COUNT, share: REDUCED.map((id) => weights[id] / total), cascade: CASCADE };
}

/** Log of what a prior gives a set of faults, nats, for sets that may be. */
function logPriorOf(prior: Prior, faults: readonly string[]): number {
  let log = Math.log(prior.count[faults.length]!);
  for (let n = 2; n <= faults.length; n++) log += Math.log(n);
  for (const id of faults) log += Math.log(prior.share[REDUCED.indexOf(id as FaultId)]!);
  for (const [a, b, factor] of prior.cascade)
    if (faults.includes(a) && faults.includes(b)) log += Math.log(factor);
  return log;
}

/** Log of what today's prior gives a set against what the kept one gave it, nats. */
export function priorChange(faults: string): number {
  const list = faults === '' ? [] : faults.split('+');
  return logPriorOf(todaysPrior(), list) - logPriorOf(KEPT, list);
}

function reducedTests(): { sees: readonly number[]; shows: number[][]; value: number }[] {
  const random = stream(7);
  return Array.from({ length: 5 }, (_, t) => {
    const sees = [t, (t + 3) % 8, (t + 5) % 8];
    const shows = Array.from({ length: 8 }, () => {
      const raw = [random() ** 3, random() ** 3, random() ** 3].map((x) => x + 0.02);
      const sum = raw.reduce((a, b) => a + b, 0);
      return raw.map((x) => x / sum);
    });
    return { sees, shows, value: Math.floor(3 * random()) };
  });
}

/** The reduced catalogue as a network: counts, shares, cascades and what may not be together as factors; `read` tests observed. */
export function reduced(read: number, prior: Prior = KEPT): Network {
  const tests = reducedTests();
  const sizes = [...REDUCED.map(() => 2), ...tests.map(() => 3)];
  const all = REDUCED.map((_, n) => n);
  const orders = [1, 1, 2, 6];
  const factors: Factor[] = [
    factorOf(sizes, all, (...on) => {
      const many = on.reduce((sum, x) => sum + x, 0);
      return many > 3 ? 0 : prior.count[many]! * orders[many]!;
    }),
    ...prior.share.map((share, n) => factorOf(sizes, [n], (on) => (on ? share : 1))),
  ];
  for (const a of all) {
    for (const b of all.slice(a + 1)) {
      if (!mayJoin([{ fault: REDUCED[a]! }], { fault: REDUCED[b]! }))
        factors.push(factorOf(sizes, [a, b], (x, y) => (x && y ? 0 : 1)));
      for (const [x, y, factor] of prior.cascade) {
        if ([x, y].includes(REDUCED[a]!) && [x, y].includes(REDUCED[b]!))
          factors.push(factorOf(sizes, [a, b], (i, j) => (i && j ? factor : 1)));
      }
    }
  }
  // Readings not taken are left out altogether: they say nothing.
  tests.slice(0, read).forEach(({ sees, shows }, t) => {
    factors.push(
      factorOf(sizes, [...sees, 8 + t], (a, b, c, outcome) => shows[a! + 2 * b! + 4 * c!]![outcome!]!),
    );
  });
  return {
    name: `reduced-${read}`,
    sizes: sizes.slice(0, 8 + read),
    factors,
    observed: tests.slice(0, read).map(({ value }, t) => [8 + t, value] as const),
  };
}

/** The reduced catalogue by the verdict's own sets: posterior by faults' names, `read` readings known. */
export function ownSets(read: number): Map<string, number> {
  const weights = catalogueWeights();
  const atoms: Atom[] = REDUCED.map((fault) => ({
    fault,
    phase: 0,
    variant: 0,
    span: [0, 1],
    second: [0, 1],
    share: 1,
    located: false,
  }));
  const bases = [makeBase([], weights)];
  const grow = (set: readonly Atom[], from: number): void => {
    for (const base of extend(set, atoms, from, weights)) {
      bases.push(base);
      if (base.atoms.length < 3) grow(base.atoms, atoms.indexOf(base.atoms.at(-1)!) + 1);
    }
  };
  grow([], 0);
  const tests = reducedTests().slice(0, read);
  const logs = Float64Array.from(bases, (base) => {
    let log = base.logPrior;
    for (const { sees, shows, value } of tests) {
      const at = sees.reduce((sum, f, n) => sum + (base.faults.includes(REDUCED[f]!) ? 1 << n : 0), 0);
      log += Math.log(shows[at]![value]!);
    }
    return log;
  });
  normaliseInPlace(logs);
  return new Map(bases.map((base, n) => [base.faults.toSorted().join('+'), logs[n]!]));
}

export const NETWORKS: readonly Network[] = [noisyOr(), withMistakes(), reduced(0), reduced(5)];

/** Names of the faults that an assignment of a reduced network holds. */
export function faultsOf(values: string): string {
  const on = values.split(' ').slice(0, REDUCED.length);
  return REDUCED.filter((_, n) => on[n] === '1')
    .toSorted()
    .join('+');
}
