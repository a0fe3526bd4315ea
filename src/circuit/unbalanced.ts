/**
 * A three-phase bridge into constant volts with any unequal EMF, resistance and inductance: burnt pins and shorted
 * turns, while every phase conducts all the time.
 *
 * With continuous current the terminal of phase k stands at +V/2 while its current is positive and at −V/2 while it is
 * negative, so the bridge is three square waves with unknown switching angles θk. The star point floats, two currents are
 * independent, and two real modes (a symmetric pair of 2×2 matrices) turn the circuit into two first-order equations whose
 * periodic answer to a sine and to a square wave is known exactly. What is left is i_k(θk) = 0: three equations for
 * three angles, solved by Newton with exact derivatives. Means follow from the integrals of the same answers.
 * Derived here. Rejected: Fourier series of the square waves (thirty times slower for 1e-4 A) and stepping in time
 * (general, but fifty times slower).
 */

/** One phase: EMF peak V (≥ 0), reactance ωL Ω (> 0), resistance with its diode slope Ω (≥ 0). */
export interface Phase {
  readonly emf: number;
  readonly reactance: number;
  readonly ohm: number;
}

export interface UnbalancedAmps {
  /** Mean DC current, A. Right only where `continuous`. */
  readonly amps: number;
  /** Mean absolute value of each phase current, A. */
  readonly phases: readonly [number, number, number];
  /** EMF angle at which each phase's current rises through zero, rad; phase a's EMF is sin θ. */
  readonly angles: readonly [number, number, number];
  /**
   * Whether the switching found is consistent: Newton settled, every current leaves zero at once and keeps its sign for
   * half a cycle (tested at all switching instants). Where false the current rests at times.
   */
  readonly continuous: boolean;
}

const THIRD = (2 * Math.PI) / 3;
/** Under this decay per radian a mode is taken as lossless; its error is of the same order. */
const LOSSLESS = 1e-5;
/** Largest step of one angle in one turn of Newton, rad: angles further apart than this would swap order. */
const LONGEST = 0.4;

const theta = new Float64Array(3);
/** Modes: decay per radian, twice; how phase k's voltage drives mode j, and how mode j adds to current k. */
const decay = new Float64Array(2);
/** 1/(1 + e^(−λπ)): what half a cycle leaves of a mode, folded over all earlier ones. */
const fold = new Float64Array(2);
/** e^(−λπ): what half a cycle leaves of a mode. */
const passed = new Float64Array(2);
const sine = new Float64Array(3);
const cosine = new Float64Array(3);
const drive = new Float64Array(6);
const carry = new Float64Array(6);
/** Sine answer of mode j: cosine and sine parts. */
const sineCos = new Float64Array(2);
const sineSin = new Float64Array(2);
const value = new Float64Array(3);
const jacobian = new Float64Array(9);
const move = new Float64Array(3);

/**
 * Mean DC current of three unequal phases (EMFs a third of a cycle apart, b after a) on a diode bridge into constant
 * volts; `volts` is the DC volts plus two diode thresholds, V (> 0). `guess`, when given, holds switching angles of a
 * neighbouring point, rad. Throws RangeError on a reactance not above 0, a negative resistance or volts not above 0.
 */
