/**
 * The balanced bridge near its threshold speed, where the current of a phase rests at zero for part of every cycle.
 *
 * Single phase, pulses: from asin(V/Vs) until the current has died.
 * Three phase, pulses: pairs conduct one after another from zero to zero, from the angle θp where the line EMF reaches V,
 * each like a single-phase bridge with √3·Vs, 2R, 2X.
 * Three phase, two and three: with a pair conducting, the star point stands at half the EMF of the resting phase, its
 * terminal at 1.5 times it, so that it joins when its EMF reaches V/3: at the known angle θs = asin(V/3Vs). From θs
 * three phases conduct for the angle μ, until the oldest current has died, then two for the rest of the 60°. The
 * joining current starts from zero whatever the others do, so the current I0 after 60° is an explicit function of μ,
 * and the one condition "the oldest current dies at μ" is a root in μ alone.
 * Three phase, interrupted: as before, but the new pair dies too before its line EMF reaches V, and starts again at θp;
 * I0 is then what has grown from there, and does not depend on μ.
 * Means follow from volt-seconds over the conducting angles. Derived here; checked against the reference table
 * (ngspice, straight-line diodes) and the time-stepping solver.
 */

/** Least R/X: below it differences cancel, and the resistance no longer matters. */
const LEAST_RATIO = 1e-6;
const SIXTH = Math.PI / 3;
const HALF3 = Math.sqrt(3) / 2;
/** Angles this well known are known well enough, rad: amps move with their square. */
const NEAR = 1e-6;

/**
 * Mean DC current of a balanced diode bridge into constant volts where the current is not continuous, A. Arguments as
 * for `continuousAmps`; the caller has found that V is under the peak line EMF and that φ fails its test.
 */
export function pulsedAmps(
  phases: 1 | 3,
  emf: number,
  reactance: number,
  ohm: number,
  volts: number,
): number {
  const r = Math.max(ohm, LEAST_RATIO * reactance);
  return phases === 1
    ? loopAmps(emf, reactance, r, volts, Math.PI) / Math.PI
    : pairAmps(emf, reactance, r, volts);
}

/** Current, A, in a loop with `emf`·sinθ against `volts`, `d` rad after it stood at `i0` at the angle `start`. */
function loopCurrent(
  emf: number,
  x: number,
  r: number,
  volts: number,
  start: number,
  i0: number,
  d: number,
): number {
  const decay = Math.exp((-r / x) * d);
  const z2 = r * r + x * x;
  // sin(θ − ψ)/z with ψ = atan(x/r)
  const then = (r * Math.sin(start + d) - x * Math.cos(start + d)) / z2;
  const first = (r * Math.sin(start) - x * Math.cos(start)) / z2;
  return decay * i0 + emf * (then - decay * first) - (volts / r) * (1 - decay);
}

/** ∫ i dθ of one pulse in a loop with `emf`·sinθ against `volts`, from zero current; the pulse ends within `most` radians. */
function loopAmps(emf: number, x: number, r: number, volts: number, most: number): number {
  const start = Math.asin(volts / emf);
  // The current peaks before the EMF falls back to V and dies after it.
  let low = Math.PI - 2 * start;
  let high = Math.max(most, low);
  // A short pulse is nearly a parabola, which dies half as long again after its peak as it took to reach it.
  let d = Math.min(1.5 * low, high);
  const ratio = r / x;
  const rz = (emf * r) / (r * r + x * x);
  const xz = (emf * x) / (r * r + x * x);
  const c0 = Math.sqrt(1 - (volts / emf) ** 2);
  const first = (rz * volts) / emf - xz * c0;
  let cos = c0;
  for (let n = 0; n < 40; n++) {
    const decay = Math.exp(-ratio * d);
    const sin = Math.sin(start + d);
    cos = Math.cos(start + d);
    const i = rz * sin - xz * cos - decay * first - (volts / r) * (1 - decay);
    if (i > 0) low = d;
    else high = d;
    const slope = (emf * sin - volts - r * i) / x;
    let next = slope < 0 ? d - i / slope : high;
    if (!(next >= low && next <= high)) next = (low + high) / 2;
    if (Math.abs(next - d) < NEAR) break;
    d = next;
  }
  return (emf * (c0 - cos) - volts * d) / r;
}

