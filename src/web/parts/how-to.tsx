import type { JSX } from 'preact';
import type { Chosen } from '../keys.ts';
import { capital } from '../show.ts';
import { answer } from '../state/verdict.ts';
import { sayHow } from '../words/cautions.ts';
import { TOOL_TITLES } from '../words/tools.ts';

/** Why, how long, with what, and how: cautions first. */
export function HowTo(props: { readonly chosen: Chosen }): JSX.Element {
  const { kind, state, key } = props.chosen;
  const next = answer.value?.next?.key === key ? answer.value.next : null;
  const other = answer.value?.alternatives.find((reading) => reading.key === key);
  const minutes = next?.minutes ?? other?.minutes ?? null;
  const { cautions, steps } = sayHow(kind, state);
  return (
    <>
      {next && <p>{capital(next.why)}.</p>}
      <p class="quiet">
        <span class="figure">{minutes ?? kind.minutes} min</span>
        {minutes !== null ? ' with its set-up' : ' without set-up'}, {TOOL_TITLES[kind.tool]}
      </p>
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
