/** The machine of the job on screen: its file as the laptop has it, checked here, and what the sciences make of it. */
import { computed, effect, signal } from '@preact/signals';
import type { ChargingSpec } from '../../circuit/spec.ts';
import { chargingSpec } from '../../machine/charging-spec.ts';
import type { Machine } from '../../machine/definition.ts';
import { readMachine } from '../../machine/read-machine.ts';
import { later } from '../browser.ts';
import { fetchMachine } from '../server.ts';
import { job } from './job.ts';
import { remembered } from './kept.ts';
import { machineFailure } from './machine-failure.ts';

export interface Known {
  readonly id: string;
  readonly machine: Machine;
  readonly spec: ChargingSpec;
}

const read = signal<ReadonlyMap<string, Known>>(new Map());

const wanted = computed(() => job.value.opened?.machine ?? null);
export const machine = computed<Known | null>(() =>
  wanted.value === null ? null : (read.value.get(wanted.value) ?? null),
);

async function load(id: string): Promise<void> {
  const got = await remembered(`machine ${id}`, () => fetchMachine(id));
  if (got.ok) {
    const file = readMachine(got.body, `${id}.json`);
    if (file.ok) {
      read.value = new Map(read.peek()).set(id, {
        id,
        machine: file.machine,
        spec: chargingSpec(file.machine),
      });
      machineFailure.value = null;
      return;
    }
    const first = file.problems[0];
    machineFailure.value = `The machine file ${id}.json cannot be used: ${first ? `line ${first.line}: ${first.what}. ${first.fix}.` : 'it has no content.'}`;
    return;
  }
  if (wanted.peek() !== id) return;
  machineFailure.value = got.why;
  if (got.kind === 'unreachable')
    later(() => void (wanted.peek() === id && !read.peek().has(id) && load(id)), 3000);
}

effect(() => {
  const id = wanted.value;
  if (id !== null && !read.peek().has(id)) void load(id);
});
