/** The catalogue of readings: what can be measured, how, in how many minutes. Minutes are common practice, no source. */
import { type ReadingKey, readKey } from './key.ts';
import type { Kind, SetUp, Tool } from './kinds.ts';

const PINS = ['a', 'b', 'c'] as const;
const YES = ['False', 'True'] as const;
const RUN = {
  rpm: ['3000', 'idle', '2000', '5000'],
  lights: ['low', 'off', 'high'],
  temp: ['cold', 'hot'],
  charged: YES,
  acc: ['True', 'False'],
  wiggle: YES,
} as const;
const UNPLUGGED = { rpm: ['3000', 'idle', '2000', '5000'], temp: ['cold', 'hot'] } as const;

function kind(
  id: string,
  title: string,
  unit: Kind['unit'],
  minutes: number,
  tool: Tool,
  engine: Kind['engine'],
  about: Kind['about'],
  states: Kind['states'],
): Kind {
  return {
    id,
    title,
    unit,
    minutes,
    tool,
    engine,
    about,
    states,
  };
}

export const SEEN: Readonly<Record<string, string>> = {
  plug_burnt: 'stator plug scorched or melted',
  plug_oily: 'stator plug oily inside',
  insulation_dark: 'stator lead insulation dark or brittle',
  magnets_cracked: 'cracked or loose magnets (seen through the inspection hole)',
  battery_swollen: 'battery case swollen',
  bulbs_blown: 'bulbs blown lately',
  terminal_corroded: 'battery terminals corroded or loose',
  headlight_dims_idle: 'headlight dims at idle',
  fuse_blown: 'main fuse blown or breaker tripped',
  wire_thin: 'output wire thinner than the book says',
  smell_burnt: 'burnt smell at the plug or the case filler',
  smell_sulphur: 'sulphur smell at the battery',
  connector_warm: 'a charging connector warm after a run',
};

const list: readonly Kind[] = [
  kind('rest_volts', 'Battery volts at rest', 'V', 2, 'multimeter', 'off', ['battery'], { charged: YES }),
  kind('keyon_volts', 'Battery volts with the key on', 'V', 2, 'multimeter', 'off', ['battery', 'loads'], {
    lights: ['low', 'off'],
  }),
  kind(
    'load_test_volts',
    'Battery volts at the end of a load test',
    'V',
    6,
    'load-tester',
    'off',
    ['battery'],
    { charged: YES },
  ),
  kind(
    'crank_volts',
    'Volts while cranking',
    'V',
    2,
    'multimeter',
    'cranking',
    ['battery', 'positive-post', 'negative-post'],
    { probe: ['post', 'clamp'], charged: YES },
  ),
  kind('keyoff_mA', 'Drain with the key off', 'mA', 6, 'multimeter', 'off', ['drain'], {}),
  kind(
    'capacity_minutes',
    'Minutes the charged battery carries the low beam',
    'min',
    25,
    'multimeter',
    'off',
    ['battery'],
    {},
  ),
  kind('sg', 'Specific gravity of a cell', 'SG', 3, 'hydrometer', 'off', ['battery'], {
    cell: ['1', '2', '3', '4', '5', '6'],
  }),
  kind(
    'drop_term_pos',
    'Volts lost from + post to its clamp',
    'V',
    2,
    'multimeter',
    'cranking',
    ['positive-post'],
    { state: ['crank', 'lights'] },
  ),
  kind(
    'drop_term_neg',
    'Volts lost from − post to its clamp',
    'V',
    2,
    'multimeter',
    'cranking',
    ['negative-post'],
    { state: ['crank', 'lights'] },
  ),
  kind(
    'batt_volts',
    'Battery volts, engine running',
    'V',
    3,
    'multimeter',
    'running',
    ['battery', 'regulator', 'stator'],
    RUN,
  ),
  kind(
    'reg_volts',
    'Volts at the regulator’s own terminals',
    'V',
    4,
    'multimeter',
    'running',
    ['regulator', 'output-joint', 'ground'],
    RUN,
  ),
  kind(
    'drop_pos',
    'Volts lost from regulator + to battery +',
    'V',
    4,
    'multimeter',
    'running',
    ['output-joint', 'output-wire', 'breaker', 'positive-post'],
    RUN,
  ),
  kind(
    'drop_neg',
    'Volts lost from battery − to regulator ground',
    'V',
    4,
    'multimeter',
    'running',
    ['ground', 'negative-post'],
    RUN,
  ),
  kind('drop_breaker', 'Volts lost over the main breaker', 'V', 3, 'multimeter', 'running', ['breaker'], RUN),
  kind(
    'drop_dcplug',
    'Volts lost over the joint in the output lead',
    'V',
    4,
    'multimeter',
    'running',
    ['output-joint'],
    RUN,
  ),
  kind('drop_sense', 'Volts lost in the sense wire', 'V', 4, 'multimeter', 'running', ['sense-wire'], RUN),
  kind(
    'plug_drop_ac',
    'AC volts over one mated pin of the stator plug',
    'V',
    4,
    'multimeter',
    'running',
    ['stator-plug'],
    { pin: PINS, ...RUN },
  ),
  kind(
    'ripple',
    'AC volts at the battery posts',
    'V',
    3,
    'multimeter',
    'running',
    ['regulator', 'battery'],
    RUN,
  ),
  kind('batt_amps', 'Amps into the battery', 'A', 3, 'clamp-meter', 'running', ['battery', 'loads'], RUN),
  kind(
    'alt_amps',
    'Amps out of the regulator',
    'A',
    3,
    'clamp-meter',
    'running',
    ['regulator', 'stator'],
    RUN,
  ),
  kind(
    'phase_amps',
    'AC amps in one stator lead',
    'A',
    3,
    'clamp-meter',
    'running',
    ['stator', 'stator-plug', 'regulator'],
    { pin: PINS, ...RUN },
  ),
  kind(
    'stator_ac',
    'AC volts between two stator pins, unplugged',
    'V',
    3,
    'multimeter',
    'running',
    ['stator', 'rotor'],
    { pair: ['ab', 'bc', 'ca'], ...UNPLUGGED },
  ),
  kind(
    'pin_case_ac',
    'AC volts from a stator pin to the case, unplugged',
    'V',
    3,
    'multimeter',
    'running',
    ['stator'],
    { pin: PINS, loaded: YES, ...UNPLUGGED },
  ),
  kind('ohms_pair', 'Ohms between two stator pins', 'Ω', 2, 'multimeter', 'off', ['stator'], {
    pair: ['ab', 'bc', 'ca'],
    through_plug: YES,
  }),
  kind(
    'mv_pair',
    'Millivolts with 1 A sent through two stator pins',
    'mV',
    6,
    'supply',
    'off',
    ['stator', 'stator-plug'],
    { pair: ['ab', 'bc', 'ca'], through_plug: YES },
  ),
  kind('ohms_case', 'Ohms from a stator pin to the case', 'Ω', 2, 'multimeter', 'off', ['stator'], {
    pin: PINS,
    temp: ['cold', 'hot'],
  }),
  kind('diode', 'Diode range on the unplugged regulator', 'V', 2, 'multimeter', 'off', ['regulator'], {
    red: ['a', 'b', 'c', 'pos', 'neg'],
    black: ['a', 'b', 'c', 'pos', 'neg'],
  }),
  kind('visual', 'Look and smell', 'seen', 1, 'eyes', 'off', ['stator-plug'], { what: Object.keys(SEEN) }),
];

