/** The hour by which the bike must be ridden, and when to begin for it, asked in the planner's worker. */
import { computed, effect, signal } from '@preact/signals';
import { keepSetting, readSetting } from '../browser.ts';
import type { StartReply } from '../way-start.ts';
import { job, jobId } from './job.ts';
import { askStart, choice, hearStart, planning, reply } from './way.ts';

const settingOf = (id: string) => `ride-by.${id}`;

/** Next Saturday at nine by this device's clock, ISO 8601 in UTC. */
function saturday(): string {
  const at = new Date();
  at.setDate(at.getDate() + ((6 - at.getDay() + 7) % 7));
  at.setHours(9, 0, 0, 0);
  if (at.getTime() <= Date.now()) at.setDate(at.getDate() + 7);
  return at.toISOString();
}

const set = signal<{ readonly job: string | null; readonly at: string } | null>(null);

/** The hour asked for in this job, ISO 8601 in UTC: kept on this device. */
export const rideBy = computed<string>(() => {
  const id = jobId.value;
  if (set.value?.job === id) return set.value.at;
  const kept = id === null ? null : readSetting(settingOf(id));
  return kept !== null && Number.isFinite(Date.parse(kept)) ? kept : saturday();
});

export function setRideBy(at: string): void {
  const id = jobId.peek();
  if (id !== null) keepSetting(settingOf(id), at);
  set.value = { job: id, at };
}

const got = signal<{ readonly asked: string; readonly replies: readonly StartReply[] }>({
  asked: '',
  replies: [],
});
/** What the answers are for, in a text that is equal when that is. */
const asking = computed(() =>
  JSON.stringify([jobId.value, rideBy.value, { ...choice.value, people: 0 }, job.value.way.troubles]),
);

/** An answer for one and one for two; null for what is still being worked out. */
export const starts = computed<readonly (StartReply | null)[]>(() => {
  const { asked, replies } = got.value;
  return [1, 2].map((people) =>
    asked === asking.value ? (replies.find((one) => one.people === people) ?? null) : null,
  );
});

/** Questions asked on this page, count. */
let count = 0;

/** Asks while somebody looks, each time a plan has come; gives the way to stop. */
export function lookAtStarts(): () => void {
  let last = { id: 0, asked: '', next: null as 1 | 2 | null };
  const stopHearing = hearStart((heard) => {
    const { id, asked, next } = last;
    if (heard.id !== id) return;
    const known = got.peek().asked === asked ? got.peek().replies : [];
    got.value = { asked, replies: [...known.filter(({ people }) => people !== heard.people), heard] };
    // One at a time: a step ticked meanwhile is planned for between the two.
    last = { id, asked, next: null };
    if (next !== null && asked === asking.peek()) askStart(id, next, rideBy.peek());
  });
  const stop = effect(() => {
    const asked = asking.value;
    if (planning.value || !reply.value?.plan) return;
    // The plan for as many as are chosen is there already: that answer comes first.
    const first = choice.peek().people;
    count += 1;
    last = { id: count, asked, next: first === 1 ? 2 : 1 };
    askStart(last.id, first, rideBy.peek());
  });
  return () => {
    stop();
    stopHearing();
  };
}
