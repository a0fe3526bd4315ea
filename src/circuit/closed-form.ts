/**
 * The sound, balanced alternator in closed form: exact while the current is continuous, in a fraction of a
 * microsecond, for the thousands of points that inference asks for.
 *
 * A diode bridge into constant volts is a voltage of known shape in step with its own current: six steps of V/3 and
 * 2V/3 on a star-connected phase, a square wave of V on a single winding. The winding's exact periodic response to
 * that wave and to its EMF fixes the angle φ between EMF and current zero, and the mean follows from volt-seconds:
 *
 *   three phase:  a = e^(−πR/3X), x0 = (V/3R)(1 − a)(1 + a)/(1 − a + a²), φ = ψ − asin(x0·Z/Vs),
 *                 Idc = (3/2πR)(2Vs·cosφ − 4πV/9), valid while Vs·sinφ ≥ V/3
 *   single phase: a = e^(−πR/X), x0 = (V/R)(1 − a)/(1 + a), same φ,
 *                 Idc = (2Vs·cosφ − πV)/(πR), valid while Vs·sinφ ≥ V
 *
 * with V = Vdc + 2·V0, Z = √(R² + X²), ψ = atan(X/R), Vs the peak EMF of a phase. Derived here; the lossless limits
 * (3/πX)√(Vs² − (2πV/9)²) and (2/πX)√(Vs² − (πV/2)²) follow as R → 0. The usual approximation keeps only the fundamental
 * of the bridge's wave (Caliskan, Perreault, Jahns and Kassakian, "Analysis of three-phase rectifiers with
 * constant-voltage loads", IEEE TCAS-I 2003, quoted from memory). It was rejected: near idle it is 28 % (three phase) to 49 %
 * (single phase) too high.
 *
 * cosφ expands to (R·cosθ + X·sinθ)/Z with sinθ = x0·Z/Vs, so no angle is ever computed, and
 * Idc = α·√(Vs² − (βV)²) + γV. Where V itself rises with Idc along a straight line (battery and wiring as source and
 * resistance) that is a quadratic in Idc: the balanced operating point needs no iteration there. Nearer the threshold
 * speed the current comes in pulses (pulses.ts), and a bracketed secant search takes the quadratic's root as its guess.
 */
import type { Bike, RunState } from './bike.ts';
import { batteryAmps, foldDcSide, newDcSide } from './network.ts';
import { pulsedAmps } from './pulses.ts';
import { copperFactor } from './stepper.ts';

/** Why the closed form does not speak: the regulator at work, or a circuit out of balance. */
export type NotClosed = 'regulating' | 'unbalanced';

/** Means over a cycle, volts V and amps A, + into the battery. */
export interface BalancedPoint {
  readonly ok: true;
  readonly batteryVolts: number;
  readonly regulatorVolts: number;
  readonly alternatorAmps: number;
  readonly batteryAmps: number;
}

/** Coefficients of the last `shape` call: Idc = alpha·√(Vs² − (beta·V)²) + gamma·V. */
const ROOT3 = Math.sqrt(3);
let alpha = 0;
let beta = 0;
let gamma = 0;
let impedance = 1;

/** Under this R/X the lossless limit replaces differences that cancel; its error is of the order of R/X. */
const LOSSLESS = 1e-7;
/** Under this exponent γ is taken from its series, exact there to 1e-6 of itself. */
const SERIES = 1e-3;

