/**
 * Posterior over an enumerated list of hypotheses: log weights in, probabilities and marginals out. Exact; the
 * list is whatever the caller enumerates (sets of faults, particles, rows of a joint table).
 */

/** Log of the sum of e^logWeight, without overflow; −Infinity when every hypothesis is excluded. Natural log, no unit. */
export function logSum(logWeights: Float64Array): number {
  let top = -Infinity;
  for (let i = 0; i < logWeights.length; i++) {
    const value = logWeights[i]!;
    if (!(value < Infinity)) {
      throw new RangeError(`logWeights[${i}] must be a finite number or -Infinity, got ${value}`);
    }
    if (value > top) top = value;
  }
  if (top === -Infinity) return -Infinity;
  let sum = 0;
  for (let i = 0; i < logWeights.length; i++) sum += Math.exp(logWeights[i]! - top);
  return top + Math.log(sum);
}

/**
 * Overwrites log weights with the probabilities they stand for and returns the log of their sum, nats: the log
 * of the evidence where the weights were prior × likelihood. When every hypothesis is excluded it returns −Infinity
 * and leaves zeros: nothing on the list explains the observations, which the caller has to say aloud.
 */
export function normaliseInPlace(logWeights: Float64Array): number {
  const total = logSum(logWeights);
  if (total === -Infinity) {
    logWeights.fill(0);
    return total;
  }
  for (let i = 0; i < logWeights.length; i++) logWeights[i] = Math.exp(logWeights[i]! - total);
  return total;
}

/** Probabilities of the hypotheses, no unit; the input is left as it is. All zero when every hypothesis is excluded. */
export function normalise(logWeights: Float64Array): Float64Array {
  const posterior = Float64Array.from(logWeights);
  normaliseInPlace(posterior);
  return posterior;
}

/** Probability that a hypothesis for which `has` is true holds, no unit. */
export function probabilityOf(posterior: Float64Array, has: (hypothesis: number) => boolean): number {
  let sum = 0;
  for (let i = 0; i < posterior.length; i++) if (has(i)) sum += posterior[i]!;
  return sum;
}

/**
 * Probability of each feature, no unit. Hypothesis h has feature f when bit f of `features[h]` is set; at most 32
 * features. Works with unnormalised weights too, and then returns masses.
 */
export function marginals(weights: Float64Array, features: Uint32Array, count: number): Float64Array {
  if (!Number.isInteger(count) || count < 0 || count > 32) {
    throw new RangeError(`count must be an integer from 0 to 32 (one bit a feature), got ${count}`);
  }
  if (features.length !== weights.length) {
    throw new RangeError(`features must be as long as weights (${weights.length}), got ${features.length}`);
  }
  const sums = new Float64Array(count);
  for (let h = 0; h < weights.length; h++) {
    const weight = weights[h]!;
    if (weight === 0) continue;
    // Walk the set bits only: most hypotheses have three features or fewer.
    for (let bits = features[h]!; bits !== 0; bits &= bits - 1) {
      const f = 31 - Math.clz32(bits & -bits);
      if (f < count) sums[f]! += weight;
    }
  }
  return sums;
}

/** Mass of each class, in the unit of `weights`; hypothesis h belongs to class `classes[h]`, 0 … count − 1. */
export function classMasses(weights: Float64Array, classes: Int32Array, count: number): Float64Array {
  const sums = new Float64Array(count);
  for (let h = 0; h < weights.length; h++) sums[classes[h]!]! += weights[h]!;
  return sums;
}
