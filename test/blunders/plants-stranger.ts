/**
 * Planted blunders of a third round: small slips as a stranger makes them in a file he copies, written knowing parts of
 * the rules. At first 58 of the 64 were caught, and of the 41 sound files beside them one was blamed (the oil filter).
 * One of the six had been planted without the tolerance its figure needs, and has got it; no other was changed.
 */
import { all, book as b, type Edit, type Name, put } from './edit.ts';
import { type Plant, plant } from './score.ts';

const P = (name: string, machine: Name, edit: Edit, path: RegExp, says: RegExp): Plant =>
  plant('a stranger', name, machine, edit, path, says);
const f = (rest: string) => `fasteners/${rest}`;
const c = (rest: string) => `charging/${rest}`;
const torque = (id: string, is: string) => put(f(`${id}/torque/is`), is);

const TORQUES: readonly Plant[] = [
  P('footrest in lbf·in', 'ardmoor', torque('footrest-bolts', '25–30 lbf·in'), /footrest-bolts/, /lbf·ft/),
  P('tensioner in lbf·in', 'ardmoor', torque('tensioner-nut', '21–29 lbf·in'), /tensioner-nut/, /lbf·ft/),
  P('regulator bolts in N·m', 'ardmoor', torque('regulator-bolts', '60–80 N·m'), /regulator-bolts/, /lbf·in/),
  P('drain with a nought', 'ardmoor', torque('primary-drain', '140–210 lbf·ft'), /primary-drain/, /proof/),
  P('pedal in lbf·ft', 'oskerlund', torque('pedal-bolt', '10 lbf·ft'), /pedal-bolt/, /proof/),
  P('pedal in kgf·m', 'oskerlund', torque('pedal-bolt', '10 kgf·m'), /pedal-bolt/, /proof/),
  P('cover in lbf·ft', 'pemburrow', torque('crank-cover-bolts', '12 lbf·ft'), /crank-cover/, /proof/),
  P('rotor 190 lbf·ft', 'pemburrow', torque('rotor-bolt', '190 lbf·ft'), /rotor-bolt/, /proof/),
  P('flywheel in kgf·m', 'oskerlund', torque('flywheel-nut', '80–90 kgf·m'), /flywheel-nut/, /proof/),
  P('stainless at 16 N·m', 'oskerlund', torque('regulator-screws', '16 N·m'), /regulator-screws/, /proof/),
  P('fairing with a nought', 'pemburrow', torque('fairing-screws', '20 N·m'), /fairing-screws/, /proof/),
  P(
    'fairing with a point',
    'pemburrow',
    torque('fairing-screws', '0.2 N·m'),
    /fairing-screws/,
    /low|next to/i,
  ),
  P('drain bolt 290 N·m', 'pemburrow', torque('oil-drain', '290 N·m'), /oil-drain/, /proof/),
  P(
    'M8 by five millimetres in a casting',
    'oskerlund',
    put(f('bracket'), {
      name: 'bracket bolts',
      thread: b('M8'),
      grade: b('8.8'),
      torque: b('25 N·m'),
      length: b('20 mm'),
      grip: b('15 mm'),
      hole: { material: b('die-cast aluminium'), threadDepth: b('20 mm') },
    }),
    /bracket/,
    /strip|tapped|engage|thread/,
  ),
];

const LENGTHS: readonly Plant[] = [
  P(
    'a quarter too long',
    'ardmoor',
    put(f('stator-screws/length/is'), '1 1/4 in'),
    /stator-screws/,
    /bottom/,
  ),
  P('seven short', 'oskerlund', put(f('stator-screws/length/is'), '18 mm'), /stator-screws/, /thread|engage/),
  P('grip with a point', 'pemburrow', put(f('stator-bolts/grip/is'), '2.2 mm'), /stator-bolts/, /bottom/),
  P('a foot for mm', 'pemburrow', put(f('lead-clamp-bolt/length/is'), '12 in'), /lead-clamp/, /bottom/),
  P(
    'depths swapped',
    'oskerlund',
    all(
      put(f('generator-cover-screws/hole/threadDepth/is'), '18 mm'),
      put(f('generator-cover-screws/hole/depth/is'), '15 mm'),
    ),
    /generator-cover/,
    /deep|hole/,
  ),
  P(
    'washers of a wheel',
    'oskerlund',
    put(f('generator-cover-screws/washer'), b('8 mm')),
    /generator-cover/,
    /thread|engage/,
  ),
  P('grip over length', 'ardmoor', put(f('footrest-bolts/grip/is'), '1 3/4 in'), /footrest/, /reach|grip/),
];

