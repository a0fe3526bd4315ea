import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { TEXT_LIMITS } from '../../job/event-rule.ts';
import { MULTIMETER_ONLY } from '../../job/fold.ts';
import { SYMPTOMS, symptomTitle } from '../../verdict/symptom-words.ts';
import { later } from '../browser.ts';
import { machineTitle, nameplate } from '../nameplate.ts';
import { Fetched } from '../parts/fetched-page.tsx';
import { Fig } from '../parts/fig.tsx';
import { Guessed } from '../parts/guessed.tsx';
import { Press } from '../parts/press-button.tsx';
import { writeRoute } from '../route.ts';
import { happened, job, jobId } from '../state/job.ts';
import { machine } from '../state/machine.ts';
import { DRAWER } from '../words/tools.ts';

/** A pause in writing after which the words are kept, ms. */
const PAUSE_MS = 1500;

function Words(): JSX.Element {
  const kept = job.value.complaint?.words ?? '';
  const [text, setText] = useState(kept);
  const [touched, setTouched] = useState(false);
  const now = useRef({ text, kept, touched });
  now.current = { text, kept, touched };
  // What another window wrote comes in as long as nobody writes here.
  useEffect(() => {
    if (!touched) setText(kept);
  }, [kept, touched]);
  const keep = (): void => {
    const { text, kept, touched } = now.current;
    if (!touched || text === kept) return;
    happened({ type: 'complaintHeard', words: text, symptoms: job.peek().complaint?.symptoms ?? [] });
    setTouched(false);
  };
  useEffect(() => (touched ? later(keep, PAUSE_MS) : undefined), [text, touched]);
  useEffect(() => {
    addEventListener('pagehide', keep);
    return () => {
      removeEventListener('pagehide', keep);
      keep();
    };
  }, []);
  return (
    <label class="field">
      <span>In the owner's words</span>
      <textarea
        rows={6}
        maxLength={TEXT_LIMITS.words}
        value={text}
        placeholder="What it does, when it began, what was changed before."
        onInput={(event) => {
          setTouched(true);
          setText(event.currentTarget.value);
        }}
        onBlur={keep}
      />
    </label>
  );
}

function Symptoms(): JSX.Element {
  const heard = job.value.complaint;
  const ticked = heard?.symptoms ?? [];
  const all = [...SYMPTOMS, ...ticked.filter((word) => !SYMPTOMS.some((known) => known === word))];
  const toggle = (word: string): void => {
    const symptoms = ticked.includes(word) ? ticked.filter((other) => other !== word) : [...ticked, word];
    happened({ type: 'complaintHeard', words: heard?.words ?? '', symptoms });
  };
  return (
    <section aria-labelledby="symptoms" class="stack tight">
      <h2 id="symptoms">What it does</h2>
      <div class="toggles">
        {all.map((word) => (
          <Press key={word} pressed={ticked.includes(word)} act={() => toggle(word)}>
            {symptomTitle(word)}
          </Press>
        ))}
      </div>
    </section>
  );
}

function Drawer(): JSX.Element {
  const tools = job.value.tools ?? MULTIMETER_ONLY;
  const { clamp, loadTester, hydrometer, supply } = tools;
  return (
    <section aria-labelledby="tools" class="stack tight">
      <h2 id="tools">At hand, besides a multimeter</h2>
      <div class="toggles">
        {DRAWER.map(({ id, title, use }) => (
          <Press
            key={id}
            pressed={tools[id]}
            act={() =>
              happened({ type: 'toolsDeclared', clamp, loadTester, hydrometer, supply, [id]: !tools[id] })
            }
          >
            <span>
              {title}
              <span class="under">{use}</span>
            </span>
          </Press>
        ))}
      </div>
    </section>
  );
}

function Nameplate(): JSX.Element | null {
  const known = machine.value;
  if (!known) return null;
  return (
    <section aria-labelledby="plate" class="stack tight">
      <h2 id="plate">{machineTitle(known.machine)}</h2>
      {known.machine.about.invented && (
        <p class="quiet">An invented bike: no such maker, model or figure exists.</p>
      )}
      <dl class="plate">
        {nameplate(known.machine).map(({ what, figure, source }) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>
              {/\d/.test(figure) ? <Fig text={figure} /> : figure}
              <span class="under">{source}</span>
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

const openBefore = () => import('../parts/bike-before.tsx');

export function Complaint(): JSX.Element {
  return (
    <>
      <h1 tabIndex={-1}>Complaint</h1>
      <div class="halves">
        <div class="stack wide">
          <Words key={jobId.value ?? ''} />
          <Symptoms />
          <Drawer />
          <a
            class="link main"
            href={writeRoute({ at: 'job', job: jobId.value ?? '', station: 'readings', take: null })}
          >
            On to the readings →
          </a>
        </div>
        <div class="stack">
          <Nameplate />
          <Guessed link />
          <Fetched of={openBefore} quiet>
            {({ BikeBefore }) => <BikeBefore />}
          </Fetched>
        </div>
      </div>
    </>
  );
}
