import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { describeKey } from '../keys.ts';
import { chosen, picking, proposed, takeReading } from '../state/taking.ts';
import { EntryPad } from './entry-pad.tsx';
import { Fetched } from './fetched-page.tsx';
import { Effort, HowTo } from './how-to.tsx';
import { Later } from './later.tsx';
import { Press } from './press-button.tsx';
import { States } from './states.tsx';

const openPicker = () => import('./picker.tsx');

/** Brings a part of the page to its top. */
export function scrollTo(id: string): void {
  document.getElementById(id)?.scrollIntoView({ block: 'start' });
}

/** The reading at hand and how it is taken; `nothing` stands there when none is. */
export function Task(props: {
  readonly thinking: boolean;
  readonly nothing: { readonly title: string; readonly says: JSX.Element };
}): JSX.Element {
  const now = chosen.value;
  const isProposed = now !== null && now.key === proposed.value;
  return (
    <section class="task stack tight" aria-labelledby="task">
      {/* Another head than the one that says "one moment": nothing in it moves when the reading comes. */}
      <div key={now === null ? 'none' : 'reading'} class="task-head">
        <div>
          <p class="kicker">
            {now === null || isProposed ? 'Next reading' : 'Your choice'}
            {now && (
              <span class="quiet">
                {' · '}
                <Effort chosen={now} />
              </span>
            )}
            {props.thinking && <span class="quiet"> · thinking…</span>}
          </p>
          <h2 id="task" class="task-title">
            {now ? describeKey(now.key) : props.nothing.title}
          </h2>
        </div>
        {now && now.kind.unit !== 'seen' && (
          <div class="jumps">
            <Press act={() => scrollTo('pad')}>To the keys</Press>
            <Press act={() => scrollTo('picture')}>Where the tips go</Press>
          </div>
        )}
        {now && <States key={now.kind.id} chosen={now} proposed={isProposed} />}
      </div>
      {now === null ? props.nothing.says : <Later>{() => <HowTo chosen={now} />}</Later>}
    </section>
  );
}

/** Other readings than the one at hand. */
function Others(): JSX.Element {
  const now = chosen.value;
  const isProposed = now !== null && now.key === proposed.value;
  const open = picking.value;
  return (
    <div class="others">
      <Press
        expanded={open !== null}
        controls="picker"
        act={() => {
          picking.value = open ? null : { about: null };
        }}
      >
        {open ? 'Close the list' : 'Take another reading'}
      </Press>
      {!isProposed && proposed.value !== null && (
        <Press act={() => takeReading(null)}>Back to the proposed one</Press>
      )}
    </div>
  );
}

/** The catalogue, when it is open. */
export function List(): JSX.Element {
  const open = picking.value;
  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (open) list.current?.scrollIntoView({ block: 'start' });
  }, [open]);
  return (
    <div id="picker" ref={list} hidden={open === null}>
      {open && <Fetched of={openPicker}>{({ Picker }) => <Picker about={open.about} />}</Fetched>}
    </div>
  );
}

/** The keys stay while the next reading is worked out, only out of sight: they need not be built again. */
export function Hand(): JSX.Element {
  const now = chosen.value;
  const last = useRef(now);
  if (now) last.current = now;
  const shown = now ?? last.current;
  return (
    <>
      {shown && (
        <div hidden={now === null}>
          <EntryPad chosen={shown} />
        </div>
      )}
      <Others />
    </>
  );
}
