/** One concrete charging circuit, sound or faulty, every figure SI: what the physics computes with. */

/** Three numbers, one a phase; a single-phase machine uses only the first. */
export type PerPhase = readonly [number, number, number];

/** State of one rectifier device. */
export type Device = 'sound' | 'open' | 'shorted';

/** A winding touching the laminated core (the engine's frame). */
export interface CoreShort {
  /** Index of the phase that touches. */
  readonly phase: 0 | 1 | 2;
  /** Where along that winding, as a fraction of its turns from the star point (three-phase) or from pin b's end (single-phase): 1 = at the terminal. */
  readonly fraction: number;
  /** Resistance of the touch, Ω. */
  readonly ohm: number;
}

export interface Bike {
  readonly phases: 1 | 3;
  readonly polePairs: number;
  /** Open-circuit EMF of each winding, V peak per rpm, magnets at 25 °C. Weak magnets and shorted turns are already in it. */
  readonly emfPerRpm: PerPhase;
  /** Inductance of each winding, H. */
  readonly henry: PerPhase;
  /** Resistance of each winding at 25 °C, Ω. 1e6 = open. */
  readonly ohm: PerPhase;
  /** Resistance of each pin of the stator plug, Ω. 1e6 = burnt through. */
  readonly pinOhm: PerPhase;
  readonly coreShort: CoreShort | null;
  /** Straight-line diode: threshold, V, and slope, Ω. The same line serves a fired SCR. */
  readonly diodeVolts: number;
  readonly diodeOhm: number;
  readonly upper: readonly [Device, Device, Device];
  readonly lower: readonly [Device, Device, Device];
  readonly regulator: 'shunt' | 'series';
  /** Set point on the sensed volts, V. Infinity = no regulation. */
  readonly setVolts: number;
  /** What the gates do: `works`; `dead` gives no output (series never fired, or every shunt SCR stuck on). */
  readonly gate: 'works' | 'dead';
  readonly senses: 'output' | 'wire';
  /** Time constant of the filter between sensed volts and gates, s. */
  readonly senseSeconds: number;
  /** How far the filtered volts must fall under the set point before the gates let go, V. */
  readonly senseHysteresis: number;
  /** Volts lost in the sense wire, V (the regulator believes the battery is this much lower). */
  readonly senseLossVolts: number;
  /** Joint (plug) in the regulator's DC+ lead, Ω. */
  readonly outputJointOhm: number;
  /** The DC+ wire itself, Ω. */
  readonly outputWireOhm: number;
  /** Main breaker or fuse with its two joints, Ω. */
  readonly breakerOhm: number;
  /** Clamp to post at the battery, Ω. */
  readonly positivePostOhm: number;
  readonly negativePostOhm: number;
  /** Regulator negative to the frame, Ω. */
  readonly groundOhm: number;
  /** Battery volts at rest, V, at its state of charge. */
  readonly restVolts: number;
  /** Ohmic resistance of the battery, Ω: what ripple and cranking see. */
  readonly batteryOhm: number;
  /** Further slow resistance while charging (acceptance) and while discharging, Ω. */
  readonly chargeOhm: number;
  readonly dischargeOhm: number;
  /**
   * Capacitance over the slow resistance, F: how fast the slow part follows the current. Left out: so large that no
   * ripple falls on the slow part.
   */
  readonly slowFarad?: number;
  /** Inner volts above which gassing takes the current, V, and the slow resistance there, Ω. */
  readonly gasVolts: number;
  readonly gasOhm: number;
  readonly loadsFedFrom: 'battery' | 'regulator';
  /** Conductance of each load, S. */
  readonly ignitionSiemens: number;
  readonly lowSiemens: number;
  readonly highSiemens: number;
  readonly tailSiemens: number;
  readonly accessorySiemens: number;
}

/** How the engine is run while a reading is taken. */
export interface RunState {
  readonly rpm: number;
  readonly lights: 'off' | 'low' | 'high';
  /** Winding temperature, °C: 25 cold, 110 hot. */
  readonly windingCelsius: number;
  /** Magnet strength against 25 °C, 1 cold, 0.94 hot. */
  readonly magnet: number;
  /** Whether the owner's accessories are switched on. */
  readonly accessories: boolean;
}

/** What the meters would show. Volts are means over whole cycles, V; amps means, A, + into the battery. */
export interface OperatingPoint {
  readonly batteryVolts: number;
  readonly regulatorVolts: number;
  readonly alternatorAmps: number;
  readonly batteryAmps: number;
  /** True rms of each phase current, A. */
  readonly phaseAmps: readonly [number, number, number];
  /** AC part of the battery volts: true rms, V, and 1.11 × mean absolute value, V (what a cheap meter shows). */
  readonly rippleRms: number;
  readonly rippleMeter: number;
  /** Mean volts lost from regulator + to battery + post, and from battery − post to regulator negative, V. */
  readonly dropPositive: number;
  readonly dropNegative: number;
  /** Mean volts lost over the breaker and over the joint of the DC+ lead, V. */
  readonly dropBreaker: number;
  readonly dropOutputJoint: number;
  /** True rms volts over each pin of the stator plug, V. */
  readonly pinVolts: readonly [number, number, number];
}

/** Load conductance in a state, S. */
export function loadSiemens(bike: Bike, state: RunState): number {
  const lamps =
    state.lights === 'off'
      ? 0
      : state.lights === 'low'
        ? bike.lowSiemens + bike.tailSiemens
        : bike.highSiemens + bike.tailSiemens;
  return bike.ignitionSiemens + lamps + (state.accessories ? bike.accessorySiemens : 0);
}
