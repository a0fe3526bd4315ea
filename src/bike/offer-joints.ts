/** Joints of a sound bike: the volts lost over one of them by the amps that went through it. */
import type { Machine } from '../machine/definition.ts';
import type { Path } from '../machine/json-value.ts';
import { SIGMAS, type Span, writeSpan } from './honest-range.ts';
import type { Proposed } from './offer-readings.ts';
import { type SoundReading, stateOf } from './sound-readings.ts';

type Runs = NonNullable<Machine['charging']['wiring']>;
type JointAt = NonNullable<NonNullable<Runs['output']>['joints']>[number]['at'];

interface Way {
  /** Kind of the reading of volts, and of the amps that go through the same joint. */
  readonly volts: string;
  readonly amps: string;
  readonly run: 'stator' | 'output';
  readonly at: JointAt;
  readonly label: string;
}

/** Most that a joint of the file may have, Ω. */
const MOST = 1;

/** Where the loads hang on the regulator's side, only what goes to the battery passes the breaker. */
const waysOf = (machine: Machine): readonly Way[] => [
  {
    volts: 'drop_breaker',
    amps: machine.charging.loadsFedFrom.is === 'battery' ? 'alt_amps' : 'batt_amps',
    run: 'output',
    at: 'breaker',
    label: 'Resistance of the breaker with its ends',
  },
  {
    volts: 'drop_dcplug',
    amps: 'alt_amps',
    run: 'output',
    at: 'output-joint',
    label: 'Resistance of the joint in the output lead',
  },
  {
    volts: 'plug_drop_ac',
    amps: 'phase_amps',
    run: 'stator',
    at: 'stator-plug',
    label: 'Resistance of one pin of the stator plug',
  },
];

export function offeredJoints(readings: readonly SoundReading[], machine: Machine): readonly Proposed[] {
  return waysOf(machine).flatMap(({ volts, amps, run, at, label }) => {
    const joints = machine.charging.wiring?.[run]?.joints ?? [];
    const n = joints.findIndex((joint) => joint.at === at);
    if (n < 0) return [];
    const pairs = readings.flatMap((drop) => {
      if (drop.key.kind !== volts) return [];
      const through = readings.find(
        ({ key }) =>
          key.kind === amps && stateOf(key) === stateOf(drop.key) && key.state.pin === drop.key.state.pin,
      );
      const ohms = through ? ohmsOf(drop, through) : null;
      return through && ohms ? [{ drop, through, ohms }] : [];
    });
    // The joint where most amps went is the one that the meter tells best.
    const best = pairs.toSorted((a, b) => b.through.value - a.through.value)[0];
    if (!best) return [];
    const path: Path = ['charging', 'wiring', run, 'joints', n, 'ohms'];
    const proposed: Proposed = {
      path,
      label,
      why: `Read after the proof: ${best.drop.value} V lost over it with ${best.through.value} A going through.`,
      text: writeSpan({ low: best.ohms.low * 1000, high: best.ohms.high * 1000 }, 'mΩ'),
      rpm: null,
      span: best.ohms,
      read: 'resistance',
      seen: best.drop.seen,
    };
    return [proposed];
  });
}

/** Null where the meter could not tell the volts or the amps from nothing. */
function ohmsOf(drop: SoundReading, through: SoundReading): Span | null {
  if (drop.value <= SIGMAS * drop.sigma || through.value <= SIGMAS * through.sigma) return null;
  const ohm = drop.value / through.value;
  const share = Math.hypot(drop.sigma / drop.value, through.sigma / through.value);
  const span = { low: Math.max(0, ohm * (1 - SIGMAS * share)), high: ohm * (1 + SIGMAS * share) };
  return span.high <= MOST ? span : null;
}
