import type { JSX } from 'preact';
import { useId, useState } from 'preact/hooks';
import type { Look } from '../../proof/looks.ts';
import { showTime } from '../show.ts';
import { job } from '../state/job.ts';
import { looks, sayLooked } from '../state/proof.ts';
import { Press } from './press-button.tsx';

function LookLine(props: { readonly look: Look }): JSX.Element {
  const { id, does, fine, amiss, caution, chain } = props.look;
  const seen = job.value.proof.looks.find(({ check }) => check === id);
  const [words, setWords] = useState('');
  const field = useId();
  const say = (ok: boolean): void => {
    sayLooked(id, ok, words.trim().slice(0, 400));
    setWords('');
  };
  return (
    <li class="look stack tight">
      {caution && (
        <p class="warn">
          <b class="flag">▲ Caution</b> {caution}
        </p>
      )}
      <p class="step">{does}</p>
      {chain?.slack && (
        <p>
          The book wants <b class="figure">{chain.slack.is.text}</b>
          {chain.slackWhen ? `, ${chain.slackWhen}` : ''}.
        </p>
      )}
      {seen && (
        <p>
          {seen.ok ? <b class="mark done">◆ {fine}</b> : <b class="flag">▲ {amiss}</b>}
          {seen.words && `: ${seen.words}`}{' '}
          <span class="quiet">
            {showTime(seen.at, new Date())}
            {seen.who && `, ${seen.who}`}
          </span>
        </p>
      )}
      <label class="field" for={field}>
        <span>
          {chain
            ? 'Slack measured, with its unit, and how warm the engine was'
            : 'What was seen (may be left empty)'}
        </span>
        <input
          id={field}
          value={words}
          maxLength={400}
          autocomplete="off"
          onInput={(event) => setWords(event.currentTarget.value)}
        />
      </label>
      <div class="row">
        <Press label={`${fine}: ${does}`} act={() => say(true)}>
          {fine}
        </Press>
        <Press label={`${amiss}: ${does}`} act={() => say(false)}>
          {amiss}
        </Press>
      </div>
    </li>
  );
}

/** What is looked at that no meter takes. */
export function ProofLooks(): JSX.Element | null {
  if (looks.value.length === 0) return null;
  return (
    <section class="stack tight" aria-labelledby="looks">
      <h2 id="looks">Look it over</h2>
      <ol class="looks">
        {looks.value.map((look) => (
          <LookLine key={look.id} look={look} />
        ))}
      </ol>
      <p class="quiet">Common practice; the bike’s own book says what else it wants checked.</p>
    </section>
  );
}
