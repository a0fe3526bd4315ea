/**
 * Sound files: the three machines with other figures that some bike may well have, as a strange mechanic would write
 * them. Torques of the tables: SAE grade 5 and 8 from US Army TM 10-6640-238-13 (clean and dry); the metric ones are
 * common workshop figures, from memory.
 */
import { all, book, type Edit, type Json, NAMES, put } from './edit.ts';
import { type Sound, sound } from './score.ts';

const f = (rest: string) => `fasteners/${rest}`;

/** A screw of its own in a machine: everything a careful mechanic writes down. */
function screw(given: Json): Edit {
  const { name = 'some screws', material = 'die-cast aluminium', ...rest } = given;
  const figures = Object.fromEntries(
    Object.entries(rest as Record<string, unknown>).map(([key, value]) => [
      key,
      typeof value === 'string' && !['kind', 'opened', 'part'].includes(key) ? book(value) : value,
    ]),
  ) as Json;
  const { threadDepth, depth, ...of } = figures;
  const hole = {
    ...(material ? { material: book(material) } : {}),
    ...(threadDepth ? { threadDepth } : {}),
    ...(depth ? { depth } : {}),
  };
  return put('fasteners/added', { name, ...of, ...(Object.keys(hole).length > 0 ? { hole } : {}) });
}

/** Thread, grade and the torque that tables and books give it. */
const TORQUES: readonly (readonly [string, string, string])[] = [
  ['M5 × 0.8', '8.8', '5–6 N·m'],
  ['M6', '8.8', '10 N·m'],
  ['M6 × 1', '8.8', '8–12 N·m'],
  ['M6', '10.9', '14 N·m'],
  ['M8', '8.8', '22–25 N·m'],
  ['M8x1.25', '10.9', '30 N·m'],
  ['M8 × 1', '8.8', '24 N·m'],
  ['M10', '8.8', '45–50 N·m'],
  ['M10 × 1.25', '8.8', '45 N·m'],
  ['M10 × 1.25', '10.9', '60–68 N·m'],
  ['M12', '8.8', '75–85 N·m'],
  ['M12 × 1.25', '10.9', '110 N·m'],
  ['M6', 'A2-70', '7 N·m'],
  ['M8', 'A2-70', '16 N·m'],
  ['M8', 'A4-80', '20 N·m'],
  ['M5', '12.9', '8 N·m'],
  ['M6', '12.9', '16 N·m'],
  ['1/4-20', 'grade 5', '8 lbf·ft'],
  ['5/16-18', 'SAE J429 Gr. 5', '17 lbf·ft'],
  ['3/8-16 UNC', 'grade 5', '31 lbf·ft'],
  ['7/16-14', 'grade 5', '49 lbf·ft'],
  ['1/2-20 UNF', 'grade 5', '85 lbf·ft'],
  ['1/4-20', 'grade 8', '12 lbf·ft'],
  ['5/16-18', 'grade 8', '24 lbf·ft'],
  ['3/8-16', 'grade 8', '44 lbf·ft'],
  ['1/2-20', 'grade 8', '120 lbf·ft'],
  ['1/4-28', 'ASTM A574', '120 lbf·in'],
  ['#10-24', 'ASTM A574', '45 lbf·in'],
  ['#10-32 UNF', 'grade 5', '30 lbf·in'],
  ['#8-32', 'grade 5', '20 lbf·in'],
  ['M8', '8.8', '2.5 kgf·m'],
  ['M6', '8.8', '1.0 kgf·m'],
];

const generated: readonly Sound[] = TORQUES.map(([thread, grade, torque], n) => {
  // A condition every other one, a locker now and then; the direction is said where the screw is large and alone.
  const more = [
    { condition: 'dry' },
    {},
    { condition: 'oiled' },
    { condition: 'zinc plated, dry' },
    { locker: 'medium', condition: 'medium locker, wet' },
  ][n % 5]!;
  return sound(
    'torques',
    `${thread}, ${grade}, ${torque}`,
    NAMES[n % 3]!,
    screw({ thread, grade, torque, count: 1 + (n % 6), loosens: 'anticlockwise', material: null, ...more }),
  );
});

