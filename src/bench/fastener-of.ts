import type { Machine } from '../machine/definition.ts';
import { type KnownFastener, knowFastener } from '../machine/fastener-known.ts';
import type { StepPlace } from './place.ts';

/** The fastener of a place, read; null where it has none or the file does not know it. */
export function fastenerOf(machine: Machine, { fastener }: StepPlace): KnownFastener | null {
  const entry = fastener === null ? undefined : machine.fasteners?.[fastener];
  return entry ? knowFastener(machine, `$.fasteners.${fastener}`, entry).known : null;
}
