import type { JSX } from 'preact';
import { PAGES } from '../pages.ts';
import { Fetched } from '../parts/fetched-page.tsx';
import { WorkingOut } from '../parts/working-out.tsx';
import { route } from '../state/place.ts';

/** Readings: the next reading worth its minutes, and any other. The first words stand before the code that takes a reading. */
export function Readings(): JSX.Element {
  return (
    <>
      <h1 tabIndex={-1} class="unseen">
        Readings
      </h1>
      <Fetched of={PAGES.readingsWork} below={<Coming />}>
        {({ ReadingsWork }) => <ReadingsWork />}
      </Fetched>
    </>
  );
}

/** Laid out as what comes in its place: nothing moves when that does. */
function Coming(): JSX.Element {
  const take = route.value.at === 'job' ? route.value.take : null;
  return (
    <div class="bench">
      <section class="task stack tight" aria-labelledby="task">
        <div class="task-head">
          <div>
            <p class="kicker">{take === null ? 'Next reading' : 'Your choice'}</p>
            <h2 id="task" class="task-title">
              One moment
            </h2>
          </div>
        </div>
        {take === null ? <WorkingOut /> : <p class="step">Opening…</p>}
      </section>
      <p class="so-far" />
    </div>
  );
}
