/** Readings turned by one or two phases: what a set of faults in phase a shows on b and c. */
import type { ReadingKey } from '../reading/key.ts';

const LETTERS = 'abc';
function turnLetter(letter: string, turn: number): string {
  const at = LETTERS.indexOf(letter);
  return at < 0 ? letter : LETTERS[(at + turn + 3) % 3]!;
}

/** The same reading with the phases renamed by `turn` places (a → b for 1). Pairs stay ab, bc, ca. */
export function turnKey(key: ReadingKey, turn: number): ReadingKey {
  if (turn % 3 === 0) return key;
  const state: Record<string, string> = { ...key.state };
  if (state.pin) state.pin = turnLetter(state.pin, turn);
  if (state.pair) state.pair = turnLetter(state.pair[0]!, turn) + turnLetter(state.pair[1]!, turn);
  if (key.kind === 'diode') {
    if (state.red && state.red.length === 1) state.red = turnLetter(state.red, turn);
    if (state.black && state.black.length === 1) state.black = turnLetter(state.black, turn);
  }
  return { kind: key.kind, state };
}

/** Place of the first phase that a reading names, 0–2; 0 where it names none. */
export function homeOf(key: ReadingKey): number {
  const { pin, pair, red, black } = key.state;
  for (const word of [pin, pair?.[0], red, black]) {
    const place = word && word.length === 1 ? LETTERS.indexOf(word) : -1;
    if (place >= 0) return place;
  }
  return 0;
}

/** A completed key as a table name. */
export function nameOf(key: ReadingKey): string {
  let text = key.kind;
  for (const word of Object.keys(key.state).sort()) text += ` ${word}=${key.state[word]}`;
  return text;
}
