/**
 * Room `reading`: what can be measured on a charging circuit, how, with what, in how many minutes, what each
 * reading would show on a given circuit, and how meters and people err.
 *
 * This file: the reading key, `kind name=value …` with names in alphabetical order, e.g.
 * `batt_volts lights=low rpm=3000`. State left out means 3000 rpm, low beam, cold, battery as it came.
 */

/** A reading's value: a number in the kind's unit, null for "OL" or no reading, true/false for a thing seen. */
export type Value = number | boolean | null;

export interface ReadingKey {
  readonly kind: string;
  /** Named state words; only those the kind takes. */
  readonly state: Readonly<Record<string, string>>;
}

/** Writes a key in its one canonical form. */
export function writeKey(key: ReadingKey): string {
  const words = Object.keys(key.state)
    .sort()
    .map((name) => `${name}=${key.state[name]}`);
  return [key.kind, ...words].join(' ');
}

/** Reads a key; null when the text is not `kind name=value …`. It does not check that the kind exists. */
export function readKey(text: string): ReadingKey | null {
  const [kind, ...words] = text.trim().split(/\s+/);
  if (!kind) return null;
  const state: Record<string, string> = {};
  for (const word of words) {
    const at = word.indexOf('=');
    if (at < 1 || at === word.length - 1) return null;
    state[word.slice(0, at)] = word.slice(at + 1);
  }
  return { kind, state };
}