/** Diameter in mm, a length, grip and depth that suit it in aluminium. */
const FITS: readonly (readonly [string, string, string, string, string, string, string])[] = [
  ['M5', '20 mm', '11 mm', '12 mm', '14 mm', '5 N·m', '8.8'],
  ['M6', '20 mm', '8 mm', '14 mm', '16 mm', '10 N·m', '8.8'],
  ['M6', '65 mm', '52 mm', '15 mm', '18 mm', '12 N·m', '8.8'],
  ['M6', '25 mm', '14.5 mm', '12 mm', '15 mm', '9 N·m', '8.8'],
  ['M8', '35 mm', '20 mm', '18 mm', '21 mm', '22 N·m', '8.8'],
  ['M8', '110 mm', '92 mm', '20 mm', '24 mm', '25 N·m', '10.9'],
  ['M10', '50 mm', '30 mm', '24 mm', '28 mm', '40 N·m', '8.8'],
  ['1/4-20', '1 in', '1/2 in', '9/16 in', '5/8 in', '9 lbf·ft', 'ASTM A574'],
  ['1/4-20', '2 1/4 in', '1.75 in', '5/8 in', '3/4 in', '100 lbf·in', 'ASTM A574'],
  ['5/16-18', '1 1/2 in', '7/8 in', '3/4 in', '7/8 in', '15–18 lbf·ft', 'grade 5'],
  ['3/8-16', '2 in', '1 1/4 in', '7/8 in', '1 in', '27–30 lbf·ft', 'grade 5'],
  ['#10-24', '3/4 in', '3/8 in', '7/16 in', '1/2 in', '30 lbf·in', 'ASTM A574'],
];
const fitted: readonly Sound[] = FITS.flatMap(
  ([thread, length, grip, threadDepth, depth, torque, grade], n) =>
    (['die-cast aluminium', 'aluminium A356', '6061-T6'] as const)
      .slice(0, n % 3 === 0 ? 3 : 1)
      .map((material) =>
        sound(
          'length, grip and hole',
          `${thread} × ${length} in ${material}`,
          NAMES[n % 3]!,
          screw({ thread, length, grip, threadDepth, depth, torque, grade, material, count: 2 }),
        ),
      ),
);

