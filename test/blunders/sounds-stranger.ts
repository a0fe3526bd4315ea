/** Sound files of a third round: other fasteners, units, batteries, lamps and wires, written knowing parts of the rules. */
import { all, book as b, type Edit, type Json, type Name, put } from './edit.ts';
import { type Sound, sound } from './score.ts';

const S = (name: string, machine: Name, edit: Edit): Sound => sound('a stranger', name, machine, edit);
const c = (rest: string) => `charging/${rest}`;

/** A fastener in a few words: each figure from the book. */
function F(name: string, machine: Name, figures: Json, rest: Json = {}): Sound {
  const said = Object.fromEntries(Object.entries(figures).map(([key, is]) => [key, b(is)]));
  return S(name, machine, put('fasteners/x', { name, ...said, ...rest }));
}

const JOINTS: readonly Sound[] = [
  F(
    'caliper bolts',
    'pemburrow',
    { thread: 'M10 × 1.25', grade: '10.9', torque: '45 N·m', length: '30 mm', grip: '12 mm' },
    { hole: { material: b('forged aluminium') }, count: 2 },
  ),
  F('front axle nut', 'oskerlund', { thread: 'M16 × 1.5', torque: '80–100 N·m' }, { kind: 'nut', count: 1 }),
  F('rear axle nut', 'pemburrow', { thread: 'M18x1.5', torque: '110 N·m' }, { kind: 'nut', count: 1 }),
  F('spark plug', 'oskerlund', { thread: 'M14 × 1.25', torque: '25 N·m' }, { kind: 'plug' }),
  F(
    'handlebar clamp',
    'ardmoor',
    { thread: '5/16-18', grade: 'grade 8', torque: '16–20 lbf·ft', length: '1 1/2 in', grip: '7/8 in' },
    { hole: { material: b('cast aluminium') }, count: 4 },
  ),
  F('reservoir screws', 'pemburrow', { thread: 'M5', grade: 'A2-70', torque: '1.5 N·m' }, { count: 2 }),
  F('lens screws', 'oskerlund', { thread: 'M4', grade: '4.8', torque: '0.8–1.2 N·m' }, { count: 2 }),
  F('engine mounts', 'ardmoor', { thread: '1/2-13', grade: 'grade 5', torque: '45–50 lbf·ft' }),
  F('swing arm bolts', 'ardmoor', { thread: '7/16-14 UNC', grade: 'grade 8', torque: '60 ft-lb' }),
  F('fork clamp', 'pemburrow', { thread: 'M8', grade: '12.9', torque: '38 N·m', condition: 'dry' }),
  F(
    'cam caps',
    'pemburrow',
    { thread: 'M6', grade: '10.9', torque: '12 N·m', condition: 'oiled', length: '40 mm', grip: '24 mm' },
    { hole: { material: b('cast aluminium'), threadDepth: b('18 mm') }, count: 20 },
  ),
  F('clutch cover bolts', 'oskerlund', { thread: 'M6', grade: '8.8', torque: '1.0–1.2 kgf·m' }),
  F('point cover screws', 'ardmoor', { thread: '1/4-20', grade: 'grade 5', torque: '90–110 in-lb' }),
  F('caliper mount', 'ardmoor', { thread: '3/8-24', grade: 'grade 8', torque: '35 ft-lbs' }),
  F(
    'sump plug',
    'pemburrow',
    { thread: 'M18 × 1.5', torque: '35 N·m' },
    { kind: 'plug', opened: 'every-service' },
  ),
  F(
    'spin-on oil filter',
    'ardmoor',
    { thread: '3/4-16 UNF', torque: '12 lbf·ft' },
    { opened: 'every-service' },
  ),
  F(
    'disc bolts',
    'pemburrow',
    { thread: 'M8', grade: '10.9', torque: '30 N·m', locker: 'medium', condition: 'medium locker' },
    { count: 5, opened: 'rarely' },
  ),
  F('shock nut', 'oskerlund', { thread: 'M10', grade: '8.8', torque: '40 N·m' }, { kind: 'nut' }),
  F('battery posts', 'oskerlund', { thread: 'M6', torque: '3 N·m' }, { count: 2, opened: 'repairs' }),
  F('titanium screws', 'pemburrow', { thread: 'M6', grade: 'titanium', torque: '9 N·m' }),
  F(
    'magnesium cover',
    'oskerlund',
    { thread: 'M6', grade: '8.8', torque: '7 N·m', length: '30 mm', grip: '12 mm' },
    { hole: { material: b('magnesium'), threadDepth: b('20 mm') } },
  ),
  F('rocker box stud nuts', 'ardmoor', { thread: '1/4 BSW', torque: '7 lbf·ft' }, { kind: 'nut' }),
  F(
    'clutch centre nut',
    'pemburrow',
    { thread: 'M20 × 1.5 LH', torque: '120 N·m', loosens: 'clockwise', reuse: 'new' },
    { kind: 'nut' },
  ),
  F(
    'case bolts in three',
    'pemburrow',
    { thread: 'M8', grade: '8.8', torque: '22 N·m' },
    { stages: [b('8 N·m'), b('15 N·m'), b('22 N·m')], count: 10 },
  ),
  F(
    'bronze valve seat screw',
    'oskerlund',
    { thread: 'M8', grade: '8.8', torque: '20 N·m', length: '25 mm', grip: '10 mm' },
    { hole: { material: b('grey cast iron'), depth: b('22 mm'), threadDepth: b('18 mm') } },
  ),
];

