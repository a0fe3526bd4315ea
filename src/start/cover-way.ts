/**
 * The ways in of the templates whose alternator sits under one cover: the stator in the cover, the rotor on the crank's
 * taper. What stands before the cover differs: a panel and the oil, or gear pedal and sprocket cover.
 */
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
import { action, fastener, type Rows, seizes, step, type WayIn } from './way-rows.ts';

/** What differs between two bikes of this build. */
interface Before {
  /** Parts before the cover, outermost first. */
  readonly parts: Rows;
  readonly fasteners: Rows;
  readonly actions: Rows;
  /** Facts that must hold before the cover comes off. */
  readonly needs: readonly string[];
  readonly blockedBy: readonly string[];
  readonly facts: readonly string[];
}

function coverWay({ parts, fasteners, actions, needs, blockedBy, facts }: Before): WayIn {
  return {
    parts: {
      ...SHARED_PARTS,
      ...parts,
      'alternator-cover': {
        name: 'alternator cover with the stator in it',
        blockedBy,
        heldBy: ['cover-screws'],
      },
      stator: { name: 'stator', blockedBy: ['alternator-cover'], heldBy: ['stator-screws'] },
      rotor: { name: 'rotor', blockedBy: ['alternator-cover'], heldBy: ['rotor-bolt'] },
    },
    fasteners: {
      ...SHARED_FASTENERS,
      ...fasteners,
      'cover-screws': fastener('screws of the alternator cover', 'alternator-cover', 'repairs'),
      'stator-screws': fastener('stator screws', 'stator', 'rarely'),
      'rotor-bolt': fastener('bolt or nut of the rotor (which way it turns: by the book)', 'rotor', 'rarely'),
      'oil-drain': fastener('oil drain plug', null, 'every-service', { kind: 'plug' }),
    },
    fluids: undefined,
    work: {
      note: GUESSED_WORK,
      actions: {
        ...SHARED_ACTIONS,
        ...actions,
        drain: action('Drain the engine oil', ['engine cold'], ['engine-oil drained'], '6–20 min', {
          tools: ['sockets'],
          fastener: 'oil-drain',
          back: [
            step(
              'drain-plug',
              'Fit the drain plug with a new seal by the book, before any oil goes in',
              'torque',
              '2–6 min',
              {
                tools: ['torque-wrench'],
                uses: [{ supply: 'drain-seal', amount: 1 }],
                fastener: 'oil-drain',
              },
            ),
            step(
              'oil-fill',
              'Fill the engine with the oil and to the mark that the book gives',
              'fill',
              '4–12 min',
            ),
          ],
        }),
        lean: action(
          'Lean the bike well over to the other side and tie it there, so that little oil runs out',
          ['engine cold'],
          ['engine-oil drained'],
          '8–25 min',
          {
            hands: 2,
            caution: 'A leaning bike tips: strap it to something that does not move.',
            back: [
              step('upright', 'Set the bike upright and look at its oil level', 'refit', '3–10 min', {
                hands: 2,
              }),
            ],
          },
        ),
        'cover-off': action(
          'Take the screws of the alternator cover out, lengths into a card by hole, and pull it off against the magnets',
          [...needs, 'engine-oil drained', 'engine cold'],
          ['alternator-cover off'],
          '8–30 min',
          {
            tools: ['screwdriver'],
            seizes: seizes(8, 'outside', '8–50 min', 'screws bitten into the case'),
            caution: MAGNETS,
            fastener: 'cover-screws',
            part: 'alternator-cover',
            back: coverBack('cover-screws', MAGNETS),
          },
        ),
        ...statorActions('alternator-cover off', ['regulator-plugs off']),
        'hold-rotor': action(
          'Hold the rotor with the tool made for it, never by its magnets',
          ['alternator-cover off'],
          ['rotor held'],
          '1–6 min',
          { tools: ['holder'] },
        ),
        'rotor-bolt': bigNut(
          'Undo the bolt or nut of the rotor',
          ['rotor held'],
          'rotor-bolt',
          'rotor-torque',
          'Taper and thread clean and dry; bolt or nut by the book',
        ),
        'rotor-off': action(
          'Draw the rotor off its taper with the puller made for it',
          ['rotor-bolt off'],
          ['rotor off'],
          '4–25 min',
          {
            tools: ['puller'],
            seizes: seizes(12, 'inside-oil', '10–50 min', 'a taper that bites'),
            caution: MAGNETS,
            part: 'rotor',
            back: [
              step(
                'rotor-on',
                'Wipe and look at each magnet, key in, push the rotor on',
                'refit',
                '3–12 min',
                {
                  asks: ['magnets'],
                  caution: MAGNETS,
                },
              ),
            ],
          },
        ),
      },
      targets: {
        ...SHARED_TARGETS,
        ...STATOR_TARGETS,
      },
      tools: {
        ...SHARED_TOOLS,
        'breaker-bar': { name: 'long breaker bar' },
        holder: { name: 'tool that holds the rotor' },
        puller: { name: 'puller for the rotor' },
      },
      supplies: SHARED_SUPPLIES,
      closing: SHARED_CLOSING,
      levels: [
        { name: 'bike whole', facts: [] },
        { name: 'seat and side open', facts: [...SHARED_DEPTH, ...facts] },
        { name: 'oil out', facts: ['engine-oil drained', 'grommet off'] },
        {
          name: 'cover off',
          facts: ['alternator-cover off', 'rotor held', 'rotor-bolt off', 'stator slack'],
        },
        { name: 'stator or rotor', facts: ['stator off', 'rotor off'] },
      ],
    },
  };
}

