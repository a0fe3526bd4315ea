/** The chapters of a job's film, from its log and what its machine file calls the steps. */
import type { JobEvent } from '../job/event.ts';
import { foldJob } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { type Film, filmOf } from './chapters.ts';
import { benchOf, stepWords } from './job-bench.ts';

/** The clips of a job with their chapters, its steps in the machine file's words. */
export function filmOfJob(events: readonly JobEvent[], machine: Machine | null): Film {
  const { places } = benchOf(foldJob(events), machine);
  return filmOf(events, (step) => stepWords(places, step));
}