function shape(phases: 1 | 3, reactance: number, ohm: number): void {
  const x = reactance;
  impedance = Math.sqrt(ohm * ohm + x * x);
  const z = impedance;
  if (phases === 3) {
    alpha = 3 / (Math.PI * z);
    const u = (Math.PI * ohm) / (3 * x);
    if (ohm < LOSSLESS * x) {
      beta = (2 * Math.PI) / 9;
      gamma = 0;
      return;
    }
    const lost = -Math.expm1(-u);
    const a = 1 - lost;
    const x0 = (lost * (1 + a)) / (1 - a + a * a) / (3 * ohm);
    beta = x0 * z;
    gamma =
      u < SERIES
        ? (-5 * Math.PI ** 2 * ohm) / (81 * x * x)
        : (3 / (2 * Math.PI * ohm)) * (2 * x * x0 - (4 * Math.PI) / 9);
    return;
  }
  alpha = 2 / (Math.PI * z);
  const u = (Math.PI * ohm) / x;
  if (ohm < LOSSLESS * x) {
    beta = Math.PI / 2;
    gamma = 0;
    return;
  }
  const x0 = Math.tanh(u / 2) / ohm;
  beta = x0 * z;
  gamma = u < SERIES ? (-(Math.PI ** 2) * ohm) / (12 * x * x) : (2 * x * x0 - Math.PI) / (Math.PI * ohm);
}

/** Whether the current found at V is continuous: Vs·sinφ ≥ V/3 (three phase), ≥ V (single phase). */
function continuous(phases: 1 | 3, emf: number, reactance: number, ohm: number, volts: number): boolean {
  const sine = beta * volts;
  if (sine > emf) return false;
  const emfAtZero = (reactance * Math.sqrt(emf * emf - sine * sine) - ohm * sine) / impedance;
  return emfAtZero >= (phases === 3 ? volts / 3 : volts);
}

/**
 * Mean DC current of a diode bridge into constant volts, A. `emf` is the peak of one phase (V, ≥ 0), `reactance` ωL
 * (Ω, > 0), `ohm` one phase with its diode slope (three phase) or the winding with two slopes (single phase) (Ω, ≥ 0),
 * `volts` the DC volts plus two diode thresholds (V, > 0). 0 where no current can flow (Vs·√3 ≤ V, or Vs ≤ V); NaN
 * where the current comes in pulses, which has no closed form. Throws RangeError on other values.
 */
export function continuousAmps(
  phases: 1 | 3,
  emf: number,
  reactance: number,
  ohm: number,
  volts: number,
): number {
  if (!(reactance > 0)) throw new RangeError(`reactance must be above 0 Ω, got ${reactance}`);
  if (!(ohm >= 0)) throw new RangeError(`ohm must be 0 or more, got ${ohm}`);
  if (!(volts > 0)) throw new RangeError(`volts must be above 0, got ${volts}`);
  if (!(emf >= 0)) throw new RangeError(`emf must be 0 or more, got ${emf}`);
  if (idle(phases, emf, volts)) return 0;
  shape(phases, reactance, ohm);
  if (!continuous(phases, emf, reactance, ohm, volts)) return Number.NaN;
  return alpha * Math.sqrt(emf * emf - (beta * volts) ** 2) + gamma * volts;
}

/**
 * Mean DC current of a balanced diode bridge into constant volts, A, continuous or not. Arguments as for
 * `continuousAmps`.
 */
export function bridgeAmps(
  phases: 1 | 3,
  emf: number,
  reactance: number,
  ohm: number,
  volts: number,
): number {
  const amps = continuousAmps(phases, emf, reactance, ohm, volts);
  return !Number.isNaN(amps) ? amps : pulsedAmps(phases, emf, reactance, ohm, volts);
}

/** The pair of phases (or the winding) never reaches the DC volts. */
function idle(phases: 1 | 3, emf: number, volts: number): boolean {
  return (phases === 3 ? emf * ROOT3 : emf) <= volts;
}

const side = newDcSide();

/**
 * Operating point of a sound, balanced bike whose regulator is not at work, at any speed. Battery, loads and wiring are
 * one source and one resistance, with other slopes when the battery discharges, charges and gasses. On a single-phase
 * machine the ohmic part of the DC side is exact (a bridge carries it to the winding unchanged); on a three-phase machine
 * the ripple of the DC volts is left out (under 0.02 A with sound wiring).
 */
