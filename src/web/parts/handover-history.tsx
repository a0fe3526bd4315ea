import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { seriesOf } from '../../bike/series.ts';
import { drawSeries } from '../../draw/series-chart.ts';
import { writeKey } from '../../reading/key.ts';
import { showValue } from '../../reading/say-value.ts';
import { describeKey, kindOf } from '../keys.ts';
import { writeRoute } from '../route.ts';
import { showTime } from '../show.ts';
import { earlierJobs, lookEarlier } from '../state/bike.ts';
import { job } from '../state/job.ts';
import { Fold } from './fold.tsx';
import { pictureOf } from './picture.tsx';

/** Charts shown before the rest is folded away. */
const FIRST = 3;

/** The jobs of one bike and its readings over the years. */
export function HandoverHistory(): JSX.Element {
  useEffect(lookEarlier, []);
  const jobs = earlierJobs.value;
  const series = seriesOf([...jobs.map(({ state }) => state), job.value]);
  const chart = (one: (typeof series)[number]): JSX.Element => {
    const key = writeKey(one.key);
    const title = describeKey(key);
    const unit = kindOf(key)?.unit ?? '';
    return (
      <figure key={key} class="curves">
        <figcaption>{title}</figcaption>
        {pictureOf(drawSeries(one, { title, unit }, 'narrow'))}
        <Fold head="In figures">
          {() => (
            <ul class="learned">
              {one.points.map(({ at, value, repaired, job: of }) => (
                <li key={`${of} ${at}`}>
                  <b class="figure">{kindOf(key) ? showValue(value, kindOf(key)!.unit) : value}</b>{' '}
                  {repaired ? 'repaired' : 'as found'}, {showTime(new Date(at).toISOString(), new Date())}
                </li>
              ))}
            </ul>
          )}
        </Fold>
      </figure>
    );
  };
  return (
    <section class="stack tight" aria-labelledby="history">
      <h2 id="history">This bike over the years</h2>
      {jobs.length === 0 && <p>No earlier job on this machine file is known here.</p>}
      {jobs.length > 0 && (
        <ul class="learned">
          {jobs.map(({ job: id, title, openedAt }) => (
            <li key={id}>
              <a class="link" href={writeRoute({ at: 'job', job: id, station: 'handover', take: null })}>
                {openedAt.slice(0, 10)}, {title}
              </a>
            </li>
          ))}
        </ul>
      )}
      {series.length === 0 ? (
        <p class="quiet">
          A reading that was taken twice, before and after a repair or in two jobs, makes a chart here.
        </p>
      ) : (
        <div class="small-charts">{series.slice(0, FIRST).map(chart)}</div>
      )}
      {series.length > FIRST && (
        <Fold head={`${series.length - FIRST} more`}>
          {() => <div class="small-charts">{series.slice(FIRST).map(chart)}</div>}
        </Fold>
      )}
    </section>
  );
}
