/** The operating point on the road: alternator, loads and a battery in a given state of charge, at one engine speed. */
import { type Alternator, rowAmps } from './alternator-output.ts';
import { ampsAt, type BatteryAmps, type BatteryLine, type RideBattery } from './charge-state.ts';

export interface RidePoint {
  volts: number;
  alternatorAmps: number;
  /** Into the battery's plates and into gas, A. */
  plates: number;
  gas: number;
  regulating: boolean;
}

const into: BatteryAmps = { plates: 0, gas: 0 };

/**
 * Finds the point and writes it into `point`. What the alternator gives falls with the volts, what loads and battery take
 * rises, so that there is one crossing. It is bracketed and then cut by straight lines, which is exact within a piece of
 * the table; Newton alone jumped over the battery's kinks.
 */
export function ridePoint(
  alternator: Alternator,
  row: Float64Array,
  battery: RideBattery,
  line: BatteryLine,
  siemens: number,
  point: RidePoint,
): void {
  point.regulating = false;
  if (row[0] === 0) {
    // Nothing comes from the alternator: battery and loads alone.
    const ohm = line.ohm + line.dischargeOhm;
    point.volts = line.restVolts / (1 + siemens * ohm);
    point.alternatorAmps = 0;
    point.plates = -siemens * point.volts;
    point.gas = 0;
    return;
  }
  const taken = (volts: number): number => {
    ampsAt(battery, line, volts, into);
    return siemens * volts + into.plates + into.gas;
  };
  let volts = crossing((v) => rowAmps(row, v) - taken(v));
  if (volts + alternator.tripOhm * rowAmps(row, volts) > alternator.tripVolts) {
    point.regulating = true;
    const { tripVolts, tripOhm } = alternator;
    volts = tripOhm === 0 ? tripVolts : crossing((v) => (tripVolts - v) / tripOhm - taken(v));
  }
  point.volts = volts;
  // The books must close: what the alternator gives is what is taken.
  point.alternatorAmps = taken(volts);
  point.plates = into.plates;
  point.gas = into.gas;
}

/** Volts where a falling function is nought, V. */
function crossing(left: (volts: number) => number): number {
  // From nearly nothing: a load that no bike could carry drags the battery far down.
  let [low, high] = [0.2, 17];
  let [atLow, atHigh] = [left(low), left(high)];
  // A table that ends before the crossing: the end is as near as it gets.
  if (atLow <= 0) return low;
  if (atHigh >= 0) return high;
  // Regula falsi with the Illinois halving; the crossing is a kinked line, so it lands within a dozen steps.
  let side = 0;
  for (let step = 0; step < 80; step++) {
    const middle = (low * atHigh - high * atLow) / (atHigh - atLow);
    const at = left(middle);
    if (Math.abs(at) < 1e-11 || high - low < 1e-13) return middle;
    if (at > 0) {
      [low, atLow] = [middle, at];
      if (side === 1) atHigh /= 2;
      side = 1;
    } else {
      [high, atHigh] = [middle, at];
      if (side === -1) atLow /= 2;
      side = -1;
    }
  }
  return (low + high) / 2;
}
