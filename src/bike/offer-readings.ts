/**
 * Readings of the bike after its proof, offered as figures of its charging circuit: it is known to be sound then, so what it
 * shows is what it should show. Each becomes a range as wide as meter and hand leave it; what a cheap meter cannot tell
 * from nothing is not offered at all.
 */
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import type { EntryKind } from '../machine/entry.ts';
import type { Json, Path } from '../machine/json-value.ts';
import { USUAL } from '../reading/show.ts';
import { agree, readSpan, SIGMAS, type Span, spanOf, speedOf, writeSpan } from './honest-range.ts';
import { figureOffer, type Offer, saidAt } from './offer.ts';
import { offeredJoints } from './offer-joints.ts';
import { offeredLoads } from './offer-loads.ts';
import { type SoundReading, soundReadings } from './sound-readings.ts';

/** A set point moves with the heat of the regulator by about this, V, one standard deviation: from memory. */
const SET_POINT_DRIFTS = 0.1;
/** Copper in a garage of 15 to 35 °C against the 25 °C of the figure, share, one standard deviation: 0.39 % a kelvin. */
const COPPER = 0.02;
/** A range wider than this share of its middle, to each side, says too little to be kept, 1. */
const WIDEST = 0.3;

/** What would be offered, before it is held against the file. */
export interface Proposed {
  readonly path: Path;
  readonly label: string;
  readonly why: string;
  readonly text: string;
  /** Engine speed at which it holds, rpm; null for a figure without one. */
  readonly rpm: number | null;
  /** In the unit in which the file is read. */
  readonly span: Span;
  readonly read: EntryKind;
  readonly seen: { readonly job: string; readonly at: string };
}

export function offeredReadings(jobs: readonly JobState[], machine: Machine, file: Json): readonly Offer[] {
  const newest = new Map<string, Proposed>();
  for (const state of jobs) {
    const readings = soundReadings(state, machine);
    if (readings.length === 0) continue;
    for (const one of [
      openVolts(readings, machine),
      pairOhms(readings),
      chargeVolts(readings),
      drain(readings),
      ...offeredJoints(readings, machine),
      ...offeredLoads(readings, machine),
    ]) {
      if (one === null) continue;
      const name = JSON.stringify(one.path);
      if ((newest.get(name)?.seen.at ?? '') <= one.seen.at) newest.set(name, one);
    }
  }
  return [...newest.values()].flatMap((one) => (isKnown(file, one) ? [] : [offerOf(file, one)]));
}

function offerOf(file: Json, { path, label, why, text, rpm, seen }: Proposed): Offer {
  const is = rpm === null ? { is: text } : { is: text, at: `${rpm} rpm` };
  return figureOffer(file, { kind: 'reading', path, label, why }, is, seen);
}

/** Whether something measured in the file says the same already; open volts are held against each other by the turn. */
function isKnown(file: Json, { path, rpm, span, read }: Proposed): boolean {
  return saidAt(file, path).some(({ said, source }) => {
    const stands = source === 'measured' ? readSpan(said, read) : null;
    if (stands === null) return false;
    const speed = rpm === null ? null : speedOf(said.at);
    const turn = rpm !== null && speed !== null ? rpm / speed : 1;
    return agree({ low: stands.low * turn, high: stands.high * turn }, span);
  });
}

/** Latest of several readings. */
export function latest(readings: readonly SoundReading[]): SoundReading['seen'] {
  return readings
    .map(({ seen }) => seen)
    .toSorted((a, b) => a.at.localeCompare(b.at))
    .at(-1)!;
}

/** What a reading leaves open to each side. */
export function openSpan({ value, sigma }: Pick<SoundReading, 'value' | 'sigma'>): Span {
  return { low: value - SIGMAS * sigma, high: value + SIGMAS * sigma };
}

/** Whether a range lies within what the file takes and says something. */
export function tells({ low, high }: Span, least: number, most: number, widest = WIDEST): boolean {
  return low >= least && high <= most && (high - low) / 2 <= (widest * (high + low)) / 2;
}

const values = (readings: readonly SoundReading[], unit: string): string =>
  `${readings.map(({ value }) => String(value)).join(', ')} ${unit}`;

