/** Sound files in all but their fasteners: batteries, stators, wires, chains, shims and fluids of other bikes. */
import { all, book, put } from './edit.ts';
import { type Sound, sound } from './score.ts';

const f = (rest: string) => `fasteners/${rest}`;
const c = (rest: string) => `charging/${rest}`;

const CIRCUIT: readonly Sound[] = [
  sound(
    'volts and battery',
    'AGM in the twin',
    'ardmoor',
    all(
      put(c('battery/chemistry/is'), 'agm'),
      put(c('battery/capacity/is'), '19 Ah'),
      put(c('battery/crankAmps/is'), '310 A'),
    ),
  ),
  sound(
    'volts and battery',
    'a small AGM',
    'oskerlund',
    all(
      put(c('battery/chemistry/is'), 'agm'),
      put(c('battery/capacity/is'), '8.6 Ah'),
      put(c('battery/crankAmps/is'), '190 A'),
    ),
  ),
  sound(
    'volts and battery',
    'flooded in the four',
    'pemburrow',
    all(
      put(c('battery/chemistry/is'), 'flooded'),
      put(c('battery/capacity/is'), '14 Ah'),
      put(c('battery/crankAmps/is'), '175 A'),
    ),
  ),
  sound(
    'volts and battery',
    'a big battery',
    'ardmoor',
    all(put(c('battery/capacity/is'), '30 Ah'), put(c('battery/crankAmps/is'), '385 A')),
  ),
  sound(
    'volts and battery',
    '14.0 to 15.0 V, flooded',
    'oskerlund',
    put(c('regulator/chargeVolts/is'), '14.0–15.0 V'),
  ),
  sound(
    'volts and battery',
    '13.5 to 14.5 V',
    'oskerlund',
    put(c('regulator/chargeVolts/is'), '13.5–14.5 V'),
  ),
  sound(
    'volts and battery',
    'a narrow range',
    'ardmoor',
    put(c('regulator/chargeVolts/is'), '14.4 V ± 0.2 V'),
  ),
  sound(
    'stator figures',
    'a weaker three-phase',
    'pemburrow',
    all(
      put(c('alternator/openVolts'), { is: '60–75 V', at: '5000 rpm', from: 'book' }),
      put(c('alternator/ratedAmps'), { is: '25 A ± 10 %', at: '5000 rpm', from: 'book' }),
      put(c('alternator/pairOhms/is'), '0.3–0.5 Ω'),
    ),
  ),
  sound(
    'stator figures',
    'an old one of many ohms',
    'oskerlund',
    all(
      put(c('alternator/phases/is'), 3),
      put(c('alternator/pins/is'), 3),
      put(c('alternator/openVolts'), { is: '40–60 V', at: '4000 rpm', from: 'book' }),
      put(c('alternator/ratedAmps'), { is: '14–17 A', at: '5000 rpm', from: 'book' }),
      put(c('alternator/pairOhms/is'), '0.6–0.9 Ω'),
      put(c('loads/ignition/is'), '2.5 A'),
    ),
  ),
  sound(
    'stator figures',
    'a strong one',
    'ardmoor',
    all(
      put(c('alternator/openVolts'), { is: '19–26 V', at: '1000 rpm', from: 'book' }),
      put(c('alternator/ratedAmps'), { is: '45–50 A', at: '3600 rpm', from: 'book' }),
      put(c('alternator/pairOhms/is'), '0.1–0.2 Ω'),
      put(c('fuse/is'), '50 A'),
      put(c('wiring/output/gauge/is'), 'AWG 10'),
      put(c('wiring/ground/gauge/is'), 'AWG 10'),
      put(c('wiring/stator/gauge/is'), 'AWG 12'),
    ),
  ),
  sound('stator figures', 'poles not known', 'pemburrow', put(c('alternator/poles'), undefined)),
  sound('stator figures', 'six poles', 'ardmoor', put(c('alternator/poles/is'), 6)),
  sound('stator figures', 'twenty-four poles', 'pemburrow', put(c('alternator/poles/is'), 24)),
  sound('wire and joints', 'no wiring told', 'ardmoor', put(c('wiring'), undefined)),
  sound(
    'wire and joints',
    'thicker and longer',
    'ardmoor',
    all(put(c('wiring/output/gauge/is'), 'AWG 10'), put(c('wiring/output/length/is'), '1.4 m')),
  ),
  sound(
    'wire and joints',
    '2.5 mm² on a single',
    'oskerlund',
    all(
      put(c('wiring/output/gauge/is'), '2.5 mm²'),
      put(c('wiring/stator/gauge/is'), '1.5 mm²'),
      put(c('wiring/stator/length/is'), '60 cm'),
    ),
  ),
  sound(
    'wire and joints',
    'a worn joint, still sound',
    'pemburrow',
    put(c('wiring/output/joints/0/ohms/is'), '8 mΩ'),
  ),
  sound('fuse and loads', 'a 30 A fuse on 34 A', 'ardmoor', put(c('fuse/is'), '30 A')),
  sound('fuse and loads', 'a 20 A fuse on 23 A', 'oskerlund', put(c('fuse/is'), '20 A')),
  sound('fuse and loads', 'a 50 A breaker', 'oskerlund', put(c('fuse/is'), '50 A')),
  sound(
    'fuse and loads',
    'lamps of diodes',
    'pemburrow',
    all(put(c('loads/low/is'), '14 W'), put(c('loads/high/is'), '22 W'), put(c('loads/tail/is'), '1.5 W')),
  ),
  sound('fuse and loads', 'no high beam of its own', 'oskerlund', put(c('loads/high/is'), '0 W')),
  sound('fuse and loads', 'heated clothes', 'ardmoor', put(c('loads/accessories/is'), '90 W')),
  sound('key-off drain', 'an alarm', 'pemburrow', put(c('restDrain/is'), '20 mA')),
  sound('key-off drain', 'nothing at all', 'oskerlund', put(c('restDrain/is'), '0 mA')),
  sound('key-off drain', 'a clock', 'ardmoor', put(c('restDrain/is'), '12 mA')),
];

