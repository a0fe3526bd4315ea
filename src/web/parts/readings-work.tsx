/** The station Readings below its heading: the reading at hand, the keys, where the tips go, what was read. */
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { capital } from '../show.ts';
import { chosen, picking, unknownKey } from '../state/taking.ts';
import { answer, failure, thinking } from '../state/verdict.ts';
import { leadOf } from '../words/lead.ts';
import { Branches } from './branches.tsx';
import { Doubts } from './doubtful.tsx';
import { Guessed } from './guessed.tsx';
import { Later } from './later.tsx';
import { Misfit } from './misfit.tsx';
import { Picture } from './reading-picture.tsx';
import { Hand, List, Task } from './reading-task.tsx';
import { TakenList } from './taken-list.tsx';
import { WorkingOut } from './working-out.tsx';

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
  if (thinking.value || answer.value === null) return <WorkingOut />;
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
        <Later>
          {() => (
            <>
              <span class="quiet">So far ·</span> {lead.opening}: <b>{lead.what}</b>,{' '}
              <span class="whole">{lead.share}</span>.
            </>
          )}
        </Later>
      )}
    </p>
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

export function ReadingsWork(): JSX.Element {
  useEffect(
    () => () => {
      picking.value = null;
    },
    [],
  );
  // What stands below the reading at hand waits for the first one: it would be pushed away under the finger.
  const seen = chosen.value !== null || answer.value !== null || failure.value !== null;
  const once = useRef(false);
  once.current ||= seen || unknownKey.value !== null;
  const settled = once.current;
  return (
    <>
      {answer.value && <Misfit got={answer.value} />}
      <Doubts />
      <div class="bench">
        <Task thinking={thinking.value} nothing={{ title: nothingTitle(), says: <Nothing /> }} />
        <div class="hand stack">{settled && <Later>{() => <Hand />}</Later>}</div>
        <List />
        <SoFar />
        <section id="picture" class="picture" aria-label="Where the tips go">
          {settled && <Later>{() => <Picture />}</Later>}
        </section>
        <Later>{() => <Next />}</Later>
        <Later>{() => <Guessed link />}</Later>
        {settled && (
          <section class="taken" aria-labelledby="taken">
            <h2 id="taken">Readings taken</h2>
            <Later>{() => <TakenList />}</Later>
          </section>
        )}
      </div>
    </>
  );
}
