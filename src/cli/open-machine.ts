/** Opens the machine file that a command names. */
import type { ChargingSpec } from '../circuit/spec.ts';
import { chargingSpec } from '../machine/charging-spec.ts';
import { type Machine, PARTS, type Part } from '../machine/definition.ts';
import { writeProblem } from '../machine/problem.ts';
import { readMachine } from '../machine/read-machine.ts';
import type { Option, World } from './command.ts';
import type { Given } from './options.ts';
import { Refusal } from './refusal.ts';

export interface OpenMachine {
  readonly file: string;
  readonly machine: Machine;
  readonly notes: readonly string[];
  readonly spec: ChargingSpec;
}

/** Option of every command that turns a machine file into a circuit. */
export const NEW_PART: Option = {
  name: '--new',
  value: 'PART',
  many: true,
  about: `count the figures of this new part's own sheet: ${PARTS.join(', ')}`,
};

/** Reads and checks a machine file; every problem of it goes into the Refusal. */
export async function openMachine(name: string, given: Given, world: World): Promise<OpenMachine> {
  const read = readMachine(await world.read(name), name);
  if (!read.ok) throw new Refusal(...read.problems.map(writeProblem));
  const fresh = given.all('--new').map((word): Part => {
    const part = PARTS.find((one) => one === word);
    if (part === undefined) throw new Refusal(`--new may be ${PARTS.join(', ')}, not "${word}".`);
    return part;
  });
  return { file: name, machine: read.machine, notes: read.notes, spec: chargingSpec(read.machine, fresh) };
}

/** "Ardmoor 650 Pathway, 1991 (invented)". */
export function titleOf({ machine }: OpenMachine): string {
  const { maker, model, year, invented } = machine.about;
  return `${maker} ${model}, ${year}${invented ? ' (invented)' : ''}`;
}
