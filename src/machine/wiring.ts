/** The wires and joints of a machine file as resistances, ready for the circuit. */
import type { WiringSpec } from '../circuit/spec.ts';
import { wireOhms } from '../circuit/wire.ts';
import { counting } from './counts.ts';
import type { Charging, Machine, Part } from './definition.ts';
import { middle } from './figure.ts';

/** Resistance of each sound run and joint at 20 °C, Ω; null where the file does not say. */
export interface WiringOhms {
  /** One stator lead. */
  readonly statorWire: number | null;
  /** One pin of the stator plug. */
  readonly statorPlug: number | null;
  readonly outputWire: number | null;
  readonly outputJoint: number | null;
  /** Breaker or fuse with both its ends. */
  readonly breaker: number | null;
  readonly positivePost: number | null;
  readonly negativePost: number | null;
  readonly groundWire: number | null;
  readonly groundJoint: number | null;
  readonly senseWire: number | null;
  readonly senseJoint: number | null;
}

type Wiring = NonNullable<Charging['wiring']>;
type Run = NonNullable<Wiring['output']>;
type JointAt = NonNullable<Run['joints']>[number]['at'];

/** Ω of every run and joint that the file describes; several joints at one place are in series. */
export function wiringOhms(machine: Machine, newParts: readonly Part[] = []): WiringOhms {
  const wiring = machine.charging.wiring;
  const runs = wiring === null ? [] : [wiring.stator, wiring.output, wiring.ground, wiring.sense];
  const wire = (run: Run | null | undefined): number | null => {
    if (!run) return null;
    const gauge = counting(machine, run.gauge, newParts) as Run['gauge'];
    const length = counting(machine, run.length, newParts) as Run['length'];
    return wireOhms(gauge.is.section, middle(length.is));
  };
  const joint = (at: JointAt): number | null => {
    const ohms = runs
      .flatMap((run) => run?.joints ?? [])
      .filter((one) => one.at === at)
      .map((one) => middle((counting(machine, one.ohms, newParts) as typeof one.ohms).is));
    return ohms.length === 0 ? null : ohms.reduce((sum, one) => sum + one, 0);
  };
  return {
    statorWire: wire(wiring?.stator),
    statorPlug: joint('stator-plug'),
    outputWire: wire(wiring?.output),
    outputJoint: joint('output-joint'),
    breaker: joint('breaker'),
    positivePost: joint('positive-post'),
    negativePost: joint('negative-post'),
    groundWire: wire(wiring?.ground),
    groundJoint: joint('ground'),
    senseWire: wire(wiring?.sense),
    senseJoint: joint('sense-wire'),
  };
}

/** The same as the circuit takes it: a ground is its wire and its joint together. */
export function wiringSpec(machine: Machine, newParts: readonly Part[] = []): WiringSpec {
  const ohms = wiringOhms(machine, newParts);
  const ground =
    ohms.groundWire === null && ohms.groundJoint === null
      ? null
      : (ohms.groundWire ?? 0) + (ohms.groundJoint ?? 0);
  return {
    pin: ohms.statorPlug,
    outputJoint: ohms.outputJoint,
    outputWire: ohms.outputWire,
    breaker: ohms.breaker,
    positivePost: ohms.positivePost,
    negativePost: ohms.negativePost,
    ground,
  };
}
