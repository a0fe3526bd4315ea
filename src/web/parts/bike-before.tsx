import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { REPAIRS } from '../../fault/repairs.ts';
import type { JobState } from '../../job/fold.ts';
import { allRepairs } from '../../proof/repaired.ts';
import { writeRoute } from '../route.ts';
import { listWords, small } from '../show.ts';
import { earlierJobs, lookEarlier } from '../state/bike.ts';

/** What became of an earlier job, in a sentence. */
function cameOf(state: JobState): string {
  const { made, said } = state.proof;
  if (made === null) return 'No repair was written down.';
  const done = allRepairs(state).map((id) => small(REPAIRS[id as keyof typeof REPAIRS]?.title ?? id));
  const what = done.length === 0 ? 'nothing was repaired' : listWords(done);
  const proven = said === null ? 'never proven' : said.proven ? 'proven' : 'closed as not proven';
  return `Done: ${what}; ${proven}.`;
}

/** This bike was here before: a job begins from what is known of it. Nothing where it was not. */
export function BikeBefore(): JSX.Element | null {
  useEffect(lookEarlier, []);
  const jobs = earlierJobs.value;
  if (jobs.length === 0) return null;
  return (
    <section class="stack tight" aria-labelledby="before">
      <h2 id="before">This bike was here before</h2>
      <ul class="job-list">
        {jobs.map(({ job, title, openedAt, state }) => (
          <li key={job}>
            <a class="link plain" href={writeRoute({ at: 'job', job, station: 'handover', take: null })}>
              <span>
                {openedAt.slice(0, 10)}, {title}
                <span class="under">{cameOf(state)}</span>
              </span>
            </a>
          </li>
        ))}
      </ul>
      <p class="quiet">
        What was done otherwise then is told again on the Way in; its readings stand beside this job’s on the
        Handover.
      </p>
    </section>
  );
}
