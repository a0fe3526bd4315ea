/** The way in of the job on screen: what was chosen or is proposed, and the newest plan for it, made in a worker. */
import { computed, effect, signal } from '@preact/signals';
import type { WayChoice, WayState } from '../../job/way-fold.ts';
import { advisedLines } from '../advised.ts';
import { later } from '../browser.ts';
import { afterFrame } from '../parts/later.tsx';
import type { WayAsk, WayReply, WayTarget } from '../way-report.ts';
import type { StartQuestion, StartReply } from '../way-start.ts';
import { happened, job, jobId } from './job.ts';
import { machine } from './machine.ts';
import { taught } from './taught.ts';
import { answer } from './verdict.ts';

const QUARTER_MS = 15 * 60_000;
/** How often the plan is laid out anew from the clock while the work goes on, ms. */
const EVERY_MS = 60_000;

/** The next full quarter of an hour when this page was opened, ISO 8601 in UTC. */
const soon = new Date(Math.ceil(Date.now() / QUARTER_MS) * QUARTER_MS).toISOString();
const now = signal(Date.now());

/** What can be got to on this machine. */
export const targets = computed<readonly WayTarget[]>(() =>
  Object.entries(machine.value?.machine.work?.targets ?? {}).map(([id, { name, repairs }]) => ({
    id,
    name,
    repairs: repairs ?? [],
  })),
);

/** The repairs that the verdict calls for: as accepted, else as it stands. */
const repairs = computed<readonly string[]>(() => {
  const accepted = job.value.accepted?.repairs;
  const lines = accepted ?? (answer.value ? advisedLines(answer.value) : []);
  return lines.filter((line) => line.worthDoing || line.whileOpen === true).map(({ repair }) => repair);
});

/** The choices as made in this job, or those that the verdict proposes. */
export const choice = computed<WayChoice>(
  () =>
    job.value.way.chosen ?? {
      targets: targets.value
        .filter((target) => target.repairs.some((id) => repairs.value.includes(id)))
        .map(({ id }) => id),
      people: 1,
      startsAt: soon,
      nights: true,
      aim: 'least',
      leave: [],
      km: null,
    },
);

/** Writes a change of the choices down, all of them with it. */
export function choose(change: Partial<WayChoice>): void {
  happened({ type: 'wayChosen', ...choice.peek(), ...change });
}

/** Something was done on the plan: what was only proposed is chosen with it, so that the plan stays what it was. */
export function holdChoice(): void {
  if (job.peek().way.chosen === null) choose({});
}

/** What the plan depends on, in texts that are equal when they are: the job folds anew with every entry. */
export const asking = computed(() => JSON.stringify([choice.value, job.value.way.troubles]));
const state = computed(() => JSON.stringify([job.value.way.ticks, job.value.way.here]));

interface Got {
  readonly asked: string;
  /** What was done when it was asked. */
  readonly from: string;
  readonly reply: WayReply;
}
const got = signal<Got | null>(null);
/** True from an ask to its reply. */
export const planning = signal(false);

/** The newest reply; its plan is left out where it is for other choices. Null before the first. */
export const reply = computed<WayReply | null>(() => {
  const newest = got.value;
  if (newest === null) return null;
  return newest.asked === `${jobId.value} ${asking.value}`
    ? newest.reply
    : { ...newest.reply, plan: null, why: null };
});

/** Whether the newest plan begins where the bike is now: false from a tick to the plan that knows of it. */
export const settled = computed(
  () => got.value?.asked === `${jobId.value} ${asking.value}` && got.value.from === state.value,
);

let worker: Worker | null = null;
/** What was sent last to be planned. */
let sent: WayAsk | null = null;
const hearing = new Set<(heard: StartReply) => void>();
let asked = { id: 0, said: '', from: '' };

