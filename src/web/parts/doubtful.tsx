import type { JSX } from 'preact';
import type { Doubt } from '../../verdict/answer.ts';
import { describeKey, kindOf } from '../keys.ts';
import { inHundred, showValue } from '../show.ts';
import { openReading } from '../state/taking.ts';
import { Fig } from './fig.tsx';
import { Press } from './press-button.tsx';

/** One reading that does not fit, the likely mistake, the value that was meant. */
export function DoubtLine(props: { readonly doubt: Doubt; readonly value?: string }): JSX.Element {
  const { key, mistake, meant, probability } = props.doubt;
  const kind = kindOf(key);
  return (
    <div class="doubt">
      <p>
        <b class="flag">▲ Does not fit</b> {describeKey(key)}
        {props.value && (
          <>
            , read as <Fig text={props.value} />
          </>
        )}
        . {/unknown/.test(mistake) ? 'No one mistake explains it' : `Perhaps ${mistake}`}
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
