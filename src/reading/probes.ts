/** Where the probes go for a reading, on the loop drawing. */
import { completeKey } from './catalogue.ts';
import type { ReadingKey } from './key.ts';
import type { ProbePoint } from './kinds.ts';

export interface Probes {
  readonly red: ProbePoint | null;
  readonly black: ProbePoint | null;
  /** A clamp around a lead. */
  readonly around: ProbePoint | null;
}

const PIN: Readonly<Record<string, ProbePoint>> = {
  a: 'pin-a',
  b: 'pin-b',
  c: 'pin-c',
  pos: 'regulator-positive',
  neg: 'regulator-negative',
};
const PHASE: Readonly<Record<string, ProbePoint>> = {
  a: 'around-phase-a',
  b: 'around-phase-b',
  c: 'around-phase-c',
};

const FIXED: Readonly<Record<string, readonly [ProbePoint, ProbePoint]>> = {
  rest_volts: ['post-positive', 'post-negative'],
  keyon_volts: ['post-positive', 'post-negative'],
  load_test_volts: ['post-positive', 'post-negative'],
  capacity_minutes: ['post-positive', 'post-negative'],
  batt_volts: ['post-positive', 'post-negative'],
  ripple: ['post-positive', 'post-negative'],
  drop_term_pos: ['post-positive', 'clamp-positive'],
  drop_term_neg: ['clamp-negative', 'post-negative'],
  reg_volts: ['regulator-positive', 'regulator-negative'],
  drop_pos: ['regulator-positive', 'post-positive'],
  drop_neg: ['post-negative', 'regulator-negative'],
  drop_breaker: ['breaker-in', 'breaker-out'],
  drop_dcplug: ['output-joint-in', 'output-joint-out'],
  drop_sense: ['post-positive', 'sense-end'],
  keyoff_mA: ['post-negative', 'clamp-negative'],
};

/** Probe points of a reading; all null for a thing seen or a hydrometer. */
export function probesFor(partial: ReadingKey): Probes {
  const key = completeKey(partial);
  const s = key.state;
  const fixed = FIXED[key.kind];
  if (fixed) return { red: fixed[0], black: fixed[1], around: null };
  switch (key.kind) {
    case 'crank_volts':
      return s.probe === 'clamp'
        ? { red: 'clamp-positive', black: 'clamp-negative', around: null }
        : { red: 'post-positive', black: 'post-negative', around: null };
    case 'stator_ac':
    case 'ohms_pair':
    case 'mv_pair':
      return { red: PIN[s.pair![0]!]!, black: PIN[s.pair![1]!]!, around: null };
    case 'pin_case_ac':
    case 'ohms_case':
      return { red: PIN[s.pin!]!, black: 'frame', around: null };
    case 'plug_drop_ac':
      return { red: PIN[s.pin!]!, black: PIN[s.pin!]!, around: null };
    case 'diode':
      return { red: PIN[s.red!]!, black: PIN[s.black!]!, around: null };
    case 'batt_amps':
      return { red: null, black: null, around: 'around-battery-cable' };
    case 'alt_amps':
      return { red: null, black: null, around: 'around-output-wire' };
    case 'phase_amps':
      return { red: null, black: null, around: PHASE[s.pin!]! };
    default:
      return { red: null, black: null, around: null };
  }
}
