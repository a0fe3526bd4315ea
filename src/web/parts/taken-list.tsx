import type { JSX } from 'preact';
import type { Reading, Taken } from '../../job/fold.ts';
import { describeKey, kindOf } from '../keys.ts';
import { showTime, showValue } from '../show.ts';
import { happened, happenedUndoably, job } from '../state/job.ts';
import { openReading } from '../state/taking.ts';
import { answer } from '../state/verdict.ts';
import { Fig } from './fig.tsx';
import { Press } from './press-button.tsx';

function shown({ key, value, entered }: Taken): string {
  const kind = kindOf(key);
  return kind ? showValue(value, kind.unit) : entered || String(value);
}

function withdraw(reading: Reading): void {
  happenedUndoably(
    { type: 'readingWithdrawn', event: reading.event, why: '' },
    `Withdrawn: ${describeKey(reading.key)}, ${shown(reading)}.`,
  );
}

function TakenLine(props: { readonly reading: Reading; readonly today: Date }): JSX.Element {
  const { reading } = props;
  const doubt = answer.value?.doubtful.find(({ key }) => key === reading.key);
  const alone = answer.value?.unchecked.includes(reading.key) && !doubt;
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
        {reading.earlier.length > 0 && (
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
  const { readings, withdrawn } = job.value;
  const today = new Date();
  if (readings.length === 0 && withdrawn.length === 0) return <p class="quiet">None yet.</p>;
  return (
    <>
      <ol class="taken-list">
        {readings.toReversed().map((reading) => (
          <TakenLine key={reading.event} reading={reading} today={today} />
        ))}
      </ol>
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
