/** Numbers, chances and times in the words and figures of the screen. */

/** One word for a probability, to begin a sentence with. */
export function chanceWord(probability: number): string {
  if (probability >= 0.95) return 'Almost certainly';
  if (probability >= 0.8) return 'Very likely';
  if (probability >= 0.5) return 'Probably';
  if (probability >= 0.2) return 'Perhaps';
  return 'Hardly';
}

/** `a`, `a and b`, `a, b and c`. */
export function listWords(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** `3 entries`, `1 entry`. */
export function countWords(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** First letter small, for a title in the middle of a sentence; a name in capitals stays. */
export function small(text: string): string {
  return /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}

/** Figures kept in one line each: "1 1/4", "5/8–7/8 in". Broken apart, the end of one reads as a figure of its own. */
export function unbroken(text: string): string {
  return text
    .replace(/(\d) (?=\d+\/\d|(?:mm|in|thou|N·m|lbf·(?:ft|in))\b)/g, '$1\u00a0')
    .replace(/(\d)–(?=\d)/g, '$1\u2060–\u2060');
}

/** First letter large. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Time of day of an ISO time, in the reader's own zone: `21:04`, with the date when it is another day than `today`. */
export function showTime(iso: string, today: Date): string {
  const when = new Date(iso);
  const two = (n: number): string => String(n).padStart(2, '0');
  const clock = `${two(when.getHours())}:${two(when.getMinutes())}`;
  if (when.toDateString() === today.toDateString()) return clock;
  return `${when.getFullYear()}-${two(when.getMonth() + 1)}-${two(when.getDate())} ${clock}`;
}
