/** What the way in has in common on nearly every bike: seat, battery, regulator, plugs and joints. Order and minutes are guesses. */
import { action, fastener, type Rows, seizes, step, target } from './way-rows.ts';

const RUST = seizes(5, 'outside', '5–30 min', 'rust outside');
const ACID = seizes(6, 'hidden-corrosion', '5–20 min', 'acid at the posts');

export const SHARED_ACTIONS: Rows = {
  seat: action('Take the seat off', [], ['seat off'], '1–8 min', {
    tools: ['sockets'],
    seizes: RUST,
    back: [step('seat-on', 'Put the seat back and pull at it', 'refit', '1–6 min')],
  }),
  'side-cover': action(
    'Take the cover over the regulator and its plugs off',
    [],
    ['side-cover off'],
    '2–15 min',
    {
      tools: ['screwdriver'],
      seizes: RUST,
      back: [step('side-cover-on', 'Put the cover back', 'refit', '2–12 min')],
    },
  ),
  'battery-negative': action(
    "Take the cable off the battery's negative post",
    ['seat off'],
    ['battery disconnected'],
    '1–6 min',
    {
      tools: ['sockets'],
      seizes: ACID,
      caution: 'Battery negative off first, and on last: a spanner between + and frame burns.',
      back: [
        step(
          'negative-on',
          'Clean the negative post and its clamp bright, fit the cable, grease it',
          'refit',
          '3–10 min',
          { tools: ['sockets'], uses: [{ supply: 'contact-grease', amount: 1 }] },
        ),
      ],
    },
  ),
  'battery-positive': action(
    "Take the cable off the battery's positive post",
    ['battery disconnected'],
    ['battery loose'],
    '1–6 min',
    {
      tools: ['sockets'],
      seizes: ACID,
      back: [
        step(
          'positive-on',
          'Clean the positive post and its clamp bright, fit the cable, cap on',
          'refit',
          '3–10 min',
          { tools: ['sockets'], uses: [{ supply: 'contact-grease', amount: 1 }] },
        ),
      ],
    },
  ),
  battery: action('Undo the strap and lift the battery out', ['battery loose'], ['battery off'], '2–8 min', {
    caution: 'Acid: hold it level, gloves and glasses on.',
    back: [step('battery-in', 'Lift the battery in and strap it', 'refit', '2–8 min')],
  }),
  cool: action('Let the engine get cold', [], ['engine cold'], '0–90 min', {
    hands: 0,
    caution: 'Hot engine and pipes.',
  }),
  'regulator-plugs': action(
    "Pull the stator plug and the regulator's plug",
    ['side-cover off', 'battery disconnected'],
    ['regulator-plugs off'],
    '2–12 min',
    {
      seizes: seizes(8, 'hidden-corrosion', '5–25 min', 'pins burnt or green'),
      back: [
        step(
          'regulator-plugs-on',
          'Plug in until it clicks, pull at each wire, tie the plugs clear of heat and edges',
          'refit',
          '3–10 min',
          { asks: ['plug'] },
        ),
      ],
    },
  ),
  'regulator-off': action(
    "Undo the regulator's bolts",
    ['regulator-plugs off'],
    ['regulator off'],
    '3–15 min',
    {
      tools: ['sockets'],
      seizes: seizes(12, 'outside', '8–40 min', 'rust outside'),
      fastener: 'regulator-bolts',
      part: 'regulator',
      back: [
        step(
          'regulator-on',
          'Fit the regulator on bright metal, its bolts by the book',
          'torque',
          '3–10 min',
          {
            tools: ['torque-wrench'],
            fastener: 'regulator-bolts',
          },
        ),
      ],
    },
  ),
};

const crimped = { tools: ['crimper'] };

