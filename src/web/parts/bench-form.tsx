import type { JSX } from 'preact';
import { useRef, useState } from 'preact/hooks';
import type { Asking } from '../../bench/ask.ts';
import { judge } from '../../bench/asks-of.ts';
import { BEAD_BEGUN } from '../../bench/clocks.ts';
import { prefill } from '../../bench/prefill.ts';
import type { AskHere } from '../../bench/standing.ts';
import { saySetting, settingFor } from '../../bench/torque-ask.ts';
import type { EventBody } from '../../job/event.ts';
import { TEXT_LIMITS } from '../../job/event-rule.ts';
import type { Field, Texts } from '../../sum/sum.ts';
import { type Draft, dropDraft, keepDraft, keptDraft } from '../bench-drafts.ts';
import { showTime } from '../show.ts';
import { deed } from '../state/bench.ts';
import { jobId } from '../state/job.ts';
import { Warning } from './bench-ask.tsx';
import { BigFigure } from './big-figure.tsx';
import { HoldPress } from './hold-press.tsx';
import { afterFrame } from './later.tsx';
import { Press } from './press-button.tsx';
import { TextEntry } from './text-entry.tsx';

/** Longest text that a record takes, characters. */
const MOST = TEXT_LIMITS.why;

/** What a record wants entered and looked at, judged while it is written, and its signature. */
export function BenchForm(props: {
  readonly here: AskHere;
  readonly asking: Asking;
  readonly signed: () => void;
}): JSX.Element {
  const { asking } = props;
  const { ask } = props.here;
  const [job, step] = [jobId.value ?? '', asking.place.id];
  const [draft, setDraft] = useState<Draft>(
    () =>
      keptDraft(sessionStorage, job, step, ask.id) ?? { texts: prefill(asking, ask, Date.now()), yes: [] },
  );
  const [why, setWhy] = useState('');
  const [tried, setTried] = useState(false);
  const signing = useRef(false);
  const change = (next: Draft): void => {
    keepDraft(sessionStorage, job, step, ask.id, next);
    setDraft(next);
  };
  const enter = (id: string, text: string): void =>
    change({ ...draft, texts: { ...draft.texts, [id]: text } });
  const toggle = (id: string): void =>
    change({
      ...draft,
      yes: draft.yes.includes(id) ? draft.yes.filter((one) => one !== id) : [...draft.yes, id],
    });
  const judged = judge(asking, ask.id, draft.texts, draft.yes);
  const faults = tried && !judged.ok ? judged.faults : [];
  const whyOf = (id: string) => faults.find(({ field }) => field === id)?.why ?? null;
  const stops = judged.ok ? judged.stops : [];
  const sign = (): void => {
    setTried(true);
    if (!judged.ok || (stops.length > 0 && why.trim() === '')) return;
    const body: EventBody = {
      type: 'recordMade',
      step,
      ask: ask.id,
      yes: draft.yes.filter((id) => ask.looks.some((look) => look.id === id)),
      figures: judged.figures,
      words: { ...filled(draft.texts), ...(stops.length > 0 ? { why: why.trim() } : {}) },
    };
    if (signing.current) return;
    signing.current = true;
    afterFrame(() => {
      deed(body);
      dropDraft(sessionStorage, job, step, ask.id);
      signing.current = false;
      props.signed();
    });
  };
  return (
    <div class="stack tight">
      <p>{ask.why}</p>
      {ask.id === 'bead' && <FirstBead asking={asking} />}
      {ask.looks.length > 0 && (
        <fieldset class="toggles">
          <legend class="unseen">{ask.title}: looked at</legend>
          {ask.looks.map(({ id, words }) => (
            <Press key={id} pressed={draft.yes.includes(id)} act={() => toggle(id)}>
              {words}
            </Press>
          ))}
        </fieldset>
      )}
      {ask.fields.map((field) =>
        field.id === 'set' ? (
          <Setting
            key={field.id}
            asking={asking}
            texts={draft.texts}
            field={field}
            why={whyOf('set')}
            enter={(text) => enter('set', text)}
          />
        ) : (
          <TextEntry
            key={field.id}
            field={field}
            text={draft.texts[field.id] ?? ''}
            why={whyOf(field.id)}
            most={MOST}
            enter={(text) => enter(field.id, text)}
          />
        ),
      )}
      {faults
        .filter(({ field }) => field === null || !ask.fields.some(({ id }) => id === field))
        .map(({ why: says }) => (
          <Warning key={says} says={says} />
        ))}
      {stops.map((says) => (
        <Warning key={says} says={says} />
      ))}
      {stops.length > 0 && (
        <TextEntry
          field={{
            id: 'why',
            words: 'Sign it all the same, because',
            kind: 'text',
            need: 'must',
            initial: '',
            example: 'nothing else to be had tonight',
          }}
          text={why}
          why={tried && why.trim() === '' ? 'A reason is wanted: it goes into the record.' : null}
          most={MOST}
          enter={setWhy}
        />
      )}
      <Press class="main sign" label={`Sign: ${ask.title}`} act={sign}>
        {stops.length > 0 ? 'Sign it as it is' : 'Sign'}
      </Press>
      <GoWithout step={step} ask={ask.id} words="Go on without this record" />
    </div>
  );
}

