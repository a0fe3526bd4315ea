/** Lengths of time on a clock that runs. */

/** "4:05", "2 h 10", "1 d 3 h": two parts of a length of time, s; never below nought. */
export function sayLeft(seconds: number): string {
  const left = Math.max(0, Math.round(seconds));
  const two = (n: number) => String(n).padStart(2, '0');
  if (left < 3600) return `${Math.floor(left / 60)}:${two(left % 60)}`;
  const hours = Math.floor(left / 3600);
  return hours < 24
    ? `${hours} h ${two(Math.floor((left % 3600) / 60))}`
    : `${Math.floor(hours / 24)} d ${hours % 24} h`;
}