/** Three phases: pulses, interrupted, or two and three in turn, A. */
function pairAmps(emf: number, x: number, r: number, volts: number): number {
  const start = Math.asin(volts / (3 * emf));
  // The loop of a pair, halved: √3/2·Vs·sin(θ + 30°) against V/2.
  const line = HALF3 * emf;
  const half = volts / 2;
  const end = start + Math.PI / 2;
  const again = Math.asin(Math.min(1, half / line));
  const grown = end > again ? loopCurrent(line, x, r, half, again, 0, end - again) : 0;
  if (grown <= 0) return loopAmps(2 * line, 2 * x, 2 * r, volts, SIXTH) / SIXTH;

  // With no overlap the pair would have to carry current over the whole 60°.
  if (loopCurrent(line, x, r, half, start + Math.PI / 6, 0, SIXTH) > 0) {
    const mu = overlap(emf, x, r, volts, start, Number.NaN);
    const join = start + mu + Math.PI / 6;
    const carried = loopCurrent(emf, x, r, volts / 3, start, 0, mu);
    if (join >= again || loopCurrent(line, x, r, half, join, carried, again - join) > 0) {
      return (threeSeconds(emf, volts, start, mu) + pairSeconds(line, half, join, end)) / (SIXTH * r);
    }
  }
  const mu = overlap(emf, x, r, volts, start, grown);
  const join = start + mu + Math.PI / 6;
  const dead = dies(line, x, r, half, join, loopCurrent(emf, x, r, volts / 3, start, 0, mu), again - join);
  const seconds = pairSeconds(line, half, join, join + dead) + pairSeconds(line, half, again, end);
  return (threeSeconds(emf, volts, start, mu) + seconds) / (SIXTH * r);
}

/** Volt-seconds of the phase that carries the whole DC current while three conduct: −e_b − 2V/3. */
function threeSeconds(emf: number, volts: number, start: number, mu: number): number {
  const b = start - 2 * SIXTH;
  return emf * (Math.cos(b + mu) - Math.cos(b)) - (2 / 3) * volts * mu;
}

/** Volt-seconds of a pair, halved, between two angles of its line EMF. */
function pairSeconds(line: number, half: number, from: number, to: number): number {
  return line * (Math.cos(from) - Math.cos(to)) - half * (to - from);
}

/**
 * Angle μ over which three phases conduct. `fixed` is the current I0 at θs, A, or NaN where it is that of the same pair 60°
 * on, which depends on μ.
 */
function overlap(emf: number, x: number, r: number, volts: number, start: number, fixed: number): number {
  const ratio = r / x;
  const z2 = r * r + x * x;
  // sin(θ − ψ)/z = R·sinθ − X·cosθ over z², for the joining phase, the oldest (120° ahead) and the pair's line (30° ahead).
  const rz = (emf * r) / z2;
  const xz = (emf * x) / z2;
  const s0 = Math.sin(start);
  const c0 = Math.cos(start);
  const first = rz * s0 - xz * c0;
  const firstOld = rz * (HALF3 * c0 - 0.5 * s0) + xz * (0.5 * c0 + HALF3 * s0);
  const lineEnd = HALF3 * (rz * c0 + xz * s0);
  const whole = Math.exp(-ratio * SIXTH);
  const third = volts / (3 * r);
  const periodic = Number.isNaN(fixed);
  let low = 0;
  let high = SIXTH;
  let mu = periodic ? SIXTH / 2 : Math.min((x * fixed) / (emf + volts), SIXTH / 2);
  for (let n = 0; n < 40; n++) {
    const s = Math.sin(start + mu);
    const c = Math.cos(start + mu);
    const decay = Math.exp(-ratio * mu);
    const oldSin = HALF3 * c - 0.5 * s;
    const lineSin = HALF3 * s + 0.5 * c;
    let after = fixed;
    let kink = 0;
    if (periodic) {
      const rest = whole / decay;
      const joining = rz * s - xz * c - decay * first - third * (1 - decay);
      const line = HALF3 * (rz * lineSin - xz * (HALF3 * c - 0.5 * s));
      after = rest * joining + lineEnd - rest * line - 1.5 * third * (1 - rest);
      // A later switching leaves the joining phase its own V/3 for longer, instead of half of the pair's loop.
      kink = (whole * (emf * (s - HALF3 * lineSin) + volts / 6)) / x;
    }
    const oldest =
      decay * (after - firstOld) + rz * oldSin + xz * (0.5 * c + HALF3 * s) - third * (1 - decay);
    if (oldest > 0) low = mu;
    else high = mu;
    const slope = (emf * oldSin - volts / 3 - r * oldest) / x + kink;
    let next = slope < 0 ? mu - oldest / slope : (low + high) / 2;
    if (!(next >= low && next <= high)) next = (low + high) / 2;
    if (Math.abs(next - mu) < NEAR) break;
    mu = next;
  }
  return mu;
}

/** Angle after `from` at which a falling loop current that stands at `i0` dies, within `most` radians. */
function dies(
  emf: number,
  x: number,
  r: number,
  volts: number,
  from: number,
  i0: number,
  most: number,
): number {
  let low = 0;
  let high = Math.max(0, most);
  let d = 0;
  for (let n = 0; n < 40; n++) {
    const i = loopCurrent(emf, x, r, volts, from, i0, d);
    if (i > 0) low = d;
    else high = d;
    const slope = (emf * Math.sin(from + d) - volts - r * i) / x;
    let next = slope < 0 ? d - i / slope : high;
    if (!(next >= low && next <= high)) next = (low + high) / 2;
    if (Math.abs(next - d) < NEAR) break;
    d = next;
  }
  return d;
}
