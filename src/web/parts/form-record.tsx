import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { isObject, type Json, type Path, pathText } from '../../machine/json-value.ts';
import { freshId } from '../../machine/plain-id.ts';
import type { Shape } from '../../machine/shape.ts';
import { countWords } from '../show.ts';
import { put } from '../state/machine-draft.ts';
import { Fold } from './fold.tsx';
import { type EntryProps, FormEntry, leadsTo, summary } from './form-entry.tsx';
import { Found, FoundCount } from './form-found.tsx';
import { standsAt, useToldOf } from './form-leaf.tsx';
import { Press } from './press-button.tsx';

/** Most entries that stand there at once, count; the others are found by typing. */
const SHOWN = 30;
/** From how many entries on a field to look for one is offered, count. */
const LOOK_FROM = 10;

/** Entries under ids: each folded to a line, one more by its name, and a field to look for one of many. */
export function RecordEntry(
  props: EntryProps & { readonly item: Shape<unknown>; readonly exampleId: string },
): JSX.Element {
  const { path, item, field } = props;
  const text = useToldOf(path, (is) => (isObject(is) ? Object.keys(is).join('\n') : '')) ?? '';
  const [wanted, want] = useState('');
  const added = useSignal<string | null>(null);
  const ids = text === '' ? [] : text.split('\n');
  const looked = wanted.trim().toLowerCase();
  const fits = ids.filter(
    (id) =>
      looked === '' ||
      id.includes(looked) ||
      titleOf(id, standsAt([...path, id]))
        .toLowerCase()
        .includes(looked),
  );
  // What is to be shown first is there however many stand before it.
  const first = fits.findIndex((id) => leadsTo([...path, id], field) || id === added.value);
  const shown = first >= SHOWN ? [...fits.slice(0, SHOWN - 1), fits[first]!] : fits.slice(0, SHOWN);
  return (
    <div class="stack form">
      {ids.length >= LOOK_FROM && (
        <label class="field">
          <span>Look for one of {ids.length}</span>
          <input
            class="typed"
            value={wanted}
            maxLength={80}
            autocapitalize="off"
            spellcheck={false}
            onInput={(event) => want(event.currentTarget.value)}
          />
        </label>
      )}
      {shown.map((id) => (
        <Entry
          key={id}
          id={id}
          item={item}
          path={[...path, id]}
          field={field}
          open={leadsTo([...path, id], field) || id === added.value}
        />
      ))}
      {fits.length > shown.length && (
        <p>
          {countWords(fits.length - shown.length, 'more fits', 'more fit')} the search; type more of the name.
        </p>
      )}
      {looked !== '' && fits.length === 0 && (
        <p>
          None of {ids.length} has “{wanted}” in its name.
        </p>
      )}
      <Found place={pathText(path)} id={`${pathText(path)}-all`} hint="" />
      <AddEntry
        example={props.exampleId}
        taken={ids}
        add={(id, name) => {
          added.value = id;
          put([{ path: [...path, id], is: nameMember(item, name) }]);
        }}
      />
    </div>
  );
}

/** A new entry, with its name where entries of its kind have one. */
function nameMember(item: Shape<unknown>, name: string): Json {
  const { form } = item;
  if (form.kind === 'tagged') return { kind: 'book', title: name };
  if (form.kind !== 'object') return {};
  return Object.hasOwn(form.fields, 'name')
    ? { name }
    : Object.hasOwn(form.fields, 'does')
      ? { does: name }
      : {};
}

function Entry(props: {
  readonly id: string;
  readonly item: Shape<unknown>;
  readonly path: Path;
  readonly field: string | null;
  readonly open: boolean;
}): JSX.Element {
  const { id, item, path } = props;
  return (
    <Fold open={props.open} head={<EntryHead id={id} path={path} />}>
      {() => (
        <div class="stack form">
          <FormEntry shape={item} path={path} words={id} about="" needed={true} field={props.field} />
          <p class="row">
            <Press act={() => put([{ path, is: undefined }])} label={`Take it out: ${id}`}>
              Take it out
            </Press>
            <span class="quiet">It can be taken back.</span>
          </p>
        </div>
      )}
    </Fold>
  );
}

/** The line of an entry: a part of its own, so that a key in the entry draws the line anew and not the entry. */
function EntryHead(props: { readonly id: string; readonly path: Path }): JSX.Element {
  const { id, path } = props;
  const title = useToldOf(path, (one) => titleOf(id, one)) ?? id;
  const line = useToldOf(path, (one) => lineOf(id, one)) ?? '';
  return (
    <span>
      <b>{title}</b> <FoundCount place={pathText(path)} />
      <span class="under">{line}</span>
    </span>
  );
}

function titleOf(id: string, one: Json | undefined): string {
  if (isObject(one))
    for (const key of ['name', 'title', 'does'])
      if (typeof one[key] === 'string' && one[key]) return one[key];
  return id;
}

/** What an entry says, in a line under its name. */
function lineOf(id: string, one: Json | undefined): string {
  if (!isObject(one)) return id;
  const { name: _name, title: _title, does: _does, note: _note, ...rest } = one;
  return [id, summary(rest)].filter((part) => part !== null && part !== '').join(' · ');
}

function AddEntry(props: {
  readonly example: string;
  readonly taken: readonly string[];
  readonly add: (id: string, name: string) => void;
}): JSX.Element {
  const [name, setName] = useState('');
  const add = (): void => {
    if (name.trim() === '') return;
    props.add(freshId(name, new Set(props.taken)), name.trim());
    setName('');
  };
  return (
    <div class="entry-row">
      <label class="field">
        <span>One more, by its name</span>
        <input
          class="typed"
          value={name}
          maxLength={80}
          placeholder={`such as ${props.example.replaceAll('-', ' ')}`}
          onInput={(event) => setName(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') add();
          }}
        />
      </label>
      <Press disabled={name.trim() === ''} act={add}>
        Add
      </Press>
    </div>
  );
}
