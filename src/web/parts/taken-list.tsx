import type { JSX } from 'preact';
import { useRef } from 'preact/hooks';
import type { Reading, Taken } from '../../job/readings-fold.ts';
import { showValue } from '../../reading/say-value.ts';
import type { Held } from '../../verdict/prove.ts';
import { bandWords } from '../../verdict/say-sound.ts';
import { describeKey, kindOf } from '../keys.ts';
import { showTime } from '../show.ts';
import { happened, happenedUndoably, job } from '../state/job.ts';
import { proof, proving, readings } from '../state/side.ts';
import { afterNow, openReading, takenNow } from '../state/taking.ts';
import { answer } from '../state/verdict.ts';
import { Fig } from './fig.tsx';
import { useGrowing } from './later.tsx';
import { Press } from './press-button.tsx';

function shown({ key, value, entered }: Taken): string {
  const kind = kindOf(key);
  return kind ? showValue(value, kind.unit) : entered || String(value);
}

interface HeldWords {
  readonly words: string;
  readonly inside: boolean;
}

function heldWords(held: Held | undefined): HeldWords | null {
  const kind = held && kindOf(held.key);
  if (!held || !kind || held.band === null || held.inside === null) return null;
  return { words: bandWords({ band: held.band, openShare: 0 }, kind.unit), inside: held.inside };
}

function withdraw(reading: Reading): void {
  happenedUndoably(
    { type: 'readingWithdrawn', event: reading.event, why: '' },
    `Withdrawn: ${describeKey(reading.key)}, ${shown(reading)}.`,
  );
}

function TakenLine(props: {
  readonly reading: Reading;
  readonly today: Date;
  readonly doubt: boolean;
  readonly alone: boolean;
  /** What the repaired bike should have shown, in words, and whether it did; null where nothing is said of it. */
  readonly held: HeldWords | null;
}): JSX.Element {
  const { reading, doubt, alone, held } = props;
  const what = describeKey(reading.key);
  return (
    <li>
      <div>
        <p>{what}</p>
        <p>
          <Fig class="value" text={shown(reading)} />{' '}
          <span class="quiet">{showTime(reading.at, props.today)}</span>
          {doubt && <b class="flag"> ▲ does not fit</b>}
          {alone && <span class="alone"> ○ nothing else checks this one</span>}
        </p>
        {held && (
          <p class={held.inside ? 'quiet' : undefined}>
            {held.inside ? <b class="mark done">◆ as it should be</b> : <b class="flag">▲ outside</b>}{' '}
            {held.words}
          </p>
        )}
        {reading.disputed.length > 0 && (
          <div class="warn stack tight">
            <p>
              <b class="flag">◇ Two devices read differently.</b> Which one counts?
            </p>
            <div class="row">
              {[...reading.disputed, reading].map((take) => (
                <Press
                  key={take.event}
                  label={`${shown(take)} counts: ${what}`}
                  act={() => happened({ type: 'readingPicked', event: take.event })}
                >
                  {shown(take)}, {showTime(take.at, props.today)}
                </Press>
              ))}
            </div>
          </div>
        )}
        {reading.earlier.length > 0 && reading.disputed.length === 0 && (
          <p class="quiet">before that: {reading.earlier.map(shown).join(', ')}</p>
        )}
      </div>
      <div class="row">
        <Press label={`Take again: ${what}`} act={() => openReading(reading.key)}>
          Again
        </Press>
        <Press label={`Withdraw: ${what}`} act={() => withdraw(reading)}>
          Withdraw
        </Press>
      </div>
    </li>
  );
}

/** The readings that count, the newest first, and those that were withdrawn. */
export function TakenList(): JSX.Element {
  const withdrawn = proving.value ? job.value.proof.withdrawn : job.value.withdrawn;
  const taken = readings.value;
  const today = new Date();
  const shownCount = useGrowing(taken.length, 3);
  const lines = useRef(new Map<string, { readonly said: string; readonly line: JSX.Element }>());
  const found = proving.value ? proof.value : answer.value;
  const doubtful = new Set(found?.doubtful.map(({ key }) => key));
  const unchecked = new Set(proving.value ? [] : answer.value?.unchecked);
  const held = new Map(proving.value ? proof.value?.held.map((one) => [one.key, one]) : []);
  /** A line is built anew only when it says something else: a list of twenty-five would hold up every entry. */
  const lineOf = (reading: Reading): JSX.Element => {
    const doubt = doubtful.has(reading.key);
    const alone = unchecked.has(reading.key) && !doubt;
    const words = heldWords(held.get(reading.key));
    const said = `${reading.event} ${reading.earlier.length} ${reading.disputed.length} ${doubt} ${alone} ${words?.words} ${words?.inside} ${today.toDateString()}`;
    const kept = lines.current.get(reading.event);
    if (kept?.said === said) return kept.line;
    const line = (
      <TakenLine
        key={reading.event}
        reading={reading}
        today={today}
        doubt={doubt}
        alone={alone}
        held={words}
      />
    );
    lines.current.set(reading.event, { said, line });
    return line;
  };
  if (taken.length === 0 && withdrawn.length === 0) return <p class="quiet">None yet.</p>;
  return (
    <>
      <ol class="taken-list">{taken.toReversed().slice(0, shownCount).map(lineOf)}</ol>
      {withdrawn.length > 0 && (
        <>
          <h3>Withdrawn, not counted</h3>
          <ol class="taken-list">
            {withdrawn.toReversed().map((gone) => (
              <li key={gone.event}>
                <p>
                  <s>
                    {describeKey(gone.key)} <Fig text={shown(gone)} />
                  </s>
                </p>
                <Press
                  label={`Count again: ${describeKey(gone.key)}`}
                  act={() =>
                    happened({
                      type: 'readingTaken',
                      key: gone.key,
                      value: gone.value,
                      entered: gone.entered,
                      over: takenNow(gone.key),
                      ...afterNow(),
                    })
                  }
                >
                  Count it again
                </Press>
              </li>
            ))}
          </ol>
        </>
      )}
    </>
  );
}