export function unbalancedAmps(
  a: Phase,
  b: Phase,
  c: Phase,
  volts: number,
  guess?: readonly number[],
): UnbalancedAmps {
  if (!(volts > 0)) throw new RangeError(`volts must be above 0, got ${volts}`);
  for (const phase of [a, b, c]) {
    if (!(phase.reactance > 0)) throw new RangeError(`reactance must be above 0 Ω, got ${phase.reactance}`);
    if (!(phase.ohm >= 0)) throw new RangeError(`ohm must be 0 or more, got ${phase.ohm}`);
  }
  findModes(a, b, c);
  answerSines(a.emf, b.emf, c.emf);
  if (guess) for (let k = 0; k < 3; k++) theta[k] = guess[k]!;
  else startAngles(a, b, c, volts);
  const half = volts / 2;
  let settled = false;
  for (let turn = 0; turn < 12 && !settled; turn++) {
    linearise(half);
    if (!solveThree()) break;
    let longest = 0;
    for (let k = 0; k < 3; k++) longest = Math.max(longest, Math.abs(move[k]!));
    const share = longest > LONGEST ? LONGEST / longest : 1;
    for (let k = 0; k < 3; k++) theta[k] = theta[k]! - share * move[k]!;
    settled = longest < 1e-4; // Newton squares this: what is left is under 1e-8
  }
  const continuous = settled && consistent(half);
  const phases: [number, number, number] = [meanAbs(0, half), meanAbs(1, half), meanAbs(2, half)];
  return {
    amps: (phases[0] + phases[1] + phases[2]) / 2,
    phases,
    angles: [theta[0]!, theta[1]!, theta[2]!],
    continuous,
  };
}

/**
 * Splits X·di/dθ + R·i = u, with i = (i_a, i_b), X = [[Xa + Xc, Xc], [Xc, Xb + Xc]] and R alike, into two modes. Both
 * matrices are symmetric and X is positive definite, so the modes are real: X = K·Kᵀ, then one rotation.
 */
function findModes(a: Phase, b: Phase, c: Phase): void {
  const k11 = Math.sqrt(a.reactance + c.reactance);
  const k21 = c.reactance / k11;
  const k22 = Math.sqrt(b.reactance + c.reactance - k21 * k21);
  // M = K⁻¹·R·K⁻ᵀ
  const r11 = a.ohm + c.ohm;
  const r21 = c.ohm;
  const r22 = b.ohm + c.ohm;
  const m11 = r11 / (k11 * k11);
  const t21 = (r21 - k21 * k11 * m11) / k22;
  const m21 = t21 / k11;
  const t22 = (r22 - (k21 * r21) / k11) / k22;
  const m22 = (t22 - (k21 * t21) / k11) / k22;
  const turn = 0.5 * Math.atan2(2 * m21, m11 - m22);
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  decay[0] = Math.max(0, m11 * cos * cos + 2 * m21 * sin * cos + m22 * sin * sin);
  decay[1] = Math.max(0, m11 * sin * sin - 2 * m21 * sin * cos + m22 * cos * cos);
  for (let j = 0; j < 2; j++) {
    passed[j] = Math.exp(-decay[j]! * Math.PI);
    fold[j] = 1 / (1 + passed[j]!);
    const p = j === 0 ? cos : -sin;
    const q = j === 0 ? sin : cos;
    // w = K⁻ᵀ·(p, q): i = Σ w·y and y' = −λ·y + w·u.
    const w1 = q / k22;
    const w0 = (p - k21 * w1) / k11;
    carry[j * 3] = w0;
    carry[j * 3 + 1] = w1;
    carry[j * 3 + 2] = -w0 - w1;
    drive[j * 3] = w0;
    drive[j * 3 + 1] = w1;
    drive[j * 3 + 2] = -w0 - w1;
  }
}

/** Periodic answer of each mode to the three EMFs. */
function answerSines(ea: number, eb: number, ec: number): void {
  for (let j = 0; j < 2; j++) {
    const da = drive[j * 3]! * ea;
    const db = drive[j * 3 + 1]! * eb;
    const dc = drive[j * 3 + 2]! * ec;
    // Σ d·sin(θ − k·120°) = s·sinθ + c·cosθ
    const s = da - 0.5 * (db + dc);
    const c = HALF3 * (dc - db);
    const l = decay[j]!;
    const norm = 1 / (1 + l * l);
    sineSin[j] = (l * s + c) * norm;
    sineCos[j] = (l * c - s) * norm;
  }
}
const HALF3 = Math.sqrt(3) / 2;

