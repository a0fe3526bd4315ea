/** The worker that reckons with a machine file: which figure would narrow it most, and what its jobs offer for it. */
import type { Offer } from '../bike/offer.ts';
import { offersOf } from '../bike/offers.ts';
import type { JobEvent } from '../job/event.ts';
import { foldJob } from '../job/fold.ts';
import { readJson } from '../machine/json-text.ts';
import { jsonOf } from '../machine/json-value.ts';
import { readMachine } from '../machine/read-machine.ts';
import { type Sharpening, sharpen } from '../start/sharpen.ts';

export interface AdviceAsk {
  readonly id: number;
  readonly text: string;
  /** Logs of jobs on this machine: their offers are wanted; null where the figures worth finding are. */
  readonly jobs: readonly (readonly JobEvent[])[] | null;
}

export interface Advice {
  readonly id: number;
  /** Why nothing can be said, in a sentence. */
  readonly why: string | null;
  readonly sharpenings: readonly Sharpening[];
  readonly offers: readonly Offer[];
}

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

function advise({ id, text, jobs }: AdviceAsk): Advice {
  const read = readMachine(text, 'machine.json');
  const nothing = { id, sharpenings: [], offers: [] };
  if (!read.ok)
    return { ...nothing, why: 'The file does not read yet: mend first what is listed on its first page.' };
  if (jobs === null) return { ...nothing, why: null, sharpenings: sharpen(read.machine) };
  const { root } = readJson(text);
  const value = root === null ? null : jsonOf(root);
  return {
    ...nothing,
    why: null,
    offers: offersOf(
      jobs.map((events) => foldJob(events)),
      read.machine,
      value,
    ),
  };
}

scope.addEventListener('message', (event: MessageEvent<AdviceAsk>) => {
  scope.postMessage(advise(event.data) satisfies Advice);
});
