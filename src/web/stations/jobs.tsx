import type { JSX } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { TEXT_LIMITS } from '../../job/event-rule.ts';
import { useGrowing } from '../parts/later.tsx';
import { Press } from '../parts/press-button.tsx';
import { writeRoute } from '../route.ts';
import { fetchJobs, fetchMachines, type JobLine, type MachineLine, readJobLines } from '../server.ts';
import { countWords, showTime } from '../show.ts';
import { openNewJob, waiting } from '../state/job.ts';
import { kept, remembered } from '../state/kept.ts';
import { go } from '../state/place.ts';
import { newerBuild, useNewer } from '../state/shell.ts';

/** Asks once at the start and again whenever the window is looked at. */
function useAnswer<T>(ask: () => Promise<T & { readonly ok: boolean }>): T | null {
  const [got, setGot] = useState<(T & { readonly ok: boolean }) | null>(null);
  useEffect(() => {
    let here = true;
    const load = (): void => {
      void ask().then((answer) => here && setGot((old) => (answer.ok || !old?.ok ? answer : old)));
    };
    load();
    addEventListener('focus', load);
    addEventListener('online', load);
    return () => {
      here = false;
      removeEventListener('focus', load);
      removeEventListener('online', load);
    };
  }, []);
  return got;
}

/** The list as it was last seen, at once, then as the laptop has it; `old` once it is known not to answer. */
function useJobLines(): {
  readonly lines: readonly JobLine[] | null;
  readonly old: boolean;
  readonly why: string | null;
} {
  const [seen, setSeen] = useState<readonly JobLine[] | null>(null);
  const got = useAnswer(listJobs);
  useEffect(() => {
    let here = true;
    void kept
      .text('jobs')
      .catch(() => null)
      .then((text) => here && text !== null && setSeen(readJobLines(text)));
    return () => {
      here = false;
    };
  }, []);
  const now = useMemo(() => (got?.ok ? readJobLines(got.body) : null), [got]);
  return {
    lines: now ?? seen,
    old: got?.ok === true && 'old' in got,
    why: got?.ok === false ? got.why : null,
  };
}

const listJobs = () => remembered('jobs', fetchJobs);

/** Jobs opened here that the laptop has not heard of yet. */
function unsent(known: readonly JobLine[]): readonly { readonly job: string; readonly title: string }[] {
  return waiting.value.flatMap(({ job, event }) =>
    event.type === 'jobOpened' && !known.some((line) => line.job === job)
      ? [{ job, title: event.title }]
      : [],
  );
}

export function Jobs(): JSX.Element {
  const { lines: known, old, why } = useJobLines();
  const all = known ?? [];
  // A few at once: five hundred lines would hold up the first screen of a slow phone.
  const lines = all.slice(0, useGrowing(all.length, 25));
  const today = new Date();
  const href = (job: string): string => writeRoute({ at: 'job', job, station: 'readings', take: null });
  return (
    <div class="stack wide">
      <h1 tabIndex={-1}>Jobs</h1>
      {known === null && why === null && <p>Looking at what is on the laptop…</p>}
      {why !== null && (
        <p class="warn" role="alert">
          <b class="flag">▲ Caution</b> {why}
        </p>
      )}
      {newerBuild.value && (
        <div class="row">
          <p>A newer version of Chargewright is here.</p>
          <Press act={useNewer}>Use it now</Press>
        </div>
      )}
      {old && (
        <p>
          <b class="flag">▲</b> The laptop does not answer: this is the list as it was last seen. Jobs opened
          on this device before can be worked on.
        </p>
      )}
      {known !== null && all.length === 0 && <p>No job yet. Open one on the bike that stands on the lift.</p>}
      <ul class="job-list">
        {unsent(all).map(({ job, title }) => (
          <li key={job}>
            <a class="link plain" href={href(job)}>
              <span>
                {title}
                <span class="under">▲ not on the laptop yet</span>
              </span>
            </a>
          </li>
        ))}
        {lines.map((line) => (
          <li key={line.job}>
            <a class="link plain" href={href(line.job)}>
              <span>
                {line.title}
                <span class="under">
                  {countWords(line.readings, 'reading', 'readings')}
                  {line.accepted ? ', verdict accepted' : ''}, last touched {showTime(line.lastAt, today)}
                  {line.invented ? ' · demo, everything in it is invented' : ''}
                </span>
              </span>
            </a>
          </li>
        ))}
      </ul>
      {/* It waits for what stands above: nothing moves away from a finger. */}
      {(known !== null || why !== null) && (
        <div class="row">
          <a class="link main" href={writeRoute({ at: 'new' })}>
            Open a new job
          </a>
          <a class="link" href={writeRoute({ at: 'sums' })}>
            Sums
          </a>
          <a class="link" href={writeRoute({ at: 'machines' })}>
            Machine files
          </a>
          <a class="link" href={writeRoute({ at: 'devices' })}>
            Devices
          </a>
        </div>
      )}
    </div>
  );
}

export function NewJob(): JSX.Element {
  const got = useAnswer(fetchMachines);
  const [chosen, choose] = useState<MachineLine | null>(null);
  const [title, setTitle] = useState('');
  const [trouble, setTrouble] = useState<string | null>(null);
  const open = (): void => {
    if (!chosen) {
      setTrouble('Choose the machine first: the readings are judged by its figures.');
      return;
    }
    const said = title.trim() || `${chosen.name}, will not stay charged`;
    const job = openNewJob(chosen.id, said, false);
    go({ at: 'job', job, station: 'complaint', take: null });
  };
  return (
    <div class="stack wide narrow">
      <h1 tabIndex={-1}>Open a new job</h1>
      {got === null && <p>Looking for machine files on the laptop…</p>}
      {got?.ok === false && (
        <p class="warn" role="alert">
          <b class="flag">▲ Caution</b> {got.why}
        </p>
      )}
      {got?.ok && (
        <section class="stack tight" aria-labelledby="machines">
          <h2 id="machines">Which machine?</h2>
          <div class="toggles">
            {got.body.map((machine) => (
              <Press
                key={machine.id}
                pressed={chosen?.id === machine.id}
                disabled={machine.problem !== null}
                act={() => {
                  choose(machine);
                  setTrouble(null);
                }}
              >
                <span>
                  {machine.name}
                  {machine.invented && <span class="under">invented bike</span>}
                  {machine.problem !== null && <span class="under">▲ {machine.problem}</span>}
                </span>
              </Press>
            ))}
          </div>
          {got.body.length === 0 && <p>There is no machine file in the folder “machines” on the laptop.</p>}
          <p class="row">
            <a class="link" href={writeRoute({ at: 'begin' })}>
              None of these: begin with your own bike
            </a>
          </p>
        </section>
      )}
      {/* It waits for what stands above: nothing moves away from a finger. */}
      {got !== null && (
        <>
          <label class="field">
            <span>A name for the job, if you like</span>
            <input
              value={title}
              maxLength={TEXT_LIMITS.title}
              placeholder={chosen ? `${chosen.name}, will not stay charged` : 'Whose bike, what it does'}
              onInput={(event) => setTitle(event.currentTarget.value)}
            />
          </label>
          <div class="row">
            <Press class="main" act={open}>
              Open the job
            </Press>
            <a class="link" href={writeRoute({ at: 'jobs' })}>
              Back to the jobs
            </a>
          </div>
        </>
      )}
      {/* Below the buttons, so that nothing under the finger moves when it comes and goes. */}
      {trouble && (
        <p class="warn" role="alert">
          <b class="flag">▲ Caution</b> {trouble}
        </p>
      )}
    </div>
  );
}