function openVolts(readings: readonly SoundReading[], machine: Machine): Proposed | null {
  const bySpeed = new Map<number, SoundReading[]>();
  for (const one of readings) {
    const rpm = Number(one.key.state.rpm);
    if (one.key.kind !== 'stator_ac' || one.key.state.temp !== 'cold' || !(rpm >= 300)) continue;
    bySpeed.set(rpm, [...(bySpeed.get(rpm) ?? []), one]);
  }
  const { at } = machine.charging.alternator.openVolts;
  const far = (rpm: number) => Math.abs(Math.log(rpm / ((at.low + at.high) / 2)));
  const [best] = [...bySpeed].toSorted(
    ([a, one], [b, other]) => other.length - one.length || far(a) - far(b),
  );
  if (!best) return null;
  const [rpm, taken] = best;
  const span = spanOf(taken.map(openSpan));
  if (!tells(span, 2, 200)) return null;
  return {
    path: ['charging', 'alternator', 'openVolts'],
    label: 'AC volts between two pins, unplugged',
    why: `Read after the proof at ${rpm} rpm, cold: ${values(taken, 'V AC')}; meter and engine speed leave the rest open.`,
    text: writeSpan(span, 'V AC'),
    rpm,
    span,
    read: 'voltage',
    seen: latest(taken),
  };
}

/** With a current sent through the winding the leads drop out; by the ohms range only a high winding can be told. */
function pairOhms(readings: readonly SoundReading[]): Proposed | null {
  const of = (kind: string) =>
    readings.filter(({ key }) => key.kind === kind && key.state.through_plug === 'False');
  const wide = (value: number, sigma: number) =>
    openSpan({ value, sigma: Math.hypot(sigma, COPPER * value) });
  const ways = [
    {
      taken: of('mv_pair'),
      spans: of('mv_pair').map(({ value, sigma }) => wide(value / 1000, sigma / 1000)),
      how: 'with 1 A sent through, in mV',
    },
    {
      taken: of('ohms_pair'),
      spans: of('ohms_pair').map(({ value, sigma }) => wide(value - USUAL.leadOhm, sigma)),
      how: `in Ω, about ${USUAL.leadOhm} Ω of leads taken off`,
    },
  ];
  for (const { taken, spans, how } of ways) {
    if (taken.length === 0) continue;
    const span = spanOf(spans);
    if (!tells(span, 0.02, 10)) continue;
    return {
      path: ['charging', 'alternator', 'pairOhms'],
      label: 'Resistance between two pins',
      why: `Read after the proof ${how}: ${taken.map(({ value }) => String(value)).join(', ')}; a garage of 15 to 35 °C is reckoned with.`,
      text: writeSpan(span, 'Ω'),
      rpm: null,
      span,
      read: 'resistance',
      seen: latest(taken),
    };
  }
  return null;
}

function chargeVolts(readings: readonly SoundReading[]): Proposed | null {
  const taken = readings.filter(
    ({ key }) => key.kind === 'batt_volts' && key.state.rpm === '5000' && key.state.charged === 'True',
  );
  if (taken.length === 0) return null;
  const span = spanOf(
    taken.map(({ value, sigma }) => openSpan({ value, sigma: Math.hypot(sigma, SET_POINT_DRIFTS) })),
  );
  if (!tells(span, 12, 16.5)) return null;
  return {
    path: ['charging', 'regulator', 'chargeVolts'],
    label: 'Battery volts at 5000 rpm, the battery charged',
    why: `Read after the proof: ${values(taken, 'V')}; the set point moves a little with heat.`,
    text: writeSpan(span, 'V'),
    rpm: null,
    span,
    read: 'voltage',
    seen: latest(taken),
  };
}

/** The file has the most that may be drawn: what was read, and what the meter leaves open above it. */
function drain(readings: readonly SoundReading[]): Proposed | null {
  const taken = readings.filter(({ key }) => key.kind === 'keyoff_mA');
  const last = taken.at(-1);
  if (!last || last.value < 0) return null;
  const most = Math.ceil(10 * openSpan(last).high) / 10;
  if (most > 500) return null;
  return {
    path: ['charging', 'restDrain'],
    label: 'Drain with the key off',
    why: `Read after the proof: ${last.value} mA; the meter leaves the rest open.`,
    text: `${most} mA`,
    rpm: null,
    // Another reading of the same bike falls within the meter's own width.
    span: { low: Math.max(0, openSpan(last).low) / 1000, high: most / 1000 },
    read: 'current',
    seen: last.seen,
  };
}
