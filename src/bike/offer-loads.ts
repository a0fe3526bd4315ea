/**
 * Loads of a sound bike: what goes out of the regulator and not into the battery feeds them. Two states that differ by one
 * load give it; they behave as resistances, so each is brought to 13.5 V, at which the file states them.
 */
import type { Machine } from '../machine/definition.ts';
import { LOAD_VOLTS } from '../machine/entry.ts';
import { middle } from '../machine/figure.ts';
import { SIGMAS, type Span, writeSpan } from './honest-range.ts';
import type { Proposed } from './offer-readings.ts';
import { type SoundReading, stateOf } from './sound-readings.ts';

type Load = keyof Machine['charging']['loads'];

/** What all loads that are on draw in one state, A at 13.5 V. */
interface Drawn {
  readonly state: Readonly<Record<string, string>>;
  readonly amps: number;
  readonly variance: number;
  readonly seen: SoundReading['seen'];
}

/** A range wider than this share of its middle, to each side, says less than the label, 1. */
const WIDEST = 0.4;
/** Most that the file takes for a load, A. */
const MOST = 40;

export function offeredLoads(readings: readonly SoundReading[], machine: Machine): readonly Proposed[] {
  const drawn = drawnIn(readings);
  const tail = middle(machine.charging.loads.tail.is);
  const alone = drawn.filter(({ state }) => state.lights === 'off' && state.acc === 'False');
  return [
    ...alone
      .slice(0, 1)
      .flatMap((one) => proposedOf('ignition', 'Ignition, pump and instruments', one, null, 0)),
    ...pairOf(drawn, 'acc', 'True', 'False').flatMap(([on, off]) =>
      proposedOf('accessories', 'The owner’s additions, all on', on, off, 0),
    ),
    ...pairOf(drawn, 'lights', 'low', 'off').flatMap(([on, off]) =>
      proposedOf('low', 'Low beam', on, off, tail),
    ),
    ...pairOf(drawn, 'lights', 'high', 'off').flatMap(([on, off]) =>
      proposedOf('high', 'High beam', on, off, tail),
    ),
  ];
}

function drawnIn(readings: readonly SoundReading[]): readonly Drawn[] {
  const of = (kind: string, state: string) =>
    readings.find(({ key }) => key.kind === kind && stateOf(key) === state) ?? null;
  return readings.flatMap((out) => {
    if (out.key.kind !== 'alt_amps') return [];
    const state = stateOf(out.key);
    const [into, volts] = [of('batt_amps', state), of('batt_volts', state)];
    if (!into || !volts || volts.value < 10) return [];
    const scale = LOAD_VOLTS / volts.value;
    return [
      {
        state: out.key.state,
        amps: scale * (out.value - into.value),
        variance: scale ** 2 * (out.sigma ** 2 + into.sigma ** 2),
        seen: out.seen,
      },
    ];
  });
}

/** The first two states that differ in one word alone. */
function pairOf(
  drawn: readonly Drawn[],
  word: string,
  on: string,
  off: string,
): readonly (readonly [Drawn, Drawn])[] {
  const rest = ({ state }: Drawn) => JSON.stringify({ ...state, [word]: '' }, Object.keys(state).sort());
  for (const one of drawn.filter(({ state }) => state[word] === on)) {
    const other = drawn.find((two) => two.state[word] === off && rest(two) === rest(one));
    if (other) return [[one, other]];
  }
  return [];
}

function proposedOf(
  load: Load,
  label: string,
  on: Drawn,
  off: Drawn | null,
  besides: number,
): readonly Proposed[] {
  const amps = on.amps - (off?.amps ?? 0) - besides;
  const half = SIGMAS * Math.sqrt(on.variance + (off?.variance ?? 0));
  const span: Span = { low: amps - half, high: amps + half };
  if (span.low < 0 || span.high > MOST || half > WIDEST * amps) return [];
  const how = off
    ? 'the difference of two states of the clamp'
    : 'out of the regulator less into the battery';
  return [
    {
      path: ['charging', 'loads', load],
      label,
      why: `Read after the proof, ${how}, brought to ${LOAD_VOLTS} V${besides > 0 ? '; the tail lamps taken off' : ''}.`,
      text: writeSpan(span, 'A'),
      rpm: null,
      span,
      read: 'load',
      seen: on.seen,
    },
  ];
}
