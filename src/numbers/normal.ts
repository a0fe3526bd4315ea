/** The standard normal distribution. */

/** Error function, dimensionless, from −1 to 1: Abramowitz & Stegun 7.1.26, absolute error under 1.5e-7. */
export function erf(x: number): number {
  const t = 1 / (1 + 0.3275911 * Math.abs(x));
  const y =
    1 -
    ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) *
      t *
      Math.exp(-x * x);
  return x < 0 ? -y : y;
}

/** Cumulative normal probability, dimensionless. */
export function normalBelow(z: number): number {
  return 0.5 * (1 + erf(z / Math.SQRT2));
}

/** Natural log of the normal density with mean 0 and variance `variance`, dimensionless. */
export function logNormalDensity(difference: number, variance: number): number {
  return -0.5 * (Math.log(2 * Math.PI * variance) + (difference * difference) / variance);
}
