/** The loop with the meter of one reading: where its tips or its clamp go, with nothing reckoned. */
import { MEMBERS, type Member } from '../fault/catalogue.ts';
import { describeReading } from '../reading/describe.ts';
import type { ReadingKey } from '../reading/key.ts';
import type { ProbePoint } from '../reading/kinds.ts';
import { probesFor } from '../reading/probes.ts';
import { drawLoop, probePointsOf } from './loop.ts';
import type { LoopInput, Probes } from './loop-plan.ts';
import type { SvgNode } from './svg.ts';

const NOTHING = Object.fromEntries(MEMBERS.map((member) => [member, 0])) as Record<Member, number>;

export type LoopBuild = Pick<LoopInput, 'phases' | 'regulator' | 'senses' | 'loadsFedFrom'>;

/** Where the tips go among these places; null for a thing seen, and where this loop has no such place. */
export function readingProbes(key: ReadingKey, places: readonly ProbePoint[], sound: string): Probes | null {
  const tips = probesFor(key);
  const asked = [tips.red, tips.black, tips.around].filter((point) => point !== null);
  if (asked.length === 0 || !asked.every((point) => places.includes(point))) return null;
  // The meter has room for three lines; that it is unplugged stands among the steps.
  return { ...tips, meter: describeReading(key).replace(', unplugged', ''), sound };
}

/** Null where there is nothing to draw. `sound` is what a sound bike shows, in words. */
export function drawReadingLoop(build: LoopBuild, key: ReadingKey, sound: string): SvgNode | null {
  const probes = readingProbes(key, probePointsOf(build), sound);
  if (probes === null) return null;
  return drawLoop({ ...build, suspicion: NOTHING, proven: [], plain: true, shape: 'wide', probes });
}
