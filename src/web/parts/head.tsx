import type { JSX } from 'preact';
import { PLACE_NAMES, type Place, STATIONS, stationOf, writeRoute } from '../route.ts';
import { job } from '../state/job.ts';
import { route } from '../state/place.ts';
import { ClockApart, Refused, Saved } from './saved.tsx';
import { ThemeChoice } from './theme-choice.tsx';

function Stations(props: { readonly id: string; readonly station: Place }): JSX.Element {
  return (
    <nav class="stations" aria-label="Stations of this job">
      <ul>
        {STATIONS.map((station) => (
          <li key={station}>
            <a
              class="link"
              href={writeRoute({ at: 'job', job: props.id, station, take: null })}
              aria-current={
                station === props.station ? 'page' : station === stationOf(props.station) ? 'true' : undefined
              }
            >
              {PLACE_NAMES[station]}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

/** The head of every page: where one is, whether all is kept, the stations. */
export function Head(): JSX.Element {
  const here = route.value;
  const opened = job.value.opened;
  return (
    <header class="head">
      <div class="masthead">
        <a class="name" href={writeRoute({ at: 'jobs' })}>
          <span aria-hidden="true">↺</span> Chargewright
        </a>
        {here.at === 'job' && (
          <>
            <p class="which">
              {opened ? opened.title : 'Job'}
              {opened?.invented && <span class="quiet"> · demo, all invented</span>}
            </p>
            <Stations id={here.job} station={here.station} />
          </>
        )}
        <Saved />
        <ThemeChoice />
      </div>
      <Refused />
      <ClockApart />
    </header>
  );
}
