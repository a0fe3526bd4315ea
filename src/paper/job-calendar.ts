import type { JobEvent } from '../job/event.ts';
import { foldJob } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { calendarText } from './calendar-text.ts';
import { remindersOf } from './reminders.ts';

/** The calendar of a job. `title` stands for the job's own where that may not be in it. */
export function calendarOfJob(
  events: readonly JobEvent[],
  machine: Machine | null,
  { at, east, title }: { readonly at: string; readonly east: number; readonly title?: string },
):
  | { readonly ok: true; readonly text: string; readonly count: number; readonly says: readonly string[] }
  | { readonly ok: false; readonly why: string } {
  const state = foldJob(events);
  if (state.job === null || state.opened === null)
    return { ok: false, why: 'The job has no opening event: there is nothing to remind of yet.' };
  const found = remindersOf(state, machine, east);
  if (!found.ok) return found;
  const text = calendarText({
    reminders: found.reminders,
    job: state.job,
    openedAt: state.opened.at,
    title: title ?? state.opened.title,
    invented: state.opened.invented,
    at,
    sequence: new Set(events.map(({ id }) => id)).size,
  });
  return { ok: true, text, count: found.reminders.length, says: found.says };
}
