/** One machine file: its sections as forms, each with what the check says beside the field, and what is done with the whole. */
import type { ComponentType, JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { Put } from '../../draft/draft.ts';
import { SECTIONS } from '../../machine/definition.ts';
import { getAt, isObject, type Json } from '../../machine/json-value.ts';
import type { Field } from '../../machine/shape.ts';
import { later } from '../browser.ts';
import { FILE_PAGES } from '../pages.ts';
import { Fetched } from '../parts/fetched-page.tsx';
import { Fold } from '../parts/fold.tsx';
import { FormEntry } from '../parts/form-entry.tsx';
import { FoundCount } from '../parts/form-found.tsx';
import { useToldOf } from '../parts/form-leaf.tsx';
import { inTurn } from '../parts/later.tsx';
import { MachineBar, ToWhole } from '../parts/machine-bar.tsx';
import { MachineFound } from '../parts/machine-found.tsx';
import { MachineLoop } from '../parts/machine-loop.tsx';
import { MachineText } from '../parts/machine-text.tsx';
import { Press } from '../parts/press-button.tsx';
import { type MachinePart, writeRoute } from '../route.ts';
import { countWords } from '../show.ts';
import { draft, failure, file, hasForms, openFile, put, saveAs, unreadable } from '../state/machine-draft.ts';
import { PART_WORDS, SECTION_PARTS, WHOLE_PARTS } from '../words/machine-parts.ts';

/** A page of one machine file. */
export function MachinePage(props: {
  readonly id: string;
  readonly part: MachinePart | null;
  readonly field: string | null;
}): JSX.Element {
  const { id, part, field } = props;
  useEffect(() => void openFile(id), [id]);
  const open = file.value;
  if (failure.value !== null)
    return (
      <div class="stack">
        <h1 tabIndex={-1}>The machine file cannot be opened</h1>
        <p class="warn" role="alert">
          <b class="flag">▲ Caution</b> {failure.value}
        </p>
        <a class="link" href={writeRoute({ at: 'machines' })}>
          To the machine files
        </a>
      </div>
    );
  // Two pages stand before the worker has read the file: its text, and what is worked out from what is entered there.
  const reading = part !== 'text' && part !== 'estimate' && !hasForms.value && !unreadable.value;
  if (open === null || open.id !== id || reading) return <p class="step">Opening the machine file…</p>;
  return (
    <div class="stack machine">
      {part === null ? <Whole id={id} /> : <Part key={part} id={id} part={part} field={field} />}
      <MachineBar />
    </div>
  );
}

/** What a section holds, in a line. */
function holds(value: Json | undefined, part: MachinePart): string {
  const { about } = PART_WORDS[part];
  if (value === undefined) return `${about} · nothing yet`;
  if (part === 'about' || part === 'charging' || part === 'work' || !isObject(value)) return about;
  return `${countWords(Object.keys(value).length, 'entry', 'entries')} · ${about}`;
}

function nameOf(value: Json | undefined, id: string): string {
  const words = ['maker', 'model'].flatMap((key) => {
    const said = getAt(value, ['about', key]);
    return typeof said === 'string' ? said : [];
  });
  return words.join(' ').trim() || id;
}

/** The file as a whole: its sections, and what is to be looked at. */
function Whole({ id }: { readonly id: string }): JSX.Element {
  const value = draft.value?.value;
  const href = (part: MachinePart): string => writeRoute({ at: 'machine', machine: id, part, field: null });
  return (
    <>
      <div class="stack tight">
        <h1 tabIndex={-1}>{nameOf(value, id)}</h1>
        <p class="quiet">
          {id}
          {file.value?.shipped ? ', shipped: what you change is saved under a name of your own' : ''}
        </p>
      </div>
      <div class="machine-halves">
        <nav class="stack" aria-label="Pages of the file">
          {value === undefined ? (
            <p class="warn" role="alert">
              <b class="flag">▲ Caution</b> The text of this file does not read, so it has no forms now: mend
              it <a href={href('text')}>as text</a>, or take the last change back.
            </p>
          ) : (
            <ul class="job-list">
              {SECTION_PARTS.map((part) => (
                <li key={part}>
                  <a class="link plain" href={href(part)}>
                    <span>
                      {PART_WORDS[part].title} <FoundCount place={`$.${part}`} />
                      <span class="under">{holds(getAt(value, [part]), part)}</span>
                    </span>
                  </a>
                </li>
              ))}
            </ul>
          )}
          <ul class="job-list">
            {WHOLE_PARTS.map((part) => (
              <li key={part}>
                <a class="link plain" href={href(part)}>
                  <span>
                    {PART_WORDS[part].title}
                    <span class="under">{PART_WORDS[part].about}</span>
                  </span>
                </a>
              </li>
            ))}
          </ul>
          <label class="field">
            <span>Save it as</span>
            <input
              value={saveAs.value}
              maxLength={64}
              autocapitalize="off"
              spellcheck={false}
              onInput={(event) => {
                saveAs.value = event.currentTarget.value;
              }}
            />
          </label>
          <div class="row">
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
        </nav>
        <section class="stack" aria-label="What the check finds">
          <MachineLoop />
          <MachineFound />
        </section>
      </div>
    </>
  );
}

/** Brings a field into view, once what leads to it stands open. */
function useShown(field: string | null): void {
  useEffect(() => {
    if (field === null) return undefined;
    let tries = 0;
    let stop: (() => void) | null = null;
    const look = (): void => {
      tries += 1;
      // The nearest place above it that has a field of its own, when it has none.
      const found = [...document.querySelectorAll<HTMLElement>('[data-place]')]
        .filter(({ dataset }) => field.startsWith(dataset.place ?? '?'))
        .sort((a, b) => (b.dataset.place?.length ?? 0) - (a.dataset.place?.length ?? 0))[0];
      const entry = found?.querySelector<HTMLElement>('input, textarea, select, button');
      if (entry && (found?.dataset.place === field || tries > 4)) {
        entry.scrollIntoView({ block: 'center' });
        entry.focus({ preventScroll: true });
      } else if (tries < 8) stop = inTurn(look);
    };
    stop = inTurn(look);
    return () => stop?.();
  }, [field]);
}

function Part(props: {
  readonly id: string;
  readonly part: MachinePart;
  readonly field: string | null;
}): JSX.Element {
  const { id, part, field } = props;
  const { title, about } = PART_WORDS[part];
  useShown(field);
  return (
    <>
      <div class="stack tight">
        <h1 tabIndex={-1}>{title}</h1>
        <p class="quiet">{about}</p>
      </div>
      <Content part={part} field={field} />
      <p class="row">
        <ToWhole id={id} />
      </p>
    </>
  );
}

function Content(props: { readonly part: MachinePart; readonly field: string | null }): JSX.Element {
  switch (props.part) {
    case 'text':
      return <MachineText />;
    case 'compare':
      return <Fetched of={FILE_PAGES.compare}>{({ MachineCompare }) => <MachineCompare />}</Fetched>;
    case 'sharpen':
      return <Fetched of={FILE_PAGES.sharpen}>{({ MachineSharpen }) => <MachineSharpen />}</Fetched>;
    case 'estimate':
      return <Fetched of={FILE_PAGES.estimate}>{({ MachineEstimate }) => <MachineEstimate />}</Fetched>;
    case 'learned':
      return <Fetched of={FILE_PAGES.learned}>{({ MachineLearned }) => <MachineLearned />}</Fetched>;
    case 'sheet':
      return <Fetched of={FILE_PAGES.sheet}>{({ MachineSheet }) => <MachineSheet />}</Fetched>;
    case 'share':
      return <Fetched of={FILE_PAGES.share}>{({ MachineShare }) => <MachineShare />}</Fetched>;
    case 'parts':
      return <Parts field={props.field} />;
    default:
      return <Section {...props} />;
  }
}

/** What comes off after what, by pointing; the same as fields below, for who wants them. */
function Parts(props: { readonly field: string | null }): JSX.Element {
  if (!hasForms.value) return <Section part="parts" field={null} />;
  return (
    <div class="stack wide">
      <h2>Touch a part</h2>
      <Fetched of={FILE_PAGES.parts}>{({ StripEditor }) => <Pointing editor={StripEditor} />}</Fetched>
      <Fold head="The parts as fields" open={props.field !== null}>
        {() => <Section part="parts" field={props.field} />}
      </Fold>
    </div>
  );
}

/** How long after the last key in the fields the drawing follows, ms; what is pointed out shows at once. */
const FOLLOWS_MS = 250;

function Pointing(props: {
  readonly editor: ComponentType<{
    readonly value: Json;
    readonly put: (puts: readonly Put[]) => void;
  }>;
}): JSX.Element | null {
  const [value, setValue] = useState(() => draft.peek()?.value ?? null);
  useEffect(() => {
    let stop: (() => void) | null = null;
    const end = draft.subscribe((now) => {
      stop?.();
      stop = later(() => setValue(now?.value ?? null), FOLLOWS_MS);
    });
    return () => {
      end();
      stop?.();
    };
  }, []);
  const Editor = props.editor;
  const point = (puts: readonly Put[]): void => {
    put(puts);
    setValue(draft.peek()?.value ?? null);
  };
  return value === null ? null : <Editor value={value} put={point} />;
}

function Section(props: { readonly part: MachinePart; readonly field: string | null }): JSX.Element {
  const { part, field } = props;
  const there = useToldOf([part], (is) => (is === undefined ? null : 'there')) !== null;
  const known = (SECTIONS as Readonly<Record<string, Field<unknown> | undefined>>)[part];
  if (!hasForms.value || known === undefined)
    return <p>The text of this file does not read, so it has no forms now: mend it as text.</p>;
  const form = (
    <FormEntry
      shape={known.shape}
      path={[part]}
      words={PART_WORDS[part].title}
      about={known.about}
      needed={known.needed}
      field={field}
    />
  );
  if (!there && part === 'work')
    return (
      <p class="row">
        <Press act={() => put([{ path: ['work'], is: {} }])}>Begin the way in</Press>
      </p>
    );
  if (part !== 'charging') return form;
  return (
    <div class="machine-halves">
      {form}
      <div class="stack">
        <MachineLoop />
      </div>
    </div>
  );
}
