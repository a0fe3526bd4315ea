/** Bench: one step at a time, in words and figures that are read from the lift, and one wide bar: done. */
import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { type HandsFree, keyAct } from '../hands-free.ts';
import type { Hands } from '../parts/bench-hands.tsx';
import { BenchLate } from '../parts/bench-late.tsx';
import { BenchStep } from '../parts/bench-step.tsx';
import { Fetched } from '../parts/fetched-page.tsx';
import { Later } from '../parts/later.tsx';
import { pictureOf } from '../parts/picture.tsx';
import { Press } from '../parts/press-button.tsx';
import { writeRoute } from '../route.ts';
import { countWords } from '../show.ts';
import { inHand, isDone, standing, steps, takeBack, tick, turn, turnTo } from '../state/bench.ts';
import { jobId } from '../state/job.ts';
import { route } from '../state/place.ts';
import { choice, lookAtWay, reply } from '../state/way.ts';
import '../style/bench.css';

export function Bench(): JSX.Element {
  useEffect(lookAtWay, []);
  const asked = route.value.at === 'job' ? route.value.take : null;
  useEffect(() => {
    if (asked !== null) turnTo(asked);
  }, [asked]);
  const plan = reply.value?.plan ?? null;
  const step = steps.value.find(({ id }) => id === inHand.value) ?? null;
  const way = writeRoute({ at: 'job', job: jobId.value ?? '', station: 'way', take: null });
  if (plan === null || step === null)
    return (
      <div class="stack at-bench">
        <h1 tabIndex={-1}>Bench</h1>
        {plan === null ? (
          <p class="step">
            {reply.value?.why ??
              (choice.value.targets.length === 0 ? 'Nothing is chosen to get to yet.' : 'Planning…')}
          </p>
        ) : (
          <p class="step">Every step is done. Now prove that it charges.</p>
        )}
        <BenchLate />
        <div class="row">
          {plan !== null && <Press act={() => turn(-1)}>Look back</Press>}
          <Press act={takeBack}>Undo</Press>
          <a class="link" href={way}>
            To the way in
          </a>
        </div>
        <Fetched of={openBelow} quiet>
          {({ BenchBelow }) => <BenchBelow step={null} hands={kept} set={() => undefined} says={null} />}
        </Fetched>
      </div>
    );
  return <AtStep key={step.id} id={step.id} />;
}

function AtStep(props: { readonly id: string }): JSX.Element | null {
  const [hands, setHands] = useHands();
  const [says, say] = useState<string | null>(null);
  const [again, setAgain] = useState(0);
  const step = steps.value.find(({ id }) => id === props.id);
  const plan = reply.value?.plan;
  const stands = standing(props.id);
  const done = isDone(props.id);
  const runs = step?.state === 'runs' && !done;
  const open =
    stands.asks.filter(({ met }) => !met).length + (stands.free ? 0 : Number(stands.waits.length > 0));
  const act = (what: HandsFree): void => {
    if (!step) return;
    if (what === 'back') turn(-1);
    else if (what === 'next') turn(1);
    else if (what === 'again') setAgain(again + 1);
    else if (done) turnTo(null);
    else if (stands.free) tick(step.id, 'stepDone');
    else showOpen();
  };
  const newest = useRef(act);
  newest.current = act;
  useEffect(() => {
    const key = (event: KeyboardEvent): void => {
      if (event.ctrlKey || event.altKey || event.metaKey || document.querySelector('[aria-modal="true"]'))
        return;
      const at = event.target instanceof Element ? event.target : document.body;
      const typing = at.matches('input, textarea, select');
      const what = keyAct(
        event.key,
        at.closest('button, a, summary, [tabindex="0"], [role="radio"]') !== null,
        typing,
      );
      if (what === null) return;
      event.preventDefault();
      // A pedal held down repeats; one push is one step.
      if (!event.repeat) newest.current(what);
    };
    addEventListener('keydown', key);
    return () => removeEventListener('keydown', key);
  }, []);
  useEffect(() => {
    // From the lift the step is read, not the head of the page.
    document.querySelector('.bench-place')?.scrollIntoView({ block: 'start' });
    document.querySelector<HTMLElement>('#bench-step')?.focus({ preventScroll: true });
  }, [props.id]);
  if (!step || !plan) return null;
  const number = steps.value.findIndex(({ id }) => id === step.id) + 1;
  return (
    <div class="stack at-bench">
      <section class="bench-place" aria-label="Where we are">
        {pictureOf(plan.strip)}
        <p>
          Step <b>{number}</b> of {steps.value.length} · ride from <b>{plan.p50}</b>
        </p>
      </section>
      <BenchLate />
      <BenchStep step={step} stands={stands} done={done} />
      <div class="row bench-turn">
        <Press label="Back: the step before" disabled={number === 1} act={() => turn(-1)}>
          ◂ Back
        </Press>
        <Press act={takeBack}>Undo</Press>
        <Press label="Next: the step after" disabled={number === steps.value.length} act={() => turn(1)}>
          Next ▸
        </Press>
      </div>
      <Later>
        {() => (
          <Fetched of={openBelow} quiet>
            {({ BenchBelow }) => <BenchBelow step={step} hands={hands} set={setHands} says={says} />}
          </Fetched>
        )}
      </Later>
      {(hands.speaks || hands.hears || again > 0) && (
        <Fetched of={openVoice} quiet>
          {({ BenchVoice }) => (
            <BenchVoice step={step} hands={hands} again={again} act={act} set={setHands} say={say} />
          )}
        </Fetched>
      )}
      <div class="bench-bar">
        {done ? (
          <>
            <Press class="tick" act={() => tick(step.id, 'stepUndone')}>
              Not after all
            </Press>
            <Press class="tick main" act={() => turnTo(null)}>
              Go on
            </Press>
          </>
        ) : runs ? (
          <Press class="tick main" label={`Over: ${step.does}`} act={() => tick(step.id, 'stepDone')}>
            It is over
          </Press>
        ) : (
          <>
            {step.alone && (
              <Press class="tick" label={`It runs now: ${step.does}`} act={() => tick(step.id, 'stepBegun')}>
                It runs now
              </Press>
            )}
            <Press class={stands.free ? 'tick main' : 'tick held-up'} act={() => act('done')}>
              {stands.free ? 'Done' : `◎ ${countWords(open, 'thing', 'things')} first`}
            </Press>
          </>
        )}
      </div>
    </div>
  );
}

const openVoice = () => import('../parts/bench-voice.tsx');
const openBelow = () => import('../parts/bench-below.tsx');

/** Kept while the app is open: a step's page is a new one each time. */
let kept: Hands = { speaks: false, hears: false, films: false };

function useHands(): [Hands, (change: Partial<Hands>) => void] {
  const [hands, setHands] = useState(kept);
  return [
    hands,
    (change) => {
      kept = { ...kept, ...change };
      setHands(kept);
    },
  ];
}

/** Goes to the first thing that is wanted before the step may be ticked. */
function showOpen(): void {
  const first = document.querySelector<HTMLElement>('.bench-ask.open h2, [aria-label="What comes first"]');
  first?.scrollIntoView({ block: 'start' });
  first?.focus({ preventScroll: true });
}
