/** What jobs on this bike measured and found, offered for its file: each is taken or turned down by a person. */
import type { JSX } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { answerTo, type Offer } from '../../bike/offer.ts';
import { takeOffer } from '../../draft/take-offer.ts';
import type { JobEvent } from '../../job/event.ts';
import { writeRoute } from '../route.ts';
import { fetchJob, fetchJobs, readJobLines } from '../server.ts';
import { countWords } from '../show.ts';
import { happenedIn } from '../state/job.ts';
import { kept, remembered } from '../state/kept.ts';
import { useAdvice } from '../state/machine-advice.ts';
import { draft, file, put } from '../state/machine-draft.ts';
import { Press } from './press-button.tsx';

/** Jobs that are looked into, the newest first, count. */
const MOST_JOBS = 20;

/** Logs of the jobs on a machine; null until they are read. */
function useJobs(machine: string): readonly (readonly JobEvent[])[] | null {
  const [jobs, setJobs] = useState<readonly (readonly JobEvent[])[] | null>(null);
  useEffect(() => {
    let here = true;
    void (async () => {
      const list = await remembered('jobs', fetchJobs);
      const lines = list.ok ? readJobLines(list.body).filter((line) => line.machine === machine) : [];
      const logs = await Promise.all(
        lines.slice(0, MOST_JOBS).map(async ({ job }) => {
          const got = await fetchJob(job, 0);
          if (got.ok) return got.body.events;
          return (await kept.since(job, 0).catch(() => [])).map(({ event }) => event);
        }),
      );
      if (here) setJobs(logs);
    })();
    return () => {
      here = false;
    };
  }, [machine]);
  return jobs;
}

/** What this page is for stands at once; what the jobs say is read and reckoned below it. */
export function MachineLearned(): JSX.Element {
  return (
    <div class="stack">
      <p>
        What jobs on this bike measured and found is offered here. Nothing of it is in the file until you take
        it. It is then kept as measured, beside what the book says, and is saved when you save.
      </p>
      <Learned />
    </div>
  );
}

function Learned(): JSX.Element {
  const id = file.value?.id ?? '';
  const logs = useJobs(id);
  const [answers, setAnswers] = useState<readonly JobEvent[]>([]);
  const jobs = useMemo(
    () =>
      logs === null ? null : logs.map((log) => [...log, ...answers.filter(({ job }) => job === log[0]?.job)]),
    [logs, answers],
  );
  const advice = useAdvice(jobs ?? [], jobs === null);
  const [down, setDown] = useState<ReadonlySet<string>>(new Set());
  if (jobs === null || advice === null) return <p class="awaited">Looking through the jobs on this bike…</p>;
  if (jobs.length === 0)
    return (
      <div class="stack">
        <p>No job has been done on this file yet.</p>
        <a class="link" href={writeRoute({ at: 'new' })}>
          New job
        </a>
      </div>
    );
  if (advice.why !== null) return <p>{advice.why}</p>;
  const offers = advice.offers.filter((offer) => !down.has(offer.id));
  const answer = (offer: Offer, taken: boolean): void => {
    setAnswers([...answers, happenedIn(offer.job, answerTo(offer, taken))]);
    if (!taken) setDown(new Set(down).add(offer.id));
  };
  if (offers.length === 0)
    return (
      <p>
        {countWords(jobs.length, 'job', 'jobs')} on this bike, and nothing in{' '}
        {jobs.length === 1 ? 'it' : 'them'} that the file does not say already.
      </p>
    );
  return (
    <ul class="differences">
      {offers.map((offer) => (
        <OneOffer key={offer.id} offer={offer} answer={(taken) => answer(offer, taken)} />
      ))}
    </ul>
  );
}

function OneOffer(props: { readonly offer: Offer; readonly answer: (taken: boolean) => void }): JSX.Element {
  const { offer } = props;
  const take = (): void => {
    const value = draft.value?.value;
    if (value === undefined) return;
    put(takeOffer(value, offer));
    props.answer(true);
  };
  return (
    <li>
      <p>
        <strong>{offer.label}</strong>
      </p>
      <dl class="two-say">
        <dt>found</dt>
        <dd class="figure">{offer.says}</dd>
        <dt>the file</dt>
        <dd class="figure">{offer.was ?? 'nothing yet'}</dd>
      </dl>
      <p class="quiet">{offer.why}</p>
      <div class="row">
        <Press act={take} label={`Take it: ${offer.label}`}>
          Take it
        </Press>
        <Press act={() => props.answer(false)} label={`No: ${offer.label}`}>
          No
        </Press>
      </div>
    </li>
  );
}
