/**
 * Time-stepping of rectifier, regulator and DC side with exact switching sets: the general point, faulty or not.
 *
 * Every winding is a branch e(t), L, R from the star point to a terminal of the bridge (single phase: a second
 * branch without EMF closes the loop). One step of the trapezoidal rule makes each branch a resistance
 * Z = L/h + R/2 behind a known voltage, the bridge makes it a three-piece line (upper device, off, lower device),
 * and star point, output volts and the tap of a core short are found together: a linear solve for assumed pieces,
 * repeated until no device changes its piece. The trapezoidal rule keeps reactance and losses right to second
 * order; backward Euler at the same step loses X·sin(ωh/2) as if it were resistance (6 % of X at 48 steps a
 * cycle) and was rejected for that.
 *
 * Gates: the sensed volts pass a one-pole filter. A shunt regulator gates its SCRs (terminal to negative) while
 * the filtered volts exceed the set point; an SCR latches if its phase current flows out, and stays until that
 * current reaches zero. A series regulator lets an upper SCR start only while they are under the set point.
 * Without the filter every rise of the output ripple trips the gate and a 0.1 Ω joint loses twice the current
 * that ngspice shows; 1.2 ms with 0.1 V of hysteresis came within 0.15 V in all faults tried (0, 0.1, 0.3, 0.6,
 * 1, 2, 5, 10 ms were compared).
 * The slow part of the battery (charge acceptance) is a constant source within a cycle, moved after each cycle by
 * a damped Newton step.
 */
import type { Bike, OperatingPoint, RunState } from './bike.ts';
import { solution, solveSystem, system } from './linear.ts';
import { ampsFor, batteryAmps, type DcSide, foldDcSide, innerVolts, newDcSide, slowOhm } from './network.ts';
import { seedInner, seedPhase } from './seed.ts';

/** How finely the point is computed. */
export interface Fidelity {
  /** Steps in one electrical cycle, a multiple of 3. */
  readonly steps: number;
  /** Cycles thrown away before measuring, and measured. */
  readonly settle: number;
  readonly measure: number;
}

/** What is shown to a person and held against ngspice. */
export const FINE: Fidelity = { steps: 120, settle: 12, measure: 10 };
/** What the inference uses. */
export const COARSE: Fidelity = { steps: 36, settle: 5, measure: 4 };

/** Waveform samples over the measured cycles: seconds, A, V. */
export interface Waveform {
  readonly time: number[];
  readonly phaseAmps: readonly [number[], number[], number[]];
  readonly regulatorVolts: number[];
  readonly batteryVolts: number[];
}

/** Copper: resistance at T over resistance at 25 °C (NBS Handbook 100: (234.5 + T2)/(234.5 + T1)), 1. */
export function copperFactor(celsius: number): number {
  return (234.5 + celsius) / (234.5 + 25);
}

/** Above this a branch counts as open, Ω. */
const OPEN_OHM = 1e4;
const LEAK = 1e-7;

/** Pieces of a branch's line. */
const OFF = 0;
const UP = 1;
const DOWN = 2;
const TIED_OUT = 3;
const TIED_NEGATIVE = 4;
const TO_NEGATIVE = 5;

/* One set of work arrays: stepping is not re-entrant and allocates nothing but its answer. */
const side: DcSide = newDcSide();
const henry = new Float64Array(3);
const ohm = new Float64Array(3);
const emf = new Float64Array(3);
const amps = new Float64Array(3);
const pending = new Float64Array(3);
const known = new Float64Array(3);
const conduct = new Float64Array(3);
const memory = new Float64Array(3);
const squares = new Float64Array(3);
const lag = new Int32Array(3);
const latch = new Int8Array(3);
const piece = new Int8Array(3);
const upMode = new Int8Array(3);
const lowMode = new Int8Array(3);
let record = new Float64Array(4096);

const sineTables = new Map<number, Float64Array>();
/** sin at the middle of each step of a cycle. */
function middleSines(steps: number): Float64Array {
  let table = sineTables.get(steps);
  if (!table) {
    table = new Float64Array(steps);
    for (let n = 0; n < steps; n++) table[n] = Math.sin((2 * Math.PI * (n + 0.5)) / steps);
    sineTables.set(steps, table);
  }
  return table;
}

