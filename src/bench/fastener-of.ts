import type { Machine, Part } from '../machine/definition.ts';
import { type KnownFastener, knowFastener } from '../machine/fastener-known.ts';
import type { StepPlace } from './place.ts';

/** The fastener of a place as it counts with these parts new; null where it has none or the file does not know it. */
export function fastenerOf(
  machine: Machine,
  { fastener }: StepPlace,
  fresh: readonly Part[] = [],
): KnownFastener | null {
  const entry = fastener === null ? undefined : machine.fasteners?.[fastener];
  return entry ? knowFastener(machine, `$.fasteners.${fastener}`, entry, fresh).known : null;
}