export const SHARED_TARGETS: Rows = {
  battery: target(
    'battery',
    ['battery off'],
    ['replace-battery'],
    [
      step('battery-new', 'Put the new battery on the bench and measure it at rest', 'inspect', '3–8 min', {
        uses: [{ supply: 'battery', amount: 1 }],
      }),
    ],
  ),
  'battery-charge': target(
    'battery, to charge it',
    ['battery disconnected'],
    ['charge-battery'],
    [
      step('battery-charge', 'Charge the battery outdoors or with the door open', 'charge', '240–900 min', {
        hands: 0,
        tools: ['charger'],
        caution: 'Hydrogen: no flame, no sparks; charger off before the clips come off.',
      }),
    ],
  ),
  posts: target(
    'battery posts',
    ['battery loose'],
    ['remake-positive-post', 'remake-negative-post'],
    [
      step('posts-clean', 'Clean both posts and clamps bright', 'clean', '4–12 min', {
        uses: [{ supply: 'contact-grease', amount: 1 }],
      }),
    ],
  ),
  breaker: target(
    'main fuse or breaker',
    ['battery disconnected', 'seat off'],
    ['remake-breaker'],
    [
      step(
        'breaker-new',
        'Replace the main fuse holder or breaker and remake its ends',
        'refit',
        '10–35 min',
        {
          ...crimped,
          uses: [{ supply: 'fuse-holder', amount: 1 }],
        },
      ),
    ],
  ),
  regulator: target(
    'regulator',
    ['regulator off'],
    ['replace-regulator'],
    [
      step('regulator-face', "Clean the regulator's seat and its ground bright", 'clean', '3–10 min'),
      step(
        'regulator-new',
        'Hold the new regulator against the old: plug, wires, holes',
        'inspect',
        '2–8 min',
        {
          uses: [{ supply: 'regulator', amount: 1 }],
        },
      ),
    ],
  ),
  'stator-plug': target(
    'stator plug',
    ['regulator-plugs off', 'battery disconnected'],
    ['replace-stator-plug'],
    [
      step(
        'stator-plug-new',
        'Cut back to bright copper and crimp both halves of a new plug',
        'refit',
        '15–50 min',
        { ...crimped, uses: [{ supply: 'plug-kit', amount: 1 }] },
      ),
      step(
        'stator-plug-pull',
        'Pull at every wire of the plug, then measure each pair',
        'measure',
        '4–10 min',
        {
          tools: ['meter'],
        },
      ),
    ],
  ),
  'output-joint': target(
    'joint in the output lead',
    ['regulator-plugs off', 'battery disconnected'],
    ['remake-output-joint'],
    [
      step('output-joint-new', 'Crimp and sleeve a new joint in the output lead', 'refit', '8–25 min', {
        ...crimped,
        uses: [{ supply: 'crimp-joint', amount: 1 }],
      }),
    ],
  ),
  'output-wire': target(
    'output wire',
    ['regulator-plugs off', 'battery disconnected', 'side-cover off'],
    ['replace-output-wire'],
    [
      step(
        'output-wire-new',
        'Lay a thicker output wire where the old one ran, tie it clear of heat and edges',
        'refit',
        '15–50 min',
        {
          ...crimped,
          uses: [
            { supply: 'wire', amount: 1500 },
            { supply: 'cable-tie', amount: 6 },
          ],
        },
      ),
    ],
  ),
  'regulator-ground': target(
    "regulator's ground",
    ['side-cover off', 'battery disconnected'],
    ['remake-ground'],
    [
      step(
        'ground-clean',
        "Clean the ground's eye and the frame bright, fit it with a toothed washer",
        'clean',
        '6–20 min',
        { tools: ['sockets'], uses: [{ supply: 'contact-grease', amount: 1 }] },
      ),
    ],
  ),
};

export const SHARED_TOOLS: Rows = {
  sockets: { name: 'sockets and spanners', count: 2 },
  screwdriver: { name: 'screwdrivers and hex keys', count: 2 },
  crimper: { name: 'crimping pliers' },
  charger: { name: 'battery charger' },
  meter: { name: 'multimeter' },
  'torque-wrench': { name: 'torque wrench' },
};

export const SHARED_SUPPLIES: Rows = {
  'contact-grease': { name: 'contact grease, a dab', kind: 'consumable', unit: 'piece' },
  battery: { name: 'battery', kind: 'part', unit: 'piece' },
  'fuse-holder': { name: 'main fuse holder or breaker', kind: 'part', unit: 'piece' },
  regulator: { name: 'regulator with its sheet', kind: 'part', unit: 'piece' },
  'plug-kit': { name: 'stator plug, both halves with pins', kind: 'part', unit: 'piece', singleUse: true },
  'crimp-joint': {
    name: 'crimp joint with sleeve',
    kind: 'consumable',
    unit: 'piece',
    singleUse: true,
  },
  wire: { name: 'output wire, thicker than the old one', kind: 'consumable', unit: 'mm' },
  'cable-tie': { name: 'cable tie', kind: 'consumable', unit: 'piece', singleUse: true },
  cleaner: { name: 'brake cleaner, a spray', kind: 'consumable', unit: 'piece' },
  'drain-seal': { name: 'seal of the drain plug', kind: 'seal', unit: 'piece', singleUse: true },
  'cover-gasket': { name: 'cover gasket', kind: 'gasket', unit: 'piece', singleUse: true },
  stator: { name: 'stator with its sheet', kind: 'part', unit: 'piece' },
  rotor: { name: 'rotor with its sheet', kind: 'part', unit: 'piece' },
};

export const SHARED_PARTS: Rows = {
  regulator: { name: 'regulator', heldBy: ['regulator-bolts'] },
};

export const SHARED_FASTENERS: Rows = {
  'regulator-bolts': fastener("regulator's bolts", 'regulator', 'repairs'),
};

export const SHARED_CLOSING = [
  step(
    'look-over',
    'Look over the floor, the tray and the bike: nothing left over, no wire near a chain or a pipe',
    'inspect',
    '4–10 min',
    { asks: ['count'] },
  ),
  step(
    'prove-volts',
    'Run it outdoors, read the battery at idle and at 3000 and 5000 rpm with the lights on',
    'prove',
    '10–25 min',
    { tools: ['meter'], caution: 'Carbon monoxide: outdoors, or with the exhaust led out.' },
  ),
  step('prove-leaks', 'Look for leaks at every joint that was open, engine warm', 'prove', '4–10 min', {
    caution: 'Hot engine and pipes.',
  }),
];

/** Facts of the first two depths, which every template has. */
export const SHARED_DEPTH = [
  'seat off',
  'side-cover off',
  'battery disconnected',
  'battery loose',
  'battery off',
  'regulator-plugs off',
  'regulator off',
];

export const GUESSED_WORK =
  "A template: order, minutes and chances are guesses and common practice, wide because nobody has said. Correct them as the bike comes apart; the bike's own book comes first.";
