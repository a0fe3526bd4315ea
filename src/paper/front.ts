/** What stands at the head of every paper: whose figures count, which bike, and whether it is all made up. */
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import type { Block } from './document.ts';
import { words } from './make-block.ts';

const INVENTED_JOB =
  'Everything here is invented for a demonstration: the bike, its figures and the job. Do not work by it.';
const INVENTED_BIKE = 'The bike and its figures are invented for a demonstration. Do not work by them.';

export function bikeWords({ opened }: JobState, machine: Machine | null): string {
  if (machine === null) return opened ? `Machine file ${opened.machine}` : 'A motorcycle';
  const { maker, model, year, invented } = machine.about;
  return `${maker} ${model}, ${year}${invented ? ' (invented)' : ''}`;
}

export function inventedBlocks({ opened }: JobState, machine: Machine | null): readonly Block[] {
  if (opened?.invented) return [words(INVENTED_JOB)];
  return machine?.about.invented ? [words(INVENTED_BIKE)] : [];
}
