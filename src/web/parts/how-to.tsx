import type { JSX } from 'preact';
import { sayHow } from '../../reading/cautions.ts';
import type { Chosen } from '../keys.ts';
import { answer } from '../state/verdict.ts';
import { TOOL_TITLES } from '../words/tools.ts';

/** How long it takes and with what. */
export function Effort(props: { readonly chosen: Chosen }): JSX.Element {
  const { kind, key } = props.chosen;
  const next = answer.value?.next?.key === key ? answer.value.next : null;
  const other = answer.value?.alternatives.find((reading) => reading.key === key);
  const minutes = next?.minutes ?? other?.minutes ?? null;
  return (
    <>
      <span class="figure">{minutes ?? kind.minutes} min</span>
      {minutes !== null ? ' with its set-up' : ' without set-up'}, {TOOL_TITLES[kind.tool]}
    </>
  );
}

/** How it is taken: cautions first. */
export function HowTo(props: { readonly chosen: Chosen }): JSX.Element {
  const { kind, state } = props.chosen;
  const { cautions, steps } = sayHow(kind, state);
  return (
    <>
      {cautions.length > 0 && (
        <ul class="cautions" aria-label="Cautions">
          {cautions.map((caution) => (
            <li key={caution}>
              <b class="flag">▲ Caution</b> {caution}
            </li>
          ))}
        </ul>
      )}
      <ol class="how step">
        {steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </>
  );
}
