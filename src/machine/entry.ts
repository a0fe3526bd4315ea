/** The door between this file's texts and room `units`. */
import type { Kind } from '../units/kind.ts';
import { parseRange } from '../units/parse.ts';

/**
 * What a text is read as: a kind of units; `rpm`, a speed of rotation kept in rev/min; or `load`, amps, for which
 * the watts on a label are accepted too.
 */
export type EntryKind =
  | Extract<
      Kind,
      'voltage' | 'current' | 'resistance' | 'charge' | 'length' | 'area' | 'torque' | 'volume' | 'time'
    >
  | 'rpm'
  | 'load';

export type EntryRead =
  | { readonly ok: true; readonly low: number; readonly high: number }
  | { readonly ok: false; readonly why: string };

/** Volts at which loads are stated, V: 13.5, as everywhere in the circuit. Watts on a label become amps at this. */
export const LOAD_VOLTS = 13.5;

/** Reads one quantity or a range; a single figure gives low = high. SI, but rpm for `rpm` and A for `load`. */
export function readAs(text: string, kind: EntryKind): EntryRead {
  if (kind === 'rpm') return scaled(readKind(text, 'rotation'), 60);
  if (kind !== 'load') return readKind(text, kind);
  const amps = readKind(text, 'current');
  if (amps.ok) return amps;
  const watts = scaled(readKind(text, 'power'), 1 / LOAD_VOLTS);
  return watts.ok ? watts : amps;
}

function readKind(text: string, kind: Kind): EntryRead {
  const read = parseRange(text, kind);
  if (!read.ok) return read;
  return { ok: true, low: read.value.low.si, high: read.value.high.si };
}

function scaled(read: EntryRead, factor: number): EntryRead {
  if (!read.ok) return read;
  // Nine digits are more than any figure has, and 3000 rpm stays 3000 on its way through rev/s.
  const scale = (value: number) => Number((value * factor).toPrecision(9));
  return { ok: true, low: scale(read.low), high: scale(read.high) };
}
