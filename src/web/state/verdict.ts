/** The verdict on the job on screen, inferred in a worker: the newest answer, and whether a newer one is coming. */
import { batch, computed, effect, signal } from '@preact/signals';
import type { Answer, Evidence, SoundShows } from '../../verdict/answer.ts';
import type { Explanation } from '../../verdict/explanation.ts';
import { afterFrame } from '../parts/later.tsx';
import { type Ask, type Chances, openThinker, type Reply } from '../think.ts';
import { evidence, jobId, loading, priors } from './job.ts';
import { machine } from './machine.ts';
import { bandWanted, proofBands, proving } from './side.ts';

export const answer = signal<Answer | null>(null);
export const thinking = signal(false);
export const failure = signal<string | null>(null);
/** What a sound bike shows, by reading key, as far as it was asked. */
const bands = signal<ReadonlyMap<string, SoundShows>>(new Map());

/** Chances before any reading on this bike, as this job has them and by the catalogue alone; null until worked out. */
export const chances = signal<{ readonly now: Chances; readonly catalogue: Chances } | null>(null);

/** The newest answer's evidence, and the newest reasons with theirs: reasons of older evidence are not shown. */
const answered = signal<Evidence | null>(null);
const explained = signal<{ readonly why: Explanation; readonly of: Evidence } | null>(null);
/** Why each suspect is suspected, on the evidence of the answer on screen; null while it is not known. */
export const explanation = computed<Explanation | null>(() =>
  explained.value !== null && explained.value.of === answered.value ? explained.value.why : null,
);
/** Somebody is looking at the reasons. */
const looking = signal(false);

/**
 * Started by the first question, once the page has shown itself: the worker's file must not hold up the first screen.
 * Rejected: three seconds later on the bench, whose plan has a worker of its own. It opens quieter (blocking time 351 to 251 ms
 * with two processors), but the first touches then fall into the inference instead.
 */
let worker: Worker | null = null;
const held: Ask[] = [];
let take: (reply: Reply) => void = () => undefined;
function start(): void {
  worker = new Worker(new URL('../think-worker.ts', import.meta.url), { type: 'module', name: 'verdict' });
  worker.addEventListener('message', ({ data }: MessageEvent<Reply>) => take(data));
  worker.addEventListener('error', () => {
    failure.value =
      'The verdict could not be worked out: its worker did not start. Reload the page; entries are kept.';
  });
  for (const ask of held.splice(0)) worker.postMessage(ask);
}
function post(ask: Ask): void {
  if (worker) worker.postMessage(ask);
  else if (held.push(ask) === 1) afterFrame(start);
}

const thinker = openThinker(
  {
    post,
    receive: (hear) => {
      take = hear;
    },
  },
  {
    opened: (now, catalogue) => {
      chances.value = { now, catalogue };
    },
    answer: (got, of) => {
      batch(() => {
        answer.value = got;
        answered.value = of;
        failure.value = null;
      });
    },
    explained: (why, of) => {
      explained.value = { why, of };
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
  const own = priors.value;
  const now = `${id} ${machine.peek()?.id} ${own.map(({ fault, chance }) => `${fault}=${chance}`).join(' ')}`;
  if (now !== openedFor) {
    const same = openedFor.startsWith(`${id} `);
    openedFor = now;
    failure.value = null;
    explained.value = null;
    answered.value = null;
    if (!same) {
      // Another job, even on the same machine, starts from nothing; with other chances the old answer stays till the new.
      answer.value = null;
      chances.value = null;
      bands.value = new Map();
    }
    thinker.open(bike, own);
  }
  if (ready) thinker.assess(seen);
});

effect(() => {
  const of = answered.value;
  if (looking.value && of !== null && explained.peek()?.of !== of) thinker.explain(of);
});

/** Asks for the reasons while somebody looks; gives the way to stop. */
export function lookWhy(): () => void {
  looking.value = true;
  return () => {
    looking.value = false;
  };
}

/** What a sound bike shows, or the repaired one where that is being read, by reading key. */
export const shownBands = computed(() => (proving.value ? proofBands.value : bands.value));

/** What a sound bike of this kind shows for a key; null until the worker has said. */
export function soundShows(key: string): SoundShows | null {
  return shownBands.value.get(key) ?? null;
}

export function askSound(key: string): void {
  if (proving.peek()) bandWanted.value = key;
  else if (spec.peek() && !bands.peek().has(key)) thinker.sound(key);
}
