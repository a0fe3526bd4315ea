import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { FAULTS } from '../../fault/faults.ts';
import { REPAIRS } from '../../fault/repairs.ts';
import type { Planned } from '../../verdict/proof-plan.ts';
import { inHundred } from '../../verdict/say-chance.ts';
import { bandWords } from '../../verdict/say-sound.ts';
import { describeKey, kindOf } from '../keys.ts';
import { Doubts } from '../parts/doubtful.tsx';
import { Fetched } from '../parts/fetched-page.tsx';
import { Fold } from '../parts/fold.tsx';
import { Later } from '../parts/later.tsx';
import { Press } from '../parts/press-button.tsx';
import { Hand, List, Task } from '../parts/reading-task.tsx';
import { TakenList } from '../parts/taken-list.tsx';
import { countWords, listWords, showTime, small } from '../show.ts';
import { job } from '../state/job.ts';
import { lookAtProof, repairs, sayProof, standing } from '../state/proof.ts';
import { proof, proofFailure, proofThinking } from '../state/side.ts';
import { openReading, picking, unknownKey } from '../state/taking.ts';

const openPicture = () => import('../parts/reading-picture.tsx');
const openLooks = () => import('../parts/proof-looks.tsx');
const openRepairs = () => import('../parts/proof-repairs.tsx');
const openChart = () => import('../parts/proof-chart.tsx');
const openRide = () => import('../parts/proof-ride.tsx');

const MARKS = {
  proven: <b class="mark done">◆ Proven</b>,
  open: <b class="mark">◇ Not proven yet</b>,
  'not-proven': <b class="flag">▲ Not proven</b>,
} as const;

