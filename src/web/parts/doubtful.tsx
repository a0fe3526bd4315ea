import type { JSX } from 'preact';
import type { Value } from '../../reading/key.ts';
import { showValue } from '../../reading/say-value.ts';
import type { Doubt } from '../../verdict/answer.ts';
import { inHundred } from '../../verdict/say-chance.ts';
import { describeKey, kindOf } from '../keys.ts';
import { proof, proving, readings } from '../state/side.ts';
import { openReading } from '../state/taking.ts';
import { answer } from '../state/verdict.ts';
import { mistakeWords } from '../words/mistakes.ts';
import { Fig } from './fig.tsx';
import { Press } from './press-button.tsx';

/** One reading that does not fit, the likely mistake, the value that was meant. */
function DoubtLine(props: { readonly doubt: Doubt; readonly value: Value | undefined }): JSX.Element {
  const { value } = props;
  const { key, mistake, meant, probability } = props.doubt;
  const kind = kindOf(key);
  return (
    <div class="doubt">
      <p>
        <b class="flag">▲ Does not fit</b> {describeKey(key)}
        {kind && value !== undefined && (
          <>
            , read as <Fig text={showValue(value, kind.unit)} />
          </>
        )}
        . {mistakeWords(mistake, typeof value === 'number' ? value : null, meant)}
        {meant !== null && kind && (
          <>
            ; <Fig text={showValue(meant, kind.unit)} /> may have been meant
          </>
        )}
        . Chance that it is wrong: {inHundred(probability)}.
      </p>
      <Press act={() => openReading(key)}>Take it again</Press>
    </div>
  );
}

/** The readings that do not fit, each to be taken again before it is believed. */
export function Doubts(): JSX.Element | null {
  const doubts = (proving.value ? proof.value : answer.value)?.doubtful ?? [];
  if (doubts.length === 0) return null;
  const values = new Map(readings.value.map((reading) => [reading.key, reading.value]));
  return (
    <section class="warn" aria-label="Readings that do not fit">
      {doubts.map((doubt) => (
        <DoubtLine key={doubt.key} doubt={doubt} value={values.get(doubt.key)} />
      ))}
    </section>
  );
}
