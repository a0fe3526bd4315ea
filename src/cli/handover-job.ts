/** The job that a handover command is about: its events, its machine file, and the garage's clock. */
import type { JobEvent } from '../job/event.ts';
import { nearest } from '../machine/nearest.ts';
import { eastOf } from '../press/east-of.ts';
import { headOf } from '../press/job-file.ts';
import { eventsIn } from './export-job.ts';
import type { Garage } from './open-garage.ts';
import { Refusal } from './refusal.ts';

export interface HandedOver {
  readonly events: readonly JobEvent[];
  /** Text of the machine file; null where it is not here. */
  readonly machine: string | null;
  /** Now, ISO 8601 in UTC. */
  readonly at: string;
  /** How far this computer's clock is ahead of UTC when the job was last written to, min. */
  readonly east: number;
}

export async function handedOver(garage: Garage, job: string): Promise<HandedOver> {
  const events = await eventsIn(garage, job);
  const id = headOf(events)?.machine;
  const machine =
    id === undefined ? null : ((await garage.shelf.shipped(id)) ?? (await garage.shelf.text(id)));
  return {
    events,
    machine,
    at: new Date().toISOString(),
    east: eastOf(events),
  };
}

/** The clip that is asked for by its number or its name; throws a Refusal that names those there are. */
export function clipAsked<C extends { readonly number: number; readonly name: string }>(
  clips: readonly C[],
  asked: string,
): C {
  const named = clips.find(({ name }) => name === asked);
  if (named) return named;
  const same = clips.filter(({ number }) => String(number) === asked);
  const names = same.map(({ name }) => name).join(' or ');
  if (same.length > 1)
    throw new Refusal(`Two devices counted a clip ${asked}: write --clip ${names} instead.`);
  if (same.length === 1) return same[0]!;
  const all = clips.map(({ number }) => String(number));
  const near = nearest(asked, all);
  throw new Refusal(
    `There is no clip ${asked.slice(0, 40)} in this job: ${clips.length === 0 ? 'it holds none' : near !== null ? `write ${near} if that is meant` : `it may be ${all.join(', ')}`}.`,
  );
}