const BUILD: readonly Plant[] = [
  P(
    'stages turned round',
    'oskerlund',
    put(f('generator-cover-screws/stages'), [b('10 N·m'), b('5 N·m')]),
    /stages/,
    /fall|lower|below/,
  ),
  P(
    'second stage in lbf·in',
    'ardmoor',
    put(f('engine-sprocket-nut/stages/1/is'), '165 lbf·in'),
    /stages/,
    /fall|lower|below/,
  ),
  P(
    'a stage over the end',
    'ardmoor',
    put(f('cover-screws/stages'), [b('7 lbf·ft'), b('90 lbf·ft')]),
    /stages|cover-screws/,
    /stage/,
  ),
  P('red on the fairing', 'pemburrow', put(f('fairing-screws/locker'), b('high')), /fairing/, /locker/),
  P('red on the drain', 'oskerlund', put(f('oil-drain/locker'), b('high')), /oil-drain/, /locker/),
  P('locker told twice', 'oskerlund', put(f('stator-screws/locker/is'), 'none'), /stator-screws/, /locker/),
  P('left hand, undone left', 'ardmoor', put(f('clutch-nut/loosens/is'), 'anticlockwise'), /clutch/, /left/),
  P(
    'which way does it undo',
    'pemburrow',
    put(f('rotor-bolt/loosens'), undefined),
    /rotor-bolt/,
    /loosen|way/,
  ),
  P('LH written in', 'oskerlund', put(f('flywheel-nut/thread/is'), 'M14 × 1.5 LH'), /flywheel-nut/, /left/),
  P(
    'nine in eight holes',
    'oskerlund',
    put(f('generator-cover-screws/count'), 9),
    /generator-cover/,
    /9|eight|8/,
  ),
  P(
    'two in one hole',
    'pemburrow',
    put(f('crank-cover-bolts/positions/3'), { x: '0 mm', y: '70 mm' }),
    /crank-cover/,
    /same|one place|twice/,
  ),
  P('no such thread', 'oskerlund', put(f('pedal-bolt/thread/is'), 'M6 × 1.75'), /pedal-bolt/, /thread|pitch/),
  P(
    'sheet tenfold the book',
    'ardmoor',
    put(f('regulator-bolts/torque/also/0/is'), '700–900 lbf·in'),
    /regulator-bolts/,
    /apart|proof/,
  ),
];

