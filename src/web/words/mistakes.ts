/** A mistake in a reading as a sentence: which one it looks like, by what was noted and what was meant. */

/** Titles of `reading/mistakes.ts` as sentences; what is not here is said as it is called there. */
const SENTENCES: Readonly<Record<string, string>> = {
  'milli and whole units mixed up': 'Thousandths and whole units look mixed up, mV for V',
  'AC and DC mixed up': 'The meter may have stood on AC instead of DC, or the other way round',
  'another range of the meter': 'The meter may have stood on another range',
  'poor contact at a probe': 'A probe may have had poor contact',
  'leads reversed': 'The leads look reversed',
  'no contact at a probe': 'A probe may have had no contact',
};

/** Without a full stop. `noted` is null where nothing can be compared. */
export function mistakeWords(title: string, noted: number | null, meant: number | null): string {
  if (/unknown/.test(title)) return 'No one mistake explains it';
  if (/ten times|factor of ten/.test(title)) {
    if (noted === null || meant === null || meant === 0) return 'It looks out by a factor of ten';
    return `It looks too ${Math.abs(noted) > Math.abs(meant) ? 'high' : 'low'} by a factor of ten`;
  }
  if (title.startsWith('taken ')) return `Perhaps it was ${title}`;
  return SENTENCES[title] ?? `Perhaps ${title}`;
}
