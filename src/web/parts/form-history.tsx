import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { historyOf, type Stood } from '../../draft/history.ts';
import { isObject, type Json, type Path, pathText } from '../../machine/json-value.ts';
import { file, put } from '../state/machine-draft.ts';
import { versionsOf } from '../state/machine-versions.ts';
import { Press } from './press-button.tsx';

/** What a figure was in earlier versions, and the way back to each. */
export function FigureHistory({ path }: { readonly path: Path }): JSX.Element | null {
  const [stood, setStood] = useState<readonly Stood[] | null>(null);
  const id = file.value?.id ?? null;
  const place = pathText(path);
  useEffect(() => {
    let here = true;
    if (id !== null) void versionsOf(id).then((versions) => here && setStood(historyOf(versions, path)));
    return () => {
      here = false;
    };
  }, [id, place, file.value?.saved]);
  if (stood === null || stood.length < 2) return null;
  return (
    <div>
      <p class="ask">What it was</p>
      <ul class="history">
        {stood.map(({ from, savedAt, is }) => (
          <li key={from} class="row">
            <span>
              <b class="figure">{sayFigure(is)}</b>
              <span class="under">
                from version {from}
                {savedAt === null ? '' : `, ${savedAt.slice(0, 10)}`}
              </span>
            </span>
            <Press act={() => put([{ path, is }])}>As it was then</Press>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** A figure as text, with who says it. */
export function sayFigure(value: Json | undefined): string {
  if (value === undefined) return 'nothing';
  if (isObject(value) && value.is !== undefined)
    return `${String(value.is)}${value.at === undefined ? '' : ` at ${String(value.at)}`} (${String(value.from)})`;
  return typeof value === 'object' ? JSON.stringify(value).slice(0, 200) : String(value);
}
