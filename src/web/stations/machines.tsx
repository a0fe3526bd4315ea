/** Machine files: the shipped ones and those written here, and one of them as a text with the check beside it. */
import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { FileJudged } from '../../machine/judge-file.ts';
import type { CheckAsk, CheckReply } from '../check-worker.ts';
import { Press } from '../parts/press-button.tsx';
import { writeRoute } from '../route.ts';
import { fetchMachine, fetchMachines, type Got, type MachineLine, saveMachine } from '../server.ts';
import { countWords } from '../show.ts';
import { go } from '../state/place.ts';
import { LEVEL_WORDS, MARK_WORDS } from '../words/marks.ts';
import '../style/machines.css';

/** The list. */
export function Machines(): JSX.Element {
  const [got, setGot] = useState<Got<readonly MachineLine[]> | null>(null);
  useEffect(() => {
    void fetchMachines().then(setGot);
  }, []);
  return (
    <div class="stack wide">
      <h1 tabIndex={-1}>Machine files</h1>
      {got === null && <p>Looking for machine files on the laptop…</p>}
      {got?.ok === false && <Warn why={got.why} />}
      {got?.ok && (
        <ul class="job-list">
          {got.body.map(({ id, name, invented, versions, mark }) => (
            <li key={id}>
              <a class="link plain" href={writeRoute({ at: 'machine', machine: id })}>
                <span>
                  {name}
                  <span class="under">
                    {versions > 0
                      ? `${id}, written here, ${countWords(versions, 'version', 'versions')}`
                      : 'shipped'}
                    {invented ? ' · invented bike' : ''} · {MARK_WORDS[mark]}
                  </span>
                </span>
              </a>
            </li>
          ))}
        </ul>
      )}
      {/* What comes after the list waits for it: nothing moves away from a finger. */}
      {got && (
        <>
          <p>Open one that is like your bike, put your figures in, and save it under a name of its own.</p>
          <a class="link" href={writeRoute({ at: 'jobs' })}>
            To the list of jobs
          </a>
        </>
      )}
    </div>
  );
}

function Warn({ why }: { readonly why: string }): JSX.Element {
  return (
    <p class="warn" role="alert">
      <b class="flag">▲ Caution</b> {why}
    </p>
  );
}

const draftKey = (id: string): string => `machine draft ${id}`;

/** A text that was typed and not saved; a tab that may keep nothing has none. */
function draftOf(id: string): string | null {
  try {
    return localStorage.getItem(draftKey(id));
  } catch {
    return null;
  }
}

/** False when this browser may keep nothing: what is typed is then on the screen only. */
function keepDraft(id: string, text: string | null): boolean {
  try {
    if (text === null) localStorage.removeItem(draftKey(id));
    else localStorage.setItem(draftKey(id), text);
    return true;
  } catch {
    return false;
  }
}

/** One machine file. */
export function MachinePage({ id }: { readonly id: string }): JSX.Element {
  const [fetched, keep] = useState<{ readonly id: string; readonly got: Got<string> } | null>(null);
  useEffect(() => {
    let here = true;
    void fetchMachine(id).then((got) => here && keep({ id, got }));
    return () => {
      here = false;
    };
  }, [id]);
  // What was fetched for another machine is not this one's text.
  const got = fetched?.id === id ? fetched.got : null;
  const draft = draftOf(id);
  if (got?.ok) return <Editor key={id} id={id} saved={got.body} draft={draft} />;
  if (got === null) return <p class="step">Opening the machine file…</p>;
  // The laptop is away: what was typed here is still here.
  if (draft !== null && got.kind === 'unreachable')
    return <Editor key={id} id={id} saved={null} draft={draft} />;
  return (
    <div class="stack">
      <h1 tabIndex={-1}>The machine file cannot be opened</h1>
      <Warn why={got.why} />
      <a class="link" href={writeRoute({ at: 'machines' })}>
        To the machine files
      </a>
    </div>
  );
}

type Judged = Omit<FileJudged, 'machine'>;

/** Asks the worker to judge the newest text, a moment after the last key. */
function useJudged(text: string, name: string): Judged | null {
  const [judged, setJudged] = useState<Judged | null>(null);
  const worker = useRef<Worker | null>(null);
  const asked = useRef(0);
  useEffect(() => {
    const made = new Worker(new URL('../check-worker.ts', import.meta.url), { type: 'module' });
    made.addEventListener('message', ({ data }: MessageEvent<CheckReply>) => {
      if (data.id === asked.current) setJudged(data.judged);
    });
    worker.current = made;
    return () => made.terminate();
  }, []);
  useEffect(() => {
    const later = setTimeout(() => {
      asked.current += 1;
      const year = new Date().getFullYear();
      worker.current?.postMessage({ id: asked.current, text, name, year } satisfies CheckAsk);
    }, 120);
    return () => clearTimeout(later);
  }, [text, name]);
  return judged;
}

