/**
 * Time-stepping of rectifier, regulator and DC side with exact switching sets: the general point, faulty or not.
 *
 * Every winding is a branch e(t), L, R from the star point to a terminal of the bridge (single phase: a second
 * branch without EMF closes the loop). One step of the trapezoidal rule makes each branch a resistance
 * Z = L/h + R/2 behind a known voltage, the bridge makes it a three-piece line (upper device, off, lower device),
 * and star point, output volts and the tap of a core short are found together: a linear solve for assumed pieces,
 * repeated until no device changes its piece. The trapezoidal rule keeps reactance and losses right to second
 * order; backward Euler at the same step loses X·sin(ωh/2) as if it were resistance (6 % of X at 48 steps a
 * cycle) and was rejected for that. A step in which a current crosses zero has the old device for the share of the
 * step before the crossing: without that every commutation came half a step early, and at 36 steps a cycle the battery
 * volts were 0.057 V off on average (0.52 V at worst, 180 unregulated points) instead of 0.015 V (0.14 V).
 *
 * Gates: the sensed volts pass a one-pole filter. A shunt regulator gates its SCRs (terminal to negative) while
 * the filtered volts exceed the set point; an SCR latches if its phase current flows out, and stays until that
 * current reaches zero. A series regulator lets an upper SCR start only while they are under the set point.
 * Without the filter every rise of the output ripple trips the gate and a 0.1 Ω joint loses twice the current
 * that ngspice shows; 1.2 ms with 0.1 V of hysteresis came within 0.15 V in all faults tried (0, 0.1, 0.3, 0.6,
 * 1, 2, 5, 10 ms were compared).
 * The slow part of the battery (charge acceptance) is a constant source within a cycle, moved after each cycle by
 * a damped Newton step; while the regulator chops the steps shrink from cycle to cycle, or they would shake it from one
 * limit cycle into another.
 */
import type { Bike, OperatingPoint, RunState } from './bike.ts';
import { setOutput, setTapped, solution, solveSystem } from './linear.ts';
import { measure, sampleWave } from './measure.ts';
import { ampsFor, batteryAmps, type DcSide, foldDcSide, innerVolts, newDcSide, slowOhm } from './network.ts';
import { seedInner, seedPhase } from './seed.ts';
import { middleSines } from './sines.ts';

/** How finely the point is computed. */
export interface Fidelity {
  /** Steps in one electrical cycle, a multiple of 3. */
  readonly steps: number;
  /** Cycles thrown away before measuring, and measured. */
  readonly settle: number;
  /** Settle at least this long, s, from standing currents, as a circuit simulator does; left out: from a guess. */
  readonly settleSeconds?: number;
  readonly measure: number;
}

