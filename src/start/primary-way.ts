/** The way in of the template "alternator in a chain primary case": cover, chain, sprocket and clutch before the rotor. */
import {
  GUESSED_WORK,
  SHARED_ACTIONS,
  SHARED_CLOSING,
  SHARED_DEPTH,
  SHARED_FASTENERS,
  SHARED_PARTS,
  SHARED_SUPPLIES,
  SHARED_TARGETS,
  SHARED_TOOLS,
} from './shared-way.ts';
import { bigNut, coverBack, MAGNETS, STATOR_TARGETS, statorActions } from './stator-way.ts';
import { action, fastener, seizes, step, type WayIn } from './way-rows.ts';

const OFF_COVER = ['primary-oil drained', 'engine cold'];
const DRIVE = ['clutch-nut off', 'engine-sprocket-nut off', 'primary-chain slack'];

export const PRIMARY_WAY: WayIn = {
  parts: {
    ...SHARED_PARTS,
    footrest: { name: 'footrest and levers in front of the primary cover', heldBy: ['footrest-bolts'] },
    'primary-cover': {
      name: 'primary cover',
      blockedBy: ['footrest'],
      heldBy: ['primary-cover-screws'],
    },
    clutch: {
      name: 'clutch with the primary chain',
      blockedBy: ['primary-cover'],
      heldBy: ['clutch-nut'],
    },
    'engine-sprocket': {
      name: 'engine sprocket',
      blockedBy: ['primary-cover'],
      heldBy: ['engine-sprocket-nut'],
    },
    rotor: { name: 'rotor', blockedBy: ['engine-sprocket', 'clutch'] },
    stator: { name: 'stator', blockedBy: ['rotor'], heldBy: ['stator-screws'] },
  },
  fasteners: {
    ...SHARED_FASTENERS,
    'footrest-bolts': fastener('bolts of footrest and levers', 'footrest', 'repairs'),
    'primary-cover-screws': fastener('screws of the primary cover', 'primary-cover', 'repairs'),
    'primary-drain': fastener('drain plug of the primary case', null, 'every-service', { kind: 'plug' }),
    'clutch-nut': fastener('nut of the clutch hub (which way it turns: by the book)', 'clutch', 'rarely', {
      kind: 'nut',
    }),
    'engine-sprocket-nut': fastener('nut of the engine sprocket', 'engine-sprocket', 'rarely', {
      kind: 'nut',
    }),
    'stator-screws': fastener('stator screws', 'stator', 'rarely'),
  },
  fluids: undefined,
  work: {
    note: GUESSED_WORK,
    actions: {
      ...SHARED_ACTIONS,
      raise: action('Raise the bike and tie it down', [], ['bike raised'], '6–20 min', {
        hands: 2,
        tools: ['lift'],
        caution: 'Tie the bike down on the lift before anything heavy is turned.',
        back: [step('lower', 'Undo the straps and let the bike down', 'refit', '4–12 min', { hands: 2 })],
      }),
      'raise-alone': action('Raise the bike and tie it down alone', [], ['bike raised'], '14–40 min', {
        tools: ['lift'],
        caution: 'Alone: a strap on either side before it leaves the ground.',
        back: [step('lower-alone', 'Let the bike down alone, straps last', 'refit', '8–20 min')],
      }),
      'footrest-slack': action(
        'Loosen footrest and levers and swing them clear of the cover',
        [],
        ['footrest slack'],
        '4–15 min',
        {
          tools: ['sockets'],
          seizes: seizes(10, 'outside', '8–40 min', 'rust outside'),
          fastener: 'footrest-bolts',
          back: [
            step('footrest-back', 'Swing footrest and levers back, bolts by the book', 'torque', '4–12 min', {
              tools: ['torque-wrench'],
              fastener: 'footrest-bolts',
            }),
          ],
        },
      ),
      'footrest-off': action('Take footrest and levers off', [], ['footrest off'], '7–25 min', {
        tools: ['sockets'],
        seizes: seizes(12, 'outside', '8–45 min', 'rust outside'),
        fastener: 'footrest-bolts',
        part: 'footrest',
        back: [
          step('footrest-on', 'Fit footrest and levers, bolts by the book', 'torque', '7–20 min', {
            tools: ['torque-wrench'],
            fastener: 'footrest-bolts',
          }),
        ],
      }),
      drain: action('Drain the primary oil', ['bike raised'], ['primary-oil drained'], '8–25 min', {
        tools: ['sockets'],
        fastener: 'primary-drain',
        back: [
          step(
            'primary-plug-in',
            'Fit the drain plug with a new seal by the book, before any oil goes in',
            'torque',
            '2–6 min',
            {
              tools: ['torque-wrench'],
              uses: [{ supply: 'drain-seal', amount: 1 }],
              fastener: 'primary-drain',
            },
          ),
          step(
            'primary-fill',
            'Fill the primary case to the amount or the mark that the book gives',
            'fill',
            '4–12 min',
          ),
        ],
      }),
      'cover-off': action(
        'Take the screws of the primary cover out, lengths into a card by hole, and lift the cover off',
        ['footrest slack', ...OFF_COVER],
        ['primary-cover off'],
        '10–35 min',
        {
          tools: ['screwdriver'],
          seizes: seizes(10, 'exhaust-side', '8–60 min', 'screws bitten into the case'),
          fastener: 'primary-cover-screws',
          part: 'primary-cover',
          back: coverBack('primary-cover-screws'),
        },
      ),
      'chain-slack': action(
        'Back the adjuster of the primary chain off',
        ['primary-cover off'],
        ['primary-chain slack'],
        '2–8 min',
        {
          tools: ['sockets'],
          back: [
            step(
              'chain-set',
              'Set the slack cold at the tightest spot by the book, turn the drive a whole turn and look again',
              'measure',
              '6–18 min',
            ),
          ],
        },
      ),
      'lock-drive': action(
        'Lock the drive with a bar or block made for it',
        ['primary-cover off'],
        ['drive locked'],
        '2–8 min',
        {
          tools: ['lock-bar'],
          back: [step('unlock-drive', 'Take the lock bar out and show it', 'refit', '1–3 min')],
        },
      ),
      'clutch-nut': bigNut(
        'Undo the nut of the clutch hub',
        ['drive locked', 'bike raised'],
        'clutch-nut',
        'clutch-torque',
        'Clean the thread; nut and locker by the book',
      ),
      'engine-nut': bigNut(
        'Undo the nut of the engine sprocket',
        ['drive locked', 'bike raised'],
        'engine-sprocket-nut',
        'engine-nut-torque',
        'Clean the thread; nut and locker by the book',
      ),
      'train-off': action(
        'Draw clutch, primary chain and engine sprocket off together; photograph every shim where it sat',
        DRIVE,
        ['clutch off', 'engine-sprocket off'],
        '8–35 min',
        {
          hands: 2,
          part: 'clutch',
          back: [
            step('train-shims', 'Put the shims back in the order of the photograph', 'shim', '3–10 min'),
            step('train-on', 'Push clutch, chain and engine sprocket on together', 'refit', '8–25 min', {
              hands: 2,
            }),
          ],
        },
      ),
      'train-off-alone': action(
        'Draw clutch, primary chain and engine sprocket off together alone, a strap round them; photograph every shim where it sat',
        DRIVE,
        ['clutch off', 'engine-sprocket off'],
        '18–60 min',
        {
          part: 'clutch',
          back: [
            step(
              'train-shims-alone',
              'Put the shims back in the order of the photograph',
              'shim',
              '3–10 min',
            ),
            step(
              'train-on-alone',
              'Push clutch, chain and engine sprocket on together, the strap round them',
              'refit',
              '15–45 min',
            ),
          ],
        },
      ),
      'rotor-off': action(
        'Draw the rotor off, with the puller made for it where there is one',
        ['engine-sprocket off', 'clutch off'],
        ['rotor off'],
        '3–20 min',
        {
          tools: ['puller'],
          seizes: seizes(10, 'inside-oil', '10–45 min', 'a taper that bites'),
          caution: MAGNETS,
          part: 'rotor',
          back: [
            step(
              'rotor-on',
              'Wipe and look at each magnet, then lower the rotor on its key',
              'refit',
              '3–10 min',
              {
                asks: ['magnets'],
                caution: MAGNETS,
              },
            ),
          ],
        },
      ),
      ...statorActions('rotor off', ['primary-cover off', 'regulator-plugs off']),
    },
    targets: {
      ...SHARED_TARGETS,
      ...STATOR_TARGETS,
    },
    tools: {
      ...SHARED_TOOLS,
      lift: { name: 'lift or stand with tie-downs' },
      'breaker-bar': { name: 'long breaker bar' },
      'lock-bar': { name: 'bar or block that locks the drive' },
      puller: { name: 'puller for the rotor' },
    },
    supplies: SHARED_SUPPLIES,
    closing: SHARED_CLOSING,
    levels: [
      { name: 'bike whole', facts: [] },
      { name: 'seat and side open', facts: [...SHARED_DEPTH, 'footrest slack', 'footrest off'] },
      { name: 'case drained', facts: ['primary-oil drained'] },
      {
        name: 'cover off',
        facts: [
          'primary-cover off',
          'primary-chain slack',
          'drive locked',
          'clutch-nut off',
          'engine-sprocket-nut off',
          'grommet off',
        ],
      },
      { name: 'clutch and sprocket off', facts: ['clutch off', 'engine-sprocket off'] },
      { name: 'rotor off', facts: ['rotor off', 'stator slack'] },
      { name: 'stator', facts: ['stator off'] },
    ],
  },
};
