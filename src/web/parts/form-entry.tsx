/** One place of the machine file as a form, whatever its shape: the definition of the file says what is asked. */
import type { JSX } from 'preact';
import { isObject, type Json, type Path, pathText } from '../../machine/json-value.ts';
import type { Field, Fields, Shape } from '../../machine/shape.ts';
import { put } from '../state/machine-draft.ts';
import { fieldWords } from '../words/fields.ts';
import { Fold } from './fold.tsx';
import { FigureEntry } from './form-figure.tsx';
import { Found } from './form-found.tsx';
import { Leaf, SourceLeaf, useToldOf } from './form-leaf.tsx';
import { ListEntry } from './form-list.tsx';
import { RecordEntry } from './form-record.tsx';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';

export interface EntryProps {
  readonly shape: Shape<unknown>;
  readonly path: Path;
  readonly words: string;
  readonly about: string;
  readonly needed: boolean;
  /** The place that is to be shown first: what leads to it stands open. */
  readonly field: string | null;
}

/** Whether an entry is one field, and not a heading with fields of its own. */
export function isSmall(shape: Shape<unknown>): boolean {
  return !['object', 'record', 'list', 'tagged'].includes(shape.form.kind);
}

export function FormEntry(props: EntryProps): JSX.Element {
  const { shape, path } = props;
  switch (shape.form.kind) {
    case 'object':
      return <Members fields={shape.form.fields} path={path} field={props.field} />;
    case 'figure':
      return <FigureEntry {...props} />;
    case 'record':
      return <RecordEntry {...props} item={shape.form.item} exampleId={shape.form.exampleId} />;
    case 'list':
      return <ListEntry {...props} item={shape.form.item} most={shape.form.most} />;
    case 'tagged':
      return <TaggedEntry {...props} variants={shape.form.variants} />;
    case 'source':
      return <SourceLeaf path={path} words={props.words} />;
    default:
      return <Leaf {...props} />;
  }
}

/** The members of an object: what must be there and what is there, then what may be added. */
export function Members(props: {
  readonly fields: Fields;
  readonly path: Path;
  readonly field: string | null;
  readonly skip?: readonly string[];
}): JSX.Element {
  const { fields, path, skip = [] } = props;
  const keys = useToldOf(path, keysOf) ?? '';
  const has = (key: string): boolean => keys.split('\n').includes(key);
  const names = Object.keys(fields).filter((key) => !skip.includes(key));
  const shown = names.filter((key) => fields[key]!.needed || has(key));
  const more = names.filter((key) => !fields[key]!.needed && !has(key));
  return (
    <div class="stack form">
      {shown.map((key) => (
        <Member key={key} name={key} field={fields[key]!} path={[...path, key]} show={props.field} />
      ))}
      {more.length > 0 && (
        <Fold
          head={`More fields: ${more.map((key) => fieldWords(key).toLowerCase()).join(', ')}`}
          open={more.some((key) => leadsTo([...path, key], props.field))}
        >
          {() => (
            <div class="stack form">
              {more.map((key) => (
                <Member key={key} name={key} field={fields[key]!} path={[...path, key]} show={props.field} />
              ))}
            </div>
          )}
        </Fold>
      )}
    </div>
  );
}

/** The members that an object has, a line each. */
function keysOf(value: Json | undefined): string {
  return isObject(value)
    ? Object.keys(value)
        .filter((key) => value[key] !== undefined)
        .join('\n')
    : '';
}

/** Whether a place is what is to be shown, or leads to it. */
export function leadsTo(path: Path, field: string | null): boolean {
  const place = pathText(path);
  return (
    field !== null &&
    (field === place || (field.startsWith(place) && /^[.[]/.test(field.slice(place.length))))
  );
}

function Member(props: {
  readonly name: string;
  readonly field: Field<unknown>;
  readonly path: Path;
  readonly show: string | null;
}): JSX.Element {
  const { field, path } = props;
  const words = fieldWords(props.name);
  const entry = (
    <FormEntry
      shape={field.shape}
      path={path}
      words={words}
      about={field.about}
      needed={field.needed}
      field={props.show}
    />
  );
  if (isSmall(field.shape)) return entry;
  return <Group name={props.name} field={field} path={path} show={props.show} entry={entry} />;
}

/** A heading with fields of its own, folded until it is wanted. */
function Group(props: {
  readonly name: string;
  readonly field: Field<unknown>;
  readonly path: Path;
  readonly show: string | null;
  readonly entry: JSX.Element;
}): JSX.Element {
  const { field, path } = props;
  const there = useToldOf(path, (is) => (is === undefined ? null : 'there')) !== null;
  const words = fieldWords(props.name);
  if (!there && field.shape.form.kind === 'object' && !field.needed)
    return (
      <p class="row">
        <Press act={() => put([{ path, is: {} }])}>Add {words.toLowerCase()}</Press>
        <span class="quiet">{field.about}</span>
      </p>
    );
  return (
    <Fold open={leadsTo(path, props.show)} head={<GroupHead words={words} about={field.about} path={path} />}>
      {() => props.entry}
    </Fold>
  );
}

/** The line of a heading: a part of its own, so that a key inside draws the line anew and not all that is inside. */
function GroupHead(props: {
  readonly words: string;
  readonly about: string;
  readonly path: Path;
}): JSX.Element {
  const line = useToldOf(props.path, summary) || props.about;
  return (
    <span>
      <b>{props.words}</b>
      <span class="under">{line}</span>
    </span>
  );
}

/** What a heading holds, in a line; null where it holds nothing. */
export function summary(value: Json | undefined): string | null {
  if (Array.isArray(value)) {
    const items = value as readonly Json[];
    if (items.length === 0) return null;
    return items.every((one) => typeof one === 'string') ? items.join(', ') : `${items.length}`;
  }
  if (!isObject(value)) return null;
  const said = Object.values(value).flatMap((one) => {
    if (typeof one === 'string') return one;
    // A bare count says nothing without its name.
    return isObject(one) && typeof one.is === 'string' ? one.is : [];
  });
  const text = said.slice(0, 4).join(' · ');
  return text === '' ? `${Object.keys(value).length || ''}` || null : text;
}

function TaggedEntry(
  props: EntryProps & { readonly variants: Readonly<Record<string, Fields>> },
): JSX.Element {
  const { path, variants } = props;
  const kind = useToldOf([...path, 'kind'], (is) => (typeof is === 'string' ? is : '')) ?? '';
  const fields = Object.hasOwn(variants, kind) ? variants[kind] : undefined;
  return (
    <div class="stack form">
      <Segments
        ask="Kind"
        choices={Object.keys(variants).map((word) => ({ value: word, title: word.replaceAll('-', ' ') }))}
        chosen={kind}
        choose={(word) => put([{ path: [...path, 'kind'], is: word }])}
      />
      <Found place={pathText([...path, 'kind'])} id={`${pathText(path)}-kind`} hint="" />
      {fields && <Members fields={fields} path={path} field={props.field} />}
    </div>
  );
}
