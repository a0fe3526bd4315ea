/** Normal tails far out, where 1 − Φ loses every digit: what a PIT needs of readings that a model finds impossible. */

/** Natural log of the normal upper tail P(Z > z) for z ≥ 0, nats: continued fraction from 2 on, erfc by series below. */
export function logUpper(z: number): number {
  if (z < 2) {
    // erf by its Maclaurin series: at most some 30 terms below 2.
    let term = z;
    let sum = z;
    for (let n = 1; n < 60; n++) {
      term *= (-z * z) / (2 * n);
      sum += term / (2 * n + 1);
    }
    return Math.log(0.5 - sum / Math.sqrt(2 * Math.PI));
  }
  // Laplace: P(Z > z) = φ(z) / (z + 1/(z + 2/(z + 3/(z + …)))).
  let tail = z;
  for (let n = 60; n >= 1; n--) tail = z + n / tail;
  return -0.5 * z * z - 0.5 * Math.log(2 * Math.PI) - Math.log(tail);
}

/** z whose upper tail has this log probability (≤ log ½), dimensionless: Newton on the log tail. */
export function zOfLogUpper(log: number): number {
  let z = Math.sqrt(Math.max(0, -2 * (log + Math.LN2)));
  for (let n = 0; n < 50; n++) {
    const at = logUpper(z);
    // d log P / dz = −φ/P.
    const slope = -Math.exp(-0.5 * z * z - 0.5 * Math.log(2 * Math.PI) - at);
    const step = (at - log) / slope;
    z = Math.max(0, z - step);
    if (Math.abs(step) < 1e-10) break;
  }
  return z;
}

/** z of a mixture of normals from the z of each part and its weight, dimensionless; right far out on both sides. */
export function tailZ(parts: readonly { readonly weight: number; readonly z: number }[]): number {
  let total = 0;
  for (const { weight } of parts) total += weight;
  const side = (sign: 1 | -1): number => {
    // log Σ w P(sign·Z > sign·z)
    const logs = parts
      .filter(({ weight }) => weight > 0)
      .map(({ weight, z }) => {
        const s = sign * z;
        return Math.log(weight / total) + (s >= 0 ? logUpper(s) : Math.log1p(-Math.exp(logUpper(-s))));
      });
    const top = Math.max(...logs);
    return top + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - top), 0));
  };
  const upper = side(1);
  return upper <= -Math.LN2 ? zOfLogUpper(upper) : -zOfLogUpper(Math.min(side(-1), -Math.LN2));
}
