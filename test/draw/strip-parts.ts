/** Strip-downs to draw: a small invented bike with every kind of line and mark, and big ones from a seed. */

import type { StripPart } from '../../src/draw/strip-layers.ts';
import { openStream } from '../../src/numbers/random.ts';

type Way = readonly string[];

/** A part in short: what a way waits for by id, "~id" where slackening is enough. */
export function stripPart(
  id: string,
  ways: readonly Way[],
  more: Partial<Pick<StripPart, 'held' | 'goal'>> & { readonly slackens?: readonly Way[] } = {},
): StripPart {
  const read = (way: Way) => way.map((word) => ({ of: word.replace('~', ''), slack: word.startsWith('~') }));
  return {
    id,
    name: id.replaceAll('-', ' '),
    held: more.held ?? 0,
    goal: more.goal ?? null,
    ways: ways.map(read),
    slackens: (more.slackens ?? []).map(read),
  };
}

export const SMALL_STRIP: readonly StripPart[] = [
  stripPart('seat', [[]], { held: 2 }),
  stripPart('left-footrest-with-gear-lever', [[]], { held: 2, slackens: [[]] }),
  stripPart('rear-brake', [], { slackens: [[]] }),
  stripPart('inspection-lid', [[]], { held: 4 }),
  stripPart('outer-primary-cover', [['~left-footrest-with-gear-lever', '~rear-brake']], { held: 10 }),
  stripPart('primary-chain', [['engine-sprocket']], {
    slackens: [['outer-primary-cover'], ['inspection-lid']],
  }),
  stripPart('clutch-with-its-basket', [['outer-primary-cover', 'engine-sprocket']], { held: 1 }),
  stripPart('engine-sprocket', [['outer-primary-cover', '~primary-chain']], { held: 1 }),
  stripPart('rotor', [['engine-sprocket', 'outer-primary-cover']], { held: 1, goal: 'rotor' }),
  stripPart('stator-plug', [['seat'], ['inspection-lid']]),
  stripPart('stator', [['rotor', 'stator-plug']], { held: 4, goal: 'stator' }),
  stripPart('lost-bracket', [['bracket-nobody-knows']]),
];

/** A strip-down of this many parts in about fifteen layers, some slackened, some with two ways; the same for the same seed. */
export function bigStrip(count: number, seed: number): readonly StripPart[] {
  const draw = openStream(seed);
  const pick = (below: number) => Math.floor(draw() * below);
  return Array.from({ length: count }, (_, n) => {
    const before = Math.max(0, n - Math.ceil(count / 15));
    const some = (): Way =>
      before === 0
        ? []
        : Array.from({ length: 1 + pick(3) }, () => `${draw() < 0.2 ? '~' : ''}part-${pick(before)}`);
    return stripPart(`part-${n}`, draw() < 0.15 ? [some(), some()] : [some()], {
      held: pick(12),
      slackens: [[]],
      goal: draw() < 0.05 ? `part ${n}` : null,
    });
  });
}
