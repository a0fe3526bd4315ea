/** Reading keys as the screen handles them: a kind, with each of its state words answered. */
import type { ChargingSpec } from '../circuit/spec.ts';
import { checkKey, completeKey, KINDS } from '../reading/catalogue.ts';
import { describeReading } from '../reading/describe.ts';
import { readKey, writeKey } from '../reading/key.ts';
import type { Kind } from '../reading/kinds.ts';
import { offeredKeys } from '../reading/offers.ts';

export interface Chosen {
  readonly key: string;
  readonly kind: Kind;
  /** Every state word of the kind, defaults filled in. */
  readonly state: Readonly<Record<string, string>>;
}

/** State words that name a pin or two. */
const PINNED = ['pair', 'pin', 'red', 'black'] as const;

export function kindOf(key: string): Kind | null {
  const id = readKey(key)?.kind;
  return id !== undefined && Object.hasOwn(KINDS, id) ? (KINDS[id] ?? null) : null;
}

/**
 * A key of the catalogue with its state, in its one written form; null for a key that this version does not know or
 * that speaks of a pin which a bike with so many phases lacks.
 */
export function chooseKey(text: string, phases: 1 | 3 = 3): Chosen | null {
  const checked = checkKey(text);
  if (!checked.ok) return null;
  const { key, kind } = checked;
  const { state } = completeKey(key);
  const lacks = PINNED.some((name) => {
    const said = state[name];
    return said !== undefined && !valuesOf(kind, name, phases).includes(said);
  });
  return lacks ? null : { key: writeKey(key), kind, state };
}

/** A reading key in words; a key of a later version as it is written. */
export function describeKey(text: string): string {
  const key = readKey(text);
  return key ? describeReading(key) : text;
}

/** A key with its defaults written out: two keys for the same reading give the same text. */
export function completeText(text: string): string {
  const key = readKey(text);
  return key ? writeKey(completeKey(key)) : text;
}

/** Whether two keys ask for the same reading, one perhaps leaving out what is usual. */
export function sameReading(a: string, b: string): boolean {
  return a === b || completeText(a) === completeText(b);
}

export interface Offer {
  readonly keys: readonly string[];
  /** Offered keys by their complete form. */
  readonly byComplete: ReadonlyMap<string, string>;
}

/** What is worth offering on a bike of this build. */
export function offerFor(spec: ChargingSpec): Offer {
  const keys = offeredKeys({
    phases: spec.alternator.phases,
    senses: spec.regulator.senses,
    flooded: spec.battery.chemistry === 'flooded',
  });
  return { keys, byComplete: new Map(keys.map((key) => [completeText(key), key])) };
}

/** State words that stay in a key even at their usual value, because every mechanic names them. */
const ALWAYS: ReadonlySet<string> = new Set([
  'lights',
  'rpm',
  'pair',
  'pin',
  'cell',
  'red',
  'black',
  'what',
  'state',
  'probe',
]);

/**
 * The same reading with one state word answered otherwise, in the form in which it is offered, so that a reading
 * taken by hand and one proposed are one reading and not two.
 */
export function withState(chosen: Chosen, name: string, value: string, offer: Offer): string {
  const state = { ...chosen.state, [name]: value };
  if (chosen.kind.id === 'diode' && state.red === state.black) {
    // Both tips on one terminal say nothing: the other tip goes where this one came from.
    const other = name === 'red' ? 'black' : 'red';
    state[other] = chosen.state[name] ?? '';
  }
  const full = writeKey({ kind: chosen.kind.id, state });
  const offered = offer.byComplete.get(full);
  if (offered !== undefined) return offered;
  const kept = Object.entries(state).filter(
    ([word, said]) => ALWAYS.has(word) || chosen.kind.states[word]?.[0] !== said,
  );
  return writeKey({ kind: chosen.kind.id, state: Object.fromEntries(kept) });
}

/** Values of a state word that make sense on this build: a two-wire machine has no pin c. */
export function valuesOf(kind: Kind, name: string, phases: 1 | 3): readonly string[] {
  const values = kind.states[name] ?? [];
  if (phases === 3) return values;
  if (name === 'pair') return values.filter((value) => value === 'ab');
  if (name === 'pin' || name === 'red' || name === 'black') return values.filter((value) => value !== 'c');
  return values;
}
