/** Machine files spoilt at random but in their own structure: what a hand, a merge gone wrong or a hostile sender could make of one. */
import type { Json, JsonObject, Key, Path } from '../../src/machine/json-value.ts';
import { getAt, isObject, putAt } from '../../src/machine/json-value.ts';
import { openStream } from '../../src/numbers/random.ts';

export interface Mutant {
  readonly text: string;
  /** What was done, so that a failure can be understood. */
  readonly did: readonly string[];
}

const STRANGE_KEYS = [
  '__proto__',
  'constructor',
  'toString',
  '',
  ' ',
  'a\u0000b',
  '𝕏',
  'is',
  'from',
  'also',
  'x'.repeat(300),
];
const STRANGE_TEXTS = [
  '',
  ' ',
  '0',
  '-1 V',
  '1e400 V',
  '∞ Ω',
  'NaN',
  '½ in',
  '1/0 in',
  '3–1 V',
  '±',
  '17.0 V ± 900 %',
  '\u202e40 A',
  '\ud800',
  '日本語',
  '__proto__',
  '$.charging',
  '<svg onload=x>',
  'no-such-source',
  'Ω'.repeat(5000),
  'M6 × 1',
  '1-14 UNS LH',
];
const STRANGE_VALUES: readonly Json[] = [
  null,
  true,
  false,
  0,
  -1,
  1e308,
  5e-324,
  2,
  3.5,
  [],
  {},
  [[]],
  { is: 1 },
];

/** A mutant of a file; the same seed makes the same one. */
export function mutantOf(file: Json, seed: number): Mutant {
  const stream = openStream(seed);
  const below = (most: number): number => Math.floor(stream() * most);
  const pick = <T>(list: readonly T[]): T => list[below(list.length)]!;
  const did: string[] = [];
  let value: Json = file;
  for (let n = 1 + below(4); n > 0; n--) {
    const path = pick(placesOf(value));
    const change = pick(CHANGES);
    const stands = getAt(value, path) ?? null;
    const is = change.make(stands, { below, pick, other: () => getAt(file, pick(placesOf(file))) ?? null });
    did.push(`${change.name} at ${JSON.stringify(path)}`);
    value = (is === undefined ? putAt(value, path, undefined) : putAt(value, path, is)) ?? null;
  }
  const text = stream() < 0.5 ? JSON.stringify(value) : JSON.stringify(value, null, 2);
  const spoil = stream();
  if (spoil < 0.75) return { text, did };
  const spoilt = pick(SPOILS);
  did.push(spoilt.name);
  return { text: spoilt.make(text, below), did };
}

interface Hands {
  readonly below: (most: number) => number;
  readonly pick: <T>(list: readonly T[]) => T;
  readonly other: () => Json;
}

const CHANGES: readonly {
  readonly name: string;
  readonly make: (stands: Json, hands: Hands) => Json | undefined;
}[] = [
  { name: 'taken away', make: () => undefined },
  { name: 'another type', make: (_, { pick }) => pick(STRANGE_VALUES) },
  { name: 'a strange text', make: (_, { pick }) => pick(STRANGE_TEXTS) },
  { name: 'another part of the file', make: (_, { other }) => other() },
  {
    name: 'a strange key beside it',
    make: (stands, { pick, other }) =>
      isObject(stands)
        ? Object.fromEntries([...Object.entries(stands), [pick(STRANGE_KEYS), other()]])
        : stands,
  },
  {
    name: 'doubled',
    make: (stands) =>
      Array.isArray(stands)
        ? [...(stands as readonly Json[]), ...(stands as readonly Json[])]
        : isObject(stands)
          ? Object.fromEntries(
              Object.entries(stands).flatMap(([key, one]) => [
                [key, one],
                [`${key}-2`, one],
              ]),
            )
          : [stands, stands],
  },
  {
    name: 'other digits',
    make: (stands, { below }) =>
      typeof stands === 'string'
        ? stands.replace(/\d/g, () => String(below(10)))
        : typeof stands === 'number'
          ? stands * (below(200) - 100)
          : stands,
  },
  {
    name: 'deep inside',
    make: (stands, { below }) => {
      let out: Json = stands;
      for (let n = 2 + below(60); n > 0; n--) out = n % 2 === 0 ? [out] : { is: out, from: 'book' };
      return out;
    },
  },
  {
    name: 'a great many',
    make: (stands, { below }) =>
      Array.from({ length: 2 + below(400) }, () => (isObject(stands) ? {} : stands)),
  },
  {
    name: 'keys in another order',
    make: (stands) => (isObject(stands) ? Object.fromEntries(Object.entries(stands).reverse()) : stands),
  },
];

const SPOILS: readonly {
  readonly name: string;
  readonly make: (text: string, below: Hands['below']) => string;
}[] = [
  { name: 'cut off', make: (text, below) => text.slice(0, below(text.length)) },
  { name: 'a sign put in', make: (text, below) => put(text, below(text.length), pickSign(below)) },
  { name: 'a sign taken out', make: (text, below) => cut(text, below(text.length)) },
  {
    name: 'a key twice',
    make: (text) => text.replace(/"version":\s*\d+/, (all) => `${all}, ${all}`),
  },
  { name: 'a comma at the end', make: (text) => text.replace(/\}\s*$/, ',}') },
  { name: 'a mark of its bytes before it', make: (text) => `\ufeff${text}` },
  { name: 'twice', make: (text) => text + text },
];

const pickSign = (below: Hands['below']): string =>
  ['"', '{', ']', ',', '\\', '\u0000', 'é', '/*', "'", '“'][below(10)]!;
const put = (text: string, at: number, sign: string): string => text.slice(0, at) + sign + text.slice(at);
const cut = (text: string, at: number): string => text.slice(0, at) + text.slice(at + 1);

/** Every place of a value, the root among them, up to a bound: a mutant of a mutant may be large. */
function placesOf(value: Json): readonly Path[] {
  const out: Key[][] = [[]];
  const walk = (one: Json | undefined, path: readonly Key[]): void => {
    if (out.length > 20_000 || path.length > 40) return;
    const entries: readonly (readonly [Key, Json | undefined])[] = Array.isArray(one)
      ? (one as readonly Json[]).map((item, n) => [n, item] as const)
      : isObject(one)
        ? Object.entries(one as JsonObject)
        : [];
    for (const [key, item] of entries) {
      const here = [...path, key];
      out.push(here);
      walk(item, here);
    }
  };
  walk(value, []);
  return out;
}
