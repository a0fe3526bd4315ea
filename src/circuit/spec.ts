/**
 * Room `circuit`: the charging circuit of a motorcycle as physics: a permanent-magnet alternator (three-phase
 * star or single-phase two-wire), a rectifier with a shunt or series regulator, runs of wire with their joints,
 * a battery and its loads, sound or faulty. It answers what every meter would show at an operating point. It
 * knows nothing of probabilities, files or screens.
 *
 * This file: what the owner's book says of a charging circuit, before anybody has measured the bike.
 */

/** Alternator as the book prints it. */
export interface AlternatorSpec {
  /** 3 = star with floating neutral, 1 = one winding on two wires. */
  readonly phases: 1 | 3;
  /** Magnet poles of the rotor; null when the book does not say. Even, 2–36. */
  readonly poles: number | null;
  /** Open-circuit AC volts rms between two pins, winding cold, at `rpm`; `tolerance` is relative (0.1 = ±10 %). */
  readonly openVolts: { readonly rpm: number; readonly volts: number; readonly tolerance: number };
  /** DC amps the alternator can give at `rpm`; `tolerance` is relative. */
  readonly ratedAmps: { readonly rpm: number; readonly amps: number; readonly tolerance: number };
  /** Resistance between two pins at 25 °C, Ω: the range the book allows [low, high]. */
  readonly pairOhms: readonly [number, number];
}

/** Regulator as the book prints it. */
export interface RegulatorSpec {
  readonly kind: 'shunt' | 'series';
  /** Battery volts at 5000 rpm with a charged battery, V: the range the book allows [low, high]. */
  readonly chargeVolts: readonly [number, number];
  /** Where it senses the volts: at its own output, or through a wire of its own to the battery side. */
  readonly senses: 'output' | 'wire';
}

/** Battery as its label prints it. */
export interface BatterySpec {
  readonly chemistry: 'flooded' | 'agm';
  readonly ampHours: number;
  /** Cold-cranking amps, A. */
  readonly crankAmps: number;
}

/** Loads, A at 13.5 V. They behave as resistances. */
export interface LoadSpec {
  readonly ignition: number;
  readonly low: number;
  readonly high: number;
  readonly tail: number;
  readonly accessories: number;
}

/** Middle figures of sound wiring, Ω each. */
export interface WiringSpec {
  readonly pin: number | null;
  readonly outputJoint: number | null;
  readonly outputWire: number | null;
  readonly breaker: number | null;
  readonly positivePost: number | null;
  readonly negativePost: number | null;
  readonly ground: number | null;
}

/** What the book and the labels say of one bike's charging circuit: everything the verdict needs to start. */
export interface ChargingSpec {
  readonly name: string;
  readonly alternator: AlternatorSpec;
  readonly regulator: RegulatorSpec;
  readonly battery: BatterySpec;
  readonly loads: LoadSpec;
  /** Which side of the main breaker or fuse the loads hang on. */
  readonly loadsFedFrom: 'battery' | 'regulator';
  /** Main fuse or breaker, A. */
  readonly fuseAmps: number;
  /** Key-off drain the book allows, A. */
  readonly restDrainAmps: number;
  /** Resistances of the wiring that the machine file knows, Ω; null where it does not, and a typical figure stands in. */
  readonly wiring?: WiringSpec;
  /** Whether the bike has a tachometer: engine speed is then known to ±20 rpm, else ±100 rpm. */
  readonly tachometer: boolean;
  /** How unsure the figures are that stand here as one number each; left out where all are read off a label. */
  readonly unsure?: UnsureSpec;
}

/** Half widths against the middle, 1: 0 for what is known. */
export interface UnsureSpec {
  /** All that is switched on together, low beam and accessories on. */
  readonly loads: number;
  readonly ampHours: number;
  readonly crankAmps: number;
}
