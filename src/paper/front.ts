/** What stands at the head of every paper: which bike, and whether something in it is made up. */
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import type { Block } from './document.ts';

interface Of {
  readonly state: JobState;
  /** Null where the machine file is not here. */
  readonly machine: Machine | null;
}

const INVENTED_JOB =
  'Everything here is invented for a demonstration: the bike, its figures, the people and the job. Do not work by it.';
const INVENTED_BIKE =
  'The bike of this machine file is invented, and so are its figures. Do not work by them.';

/** What a paper says first of all where something in it is made up. */
export function inventedBlocks({ state, machine }: Of): readonly Block[] {
  if (state.opened?.invented) return [{ kind: 'caution', text: INVENTED_JOB }];
  return machine?.about.invented ? [{ kind: 'caution', text: INVENTED_BIKE }] : [];
}

/** "Ardmoor 650 Pathway, 1988 (invented)"; the machine file's name where it is not here. */
export function bikeWords({ state, machine }: Of): string {
  if (machine === null) return state.opened === null ? 'Bike unknown' : `Bike: ${state.opened.machine}`;
  const { maker, model, year, invented } = machine.about;
  return `${maker} ${model}, ${year}${invented || state.opened?.invented ? ' (invented)' : ''}`;
}
