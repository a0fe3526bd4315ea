/** Way in: what comes off, in which order, how long, when it can be ridden; planned from where the bike is now. */
import type { JSX } from 'preact';
import { PAGES } from '../pages.ts';
import { Fetched } from '../parts/fetched-page.tsx';
import { job } from '../state/job.ts';

/** The first words need little code and stand first; the plan's own comes below them. */
export function Way(): JSX.Element {
  return (
    <>
      <div class="stack wide way screen-only">
        <h1 tabIndex={-1}>
          Way in
          <Fetched of={PAGES.wayWork} quiet>
            {({ WayPlanning }) => <WayPlanning />}
          </Fetched>
        </h1>
        {!job.value.accepted && <p>The verdict is not accepted yet: this is planned for what it says now.</p>}
        <Fetched of={PAGES.wayWork} below={<p class="step">Opening…</p>}>
          {({ WayWork }) => <WayWork />}
        </Fetched>
      </div>
      <Fetched of={PAGES.wayWork} quiet>
        {({ WaySheet }) => <WaySheet />}
      </Fetched>
    </>
  );
}
