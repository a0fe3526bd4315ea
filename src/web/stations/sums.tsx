/** Sums: the calculations of the workshop without a job. */
import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { SvgNode } from '../../draw/svg.ts';
import { SUM_HEADS, type SumHead } from '../../sum/heads.ts';
import { BOOK_WINS, type Field, type Reckoned, type Refused, type Texts } from '../../sum/sum.ts';
import { Fig } from '../parts/fig.tsx';
import { pictureOf } from '../parts/picture.tsx';
import { Press } from '../parts/press-button.tsx';
import { TextEntry } from '../parts/text-entry.tsx';
import { writeRoute } from '../route.ts';
import { dropTexts, initialTexts, keepTexts, keptTexts, touched } from '../sum-texts.ts';
import type { SumAsk, SumReply } from '../sum-worker.ts';

/** The list of sums. */
export function Sums(): JSX.Element {
  return (
    <div class="stack wide">
      <h1 tabIndex={-1}>Sums</h1>
      <p>What is worked out here belongs to no job and is written into none.</p>
      <ul class="job-list">
        {SUM_HEADS.map(({ id, words, about }) => (
          <li key={id}>
            <a class="link plain" href={writeRoute({ at: 'sum', sum: id })}>
              <span>
                {words}
                <span class="under">{about}</span>
              </span>
            </a>
          </li>
        ))}
      </ul>
      <a class="link" href={writeRoute({ at: 'jobs' })}>
        To the list of jobs
      </a>
    </div>
  );
}

/** One sum. */
export function SumPage(props: { readonly id: string }): JSX.Element {
  const sum = SUM_HEADS.find(({ id }) => id === props.id);
  if (sum) return <Worked key={sum.id} sum={sum} />;
  return (
    <div class="stack">
      <h1 tabIndex={-1}>No such sum</h1>
      <p class="step">There is no sum “{props.id}” in this version.</p>
      <a class="link" href={writeRoute({ at: 'sums' })}>
        To the list of sums
      </a>
    </div>
  );
}

interface Shown {
  readonly found: Reckoned | Refused;
  readonly picture: SvgNode | null;
}

/** Asks the worker for the newest texts; answers to older ones are dropped. */
function useReckoned(sum: SumHead, texts: Texts): Shown | null {
  const [shown, show] = useState<Shown | null>(null);
  const worker = useRef<Worker | null>(null);
  const asked = useRef(0);
  useEffect(() => {
    const made = new Worker(new URL('../sum-worker.ts', import.meta.url), { type: 'module' });
    made.addEventListener('message', ({ data }: MessageEvent<SumReply>) => {
      if (data.id === asked.current) show({ found: data.found, picture: data.picture });
    });
    made.addEventListener('error', () => {
      const why = 'This browser cannot work sums out in the background; reload the page.';
      show({ found: { ok: false, faults: [{ field: null, why }] }, picture: null });
    });
    worker.current = made;
    return () => made.terminate();
  }, []);
  useEffect(() => {
    const shape = matchMedia('(min-width: 62rem)').matches ? 'wide' : 'narrow';
    asked.current += 1;
    worker.current?.postMessage({ id: asked.current, sum: sum.id, texts, shape } satisfies SumAsk);
  }, [sum, texts]);
  return shown;
}

function Worked({ sum }: { readonly sum: SumHead }): JSX.Element {
  const [texts, setTexts] = useState<Texts>(() => keptTexts(sum, sessionStorage));
  const shown = useReckoned(sum, texts);
  const enter = (id: string, text: string): void => {
    const now = { ...texts, [id]: text };
    keepTexts(sum, now, sessionStorage);
    setTexts(now);
  };
  const fill = (now: Texts): void => {
    keepTexts(sum, now, sessionStorage);
    setTexts(now);
  };
  // An empty sum is not wrong, it has only not been begun.
  const begun = touched(sum, texts);
  const refused = shown?.found.ok === false && begun ? shown.found : null;
  const reckoned = shown?.found.ok ? shown.found : null;
  // The sentence stands below its own field, whose name is there already.
  const whyOf = ({ id, words }: Field) => {
    const why = refused?.faults.find(({ field }) => field === id)?.why ?? null;
    return why?.startsWith(`${words}: `) ? begin(why.slice(words.length + 2)) : why;
  };
  const overall = refused?.faults.filter(({ field }) => field === null) ?? [];
  return (
    <div class="stack sum">
      <div class="stack tight">
        <h1 tabIndex={-1}>{sum.words}</h1>
        <p>{begin(sum.about)}.</p>
      </div>
      <div class="sum-halves">
        <section class="stack" aria-label="What is known">
          {sum.fields.map((field) => (
            <TextEntry
              key={field.id}
              field={field}
              text={texts[field.id] ?? ''}
              why={whyOf(field)}
              worked={reckoned?.solvedFor === field.id}
              enter={(text) => enter(field.id, text)}
            />
          ))}
          <div class="row">
            <Press act={() => fill({ ...initialTexts(sum), ...sum.example })}>Show an example</Press>
            <Press
              disabled={!begun}
              act={() => {
                dropTexts(sum, sessionStorage);
                setTexts(initialTexts(sum));
              }}
            >
              Empty all
            </Press>
          </div>
        </section>
        <section class="stack sum-found" aria-label="What comes out" aria-live="polite">
          {overall.map(({ why }) => (
            <p key={why} class="warn">
              <b class="flag">▲</b> {why}
            </p>
          ))}
          {!reckoned && overall.length === 0 && (
            <p class="step">
              {refused ? 'It comes out once the marked fields can be read.' : 'Enter what is known.'}
            </p>
          )}
          {reckoned && <Found found={reckoned} />}
          {reckoned && shown?.picture && <figure class="sum-picture">{pictureOf(shown.picture)}</figure>}
        </section>
      </div>
      <div class="row">
        <a class="link" href={writeRoute({ at: 'sums' })}>
          All sums
        </a>
      </div>
    </div>
  );
}

function begin(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A figure with its unit in the face of the text: a fixed pitch tears "lbf·in" apart. */
function Amount(props: { readonly text: string; readonly class: string }): JSX.Element {
  const [, figure, unit] = /^(.*\d)\s+(\D+)$/.exec(props.text) ?? [];
  if (figure === undefined) return <Fig class={props.class} text={props.text} />;
  return (
    <span class={`whole ${props.class}`}>
      <Fig text={figure} /> {unit}
    </span>
  );
}

function Found({ found }: { readonly found: Reckoned }): JSX.Element {
  return (
    <>
      <dl class="sum-lines">
        {found.lines.map(({ id, words, metric, inch, says }) => (
          <div key={id}>
            <dt>{words}</dt>
            <dd>
              <Amount class="large" text={metric} />
              {inch !== metric && <Amount class="large other" text={inch} />}
              <p>{says}</p>
            </dd>
          </div>
        ))}
      </dl>
      {found.cautions.map((caution) =>
        caution === BOOK_WINS || found.notes?.includes(caution) ? (
          <p key={caution}>{caution}</p>
        ) : (
          <p key={caution} class="warn">
            <b class="flag">▲</b> {caution}
          </p>
        ),
      )}
    </>
  );
}
