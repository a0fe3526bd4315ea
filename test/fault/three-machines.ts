/** The circuits that the tests of faults and readings use: the shipped machines, and a reference machine. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { MIDDLING } from '../../src/circuit/sound.ts';
import type { ChargingSpec } from '../../src/circuit/spec.ts';
import { type Built, buildBike, type Instance } from '../../src/fault/build.ts';
import type { FaultId } from '../../src/fault/catalogue.ts';
import { chargingSpec } from '../../src/machine/charging-spec.ts';
import { readMachine } from '../../src/machine/read-machine.ts';

const folder = fileURLToPath(new URL('../../machines/', import.meta.url));

/** Every shipped machine's circuit. */
export const SHIPPED: readonly ChargingSpec[] = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .sort()
  .map((name) => {
    const read = readMachine(readFileSync(folder + name, 'utf8'), name);
    if (!read.ok) throw new Error(`${name} is not a machine file`);
    return chargingSpec(read.machine);
  });

/** Reference machine: 17.0 V line to line per 1000 rpm, three-phase, 19 Ah; invented. */
export const REFERENCE: ChargingSpec = {
  name: 'Reference',
  alternator: {
    phases: 3,
    poles: 14,
    openVolts: { rpm: 1000, volts: 17.0, tolerance: 0.1 },
    ratedAmps: { rpm: 5000, amps: 32, tolerance: 0.1 },
    pairOhms: [0.2, 0.4],
  },
  regulator: { kind: 'shunt', chargeVolts: [13.9, 14.8], senses: 'output' },
  battery: { chemistry: 'agm', ampHours: 19, crankAmps: 270 },
  loads: { ignition: 5, low: 4.6, high: 5, tail: 0.7, accessories: 0.5 },
  loadsFedFrom: 'battery',
  fuseAmps: 30,
  restDrainAmps: 0.003,
  tachometer: true,
};

/** The same with one winding on two wires. */
export const SINGLE: ChargingSpec = {
  ...REFERENCE,
  name: 'Reference, two wires',
  alternator: { ...REFERENCE.alternator, phases: 1, ratedAmps: { rpm: 5000, amps: 22, tolerance: 0.1 } },
};

/** One fault: severity and second severity 0–1. */
export function instance(
  id: FaultId,
  severity = 0.5,
  phase: 0 | 1 | 2 = 0,
  variant = 0,
  second = 0.5,
): Instance {
  return { id, severity, second, place: { phase, variant } };
}

/** A middling bike with these faults, 95 % charged after the bench. */
export function built(spec: ChargingSpec, ...faults: Instance[]): Built {
  return buildBike(spec, MIDDLING, 0.95, faults);
}
