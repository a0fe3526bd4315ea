import type { JSX } from 'preact';
import { useId, useState } from 'preact/hooks';
import type { Chain } from '../../machine/definition.ts';
import { judgeSlack } from '../../proof/judge-slack.ts';
import type { Look } from '../../proof/looks.ts';
import { showTime } from '../show.ts';
import { job } from '../state/job.ts';
import { looks, sayLooked } from '../state/proof.ts';
import { Fold } from './fold.tsx';
import { Press } from './press-button.tsx';

function Words(props: {
  readonly label: string;
  readonly words: string;
  readonly set: (words: string) => void;
}): JSX.Element {
  const field = useId();
  return (
    <label class="field" for={field}>
      <span>{props.label}</span>
      <input
        id={field}
        value={props.words}
        maxLength={400}
        autocomplete="off"
        onInput={(event) => props.set(event.currentTarget.value)}
      />
    </label>
  );
}

/** Why a slack cannot be said to be inside, or outside, what the book wants; null where it can. */
function slackStop(text: string, chain: Chain, inside: boolean): string | null {
  const judged = judgeSlack(text, chain);
  if (!judged.ok) return judged.why;
  if (judged.fits === null || judged.fits === inside) return null;
  const book = chain.slack?.is.text ?? '';
  return judged.fits
    ? `${text.trim()} is inside ${book}, which the book wants: press the other one, or measure again.`
    : `${text.trim()} is outside ${book}, which the book wants: set it again, or press the other one.`;
}

function LookLine(props: { readonly look: Look }): JSX.Element {
  const { id, does, fine, amiss, caution, chain } = props.look;
  const seen = job.value.proof.looks.find(({ check }) => check === id);
  const [words, setWords] = useState('');
  const [why, setWhy] = useState<string | null>(null);
  const say = (ok: boolean): void => {
    const refused = chain ? slackStop(words, chain, ok) : null;
    setWhy(refused);
    if (refused !== null) return;
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
      <p class="does">{does}</p>
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
      {chain ? (
        <Words label="Slack measured at the tight spot, with its unit" words={words} set={setWords} />
      ) : (
        <Fold head="Add what was seen">
          {() => <Words label="What was seen" words={words} set={setWords} />}
        </Fold>
      )}
      {why && (
        <p class="below off" role="alert">
          <b class="flag">▲</b> {why}
        </p>
      )}
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
      <ol class="proof-looks">
        {looks.value.map((look) => (
          <LookLine key={look.id} look={look} />
        ))}
      </ol>
      <p class="quiet">Common practice; the bike’s own book says what else it wants checked.</p>
    </section>
  );
}
