import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { describeKey } from '../keys.ts';
import { Branches } from '../parts/branches.tsx';
import { Doubts } from '../parts/doubtful.tsx';
import { EntryPad } from '../parts/entry-pad.tsx';
import { Effort, HowTo } from '../parts/how-to.tsx';
import { Later } from '../parts/later.tsx';
import { LoopFigure } from '../parts/loop-figure.tsx';
import { Misfit } from '../parts/misfit.tsx';
import { Picker } from '../parts/picker.tsx';
import { Press } from '../parts/press-button.tsx';
import { States } from '../parts/states.tsx';
import { TakenList } from '../parts/taken-list.tsx';
import { capital } from '../show.ts';
import { chosen, pickAbout, picking, proposed, takeReading, unknownKey } from '../state/taking.ts';
import { answer, failure, thinking } from '../state/verdict.ts';
import { leadOf } from '../words/lead.ts';

function nothingTitle(): string {
  if (unknownKey.value !== null) return 'No such reading';
  if (failure.value === null && (thinking.value || answer.value === null)) return 'One moment';
  return 'No reading proposed';
}

function Nothing(): JSX.Element {
  if (unknownKey.value !== null)
    return (
      <p class="step">
        This version knows no reading called “{unknownKey.value}” for this bike. Pick another one.
      </p>
    );
  if (failure.value !== null)
    return <p class="step">No proposal: {failure.value} Pick a reading yourself.</p>;
  if (thinking.value || answer.value === null) return <p class="step">Working out what to read next…</p>;
  return (
    <p class="step">
      No reading is worth its minutes any more: go to the Verdict and act on it. You can still take any other
      reading.
    </p>
  );
}

/** The verdict so far in a line, said anew whenever it changes. */
function SoFar(): JSX.Element {
  const got = answer.value;
  const lead = got && leadOf(got);
  return (
    <p class="so-far" aria-live="polite">
      {lead && (
        <>
          <span class="quiet">So far ·</span> {lead.opening}: <b>{lead.what}</b>,{' '}
          <span class="whole">{lead.share}</span>.
        </>
      )}
    </p>
  );
}

function scrollTo(id: string): void {
  document.getElementById(id)?.scrollIntoView({ block: 'start' });
}

function Task(): JSX.Element {
  const now = chosen.value;
  const isProposed = now !== null && now.key === proposed.value;
  return (
    <section class="task stack tight" aria-labelledby="task">
      <div class="task-head">
        <div>
          <p class="kicker">
            {now === null || isProposed ? 'Next reading' : 'Your choice'}
            {now && (
              <span class="quiet">
                {' · '}
                <Effort chosen={now} />
              </span>
            )}
            {thinking.value && <span class="quiet"> · thinking…</span>}
          </p>
          <h2 id="task" class="task-title">
            {now ? describeKey(now.key) : nothingTitle()}
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
      {now === null ? <Nothing /> : <Later>{() => <HowTo chosen={now} />}</Later>}
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

function List(): JSX.Element {
  const open = picking.value;
  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (open) list.current?.scrollIntoView({ block: 'start' });
  }, [open]);
  return (
    <div id="picker" ref={list} hidden={open === null}>
      {open && <Picker about={open.about} />}
    </div>
  );
}

function Picture(): JSX.Element {
  const now = chosen.value;
  return (
    <>
      <LoopFigure chosen={now} pick={pickAbout} />
      {now && (
        <p class="jumps">
          <Press act={() => scrollTo('pad')}>Back to the keys</Press>
        </p>
      )}
    </>
  );
}

/** What the answers to the proposed reading would change. */
function Next(): JSX.Element | null {
  const next = answer.value?.next;
  if (!next || chosen.value?.key !== next.key) return null;
  return (
    <section class="branches" aria-labelledby="branches">
      <h2 id="branches">{next.branches.length > 0 ? 'What each answer would change' : 'Why this reading'}</h2>
      <p>{capital(next.why.replace('ten times out', 'out by a factor of ten'))}.</p>
      <Branches branches={next.branches} />
    </section>
  );
}

/** The keys stay while the next reading is worked out, only out of sight: they need not be built again. */
function Hand(): JSX.Element {
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

export function Readings(): JSX.Element {
  useEffect(
    () => () => {
      picking.value = null;
    },
    [],
  );
  return (
    <>
      <h1 tabIndex={-1} class="unseen">
        Readings
      </h1>
      {answer.value && <Misfit got={answer.value} />}
      <Doubts />
      <div class="bench">
        <SoFar />
        <Task />
        <div class="hand stack">
          <Later>{() => <Hand />}</Later>
        </div>
        <List />
        <section id="picture" class="picture" aria-label="Where the tips go">
          <Later>{() => <Picture />}</Later>
        </section>
        <Later>{() => <Next />}</Later>
        <section class="taken" aria-labelledby="taken">
          <h2 id="taken">Readings taken</h2>
          <Later>{() => <TakenList />}</Later>
        </section>
      </div>
    </>
  );
}