const CIRCUIT: readonly Plant[] = [
  P(
    'flooded volts on AGM',
    'pemburrow',
    put(c('regulator/chargeVolts'), b('15.2–15.8 V')),
    /chargeVolts/,
    /AGM/,
  ),
  P('volts at rest', 'ardmoor', put(c('regulator/chargeVolts'), b('12.4–12.8 V')), /chargeVolts/, /fill/),
  P('450 A out of 10 Ah', 'oskerlund', put(c('battery/crankAmps/is'), '450 A'), /battery/, /Ah/),
  P('3 Ah that cranks', 'oskerlund', put(c('battery/capacity/is'), '3 Ah'), /battery/, /Ah/),
  P(
    '170 V at idle',
    'ardmoor',
    put(c('alternator/openVolts/is'), '170 V AC ± 10 %'),
    /openVolts/,
    /speed|suit/,
  ),
  P('a point in the volts', 'oskerlund', put(c('alternator/openVolts/is'), '5.4–6.6 V'), /alternator/, /V/),
  P(
    'a point in the ohms',
    'pemburrow',
    put(c('alternator/pairOhms/is'), '1.6–2.6 Ω'),
    /alternator/,
    /ohms|Ω/,
  ),
  P(
    'a point in the amps',
    'ardmoor',
    put(c('alternator/ratedAmps/is'), '3.4 A'),
    /ratedAmps|loads|fuse/,
    /A/,
  ),
  P(
    'watts where amps go',
    'pemburrow',
    put(c('alternator/ratedAmps/is'), '530 W'),
    /ratedAmps/,
    /W|amp|current/,
  ),
  P('AWG 24', 'ardmoor', put(c('wiring/output/gauge/is'), 'AWG 24'), /output/, /thin/),
  P('half a square', 'oskerlund', put(c('wiring/ground/gauge/is'), '0.5 mm²'), /ground/, /thin/),
  P('four metres', 'pemburrow', put(c('wiring/stator/length/is'), '4 m'), /stator\.length/, /loses/),
  P('a burnt joint', 'pemburrow', put(c('wiring/output/joints/0/ohms/is'), '200 mΩ'), /joints\[0\]/, /joint/),
  P('five amps', 'ardmoor', put(c('fuse/is'), '5 A'), /fuse/, /blow|carr/),
  P('tail of 60 W', 'oskerlund', put(c('loads/tail/is'), '60 W'), /loads/, /load/),
  P('head lamp of 5.5 W', 'ardmoor', put(c('loads/low/is'), '5.5 W'), /loads/, /load/),
  P('ignition of 29 A', 'oskerlund', put(c('loads/ignition/is'), '29 A'), /loads|fuse/, /load|draw/),
  P('drain of 150 mA', 'ardmoor', put(c('restDrain/is'), '150 mA'), /restDrain/, /days/),
];

const DRIVES: readonly Plant[] = [
  P(
    'centre with a point',
    'ardmoor',
    put('chains/primary/centre/is', '32.9 mm'),
    /primary/,
    /overlap|meet|long/,
  ),
  P('eighteen links more', 'oskerlund', put('chains/final/links/is', 120), /links/, /too long/),
  P(
    'sprockets swapped',
    'pemburrow',
    all(put('chains/final/drivingTeeth/is', 43), put('chains/final/drivenTeeth/is', 16)),
    /final/,
    /driv|swap|teeth/,
  ),
  P('slack with a point', 'oskerlund', put('chains/final/slack/is', '2.5–3.5 mm'), /slack/, /taut/),
  P('another pitch', 'ardmoor', put('chains/primary/pitch/is', '3/8 in'), /primary/, /short|long/),
  P('stack with a point', 'ardmoor', put('shims/engine-sprocket/stack/is', '8.5–9.5 thou'), /shims/, /make/),
  P('play in whole mm', 'oskerlund', put('shims/flywheel-shaft/play/is', '5–25 mm'), /shims/, /play|shim/),
  P(
    'a gallon',
    'ardmoor',
    put('fluids/primary-oil/amount/is', '1.0–1.15 US gal'),
    /primary-oil/,
    /holds|more/,
  ),
  P(
    'no point in the litres',
    'oskerlund',
    put('fluids/engine-oil/amount/is', '17 l'),
    /engine-oil/,
    /holds|more/,
  ),
  P('dry less than a change', 'pemburrow', put('fluids/engine-oil/dry/is', '3.0 l'), /engine-oil/, /dry/),
  P(
    'oil by the thimble',
    'ardmoor',
    put('fluids/engine-oil/amount/is', '2.6–2.8 ml'),
    /engine-oil/,
    /dry|wets|ml/,
  ),
  P(
    'a sheet of the future',
    'ardmoor',
    put('sources/clamp/date', '2062-03-01'),
    /sources/,
    /2062|future|later/,
  ),
];

export const STRANGER_PLANTS: readonly Plant[] = [...TORQUES, ...LENGTHS, ...BUILD, ...CIRCUIT, ...DRIVES];
