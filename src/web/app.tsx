import { effect } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { DEFERENCE } from '../paper/deference.ts';
import { later } from './browser.ts';
import { afterFirstScreen } from './first-screen.ts';
import { BELOW_PAGES, fetchPage, PAGES, STATION_PAGES } from './pages.ts';
import { Fetched } from './parts/fetched-page.tsx';
import { Head } from './parts/head.tsx';
import { Press } from './parts/press-button.tsx';
import { UndoBar } from './parts/undo-bar.tsx';
import type { Route } from './route.ts';
import { PLACE_NAMES, writeRoute } from './route.ts';
import { job, loading } from './state/job.ts';
import { machineFailure } from './state/machine-failure.ts';
import { route } from './state/place.ts';
import { Jobs, NewJob } from './stations/jobs.tsx';

function JobPage(props: { readonly here: Extract<Route, { at: 'job' }> }): JSX.Element {
  const state = loading.value;
  const station = props.here.station;
  useEffect(fetchStations, []);
  // The papers say what they are before the job is there.
  const paper = station === 'record' || station === 'owner';
  if (state.is === 'loading' && !paper) return <p class="step">Opening the job…</p>;
  if (state.is === 'failed') {
    return (
      <div class="stack">
        <h1 tabIndex={-1}>{state.missing ? 'No such job' : 'The job cannot be opened now'}</h1>
        <p class="step" role="alert">
          {state.why}
        </p>
        <a class="link" href={writeRoute({ at: 'jobs' })}>
          To the list of jobs
        </a>
      </div>
    );
  }
  return (
    <>
      {machineFailure.value !== null && (
        <p class="warn" role="alert">
          <b class="flag">▲ Caution</b> {machineFailure.value}
        </p>
      )}
      {station === 'complaint' && <Fetched of={PAGES.complaint}>{({ Complaint }) => <Complaint />}</Fetched>}
      {station === 'readings' && <Fetched of={PAGES.readings}>{({ Readings }) => <Readings />}</Fetched>}
      {station === 'verdict' && <Fetched of={PAGES.verdict}>{({ Verdict }) => <Verdict />}</Fetched>}
      {station === 'odds' && <Fetched of={PAGES.odds}>{({ Odds }) => <Odds />}</Fetched>}
      {station === 'way' && <Fetched of={PAGES.way}>{({ Way }) => <Way />}</Fetched>}
      {station === 'bench' && <Fetched of={PAGES.bench}>{({ Bench }) => <Bench />}</Fetched>}
      {station === 'proof' && <Fetched of={PAGES.proof}>{({ ProofStation }) => <ProofStation />}</Fetched>}
      {station === 'handover' && <Fetched of={PAGES.handover}>{({ Handover }) => <Handover />}</Fetched>}
      {station === 'record' && <Fetched of={PAGES.record}>{({ RecordPage }) => <RecordPage />}</Fetched>}
      {station === 'owner' && <Fetched of={PAGES.record}>{({ OwnerPage }) => <OwnerPage />}</Fetched>}
    </>
  );
}

// The page's code is asked for together with the job's entries, not after them.
effect(() => fetchPage(route.value));

/** How long the first page has the line and the processor to itself before the others are fetched, ms. */
const OTHERS_MS = 6000;
/** How long between two of them, ms: each is read in when it comes, and a finger must not wait for all. */
const BETWEEN_MS = 300;
/** The stations of a job, one after another once the first stands: the laptop may be switched off before the next is opened. */
function fetchStations(): () => void {
  const left = [...new Set([...Object.values(STATION_PAGES), ...Object.values(BELOW_PAGES)])];
  let stop = later(next, OTHERS_MS);
  function next(): void {
    void left
      .shift()?.()
      .catch(() => undefined);
    if (left.length > 0) stop = later(next, BETWEEN_MS);
  }
  return () => stop();
}

