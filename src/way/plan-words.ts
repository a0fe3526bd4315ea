/**
 * Small words of a plan: hours, minutes, lists.
 */

/** When the work begins on the garage's clock: min after midnight, and the day of the week (0 is Sunday) where it is known. */
export type WallStart = number | { readonly startsAt: number; readonly weekday: number };

const DAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const;

/** The start on the clock, min. After midnight. */
export function startMinute(wall: WallStart): number {
  return typeof wall === 'number' ? wall : wall.startsAt;
}

/** A time as a clock shows it: "19:40", "07:05 on day 2"; "Sat 07:05" where the day is known. `minutes` from the start. */
export function sayTime(minutes: number, wall: WallStart): string {
  const all = Math.round(minutes + startMinute(wall));
  const day = Math.floor(all / 1440);
  const rest = all - 1440 * day;
  const clock = `${String(Math.floor(rest / 60)).padStart(2, '0')}:${String(rest % 60).padStart(2, '0')}`;
  if (typeof wall === 'object') return `${DAYS[(((wall.weekday + day) % 7) + 7) % 7]} ${clock}`;
  return day === 0 ? clock : `${clock} on day ${day + 1}`;
}

/** "45 min", "2 h 5 min"; below ten minutes and not whole, with one decimal. */
export function sayMinutes(minutes: number): string {
  const rounded = Math.abs(minutes) < 10 ? Math.round(10 * minutes) / 10 : Math.round(minutes);
  if (rounded < 60) return `${rounded} min`;
  const rest = rounded % 60;
  return rest === 0 ? `${(rounded - rest) / 60} h` : `${(rounded - rest) / 60} h ${rest} min`;
}

/** "a", "a and b", "a, b and c". */
export function sayList(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
