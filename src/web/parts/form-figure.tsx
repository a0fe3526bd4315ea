/** A figure with its source: what it is, who says so, what others say, what it was before. */
import { signal, useComputed } from '@preact/signals';
import type { JSX } from 'preact';
import { getAt, isObject, type Json, type Path, pathText } from '../../machine/json-value.ts';
import type { Fields } from '../../machine/shape.ts';
import { draft, put } from '../state/machine-draft.ts';
import { SOURCE_WORDS } from '../words/fields.ts';
import { Fold } from './fold.tsx';
import { type EntryProps, leadsTo, Members } from './form-entry.tsx';
import { FigureHistory } from './form-history.tsx';
import { Leaf, SourceLeaf, standsAt, useToldOf } from './form-leaf.tsx';

/** The source that was named last: a mechanic goes through one book before the next. */
const lastSource = signal<string | null>(null);

function firstSource(): string | undefined {
  const sources = getAt(draft.value?.value, ['sources']);
  const ids = isObject(sources) ? Object.keys(sources) : [];
  const last = lastSource.value;
  return last !== null && ids.includes(last) ? last : ids[0];
}

export function FigureEntry(props: EntryProps): JSX.Element {
  const { shape, path, words, about, field } = props;
  const fields: Fields = shape.form.kind === 'figure' ? shape.form.fields : {};
  const there = useToldOf(path, (figure) => (figure === undefined ? null : 'there')) !== null;
  const { is, ...others } = fields;
  const enter = (now: Json | undefined, typing: boolean): void => {
    const stands = standsAt(path);
    const figure = isObject(stands) ? stands : {};
    const bare = Object.keys(figure).every((key) => key === 'is' || key === 'from');
    // A figure that says nothing is no figure: it goes whole, and comes back whole.
    if (now === undefined && bare) put([{ path, is: undefined }], typing);
    else if (typeof figure.from === 'string' || now === undefined)
      put([{ path: [...path, 'is'], is: now }], typing);
    else put([{ path, is: { ...figure, is: now, from: firstSource() } }], typing);
  };
  return (
    <div class="figure-entry">
      {is && (
        <Leaf
          shape={is.shape}
          path={[...path, 'is']}
          words={words}
          about={about === '' ? is.about : about}
          needed={props.needed}
          enter={enter}
        />
      )}
      {Object.entries(others).map(([key, one]) => (
        <Leaf
          key={key}
          shape={one.shape}
          path={[...path, key]}
          words={one.about.charAt(0).toUpperCase() + one.about.slice(1)}
          about=""
          needed={one.needed}
        />
      ))}
      {there && (
        <Fold
          head={<Said path={path} />}
          open={leadsTo([...path, 'from'], field) || leadsTo([...path, 'also'], field)}
        >
          {() => (
            <div class="stack form">
              <SourceLeaf path={[...path, 'from']} words="Who says so" />
              <Members
                fields={restOf(shape)}
                path={path}
                field={field}
                skip={['is', 'from', ...Object.keys(others)]}
              />
              <FigureHistory path={path} />
            </div>
          )}
        </Fold>
      )}
    </div>
  );
}

/** The members that a figure has beside what it is. */
function restOf(shape: EntryProps['shape']): Fields {
  return shape.form.kind === 'figure' ? shape.form.rest : {};
}

/** Who says it, and how many others say something else. */
function Said({ path }: { readonly path: Path }): JSX.Element {
  const text = useComputed(() => {
    const figure = getAt(draft.value?.value, path);
    if (!isObject(figure)) return '';
    const source = getAt(draft.value?.value, ['sources', String(figure.from)]);
    const kind = isObject(source)
      ? (SOURCE_WORDS[String(source.kind)] ?? String(source.kind))
      : String(figure.from ?? 'nobody yet');
    const also = Array.isArray(figure.also) ? figure.also.length : 0;
    return [kind, figure.page, also > 0 ? `and ${also} more` : null].filter(Boolean).join(', ');
  }).value;
  return (
    <span class="quiet" data-said={pathText(path)}>
      source: {text}
    </span>
  );
}
