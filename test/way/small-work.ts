/** A small invented bike's work: a guard, a drain, a sealed cover, a clutch to leave on or take off, a stator. */
import type { Action, BuildStep, Spread, Work } from '../../src/way/work.ts';

export const about = (likely: number): Spread => ({ low: likely, likely, high: likely });

export function step(id: string, minutes: number, more: Partial<BuildStep> = {}): BuildStep {
  return {
    id,
    does: `Do ${id}`,
    kind: 'refit',
    minutes: about(minutes),
    hands: 1,
    tools: [],
    uses: [],
    lags: [],
    ...more,
  };
}

export function action(
  id: string,
  minutes: number,
  needs: readonly string[],
  gives: readonly string[],
  back: readonly BuildStep[],
  more: Partial<Action> = {},
): Action {
  return {
    id,
    does: `Take ${id}`,
    needs,
    gives,
    minutes: about(minutes),
    hands: 1,
    tools: [],
    back,
    ...more,
  };
}

export const SMALL: Work = {
  actions: [
    action('guard', 5, [], ['guard off'], [step('guard-on', 4)]),
    action('drain', 15, [], ['oil drained'], [step('plug-in', 2, { kind: 'torque', fastener: 'plug' })], {
      hands: 0,
    }),
    action(
      'cover',
      14,
      ['guard off', 'oil drained'],
      ['cover off'],
      [
        step('cover-clean', 10, { kind: 'clean' }),
        step('cover-bead', 5, { kind: 'seal', uses: [{ supply: 'sealant', amount: 1 }] }),
        step('cover-close', 5, { lags: [{ after: 'cover-bead', from: 'end', least: 0, most: 10 }] }),
        step('cover-torque', 8, { kind: 'torque', tools: ['wrench'] }),
        step('cover-cure', 600, { kind: 'cure', hands: 0 }),
      ],
    ),
    action('chain-loose', 6, ['guard off'], ['chain slack'], [step('chain-set', 8, { kind: 'measure' })], {
      seizes: { chance: 0.1, adds: about(40) },
    }),
    action('chain', 12, ['guard off'], ['chain off'], [step('chain-on', 9)]),
    action(
      'clutch',
      18,
      ['cover off'],
      ['clutch off'],
      [step('clutch-on', 12, { kind: 'torque', tools: ['wrench'] })],
    ),
    action(
      'rotor',
      20,
      ['cover off', 'chain slack'],
      ['rotor off'],
      [step('rotor-on', 15, { tools: ['wrench'] })],
      {
        tools: ['puller'],
      },
    ),
    action('rotor-by-clutch', 10, ['clutch off'], ['rotor off'], [step('rotor-back', 14)]),
  ],
  targets: [
    {
      id: 'stator',
      name: 'the stator',
      needs: ['rotor off'],
      work: [
        step('stator-fit', 25, { uses: [{ supply: 'stator', amount: 1 }] }),
        step('stator-ohms', 5, { kind: 'measure' }),
      ],
      repairs: ['replace-stator'],
    },
    {
      id: 'clutch',
      name: 'the clutch',
      needs: ['clutch off'],
      work: [step('clutch-look', 6, { kind: 'inspect' })],
      repairs: [],
    },
    {
      id: 'plug',
      name: 'the plug',
      needs: ['guard off'],
      work: [step('plug-clean', 7, { hands: 1 })],
      repairs: [],
    },
  ],
  tools: [
    { id: 'wrench', name: 'torque wrench', count: 1 },
    { id: 'puller', name: 'puller', count: 1 },
  ],
  supplies: [
    { id: 'stator', name: 'stator', kind: 'part', unit: 'piece', singleUse: false, canWait: false },
    { id: 'sealant', name: 'sealant', kind: 'consumable', unit: 'ml', singleUse: false, canWait: false },
  ],
  closing: [step('fill', 6, { kind: 'fill', cold: true }), step('prove', 10, { kind: 'prove' })],
  levels: [
    { name: 'whole', facts: [] },
    { name: 'guard', facts: ['guard off', 'chain slack', 'chain off', 'oil drained'] },
    { name: 'cover', facts: ['cover off'] },
    { name: 'inside', facts: ['clutch off', 'rotor off'] },
  ],
};
