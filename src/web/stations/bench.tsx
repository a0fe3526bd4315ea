/** Bench: one step at a time, in words and figures that are read from the lift, and one wide bar: done. */
import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { type HandsFree, keyAct } from '../hands-free.ts';
import { fetchAll } from '../pages.ts';
import { openForm } from '../parts/bench-ask.tsx';
import type { Hands } from '../parts/bench-hands.tsx';
import { BenchLate } from '../parts/bench-late.tsx';
import { BenchStep, openWhere } from '../parts/bench-step.tsx';
import { Fetched } from '../parts/fetched-page.tsx';
import { afterFrame, Later } from '../parts/later.tsx';
import { pictureOf } from '../parts/picture.tsx';
import { Press } from '../parts/press-button.tsx';
import { writeRoute } from '../route.ts';
import { countWords } from '../show.ts';
import {
  holdStep,
  inHand,
  isDone,
  locked,
  standing,
  steps,
  takeBack,
  tick,
  turn,
  turnTo,
} from '../state/bench.ts';
import { jobId } from '../state/job.ts';
import { route } from '../state/place.ts';
import { choice, lookAtWay, reply, settled } from '../state/way.ts';

export function Bench(): JSX.Element {
  useEffect(lookAtWay, []);
  const asked = route.value.at === 'job' ? route.value.take : null;
  useEffect(() => {
    if (asked !== null) turnTo(asked);
  }, [asked]);
  const plan = reply.value?.plan ?? null;
  const step = steps.value.find(({ id }) => id === inHand.value) ?? null;
  // What is drawn and asked at a step comes after its words, which have the line until then; what stands below waits for it
  // and is not pushed down.
  const [beside, setBeside] = useState(false);
  const stands = plan !== null && step !== null;
  useEffect(() => {
    if (!stands) return undefined;
    let here = true;
    void fetchAll([openForm, openWhere]).then(() => here && setBeside(true));
    return () => {
      here = false;
    };
  }, [stands]);
  return (
    <>
      {plan === null || step === null ? <NoStep /> : <AtStep key={step.id} id={step.id} beside={beside} />}
      {locked.value && (
        <Fetched of={openBelow} quiet>
          {({ BenchLock }) => <BenchLock />}
        </Fetched>
      )}
    </>
  );
}

/** Nothing is planned, or all is done. */
function NoStep(): JSX.Element {
  const plan = reply.value?.plan ?? null;
  // The step is on its way: what stands below it comes with it.
  const coming = plan === null && !reply.value?.why && choice.value.targets.length > 0;
  const to = (station: 'way' | 'proof') =>
    writeRoute({ at: 'job', job: jobId.value ?? '', station, take: null });
  return (
    <div class="stack at-bench">
      <h1 tabIndex={-1}>Bench</h1>
      {plan === null ? (
        <p class="step roomy">
          {reply.value?.why ??
            (choice.value.targets.length === 0 ? 'Nothing is chosen to get to yet.' : 'Planning…')}
        </p>
      ) : (
        <p class="step">Every step is done. Now prove that it charges.</p>
      )}
      <BenchLate />
      <div class="row">
        {plan !== null && <Press act={() => turn(-1)}>Look back</Press>}
        <Press act={() => afterFrame(takeBack)}>Undo</Press>
        <a class={plan === null ? 'link main' : 'link'} href={to('way')}>
          To the way in
        </a>
        {plan !== null && (
          <a class="link main" href={to('proof')}>
            To the proof
          </a>
        )}
      </div>
      {!coming && (
        <Later>
          {() => (
            <Fetched of={openBelow} quiet>
              {({ BenchBelow }) => <BenchBelow step={null} hands={kept} set={() => undefined} says={null} />}
            </Fetched>
          )}
        </Later>
      )}
    </div>
  );
}

function AtStep(props: { readonly id: string; readonly beside: boolean }): JSX.Element | null {
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
    // A wiped screen hears no pedal and no voice either.
    if (!step || locked.peek()) return;
    if (what === 'back') turn(-1);
    else if (what === 'next') turn(1);
    else if (what === 'again') setAgain(again + 1);
    else if (done) turnTo(null);
    else if (stands.free) tickHere('stepDone');
    else showOpen();
  };
  const ticking = useRef(false);
  // A pedal pushed twice at once is one tick.
  const tickHere = (what: Parameters<typeof tick>[1]): void => {
    if (ticking.current) return;
    ticking.current = true;
    afterFrame(() => {
      ticking.current = false;
      tick(props.id, what);
    });
  };
  const newest = useRef(act);
  newest.current = act;
  useEffect(() => {
    const key = (event: KeyboardEvent): void => {
      holdStep();
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
    <div class="stack at-bench" onPointerDownCapture={holdStep} onInputCapture={holdStep}>
      <Where number={number} />
      <BenchLate />
      <BenchStep step={step} stands={stands} done={done} beside={props.beside} />
      {props.beside && (
        <>
          <div class="row bench-turn">
            <Press label="Back: the step before" disabled={number === 1} act={() => turn(-1)}>
              ◂ Back
            </Press>
            <Press act={() => afterFrame(takeBack)}>Undo</Press>
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
        </>
      )}
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
            <Press class="tick" act={() => tickHere('stepUndone')}>
              Not after all
            </Press>
            <Press class="tick main" act={() => turnTo(null)}>
              Go on
            </Press>
          </>
        ) : runs ? (
          <Press class="tick main" label={`Over: ${step.does}`} act={() => tickHere('stepDone')}>
            It is over
          </Press>
        ) : (
          <>
            {step.alone && (
              <Press class="tick" label={`It runs now: ${step.does}`} act={() => tickHere('stepBegun')}>
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

/** The dip as a strip; busy while the plan does not know of the last tick yet, and the next step may still change. */
function Where(props: { readonly number: number }): JSX.Element | null {
  const plan = reply.value?.plan;
  if (!plan) return null;
  return (
    <section class="bench-place" aria-label="Where we are" aria-busy={!settled.value}>
      {pictureOf(plan.strip)}
      <p>
        Step <b>{props.number}</b> of {steps.value.length} · ride from <b>{plan.p50}</b>
      </p>
    </section>
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
