import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { writeRoute } from '../route.ts';
import { lookEarlier } from '../state/bike.ts';
import { earlier } from '../state/earlier.ts';
import { Fold } from './fold.tsx';

/** What earlier jobs on this bike left for this one: a strong locker, an old gasket, a record left out. */
export function EarlierLeft(): JSX.Element | null {
  useEffect(lookEarlier, []);
  if (earlier.value.length === 0) return null;
  return (
    <section class="stack tight" aria-labelledby="earlier-left">
      <h2 id="earlier-left">Left by earlier work on this bike</h2>
      {earlier.value.map(({ job, title, openedAt, deviations }) => (
        <Fold
          key={job}
          head={
            <>
              <b class="flag">▲</b> {openedAt.slice(0, 10)}, {title}: {deviations[0]?.says[0]}
            </>
          }
        >
          {() => (
            <div class="stack tight">
              {deviations.map(({ event, does, says, why }) => (
                <div key={event}>
                  <p class="ask">{does}</p>
                  {says.map((words) => (
                    <p key={words}>{words}</p>
                  ))}
                  {why && <p class="quiet">Because: {why}</p>}
                </div>
              ))}
              <a class="link" href={writeRoute({ at: 'job', job, station: 'bench', take: null })}>
                To that job
              </a>
            </div>
          )}
        </Fold>
      ))}
    </section>
  );
}
