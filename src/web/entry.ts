/**
 * What the mechanic typed, on the big keys or on a keyboard, as a value or as one clear sentence. Nothing here
 * changes or clears what was typed: the field keeps it until the entry is taken.
 */

import type { Value } from '../reading/key.ts';
import type { Kind } from '../reading/kinds.ts';

export type Unit = Kind['unit'];
export type EntryKey =
  | '0'
  | '1'
  | '2'
  | '3'
  | '4'
  | '5'
  | '6'
  | '7'
  | '8'
  | '9'
  | 'point'
  | 'sign'
  | 'rub'
  | 'clear';

/** Longest entry, characters: no meter shows more. */
const LONGEST = 12;

/** What the field holds after a key. A key that makes no sense there changes nothing. */
export function typeKey(text: string, key: EntryKey): string {
  if (key === 'clear') return '';
  if (key === 'rub') return text.slice(0, -1);
  // "OL" on the display is replaced, not typed into.
  const number = /^-?[\d.,]*$/.test(text) ? text : '';
  if (key === 'sign') return number.startsWith('-') ? number.slice(1) : `-${number}`;
  if (number.length >= LONGEST) return text;
  if (key === 'point') {
    if (/[.,]/.test(number)) return number;
    return /\d/.test(number) ? `${number}.` : `${number}0.`;
  }
  return number + key;
}

export type Read =
  | { readonly ok: true; readonly value: Value }
  | {
      readonly ok: false;
      readonly why: string;
      /** Other ways to read it that the mechanic may pick, as entries. */
      readonly instead: readonly string[];
    };

/** Units a typed reading may carry, by what they measure, with their factor to the first of each row. */
const KNOWN: readonly (readonly [what: string, units: Readonly<Record<string, number>>])[] = [
  ['volts', { V: 1, mV: 1e-3, kV: 1e3 }],
  ['amps', { A: 1, mA: 1e-3, µA: 1e-6 }],
  ['ohms', { Ω: 1, mΩ: 1e-3, kΩ: 1e3, MΩ: 1e6 }],
  ['minutes', { min: 1, s: 1 / 60, h: 60 }],
];
/** Other spellings, in the order in which they are tried. */
const SPELT: Readonly<Record<string, string>> = {
  v: 'V',
  volt: 'V',
  volts: 'V',
  mv: 'mV',
  millivolts: 'mV',
  a: 'A',
  amp: 'A',
  amps: 'A',
  ma: 'mA',
  milliamps: 'mA',
  uA: 'µA',
  ua: 'µA',
  μA: 'µA',
  ohm: 'Ω',
  ohms: 'Ω',
  Ω: 'Ω',
  kohm: 'kΩ',
  k: 'kΩ',
  kΩ: 'kΩ',
  MΩ: 'MΩ',
  Mohm: 'MΩ',
  M: 'MΩ',
  mohm: 'mΩ',
  mΩ: 'mΩ',
  minute: 'min',
  minutes: 'min',
  hour: 'h',
  hours: 'h',
  sec: 's',
  seconds: 's',
};

function rowOf(unit: string): (typeof KNOWN)[number] | undefined {
  return KNOWN.find(([, units]) => Object.hasOwn(units, unit));
}

/** Exact to the digits typed: a factor of ten must not leave 0.30000000000000004 behind. */
function scale(number: number, factor: number): number {
  return Number((number * factor).toPrecision(12));
}

/** Reads an entry for a reading in `unit`. */
export function readEntry(typed: string, unit: Unit): Read {
  const text = typed.trim().replace(/[−–]/g, '-');
  const no = (why: string, instead: readonly string[] = []): Read => ({ ok: false, why, instead });
  if (unit === 'seen') {
    if (/^y(es)?$/i.test(text)) return { ok: true, value: true };
    if (/^no?$/i.test(text)) return { ok: true, value: false };
    return no('Say yes or no: did you see it?');
  }
  if (text === '') return no('Nothing is typed yet. Type what the meter shows.');
  if (/^o\.?l\.?$/i.test(text)) return { ok: true, value: null };
  const match = /^([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*([^\d\s.,+-].*)?$/.exec(text);
  if (!match) return no(`“${text}” is not a number. Type what the meter shows, such as 12.6, or OL.`);
  const [, digits = '', named = ''] = match;
  const grouped = /^([+-]?[1-9]\d{0,2}),(\d{3})$/.exec(digits);
  if (grouped) {
    const point = `${grouped[1]}.${grouped[2]}`;
    const thousand = `${grouped[1]}${grouped[2]}`;
    return no(`“${digits}” can be ${point} or ${thousand}. Which one?`, [point, thousand]);
  }
  const number = Number(digits.replace(',', '.'));
  if (named === '') return { ok: true, value: number };
  const spelt = named.trim();
  const from = rowOf(spelt) ? spelt : (SPELT[spelt] ?? SPELT[spelt.toLowerCase()] ?? spelt);
  const row = rowOf(from);
  if (unit === 'SG')
    return no('Specific gravity has no unit. Type the number alone, such as 1.265.', [digits]);
  const own = rowOf(unit);
  if (!row || !own) return no(`“${spelt}” is not a unit known here. This reading is in ${unit}.`, [digits]);
  if (row !== own)
    return no(`${spelt} measures ${row[0]}, but this reading is ${own[0]}, in ${unit}.`, [digits]);
  return { ok: true, value: scale(number, (row[1][from] ?? 1) / (own[1][unit] ?? 1)) };
}
