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
 * resistance) that is a quadratic in Idc: the balanced operating point needs no iteration. A safeguarded root
 * search on the same curve gave the same figures and took four times as long.
 */
import type { Bike, RunState } from './bike.ts';
import type { DcSide } from './network.ts';
import { batteryAmps, foldDcSide, newDcSide } from './network.ts';
import { pulsedAmps } from './pulses.ts';
import { copperFactor } from './stepper.ts';

/** Why the closed form does not speak: no continuous current, the regulator at work, or a circuit out of balance. */
export type NotClosed = 'pulses' | 'regulating' | 'unbalanced';

/** Means over a cycle, volts V and amps A, + into the battery. */
export interface BalancedPoint {
  readonly ok: true;
  readonly batteryVolts: number;
  readonly regulatorVolts: number;
  readonly alternatorAmps: number;
  readonly batteryAmps: number;
}

/** Coefficients of the last `shape` call: Idc = alpha·√(Vs² − (beta·V)²) + gamma·V. */
let alpha = 0;
let beta = 0;
let gamma = 0;

/** Under this R/X the lossless limit replaces differences that cancel; its error is of the order of R/X. */
const LOSSLESS = 1e-7;
/** Under this exponent γ is taken from its series, exact there to 1e-6 of itself. */
const SERIES = 1e-3;

function shape(phases: 1 | 3, reactance: number, ohm: number): void {
  const x = reactance;
  const z = Math.hypot(ohm, x);
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
  const z = Math.hypot(ohm, reactance);
  const emfAtZero = (reactance * Math.sqrt(emf * emf - sine * sine) - ohm * sine) / z;
  return emfAtZero >= (phases === 3 ? volts / 3 : volts);
}

/**
 * Mean DC current of a diode bridge into constant volts, A. `emf` is the peak of one phase (V, ≥ 0), `reactance` ωL
 * (Ω, > 0), `ohm` one phase with its diode slope (three phase) or the winding with two slopes (single phase) (Ω, ≥ 0),
 * `volts` the DC volts plus two diode thresholds (V, > 0). 0 where no current can flow (Vs·√3 ≤ V, or Vs ≤ V); NaN
 * where the current comes in pulses, which has no closed form. Throws RangeError on other values.
 */
export function continuousAmps(phases: 1 | 3, emf: number, reactance: number, ohm: number, volts: number): number {
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
export function bridgeAmps(phases: 1 | 3, emf: number, reactance: number, ohm: number, volts: number): number {
  const amps = continuousAmps(phases, emf, reactance, ohm, volts);
  return amps === amps ? amps : pulsedAmps(phases, emf, reactance, ohm, volts);
}

/** The pair of phases (or the winding) never reaches the DC volts. */
function idle(phases: 1 | 3, emf: number, volts: number): boolean {
  return (phases === 3 ? emf * Math.sqrt(3) : emf) <= volts;
}

/** Larger than the peak of the DC current over its mean, so that a regulator that might act is never overlooked, 1. */
const PEAK = { 1: 1.8, 3: 1.25 } as const;

const side = newDcSide();

/**
 * Operating point of a sound, balanced bike whose regulator is not at work. Battery, loads and wiring are one source and
 * one resistance, with another slope when the battery charges than when it discharges. On a single-phase machine the
 * ohmic part of the DC side is exact (a bridge carries it to the winding unchanged); on a three-phase machine the
 * ripple of the DC volts is left out, some 0.01 A.
 */
export function balancedPoint(bike: Bike, state: RunState): BalancedPoint | { readonly ok: false; readonly why: NotClosed } {
  if (!isBalanced(bike)) return { ok: false, why: 'unbalanced' };
  foldDcSide(bike, state, side);
  const phases = bike.phases;
  const emf = bike.emfPerRpm[0] * state.rpm * state.magnet;
  const omega = (2 * Math.PI * bike.polePairs * state.rpm) / 60;
  const heat = copperFactor(state.windingCelsius);
  const fast = side.ohm + side.groundOhm;
  const dcOhm = phases === 3 ? fast : 0;
  const ohm =
    phases === 3
      ? bike.ohm[0] * heat + bike.pinOhm[0] + bike.diodeOhm
      : bike.ohm[0] * heat + bike.pinOhm[0] + bike.pinOhm[1] + 2 * bike.diodeOhm + fast;
  const reactance = omega * bike.henry[0];

  // Discharging with a dead alternator.
  const flat = inner(bike.restVolts, bike.dischargeOhm, 0);
  if (idle(phases, emf, flat * side.sourceShare + 2 * bike.diodeVolts)) {
    return point(bike, 0, flat);
  }
  if (!(reactance > 0)) return { ok: false, why: 'pulses' };
  shape(phases, reactance, ohm);
  // Amps at which the battery neither charges nor discharges tell which slope holds.
  const level = (bike.restVolts * side.siemensShare) / side.ampShare;
  const atLevel = bike.restVolts * side.sourceShare + dcOhm * level + 2 * bike.diodeVolts;
  const sine = beta * atLevel;
  const able = sine < emf ? alpha * Math.sqrt(emf * emf - sine * sine) + gamma * atLevel : 0;
  const slowOhm = able > level ? bike.chargeOhm : bike.dischargeOhm;
  // inner = rest' + slope·I, hence V = e + r·I at the bridge.
  const divide = 1 + slowOhm * side.siemensShare;
  const e = (bike.restVolts / divide) * side.sourceShare + 2 * bike.diodeVolts;
  const r = ((slowOhm * side.ampShare) / divide) * side.sourceShare + dcOhm;
  const amps = crossing(emf, e, r);
  const innerVolts = inner(bike.restVolts, slowOhm, amps);
  const volts = innerVolts * side.sourceShare + dcOhm * amps + 2 * bike.diodeVolts;
  if (!(amps > 0) || !continuous(phases, emf, reactance, ohm, volts)) return { ok: false, why: 'pulses' };
  const found = point(bike, amps, innerVolts);
  if (sensedPeak(bike, amps, innerVolts) > bike.setVolts) return { ok: false, why: 'regulating' };
  return found;
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

/** Battery's inner volts (rest and slow part), V, when the alternator gives `amps`. */
function inner(rest: number, slowOhm: number, amps: number): number {
  return (rest + slowOhm * side.ampShare * amps) / (1 + slowOhm * side.siemensShare);
}

function point(bike: Bike, amps: number, innerVolts: number): BalancedPoint {
  const ib = batteryAmps(side, amps, innerVolts);
  return {
    ok: true,
    batteryVolts: innerVolts + bike.batteryOhm * ib,
    regulatorVolts: innerVolts * side.sourceShare + (side.ohm + side.groundOhm) * amps,
    alternatorAmps: amps,
    batteryAmps: ib,
  };
}

/** Highest sensed volts within a cycle, on the safe side, V. */
function sensedPeak(bike: Bike, mean: number, innerVolts: number): number {
  const amps = mean * PEAK[bike.phases];
  return sensedVolts(side, bike, amps, innerVolts);
}

function sensedVolts(dc: DcSide, bike: Bike, amps: number, innerVolts: number): number {
  if (bike.senses === 'output') {
    return innerVolts * dc.sourceShare + (dc.ohm + dc.groundOhm) * amps - bike.senseLossVolts;
  }
  const posts = bike.batteryOhm + bike.positivePostOhm + bike.negativePostOhm;
  return innerVolts + posts * batteryAmps(dc, amps, innerVolts) + bike.groundOhm * amps - bike.senseLossVolts;
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
