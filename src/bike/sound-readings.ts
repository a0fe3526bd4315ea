/** Readings of a bike that was proven sound, each with what meter and hand leave open. */
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { checkKey, completeKey } from '../reading/catalogue.ts';
import type { ReadingKey } from '../reading/key.ts';
import { meterScatter } from '../reading/noise.ts';
import { roundingScatter } from '../reading/rounding.ts';
import type { Seen } from './offer.ts';

export interface SoundReading {
  readonly key: ReadingKey;
  readonly value: number;
  /** One standard deviation of meter, notes and engine speed, in the kind's unit. */
  readonly sigma: number;
  readonly seen: Seen;
}

/** Engine speed is off by so much, rpm, one standard deviation: with a tachometer, and by ear; as the verdict has it. */
const SPEED_OFF = { tachometer: 12, ear: 58 } as const;

/** Readings of the last round of repairs, where it was said to be proven; none of any other job. */
export function soundReadings(state: JobState, machine: Machine): readonly SoundReading[] {
  const { job, proof } = state;
  if (job === null || proof.said?.proven !== true) return [];
  const off = machine.charging.tachometer.is ? SPEED_OFF.tachometer : SPEED_OFF.ear;
  return proof.readings.flatMap(({ key: text, value, at, disputed }) => {
    const checked = checkKey(text);
    if (!checked.ok || typeof value !== 'number' || disputed.length > 0) return [];
    const key = completeKey(checked.key);
    const rpm = Number(key.state.rpm);
    // Open volts go with the speed; what the regulator holds does not.
    const speed = key.kind === 'stator_ac' && rpm > 0 ? (value * off) / rpm : 0;
    const sigma = Math.hypot(meterScatter(key, value), roundingScatter(key.kind, value), speed);
    return [{ key, value, sigma, seen: { job, at } }];
  });
}

/** Engine and switches of a reading, without where the tips were: readings that share it belong together. */
export function stateOf({ state }: ReadingKey): string {
  const { pin: _pin, pair: _pair, ...rest } = state;
  return Object.keys(rest)
    .sort()
    .map((name) => `${name}=${rest[name]}`)
    .join(' ');
}
