/** What every template does at the bottom, and with the cover on the way there: stator, its wire, rotor, joint faces. */
import { action, type Row, type Rows, seizes, step, target } from './way-rows.ts';

export const MAGNETS = "Magnets pull hard: fingers clear of the rotor's edge.";
export const LOCKER = 'old locker';
export const LONG_BAR = 'Long bar: bike held, push down.';

/** From the fact that lays the stator open, and what frees its wire, to the stator on the bench. */
export function statorActions(open: string, wire: readonly string[]): Rows {
  return {
    'stator-screws': action(
      'Undo the stator screws and the clamp of its wire',
      [open],
      ['stator slack'],
      '4–18 min',
      {
        tools: ['screwdriver'],
        seizes: seizes(15, 'inside-oil', '10–50 min', LOCKER),
        fastener: 'stator-screws',
        back: [
          step('stator-holes', 'Clean and dry the holes: blow them out, look', 'clean', '3–10 min', {
            asks: ['dry'],
            uses: [{ supply: 'cleaner', amount: 1 }],
          }),
          step('stator-torque', 'Stator screws and locker by the book', 'torque', '4–12 min', {
            tools: ['torque-wrench'],
            fastener: 'stator-screws',
          }),
        ],
      },
    ),
    grommet: action(
      "Free the stator's wire and its grommet, photograph its run",
      wire,
      ['grommet off'],
      '3–15 min',
      {
        asks: ['run'],
        back: [
          step(
            'grommet-in',
            'Wire in its run and its retainer, grommet home and sealed',
            'retainer',
            '4–15 min',
            { asks: ['retained'] },
          ),
        ],
      },
    ),
    'stator-off': action(
      'Lift the stator out with its wire',
      ['stator slack', 'grommet off'],
      ['stator off'],
      '2–10 min',
      {
        part: 'stator',
        back: [
          step('stator-in', 'Lay the stator in, its wire in the groove', 'refit', '3–12 min', {
            asks: ['clear'],
          }),
          step(
            'stator-insulation',
            'Measure each wire to the metal it sits in, and the pairs',
            'measure',
            '2–6 min',
            { asks: ['insulation'], tools: ['meter'] },
          ),
        ],
      },
    ),
  };
}

/** What puts a gasketed cover back: faces, gasket, screws; `caution` is for covers that the magnets pull at. */
export function coverBack(screws: string, caution?: string): readonly Row[] {
  return [
    step('cover-faces', 'Clean both joint faces, no scrap inside', 'clean', '5–20 min', {
      uses: [{ supply: 'cleaner', amount: 1 }],
    }),
    step('cover-gasket', 'Lay the new gasket', 'gasket', '2–6 min', {
      uses: [{ supply: 'cover-gasket', amount: 1 }],
    }),
    step(
      'cover-torque',
      'Fit the cover, each screw in its hole, and tighten them crosswise by the book',
      'torque',
      '5–18 min',
      { tools: ['torque-wrench'], fastener: screws, caution },
    ),
  ];
}

/** A nut or bolt that takes a long bar, with its way back by the book. */
export function bigNut(
  does: string,
  needs: readonly string[],
  fastener: string,
  backId: string,
  backDoes: string,
): Row {
  return action(does, needs, [`${fastener} off`], '3–25 min', {
    tools: ['breaker-bar'],
    seizes: seizes(13, 'inside-oil', '12–60 min', LOCKER),
    caution: LONG_BAR,
    fastener,
    back: [step(backId, backDoes, 'torque', '4–20 min', { tools: ['torque-wrench'], fastener })],
  });
}

export const STATOR_TARGETS: Rows = {
  stator: target(
    'stator',
    ['stator off'],
    ['replace-stator'],
    [
      step('stator-compare', 'Hold the new stator against the old; read its sheet', 'inspect', '4–12 min', {
        uses: [{ supply: 'stator', amount: 1 }],
      }),
    ],
  ),
  rotor: target(
    'rotor',
    ['rotor off'],
    ['replace-rotor'],
    [
      step('rotor-look', 'Look at magnets, key and bore; compare with the new one', 'inspect', '4–12 min', {
        uses: [{ supply: 'rotor', amount: 1 }],
      }),
    ],
  ),
};