const MODES = { sound: 0, open: 1, shorted: 2 } as const;

/** Steps a circuit to its steady state and measures it. `wave`, when given, is filled with the measured cycles. */
export function stepPoint(bike: Bike, state: RunState, fidelity: Fidelity, wave?: Waveform): OperatingPoint {
  const steps = fidelity.steps;
  if (steps % 3 !== 0)
    throw new RangeError(`steps must be a multiple of 3 (phases are a third of a cycle apart), got ${steps}`);
  foldDcSide(bike, state, side);
  const three = bike.phases === 3;
  const branches = three ? 3 : 2;
  const rpm = Math.max(state.rpm, 30);
  const hertz = (bike.polePairs * rpm) / 60;
  const omega = 2 * Math.PI * hertz;
  const h = 1 / (hertz * steps);
  const heat = copperFactor(state.windingCelsius);
  const sines = middleSines(steps);
  const v0 = bike.diodeVolts;
  const shunt = bike.regulator === 'shunt';
  const stuck = shunt && bike.gate === 'dead';
  const silent = !shunt && bike.gate === 'dead';

  for (let k = 0; k < branches; k++) {
    const real = three || k === 0;
    henry[k] = real ? bike.henry[k]! : 0;
    ohm[k] = (real ? bike.ohm[k]! * heat : 0) + bike.pinOhm[k]! + bike.diodeOhm;
    emf[k] = real ? bike.emfPerRpm[k]! * rpm * state.magnet : 0;
    lag[k] = Math.round((k * steps) / 3);
    latch[k] = stuck ? 1 : 0;
    piece[k] = OFF;
    squares[k] = 0;
    upMode[k] = silent ? 1 : MODES[bike.upper[k]!];
    lowMode[k] = MODES[bike.lower[k]!];
  }

  const short = bike.coreShort;
  const tapped = short && short.phase < branches ? short.phase : -1;
  let innerStiff = 0;
  let innerOhm = 0;
  let innerEmf = 0;
  if (short && tapped >= 0) {
    // The winding is cut at the tap: the inner part becomes a branch from star point to tap.
    const f = Math.min(Math.max(short.fraction, 0), 1);
    innerStiff = (henry[tapped]! * f) / h;
    innerOhm = bike.ohm[short.phase] * heat * f;
    innerEmf = emf[tapped]! * f;
    henry[tapped] = henry[tapped]! * (1 - f);
    ohm[tapped] = ohm[tapped]! - innerOhm;
    emf[tapped] = emf[tapped]! * (1 - f);
  }
  for (let k = 0; k < branches; k++) {
    const stiff = henry[k]! / h;
    // Where resistance outweighs inductance the trapezoidal rule would ring: take it fully implicit.
    const implicit = ohm[k]! > 2 * stiff;
    conduct[k] = ohm[k]! > OPEN_OHM ? 0 : 1 / (stiff + (implicit ? ohm[k]! : ohm[k]! / 2));
    memory[k] = implicit ? stiff : stiff - ohm[k]! / 2;
  }
  const innerHalf = innerOhm > 2 * innerStiff ? innerOhm : innerOhm / 2;
  const innerConduct = innerOhm > OPEN_OHM ? 0 : 1 / Math.max(innerStiff + innerHalf, 1e-4);
  const innerMemory = innerOhm > 2 * innerStiff ? innerStiff : innerStiff - innerOhm / 2;
  const shortSiemens = short ? 1 / Math.max(short.ohm, 1e-3) : 0;
  let innerAmps = 0;

  const rg = side.groundOhm;
  const r = side.ohm + rg;
  let inner = seedInner(bike, side, emf[0]!, omega * bike.henry[0]!);
  let source = inner * side.sourceShare;
  seedPhase(amps, three, emf[0]!, ohm[0]!, omega * henry[0]!, source + 2 * v0);
  for (let k = 0; k < branches; k++) if (conduct[k] === 0 || tapped >= 0) amps[k] = 0;

  let star = 0;
  let out = source;
  let tap = 0;
  const bySense = bike.senses === 'wire';
  const branchOhm = bike.batteryOhm + bike.positivePostOhm + bike.negativePostOhm;
  const decay = 1 - Math.exp(-h / bike.senseSeconds);
  let filtered = Math.min(bySense ? inner : source, bike.setVolts) - 0.05;
  let over = false;
  const kept = fidelity.measure * steps;
  if (record.length < kept) record = new Float64Array(kept);
  let count = 0;
  let sumOut = 0;
  let sumAmps = 0;
  let sumInner = 0;
  let windowAmps = 0;
  let window = 0;
  let chopping = false;

  const total = fidelity.settle + fidelity.measure;
  for (let cycle = 0; cycle < total; cycle++) {
    const measuring = cycle >= fidelity.settle;
    let overSteps = 0;
    for (let n = 0; n < steps; n++) {
      for (let k = 0; k < branches; k++) {
        let at = n - lag[k]!;
        if (at < 0) at += steps;
        known[k] = emf[k]! * sines[at]! + memory[k]! * amps[k]!;
      }
      let innerKnown = 0;
      if (tapped >= 0) {
        let at = n - lag[tapped]!;
        if (at < 0) at += steps;
        innerKnown = innerEmf * sines[at]! + innerMemory * innerAmps;
      }
      let outAmps = 0;
      for (let turn = 0; turn < 10; turn++) {
        // Linear solve for the pieces assumed.
        let sumG = LEAK;
        let sumS = 0;
        let upG = 0;
        let upS = 0;
        let tapG = 0;
        let tapS = 0;
        let tapUp = 0;
        for (let k = 0; k < branches; k++) {
          const p = piece[k]!;
          if (p === OFF) continue;
          const g = conduct[k]!;
          const bound = p === UP || p === TO_NEGATIVE ? v0 : p === DOWN ? -v0 : 0;
          const s = g * (known[k]! - bound);
          const toOut = p === UP || p === TIED_OUT;
          if (k === tapped) {
            tapG = g;
            tapS = s;
            if (toOut) tapUp = g;
          } else {
            sumG += g;
            sumS += s;
            if (toOut) upG += g;
          }
          if (toOut) upS += s;
        }
        if (tapped < 0) {
          const d = 1 + r * upG;
          const det = sumG * d - upG * r * upG;
          const right = source + r * upS;
          star = (upG * right - sumS * d) / det;
          out = (sumG * right - r * upG * sumS) / det;
        } else {
          // star: (sumG + gi)·star − gi·tap − upG·out = −sumS − gi·known
          const gi = innerConduct;
          system.set([
            sumG + gi,
            -gi,
            -upG,
            0,
            -sumS - gi * innerKnown,
            -gi,
            tapG + gi + shortSiemens,
            -tapUp,
            -shortSiemens,
            gi * innerKnown - tapS,
            -side.ohm * upG,
            -side.ohm * tapUp,
            1 + side.ohm * (upG + tapUp),
            -1,
            source + side.ohm * upS,
            -rg * upG,
            -rg * (tapUp + shortSiemens),
            rg * (upG + tapUp),
            1 + rg * shortSiemens,
            rg * upS,
          ]);
          solveSystem();
          star = solution[0]!;
          tap = solution[1]!;
          out = solution[2]!;
        }
        // Which piece does each branch take at this solution?
        let changed = false;
        outAmps = 0;
        for (let k = 0; k < branches; k++) {
          const g = conduct[k]!;
          if (g === 0) continue;
          const w = (k === tapped ? tap : star) + known[k]!;
          let p = OFF;
          let i = 0;
          if (lowMode[k] === 2) {
            p = TIED_NEGATIVE;
            i = w * g;
          } else if (upMode[k] === 2) {
            p = TIED_OUT;
            i = (w - out) * g;
            outAmps += i;
          } else if (lowMode[k] === 0 && w < -v0) {
            p = DOWN;
            i = (w + v0) * g;
          } else if (shunt && latch[k] === 1) {
            if (w > v0) {
              p = TO_NEGATIVE;
              i = (w - v0) * g;
            }
          } else if (upMode[k] === 0 && w > out + v0 && (shunt || !over || latch[k] === 1)) {
            p = UP;
            i = (w - out - v0) * g;
            outAmps += i;
          }
          if (p !== piece[k]) {
            piece[k] = p;
            changed = true;
          }
          pending[k] = i;
        }
        if (!changed) break;
      }
      for (let k = 0; k < branches; k++) {
        const was = amps[k]!;
        const now = conduct[k] === 0 ? 0 : pending[k]!;
        amps[k] = now;
        if (measuring) squares[k] = squares[k]! + (was * was + was * now + now * now) / 3;
        if (now <= 0 && !stuck) latch[k] = 0;
      }
      if (tapped >= 0) innerAmps = (star + innerKnown - tap) * innerConduct;
      // The filtered volts decide the gates for the next step.
      let sensed = out;
      if (bySense)
        sensed =
          inner +
          (outAmps * side.ampShare - inner * side.siemensShare) * branchOhm +
          outAmps * rg -
          bike.senseLossVolts;
      filtered += (sensed - filtered) * decay;
      over = over ? filtered > bike.setVolts - bike.senseHysteresis : filtered > bike.setVolts;
      if (over) overSteps++;
      if (over === shunt) for (let k = 0; k < branches; k++) if (amps[k]! > 0) latch[k] = 1;
      windowAmps += outAmps;
      window++;
      if (measuring) {
        record[count++] = outAmps;
        sumOut += out;
        sumAmps += outAmps;
        sumInner += inner;
        if (wave) {
          wave.time.push(count * h);
          for (let k = 0; k < 3; k++) wave.phaseAmps[k]!.push(k < branches ? amps[k]! : 0);
          wave.regulatorVolts.push(out);
          wave.batteryVolts.push(inner + bike.batteryOhm * batteryAmps(side, outAmps, inner));
        }
      }
    }
    // Move the battery's slow volts towards what the mean current asks for.
    chopping ||= overSteps > 0;
    const ib = batteryAmps(side, windowAmps / window, inner);
    const aim = innerVolts(bike, ib);
    const slow = slowOhm(bike, aim);
    const slope = chopping ? 1 / (r + 0.02) : 1 / (r + 0.5 * omega * bike.henry[0]! + 0.05);
    inner +=
      ((aim - inner) * (chopping ? 0.5 : 1)) / (1 + slow * (slope * side.ampShare + side.siemensShare));
    source = inner * side.sourceShare;
    windowAmps = 0;
    window = 0;
  }
  return measure(bike, branches, kept, sumOut / kept, sumAmps / kept, sumInner / kept, chopping);
}

