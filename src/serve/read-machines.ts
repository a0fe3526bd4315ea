/**
 * Machine files as they read: the laptop reads a file once, so that no phone spends its first seconds on that. The answer
 * is what `readMachine` gives, as JSON: a machine is plain data.
 */
import type { Context } from 'hono';
import { foldJob } from '../job/fold.ts';
import type { JobStore } from '../log/store.ts';
import { readMachine } from '../machine/read-machine.ts';
import { fail, noJob } from './jobs.ts';

/** Answers kept, count: a machine of one's own may have hundreds of versions. */
const MOST_KEPT = 20;

export interface ReadMachines {
  /** A machine by its id. */
  readonly give: (c: Context, id: string) => Promise<Response>;
  /** The machine of a job, for a page that does not know yet which one that is. */
  readonly giveOfJob: (c: Context, job: string) => Promise<Response>;
}

/** Reads the machine files that `textOf` finds; a file that was changed is read anew. */
export function openReadMachines(
  store: JobStore,
  textOf: (id: string) => Promise<string | null>,
): ReadMachines {
  const kept = new Map<string, { readonly text: string; readonly answer: string }>();
  const give = async (c: Context, id: string): Promise<Response> => {
    const text = await textOf(id);
    if (text === null)
      return fail(c, 404, 'There is no such machine here; the list of machines is at /api/machines.');
    let known = kept.get(id);
    if (known?.text !== text) {
      known = { text, answer: JSON.stringify({ id, read: readMachine(text, `${id}.json`) }) };
      kept.delete(id);
      kept.set(id, known);
      if (kept.size > MOST_KEPT) kept.delete(kept.keys().next().value!);
    }
    return c.body(known.answer, 200, { 'content-type': 'application/json; charset=utf-8' });
  };
  return {
    give,
    giveOfJob: async (c, job) => {
      const { opened } = foldJob((await store.since(job, 0)).map(({ event }) => event));
      return opened === null ? fail(c, 404, noJob(job)) : give(c, opened.machine);
    },
  };
}
