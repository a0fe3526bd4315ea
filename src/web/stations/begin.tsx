/** A bike of one's own from a few answers: the template must be chosen, everything else may be left open. */
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { freshId } from '../../machine/plain-id.ts';
import { type Answers, normalAnswer } from '../../start/answers.ts';
import { fileFromAnswers } from '../../start/file-from-answers.ts';
import {
  ANSWER_SOURCES,
  type AnswerSource,
  FIRST_QUESTIONS,
  otherwiseOf,
  type Question,
  type QuestionId,
} from '../../start/questions.ts';
import { TEMPLATE_IDS, TEMPLATES, type TemplateId } from '../../start/template.ts';
import { browserShelf } from '../browser.ts';
import { Press } from '../parts/press-button.tsx';
import { Segments } from '../parts/segments.tsx';
import { writeRoute } from '../route.ts';
import { fetchMachines, saveMachine } from '../server.ts';
import { small } from '../show.ts';
import { openNewJob } from '../state/job.ts';
import { go } from '../state/place.ts';

type Texts = Partial<Record<QuestionId, string>>;
/** Who says an answer, where it is not the usual one. */
type Froms = Partial<Record<QuestionId, AnswerSource>>;
const SHELF = 'own bike begun';

/** What was answered before and not begun with; nothing where this browser keeps nothing. */
function keptTexts(): Texts {
  try {
    const kept: unknown = JSON.parse(browserShelf.get(SHELF) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return {};
    const texts: Texts = {};
    for (const { id } of FIRST_QUESTIONS) {
      const text = (kept as Record<string, unknown>)[id];
      if (typeof text === 'string') texts[id] = text.slice(0, 200);
    }
    return texts;
  } catch {
    return {};
  }
}

function keepTexts(texts: Texts): void {
  try {
    browserShelf.set(SHELF, JSON.stringify(texts));
  } catch {
    // What is on the screen stays there.
  }
}

/** Today, as the file dates what is entered now. */
function today(): string {
  const now = new Date();
  const two = (part: number): string => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

export function Begin(): JSX.Element {
  const [texts, setTexts] = useState<Texts>(keptTexts);
  const [froms, setFroms] = useState<Froms>({});
  const [why, setWhy] = useState<Partial<Record<QuestionId, string>>>({});
  const [trouble, tell] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const template = TEMPLATE_IDS.find((id) => id === texts.template) ?? null;
  const enter = (id: QuestionId, text: string): void => {
    const next = { ...texts, [id]: text };
    setTexts(next);
    keepTexts(next);
    if (why[id] !== undefined) setWhy({ ...why, [id]: undefined });
    tell(null);
  };
  const begin = async (withJob: boolean): Promise<void> => {
    if (busy) return;
    if (template === null) {
      tell('Choose first which of the three is most like the bike: all that is not said comes from it.');
      return;
    }
    const made = fileFromAnswers(answersOf(texts, froms), today());
    if (!made.ok) {
      setWhy(Object.fromEntries(made.problems.map((one) => [one.question, one.why])));
      tell(
        `${made.problems.length === 1 ? 'One answer' : `${made.problems.length} answers`} cannot be taken so; see above.`,
      );
      return;
    }
    setBusy(true);
    const list = await fetchMachines();
    const said = [texts.maker, texts.model]
      .map((text) => normalAnswer(text)?.value ?? '')
      .join(' ')
      .trim();
    const name = said || 'own bike';
    const taken = new Set(list.ok ? list.body.map((one) => one.id) : []);
    const id = freshId(name, taken);
    const saved = list.ok ? await saveMachine(id, made.text) : list;
    setBusy(false);
    if (!saved.ok) {
      tell(`${saved.why} What you answered stays here.`);
      return;
    }
    browserShelf.remove(SHELF);
    if (!withJob) return go({ at: 'machine', machine: id, part: null, field: null });
    const job = openNewJob(id, `${name}, will not stay charged`.slice(0, 120), false);
    go({ at: 'job', job, station: 'complaint', take: null });
  };
  return (
    <div class="stack wide">
      <div class="stack tight">
        <h1 tabIndex={-1}>Begin with your own bike</h1>
        <p>
          Answer what you know and leave the rest open. What you leave open is filled with a wide guess, and
          the verdict is less sure for it. Every figure can be put right later.
        </p>
      </div>
      <ChooseTemplate chosen={template} choose={(id) => enter('template', id)} />
      <div class="begin-questions">
        {FIRST_QUESTIONS.filter(({ id }) => id !== 'template').map((question) => (
          <Ask
            key={question.id}
            question={question}
            template={template}
            text={texts[question.id] ?? ''}
            why={why[question.id] ?? null}
            from={froms[question.id] ?? question.usually}
            enter={(text) => enter(question.id, text)}
            says={(from) => setFroms({ ...froms, [question.id]: from })}
          />
        ))}
      </div>
      <div class="stack">
        <div class="row">
          <Press class="main" act={() => void begin(true)}>
            Open a job on it
          </Press>
          <Press act={() => void begin(false)}>Only write the machine file</Press>
          <a class="link" href={writeRoute({ at: 'machines' })}>
            All machine files
          </a>
        </div>
        {/* Below the buttons, so that nothing under the finger moves when it comes and goes. */}
        {trouble && (
          <p class="warn" role="alert">
            <b class="flag">▲ Caution</b> {trouble}
          </p>
        )}
      </div>
    </div>
  );
}

function ChooseTemplate(props: {
  readonly chosen: TemplateId | null;
  readonly choose: (id: TemplateId) => void;
}): JSX.Element {
  return (
    <section class="stack tight" aria-labelledby="template">
      <h2 id="template">Which of these is most like it?</h2>
      <div class="toggles">
        {TEMPLATE_IDS.map((id) => (
          <Press key={id} pressed={props.chosen === id} act={() => props.choose(id)}>
            <span>
              {TEMPLATES[id].name.charAt(0).toUpperCase() + TEMPLATES[id].name.slice(1)}
              <span class="under">{TEMPLATES[id].about}</span>
            </span>
          </Press>
        ))}
      </div>
    </section>
  );
}

/** The answers with who says them. */
function answersOf(texts: Texts, froms: Froms): Answers {
  return Object.fromEntries(
    Object.entries(texts).map(([id, value]) => {
      const from = froms[id as QuestionId];
      return [id, from === undefined ? value : { value, from }];
    }),
  ) as Answers;
}

const SAYS: Readonly<Record<AnswerSource, string>> = {
  labels: 'its label',
  book: 'the book',
  measured: 'my meter',
  guess: 'a guess',
};

/** One question: what it is for, where to look, and what is taken when it is left open. */
function Ask(props: {
  readonly question: Question;
  readonly template: TemplateId | null;
  readonly text: string;
  readonly why: string | null;
  readonly from: AnswerSource | null;
  readonly enter: (text: string) => void;
  readonly says: (from: AnswerSource) => void;
}): JSX.Element {
  const { question, template, text, why, enter } = props;
  const id = `ask-${question.id}`;
  const open =
    template === null || text.trim() !== ''
      ? ''
      : ` If left open: ${small(otherwiseOf(question.id, template))}`;
  const below = why === null ? `${question.where}${open}` : why;
  return (
    <div>
      {question.choices ? (
        <Segments
          ask={question.asks}
          choices={question.choices.map(({ value, label }) => ({ value, title: shortOf(label) }))}
          chosen={text}
          choose={enter}
          clear={() => enter('')}
        />
      ) : (
        <label class="field" for={id}>
          <span>{question.asks}</span>
          <input
            id={id}
            class={why ? 'typed off' : 'typed'}
            value={text}
            maxLength={200}
            autocomplete="off"
            autocapitalize="off"
            spellcheck={false}
            placeholder={placeholderOf(question)}
            aria-invalid={why !== null}
            aria-describedby={`${id}-below`}
            onInput={(event) => enter(event.currentTarget.value)}
          />
        </label>
      )}
      <p id={`${id}-below`} class={why ? 'below off' : 'below'}>
        {why && <b class="flag">▲ </b>}
        {below}
      </p>
      {question.kind === 'quantity' && text.trim() !== '' && props.from !== null && (
        <Segments
          ask={`${question.asks} Who says so?`}
          quietAsk
          choices={ANSWER_SOURCES.map((value) => ({ value, title: SAYS[value] }))}
          chosen={props.from}
          choose={(from) => props.says(from as AnswerSource)}
        />
      )}
    </div>
  );
}

function placeholderOf({ kind, example }: Question): string {
  if (example === undefined) return '';
  return kind === 'words' ? example : `such as ${example}`;
}

/** The head of a choice: what stands behind a colon or in brackets would fill a phone's screen. */
function shortOf(label: string): string {
  return label.replace(/[:(].*$/, '').trim();
}