const JOINTS: readonly Sound[] = [
  sound(
    'torques',
    'a bleed nipple',
    'oskerlund',
    screw({ name: 'bleed nipple', thread: 'M8 × 1', torque: '6 N·m' }),
  ),
  sound(
    'torques',
    'an oil level plug',
    'oskerlund',
    screw({ name: 'oil level plug', kind: 'plug', thread: 'M16 × 1.5', torque: '8 N·m' }),
  ),
  sound(
    'torques',
    'an inspection cap',
    'oskerlund',
    screw({ name: 'timing inspection cap', kind: 'plug', thread: 'M30 × 1.5', torque: '6 N·m' }),
  ),
  sound(
    'torques',
    'a drain plug of aluminium',
    'pemburrow',
    screw({ name: 'drain plug', kind: 'plug', thread: 'M14 × 1.5', torque: '17 N·m' }),
  ),
  sound(
    'torques',
    'an axle nut',
    'pemburrow',
    screw({ name: 'rear axle nut', kind: 'nut', thread: 'M18 × 1.5', torque: '110 N·m', count: 1 }),
  ),
  sound(
    'torques',
    'a countershaft nut',
    'pemburrow',
    screw({
      name: 'countershaft sprocket nut',
      kind: 'nut',
      thread: 'M20 × 1.5',
      torque: '125 N·m',
      count: 1,
      loosens: 'anticlockwise',
    }),
  ),
  sound(
    'torques',
    'a clutch nut, left-hand in words',
    'oskerlund',
    screw({ name: 'clutch nut', kind: 'nut', thread: 'M18 × 1 left hand', torque: '90 N·m', count: 1 }),
  ),
  sound(
    'torques',
    'exhaust nuts with anti-seize',
    'pemburrow',
    screw({
      name: 'exhaust nuts',
      kind: 'nut',
      thread: 'M8',
      grade: '8.8',
      torque: '18 N·m',
      condition: 'anti-seize',
    }),
  ),
  sound(
    'torques',
    'a fairing screw into a plastic well nut',
    'pemburrow',
    screw({ name: 'screen screws', thread: 'M5', torque: '1.5 N·m', material: null }),
  ),
  sound(
    'torques',
    'a thread in no table, with its pitch',
    'oskerlund',
    screw({
      name: 'ring',
      thread: 'special',
      diameter: '27 mm',
      pitch: '1 mm',
      torque: '60 N·m',
      loosens: 'anticlockwise',
    }),
  ),
  sound(
    'torques',
    'a Whitworth thread',
    'oskerlund',
    screw({ name: 'old studs', kind: 'stud', thread: '5/16 BSW', torque: '15 lbf·ft' }),
  ),
  sound(
    'torques',
    'a grade that nobody knows',
    'ardmoor',
    screw({ name: 'old screws', thread: '1/4-20', grade: 'unmarked', torque: '70 lbf·in' }),
  ),
  sound('torques', 'torque in ft-lb', 'ardmoor', put(f('cover-screws/torque/is'), '9 ft·lbf')),
  sound('length, grip and hole', 'nothing but a name', 'ardmoor', put(f('added'), { name: 'a bolt' })),
  sound('length, grip and hole', 'no hole', 'pemburrow', put(f('stator-bolts/hole'), undefined)),
  sound(
    'length, grip and hole',
    'no lengths',
    'oskerlund',
    all(put(f('stator-screws/length'), undefined), put(f('stator-screws/grip'), undefined)),
  ),
  sound(
    'length, grip and hole',
    'a partly threaded bolt through',
    'pemburrow',
    screw({
      name: 'mount bolt',
      thread: 'M10',
      grade: '8.8',
      length: '120 mm',
      grip: '95 mm',
      threadLength: '32 mm',
      torque: '45 N·m',
      material: 'mild steel',
    }),
  ),
  sound(
    'length, grip and hole',
    'a screw that ends flush with the thread',
    'oskerlund',
    screw({
      name: 'side screws',
      thread: 'M6',
      grade: '8.8',
      length: '30 mm',
      grip: '18 mm',
      threadDepth: '12 mm',
      depth: '15 mm',
      torque: '9 N·m',
    }),
  ),
  sound(
    'stages',
    'three stages',
    'pemburrow',
    put(f('crank-cover-bolts/stages'), [book('4 N·m'), book('8 N·m'), book('12 N·m')]),
  ),
  sound(
    'stages',
    'the last stage twice',
    'ardmoor',
    put(f('cover-screws/stages'), [book('7 lbf·ft'), book('9 lbf·ft'), book('9 lbf·ft')]),
  ),
  sound(
    'stages',
    'stages short of the final torque, in other units',
    'ardmoor',
    put(f('engine-sprocket-nut/stages'), [book('100 N·m'), book('150 lbf·ft')]),
  ),
  sound(
    'stages',
    'stages in inches, the final in feet',
    'ardmoor',
    put(f('cover-screws/stages'), [book('60 lbf·in'), book('84 lbf·in')]),
  ),
  sound('stages', 'no stages', 'ardmoor', put(f('stator-screws/stages'), undefined)),
  sound(
    'locker',
    'medium locker at every service',
    'ardmoor',
    all(
      put(f('tensioner-nut/locker'), book('medium')),
      put(f('tensioner-nut/condition/is'), 'medium locker, wet'),
    ),
  ),
  sound(
    'locker',
    'high-strength locker on a big nut',
    'oskerlund',
    all(put(f('flywheel-nut/locker'), book('high')), put(f('flywheel-nut/condition/is'), 'clean and dry')),
  ),
  sound(
    'locker',
    'high strength on M10 in steel',
    'pemburrow',
    screw({
      name: 'disc bolts',
      thread: 'M10',
      grade: '10.9',
      torque: '42 N·m',
      locker: 'high',
      opened: 'rarely',
      material: 'alloy steel',
    }),
  ),
  sound(
    'locker',
    'low locker, dry threads',
    'oskerlund',
    all(put(f('regulator-screws/locker'), book('low')), put(f('regulator-screws/condition/is'), 'dry')),
  ),
  sound(
    'turning direction',
    'no direction on small screws',
    'oskerlund',
    put(f('stator-screws/loosens'), undefined),
  ),
  sound(
    'turning direction',
    'no direction on an axle',
    'pemburrow',
    screw({ name: 'front axle', thread: 'M16 × 1.5', torque: '72 N·m', count: 1 }),
  ),
  sound(
    'turning direction',
    'LH in the thread, direction left out',
    'ardmoor',
    put(f('clutch-nut/loosens'), undefined),
  ),
  sound(
    'counts and places',
    'a cover of six',
    'oskerlund',
    all(
      put(f('generator-cover-screws/count'), 6),
      put(
        f('generator-cover-screws/positions'),
        [
          [0, 0],
          [100, 0],
          [200, 0],
          [200, 80],
          [100, 80],
          [0, 80],
        ].map(([x, y]) => ({ x: `${x} mm`, y: `${y} mm` })),
      ),
    ),
  ),
  sound('counts and places', 'no count', 'pemburrow', put(f('crank-cover-bolts/count'), undefined)),
  sound(
    'counts and places',
    'two screws',
    'pemburrow',
    put(f('regulator-bolts/positions'), [
      { x: '0 in', y: '0 in' },
      { x: '2 3/8 in', y: '0 in' },
    ]),
  ),
];

const untouched = NAMES.map((name) => sound('as shipped', name, name, () => {}));

export const JOINT_SOUNDS: readonly Sound[] = [...untouched, ...generated, ...fitted, ...JOINTS];