function filled(texts: Texts): Texts {
  return Object.fromEntries(Object.entries(texts).filter(([, text]) => text.trim() !== ''));
}

/** The window of a bead counts from its first inch, which may be minutes before it is signed. */
function FirstBead(props: { readonly asking: Asking }): JSX.Element | null {
  const { bench, place } = props.asking;
  const begun = bench.records.findLast(({ step, ask }) => step === place.id && ask === BEAD_BEGUN);
  if (begun) return <p>◷ The first bead went on at {showTime(begun.at, new Date())}.</p>;
  return (
    <Press
      act={() =>
        deed({ type: 'recordMade', step: place.id, ask: BEAD_BEGUN, yes: [], figures: {}, words: {} })
      }
    >
      ◷ The first bead goes on now
    </Press>
  );
}

/** What the wrench is to be set to, as large as a figure gets, and what it was set to. */
function Setting(props: {
  readonly asking: Asking;
  readonly texts: Texts;
  readonly field: Field;
  readonly why: string | null;
  readonly enter: (text: string) => void;
}): JSX.Element {
  const plan = settingFor(props.asking, props.texts);
  const said = plan?.ok ? saySetting(plan) : null;
  return (
    <div class="stack tight">
      {said && (
        <div class="bench-set">
          <p class="ask">Set the wrench to</p>
          <BigFigure text={said.metric} />
          {said.inch !== said.metric && <p class="bench-other">{said.inch}</p>}
          <Press act={() => props.enter(said.metric)}>It is set to {said.metric}</Press>
          <Press act={() => props.enter(said.inch)}>It is set to {said.inch}</Press>
        </div>
      )}
      {plan && !plan.ok && plan.faults.map(({ why }) => <Warning key={why} says={why} />)}
      <TextEntry
        field={props.field}
        text={props.texts.set ?? ''}
        why={props.why}
        most={MOST}
        enter={props.enter}
      />
    </div>
  );
}

/** Leaves something out that is wanted: a reason, and a button that is held. */
export function GoWithout(props: {
  readonly step: string;
  readonly ask: string;
  readonly words: string;
}): JSX.Element {
  const [open, setOpen] = useState(false);
  const [why, setWhy] = useState('');
  const ready = why.trim() !== '';
  return (
    <div class="stack tight">
      <Press class="plain" expanded={open} act={() => setOpen(!open)}>
        {props.words}
      </Press>
      {open && (
        <>
          <TextEntry
            field={{
              id: 'why',
              words: 'Because',
              kind: 'text',
              need: 'must',
              initial: '',
              example: 'the wrench is broken',
            }}
            text={why}
            why={null}
            most={MOST}
            enter={setWhy}
          />
          <p>It will stand in the record, with this reason.</p>
          <HoldPress
            disabled={!ready}
            act={() => deed({ type: 'holdOverridden', step: props.step, ask: props.ask, why: why.trim() })}
          >
            Go on without
          </HoldPress>
        </>
      )}
    </div>
  );
}