function openWorker(): Worker {
  if (worker) return worker;
  worker = new Worker(new URL('../way-worker.ts', import.meta.url), { type: 'module', name: 'way' });
  worker.addEventListener('message', ({ data }: MessageEvent<WayReply | StartReply>) => {
    if ('people' in data) {
      for (const hear of hearing) hear(data);
      return;
    }
    if (data.id !== asked.id) return;
    planning.value = false;
    got.value = { asked: asked.said, from: asked.from, reply: data };
  });
  worker.addEventListener('error', () => {
    const why = 'The planner did not start on this device. Reload the page; what was ticked is kept.';
    planning.value = false;
    const reply = { id: asked.id, targets: [], plan: null, why, troubles: [] };
    got.value = { asked: asked.said, from: asked.from, reply };
  });
  return worker;
}

/** How long the pages that plan have the line and the processor before the planner is fetched, though nobody asked yet, ms. */
const WARM_MS = 2000;

/** Told of every answer to when to begin; gives the way to stop. */
export function hearStart(hear: (heard: StartReply) => void): () => void {
  hearing.add(hear);
  return () => hearing.delete(hear);
}

/** Asks when to begin for what was planned last: the worker has that plan still. */
export function askStart(id: number, people: 1 | 2, rideBy: string): void {
  if (sent === null) return;
  // The plan of a job that has begun is of its minute; before that no minute is in it.
  const nowMs = reply.peek()?.plan?.begun ? sent.nowMs : Date.now();
  openWorker().postMessage({
    ...sent,
    id,
    nowMs,
    people,
    rideByMs: Date.parse(rideBy),
  } satisfies StartQuestion);
}

/** Plans while somebody looks; gives the way to stop. */
export function lookAtWay(): () => void {
  now.value = Date.now();
  const stop = effect(() => {
    const known = machine.value;
    const id = jobId.value;
    const from = state.value;
    const teach = taught.value;
    if (known === null || id === null) return;
    const said = `${id} ${asking.value}`;
    asked = { id: asked.id + 1, said, from };
    const way: WayState = job.peek().way;
    if (choice.value.targets.length === 0 && way.troubles.length === 0 && known.machine.work) {
      // Nothing to plan yet, and the planner is a large file: it is fetched when the first screen has had the line.
      sent = null;
      planning.value = false;
      got.value = {
        asked: said,
        from,
        reply: { id: asked.id, targets: [], plan: null, why: null, troubles: [] },
      };
      return;
    }
    planning.value = true;
    const { id: number } = asked;
    const chosen = choice.value;
    const leastMs = now.value;
    // The picture of what was touched comes first: writing the machine out for the worker takes a slow phone some 20 ms.
    afterFrame(() => {
      if (asked.id !== number) return;
      const start = new Date(chosen.startsAt);
      sent = {
        id: number,
        machine: teach(known.machine),
        choice: chosen,
        way: { ticks: way.ticks, troubles: way.troubles, here: way.here },
        nowMs: Math.max(leastMs, Date.now()),
        wall: { startsAt: 60 * start.getHours() + start.getMinutes(), weekday: start.getDay() },
        year: new Date().getFullYear(),
        shape: matchMedia('(min-width: 62rem)').matches ? 'wide' : 'narrow',
      };
      openWorker().postMessage(sent);
    });
  });
  const noWarming = later(() => void openWorker(), WARM_MS);
  const timer = setInterval(() => {
    // Before the work has begun nothing moves with the clock.
    if (document.visibilityState === 'visible' && reply.peek()?.plan?.begun) now.value = Date.now();
  }, EVERY_MS);
  let here = true;
  let stopLooking: (() => void) | null = null;
  // After the first plan: reading the bike's other jobs, one after another, would keep it from the line.
  const answered = computed(() => reply.value !== null && !planning.value);
  let looked = false;
  const stopWaiting = effect(() => {
    if (!answered.value || looked) return;
    looked = true;
    void import('./bike.ts')
      .then(({ lookEarlier }) => {
        if (here) stopLooking = lookEarlier();
      })
      // The plan goes by the file's own minutes then, as it does until they are read.
      .catch(() => undefined);
  });
  return () => {
    here = false;
    stopWaiting();
    stopLooking?.();
    stop();
    noWarming();
    clearInterval(timer);
  };
}
