/** What is looked at on a repaired bike that no meter takes. All common practice, no source. */
import type { JobState } from '../job/fold.ts';
import type { Chain, Machine } from '../machine/definition.ts';
import { doneSteps } from './repaired.ts';

export const LOOKS = ['lamps', 'leak', 'level', 'run-clear', 'noise', 'slack'] as const;
export type LookId = (typeof LOOKS)[number];

export interface Look {
  readonly id: LookId;
  /** What to do, imperative, with when. */
  readonly does: string;
  /** What is said when it is as it should be, and when it is not. */
  readonly fine: string;
  readonly amiss: string;
  readonly caution: string | null;
  /** The slack is measured: which chain, with what its book wants. */
  readonly chain: Chain | null;
}

const HOT = 'Hot engine and exhaust; outdoors or with the door open: the exhaust kills.';

function look(id: LookId, does: string, fine: string, amiss: string, more: Partial<Look> = {}): Look {
  return { id, does, fine, amiss, caution: null, chain: null, ...more };
}

/** What this bike wants looked at after what was done to it. */
export function looksFor(machine: Machine, state: JobState, repairs: readonly string[]): readonly Look[] {
  const done = doneSteps(state);
  const steps = [
    ...Object.values(machine.work?.actions ?? {}).flatMap((action) => action.back ?? []),
    ...Object.values(machine.work?.targets ?? {}).flatMap((target) => target.work ?? []),
  ].filter(({ id }) => done.has(id));
  const kinds = new Set<string>(steps.map(({ kind }) => kind));
  const wet = ['gasket', 'seal', 'fill'].some((kind) => kinds.has(kind));
  const inside = wet || repairs.some((repair) => repair === 'replace-stator' || repair === 'replace-rotor');
  const chain = steps.map((step) => (step.chain ? machine.chains?.[step.chain] : undefined)).find(Boolean);
  const looks: Look[] = [
    look('lamps', 'Head, tail and brake lamp, horn and indicators, key on.', 'All work', 'One does not'),
  ];
  if (wet)
    looks.push(
      look(
        'leak',
        'Run the engine warm, wait ten minutes on the stand, wipe along the joint with clean paper.',
        'Dry all round',
        'It leaks',
        { caution: HOT },
      ),
    );
  if (kinds.has('fill'))
    looks.push(
      look(
        'level',
        'Level of what was filled, after the run, as the book says.',
        'At the line',
        'Not at the line',
      ),
    );
  if (inside || repairs.includes('replace-stator-plug'))
    looks.push(
      look(
        'run-clear',
        'The stator’s wire from the case to its plug: clear of chain, exhaust and what moves, held by its clips, handlebars full left and right.',
        'Clear and held',
        'It touches or hangs',
        { caution: 'Engine off, key out.' },
      ),
    );
  if (inside)
    looks.push(
      look(
        'noise',
        'Listen at the case, cold and again hot, at idle and at 3000 rpm: no knock, rub or rattle.',
        'Nothing but the engine',
        'It knocks or rubs',
        { caution: HOT },
      ),
    );
  if (chain)
    looks.push(
      look(
        'slack',
        `Slack of the ${chain.name} once more, after it ran hot and stood cold again, at its tight spot.`,
        'Inside what the book wants',
        'Outside',
        { caution: 'Engine off, key out: fingers stay out of the chain while it is turned.', chain },
      ),
    );
  return looks;
}
