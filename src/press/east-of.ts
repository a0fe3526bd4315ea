import type { JobEvent } from '../job/event.ts';

/** How far this computer's clock was ahead of UTC when a job was last written to: it says which day that was, min. */
export function eastOf(events: readonly JobEvent[]): number {
  const last = events
    .map(({ at }) => at)
    .sort()
    .at(-1);
  return last === undefined ? 0 : -new Date(last).getTimezoneOffset();
}
