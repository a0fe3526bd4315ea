import type { JSX } from 'preact';
import { isObject, type Json, type Path, pathText } from '../../machine/json-value.ts';
import type { Shape } from '../../machine/shape.ts';
import { put } from '../state/machine-draft.ts';
import { Fold } from './fold.tsx';
import { type EntryProps, FormEntry, isSmall, leadsTo, summary } from './form-entry.tsx';
import { Found } from './form-found.tsx';
import { useToldOf } from './form-leaf.tsx';
import { Press } from './press-button.tsx';

/** A list: its entries one under another, each to be taken out, and one more. */
export function ListEntry(
  props: EntryProps & { readonly item: Shape<unknown>; readonly most: number },
): JSX.Element {
  const { path, item } = props;
  const count = Number(useToldOf(path, (is) => String(Array.isArray(is) ? is.length : 0)));
  const small = isSmall(item) && item.form.kind !== 'figure';
  return (
    <div class="stack form">
      <p class="below">{props.about}</p>
      {Array.from({ length: count }, (_, n) => (
        <Item key={n} {...props} n={n} small={small} path={[...path, n]} />
      ))}
      <Found place={pathText(path)} id={`${pathText(path)}-list`} hint="" />
      <p class="row">
        <Press
          disabled={count >= props.most}
          act={() => put([{ path: [...path, count], is: small ? '' : {} }])}
        >
          Add one
        </Press>
      </p>
    </div>
  );
}

function Item(
  props: EntryProps & {
    readonly item: Shape<unknown>;
    readonly n: number;
    readonly small: boolean;
    readonly path: Path;
  },
): JSX.Element {
  const { item, n, path } = props;
  const words = `${n + 1}`;
  const entry = <FormEntry {...props} shape={item} path={path} words={words} about="" needed={true} />;
  const out = (
    <Press act={() => put([{ path, is: undefined }])} label={`Take out ${words}`}>
      Take out
    </Press>
  );
  if (props.small)
    return (
      <div class="entry-row">
        {entry}
        {out}
      </div>
    );
  return (
    <Fold open={leadsTo(path, props.field)} head={<ItemHead words={words} path={path} />}>
      {() => (
        <div class="stack form">
          {entry}
          <p class="row">{out}</p>
        </div>
      )}
    </Fold>
  );
}

function ItemHead(props: { readonly words: string; readonly path: Path }): JSX.Element {
  const title = useToldOf(props.path, titleOf) ?? '';
  return (
    <span>
      <b>{props.words}</b>
      <span class="under">{title}</span>
    </span>
  );
}

function titleOf(one: Json | undefined): string {
  if (isObject(one))
    for (const key of ['does', 'name', 'at']) if (typeof one[key] === 'string') return one[key];
  return typeof one === 'string' ? one : (summary(one) ?? 'nothing said yet');
}
