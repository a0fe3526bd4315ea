/** What is lost when a value is noted: the meter’s last digit, and the digit that people leave out. */

/** Last digit of a cheap meter, in the kind's unit (from memory); a hundredth where the kind is not named. */
const DIGIT: Readonly<Record<string, number>> = {
  keyoff_mA: 0.1,
  capacity_minutes: 1,
  sg: 0.005,
  drop_term_pos: 0.001,
  drop_term_neg: 0.001,
  drop_pos: 0.001,
  drop_neg: 0.001,
  drop_breaker: 0.001,
  drop_dcplug: 0.001,
  drop_sense: 0.001,
  plug_drop_ac: 0.1,
  batt_amps: 0.1,
  alt_amps: 0.1,
  phase_amps: 0.1,
  stator_ac: 0.1,
  pin_case_ac: 0.1,
  ohms_pair: 0.1,
  ohms_case: 0.1,
  mv_pair: 0.1,
  diode: 0.001,
};
/** A value with no digit that a cheap meter would not show for its kind, in the kind's unit. */
export function toLastDigit(kind: string, value: number): number {
  const digit = DIGIT[kind] ?? 0.01;
  return Number((Math.round(value / digit) * digit).toPrecision(12));
}
/** Kinds that people often note a digit short: volts to a tenth, drops to a hundredth, minutes to ten. */
const SHORTENED: ReadonlySet<string> = new Set([
  ...['rest_volts', 'keyon_volts', 'load_test_volts', 'crank_volts', 'batt_volts', 'reg_volts', 'ripple'],
  ...['drop_pos', 'drop_neg', 'drop_breaker', 'drop_dcplug', 'drop_sense', 'drop_term_pos', 'drop_term_neg'],
  ...['keyoff_mA', 'capacity_minutes', 'diode', 'mv_pair'],
]);

/**
 * Rounding of a noted value, one standard deviation of an even spread over its last digit, in the kind's unit. "12.8"
 * noted where the meter shows hundredths is a value between 12.75 and 12.85: one true 12.80 in ten is believed less
 * than it could be, and none is believed more.
 */
export function roundingScatter(kind: string, noted: number): number {
  const digit = DIGIT[kind] ?? 0.01;
  const tens = Math.round(noted / (10 * digit)) * 10 * digit;
  const short = SHORTENED.has(kind) && noted !== 0 && Math.abs(noted - tens) < 1e-6 * digit;
  return ((short ? 10 : 1) * digit) / Math.sqrt(12);
}
