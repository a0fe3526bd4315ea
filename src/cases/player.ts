/**
 * Plays one case: hands out its readings one by one as the owner of the bike would, counts minutes with set-up paid
 * once, and reads one of them wrongly where the case says so. The rules are those of the exchange format.
 */
import type { Value } from '../reading/key.ts';

/** A case as its file has it; only what the player and the score look at. */
export interface PracticeCase {
  readonly id: string;
  readonly nameplate: unknown;
  readonly complaint: unknown;
  /** Key → [value, minutes]. */
  readonly readings: Readonly<Record<string, readonly [Value, number]>>;
  readonly truth: {
    readonly faults: readonly string[];
    readonly detail: unknown;
    readonly repairs: readonly string[];
    /** Faults that no reading of this bike shows. */
    readonly masked: readonly string[];
    /** [n, how]: the n-th number asked for is read wrongly the first time. */
    readonly slip?: readonly [number, string] | null;
  };
}

/** What left-out state words mean. */
const DEFAULTS: readonly (readonly [string, string])[] = [
  ['rpm', '3000'],
  ['lights', 'low'],
  ['temp', 'cold'],
  ['charged', 'False'],
  ['acc', 'True'],
  ['wiggle', 'False'],
  ['loaded', 'False'],
  ['through_plug', 'False'],
  ['probe', 'post'],
];
const UNPLUGGED = new Set(['stator_ac', 'pin_case_ac', 'ohms_pair', 'mv_pair', 'ohms_case', 'diode']);
const MEAN_SQUARE = new Set(['stator_ac', 'pin_case_ac', 'ripple']);
const SIGNED = new Set([
  ...['batt_amps', 'batt_volts', 'rest_volts', 'keyon_volts', 'crank_volts', 'load_test_volts', 'reg_volts'],
  ...['drop_pos', 'drop_neg', 'alt_amps'],
]);
/** State words that a near reading must share. */
const HARD = new Set(['pair', 'pin', 'red', 'black', 'cell', 'what', 'state', 'through_plug', 'loaded']);

type State = ReadonlyMap<string, string>;
interface Row {
  readonly state: State;
  readonly entry: readonly [Value, number];
}

/** Kind and full state of a key, left-out words filled in. */
function parts(key: string): { kind: string; state: State } {
  const [kind, ...words] = key.trim().split(/\s+/);
  const state = new Map(DEFAULTS);
  for (const word of words) {
    const at = word.indexOf('=');
    if (at < 0) throw new RangeError(`key must be a kind and name=value words, got ${JSON.stringify(key)}`);
    state.set(word.slice(0, at), word.slice(at + 1));
  }
  return { kind: kind ?? '', state };
}

/** One text for a state, whatever order its words came in. */
function stateText(state: State): string {
  return [...state]
    .map(([name, value]) => `${name}=${value}`)
    .sort()
    .join(' ');
}

/** Words in which two states differ: how many at all, and whether one of them is hard. */
function difference(a: State, b: State): { count: number; hard: boolean } {
  let count = 0;
  let hard = false;
  for (const name of new Set([...a.keys(), ...b.keys()])) {
    if (a.get(name) === b.get(name)) continue;
    count++;
    hard ||= HARD.has(name);
  }
  return { count, hard };
}

/** `value` rounded to thousandths, an exact tie to the even one (as the format's scorer rounds). */
function toThousandth(value: number): number {
  const rounded = Number(value.toFixed(3));
  // A tie at three decimals is an odd multiple of 1/16; toFixed goes away from zero there.
  if (Math.abs(value * 16) % 2 !== 1) return rounded;
  const below = Math.floor(Math.abs(value) * 1000);
  return (Math.sign(value) * (below % 2 === 0 ? below : below + 1)) / 1000;
}

/** What a slip makes of a value. */
function slipped(how: string, kind: string, value: number): number {
  const kindOfSlip = how === 'reversed' && !SIGNED.has(kind) ? '/10' : how;
  switch (kindOfSlip) {
    case 'x10':
      return value * 10;
    case '/10':
      return value / 10;
    case 'mode':
      return MEAN_SQUARE.has(kind) ? 0 : toThousandth(value * 2.2);
    case 'contact':
      return kind.startsWith('ohms') ? value + 3 : toThousandth(value * 0.7);
    case 'reversed':
      return -value;
    default:
      throw new RangeError(`slip must be x10, /10, mode, contact or reversed, got ${JSON.stringify(how)}`);
  }
}

/** The player of one case. */
export class Player {
  readonly practice: PracticeCase;
  /** Readings handed over so far, as the asker wrote their keys. */
  readonly have = new Map<string, Value>();
  /** Keys asked for again. */
  readonly tried: string[] = [];
  /** Work so far, minutes. */
  minutes = 0;
  /** The key that was read wrongly; null while none was. */
  spoiled: string | null = null;
  readonly #slip: readonly [number, string] | null;
  readonly #rows = new Map<string, Row[]>();
  readonly #exact = new Map<string, readonly [Value, number]>();
  readonly #paid = new Set<string>();
  #numbers = 0;

  constructor(practice: PracticeCase, slips = true) {
    this.practice = practice;
    this.#slip = (slips && practice.truth.slip) || null;
    for (const [key, entry] of Object.entries(practice.readings)) {
      const { kind, state } = parts(key);
      this.#exact.set(`${kind} ${stateText(state)}`, entry);
      const rows = this.#rows.get(kind) ?? [];
      rows.push({ state, entry });
      this.#rows.set(kind, rows);
    }
  }

  /** The question to put to the line mode now, one line of JSON. */
  question(): string {
    const { id, nameplate, complaint } = this.practice;
    return JSON.stringify({
      id,
      nameplate,
      complaint,
      readings: Object.fromEntries(this.have),
      tried: this.tried,
    });
  }

  /** How many readings have been taken, repeats included. */
  get asked(): number {
    return this.have.size + this.tried.length;
  }

  /** Takes the reading `key`: value and minutes go on the account. */
  ask(key: string): void {
    const { kind, state } = parts(key);
    let [value, minutes] = this.#lookUp(kind, state);
    this.minutes += minutes;
    this.#pay('unplug', UNPLUGGED.has(kind), 6);
    this.#pay('heat', state.get('temp') === 'hot', 15);
    this.#pay('charge', state.get('charged') === 'True' || kind === 'capacity_minutes', 20);
    if (this.have.has(key)) {
      this.tried.push(key);
    } else if (typeof value === 'number') {
      this.#numbers++;
      if (this.#slip !== null && this.#numbers === this.#slip[0]) {
        this.spoiled = key;
        value = slipped(this.#slip[1], kind, value);
      }
    }
    this.have.set(key, value);
  }

  #pay(setUp: string, needed: boolean, minutes: number): void {
    if (!needed || this.#paid.has(setUp)) return;
    this.#paid.add(setUp);
    this.minutes += minutes;
  }

  /** The entry of that state, else of the nearest of the same kind, else no reading after three minutes. */
  #lookUp(kind: string, state: State): readonly [Value, number] {
    const exact = this.#exact.get(`${kind} ${stateText(state)}`);
    if (exact) return exact;
    let best: readonly [Value, number] = [null, 3];
    let least = Infinity;
    for (const row of this.#rows.get(kind) ?? []) {
      const { count, hard } = difference(row.state, state);
      if (hard || count >= least) continue;
      least = count;
      best = row.entry;
    }
    return best;
  }
}
