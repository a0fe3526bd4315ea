/**
 * The balanced bridge near its threshold speed, where the current of a phase rests at zero for part of every cycle.
 *
 * Three phase, "two and three": a resting phase joins when its EMF reaches V/3 (with two phases conducting the star
 * point stands at half its EMF, so its terminal stands at 1.5 times it), hence at the known angle θs = asin(V/3Vs).
 * From θs three phases conduct for the angle μ, until the oldest current has died, then two for the rest of the 60°.
 * The joining current starts from zero whatever the others do, so the current after 60° is an explicit function of μ,
 * and the one condition "the oldest current dies at μ" is a root in μ alone.
 * Three phase, pulses: pairs conduct one after another from zero to zero, each like a single-phase bridge with
 * √3·Vs, 2R, 2X. Single phase, pulses: from asin(V/Vs) until the current has died.
 * Means follow from volt-seconds over the conducting angles. Derived here; checked against the reference table
 * (ngspice, straight-line diodes) and the time-stepping solver.
 */

/** Least R/X: below it differences cancel, and the resistance no longer matters. */
const LEAST_RATIO = 1e-6;
const SIXTH = Math.PI / 3;

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
  if (phases === 1) return loopAmps(emf, reactance, r, volts, Math.PI) / Math.PI;
  const joined = twoAndThree(emf, reactance, r, volts);
  if (joined >= 0) return joined;
  return loopAmps(Math.sqrt(3) * emf, 2 * reactance, 2 * r, volts, SIXTH) / SIXTH;
}

/** ∫ i dθ of one pulse in a loop with `emf`·sinθ against `volts`, from zero current; the pulse ends within `most` radians. */
function loopAmps(emf: number, x: number, r: number, volts: number, most: number): number {
  const start = Math.asin(volts / emf);
  const ratio = r / x;
  const z = Math.sqrt(r * r + x * x);
  const psi = Math.atan2(x, r);
  const from = Math.sin(start - psi);
  // The current peaks before the EMF falls back to V and dies after it: Newton from the far side, kept in a bracket.
  let low = Math.PI - 2 * start;
  let high = Math.max(most, low);
  // A short pulse is nearly a parabola, which dies half as long again after its peak as it took to reach it.
  let d = Math.min(1.5 * low, high);
  for (let n = 0; n < 40; n++) {
    const decay = Math.exp(-ratio * d);
    const i = (emf / z) * (Math.sin(start + d - psi) - decay * from) - (volts / r) * -Math.expm1(-ratio * d);
    if (i > 0) low = d;
    else high = d;
    const slope = (emf * Math.sin(start + d) - volts - r * i) / x;
    let next = slope < 0 ? d - i / slope : high;
    if (!(next >= low && next <= high)) next = (low + high) / 2;
    if (Math.abs(next - d) < 1e-7) break;
    d = next;
  }
  return (emf * (Math.cos(start) - Math.cos(start + d)) - volts * d) / r;
}

/** Mean DC current with two and three phases conducting in turn, A; −1 when the current dies altogether in between. */
function twoAndThree(emf: number, x: number, r: number, volts: number): number {
  const start = Math.asin(volts / (3 * emf));
  const ratio = r / x;
  const z = Math.sqrt(r * r + x * x);
  const sinPsi = x / z;
  const cosPsi = r / z;
  const sinStart = volts / (3 * emf);
  const cosStart = Math.sqrt(1 - sinStart * sinStart);
  // sin(θs − ψ) of the joining phase and of the oldest, a third of a cycle ahead.
  const lagStart = sinStart * cosPsi - cosStart * sinPsi;
  const aheadSin = -0.5 * sinStart + HALF3 * cosStart;
  const aheadCos = -0.5 * cosStart - HALF3 * sinStart;
  const aheadStart = aheadSin * cosPsi - aheadCos * sinPsi;
  // At θs + 60° the line EMF of the pair, √3/2·Vs·sin(θ + 30°), stands at θs + 90°.
  const lineEnd = cosStart * cosPsi + sinStart * sinPsi;
  const peak = emf / z;
  // With no overlap the pair would have to carry current over the whole 60°.
  const whole = Math.exp(-ratio * SIXTH);
  const lineStart =
    (HALF3 * sinStart + 0.5 * cosStart) * cosPsi - (HALF3 * cosStart - 0.5 * sinStart) * sinPsi;
  if (HALF3 * peak * (lineEnd - whole * lineStart) <= (volts / (2 * r)) * (1 - whole)) return -1;
  let low = 0;
  let high = SIXTH;
  let mu = SIXTH / 2;
  for (let n = 0; n < 40; n++) {
    const sin = Math.sin(start + mu);
    const cos = Math.cos(start + mu);
    const lag = sin * cosPsi - cos * sinPsi;
    const aheadS = -0.5 * sin + HALF3 * cos;
    const ahead = aheadS * cosPsi - (-0.5 * cos - HALF3 * sin) * sinPsi;
    const lineS = HALF3 * sin + 0.5 * cos;
    const line = lineS * cosPsi - (HALF3 * cos - 0.5 * sin) * sinPsi;
    const decay = Math.exp(-ratio * mu);
    const rest = whole / decay;
    const joining = peak * (lag - decay * lagStart) - (volts / (3 * r)) * (1 - decay);
    const after = rest * joining + HALF3 * peak * (lineEnd - rest * line) - (volts / (2 * r)) * (1 - rest);
    const oldest = decay * after + peak * (ahead - decay * aheadStart) - (volts / (3 * r)) * (1 - decay);
    if (oldest > 0) low = mu;
    else high = mu;
    const kink = (emf * (sin - HALF3 * lineS) + volts / 6) / x;
    const slope =
      (emf * aheadS - volts / 3 - r * (oldest - decay * after)) / x -
      ratio * decay * after +
      decay * rest * kink;
    let next = slope < 0 ? mu - oldest / slope : (low + high) / 2;
    if (!(next >= low && next <= high)) next = (low + high) / 2;
    if (Math.abs(next - mu) < 1e-7) break;
    mu = next;
  }
  // Volt-seconds of the phase that carries the whole DC current: −e_b − 2V/3 with three, half of e_ab − V with two.
  const third = (2 * Math.PI) / 3;
  const three = emf * (Math.cos(start + mu - third) - Math.cos(start - third)) - (2 / 3) * volts * mu;
  const two = HALF3 * emf * (Math.cos(start + mu + Math.PI / 6) + sinStart) - 0.5 * volts * (SIXTH - mu);
  return (three + two) / (SIXTH * r);
}

const HALF3 = Math.sqrt(3) / 2;
