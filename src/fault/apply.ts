/** How each fault, at a severity, changes the circuit. Severities are shares 0–1 of the fault's own range. */
import type { Bike, Device, PerPhase } from '../circuit/bike.ts';
import type { FaultId } from './catalogue.ts';
import { grade } from './grades.ts';

/** What the circuit alone cannot say: the effects of faults that meters see with the engine off. */
export interface Condition {
  /** Key-off drain above the usual, A. */
  drainAmps: number;
  /** Capacity against the label, 1. */
  capacity: number;
  /** State of charge as the bike came, and the most it takes on the bench, 0–1. */
  charge: number;
  chargeTop: number;
  /** Volts a shorted cell takes from the battery, V (0 = none), and which of six cells. */
  cellVolts: number;
  cell: number;
  /** Battery resistance against a sound one, 1. */
  sulphation: number;
  /** Extra accessory load beyond the book, A at 13.5 V. */
  overloadAmps: number;
  /** A short to the core that is there only when hot. */
  hotShort: { phase: 0 | 1 | 2; fraction: number; ohm: number } | null;
  /** A joint that is bad only while the harness is moved, and how bad, Ω. */
  loose: { readonly joint: 'breakerOhm' | 'outputJointOhm' | 'groundOhm'; readonly ohm: number } | null;
  /** What a meter of 10 MΩ shows over a winding that is open: 0 "OL", 1 next to nothing, 2 nearly all (a carbon track). */
  openShows: 0 | 1 | 2;
  /** Main fuse blown: the regulator is cut off from the battery. */
  fuseBlown: boolean;
  /** The regulator's missing output shows on the diode range. */
  deadShows: boolean;
}

export interface FaultyBike {
  readonly bike: Bike;
  readonly condition: Condition;
}

export function soundCondition(charge: number, chargeTop: number): Condition {
  return {
    drainAmps: 0,
    capacity: 1,
    charge,
    chargeTop,
    cellVolts: 0,
    cell: 1,
    sulphation: 1,
    overloadAmps: 0,
    hotShort: null,
    loose: null,
    openShows: 0,
    fuseBlown: false,
    deadShows: false,
  };
}

/**
 * A joint that has come apart, Ω. At 10 Ω some 0.2 A flow and the volts are those of no joint at all; 10 kΩ only takes
 * hundreds of cycles to settle (ngspice 1.88 V from battery − to regulator ground at 3000 rpm, here 1.9 V).
 */
export const PARTED_OHM = 10;

/** The variant of a joint that is bad only while the harness is moved. */
const LOOSE = 2;

function put<T>(list: readonly [T, T, T], at: number, value: T): [T, T, T] {
  const copy: [T, T, T] = [list[0], list[1], list[2]];
  copy[at] = value;
  return copy;
}

function scale(list: PerPhase, at: number, factor: number): PerPhase {
  return put(list, at, list[at]! * factor);
}

/** Where a fault sits, when it can sit in several places: the phase (or leg) index and a variant of its kind. */
export interface Place {
  readonly phase: 0 | 1 | 2;
  /** Variant: plug-pins: which pin stays sound (0–2 = none sound is not modelled); diodes: 0 lower, 1 upper; joints: 1 parted, 2 loose. */
  readonly variant: number;
}

/**
 * Applies one fault. `severity` and `second` are shares 0–1 of the ranges in grades.ts; `condition` is changed in
 * place, the bike is returned new.
 */
