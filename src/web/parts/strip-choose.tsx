import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { StripThing } from '../../draft/point-strip.ts';
import { Press } from './press-button.tsx';

/** Things shown at once, count; typing finds the others. */
const SHOWN = 24;
/** From so many things on they can be searched. */
const SEARCHED = 9;

/** Things one may choose one of by touching it; of many those whose name has all the words that are typed. */
export function StripChoose(props: {
  readonly ask: string;
  readonly things: readonly StripThing[];
  readonly choose: (thing: string) => void;
  readonly chosen?: string | null;
}): JSX.Element {
  const [search, type] = useState('');
  const words = search.toLowerCase().split(/\s+/);
  const found = props.things.filter(({ name }) => words.every((word) => name.toLowerCase().includes(word)));
  return (
    <div class="strip-choose stack tight">
      {props.things.length >= SEARCHED && (
        <label class="field">
          <span>{props.ask}</span>
          <input type="search" value={search} onInput={(event) => type(event.currentTarget.value)} />
        </label>
      )}
      {props.things.length < SEARCHED && <p class="ask">{props.ask}</p>}
      <ul class="strip-list">
        {found.slice(0, SHOWN).map(({ id, name }) => (
          <li key={id}>
            <Press class="plain" pressed={props.chosen === id} act={() => props.choose(id)}>
              {name}
            </Press>
          </li>
        ))}
      </ul>
      {found.length > SHOWN && <p class="quiet">And {found.length - SHOWN} more: type a part of the name.</p>}
      {found.length === 0 && <p class="quiet">None is called that.</p>}
    </div>
  );
}
