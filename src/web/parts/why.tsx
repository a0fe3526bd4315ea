import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { MEMBER_NAMES } from '../../draw/loop.ts';
import { FAULTS } from '../../fault/faults.ts';
import { REPAIRS } from '../../fault/repairs.ts';
import type { Effect, Suspect } from '../../verdict/explanation.ts';
import { describeKey, kindOf } from '../keys.ts';
import { writeRoute } from '../route.ts';
import { capital, inHundred, listWords, showValue } from '../show.ts';
import { job, jobId } from '../state/job.ts';
import { answer, explanation, failure, lookWhy } from '../state/verdict.ts';
import { effectWords, flipWords, leansOnGuess } from '../words/advice.ts';
import { Fig } from './fig.tsx';
import { Fold } from './fold.tsx';

function partOf(suspect: Suspect): string {
  const member = REPAIRS[suspect.repair]?.member;
  const part = member ? MEMBER_NAMES[member] : suspect.repair;
  return suspect.repair === 'charge-battery' ? `${part}, flat only` : part;
}

/** One reading's effect: words, a bar of ink, and how many times likelier it makes the suspect. */
function EffectLine(props: { readonly effect: Effect; readonly name: string }): JSX.Element {
  const { key, bits } = props.effect;
  const kind = kindOf(key);
  const value = job.value.readings.find((reading) => reading.key === key)?.value;
  const { word, factor, length } = effectWords(bits);
  return (
    <li>
      <span>
        {describeKey(key)}
        {kind && value !== undefined && (
          <>
            : <Fig text={showValue(value, kind.unit)} />
          </>
        )}
      </span>
      <span class="chance">
        <span class={bits >= 0 ? 'effect' : 'effect against'} aria-hidden="true">
          <span style={{ width: `${Math.max(4, length * 100).toFixed(0)}%` }} />
        </span>
        <span>
          <b>{word}</b>, {factor}
        </span>
      </span>
    </li>
  );
}

function Effects(props: {
  readonly title: string;
  readonly none: string;
  readonly effects: readonly Effect[];
  readonly name: string;
}): JSX.Element {
  if (props.effects.length === 0) return <p class="quiet">{props.none}</p>;
  return (
    <>
      <h3>{props.title}</h3>
      <ul class="effects">
        {props.effects.map((effect) => (
          <EffectLine key={effect.key} effect={effect} name={props.name} />
        ))}
      </ul>
    </>
  );
}

function Reasons(props: { readonly suspect: Suspect; readonly name: string }): JSX.Element {
  const { suspect, name } = props;
  const own = job.value.priors.some(({ fault }) => suspect.faults.some((behind) => behind.fault === fault));
  const { flipsAt } = suspect;
  return (
    <div class="stack tight">
      {suspect.faults.length > 0 && (
        <p>
          {capital(
            listWords(
              suspect.faults.map(
                ({ fault, probability }) => `${FAULTS[fault]?.title ?? fault} (${inHundred(probability)})`,
              ),
            ),
          )}
          .
        </p>
      )}
      <Effects
        title={`For: makes a fault in the ${name} likelier`}
        none={`No reading taken speaks for a fault in the ${name}.`}
        effects={suspect.supports}
        name={name}
      />
      <Effects
        title={`Against: makes a fault in the ${name} less likely`}
        none={`No reading taken speaks against a fault in the ${name}.`}
        effects={suspect.opposes}
        name={name}
      />
      <p>
        Before any reading, with the owner’s words heard: <b class="whole">{inHundred(suspect.before)}</b>,{' '}
        {own ? 'set in this job' : 'a guess'}.{' '}
        {flipsAt === null
          ? 'Even twenty times rarer or commoner, the advice on it would be the same.'
          : `The advice on it would turn if it were ${flipWords(flipsAt)}.`}
      </p>
    </div>
  );
}

/** Which suspects' advice would turn on a guess that nobody can vouch for. */
function Leaning(props: { readonly suspects: readonly Suspect[] }): JSX.Element | null {
  const leaning = props.suspects.filter((suspect) => leansOnGuess(suspect.flipsAt));
  if (leaning.length === 0) return null;
  return (
    <p class="lean">
      <b>◇ This verdict leans on a guess:</b>{' '}
      {listWords(
        leaning.map(
          (suspect) =>
            `how often the ${partOf(suspect)} fails (the advice turns if that is ${flipWords(suspect.flipsAt ?? 1)})`,
        ),
      )}
      .
    </p>
  );
}

/** For each suspect the readings for and against, worked out in the worker while somebody looks. */
export function Why(): JSX.Element {
  useEffect(lookWhy, []);
  const got = explanation.value;
  const fresh = answer.value !== null;
  return (
    <section aria-labelledby="why" class="stack tight">
      <h2 id="why">Why</h2>
      {got ? (
        <>
          <Leaning suspects={got.suspects} />
          {got.suspects.length === 0 && <p>No part is suspected enough to give reasons for.</p>}
          <ul class="suspects">
            {got.suspects.map((suspect) => {
              const name = partOf(suspect);
              return (
                <li key={suspect.repair}>
                  <Fold
                    head={
                      <>
                        <b>{capital(name)}</b> <span class="whole">{inHundred(suspect.probability)}</span>
                        {leansOnGuess(suspect.flipsAt) && <span class="under">◇ leans on a guess</span>}
                      </>
                    }
                  >
                    {() => <Reasons suspect={suspect} name={name} />}
                  </Fold>
                </li>
              );
            })}
          </ul>
        </>
      ) : (
        <p class="quiet">{failure.value ?? (fresh ? 'Working out the reasons…' : '')}</p>
      )}
      <p>
        <a class="link" href={writeRoute({ at: 'job', job: jobId.value ?? '', station: 'odds', take: null })}>
          What usually fails, before any reading
        </a>
      </p>
    </section>
  );
}