/** Angles of the balanced machine with mean EMF, reactance and resistance. */
function startAngles(a: Phase, b: Phase, c: Phase, volts: number): void {
  const x = (a.reactance + b.reactance + c.reactance) / 3;
  const r = (a.ohm + b.ohm + c.ohm) / 3;
  const emf = (a.emf + b.emf + c.emf) / 3;
  // Six steps against a sine: fundamental 2V/π in phase with the current. Good enough to start from.
  const back = Math.min((2 * volts) / Math.PI / emf, 1);
  const z = Math.sqrt(r * r + x * x);
  const phi = Math.atan2(x, r) - Math.asin(Math.min(1, (back * x) / z));
  for (let k = 0; k < 3; k++) theta[k] = phi + k * THIRD;
}

/** Answer of mode j to a square wave that rises at 0, at angle d. */
function squareAnswer(j: number, d: number): number {
  const l = decay[j]!;
  let sign = 1;
  let x = d;
  while (x < 0) {
    x += Math.PI;
    sign = -sign;
  }
  while (x >= Math.PI) {
    x -= Math.PI;
    sign = -sign;
  }
  if (l < LOSSLESS) return sign * (x - Math.PI / 2);
  return (sign * (1 - 2 * fold[j]! * Math.exp(-l * x))) / l;
}

/** Currents at their own switching angles, and how they move with the angles. */
function linearise(half: number): void {
  value.fill(0);
  jacobian.fill(0);
  for (let k = 0; k < 3; k++) {
    sine[k] = Math.sin(theta[k]!);
    cosine[k] = Math.cos(theta[k]!);
  }
  for (let j = 0; j < 2; j++) {
    const l = decay[j]!;
    const lossless = l < LOSSLESS;
    const f = 2 * fold[j]!;
    const own = lossless ? -Math.PI / 2 : (1 - f) / l;
    for (let k = 0; k < 3; k++) {
      const weight = carry[j * 3 + k]!;
      const s = sine[k]!;
      const c = cosine[k]!;
      // A wave's own switching moves with its angle: no derivative from itself.
      const y = sineSin[j]! * s + sineCos[j]! * c - half * drive[j * 3 + k]! * own;
      value[k] = value[k]! + weight * y;
      jacobian[k * 4] = jacobian[k * 4]! + weight * (sineSin[j]! * c - sineCos[j]! * s);
    }
    for (let k = 0; k < 2; k++) {
      for (let m = k + 1; m < 3; m++) {
        let sign = 1;
        let x = theta[m]! - theta[k]!;
        while (x < 0) {
          x += Math.PI;
          sign = -sign;
        }
        while (x >= Math.PI) {
          x -= Math.PI;
          sign = -sign;
        }
        // Seen from k, wave m lies at x − π in the half cycle before: one exponential serves both.
        const e = lossless ? 1 : Math.exp(-l * x);
        const late = lossless ? sign : sign * f * e;
        const early = lossless ? -sign : (-sign * f * passed[j]!) / e;
        const lateAnswer = lossless ? sign * (x - Math.PI / 2) : (sign - late) / l;
        const earlyAnswer = lossless ? -sign * (Math.PI / 2 - x) : (-sign - early) / l;
        pull(j, m, k, half, lateAnswer, late);
        pull(j, k, m, half, earlyAnswer, early);
      }
    }
  }
}

/** Takes wave m, with this answer and slope at the switching of k, from current k through mode j. */
function pull(j: number, k: number, m: number, half: number, answer: number, slope: number): void {
  const push = half * drive[j * 3 + m]! * carry[j * 3 + k]!;
  value[k] = value[k]! - push * answer;
  jacobian[k * 4] = jacobian[k * 4]! - push * slope;
  jacobian[k * 3 + m] = jacobian[k * 3 + m]! + push * slope;
}

