/**
 * How people and meters misread: named mistakes, what each makes of a value, and where else the tips may have been.
 * Shares are guesses: no count of workshop slips was found.
 */
import { completeKey, KINDS } from './catalogue.ts';
import type { ReadingKey } from './key.ts';
import { POINT_KINDS, stateWords } from './show.ts';

export interface Mistake {
  readonly id:
    | 'ten-times'
    | 'a-tenth'
    | 'thousand'
    | 'wrong-mode'
    | 'wrong-range'
    | 'nothing'
    | 'no-contact'
    | 'contact'
    | 'contact-ohms'
    | 'reversed'
    | 'wrong-place'
    | 'wrong-state'
    | 'anything';
  /** In words. */
  readonly title: string;
  /** Share of all mistakes (guess). */
  readonly share: number;
  /** The value meant, from the value noted; null when this mistake cannot give it. */
  readonly undo: (noted: number) => number | null;
  /** The value noted, from the value meant; null when nobody can say. */
  readonly make: (meant: number) => number | null;
  /** |d meant / d noted|, so that densities compare. */
  readonly stretch: (noted: number) => number;
  /** Scatter of the mistake itself: share of the value, and in the kind's unit. */
  readonly spread: number;
  readonly blur: number;
}

const same = () => 1;

/** A poor contact of test leads on a low-ohm range, Ω, and how far it wanders (common practice, no source). */
const CONTACT_OHM = 3;
const CONTACT_WANDERS = 0.3;
/** What a meter on another setting shows, whatever the setting is called: 2.2 times too much (common practice, no source). */
const OTHER_SETTING = {
  share: 0.13,
  undo: (v: number) => (v > 0.01 ? v / 2.2 : null),
  make: (v: number) => v * 2.2,
  stretch: () => 1 / 2.2,
  spread: 0.01,
  blur: 0,
};

/** What a meter shows that shows nothing: within this of zero, the kind's unit. */
const NOTHING = 0.01;

export const MISTAKES = {
  tenTimes: {
    id: 'ten-times',
    title: 'ten times out',
    share: 0.16,
    undo: (v: number) => v / 10,
    make: (v: number) => v * 10,
    stretch: () => 0.1,
    spread: 0,
    blur: 0,
  },
  aTenth: {
    id: 'a-tenth',
    title: 'ten times out',
    share: 0.16,
    undo: (v: number) => v * 10,
    make: (v: number) => v / 10,
    stretch: () => 10,
    spread: 0,
    blur: 0,
  },
  thousand: {
    id: 'thousand',
    title: 'milli and whole units mixed up',
    share: 0.04,
    undo: (v: number) => v / 1000,
    make: (v: number) => v * 1000,
    stretch: () => 0.001,
    spread: 0,
    blur: 0,
  },
  wrongMode: { ...OTHER_SETTING, id: 'wrong-mode', title: 'AC and DC mixed up' },
  /** The same figures where a meter has no AC: on ohms and on the diode range. */
  wrongRange: { ...OTHER_SETTING, id: 'wrong-range', title: 'another range of the meter' },
  /** AC volts on a DC range average to nothing; so does a lead that is off, or a blown fuse in the meter. */
  nothing: {
    id: 'nothing',
    title: 'the meter showed nothing: a lead off, or AC and DC mixed up',
    share: 0.06,
    undo: () => null,
    make: () => 0,
    stretch: same,
    spread: 0,
    blur: 0,
  },
  /** Only for "OL" where a number is due. */
  noContact: {
    id: 'no-contact',
    title: 'no contact at a probe',
    share: 0.1,
    undo: () => null,
    make: () => null,
    stretch: same,
    spread: 0,
    blur: 0,
  },
  contact: {
    id: 'contact',
    title: 'poor contact at a probe',
    share: 0.13,
    undo: (v: number) => v / 0.7,
    make: (v: number) => v * 0.7,
    stretch: () => 1 / 0.7,
    spread: 0.06,
    blur: 0,
  },
  contactOhms: {
    id: 'contact-ohms',
    title: 'poor contact at a probe',
    share: 0.13,
    undo: (v: number) => (v > CONTACT_OHM - 0.6 ? v - CONTACT_OHM : null),
    make: (v: number) => v + CONTACT_OHM,
    stretch: same,
    spread: 0,
    blur: CONTACT_WANDERS,
  },
  reversed: {
    id: 'reversed',
    title: 'leads reversed',
    share: 0.13,
    undo: (v: number) => -v,
    make: (v: number) => -v,
    stretch: same,
    spread: 0,
    blur: 0,
  },
  anything: {
    id: 'anything',
    title: 'does not fit, mistake unknown',
    share: 0.1,
    undo: () => null,
    make: () => null,
    stretch: same,
    spread: 0,
    blur: 0,
  },
} as const satisfies Readonly<Record<string, Mistake>>;

