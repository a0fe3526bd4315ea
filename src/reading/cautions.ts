/** What can hurt, said before the work that can do it. */
import type { Kind } from './kinds.ts';
import { BATTERY_CAUTION, howTo, RUN_CAUTION, SHOCK_CAUTION } from './steps.ts';

const CRANKING =
  'Starter: bike upright and tied down, gearbox in neutral, ignition cut so that it cannot start, hands off wheel and chain.';
const MOVE =
  'Move the harness by hand at each plug, joint and ground while you watch the meter; note the worst figure.';
const HOT = 'Hot engine, exhaust and case: gloves on.';
const ACID = 'Acid: goggles and gloves.';

const IS_CAUTION: ReadonlySet<string> = new Set([RUN_CAUTION, BATTERY_CAUTION, SHOCK_CAUTION, ACID]);

export interface Said {
  readonly cautions: readonly string[];
  readonly steps: readonly string[];
}

/** The catalogue's steps with what can hurt taken to the front, and what the state adds to it. */
export function sayHow(kind: Kind, state: Readonly<Record<string, string>>): Said {
  const own = howTo(kind).filter((line) => IS_CAUTION.has(line));
  const posts = kind.about.some((member) => member === 'battery' || /post$/.test(member));
  const cautions = [
    ...(kind.engine === 'running' && !own.includes(RUN_CAUTION) ? [RUN_CAUTION] : []),
    ...(kind.engine === 'cranking' ? [CRANKING] : []),
    ...own,
    ...(posts && kind.id !== 'sg' && !own.includes(BATTERY_CAUTION) ? [BATTERY_CAUTION] : []),
    ...(state.temp === 'hot' ? [HOT] : []),
  ];
  const steps = howTo(kind).filter((line) => !IS_CAUTION.has(line));
  return { cautions, steps: state.wiggle === 'True' ? [...steps, MOVE] : steps };
}