/** Every kind by its id. No prototype: "constructor" is a word of the language and no kind of reading. */
export const KINDS: Readonly<Record<string, Kind>> = Object.assign(
  Object.create(null),
  Object.fromEntries(list.map((k) => [k.id, k])),
);

const SET_UP_OF: Readonly<Record<string, SetUp>> = {
  stator_ac: 'unplug-stator',
  pin_case_ac: 'unplug-stator',
  ohms_pair: 'unplug-stator',
  mv_pair: 'unplug-stator',
  ohms_case: 'unplug-stator',
  diode: 'unplug-stator',
};

/** Minutes of each set-up, paid once (common practice, no source). Charging is unattended. */
export const SET_UP_MINUTES: Readonly<Record<SetUp, number>> = {
  'unplug-stator': 6,
  'engine-hot': 15,
  'battery-charged': 20,
};

export const SET_UP_WORDS: Readonly<Record<SetUp, string>> = {
  'unplug-stator': 'unplug the stator',
  'engine-hot': 'bring the engine to full heat',
  'battery-charged': 'charge the battery on the bench first',
};

/** The set-ups a reading needs. */
export function setUpsOf(key: ReadingKey): readonly SetUp[] {
  const needs: SetUp[] = [];
  const unplug = SET_UP_OF[key.kind];
  if (unplug) needs.push(unplug);
  if (key.state.temp === 'hot') needs.push('engine-hot');
  if (key.state.charged === 'True' || key.kind === 'capacity_minutes') needs.push('battery-charged');
  return needs;
}

/** A key with every state word it takes, defaults filled in where left out. */
export function completeKey(key: ReadingKey): ReadingKey {
  const kind = KINDS[key.kind];
  if (!kind) return key;
  const state: Record<string, string> = {};
  for (const [name, values] of Object.entries(kind.states)) state[name] = key.state[name] ?? values[0]!;
  return { kind: key.kind, state };
}

export type CheckedKey =
  | { readonly ok: true; readonly key: ReadingKey; readonly kind: Kind }
  | { readonly ok: false; readonly why: string };

/** Reads and checks a key text against the catalogue; says in one sentence what is wrong with it. */
export function checkKey(text: string): CheckedKey {
  const key = readKey(text);
  if (!key)
    return {
      ok: false,
      why: `"${text.slice(0, 80)}" is not a reading; write a kind and its state, e.g. "batt_volts lights=low rpm=3000"`,
    };
  const kind = KINDS[key.kind];
  if (!kind)
    return {
      ok: false,
      why: `no kind of reading is called "${key.kind.slice(0, 40)}"; the kinds are ${Object.keys(KINDS).join(', ')}`,
    };
  for (const [name, value] of Object.entries(key.state)) {
    const allowed = Object.hasOwn(kind.states, name) ? kind.states[name] : undefined;
    if (!allowed)
      return {
        ok: false,
        why: `"${key.kind}" takes no "${name.slice(0, 40)}"; it takes ${Object.keys(kind.states).join(', ') || 'no state words'}`,
      };
    if (
      name === 'rpm'
        ? value !== 'idle' && !(Number(value) >= 300 && Number(value) <= 15000)
        : !allowed.includes(value)
    ) {
      const range = name === 'rpm' ? 'idle or a number from 300 to 15000' : allowed.join(', ');
      return {
        ok: false,
        why: `"${name}=${value.slice(0, 40)}" is not possible for "${key.kind}"; ${name} is ${range}`,
      };
    }
  }
  if (key.kind === 'diode' && (!key.state.red || !key.state.black || key.state.red === key.state.black)) {
    return {
      ok: false,
      why: 'the diode range needs red= and black= on two different terminals (a, b, c, pos, neg)',
    };
  }
  return { ok: true, key, kind };
}