function measure(
  bike: Bike,
  branches: number,
  kept: number,
  regulatorVolts: number,
  rough: number,
  inner: number,
  chopped: boolean,
): OperatingPoint {
  let absolute = 0;
  let square = 0;
  for (let n = 0; n < kept; n++) {
    const d = record[n]! - rough;
    absolute += Math.abs(d);
    square += d * d;
  }
  const perAmp = bike.batteryOhm * side.ampShare;
  // Chopping leaves the mean current of a few cycles rough (a cycle conducts or it does not), while the slow volts
  // have integrated it since the start: the current that holds them steady is the better mean.
  let mean = rough;
  if (chopped) mean = Math.max(0, (ampsFor(bike, inner) + inner * side.siemensShare) / side.ampShare);
  const ib = batteryAmps(side, mean, inner);
  const breakerAmps = bike.loadsFedFrom === 'battery' ? mean : ib;
  const rms: [number, number, number] = [0, 0, 0];
  const pins: [number, number, number] = [0, 0, 0];
  for (let k = 0; k < branches; k++) {
    rms[k] = Math.sqrt(squares[k]! / kept);
    pins[k] = rms[k]! * bike.pinOhm[k]!;
  }
  return {
    batteryVolts: inner + bike.batteryOhm * ib,
    regulatorVolts: regulatorVolts + (mean - rough) * (side.ohm + side.groundOhm),
    alternatorAmps: mean,
    batteryAmps: ib,
    phaseAmps: rms,
    rippleRms: perAmp * Math.sqrt(square / kept),
    rippleMeter: (1.11 * perAmp * absolute) / kept,
    dropPositive:
      mean * (bike.outputJointOhm + bike.outputWireOhm) +
      breakerAmps * bike.breakerOhm +
      ib * bike.positivePostOhm,
    dropNegative: ib * bike.negativePostOhm + mean * bike.groundOhm,
    dropBreaker: breakerAmps * bike.breakerOhm,
    dropOutputJoint: mean * bike.outputJointOhm,
    pinVolts: pins,
  };
}
