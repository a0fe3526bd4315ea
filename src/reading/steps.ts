/** How each reading is taken, in the mechanic's words. Common practice; the bike's own book comes first. */
import type { Kind } from './kinds.ts';

export const RUN_CAUTION =
  'Engine running: bike secured upright, outdoors or with the exhaust led out (carbon monoxide), hands and leads clear of chain, belt and hot pipes.';

export const BATTERY_CAUTION = 'Battery gas burns: no flame or spark near it; acid off skin and eyes.';

export const SHOCK_CAUTION = 'Up to 90 V AC at the pins: hold the tips by the plastic, touch no pin.';

export const STEPS: Readonly<Record<string, readonly string[]>> = {
  rest_volts: [
    BATTERY_CAUTION,
    'Key off, at least an hour after the last charge or ride.',
    'Meter on DC volts: red on the + post, black on the − post, on the lead itself, not the clamp.',
  ],
  keyon_volts: ['Key on, engine off.', 'DC volts on the battery posts after ten seconds.'],
  load_test_volts: [
    BATTERY_CAUTION,
    'Load tester at half the cold-cranking amps on the label, fifteen seconds.',
    'Read the volts at the end, under load.',
  ],
  crank_volts: [
    'Spark plugs grounded or ignition cut so that it does not start; gearbox in neutral.',
    'DC volts at the posts (or at the clamps), crank three seconds, take the steady figure.',
  ],
  keyoff_mA: [
    BATTERY_CAUTION,
    'Key off, everything off, wait for clocks and alarms to sleep.',
    'Meter on 10 A, then mA, in series with the − lead: loosen the − clamp only with the meter bridging it.',
    'Never turn the key with the meter in series.',
  ],
  capacity_minutes: [
    BATTERY_CAUTION,
    'Battery charged and rested; low beam on, engine off; time until the posts show 11.5 V.',
    'Stop at 11.5 V: deeper harms the battery.',
  ],
  sg: [
    'Acid: goggles and gloves.',
    'Float the hydrometer in the cell, read at eye level. Cell 1 is at the + post.',
  ],
  drop_term_pos: [
    'DC volts: red on the + post itself, black on its clamp.',
    'Crank three seconds (engine prevented from starting), or key on with lights.',
  ],
  drop_term_neg: [
    'DC volts: red on the − clamp, black on the − post itself.',
    'Crank three seconds (engine prevented from starting), or key on with lights.',
  ],
  batt_volts: [
    'DC volts on the battery posts.',
    'Hold the speed steady, read when the figure has stood still for five seconds.',
  ],
  reg_volts: [
    'DC volts at the regulator: red back-probed on its + lead, black on its own ground or body.',
    'Hold the speed steady.',
  ],
  drop_pos: ['DC volts: red on the regulator + lead, black on the battery + post.', 'Hold the speed steady.'],
  drop_neg: [
    'DC volts: red on the battery − post, black on the regulator ground. Some meters show it with a minus.',
    'Hold the speed steady.',
  ],
  drop_breaker: [
    'DC volts from one side of the main breaker or fuse to the other.',
    'Hold the speed steady.',
  ],
  drop_dcplug: [
    'DC volts across the joint in the regulator’s output lead, back-probed on both sides.',
    'Hold the speed steady.',
  ],
  drop_sense: [
    'DC volts from the battery + side of the sense wire to its end at the regulator.',
    'Hold the speed steady.',
  ],
  plug_drop_ac: [
    'AC volts across one mated pin of the stator plug, back-probed on both sides.',
    'Hold the speed steady. A burnt plug is hot: do not grip it.',
  ],
  ripple: ['AC volts on the battery posts.', 'Hold the speed steady.'],
  batt_amps: [
    'DC clamp, zeroed, around one battery cable with every wire of that post inside it, arrow to the + post.',
    'Charging reads plus.',
  ],
  alt_amps: ['DC clamp, zeroed, around the regulator’s output lead.'],
  phase_amps: ['AC clamp (true rms) around one stator lead.'],
  stator_ac: [
    'Unplug the stator from the regulator with the engine off.',
    SHOCK_CAUTION,
    'AC volts between two pins on the stator side.',
    'Hold the speed steady.',
  ],
  pin_case_ac: [
    'Unplug the stator with the engine off.',
    SHOCK_CAUTION,
    'AC volts from the pin to clean metal of the engine case.',
    'With a 220 Ω resistor across the meter a stray reading falls away.',
  ],
  ohms_pair: [
    'Engine off, stator unplugged.',
    'Lowest ohms range between two pins; touch the leads together first and note what they show.',
  ],
  mv_pair: [
    'Engine off, stator unplugged.',
    'Send 1 A from a current-limited supply through two pins, read millivolts at the pins, inside the supply’s clips.',
  ],
  ohms_case: ['Engine off, stator unplugged.', 'Ohms from the pin to clean metal of the case. Sound is OL.'],
  diode: ['Engine off, regulator unplugged.', 'Diode range: red and black as said; read volts or OL.'],
  visual: ['Look, and smell, before touching. Let a hot plug cool.'],
};

/** How to take a reading, step by step, cautions first. Throws RangeError for a kind that has no steps. */
export function howTo({ id, engine }: Pick<Kind, 'id' | 'engine'>): readonly string[] {
  const steps = STEPS[id];
  if (!steps) throw new RangeError(`reading kind "${id}" has no steps`);
  return engine === 'running' ? [RUN_CAUTION, ...steps] : steps;
}