export const CRANK_COVER_WAY: WayIn = coverWay({
  parts: { panel: { name: 'panel in front of the alternator cover', heldBy: ['panel-screws'] } },
  fasteners: { 'panel-screws': fastener('screws of the panel', 'panel', 'every-service') },
  actions: {
    'panel-off': action(
      'Take off the panel, pipe or lever that stands before the alternator cover',
      [],
      ['panel off'],
      '3–25 min',
      {
        tools: ['screwdriver'],
        seizes: seizes(6, 'outside', '5–35 min', 'rust outside'),
        fastener: 'panel-screws',
        part: 'panel',
        back: [
          step('panel-on', 'Fit what stood before the cover, wires clear of it', 'refit', '3–20 min', {
            tools: ['screwdriver'],
            fastener: 'panel-screws',
          }),
        ],
      },
    ),
  },
  needs: ['panel off'],
  blockedBy: ['panel'],
  facts: ['panel off'],
});

export const SINGLE_WAY: WayIn = coverWay({
  parts: {
    'gear-pedal': { name: 'gear pedal', heldBy: ['pedal-bolt'] },
    'sprocket-cover': {
      name: 'gearbox sprocket cover',
      blockedBy: ['gear-pedal'],
      heldBy: ['sprocket-cover-screws'],
    },
  },
  fasteners: {
    'pedal-bolt': fastener('clamp bolt of the gear pedal', 'gear-pedal', 'repairs'),
    'sprocket-cover-screws': fastener('screws of the sprocket cover', 'sprocket-cover', 'every-service'),
  },
  actions: {
    'pedal-off': action(
      'Mark the gear pedal on its shaft and draw it off',
      [],
      ['gear-pedal off'],
      '2–12 min',
      {
        tools: ['sockets'],
        seizes: seizes(12, 'outside', '5–35 min', 'rust outside'),
        fastener: 'pedal-bolt',
        part: 'gear-pedal',
        back: [
          step('pedal-on', 'Slide the gear pedal on to its mark, its bolt by the book', 'torque', '2–8 min', {
            tools: ['torque-wrench'],
            fastener: 'pedal-bolt',
          }),
        ],
      },
    ),
    'sprocket-cover-off': action(
      'Take the sprocket cover off',
      ['gear-pedal off'],
      ['sprocket-cover off'],
      '3–15 min',
      {
        tools: ['screwdriver'],
        seizes: seizes(8, 'outside', '5–40 min', 'rust outside'),
        fastener: 'sprocket-cover-screws',
        part: 'sprocket-cover',
        back: [
          step('sprocket-cover-on', 'Fit the sprocket cover, its screws by the book', 'torque', '3–12 min', {
            tools: ['torque-wrench'],
            fastener: 'sprocket-cover-screws',
          }),
        ],
      },
    ),
  },
  needs: ['gear-pedal off', 'sprocket-cover off'],
  blockedBy: ['gear-pedal', 'sprocket-cover'],
  facts: ['gear-pedal off', 'sprocket-cover off'],
});