function Editor(props: {
  readonly id: string;
  /** Null while the laptop is away. */
  readonly saved: string | null;
  readonly draft: string | null;
}): JSX.Element {
  const { id } = props;
  const [text, setText] = useState(props.draft ?? props.saved ?? '');
  const [saved, setSaved] = useState(props.saved);
  const [name, setName] = useState(id);
  const [told, tell] = useState<{ readonly ok: boolean; readonly words: string } | null>(null);
  const area = useRef<HTMLTextAreaElement>(null);
  // A shipped file stays as it is: another name is proposed.
  useEffect(() => {
    let here = true;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = (): void => {
      void fetchMachines().then((got) => {
        if (!here) return;
        // Saved under the shipped one's name it would be refused: asked until it is known.
        if (!got.ok) timer = setTimeout(look, 3000);
        else if (got.body.some((one) => one.id === id && one.versions === 0))
          setName((now) => (now === id ? `my-${id}`.slice(0, 64) : now));
      });
    };
    look();
    return () => {
      here = false;
      clearTimeout(timer);
    };
  }, [id]);
  const judged = useJudged(text, `${id}.json`);
  const changed = saved !== text;
  const [kept, setKept] = useState(true);
  const newest = useRef(text);
  const type = (now: string): void => {
    newest.current = now;
    setText(now);
    setKept(keepDraft(id, now === saved ? null : now));
    tell(null);
  };
  const save = (): void => {
    void saveMachine(name.trim(), text).then((answer) => {
      if (!answer.ok) return tell({ ok: false, words: `${answer.why} What is typed here stays here.` });
      setSaved(text);
      tell({ ok: true, words: `Saved as version ${answer.body.version}: ${MARK_WORDS[answer.body.mark]}.` });
      // What was typed while it was being saved is newer than what was saved: it stays, here and as a draft.
      if (newest.current !== text) return;
      keepDraft(id, null);
      if (name.trim() !== id) go({ at: 'machine', machine: name.trim() });
    });
  };
  const jump = (line: number, column: number): void => {
    const field = area.current;
    if (!field) return;
    const before = text.split('\n').slice(0, line - 1);
    const at = before.reduce((sum, each) => sum + each.length + 1, 0) + column - 1;
    field.focus();
    field.setSelectionRange(at, at);
    // A line is 1.5 rem high; it is brought to the middle of the field.
    const high = Number.parseFloat(getComputedStyle(field).lineHeight);
    field.scrollTop = Math.max(0, (line - 1) * high - field.clientHeight / 2);
  };
  return (
    <div class="stack machine">
      <div class="stack tight">
        <h1 tabIndex={-1}>{id}</h1>
        <p role="status">{judged ? MARK_WORDS[judged.mark] : 'Looking it over…'}</p>
      </div>
      <div class="machine-halves">
        <section class="stack" aria-label="The file">
          <label class="field">
            <span>The machine file, as text</span>
            <textarea
              ref={area}
              class="file"
              value={text}
              spellcheck={false}
              autocapitalize="off"
              onInput={(event) => type(event.currentTarget.value)}
            />
          </label>
          <label class="field">
            <span>Save it as</span>
            <input
              value={name}
              maxLength={64}
              autocapitalize="off"
              spellcheck={false}
              onInput={(event) => setName(event.currentTarget.value)}
            />
          </label>
          <div class="row">
            <Press class="main" act={save}>
              Save
            </Press>
            <Press disabled={!changed || saved === null} act={() => type(saved ?? '')}>
              Back to what is saved
            </Press>
            <a class="link" href={writeRoute({ at: 'new' })}>
              New job
            </a>
            <a class="link" href={writeRoute({ at: 'ride', machine: id })}>
              Will it stay charged?
            </a>
            <a class="link" href={writeRoute({ at: 'machines' })}>
              All machine files
            </a>
          </div>
          <p role="status">
            {told?.ok === false && <b class="flag">▲ Caution</b>}{' '}
            {told?.words ??
              (changed
                ? kept
                  ? 'Not saved yet; kept in this browser.'
                  : 'Not saved yet, and this browser keeps nothing: save before you leave.'
                : '')}
          </p>
        </section>
        <section class="stack" aria-label="What the check finds">
          {judged && <Findings judged={judged} jump={jump} />}
        </section>
      </div>
    </div>
  );
}

/** How many are shown at once: a broken file can have hundreds, and the first is the one to mend. */
const SHOWN = 40;

function Findings(props: {
  readonly judged: Judged;
  readonly jump: (line: number, column: number) => void;
}): JSX.Element {
  const { problems, findings } = props.judged;
  if (problems.length + findings.length === 0) return <p>Nothing to say about this file.</p>;
  return (
    <>
      {problems.length > 0 && <h2>What does not read</h2>}
      <ul class="findings">
        {problems.slice(0, SHOWN).map(({ line, column, what, fix }) => (
          <li key={`${line} ${column} ${what}`}>
            <Press class="plain" act={() => props.jump(line, column)}>
              Line {line}
            </Press>
            <p>
              {what}. {fix}
            </p>
          </li>
        ))}
      </ul>
      {findings.length > 0 && <h2>What to look at</h2>}
      <ul class="findings">
        {findings.slice(0, SHOWN).map(({ level, line, column, path, what, why, lookUp }) => (
          <li key={`${path} ${what}`}>
            <Press class="plain" act={() => props.jump(line, column)}>
              {LEVEL_WORDS[level]}, line {line}
            </Press>
            <p>
              <strong>{what}</strong>. {why}. {lookUp}.
            </p>
          </li>
        ))}
      </ul>
      {problems.length + findings.length > SHOWN && (
        <p>More stand behind these; mend the first ones first.</p>
      )}
    </>
  );
}
