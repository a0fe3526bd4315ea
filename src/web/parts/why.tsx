import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { MEMBER_NAMES } from '../../draw/member-names.ts';
import { FAULTS } from '../../fault/faults.ts';
import { REPAIRS } from '../../fault/repairs.ts';
import { showValue } from '../../reading/say-value.ts';
import { effectWords, flipSentences, leansOnGuess, SLIGHT, timesWords } from '../../verdict/explain-words.ts';
import type { Effect, Suspect } from '../../verdict/explanation.ts';
import { inHundred } from '../../verdict/say-chance.ts';
import { troubleOf } from '../../verdict/trouble-words.ts';
import { isExplained } from '../advised.ts';
import { describeKey, kindOf } from '../keys.ts';
import { writeRoute } from '../route.ts';
import { capital, countWords, listWords } from '../show.ts';
import { job, jobId } from '../state/job.ts';
import { answer, explanation, failure, lookWhy } from '../state/verdict.ts';
import { effectSize } from '../words/advice.ts';
import { Fig } from './fig.tsx';
import { Fold } from './fold.tsx';

/** An effect under a quarter more is not worth a line, bit. */
const WORTH_A_LINE = Math.log2(SLIGHT);
/** A part less likely than this was looked at and cleared, 0–1. */
const CLEARED = 0.02;
/** A reading that keeps less of its effect once all others are known says only what they say too. */
const ECHOED = 0.25;

function partOf(suspect: Suspect): string {
  const member = REPAIRS[suspect.repair]?.member;
  const part = member ? MEMBER_NAMES[member] : suspect.repair;
  return suspect.repair === 'charge-battery' ? `${part}, flat only` : part;
}

/** One reading's effect: words, a bar of ink, and how many times likelier it makes the suspect. */
function EffectLine(props: { readonly effect: Effect }): JSX.Element {
  const { key, bits, lastBits } = props.effect;
  const kind = kindOf(key);
  const value = job.value.readings.find((reading) => reading.key === key)?.value;
  const { word, length } = effectSize(bits);
  const echoed = Math.abs(bits) > 1 && lastBits / bits < ECHOED;
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
          <b>{word}</b>: {effectWords(bits)}
          {echoed && <span class="quiet"> (other readings say it too)</span>}
        </span>
      </span>
    </li>
  );
}

function Effects(props: {
  readonly title: string;
  readonly none: string;
  readonly effects: readonly Effect[];
}): JSX.Element {
  const shown = props.effects.filter(({ bits }) => Math.abs(bits) >= WORTH_A_LINE);
  const rest = props.effects.length - shown.length;
  if (shown.length === 0) return <p class="quiet">{props.none}</p>;
  return (
    <>
      <h3>{props.title}</h3>
      <ul class="effects">
        {shown.map((effect) => (
          <EffectLine key={effect.key} effect={effect} />
        ))}
      </ul>
      {rest > 0 && <p class="quiet">{countWords(rest, 'more hardly matters', 'more hardly matter')}.</p>}
    </>
  );
}

function Reasons(props: { readonly suspect: Suspect }): JSX.Element {
  const { suspect } = props;
  const trouble = troubleOf(suspect.repair);
  const own = job.value.priors.some(({ fault }) => suspect.faults.some((behind) => behind.fault === fault));
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
        title={`For ${trouble}`}
        none={`No reading taken speaks for ${trouble}.`}
        effects={suspect.supports}
      />
      <Effects
        title={`Against ${trouble}`}
        none={`No reading taken speaks against ${trouble}.`}
        effects={suspect.opposes}
      />
      <p>
        Before any reading, with the owner’s words heard: <b class="whole">{inHundred(suspect.before)}</b>,{' '}
        {own ? 'set in this job' : 'a guess'}. {flipSentences(suspect).join(' ')}
      </p>
    </div>
  );
}

/** How much commoner or rarer something would have to be than it is believed. */
function turning(factor: number): string {
  const times = timesWords(Math.max(factor, 1 / factor));
  return `${times} as ${factor > 1 ? 'common' : 'rare'}`;
}

/** Whether a suspect's advice would turn on a guess that nobody can vouch for. */
function leans(suspect: Suspect): boolean {
  return leansOnGuess(suspect.flipsAt) || leansOnGuess(suspect.companyFlipsAt);
}

/** Which guesses the advice would turn on. */
function Leaning(props: { readonly suspects: readonly Suspect[] }): JSX.Element | null {
  const guesses = props.suspects.flatMap(({ repair, flipsAt, companyFlipsAt }) => [
    ...(flipsAt !== null && leansOnGuess(flipsAt)
      ? [`how common ${troubleOf(repair)} is (${turning(flipsAt)}, and the advice on it turns)`]
      : []),
    ...(companyFlipsAt !== null && leansOnGuess(companyFlipsAt)
      ? [
          `how often several faults come together (${turning(companyFlipsAt)}, and the advice on ${troubleOf(repair)} turns)`,
        ]
      : []),
  ]);
  if (guesses.length === 0) return null;
  return (
    <p class="lean">
      <b>◇ This verdict leans on a guess:</b> {listWords(guesses)}.
    </p>
  );
}

/** For each suspect the readings for and against, worked out in the worker while somebody looks. */
export function Why(): JSX.Element {
  useEffect(lookWhy, []);
  const got = explanation.value;
  const fresh = answer.value !== null;
  const cleared = answer.value !== null && isExplained(answer.value);
  return (
    <section aria-labelledby="why" class="stack tight">
      <h2 id="why">Why</h2>
      {got ? (
        <>
          {cleared && <Leaning suspects={got.suspects} />}
          {got.suspects.length === 0 && <p>No part is suspected enough to give reasons for.</p>}
          <ul class="suspects">
            {got.suspects.map((suspect) => {
              const name = partOf(suspect);
              return (
                <li key={suspect.repair}>
                  <Fold
                    head={
                      <>
                        <b>{capital(name)}</b>{' '}
                        {cleared && suspect.probability < CLEARED && <span class="quiet">cleared, </span>}
                        <span class="whole">{inHundred(suspect.probability)}</span>
                        {leans(suspect) && <span class="under">◇ leans on a guess</span>}
                      </>
                    }
                  >
                    {() => <Reasons suspect={suspect} />}
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
