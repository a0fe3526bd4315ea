/** Which kinds of reading and which state words the exchange format has, and the check of one key and its value. */
import { nearest } from '../machine/nearest.ts';
import { readKey, type Value, writeKey } from '../reading/key.ts';
import { shown } from './field.ts';

/** Kinds of the exchange format. */
export const EXCHANGE_KINDS: readonly string[] = [
  ...['rest_volts', 'keyon_volts', 'load_test_volts', 'crank_volts', 'keyoff_mA', 'capacity_minutes', 'sg'],
  ...['drop_term_pos', 'drop_term_neg', 'batt_volts', 'reg_volts', 'drop_pos', 'drop_neg', 'drop_breaker'],
  ...['drop_dcplug', 'drop_sense', 'plug_drop_ac', 'ripple', 'batt_amps', 'alt_amps', 'phase_amps'],
  ...['stator_ac', 'pin_case_ac', 'ohms_pair', 'mv_pair', 'ohms_case', 'diode', 'visual'],
];

const FLAG = ['True', 'False'];
const DIODE_ENDS = ['a', 'b', 'c', 'pos', 'neg'];
/** Values of each state word; null where more than a list is allowed. */
const STATE_WORDS: Readonly<Record<string, readonly string[] | null>> = {
  rpm: null,
  what: null,
  lights: ['off', 'low', 'high'],
  temp: ['cold', 'hot'],
  charged: FLAG,
  acc: FLAG,
  wiggle: FLAG,
  loaded: FLAG,
  through_plug: FLAG,
  pair: ['ab', 'bc', 'ca'],
  pin: ['a', 'b', 'c'],
  red: DIODE_ENDS,
  black: DIODE_ENDS,
  cell: ['1', '2', '3', '4', '5', '6'],
  probe: ['post', 'clamp'],
  state: ['crank', 'lights'],
};

/** "did you mean" half-sentence, or the list itself when nothing is near. */
function hint(word: string, words: readonly string[]): string {
  const near = nearest(word, words);
  return near === null ? `known are ${words.join(', ')}` : `did you mean ${near}?`;
}

/** The canonical form of an exchange key; a RangeError with one sentence when it is not one. */
export function canonicalKey(text: string, path: string): string {
  const key = readKey(text);
  if (key === null) {
    throw new RangeError(
      `${path} has the key ${shown(text)}; write the kind and then name=value words, e.g. "batt_volts rpm=3000".`,
    );
  }
  if (!EXCHANGE_KINDS.includes(key.kind)) {
    throw new RangeError(
      `${path} has a key of the unknown kind ${shown(key.kind)}; ${hint(key.kind, EXCHANGE_KINDS)}`,
    );
  }
  for (const [name, value] of Object.entries(key.state)) {
    const allowed = Object.hasOwn(STATE_WORDS, name) ? STATE_WORDS[name] : undefined;
    if (allowed === undefined) {
      throw new RangeError(
        `${path} has ${shown(text)} with the unknown state word ${shown(name)}; ${hint(name, Object.keys(STATE_WORDS))}`,
      );
    }
    if (allowed !== null && !allowed.includes(value)) {
      throw new RangeError(`${path} has ${shown(text)}, where ${name} must be ${allowed.join(' or ')}.`);
    }
    if (name === 'rpm' && value !== 'idle' && !(Number(value) >= 200 && Number(value) <= 15_000)) {
      throw new RangeError(
        `${path} has ${shown(text)}, where rpm must be idle or a number from 200 to 15000.`,
      );
    }
  }
  return writeKey(key);
}

/** The value of a reading: a number, null, or true/false for what is seen; `[value, minutes]` as in a case is taken too. */
export function readingValue(kind: string, raw: unknown, path: string): Value {
  const value: unknown = Array.isArray(raw) && raw.length === 2 ? raw[0] : raw;
  if (value === null) return null;
  if (kind === 'visual') {
    if (typeof value === 'boolean') return value;
    throw new RangeError(`${path} must be true, false or null for a thing seen, got ${shown(raw)}.`);
  }
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  throw new RangeError(`${path} must be a number, or null for "OL" or no reading, got ${shown(raw)}.`);
}
