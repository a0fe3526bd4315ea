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

/** A machine file opened, or why it cannot be; `away` where the laptop may yet answer. */
export type Opened =
  | { readonly ok: true; readonly known: Known }
  | { readonly ok: false; readonly why: string; readonly away: boolean };

/** Opens a machine file as the laptop has it, or as it gave it last. */
export async function openMachine(id: string): Promise<Opened> {
  const got = await remembered(`machine ${id}`, () => fetchMachine(id));
  if (!got.ok) return { ok: false, why: got.why, away: got.kind === 'unreachable' };
  const file = readMachine(got.body, `${id}.json`);
  if (file.ok) return { ok: true, known: { id, machine: file.machine, spec: chargingSpec(file.machine) } };
  const first = file.problems[0];
  const what = first ? `line ${first.line}: ${first.what}. ${first.fix}.` : 'it has no content.';
  return { ok: false, why: `The machine file ${id}.json cannot be used: ${what}`, away: false };
}

async function load(id: string): Promise<void> {
  const opened = await openMachine(id);
  if (opened.ok) {
    read.value = new Map(read.peek()).set(id, opened.known);
    machineFailure.value = null;
    return;
  }
  if (wanted.peek() !== id) return;
  machineFailure.value = opened.why;
  if (opened.away) later(() => void (wanted.peek() === id && !read.peek().has(id) && load(id)), 3000);
}

effect(() => {
  const id = wanted.value;
  if (id !== null && !read.peek().has(id)) void load(id);
});