const SIGNED = new Set([
  ...['batt_amps', 'batt_volts', 'rest_volts', 'keyon_volts', 'crank_volts', 'load_test_volts', 'reg_volts'],
  ...['drop_pos', 'drop_neg', 'drop_breaker', 'drop_dcplug', 'drop_sense', 'drop_term_pos', 'drop_term_neg'],
  'alt_amps',
]);
const AC = new Set(['stator_ac', 'pin_case_ac', 'ripple', 'plug_drop_ac', 'phase_amps']);
/** Read on a range that has no AC beside it. */
const NO_MODE = new Set(['ohms_pair', 'ohms_case', 'diode']);
/** Counted or floated, not metered: only a slip of the pen can spoil them. */
const NO_METER = new Set(['capacity_minutes', 'sg']);

/** Mistakes that can happen to a kind of reading with this noted value. */
export function mistakesFor(kind: string, noted: number): readonly Mistake[] {
  const list: Mistake[] = [MISTAKES.tenTimes, MISTAKES.aTenth];
  if (NO_METER.has(kind)) return list;
  if (SIGNED.has(kind)) list.push(MISTAKES.reversed, MISTAKES.thousand);
  if (NO_MODE.has(kind)) list.push(MISTAKES.wrongRange);
  else if (!AC.has(kind) || noted > 0.01) list.push(MISTAKES.wrongMode);
  if (Math.abs(noted) <= NOTHING) list.push(MISTAKES.nothing);
  list.push(kind.startsWith('ohms') ? MISTAKES.contactOhms : MISTAKES.contact);
  return list;
}

/** What each mistake would have made of a reading that was meant to be `value`, with the mistake's share. */
export function spoilt(
  kind: string,
  value: number,
): readonly { readonly share: number; readonly value: number }[] {
  const list: Mistake[] = [MISTAKES.tenTimes, MISTAKES.aTenth];
  if (!NO_METER.has(kind)) {
    if (SIGNED.has(kind)) list.push(MISTAKES.reversed);
    list.push(AC.has(kind) ? MISTAKES.nothing : MISTAKES.wrongMode);
    list.push(kind.startsWith('ohms') ? MISTAKES.contactOhms : MISTAKES.contact);
  }
  return list.map((mistake) => ({ share: mistake.share, value: mistake.make(value)! }));
}

/** Another reading that may have been taken in place of the one asked for. */
export interface Elsewhere {
  readonly key: ReadingKey;
  readonly mistake: Mistake;
}

/** Shares of all mistakes (guess), divided among the places or states that come in question. */
const PLACE = 0.07;
const STATE = 0.08;

function took(id: 'wrong-place' | 'wrong-state', title: string, share: number): Mistake {
  return { ...MISTAKES.anything, id, title, share };
}