function Page(): JSX.Element {
  const here = route.value;
  switch (here.at) {
    case 'jobs':
      return <Jobs />;
    case 'new':
      return <NewJob />;
    case 'job':
      return <JobPage key={here.job} here={here} />;
    case 'machines':
      return <Fetched of={PAGES.machines}>{({ Machines }) => <Machines />}</Fetched>;
    case 'begin':
      return <Fetched of={PAGES.begin}>{({ Begin }) => <Begin />}</Fetched>;
    case 'machine':
      return (
        <Fetched of={PAGES.machine}>
          {({ MachinePage }) => (
            <MachinePage key={here.machine} id={here.machine} part={here.part} field={here.field} />
          )}
        </Fetched>
      );
    case 'ride':
      return (
        <Fetched of={PAGES.ride}>{({ Ride }) => <Ride key={here.machine} machine={here.machine} />}</Fetched>
      );
    case 'devices':
      return <Fetched of={PAGES.devices}>{({ Devices }) => <Devices />}</Fetched>;
    case 'pair':
      return <Fetched of={PAGES.devices}>{({ Pair }) => <Pair secret={here.secret} />}</Fetched>;
    case 'self-test':
      return <Fetched of={PAGES.devices}>{({ SelfTest }) => <SelfTest />}</Fetched>;
    case 'sums':
      return <Fetched of={PAGES.sums}>{({ Sums }) => <Sums />}</Fetched>;
    case 'sum':
      return <Fetched of={PAGES.sums}>{({ SumPage }) => <SumPage id={here.sum} />}</Fetched>;
    case 'nowhere':
      return (
        <div class="stack">
          <h1 tabIndex={-1}>Nothing is here</h1>
          <p class="step">The address “{here.path}” leads nowhere in this version.</p>
          <a class="link" href={writeRoute({ at: 'jobs' })}>
            To the list of jobs
          </a>
        </div>
      );
  }
}

/** How long a page that is not of a job has the line to itself before the clocks of the jobs are fetched, ms. */
const CLOCKS_MS = 1500;

/** The clocks stand on every page. A page of a job has them as soon as it stands; the others have time. */
function Clocks(): JSX.Element | null {
  const inJob = route.value.at === 'job';
  const [wanted, want] = useState(false);
  useEffect(() => {
    if (wanted) return;
    if (!inJob) return later(() => want(true), CLOCKS_MS);
    let here = true;
    afterFirstScreen(() => here && want(true));
    return () => {
      here = false;
    };
  }, [inJob, wanted]);
  if (!wanted) return null;
  return (
    <Fetched of={PAGES.clocks} quiet>
      {({ BenchClocks }) => <BenchClocks />}
    </Fetched>
  );
}

/** What makes a page another one than the page before it. */
function placeOf(here: Route): string {
  switch (here.at) {
    case 'job':
      return `${here.job} ${here.station}`;
    case 'sum':
      return `sum ${here.sum}`;
    case 'machine':
      return `machine ${here.machine} ${here.part}`;
    case 'ride':
      return `ride ${here.machine}`;
    default:
      return here.at;
  }
}

function titleOf(here: Route): string {
  if (here.at === 'job')
    return `${PLACE_NAMES[here.station]} · ${job.value.opened?.title ?? 'job'} · Chargewright`;
  if (here.at === 'machines' || here.at === 'machine' || here.at === 'begin')
    return 'Machine files · Chargewright';
  if (here.at === 'ride') return 'Ride balance · Chargewright';
  if (here.at === 'devices' || here.at === 'pair' || here.at === 'self-test') return 'Devices · Chargewright';
  if (here.at === 'sums' || here.at === 'sum') return 'Sums · Chargewright';
  return here.at === 'new' ? 'New job · Chargewright' : 'Jobs · Chargewright';
}

export function App(): JSX.Element {
  const here = route.value;
  const place = placeOf(here);
  const shown = useRef(place);
  const title = titleOf(here);
  useEffect(() => {
    document.title = title;
  }, [title]);
  useEffect(() => {
    if (shown.current === place) return;
    shown.current = place;
    // A new page is read from its top, by eye and by ear.
    scrollTo(0, 0);
    document.querySelector<HTMLElement>('h1')?.focus({ preventScroll: true });
  }, [place]);
  return (
    <div class="frame">
      <Press class="skip" act={toWork}>
        To the work
      </Press>
      <Head />
      <main id="main" class="body" tabIndex={-1}>
        <Clocks />
        <Page />
      </main>
      <footer class="foot">
        <p class="deference">{DEFERENCE}</p>
      </footer>
      <UndoBar />
    </div>
  );
}

/** A link would do, but the address after # belongs to the stations. */
function toWork(): void {
  document.querySelector<HTMLElement>('main')?.focus();
}
