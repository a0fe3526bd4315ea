/**
 * A battery as two wells of charge: one gives and takes at once, the other refills it through a narrow pipe. It is the
 * kinetic model of Manwell and McGowan, "Lead acid battery storage model for hybrid energy systems", Solar Energy 50
 * (1993) 399–405. It says why a heavy load leaves charge behind and why the rest comes back overnight. Held by its authors
 * for rates between about C/100 and C/1; a starter's current lies far outside, so cranking is not reckoned with it.
 */

/** The two wells of a battery. */
export interface Wells {
  /** Charge when both are full, Ah. */
  readonly ampHours: number;
  /** Share of it in the well that gives at once, 1. */
  readonly share: number;
  /** How fast the levels come together, 1/h: k′ = k/(c(1 − c)). */
  readonly perHour: number;
}

/** A capacity that was measured: emptied in so many hours by a constant current. */
export interface RatedCapacity {
  readonly hours: number;
  readonly ampHours: number;
}

/** Charge that a constant current draws when it empties the available well in so many hours, Ah. */
export function capacityAt(wells: Wells, hours: number): number {
  if (!(hours > 0)) throw new RangeError(`hours must be above 0, got ${hours}`);
  const { ampHours, share: c, perHour: k } = wells;
  const x = k * hours;
  const gone = -Math.expm1(-x);
  return (ampHours * c * x) / (gone + c * (x - gone));
}

/** Share of the available well by which two capacities have the ratio that was measured, 1; outside 0–1 where none can. */
function shareFor(short: RatedCapacity, long: RatedCapacity, k: number): number {
  const ratio = (short.ampHours / long.ampHours) * (long.hours / short.hours);
  const [goneShort, goneLong] = [-Math.expm1(-k * short.hours), -Math.expm1(-k * long.hours)];
  const [restShort, restLong] = [k * short.hours - goneShort, k * long.hours - goneLong];
  return (goneLong - ratio * goneShort) / (ratio * restShort - restLong);
}

/** Slowest and fastest pipe that is looked for, 1/h, and how finely. */
const PIPES = { least: 0.005, most: 20, steps: 160 };

/**
 * The wells that give three capacities, shortest time first, as the authors fit them; null where no two wells do. Throws
 * RangeError when times or charges do not rise.
 */
export function wellsFrom(rated: readonly [RatedCapacity, RatedCapacity, RatedCapacity]): Wells | null {
  const [one, two, three] = rated;
  for (const [a, b] of [
    [one, two],
    [two, three],
  ] as const)
    if (!(a.hours > 0 && a.ampHours > 0 && b.hours > a.hours && b.ampHours >= a.ampHours))
      throw new RangeError(`rated must rise in hours and charge, got ${JSON.stringify(rated)}`);
  const apart = (k: number) => shareFor(one, three, k) - shareFor(one, two, k);
  const at = (n: number) => PIPES.least * (PIPES.most / PIPES.least) ** (n / PIPES.steps);
  for (let n = 0; n < PIPES.steps; n++) {
    let [low, high] = [at(n), at(n + 1)];
    const sign = Math.sign(apart(low));
    if (Math.sign(apart(high)) === sign) continue;
    for (let step = 0; step < 60; step++) {
      const middle = Math.sqrt(low * high);
      if (Math.sign(apart(middle)) === sign) low = middle;
      else high = middle;
    }
    const share = shareFor(one, three, high);
    // The difference also changes sign where a share runs through infinity.
    if (!(share > 0 && share < 1) || Math.abs(apart(high)) > 1e-6) continue;
    const unit = { ampHours: 1, share, perHour: high };
    return { ...unit, ampHours: three.ampHours / capacityAt(unit, three.hours) };
  }
  return null;
}

/** Charge in both wells, Ah. Written in place: a month takes ten thousand steps. */
export interface WellCharge {
  available: number;
  bound: number;
}

/**
 * Lets a constant current run for a time, exactly. `amps` is + when it discharges. The wells may run over or under: who
 * calls it says what that means.
 */
export function runWells(wells: Wells, charge: WellCharge, amps: number, hours: number): void {
  const { share: c, perHour: k } = wells;
  const x = k * hours;
  const gone = -Math.expm1(-x);
  const whole = charge.available + charge.bound;
  // Both formulas as printed, with (1 − e^(−kt)) and (kt − 1 + e^(−kt)) taken together.
  charge.available += (whole * c - charge.available) * gone - (amps * (gone + c * (x - gone))) / k;
  charge.bound = whole - amps * hours - charge.available;
}

/** Greatest constant current that the available well can give for a time, A. */
export function mostAmps(wells: Wells, charge: WellCharge, hours: number): number {
  const { share: c, perHour: k } = wells;
  const x = k * hours;
  const gone = -Math.expm1(-x);
  const whole = charge.available + charge.bound;
  return (k * (charge.available + (whole * c - charge.available) * gone)) / (gone + c * (x - gone));
}
