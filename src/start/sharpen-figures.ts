/** The figures of the charging section that may be worth knowing better: how they are found out, and what else they could be. */
import type { ChargingSpec } from '../circuit/spec.ts';
import { chargingSpec } from '../machine/charging-spec.ts';
import { counting, writeSaid } from '../machine/counts.ts';
import type { Machine } from '../machine/definition.ts';
import { middle, type Quantity } from '../machine/figure.ts';

/** A figure to ask about. */
export interface Asked {
  /** Members under `charging`. */
  readonly at: readonly string[];
  readonly label: string;
  /** How one finds it out, in the imperative, without a full stop. */
  readonly how: string;
  /** What else it could be, for figures that are one of a few. */
  readonly others?: (is: unknown) => readonly unknown[];
}

const other = (a: unknown, b: unknown) => (is: unknown) => [is === a ? b : a];

export const ASKED: readonly Asked[] = [
  {
    at: ['alternator', 'phases'],
    label: 'stator wires',
    how: 'count the wires at the stator plug, one minute',
    others: other(3, 1),
  },
  {
    at: ['alternator', 'openVolts'],
    label: 'AC volts',
    how: 'look them up under stator test; a reading of this very bike does not count while its stator is in doubt',
  },
  {
    at: ['alternator', 'ratedAmps'],
    label: 'rated amps',
    how: "look them up in the table of data or on the stator's sheet",
  },
  { at: ['alternator', 'pairOhms'], label: 'ohms between two pins', how: 'look them up under stator test' },
  {
    at: ['alternator', 'poles'],
    label: 'poles',
    how: 'count the magnets when the cover is off, or look it up',
    others: (is) => [8, 18].filter((one) => one !== is),
  },
  {
    at: ['regulator', 'type'],
    label: 'kind of regulator',
    how: 'read it off its sheet or its box',
    others: other('shunt', 'series'),
  },
  {
    at: ['regulator', 'chargeVolts'],
    label: 'charge volts',
    how: "look them up in the book or on the regulator's sheet",
  },
  {
    at: ['regulator', 'senses'],
    label: 'place where the regulator senses',
    how: 'look for a thin wire of its own from the regulator to the battery side',
    others: other('output', 'wire'),
  },
  {
    at: ['battery', 'chemistry'],
    label: 'kind of battery',
    how: 'read its label; caps or a vent hose mean flooded',
    others: other('flooded', 'agm'),
  },
  { at: ['battery', 'capacity'], label: "battery's capacity", how: 'read its label' },
  { at: ['battery', 'crankAmps'], label: "battery's cranking amps", how: 'read its label' },
  {
    at: ['loads', 'ignition'],
    label: "ignition's amps",
    how: 'clamp the main wire, key on, lights off: two minutes',
  },
  { at: ['loads', 'low'], label: "low beam's watts", how: 'read the foot of the bulb' },
  { at: ['loads', 'tail'], label: "tail lamps' watts", how: 'read the bulbs' },
  {
    at: ['loads', 'accessories'],
    label: "accessories' amps",
    how: 'add up their labels, or clamp their wire',
  },
  {
    at: ['loadsFedFrom'],
    label: 'side that the loads hang on',
    how: 'look at the wiring diagram, or pull the main fuse and turn the key',
    others: other('battery', 'regulator'),
  },
  {
    at: ['tachometer'],
    label: 'rev counter',
    how: 'see whether there is one, or borrow one',
    others: (is) => (is === false ? [true] : []),
  },
];

interface AnyFigure {
  readonly is: unknown;
  readonly from: string;
  readonly also: readonly { readonly is: unknown; readonly from: string }[];
}

/** A figure by its members, as it counts; null where the file does not have it. */
export function figureAt(
  machine: Machine,
  at: readonly string[],
): { is: unknown; from: string; text: string } | null {
  let here: unknown = machine.charging;
  for (const name of at) here = (here as Record<string, unknown> | null | undefined)?.[name];
  if (here === null || here === undefined) return null;
  const counts = counting(machine, here as AnyFigure);
  return { is: counts.is, from: counts.from, text: writeSaid(counts) };
}

/** Whether nobody has said it: it rests on a guess or on common practice. */
export function isGuessed(machine: Machine, from: string): boolean {
  const kind = machine.sources[from]?.kind;
  return kind === 'guess' || kind === 'common-practice';
}

const KNOWN = ' known';

/** The machine with one figure known: its middle without any width, or another value, from a source that knows. */
function withFigure(machine: Machine, at: readonly string[], value?: unknown): Machine {
  const now = figureAt(machine, at);
  const is = value !== undefined ? value : pointOf(now?.is);
  const set = (here: unknown, [name, ...rest]: readonly string[]): unknown => {
    if (name === undefined) {
      const whole = (here ?? {}) as object;
      return { ...whole, is, from: KNOWN, also: [] };
    }
    const all = here as Record<string, unknown>;
    return { ...all, [name]: set(all[name], rest) };
  };
  return {
    ...machine,
    sources: {
      ...machine.sources,
      [KNOWN]: { kind: 'measured', title: 'known', date: null, page: null, note: null },
    },
    charging: set(machine.charging, at) as Machine['charging'],
  };
}

function pointOf(is: unknown): unknown {
  if (typeof is !== 'object' || is === null || !('low' in is)) return is;
  const value = middle(is as Quantity);
  return { ...is, low: value, high: value };
}

/** The circuit with one figure known, or with another value of it. */
export function specWith(machine: Machine, at: readonly string[], value?: unknown): ChargingSpec {
  return chargingSpec(withFigure(machine, at, value));
}
