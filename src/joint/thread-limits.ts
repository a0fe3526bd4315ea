/**
 * Limits of size by the formulas of the standards: class 2A external and 2B internal (ASME B1.1), 6g and 6H (ISO
 * 965-1). The formulas are from memory; the reference tests hold them against published tables. ISO rounds its
 * tolerances to preferred numbers, which is left out here: up to 9 µm on a diameter.
 */
import { INCH, minorDiameter, pitchDiameter, type Thread } from './thread.ts';

export interface ThreadLimits {
  readonly fit: '2A/2B' | '6g/6H';
  /** Allowance es, m: what the largest external thread is under basic size. */
  readonly allowance: number;
  /** Largest major diameter of the external thread, m. */
  readonly majorMaxExternal: number;
  /** Dsmin, smallest major diameter of the external thread, m. */
  readonly majorMinExternal: number;
  /** Largest pitch diameter of the external thread, m. */
  readonly pitchMaxExternal: number;
  /** Esmin, smallest pitch diameter of the external thread, m. */
  readonly pitchMinExternal: number;
  /** Smallest pitch diameter of the internal thread, m. */
  readonly pitchMinInternal: number;
  /** Enmax, largest pitch diameter of the internal thread, m. */
  readonly pitchMaxInternal: number;
  /** Smallest minor diameter of the internal thread, m. */
  readonly minorMinInternal: number;
  /** Knmax, largest minor diameter of the internal thread, m. */
  readonly minorMaxInternal: number;
}

interface Tolerances {
  readonly fit: ThreadLimits['fit'];
  readonly allowance: number;
  readonly major: number;
  readonly pitchExternal: number;
  readonly pitchInternal: number;
  readonly minorInternal: number;
}

/** ASME B1.1, section 5 and 8; lengths in inches inside. */
function unified(thread: Thread): Tolerances {
  const d = thread.diameter / INCH;
  const p = thread.pitch / INCH;
  // Length of engagement for which the tolerance holds: one diameter for the coarse and fine series (1-14 is made to
  // those too), nine pitches for the others.
  const usual = thread.series === 'UNC' || thread.series === 'UNF' || thread.series === 'UNS';
  const engagement = usual ? d : 9 * p;
  const twoA = 0.0015 * Math.cbrt(d) + 0.0015 * Math.sqrt(engagement) + 0.015 * Math.cbrt(p) ** 2;
  const small = 0.05 * Math.cbrt(p) ** 2 + (0.03 * p) / d - 0.002;
  const coarse = 0.25 * p - 0.4 * p ** 2;
  const minor =
    d < 0.25 - 1e-9 ? Math.min(Math.max(small, coarse), 0.394 * p) : p > 0.2501 ? 0.15 * p : coarse;
  return {
    fit: '2A/2B',
    allowance: 0.3 * twoA * INCH,
    major: 0.06 * Math.cbrt(p) ** 2 * INCH,
    pitchExternal: twoA * INCH,
    pitchInternal: 1.3 * twoA * INCH,
    minorInternal: minor * INCH,
  };
}

/** Diameter ranges of ISO 965-1, mm; tolerances use the geometric mean of the range a diameter falls in. */
const RANGES = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45, 90, 180] as const;

/** ISO 965-1, clause 13, tolerance grade 6; millimetres and micrometres inside. */
function metric(thread: Thread): Tolerances {
  const p = thread.pitch * 1e3;
  const d = thread.diameter * 1e3;
  const above = RANGES.findIndex((end) => d <= end);
  const mean = Math.sqrt(RANGES[above - 1]! * RANGES[above]!);
  const pitch = 90 * p ** 0.4 * mean ** 0.1;
  const µm = 1e-6;
  return {
    fit: '6g/6H',
    allowance: (15 + 11 * p) * µm,
    major: (180 * Math.cbrt(p) ** 2 - 3.15 / Math.sqrt(p)) * µm,
    pitchExternal: pitch * µm,
    pitchInternal: 1.32 * pitch * µm,
    minorInternal: (p < 1 ? 433 * p - 190 * p ** 1.22 : 230 * p ** 0.7) * µm,
  };
}

/** A class 2B minor diameter as the tables of ASME B1.1 print it: to four places, then three from #6 upwards. */
function printedMinor(metres: number, diameter: number): number {
  const four = Math.round((metres / INCH) * 1e4);
  return (diameter / INCH < 0.1379 ? four / 1e4 : Math.round(four / 10) / 1e3) * INCH;
}

/** Limits of size of a thread in the usual fit of its system: 2A/2B for inch, 6g/6H for metric. */
export function threadLimits(thread: Thread): ThreadLimits {
  const inch = thread.system === 'inch';
  const t = inch ? unified(thread) : metric(thread);
  const d2 = pitchDiameter(thread);
  const d1 = minorDiameter(thread);
  const minorMax = d1 + t.minorInternal;
  return {
    fit: t.fit,
    allowance: t.allowance,
    majorMaxExternal: thread.diameter - t.allowance,
    majorMinExternal: thread.diameter - t.allowance - t.major,
    pitchMaxExternal: d2 - t.allowance,
    pitchMinExternal: d2 - t.allowance - t.pitchExternal,
    pitchMinInternal: d2,
    pitchMaxInternal: d2 + t.pitchInternal,
    minorMinInternal: inch ? printedMinor(d1, thread.diameter) : d1,
    minorMaxInternal: inch ? printedMinor(minorMax, thread.diameter) : minorMax,
  };
}
