/** Which readings are worth offering on a bike of a build: every kind in every state that tells something new. */
import { SEEN } from './catalogue.ts';
import { writeKey } from './key.ts';

const YES = ['False', 'True'] as const;

/** Kinds read of the whole circuit with the engine running, on a bike of any build. */
export const RUNNING_KINDS = [
  'batt_volts',
  'reg_volts',
  'drop_pos',
  'drop_neg',
  'drop_breaker',
  'drop_dcplug',
  'ripple',
  'batt_amps',
  'alt_amps',
] as const;

/** Every reading worth offering on a bike of this build, in canonical keys. */
export function offeredKeys(build: {
  readonly phases: 1 | 3;
  readonly senses: 'output' | 'wire';
  readonly flooded: boolean;
}): readonly string[] {
  const pins = build.phases === 3 ? ['a', 'b', 'c'] : ['a', 'b'];
  const pairs = build.phases === 3 ? ['ab', 'bc', 'ca'] : ['ab'];
  const keys: string[] = [];
  const add = (kind: string, state: Record<string, string> = {}) => keys.push(writeKey({ kind, state }));
  for (const charged of [{}, { charged: 'True' }]) {
    add('rest_volts', charged);
    add('load_test_volts', charged);
    for (const probe of ['post', 'clamp']) add('crank_volts', { probe, ...charged });
  }
  for (const lights of ['off', 'low']) add('keyon_volts', { lights });
  add('keyoff_mA');
  add('capacity_minutes');
  if (build.flooded) for (const cell of ['1', '2', '3', '4', '5', '6']) add('sg', { cell });
  for (const state of ['crank', 'lights']) {
    add('drop_term_pos', { state });
    add('drop_term_neg', { state });
  }
  const runs: Record<string, string>[] = [];
  for (const lights of ['off', 'low'])
    for (const rpm of ['idle', '2000', '3000', '5000']) runs.push({ lights, rpm });
  runs.push({ lights: 'high', rpm: 'idle' });
  for (const rpm of ['idle', '3000']) runs.push({ lights: 'low', rpm, temp: 'hot' });
  for (const rpm of ['idle', '3000']) runs.push({ charged: 'True', lights: 'low', rpm });
  runs.push({ charged: 'True', lights: 'off', rpm: '5000' });
  runs.push({ acc: 'False', lights: 'low', rpm: '3000' });
  for (const run of runs) {
    for (const kind of RUNNING_KINDS) add(kind, run);
    if (build.senses === 'wire') add('drop_sense', run);
    for (const pin of pins) for (const kind of ['plug_drop_ac', 'phase_amps']) add(kind, { pin, ...run });
  }
  for (const kind of ['batt_volts', 'drop_breaker'])
    add(kind, { lights: 'low', rpm: '3000', wiggle: 'True' });
  for (const pair of pairs) {
    for (const rpm of ['idle', '2000', '3000', '5000']) add('stator_ac', { pair, rpm, temp: 'cold' });
    add('stator_ac', { pair, rpm: '3000', temp: 'hot' });
    for (const through of YES)
      for (const kind of ['ohms_pair', 'mv_pair']) add(kind, { pair, through_plug: through });
  }
  for (const pin of pins) {
    for (const temp of ['cold', 'hot']) {
      add('ohms_case', { pin, temp });
      for (const loaded of YES) add('pin_case_ac', { loaded, pin, rpm: '3000', temp });
    }
    add('diode', { red: pin, black: 'pos' });
    add('diode', { red: 'pos', black: pin });
    add('diode', { red: 'neg', black: pin });
    add('diode', { red: pin, black: 'neg' });
  }
  add('diode', { red: 'neg', black: 'pos' });
  add('diode', { red: 'pos', black: 'neg' });
  for (const what of Object.keys(SEEN)) add('visual', { what });
  return keys;
}