export function balancedPoint(
  bike: Bike,
  state: RunState,
): BalancedPoint | { readonly ok: false; readonly why: NotClosed } {
  if (!isBalanced(bike)) return { ok: false, why: 'unbalanced' };
  foldDcSide(bike, state, side);
  const phases = bike.phases;
  const emf = bike.emfPerRpm[0] * state.rpm * state.magnet;
  const omega = (2 * Math.PI * bike.polePairs * state.rpm) / 60;
  const winding = bike.ohm[0] * copperFactor(state.windingCelsius) + bike.pinOhm[0] + bike.diodeOhm;
  const fast = side.ohm + side.groundOhm;
  const dcOhm = phases === 3 ? fast : 0;
  const ohm = phases === 3 ? winding : winding + bike.pinOhm[1] + bike.diodeOhm + fast;
  const reactance = omega * bike.henry[0];

  line(bike, bike.restVolts, bike.dischargeOhm, dcOhm);
  if (idle(phases, emf, source)) return point(bike, 0, bike.restVolts / slowDivide);
  shape(phases, reactance, ohm);
  // Amps at which the battery turns from discharging to charging, and to gassing, tell which line holds.
  const gasAmps = Math.max(0, (bike.gasVolts - bike.restVolts) / bike.chargeOhm);
  const gasInner = Math.max(bike.gasVolts, bike.restVolts);
  if (able(phases, emf, reactance, ohm, dcOhm, gasInner, gasAmps)) {
    line(bike, gasInner - bike.gasOhm * gasAmps, bike.gasOhm, dcOhm);
  } else if (able(phases, emf, reactance, ohm, dcOhm, bike.restVolts, 0)) {
    line(bike, bike.restVolts, bike.chargeOhm, dcOhm);
  }
  diodes = 2 * bike.diodeVolts;
  let amps = crossing(emf, source, slope);
  const smooth = continuous(phases, emf, reactance, ohm, source + slope * amps);
  if (!smooth) amps = search(phases, emf, reactance, ohm);
  const inner = (innerBase + slowSlope * amps) / slowDivide;
  if (sensedPeak(bike, amps, inner, smooth, omega) > bike.setVolts) return { ok: false, why: 'regulating' };
  return point(bike, amps, inner);
}

/** The DC side's line as the bridge sees it, V = source + slope·I, of the last `line` call; diodes included. */
let source = 0;
let slope = 0;
let innerBase = 0;
let slowSlope = 0;
let slowDivide = 1;

function line(bike: Bike, base: number, slowOhm: number, dcOhm: number): void {
  // inner = base + slowOhm·(ampShare·I − siemensShare·inner)
  slowDivide = 1 + slowOhm * side.siemensShare;
  innerBase = base;
  slowSlope = slowOhm * side.ampShare;
  source = (base / slowDivide) * side.sourceShare + 2 * bike.diodeVolts;
  slope = (slowSlope / slowDivide) * side.sourceShare + dcOhm;
  diodes = 2 * bike.diodeVolts;
}
let diodes = 0;

/** Amps that hold the battery's inner volts with `into` amps going in, and what the bridge gives there beyond them. */
let heldAmps = 0;
let excess = 0;

/** Whether the alternator gives more than it takes to hold the battery's inner volts with `into` amps going into it. */
function able(
  phases: 1 | 3,
  emf: number,
  reactance: number,
  ohm: number,
  dcOhm: number,
  inner: number,
  into: number,
): boolean {
  const amps = (into + inner * side.siemensShare) / side.ampShare;
  const volts = inner * side.sourceShare + dcOhm * amps + diodes;
  const given = idle(phases, emf, volts) ? 0 : shapedAmps(phases, emf, reactance, ohm, volts);
  heldAmps = amps;
  excess = given - amps;
  return excess > 0;
}

/** As `bridgeAmps`, with the coefficients of the last `shape` call. */
function shapedAmps(phases: 1 | 3, emf: number, reactance: number, ohm: number, volts: number): number {
  if (idle(phases, emf, volts)) return 0;
  if (!continuous(phases, emf, reactance, ohm, volts)) return pulsedAmps(phases, emf, reactance, ohm, volts);
  return alpha * Math.sqrt(emf * emf - (beta * volts) ** 2) + gamma * volts;
}