const REST: readonly Sound[] = [
  sound(
    'chain',
    'a chain of 3/4 in',
    'ardmoor',
    put('chains/final', {
      name: 'final chain',
      pitch: book('3/4 in'),
      drivingTeeth: book(18),
      drivenTeeth: book(42),
      links: book(92),
      centre: book('575–605 mm'),
      adjusted: 'shafts',
      slack: book('25 mm'),
      slackWhen: 'cold',
    }),
  ),
  sound(
    'chain',
    'another final ratio',
    'pemburrow',
    all(put('chains/final/drivingTeeth/is', 17), put('chains/final/drivenTeeth/is', 42)),
  ),
  sound('chain', 'an off-road slack', 'oskerlund', put('chains/final/slack/is', '35–50 mm')),
  sound('chain', 'a centre from the tape alone', 'oskerlund', put('chains/final/centre/is', '580 mm')),
  sound(
    'chain',
    'a primary chain of 25 and 62 teeth',
    'ardmoor',
    put('chains/primary', {
      name: 'primary chain',
      pitch: book('3/8 in'),
      drivingTeeth: book(25),
      drivenTeeth: book(62),
      links: book(98),
      centre: book('250 mm'),
      adjusted: 'shoe',
      slack: book('10–14 mm'),
      slackWhen: 'cold',
    }),
  ),
  sound(
    'chain',
    'nothing but the pitch',
    'pemburrow',
    put('chains/final', { name: 'final chain', pitch: book('15.875 mm') }),
  ),
  sound(
    'chain',
    'a cam chain',
    'pemburrow',
    put('chains/cam', {
      name: 'cam chain',
      pitch: book('6.35 mm'),
      drivingTeeth: book(20),
      drivenTeeth: book(40),
      links: book(120),
    }),
  ),
  sound('shims', 'another stack', 'ardmoor', put('shims/engine-sprocket/stack/is', '38–45 thou')),
  sound(
    'shims',
    'a full box',
    'oskerlund',
    put(
      'shims/flywheel-shaft/sizes',
      ['0.05 mm', '0.1 mm', '0.15 mm', '0.2 mm', '0.3 mm', '0.5 mm', '1 mm'].map((thickness) => ({
        thickness,
        count: 2,
      })),
    ),
  ),
  sound('shims', 'no wish yet', 'ardmoor', put('shims/engine-sprocket/stack', undefined)),
  sound(
    'fluid',
    'a bigger sump',
    'oskerlund',
    all(put('fluids/engine-oil/amount/is', '2.4 l'), put('fluids/engine-oil/dry/is', '2.8 l')),
  ),
  sound(
    'fluid',
    'in millilitres',
    'oskerlund',
    all(put('fluids/engine-oil/amount/is', '1500 ml'), put('fluids/engine-oil/dry/is', '1900 cm³')),
  ),
  sound(
    'fluid',
    'a nearly full fork leg',
    'pemburrow',
    put('fluids/fork', { name: 'fork oil, each leg', amount: book('480 ml'), space: book('520 ml') }),
  ),
  sound('fluid', 'in US ounces', 'ardmoor', put('fluids/primary-oil/amount/is', '34–38 US fl oz')),
  sound(
    'book and part sheet',
    "the new part's sheet is a little higher",
    'ardmoor',
    put(f('stator-screws/torque/also/0/is'), '42–48 lbf·in'),
  ),
  sound(
    'book and part sheet',
    'the regulator of the sheet is fitted',
    'ardmoor',
    put('sources/regulator-sheet/fitted', true),
  ),
  sound(
    'book and part sheet',
    'the same torque in both units',
    'pemburrow',
    put(f('crank-cover-bolts/torque/also'), [{ is: '8.9 lbf·ft', from: 'labels' }]),
  ),
  sound('dates', "this year's notes", 'ardmoor', put('sources/clamp/date', '2026-03-14')),
  sound('dates', 'a leap day', 'pemburrow', put('sources/tape/date', '2024-02-29')),
  sound('dates', "next year's model", 'pemburrow', put('about/year', 2027)),
  sound(
    'dates',
    'a bike of 1951 with its book',
    'oskerlund',
    all(put('about/year', 1951), put('sources/book/date', '1950')),
  ),
  sound(
    'parts',
    'one part more',
    'oskerlund',
    put('parts/pulse-coil', { name: 'pulse coil', blockedBy: ['generator-cover'] }),
  ),
  sound(
    'parts',
    'blocked by two that share a blocker',
    'pemburrow',
    put('parts/rotor/blockedBy', ['crank-cover', 'stator']),
  ),
  sound(
    'parts',
    'no parts told',
    'ardmoor',
    all(put('parts', undefined), put('fasteners', undefined), put('fluids', undefined)),
  ),
];

export const REST_SOUNDS: readonly Sound[] = [...CIRCUIT, ...REST];