/** What is shown to a person and held against ngspice. */
export const FINE: Fidelity = { steps: 240, settle: 24, measure: 24, settleSeconds: 0.15 };
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
/** A crossing known this well within its step is known well enough. */
const SETTLED_SHARE = 0.01;

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
/** Share of the step before its current crossed zero, where it did. */
const share = new Float64Array(3);
let record = new Float64Array(4096);

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
  const rh = r / 2;
  let inner = seedInner(bike, side, emf[0]!, omega * bike.henry[0]!);
  let source = inner * side.sourceShare;
  seedPhase(amps, three, emf[0]!, ohm[0]!, omega * henry[0]!, source + 2 * v0);
  const atRest = tapped >= 0 || fidelity.settleSeconds !== undefined;
  for (let k = 0; k < branches; k++) if (conduct[k] === 0 || atRest) amps[k] = 0;

  let star = 0;
  let out = source;
  let tap = 0;
  const bySense = bike.senses === 'wire';
  const branchOhm = bike.batteryOhm + bike.positivePostOhm + bike.negativePostOhm;
  const decay = 1 - Math.exp(-h / bike.senseSeconds);
  const started = Math.min(bySense ? inner : source, bike.setVolts) - 0.05;
  let filtered = atRest && Number.isFinite(bike.setVolts) ? bike.setVolts - 1.2 : started;
  let over = false;
  const kept = fidelity.measure * steps;
  if (record.length < kept) record = new Float64Array(kept);
  let count = 0;
  let sumOut = 0;
  let sumAmps = 0;
  let sumInner = 0;
  let sumHeld = 0;
  let sumTouch = 0;
  // Amps the slow part lets through at its present volts, and how far its capacitance has moved them.
  let held = ampsFor(bike, inner);
  let swing = 0;
  const perFarad = bike.slowFarad === undefined ? 0 : h / bike.slowFarad;
  const follows = perFarad > 0 && fidelity.settleSeconds !== undefined;
  const perAmp = bike.batteryOhm * side.ampShare;
  let chopping = false;

  const settle = Math.max(fidelity.settle, Math.ceil((fidelity.settleSeconds ?? 0) * hertz));
  const total = settle + fidelity.measure;
  for (let cycle = 0; cycle < total; cycle++) {
    const measuring = cycle >= settle;
    let overSteps = 0;
    let windowInto = 0;
    let windowHeld = 0;
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
      // The DC side carries the mean of the output amps at both ends of the step.
      let outAmps = 0;
      let wasUp = 0;
      for (let k = 0; k < branches; k++) {
        share[k] = 0;
        const p = piece[k]!;
        if (p === TIED_OUT || (amps[k]! > 0 && p === UP && !(shunt && latch[k] === 1))) wasUp += amps[k]!;
      }
      for (let turn = 0; turn < 10; turn++) {
        // Linear solve for the pieces assumed.
        let sumG = LEAK;
        let sumS = 0;
        let upG = 0;
        let outG = 0;
        let upS = 0;
        let tapG = 0;
        let tapS = 0;
        let tapUp = 0;
        let tapOut = 0;
        for (let k = 0; k < branches; k++) {
          const p = piece[k]!;
          if (p === OFF) continue;
          const g = conduct[k]!;
          const early = share[k]!;
          // Volts of the device over the step; the part before a zero crossing is that of the piece before.
          let bound = 0;
          let gOut = 0;
          if (p === UP) {
            bound = v0 * (1 - 2 * early);
            gOut = g * (1 - early);
          } else if (p === TO_NEGATIVE) bound = v0 * (1 - 2 * early);
          else if (p === DOWN)
            bound = early === 0 ? -v0 : early * ((shunt && latch[k] === 1 ? 0 : out) + v0) - v0 * (1 - early);
          else if (p === TIED_OUT) gOut = g;
          const s = g * (known[k]! - bound);
          const toOut = p === UP || p === TIED_OUT;
          if (k === tapped) {
            tapG = g;
            tapS = s;
            if (toOut) tapUp = g;
            tapOut = gOut;
          } else {
            sumG += g;
            sumS += s;
            if (toOut) upG += g;
            outG += gOut;
          }
          if (toOut) upS += s;
        }
        if (tapped < 0) {
          // sumG·star − outG·out = −sumS and out − rh·(upG·star − outG·out) = source + rh·(was + upS)
          const d = 1 + rh * outG;
          const det = sumG * d - outG * rh * upG;
          const right = source + rh * (wasUp + upS);
          star = (outG * right - sumS * d) / det;
          out = (sumG * right - rh * upG * sumS) / det;
        } else {
          setTapped(sumG, sumS, tapG, tapS, outG, tapOut, innerConduct, innerKnown, shortSiemens);
          setOutput(upG, tapUp, upS + wasUp, outG + tapOut, side.ohm / 2, rg, shortSiemens, source);
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
          let early = 0;
          if (lowMode[k] === 2) {
            p = TIED_NEGATIVE;
            i = w * g;
          } else if (upMode[k] === 2) {
            p = TIED_OUT;
            i = (w - out) * g;
            outAmps += i;
          } else {
            const was = amps[k]!;
            const fired = shunt && latch[k] === 1;
            const high = fired ? v0 : out + v0;
            const canRise = fired || (upMode[k] === 0 && (shunt || !over || latch[k] === 1));
            const canFall = lowMode[k] === 0;
            const gap = high + v0;
            const iUp = canRise ? (w - high) * g : 0;
            const iDown = canFall ? (w + v0) * g : 0;
            if (was > 0 && iUp < 0) {
              // The current crosses zero within the step: until then the upper device holds the terminal.
              early = was / (was - iUp);
              i = canFall ? iDown - early * gap * g : 0;
              if (i < 0) p = DOWN;
              else {
                i = 0;
                early = 0;
              }
            } else if (was < 0 && iDown > 0) {
              early = was / (was - iDown);
              i = canRise ? iUp + early * gap * g : 0;
              if (i > 0) p = fired ? TO_NEGATIVE : UP;
              else {
                i = 0;
                early = 0;
              }
            } else if (iDown < 0) {
              p = DOWN;
              i = iDown;
            } else if (iUp > 0) {
              p = fired ? TO_NEGATIVE : UP;
              i = iUp;
            }
            if (p === UP) outAmps += i;
          }
          if (early - share[k]! > SETTLED_SHARE || share[k]! - early > SETTLED_SHARE) changed = true;
          share[k] = early;
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
      const sensed = bySense
        ? inner + batteryAmps(side, outAmps, inner) * branchOhm + outAmps * rg - bike.senseLossVolts
        : out;
      filtered += (sensed - filtered) * decay;
      over = over ? filtered > bike.setVolts - bike.senseHysteresis : filtered > bike.setVolts;
      if (over) overSteps++;
      if (over === shunt) for (let k = 0; k < branches; k++) if (amps[k]! > 0) latch[k] = 1;
      outAmps = (wasUp + outAmps) / 2;
      const into = batteryAmps(side, outAmps, inner);
      if (perFarad > 0) {
        // The slow part follows within the cycle too.
        held = ampsFor(bike, inner);
        const rise = (perFarad * (into - held)) / (1 + perFarad / slowOhm(bike, inner));
        inner += rise;
        swing += rise;
        source = inner * side.sourceShare;
      }
      windowHeld += held;
      windowInto += into;
      if (measuring) {
        record[count++] = outAmps * perAmp + swing;
        sumHeld += held;
        if (tapped >= 0) sumTouch += innerAmps - amps[tapped]!;
        sumOut += out;
        sumAmps += outAmps;
        sumInner += inner;
        if (wave) sampleWave(wave, count * h, amps, branches, out, inner + bike.batteryOhm * into);
      }
    }
    // Move the battery's slow volts towards what the mean current asks for, unless they have time to follow by themselves.
    chopping ||= overSteps > 0;
    const ib = windowInto / steps;
    const aim = innerVolts(bike, ib);
    const slow = slowOhm(bike, aim);
    const lack = perFarad === 0 ? aim - inner : follows && chopping ? 0 : slow * (ib - windowHeld / steps);
    const slope = chopping ? 1 / (r + 0.02) : 1 / (r + 0.5 * omega * bike.henry[0]! + 0.05);
    inner +=
      (lack * (chopping ? 0.5 / (1 + cycle / 10) : 1)) /
      (1 + slow * (slope * side.ampShare + side.siemensShare));
    source = inner * side.sourceShare;
    held = ampsFor(bike, inner);
  }
  return measure(bike, side, {
    branches,
    kept,
    record,
    squares,
    regulatorVolts: sumOut / kept,
    amps: sumAmps / kept,
    inner: sumInner / kept,
    held: sumHeld / kept,
    touch: sumTouch / kept,
    chopped: chopping,
  });
}
