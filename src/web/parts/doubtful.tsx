import type { JSX } from 'preact';
import type { Doubt } from '../../verdict/answer.ts';
import { describeKey, kindOf } from '../keys.ts';
import { inHundred, showValue } from '../show.ts';
import { openReading } from '../state/taking.ts';
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
            , read as <span class="figure">{props.value}</span>
          </>
        )}
        . {/unknown/.test(mistake) ? 'No one mistake explains it' : `Perhaps ${mistake}`}
        {meant !== null && kind && (
          <>
            ; <span class="figure">{showValue(meant, kind.unit)}</span> may have been meant
          </>
        )}
        . Wrong with {inHundred(probability)}.
      </p>
      <Press act={() => openReading(key)}>Take it again</Press>
    </div>
  );
}
