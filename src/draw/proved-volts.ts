/** Battery volts over engine speed before and after a repair, beside the band that the repaired bike should show. */
import type { Reading } from '../job/readings-fold.ts';
import { checkKey, completeKey } from '../reading/catalogue.ts';
import { type Curve, drawCurves } from './curves.ts';
import type { SvgNode } from './svg.ts';

export interface ProvedVolts {
  readonly before: readonly Reading[];
  readonly after: readonly Reading[];
  /** [rpm, low V, high V] in order of rpm; may be empty while it is not known. */
  readonly band: readonly (readonly [rpm: number, low: number, high: number])[];
  readonly shape: 'wide' | 'narrow';
}

/** Where an engine of this kind idles, rpm: readings name the state, not the speed. */
const IDLE = 1030;

/** Battery volts with the low beam on, cold, by rpm; readings in other states would not lie on one line. */
function line(name: string, readings: readonly Reading[]): Curve | null {
  const points = new Map<number, number>();
  for (const { key: text, value } of readings) {
    const checked = checkKey(text);
    if (!checked.ok || checked.key.kind !== 'batt_volts' || typeof value !== 'number') continue;
    const { rpm, lights, temp, wiggle } = completeKey(checked.key).state;
    if (lights !== 'low' || temp !== 'cold' || wiggle === 'True') continue;
    points.set(rpm === 'idle' ? IDLE : Number(rpm), value);
  }
  if (points.size === 0) return null;
  return { name, points: [...points].sort((a, b) => a[0] - b[0]) };
}

/** The chart; null where nothing was read that could be drawn. */
export function provedVolts({ before, after, band, shape }: ProvedVolts): SvgNode | null {
  const curves = [line('before', before), line('after', after)].filter((curve) => curve !== null);
  if (curves.length === 0) return null;
  return drawCurves({
    title: 'Battery volts over engine speed, low beam on, before and after the repair',
    x: { label: 'engine speed', unit: 'rpm', min: 500, max: 5500 },
    y: { label: 'battery', unit: 'V' },
    curves,
    bands: band.length > 1 ? [{ name: 'should be', points: band }] : [],
    shape,
  });
}
