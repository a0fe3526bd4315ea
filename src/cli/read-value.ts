/** Reads what a meter showed, as a person writes it, into the unit of its kind. */

import type { Value } from '../reading/key.ts';
import type { Kind } from '../reading/kinds.ts';
import { parseQuantity } from '../units/parse.ts';

export type ReadValue =
  | { readonly ok: true; readonly value: Value }
  /** One sentence. */
  | { readonly ok: false; readonly why: string };

/** How each unit is read: the kind of quantity, SI in one of it, and the most that any meter shows (either sign). */
const UNIT = {
  V: { kind: 'voltage', si: 1, most: 1000, words: '1000 V' },
  mV: { kind: 'voltage', si: 1e-3, most: 1e6, words: '1000 V' },
  A: { kind: 'current', si: 1, most: 1000, words: '1000 A' },
  mA: { kind: 'current', si: 1e-3, most: 1e6, words: '1000 A' },
  Ω: { kind: 'resistance', si: 1, most: 1e8, words: '100 MΩ' },
  min: { kind: 'time', si: 60, most: 6000, words: '100 h' },
} as const;

/**
 * Reads a value. "OL" (or "no reading") is null. Figures a meter can show are let through even where a bike cannot
 * have them: finding such slips is the verdict's work.
 */
export function readValue(text: string, kind: Kind): ReadValue {
  const plain = text.trim();
  if (plain === '')
    return { ok: false, why: `the value is missing: write what the meter showed, e.g. ${example(kind)}.` };
  if (kind.unit === 'seen') return seen(plain);
  if (/^(o\.?l\.?|over ?load|open|no reading)$/i.test(plain)) return { ok: true, value: null };
  if (kind.unit === 'SG') return gravity(plain);
  const { kind: quantity, si, most, words } = UNIT[kind.unit];
  const read = parseQuantity(plain, quantity);
  if (!read.ok) return { ok: false, why: read.why };
  // Twelve digits: 30 mV must not become 30.000000000000004.
  const value = Number((read.value.si / si).toPrecision(12));
  if (Math.abs(value) <= most) return { ok: true, value };
  return {
    ok: false,
    why: `${plain} cannot be: no meter shows more than ${words} here, check the figure and its unit.`,
  };
}

function seen(plain: string): ReadValue {
  if (/^(yes|y|true|seen)$/i.test(plain)) return { ok: true, value: true };
  if (/^(no|n|false|not seen)$/i.test(plain)) return { ok: true, value: false };
  return {
    ok: false,
    why: `"${plain.slice(0, 40)}" is neither yes nor no: write yes when it is to be seen or smelt, otherwise no.`,
  };
}

function gravity(plain: string): ReadValue {
  const match = /^(\d(?:[.,]\d+)?|\d{4})(?:\s*sg)?$/i.exec(plain);
  if (match) {
    const figure = Number(match[1]!.replace(',', '.'));
    // A hydrometer scale often says 1265 for 1.265.
    const value = figure >= 1000 ? figure / 1000 : figure;
    if (value >= 0.9 && value <= 1.5) return { ok: true, value };
  }
  return {
    ok: false,
    why: `"${plain.slice(0, 40)}" is no specific gravity from 0.9 to 1.5: write it like 1.265.`,
  };
}

function example(kind: Kind): string {
  const figures = {
    V: '12.6 V',
    mV: '30 mV',
    A: '3.5 A',
    mA: '2 mA',
    Ω: '0.3 Ω',
    min: '25 min',
    SG: '1.265',
    seen: 'yes',
  };
  return figures[kind.unit];
}
