/**
 * How meters and hands scatter: one standard deviation, in the reading's unit. DC ±(0.5 % + 1–3 digits), 200 Ω
 * range ±(0.8 % + 3 digits) as cheap meters print; AC and clamp ranges are rougher (from memory); model scatter of
 * a chopping regulator is in the ripple and phase figures.
 */
import type { ReadingKey } from './key.ts';

/** [floor in the unit, share of the value] */
const SCATTER: Readonly<Record<string, readonly [number, number]>> = {
  rest_volts: [0.025, 0.001],
  keyon_volts: [0.05, 0.002],
  load_test_volts: [0.08, 0.008],
  crank_volts: [0.05, 0.004],
  keyoff_mA: [0.3, 0.03],
  capacity_minutes: [2, 0.06],
  sg: [0.006, 0],
  drop_term_pos: [0.002, 0.03],
  drop_term_neg: [0.002, 0.03],
  batt_volts: [0.03, 0.003],
  reg_volts: [0.05, 0.006],
  drop_pos: [0.008, 0.02],
  drop_neg: [0.01, 0.03],
  drop_breaker: [0.004, 0.02],
  drop_dcplug: [0.004, 0.02],
  drop_sense: [0.002, 0.02],
  plug_drop_ac: [0.2, 0.06],
  ripple: [0.03, 0.12],
  batt_amps: [0.35, 0.025],
  alt_amps: [0.35, 0.025],
  phase_amps: [0.3, 0.035],
  stator_ac: [0.35, 0.008],
  pin_case_ac: [0.3, 0.03],
  ohms_pair: [0.11, 0.01],
  mv_pair: [0.8, 0.005],
  ohms_case: [0.12, 0.01],
  diode: [0.007, 0.015],
};

/** Scatter of a reading about what a perfect meter would show (one standard deviation), in the kind's unit. */
export function meterScatter(key: ReadingKey, value: number): number {
  const row = SCATTER[key.kind];
  if (!row) return 1;
  return row[0] + row[1] * Math.abs(value);
}
