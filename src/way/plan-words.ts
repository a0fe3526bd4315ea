/**
 * Small words of a plan: hours, minutes, lists.
 */

/** A time as a clock shows it: "19:40", "07:05 on day 2". Both in min; `startsAt` after midnight. */
export function sayTime(minutes: number, startsAt: number): string {
  const all = Math.round(minutes + startsAt);
  const day = Math.floor(all / 1440);
  const rest = all - 1440 * day;
  const clock = `${String(Math.floor(rest / 60)).padStart(2, '0')}:${String(rest % 60).padStart(2, '0')}`;
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