/** Where Idc = α√(Vs² − (βV)²) + γV meets V = e + r·I: the larger root of the quadratic, A. NaN when they do not meet. */
function crossing(emf: number, e: number, r: number): number {
  // (p·I − γe)² = α²(Vs² − β²(e + rI)²) with p = 1 − γr.
  const p = 1 - gamma * r;
  const ab = alpha * beta;
  const a = p * p + ab * ab * r * r;
  const b = -gamma * e * p + ab * ab * e * r;
  const c = gamma * gamma * e * e + ab * ab * e * e - alpha * alpha * emf * emf;
  const under = b * b - a * c;
  return under < 0 ? Number.NaN : (-b + Math.sqrt(under)) / a;
}

/** Where the pulsed current meets the DC side's line, A: secant steps kept inside a bracket. */
function search(phases: 1 | 3, emf: number, reactance: number, ohm: number): number {
  // At no current the bridge gives more than nothing; where the line passes the peak EMF it gives nothing.
  const room = (phases === 3 ? emf * ROOT3 : emf) - source;
  let low = 0;
  let high = room / slope;
  // The last `able` asked at one point of this line already. From there on a parabola through no current at the peak EMF.
  let x0 = heldAmps;
  let f0 = excess;
  const left = room - slope * x0;
  if (left <= 0) {
    x0 = 0;
    f0 = shapedAmps(phases, emf, reactance, ohm, source);
  }
  let x1 = x0 + f0 / (1 + (1.4 * slope * (f0 + x0)) / Math.max(room - slope * x0, 1e-3 * room));
  for (let n = 0; n < 40; n++) {
    if (f0 > 0) low = x0;
    else high = Math.min(high, x0);
    if (!(x1 >= low && x1 <= high)) x1 = (low + high) / 2;
    const f1 = shapedAmps(phases, emf, reactance, ohm, source + slope * x1) - x1;
    if (f1 < ENOUGH && f1 > -ENOUGH) return x1;
    const step = f1 === f0 ? 0 : (f1 * (x1 - x0)) / (f1 - f0);
    x0 = x1;
    f0 = f1;
    x1 -= step;
  }
  return x1;
}
/** A balance this good is enough, A. */
const ENOUGH = 1e-5;

function point(bike: Bike, amps: number, inner: number): BalancedPoint {
  const ib = batteryAmps(side, amps, inner);
  return {
    ok: true,
    batteryVolts: inner + bike.batteryOhm * ib,
    regulatorVolts: inner * side.sourceShare + (side.ohm + side.groundOhm) * amps,
    alternatorAmps: amps,
    batteryAmps: ib,
  };
}

/** Highest filtered sensed volts within a cycle, on the safe side, V, so that a regulator that might act is not overlooked. */
function sensedPeak(bike: Bike, mean: number, inner: number, smooth: boolean, omega: number): number {
  const three = bike.phases === 3;
  // Peak of the DC current over its mean: six or two rounded humps a cycle, or pulses from zero.
  const hump = three ? (smooth ? 0.25 : 1) : smooth ? 0.8 : 2;
  const amps = mean * (1 + hump / Math.sqrt(1 + ((three ? 6 : 2) * omega * bike.senseSeconds) ** 2));
  const loss = bike.senses === 'wire' ? bike.senseLossVolts : 0;
  if (bike.senses === 'output') return inner * side.sourceShare + (side.ohm + side.groundOhm) * amps;
  return inner + side.batteryBranchOhm * batteryAmps(side, amps, inner) + bike.groundOhm * amps - loss;
}

/** Whether every phase is alike and every device sound, so that the closed form can speak. */
export function isBalanced(bike: Bike): boolean {
  if (bike.coreShort || bike.gate !== 'works') return false;
  const count = bike.phases === 3 ? 3 : 2;
  for (let k = 0; k < count; k++) {
    if (bike.upper[k] !== 'sound' || bike.lower[k] !== 'sound') return false;
    if (bike.phases === 1) continue;
    if (bike.emfPerRpm[k] !== bike.emfPerRpm[0] || bike.henry[k] !== bike.henry[0]) return false;
    if (bike.ohm[k] !== bike.ohm[0] || bike.pinOhm[k] !== bike.pinOhm[0]) return false;
  }
  return true;
}
