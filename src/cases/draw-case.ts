/** Draws whole practice cases: a bike with all its readings and its truth, in the exchange format. */
import type { FaultId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { completeKey, KINDS } from '../reading/catalogue.ts';
import { readKey, type Value } from '../reading/key.ts';
import { meterScatter } from '../reading/noise.ts';
import { offeredKeys } from '../reading/offers.ts';
import { ownersWords } from './draw-faults.ts';
import { hashText, openNamed, pick } from './draw-stream.ts';
import { type DrawnBike, type DrawOptions, drawBike } from './drawn-bike.ts';
import { faultName, repairName } from './exchange.ts';
import type { PracticeCase } from './player.ts';

/** Share of cases in which a reading is taken wrongly, as in the open cases, 1. */
const SLIPS = 1 / 3;
const HOW = ['x10', '/10', 'mode', 'contact', 'reversed'] as const;
/** A fault that moves no reading by more than this many deviations of the meter cannot be asked for, 1. */
const SHOWS = 2;
/** A bike may come in with this little charge and nothing wrong, 0–1: see the wear that the verdict believes. */
const LEAST_CHARGE = 0.15;

/** Case `index` of the series `seed`: the same for the same two numbers. */
export function drawCase(seed: number, index: number, options: DrawOptions = {}): PracticeCase {
  const bike = drawBike(hashText(`${seed} case ${index}`), options);
  if (bike.plate === null) throw new RangeError('a drawn case needs its own book; leave spec out of options');
  const keys = offeredKeys({
    phases: bike.spec.alternator.phases,
    senses: bike.spec.regulator.senses,
    flooded: bike.spec.battery.chemistry === 'flooded',
  });
  const readings: Record<string, readonly [Value, number]> = {};
  for (const key of keys) readings[key] = [bike.read(key), KINDS[readKey(key)!.kind]!.minutes];
  const ids = bike.faults.map((fault) => fault.id);
  const masked = ids.filter((id) => isMasked(bike, id, keys));
  const repairs = new Set(ids.map((id) => FAULTS[id].repair));
  return {
    id: `drawn-${seed}-${index}`,
    nameplate: bike.plate,
    complaint: { tags: bike.symptoms, text: ownersWords(bike.symptoms) },
    readings,
    truth: {
      faults: ids.map(faultName),
      detail: bike.faults,
      repairs: [...repairs].map(repairName).sort(),
      masked: masked.map(faultName),
      slip: drawSlip(bike.seed),
    },
  };
}

/** Whether no reading of this bike would be another without the fault. Things seen do not count: they prove nothing. */
function isMasked(bike: DrawnBike, id: FaultId, keys: readonly string[]): boolean {
  // Any bike may have stood with its lights on: a battery no flatter than that is no finding.
  if (id === 'battery-flat') return bike.built.condition.charge > LEAST_CHARGE;
  return keys.every((text) => {
    const key = completeKey(readKey(text)!);
    if (key.kind === 'visual') return true;
    const [is, would] = [bike.truly(text), bike.truly(text, id)];
    if (Number.isNaN(is) || Number.isNaN(would)) return Number.isNaN(is) === Number.isNaN(would);
    return Math.abs(is - would) <= SHOWS * meterScatter(key, is);
  });
}

/** The reading that drawn bike `seed` has read wrongly, and how; null for two in three. */
export function drawSlip(seed: number): readonly [number, string] | null {
  const stream = openNamed(seed, 'slip');
  if (stream() >= SLIPS) return null;
  return [2 + Math.floor(5 * stream()), pick(stream, HOW)];
}
