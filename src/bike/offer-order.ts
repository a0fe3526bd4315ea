/** Where the work was done in another order than the file says it must be: the need may be one too many. */
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { getAt, type Json } from '../machine/json-value.ts';
import { type Offer, plainOffer, type Seen } from './offer.ts';

/** So many jobs must have gone without before it is worth a word, count: once may be a tick forgotten. */
const LEAST_JOBS = 2;
/** Ticks closer together were ticked together, whatever order they stand in, ms. */
const TOGETHER = 15_000;

/**
 * Needs that the bike was done without. Only what a part's coming off gives is looked at: that the battery is
 * disconnected, the engine cold or the bike raised is there so that nobody is hurt, and no job unmakes it.
 */
export function offeredOrder(jobs: readonly JobState[], machine: Machine, file: Json): readonly Offer[] {
  const actions = Object.entries(machine.work?.actions ?? {});
  const out: Offer[] = [];
  for (const [id, entry] of actions)
    for (const need of entry.needs ?? []) {
      const givers = actions.filter(([, one]) => one.gives.some((fact) => meets(fact, need)));
      if (givers.length === 0 || givers.some(([, one]) => one.part === null)) continue;
      const ids = new Set(givers.map(([giver]) => giver));
      const without = jobs.flatMap((state) => withoutIt(state, id, ids));
      if (without.length < LEAST_JOBS) continue;
      const last = without.toSorted((a, b) => a.at.localeCompare(b.at)).at(-1)!;
      const path = ['work', 'actions', id, 'needs'];
      const left = ((getAt(file, path) as readonly Json[] | undefined) ?? []).filter((one) => one !== need);
      out.push(
        plainOffer(
          {
            kind: 'order',
            path,
            label: `Order: ${entry.does}`,
            puts: [{ path, is: left.length === 0 ? undefined : left }],
            says: `without “${need}”`,
            was: `needs ${(entry.needs ?? []).map((one) => `“${one}”`).join(', ')}`,
            why: `The file says “${need}” must hold before it; it was done without, ${without.length === 2 ? 'twice' : `${without.length} times`}. Look at the bike whether it can really stay: a tick may have been forgotten.`,
          },
          last,
        ),
      );
    }
  return out;
}

/** What is off is slack too. */
function meets(fact: string, need: string): boolean {
  return fact === need || (need.endsWith(' slack') && fact === need.replace(/ slack$/, ' off'));
}

/** The job, where the action was done in it and none of the givers before. */
function withoutIt(state: JobState, action: string, givers: ReadonlySet<string>): readonly Seen[] {
  const ticks = state.way.ticks.flatMap(({ step, done }) => (done === null ? [] : [{ step, at: done }]));
  const done = ticks.find(({ step }) => step === action);
  if (!done || state.job === null) return [];
  const until = Date.parse(done.at) + TOGETHER;
  const before = ticks.some(({ step, at }) => givers.has(step) && Date.parse(at) <= until);
  return before ? [] : [{ job: state.job, at: done.at }];
}