/** Solves jacobian·move = value by Cramer's rule; false where it is singular. */
function solveThree(): boolean {
  const a = jacobian[0]!;
  const b = jacobian[1]!;
  const c = jacobian[2]!;
  const d = jacobian[3]!;
  const e = jacobian[4]!;
  const f = jacobian[5]!;
  const g = jacobian[6]!;
  const h = jacobian[7]!;
  const i = jacobian[8]!;
  const c1 = e * i - f * h;
  const c2 = f * g - d * i;
  const c3 = d * h - e * g;
  const det = a * c1 + b * c2 + c * c3;
  if (!(Math.abs(det) > 1e-30)) return false;
  const u = value[0]!;
  const v = value[1]!;
  const w = value[2]!;
  move[0] = (u * c1 + v * (c * h - b * i) + w * (b * f - c * e)) / det;
  move[1] = (u * c2 + v * (a * i - c * g) + w * (c * d - a * f)) / det;
  move[2] = (u * c3 + v * (b * g - a * h) + w * (a * e - b * d)) / det;
  return true;
}

/** Current k at angle x, A. */
function current(k: number, x: number, half: number): number {
  let i = 0;
  const s = Math.sin(x);
  const c = Math.cos(x);
  for (let j = 0; j < 2; j++) {
    let y = sineSin[j]! * s + sineCos[j]! * c;
    for (let m = 0; m < 3; m++) y -= half * drive[j * 3 + m]! * squareAnswer(j, x - theta[m]!);
    i += carry[j * 3 + k]! * y;
  }
  return i;
}

/** Whether every current leaves zero at once and keeps its sign until its next switching. */
function consistent(half: number): boolean {
  for (let k = 0; k < 3; k++) {
    // Slope just after its own wave has risen: the slope before, which stands in the jacobian, less that wave's jump.
    let slope = jacobian[k * 4]!;
    for (let j = 0; j < 2; j++)
      slope -= half * carry[j * 3 + k]! * drive[j * 3 + k]! * (decay[j]! < LOSSLESS ? 1 : 2 * fold[j]!);
    if (!(slope > 0)) return false;
    // Between switchings a current runs smoothly: look where the other phases switch within its positive half.
    for (let m = 0; m < 3; m++) {
      if (m === k) continue;
      let x = theta[m]!;
      while (x < theta[k]!) x += Math.PI;
      while (x > theta[k]! + Math.PI) x -= Math.PI;
      if (!(current(k, x, half) > 0)) return false;
    }
  }
  return true;
}

/** Mean of |i_k| over a cycle, A: its integral over its positive half. */
function meanAbs(k: number, half: number): number {
  let sum = 0;
  const s = Math.sin(theta[k]!);
  const c = Math.cos(theta[k]!);
  for (let j = 0; j < 2; j++) {
    // ∫ over half a cycle of s·sin + c·cos from θ: 2(s·cosθ − c·sinθ).
    let y = 2 * (sineSin[j]! * c - sineCos[j]! * s);
    for (let m = 0; m < 3; m++) {
      const push = half * drive[j * 3 + m]!;
      y -= push * squareIntegral(j, m === k ? 0 : theta[k]! - theta[m]!);
    }
    sum += carry[j * 3 + k]! * y;
  }
  return sum / Math.PI;
}

/** ∫ from d to d + π of the answer to a square wave that rises at 0. */
function squareIntegral(j: number, d: number): number {
  const l = decay[j]!;
  let sign = 1;
  let x = d;
  while (x < 0) {
    x += Math.PI;
    sign = -sign;
  }
  while (x >= Math.PI) {
    x -= Math.PI;
    sign = -sign;
  }
  if (l < LOSSLESS) return sign * (Math.PI * x - x * x);
  // F(x) = x/λ − 2(1 − e^(−λx))/(λ²(1 + e^(−λπ))) is ∫ from 0; over [x, x + π] it gives F(π) − 2F(x) with F(π) ≠ 0 only by loss.
  const share = (2 * fold[j]!) / (l * l);
  const whole = Math.PI / l + share * (passed[j]! - 1);
  const part = x / l + share * (Math.exp(-l * x) - 1);
  return sign * (whole - 2 * part);
}