const PIN_KINDS: ReadonlySet<string> = new Set(['plug_drop_ac', 'phase_amps', 'pin_case_ac', 'ohms_case']);
const LEGS = ['a', 'b', 'c'];
/** Readings that lie next to each other on the bike: one taken for the other, in the same engine state. */
const BESIDE: Readonly<Record<string, readonly (readonly [string, string])[]>> = {
  batt_volts: [['reg_volts', 'taken at the regulator, not at the battery']],
  reg_volts: [['batt_volts', 'taken at the battery, not at the regulator']],
  drop_pos: [['drop_neg', 'taken on the ground side']],
  drop_neg: [['drop_pos', 'taken on the positive side']],
  drop_term_pos: [['drop_term_neg', 'taken at the other post']],
  drop_term_neg: [['drop_term_pos', 'taken at the other post']],
  alt_amps: [['batt_amps', 'the clamp sat around the battery’s cable']],
  batt_amps: [['alt_amps', 'the clamp sat around the regulator’s wire']],
};
const RPM_WORDS = (rpm: string) => (rpm === 'idle' ? 'at idle' : `at ${rpm} rpm`);
const STATE_WORDS: Readonly<Record<string, (value: string) => string>> = {
  rpm: RPM_WORDS,
  lights: (v) => (v === 'off' ? 'with the lights off' : `with the ${v} beam on`),
  temp: (v) => (v === 'hot' ? 'hot' : 'cold'),
  charged: (v) => (v === 'True' ? 'after the battery was charged' : 'before the battery was charged'),
  acc: (v) => (v === 'True' ? 'with the accessories on' : 'with the accessories off'),
  probe: (v) => (v === 'clamp' ? 'at the clamps, not at the posts' : 'at the posts, not at the clamps'),
  through_plug: (v) => (v === 'True' ? 'through the plug' : 'on the stator’s own pins'),
  state: (v) => (v === 'crank' ? 'while cranking' : 'with the lights on, not while cranking'),
  loaded: (v) => (v === 'True' ? 'with the load on the pin' : 'without the load on the pin'),
};
/** States that cost no engine physics, so that any of them may be asked about. */
const STILL: readonly string[] = ['charged', 'probe', 'through_plug', 'state', 'loaded', 'temp', 'lights'];

/**
 * Readings that may have been taken in place of this one: another pair or pin, swapped leads, the neighbour's
 * points, another engine state. Running readings are only looked for in `states`, the engine states that readings
 * were taken in: a state that nobody asked for is not one that a hand slips into, and costs physics.
 */
export function elsewhereOf(
  asked: ReadingKey,
  phases: 1 | 3,
  states: ReadonlySet<string>,
): readonly Elsewhere[] {
  const { kind, state } = completeKey(asked);
  const places: [ReadingKey, string][] = [];
  const swaps: [ReadingKey, string][] = [];
  const change = (name: string, value: string): ReadingKey => ({ kind, state: { ...state, [name]: value } });
  if (state.pair && phases === 3) {
    for (const pair of ['ab', 'bc', 'ca'])
      if (pair !== state.pair)
        places.push([change('pair', pair), `another pair was measured: ${pair[0]}–${pair[1]}`]);
  }
  if (PIN_KINDS.has(kind)) {
    for (const pin of LEGS.slice(0, phases === 3 ? 3 : 2))
      if (pin !== state.pin) places.push([change('pin', pin), `another pin was measured: ${pin}`]);
  }
  if (kind === 'diode') {
    const { red, black } = state as { red: string; black: string };
    swaps.push([{ kind, state: { ...state, red: black, black: red } }, 'the leads were swapped']);
    for (const leg of LEGS.slice(0, phases === 3 ? 3 : 2)) {
      for (const name of ['red', 'black'] as const)
        if (
          LEGS.includes(state[name]!) &&
          leg !== state[name] &&
          leg !== state[name === 'red' ? 'black' : 'red']
        )
          places.push([change(name, leg), `another pin was measured: ${leg}`]);
    }
  }
  for (const [other, title] of BESIDE[kind] ?? []) places.push([{ kind: other, state }, title]);

  const moments: [ReadingKey, string][] = [];
  const running = POINT_KINDS.has(kind);
  for (const [name, words] of Object.entries(STATE_WORDS)) {
    const values = KINDS[kind]?.states[name] ?? [];
    if (!running && name !== 'rpm' && !STILL.includes(name)) continue;
    for (const value of new Set([
      ...values,
      ...(name === 'rpm' && values.length ? ['idle', '3000', '5000'] : []),
    ])) {
      if (value === state[name]) continue;
      const key = change(name, value);
      if (running && !states.has(stateWords(key))) continue;
      moments.push([key, `taken ${words(value)}, it seems`]);
    }
  }
  return [
    ...swaps.map(([key, title]) => ({ key, mistake: took('wrong-place', title, MISTAKES.reversed.share) })),
    ...places.map(([key, title]) => ({ key, mistake: took('wrong-place', title, PLACE / places.length) })),
    ...moments.map(([key, title]) => ({ key, mistake: took('wrong-state', title, STATE / moments.length) })),
  ];
}
