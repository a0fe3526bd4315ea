/**
 * In which order to do repairs when the bike is tried after each: least expected cost. Where exactly one fault is
 * present and every action cures its own faults, doing the cheapest per unit of probability first (C/p) is exact
 * (Kalagnanam & Henrion 1990). Where actions overlap or several faults are present at once it is not, and the order
 * is found by dynamic programming over the sets of actions already done: up to 16 actions, 2^16 sets.
 */

/** One thing that can be done. */
export interface Action {
  /** Cost of doing it, in any one unit (minutes, money), ≥ 0. */
  readonly cost: number;
  /** Faults it cures, one bit each. */
  readonly cures: number;
}

/** One possible state of the bike. */
export interface Situation {
  /** Faults that are present, one bit each; 0 = sound. */
  readonly faults: number;
  /** Probability, no unit; the list adds up to 1 or less. */
  readonly probability: number;
}

/** An order of work with what it costs on average. */
export interface RepairOrder {
  /** Indices of the actions; those that can no longer be needed are left out. */
  readonly order: readonly number[];
  /** Expected cost, in the unit of the actions' costs. */
  readonly expectedCost: number;
}

/** Largest number of actions that the exact search takes, dimensionless. */
export const MOST_ACTIONS = 16;
const NOTHING = 1e-12;

/** Probability that faults are left once those in `cured` are cured, no unit. */
function leftOver(situations: readonly Situation[], cured: number): number {
  let sum = 0;
  for (const { faults, probability } of situations) if ((faults & ~cured) !== 0) sum += probability;
  return sum;
}

/** Every fault that may still be present. */
function stillPossible(situations: readonly Situation[], cured: number): number {
  let open = 0;
  for (const { faults, probability } of situations) if (probability > NOTHING) open |= faults & ~cured;
  return open;
}

/** Expected cost of an order, in the unit of the actions' costs: each action is paid for while faults are left. */
export function expectedCost(
  actions: readonly Action[],
  situations: readonly Situation[],
  order: readonly number[],
): number {
  let cured = 0;
  let cost = 0;
  for (const index of order) {
    const action = actions[index];
    if (!action) throw new RangeError(`order must name actions 0 to ${actions.length - 1}, got ${index}`);
    cost += action.cost * leftOver(situations, cured);
    cured |= action.cures;
  }
  return cost;
}

/** The C/p rule, looked at afresh after each action: least cost per probability that this action ends the search. */
export function ratioOrder(actions: readonly Action[], situations: readonly Situation[]): RepairOrder {
  const order: number[] = [];
  const waiting = actions.map((_, index) => index);
  let cured = 0;
  while (waiting.length > 0) {
    const left = leftOver(situations, cured);
    const open = stillPossible(situations, cured);
    let best = -1;
    let bestGain = -1;
    let bestCost = Infinity;
    waiting.forEach((index, place) => {
      const { cost, cures } = actions[index]!;
      if ((cures & open) === 0) return;
      const gain = left - leftOver(situations, cured | cures);
      // Compared crosswise (gain/cost), so that a free action needs no division by zero; at equal ratio the cheaper.
      const better = gain * bestCost > bestGain * cost * (1 + 1e-12);
      if (bestGain < 0 || better || (gain === bestGain && cost < bestCost)) {
        best = place;
        bestGain = gain;
        bestCost = cost;
      }
    });
    if (best < 0) break;
    const index = waiting.splice(best, 1)[0]!;
    order.push(index);
    cured |= actions[index]!.cures;
  }
  return { order, expectedCost: expectedCost(actions, situations, order) };
}

/** Whether the C/p rule is exact here: one fault at a time and no fault that two actions cure. */
function ratioIsExact(actions: readonly Action[], situations: readonly Situation[]): boolean {
  let seen = 0;
  for (const { cures } of actions) {
    if ((seen & cures) !== 0) return false;
    seen |= cures;
  }
  return situations.every(({ faults }) => (faults & (faults - 1)) === 0);
}

/** The order of least expected cost. Takes any number of actions where the C/p rule is exact, else at most MOST_ACTIONS. */
export function bestOrder(actions: readonly Action[], situations: readonly Situation[]): RepairOrder {
  for (const { cost } of actions)
    if (!(cost >= 0)) throw new RangeError(`cost must be 0 or more, got ${cost}`);
  for (const { probability } of situations) {
    if (!(probability >= 0 && probability <= 1))
      throw new RangeError(`probability must be 0 to 1, got ${probability}`);
  }
  if (ratioIsExact(actions, situations)) return ratioOrder(actions, situations);
  const n = actions.length;
  if (n > MOST_ACTIONS)
    throw new RangeError(`actions must be at most ${MOST_ACTIONS} where they overlap, got ${n}`);
  const merged = mergeSame(situations);
  const size = 1 << n;
  const cures = new Int32Array(size);
  for (let set = 1; set < size; set++) {
    const low = 31 - Math.clz32(set & -set);
    cures[set] = cures[set & (set - 1)]! | actions[low]!.cures;
  }
  // From the full set down: least cost still to come once `set` is done.
  const toCome = new Float64Array(size);
  const pick = new Int8Array(size).fill(-1);
  for (let set = size - 2; set >= 0; set--) {
    const left = leftOver(merged, cures[set]!);
    const open = stillPossible(merged, cures[set]!);
    let best = Infinity;
    for (let a = 0; a < n; a++) {
      if ((set >> a) & 1 || (actions[a]!.cures & open) === 0) continue;
      const cost = actions[a]!.cost * left + toCome[set | (1 << a)]!;
      if (cost < best) {
        best = cost;
        pick[set] = a;
      }
    }
    toCome[set] = best === Infinity ? 0 : best;
  }
  const order: number[] = [];
  for (let set = 0; pick[set]! >= 0; set |= 1 << order[order.length - 1]!) order.push(pick[set]!);
  return { order, expectedCost: toCome[0]! };
}

/** Adds up situations with the same faults: the search asks about them once for each of 2^n sets. */
function mergeSame(situations: readonly Situation[]): Situation[] {
  const sums = new Map<number, number>();
  for (const { faults, probability } of situations) sums.set(faults, (sums.get(faults) ?? 0) + probability);
  return [...sums].map(([faults, probability]) => ({ faults, probability }));
}