const REST: readonly Sound[] = [
  S(
    'AGM in the single',
    'oskerlund',
    all(
      put(c('battery/chemistry/is'), 'agm'),
      put(c('battery/capacity/is'), '12 Ah'),
      put(c('battery/crankAmps/is'), '210 A'),
      put(c('regulator/chargeVolts/is'), '14.0–14.7 V'),
    ),
  ),
  S(
    'lamps of diodes',
    'oskerlund',
    all(put(c('loads/low/is'), '18 W'), put(c('loads/high/is'), '24 W'), put(c('loads/tail/is'), '2 W')),
  ),
  S('twin head lamps', 'pemburrow', all(put(c('loads/low/is'), '110 W'), put(c('loads/high/is'), '130 W'))),
  S('fog lamps as well', 'ardmoor', put(c('loads/accessories/is'), '70 W')),
  S('tail with a row of lamps', 'pemburrow', put(c('loads/tail/is'), '21 W')),
  S(
    '4 mm² and long',
    'pemburrow',
    all(put(c('wiring/output/gauge/is'), '4 mm²'), put(c('wiring/output/length/is'), '1.4 m')),
  ),
  S(
    'AWG 12 all round',
    'ardmoor',
    all(put(c('wiring/output/gauge/is'), 'AWG 12'), put(c('wiring/ground/gauge/is'), 'AWG 12')),
  ),
  S('a 40 A fuse', 'pemburrow', put(c('fuse/is'), '40 A')),
  S('an immobiliser', 'pemburrow', put(c('restDrain/is'), '15 mA')),
  S('narrow volts', 'pemburrow', put(c('regulator/chargeVolts'), b('14.0–14.4 V'))),
  S(
    'a 525 chain',
    'pemburrow',
    put('chains/final', {
      name: 'final chain',
      pitch: b('5/8 in'),
      drivingTeeth: b(17),
      drivenTeeth: b(42),
      links: b(114),
      centre: b('650–680 mm'),
      adjusted: 'shafts',
      slack: b('30–40 mm'),
      slackWhen: 'cold',
    }),
  ),
  S(
    'a 428 chain',
    'oskerlund',
    put('chains/final', {
      name: 'final chain',
      pitch: b('12.7 mm'),
      drivingTeeth: b(15),
      drivenTeeth: b(45),
      links: b(122),
      centre: b('565–600 mm'),
      adjusted: 'shafts',
      slack: b('20–30 mm'),
      slackWhen: 'cold',
    }),
  ),
  S(
    'shims in millimetres',
    'ardmoor',
    all(
      put('shims/engine-sprocket/stack/is', '2.2–2.4 mm'),
      put(
        'shims/engine-sprocket/sizes',
        ['0.25 mm', '0.5 mm', '0.75 mm', '1.5 mm'].map((thickness) => ({ thickness, count: 2 })),
      ),
    ),
  ),
  S('fork oil', 'ardmoor', put('fluids/fork', { name: 'fork oil, each leg', amount: b('10.2 US fl oz') })),
  S('coolant', 'pemburrow', put('fluids/coolant', { name: 'coolant', amount: b('2.1 l'), dry: b('2.4 l') })),
  S('gearbox oil by the pint', 'ardmoor', put('fluids/box', { name: 'gearbox oil', amount: b('1.5 US pt') })),
];

export const STRANGER_SOUNDS: readonly Sound[] = [...JOINTS, ...REST];
