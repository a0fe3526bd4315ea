/** The shipped machines as what the circuit takes. */
import { readFileSync } from 'node:fs';
import type { ChargingSpec } from '../../src/circuit/spec.ts';
import { chargingSpec } from '../../src/machine/charging-spec.ts';
import { readMachine } from '../../src/machine/read-machine.ts';

/** Three-phase with a shunt regulator, single-phase with a shunt regulator, three-phase with a series regulator. */
export const SHIPPED = ['ardmoor-650-pathway', 'oskerlund-420-fellgate', 'pemburrow-900-carillon'] as const;

export function specOf(name: (typeof SHIPPED)[number]): ChargingSpec {
  const read = readMachine(readFileSync(`machines/${name}.json`, 'utf8'), name);
  if (!read.ok) throw new Error(`${name} cannot be read`);
  return chargingSpec(read.machine);
}