export function applyFault(
  bike: Bike,
  condition: Condition,
  id: FaultId,
  severity: number,
  second: number,
  place: Place,
): Bike {
  const k = place.phase;
  switch (id) {
    case 'battery-flat':
      // The charge itself is settled before the circuit is built (see build.ts).
      return bike;
    case 'battery-sulphated': {
      const times = grade('battery-sulphated', severity);
      condition.sulphation = times;
      condition.capacity *= 0.8;
      return {
        ...bike,
        batteryOhm: bike.batteryOhm * times,
        chargeOhm: bike.chargeOhm * (1 + 0.25 * (times - 1)),
        dischargeOhm: bike.dischargeOhm * times,
      };
    }
    case 'battery-shorted-cell':
      // Whether five good cells gas at five sixths of the volts, or the dead one still takes its share, differs from
      // battery to battery: `second` runs from the one to the other.
      condition.cellVolts = 2.1 - 0.1 * severity;
      condition.capacity *= 0.3;
      return {
        ...bike,
        restVolts: bike.restVolts - condition.cellVolts,
        batteryOhm: bike.batteryOhm * 0.95,
        gasVolts: bike.gasVolts - 2.4 * (1 - second),
      };
    case 'battery-worn':
      condition.capacity *= grade('battery-worn', severity);
      return {
        ...bike,
        batteryOhm: bike.batteryOhm * (1.2 + 0.5 * second),
        dischargeOhm: bike.dischargeOhm * (1.2 + 0.5 * second),
      };
    case 'positive-post-joint':
      return { ...bike, positivePostOhm: bike.positivePostOhm + grade(id, severity) };
    case 'negative-post-joint':
      return { ...bike, negativePostOhm: bike.negativePostOhm + grade(id, severity) };
    case 'output-joint':
      if (place.variant === LOOSE) condition.loose = { joint: 'outputJointOhm', ohm: grade(id, severity) };
      if (place.variant === LOOSE) return bike;
      return { ...bike, outputJointOhm: bike.outputJointOhm + grade(id, severity) };
    case 'ground-joint':
      if (place.variant === LOOSE) condition.loose = { joint: 'groundOhm', ohm: grade(id, severity) };
      if (place.variant === LOOSE) return bike;
      return { ...bike, groundOhm: place.variant === 1 ? PARTED_OHM : bike.groundOhm + grade(id, severity) };
    case 'breaker-joint':
      if (place.variant === LOOSE) condition.loose = { joint: 'breakerOhm', ohm: grade(id, severity) };
      if (place.variant === LOOSE) return bike;
      return { ...bike, breakerOhm: bike.breakerOhm + grade(id, severity) };
    case 'plug-pin':
      return {
        ...bike,
        pinOhm: put(bike.pinOhm, k, place.variant === 1 ? 1e6 : bike.pinOhm[k] + grade(id, severity)),
      };
    case 'plug-pins': {
      // `phase` is the pin that stays sound; on a two-wire stator both pins burn.
      const burnt = bike.phases === 1 ? [0, 1] : [0, 1, 2].filter((n) => n !== k);
      let pins: PerPhase = bike.pinOhm;
      burnt.forEach((n, i) => {
        pins = put(
          pins,
          n,
          place.variant === i + 1 ? 1e6 : pins[n]! + grade(id, i === 0 ? severity : second),
        );
      });
      return { ...bike, pinOhm: pins };
    }
    case 'stator-open':
      condition.openShows = place.variant as 0 | 1 | 2;
      return { ...bike, ohm: put(bike.ohm, k, 1e6) };
    case 'stator-core-terminal':
      return { ...bike, coreShort: { phase: k, fraction: 1, ohm: grade(id, severity) } };
    case 'stator-core-midway':
      return { ...bike, coreShort: { phase: k, fraction: 0.15 + 0.75 * second, ohm: grade(id, severity) } };
    case 'stator-hot-short':
      condition.hotShort = { phase: k, fraction: 0.15 + 0.85 * second, ohm: grade(id, severity) };
      return bike;
    case 'stator-shorted-turns': {
      const left = 1 - grade(id, severity);
      // Turns carry volts and resistance in proportion, inductance between proportion (coils apart) and square.
      return {
        ...bike,
        emfPerRpm: scale(bike.emfPerRpm, k, left),
        ohm: scale(bike.ohm, k, left),
        henry: scale(bike.henry, k, left ** 1.2),
      };
    }
    case 'rotor-weak': {
      const left = grade(id, severity);
      const e = bike.emfPerRpm;
      return { ...bike, emfPerRpm: [e[0] * left, e[1] * left, e[2] * left] };
    }
    case 'diode-open':
      return place.variant === 1
        ? { ...bike, upper: put<Device>(bike.upper, k, 'open') }
        : { ...bike, lower: put<Device>(bike.lower, k, 'open') };
    case 'diode-shorted':
      if (place.variant === 0) return { ...bike, lower: put<Device>(bike.lower, k, 'shorted') };
      if (bike.regulator === 'shunt') condition.fuseBlown = true;
      return { ...bike, upper: put<Device>(bike.upper, k, 'shorted') };
    case 'regulator-dead':
      condition.deadShows = place.variant === 1;
      return { ...bike, gate: 'dead' };
    case 'regulator-runaway':
      return { ...bike, setVolts: Number.POSITIVE_INFINITY };
    case 'regulator-set-low':
      return { ...bike, setVolts: bike.setVolts - grade(id, severity) };
    case 'sense-drop':
      return { ...bike, senseLossVolts: bike.senseLossVolts + grade(id, severity) };
    case 'drain':
      condition.drainAmps += grade(id, severity);
      return bike;
    case 'overload': {
      const amps = grade(id, severity);
      condition.overloadAmps += amps;
      return { ...bike, accessorySiemens: bike.accessorySiemens + amps / 13.5 };
    }
    case 'thin-wire':
      return { ...bike, outputWireOhm: bike.outputWireOhm + grade(id, severity) };
  }
}
