import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { REPAIR_IDS, REPAIRS } from '../../fault/repairs.ts';
import { likelyMade } from '../../proof/repaired.ts';
import { writeRoute } from '../route.ts';
import { job, jobId } from '../state/job.ts';
import { machine } from '../state/machine.ts';
import { mayRepair, sayRepaired } from '../state/proof.ts';
import { proof } from '../state/side.ts';
import { Fold } from './fold.tsx';
import { Press } from './press-button.tsx';

/** What was repaired, ticked: those that were most likely made are offered first. */
export function ProofRepairs(): JSX.Element {
  const known = machine.value;
  const again = job.value.proof.made !== null;
  const likely = again
    ? (proof.value?.left.filter(({ probability }) => probability > 0.05).map(({ repair }) => repair) ?? [])
    : known
      ? likelyMade(job.value, known.machine)
      : [];
  const first = [...new Set(likely)];
  const [ticks, setTicks] = useState<ReadonlyMap<string, boolean>>(new Map());
  const isOn = (id: string): boolean =>
    ticks.get(id) ?? (!again && (first as readonly string[]).includes(id));
  const turn = (id: string): void => setTicks(new Map(ticks).set(id, !isOn(id)));
  const made = REPAIR_IDS.filter(isOn);
  if (!mayRepair.value)
    return (
      <p class="step">
        What is believed of the bike must be written down before it is repaired: accept a{' '}
        <a
          class="link"
          href={writeRoute({ at: 'job', job: jobId.value ?? '', station: 'verdict', take: null })}
        >
          verdict
        </a>{' '}
        first.
      </p>
    );
  const line = (id: (typeof REPAIR_IDS)[number]): JSX.Element => (
    <li key={id}>
      <Press class="tick" pressed={isOn(id)} act={() => turn(id)}>
        {REPAIRS[id].title}
      </Press>
    </li>
  );
  return (
    <div class="stack tight">
      <ul class="ticks">{first.map(line)}</ul>
      <Fold head="Something else was done">
        {() => <ul class="ticks">{REPAIR_IDS.filter((id) => !first.includes(id)).map(line)}</ul>}
      </Fold>
      <p>
        Charge the battery on the bench before you read: a flat one hides what the alternator does, and works
        it hot.
      </p>
      <Press
        class="main"
        act={() => {
          sayRepaired(made);
          setTicks(new Map());
        }}
      >
        {made.length === 0 ? 'Nothing was repaired: read the bike all the same' : 'This is done: prove it'}
      </Press>
    </div>
  );
}
