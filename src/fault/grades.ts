/** How bad a fault can be: the range of each severity and its unit. Ranges are guesses from common practice. */
import type { FaultId } from './catalogue.ts';

export interface Grade {
  readonly unit: 'Ω' | 'A' | 'V' | '1';
  readonly mild: number;
  readonly bad: number;
  /** Whether the range is walked in ratios. */
  readonly ratio: boolean;
}

export const GRADES: Partial<Readonly<Record<FaultId, Grade>>> = {
  'battery-flat': { unit: '1', mild: 0.45, bad: 0.05, ratio: false },
  'battery-sulphated': { unit: '1', mild: 2.6, bad: 10, ratio: true },
  'battery-worn': { unit: '1', mild: 0.7, bad: 0.2, ratio: false },
  'positive-post-joint': { unit: 'Ω', mild: 0.015, bad: 0.4, ratio: true },
  'negative-post-joint': { unit: 'Ω', mild: 0.015, bad: 0.4, ratio: true },
  'output-joint': { unit: 'Ω', mild: 0.05, bad: 0.6, ratio: true },
  'ground-joint': { unit: 'Ω', mild: 0.04, bad: 0.4, ratio: true },
  'breaker-joint': { unit: 'Ω', mild: 0.03, bad: 0.4, ratio: true },
  'plug-pin': { unit: 'Ω', mild: 0.1, bad: 2, ratio: true },
  'plug-pins': { unit: 'Ω', mild: 0.1, bad: 2, ratio: true },
  'stator-core-terminal': { unit: 'Ω', mild: 2, bad: 0.02, ratio: true },
  'stator-core-midway': { unit: 'Ω', mild: 2, bad: 0.02, ratio: true },
  'stator-hot-short': { unit: 'Ω', mild: 2, bad: 0.02, ratio: true },
  'stator-shorted-turns': { unit: '1', mild: 0.08, bad: 0.6, ratio: false },
  'rotor-weak': { unit: '1', mild: 0.87, bad: 0.45, ratio: false },
  'regulator-set-low': { unit: 'V', mild: 0.5, bad: 2.3, ratio: false },
  'sense-drop': { unit: 'V', mild: 0.35, bad: 2.4, ratio: false },
  drain: { unit: 'A', mild: 0.02, bad: 0.35, ratio: true },
  overload: { unit: 'A', mild: 8, bad: 22, ratio: false },
  'thin-wire': { unit: 'Ω', mild: 0.03, bad: 0.12, ratio: true },
};

/** A fault's figure at a severity 0 (mild) to 1 (bad), in the grade's unit. */
export function grade(id: FaultId, severity: number): number {
  const g = GRADES[id];
  if (!g) throw new RangeError(`fault "${id}" has no severity`);
  const share = Math.min(Math.max(severity, 0), 1);
  return g.ratio ? g.mild * (g.bad / g.mild) ** share : g.mild + (g.bad - g.mild) * share;
}
