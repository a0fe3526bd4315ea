/** The operating point as it is shown to a person: one call, fine steps. */
import type { Bike, OperatingPoint, RunState } from './bike.ts';
import { FINE, stepPoint, type Waveform } from './stepper.ts';

/** What every meter would show on this circuit in this state. */
export function solvePoint(bike: Bike, state: RunState): OperatingPoint {
  return stepPoint(bike, state, FINE);
}

/** The same with the waveforms of the last cycles. */
export function solveWaveform(bike: Bike, state: RunState): { point: OperatingPoint; wave: Waveform } {
  const wave: Waveform = { time: [], phaseAmps: [[], [], []], regulatorVolts: [], batteryVolts: [] };
  return { point: stepPoint(bike, state, FINE, wave), wave };
}

/** A cold engine at a speed, rpm, with low beam and the owner's accessories on: the usual state. */
export function coldState(rpm: number, lights: RunState['lights'] = 'low'): RunState {
  return { rpm, lights, windingCelsius: 25, magnet: 1, accessories: true };
}

/** The same with a hot winding (110 °C) and magnets 6 % weaker (common practice, no source). */
export function hotState(rpm: number, lights: RunState['lights'] = 'low'): RunState {
  return { rpm, lights, windingCelsius: 110, magnet: 0.94, accessories: true };
}
