/** The machine of the job on screen: its file as the laptop reads it, and what the sciences make of it. */
import { computed, effect, signal } from '@preact/signals';
import type { ChargingSpec } from '../../circuit/spec.ts';
import { chargingSpec } from '../../machine/charging-spec.ts';
import type { Machine } from '../../machine/definition.ts';
import { later } from '../browser.ts';
import { fetchRead, readRead, STRANGER } from '../server.ts';
import { job, jobId } from './job.ts';
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

/** Opens a machine file as the laptop reads it, or as it gave it last. */
export async function openMachine(id: string, job: string | null = null): Promise<Opened> {
  const got = await remembered(`machine as read ${id}`, () => fetchRead(id, job));
  if (!got.ok) return { ok: false, why: got.why, away: got.kind === 'unreachable' };
  const file = readRead(got.body);
  if (file === null) return { ok: false, why: STRANGER, away: true };
  if (file.ok) return { ok: true, known: { id, machine: file.machine, spec: chargingSpec(file.machine) } };
  const first = file.problems[0];
  const what = first ? `line ${first.line}: ${first.what}. ${first.fix}.` : 'it has no content.';
  return { ok: false, why: `The machine file ${id}.json cannot be used: ${what}`, away: false };
}

async function load(id: string): Promise<void> {
  const opened = await openMachine(id, jobId.peek());
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
