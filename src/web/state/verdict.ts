/** The verdict on the job on screen, inferred in a worker: the newest answer, and whether a newer one is coming. */
import { computed, effect, signal } from '@preact/signals';
import type { Answer, SoundShows } from '../../verdict/answer.ts';
import { type Ask, openThinker, type Reply } from '../think.ts';
import { evidence, jobId, loading } from './job.ts';
import { machine } from './machine.ts';

export const answer = signal<Answer | null>(null);
export const thinking = signal(false);
export const failure = signal<string | null>(null);
/** What a sound bike shows, by reading key, as far as it was asked. */
export const bands = signal<ReadonlyMap<string, SoundShows>>(new Map());

const worker = new Worker(new URL('../think-worker.ts', import.meta.url), {
  type: 'module',
  name: 'verdict',
});
worker.addEventListener('error', () => {
  failure.value =
    'The verdict could not be worked out: its worker did not start. Reload the page; entries are kept.';
});

const thinker = openThinker(
  {
    post: (ask: Ask) => worker.postMessage(ask),
    receive: (take) => worker.addEventListener('message', (event: MessageEvent<Reply>) => take(event.data)),
  },
  {
    answer: (got) => {
      answer.value = got;
      failure.value = null;
    },
    shows: (key, shows) => {
      bands.value = new Map(bands.peek()).set(key, shows);
    },
    thinking: (busy) => {
      thinking.value = busy;
    },
    failed: (why) => {
      failure.value = why;
    },
  },
);

const spec = computed(() => machine.value?.spec ?? null);

let openedFor = '';
effect(() => {
  const bike = spec.value;
  const id = jobId.value;
  const ready = loading.value.is === 'ready';
  const seen = evidence.value;
  if (bike === null || id === null) return;
  const now = `${id} ${machine.peek()?.id}`;
  if (now !== openedFor) {
    // Another job, even on the same machine, starts from nothing.
    openedFor = now;
    answer.value = null;
    failure.value = null;
    bands.value = new Map();
    thinker.open(bike);
  }
  if (ready) thinker.assess(seen);
});

/** What a sound bike of this kind shows for a key; null until the worker has said. */
export function soundShows(key: string): SoundShows | null {
  return bands.value.get(key) ?? null;
}

export function askSound(key: string): void {
  if (spec.peek() && !bands.peek().has(key)) thinker.sound(key);
}
