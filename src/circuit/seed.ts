/** First guesses from which the stepper settles in few cycles. None of them reaches an answer. */
import type { Bike } from './bike.ts';
import { batteryAmps, type DcSide, innerVolts, slowOhm } from './network.ts';

/** Inner volts of the battery near the steady state, V: bisection between a lossless alternator and the set point. */
export function seedInner(bike: Bike, side: DcSide, emf: number, reactance: number): number {
  if (bike.gate === 'dead') return innerAt(bike, side, 0);
  const three = bike.phases === 3;
  let low = 0;
  let high = 100;
  for (let n = 0; n < 11; n++) {
    const amps = (low + high) / 2;
    const inner = innerAt(bike, side, amps);
    const volts = inner * side.sourceShare + (side.ohm + side.groundOhm) * amps;
    const v1 = ((three ? 2 : 4) / Math.PI) * (volts + 2 * bike.diodeVolts);
    const room = emf * emf - v1 * v1;
    const able = room > 0 ? ((three ? 3 : 2) / Math.PI) * (Math.sqrt(room) / reactance) : 0;
    const sensed =
      bike.senses === 'wire'
        ? inner + bike.batteryOhm * batteryAmps(side, amps, inner) - bike.senseLossVolts
        : volts;
    if (amps > able || sensed > bike.setVolts - 0.1) high = amps;
    else low = amps;
  }
  return innerAt(bike, side, (low + high) / 2);
}

/** Inner volts that fit an alternator current, V: a fixed point of the battery's line and the load's share. */
function innerAt(bike: Bike, side: DcSide, amps: number): number {
  let inner = bike.restVolts;
  for (let n = 0; n < 6; n++) {
    const ib = batteryAmps(side, amps, inner);
    const aim = innerVolts(bike, ib);
    const step = (aim - inner) / (1 + slowOhm(bike, aim) * side.siemensShare);
    inner += step;
    if (Math.abs(step) < 5e-3) break;
  }
  return inner;
}

/** Phase currents of the fundamental approximation at time 0, A: a starting phase only, never an answer. */
export function seedPhase(
  amps: Float64Array,
  three: boolean,
  emf: number,
  ohm: number,
  reactance: number,
  volts: number,
): void {
  const v1 = ((three ? 2 : 4) / Math.PI) * volts;
  const z2 = ohm * ohm + reactance * reactance;
  const under = v1 * v1 * ohm * ohm + z2 * (emf * emf - v1 * v1);
  const peak = under > 0 ? Math.max(0, (-v1 * ohm + Math.sqrt(under)) / z2) : 0;
  const angle = peak > 0 ? Math.atan2(reactance, ohm + v1 / peak) : 0;
  if (three) for (let k = 0; k < 3; k++) amps[k] = peak * Math.sin(-angle - (2 * Math.PI * k) / 3);
  else {
    amps[0] = peak * Math.sin(-angle);
    amps[1] = -amps[0]!;
  }
}
