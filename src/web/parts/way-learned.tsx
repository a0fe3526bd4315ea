import type { JSX } from 'preact';
import { placesOf } from '../../bench/place.ts';
import { countWords } from '../show.ts';
import { earlierJobs, learned } from '../state/bike.ts';
import { happened, happenedIn, job } from '../state/job.ts';
import { machine } from '../state/machine.ts';
import { Fold } from './fold.tsx';
import { Press } from './press-button.tsx';

const minutes = (value: number): string => String(Number(value.toPrecision(2)));

/** The minutes that this bike's own jobs taught the plan, and the way back. */
export function WayLearned(): JSX.Element | null {
  const known = machine.value;
  const steps = [...learned.value];
  if (known === null || steps.length === 0) return null;
  const places = placesOf(known.machine);
  const teachers = [
    ...(job.value.learned
      ? [{ id: null, event: job.value.learned.event, title: 'this job', at: job.value.learned.at }]
      : []),
    ...earlierJobs.value.flatMap(({ job: id, title, state }) =>
      state.learned ? [{ id, event: state.learned.event, title, at: state.learned.at }] : [],
    ),
  ];
  const forget = (id: string | null, event: string): void => {
    const body = { type: 'entryStruck', event } as const;
    if (id === null) happened(body);
    else happenedIn(id, body);
  };
  return (
    <Fold
      head={`The minutes of ${countWords(steps.length, 'step', 'steps')} are learnt from ${countWords(teachers.length, 'job', 'jobs')} on this bike`}
    >
      {() => (
        <div class="stack tight">
          <ul class="learned">
            {steps.map(([id, { likely, seen }]) => (
              <li key={id}>
                {places.get(id)?.step?.does ?? places.get(id)?.action?.entry.does ?? id}:{' '}
                <b class="figure">{minutes(likely)}&nbsp;min</b>{' '}
                <span class="quiet">(took {seen.map(minutes).join(', ')})</span>
              </li>
            ))}
          </ul>
          {teachers.map(({ id, event, title, at }) => (
            <p key={event} class="row">
              <Press act={() => forget(id, event)}>
                Do not go by the minutes of {title}, {at.slice(0, 10)}
              </Press>
            </p>
          ))}
        </div>
      )}
    </Fold>
  );
}