function Stands(): JSX.Element {
  const now = standing.value;
  const found = proof.value;
  if (proofFailure.value !== null)
    return (
      <p class="warn" role="alert">
        The newest entries are not in this proof: {proofFailure.value}
      </p>
    );
  if (now === null || found === null)
    return <p class="step">Working out what the repaired bike should show…</p>;
  return (
    <div class="stack tight" aria-live="polite">
      <p class="lead-line">
        {MARKS[now.is]}: that a fault is left, <b class="whole">{inHundred(found.faultLeft)}</b>{' '}
        <span class="quiet">(before any reading {inHundred(found.faultLeftBefore)})</span>
        {proofThinking.value && <span class="quiet"> · thinking…</span>}
      </p>
      {now.why.length > 0 && (
        <ul class="why-list">
          {now.why.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      )}
    </div>
  );
}

function Said(): JSX.Element | null {
  const { said } = job.value.proof;
  if (said === null) return null;
  return (
    <p>
      {said.proven ? (
        <b class="mark done">◆ Written down as proven</b>
      ) : (
        <b class="flag">▲ Written down as not proven</b>
      )}{' '}
      {showTime(said.at, new Date())}
      {said.who && `, ${said.who}`}; a fault left then: {inHundred(said.faultLeft)}.
      {said.why && ` ${said.why}`}
      {said.changesSince > 0 &&
        ` ${countWords(said.changesSince, 'entry has', 'entries have')} come since: say it anew.`}
    </p>
  );
}

function Close(): JSX.Element | null {
  const now = standing.value;
  const [why, setWhy] = useState('');
  if (now === null) return null;
  const { said } = job.value.proof;
  const stands = said !== null && said.changesSince === 0;
  if (now.is === 'proven')
    return stands && said.proven ? null : (
      <Press class="main" disabled={proofThinking.value} act={() => sayProof(true, '')}>
        It charges: write down that it is proven
      </Press>
    );
  return (
    <Fold head="Close it all the same">
      {() => (
        <div class="stack tight">
          <p>
            The record will say what is still open. An override wants its reason: it is printed with the
            record.
          </p>
          <label class="field">
            <span>Why it is closed now</span>
            <textarea
              rows={2}
              maxLength={400}
              value={why}
              onInput={(event) => setWhy(event.currentTarget.value)}
            />
          </label>
          <div class="row">
            <Press
              disabled={why.trim() === '' || proofThinking.value}
              act={() => sayProof(false, why.trim())}
            >
              Close as not proven
            </Press>
            {now.is === 'open' && (
              <Press
                disabled={why.trim() === '' || proofThinking.value}
                act={() => sayProof(true, why.trim())}
              >
                I answer for it: proven
              </Press>
            )}
          </div>
        </div>
      )}
    </Fold>
  );
}

function PlanLine(props: { readonly of: Planned }): JSX.Element {
  const { key, minutes, band, finds, shows, always } = props.of;
  const unit = kindOf(key)?.unit;
  return (
    <li class="planned">
      <Press act={() => openReading(key)}>{describeKey(key)}</Press>
      <p>
        {band && unit && <>{bandWords({ band, openShare: 0 }, unit)}; </>}
        <span class="figure">{minutes}&nbsp;min</span>
        {finds >= 0.002 && shows.length > 0 && (
          <>
            ; would show {listWords(shows.map((fault) => FAULTS[fault].title))} ({inHundred(finds)})
          </>
        )}
        {always && <span class="quiet"> · every proof needs it</span>}
      </p>
    </li>
  );
}

function Plan(): JSX.Element | null {
  const plan = proof.value?.plan ?? [];
  if (plan.length === 0) return null;
  const minutes = plan.reduce((sum, one) => sum + one.minutes, 0);
  return (
    <section class="stack tight" aria-labelledby="plan">
      <h2 id="plan">
        Still to read{' '}
        <span class="quiet">
          · {countWords(plan.length, 'reading', 'readings')}, {minutes} min
        </span>
      </h2>
      <ol class="plan-list">
        {plan.map((one) => (
          <PlanLine key={one.key} of={one} />
        ))}
      </ol>
    </section>
  );
}

function nothing(): { readonly title: string; readonly says: JSX.Element } {
  if (unknownKey.value !== null)
    return {
      title: 'No such reading',
      says: (
        <p class="step">
          This version knows no reading called “{unknownKey.value}” for this bike. Pick another one.
        </p>
      ),
    };
  if (proof.value === null || proofThinking.value)
    return { title: 'One moment', says: <p class="step">Working out what to read next…</p> };
  return {
    title: 'Nothing more to read',
    says: <p class="step">No further reading is worth its minutes. You can still take any other.</p>,
  };
}

function Reading(): JSX.Element {
  useEffect(
    () => () => {
      picking.value = null;
    },
    [],
  );
  return (
    <div class="bench">
      <Task thinking={proofThinking.value} nothing={nothing()} />
      <div class="hand stack">
        <Later>{() => <Hand />}</Later>
      </div>
      <List />
      <section id="picture" class="picture" aria-label="Where the tips go">
        <Fetched of={openPicture} quiet>
          {({ Picture }) => <Picture />}
        </Fetched>
      </section>
      <section class="taken" aria-labelledby="taken">
        <h2 id="taken">Read since the repair</h2>
        <Later>{() => <TakenList />}</Later>
      </section>
    </div>
  );
}

function Made(): JSX.Element | null {
  const { made, before } = job.value.proof;
  if (made === null) return null;
  return (
    <p>
      <b>Repaired</b> {showTime(made.at, new Date())}
      {made.who && `, ${made.who}`}:{' '}
      {repairs.value.length === 0
        ? 'nothing'
        : listWords(repairs.value.map((id) => small(REPAIRS[id as keyof typeof REPAIRS]?.title ?? id)))}
      .{before.length > 0 && ` ${countWords(before.length + 1, 'round', 'rounds')} of repairs.`}
    </p>
  );
}

/** The station Proof: the repaired bike read and looked over until it is shown to charge. */
export function ProofStation(): JSX.Element {
  useEffect(lookAtProof, []);
  if (job.value.proof.made === null)
    return (
      <div class="stack">
        <h1 tabIndex={-1}>Proof</h1>
        <p class="step">
          What was repaired? From here on the repaired bike is read, apart from what it was before.
        </p>
        <Fetched of={openRepairs}>{({ ProofRepairs }) => <ProofRepairs />}</Fetched>
      </div>
    );
  return (
    <div class="stack proof">
      <h1 tabIndex={-1}>Proof</h1>
      <Made />
      <Stands />
      <Said />
      <Later>{() => <Close />}</Later>
      <Doubts />
      <Reading />
      <Later>{() => <Plan />}</Later>
      <Fetched of={openLooks} quiet>
        {({ ProofLooks }) => <ProofLooks />}
      </Fetched>
      <Fetched of={openChart} quiet>
        {({ ProofChart }) => <ProofChart />}
      </Fetched>
      <Fold head="Will it stay charged in this owner’s life?">
        {() => <Fetched of={openRide}>{({ ProofRide }) => <ProofRide />}</Fetched>}
      </Fold>
      <Fold head="It was repaired once more">
        {() => <Fetched of={openRepairs}>{({ ProofRepairs }) => <ProofRepairs />}</Fetched>}
      </Fold>
    </div>
  );
}
