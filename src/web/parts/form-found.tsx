import { useComputed } from '@preact/signals';
import type { JSX } from 'preact';
import type { PlacedFinding } from '../../machine/finding.ts';
import type { Problem } from '../../machine/problem.ts';
import { judged } from '../state/machine-draft.ts';
import { LEVEL_WORDS } from '../words/marks.ts';

/** Whether a path is a place or something inside it. */
function within(path: string, place: string): boolean {
  return path === place || (path.startsWith(place) && /^[.[]/.test(path.slice(place.length)));
}

/** What the check says of a place and all inside it; `own` leaves out what stands at entries inside. */
export function foundAt(place: string): readonly (Problem | PlacedFinding)[] {
  const now = judged.value;
  if (now === null) return [];
  return [...now.problems, ...now.findings].filter(({ path }) => within(path, place));
}

/** How many things the check says of a place, as a sign with a count; nothing where it says nothing. */
export function FoundCount({ place }: { readonly place: string }): JSX.Element | null {
  const count = useComputed(() => foundAt(place).filter(graver).length).value;
  return count === 0 ? null : (
    <span class="found-count">
      ▲ {count} <span class="quiet">to look at</span>
    </span>
  );
}

/** A hint is no reason to look. */
function graver(one: Problem | PlacedFinding): boolean {
  return !('level' in one) || one.level !== 'hint';
}

/** What the check says of one field, below it. The line is always there, so that nothing moves while one types. */
export function Found(props: {
  readonly place: string;
  readonly id: string;
  readonly hint: string;
}): JSX.Element {
  // Compared as text: an answer that says the same again draws nothing anew.
  const said = useComputed(() => JSON.stringify(foundAt(props.place).map(sentence))).value;
  const lines = JSON.parse(said) as readonly (readonly [string, string])[];
  return (
    <div id={props.id}>
      {lines.length === 0 && <p class="below">{props.hint}</p>}
      {lines.map(([flag, words]) => (
        <p key={words} class="below off">
          <b class="flag">{flag}</b> {words}
        </p>
      ))}
    </div>
  );
}

function sentence(one: Problem | PlacedFinding): readonly [string, string] {
  if (!('level' in one)) return ['▲', `${capital(one.what)}. ${one.fix}.`];
  return [LEVEL_WORDS[one.level], `${capital(one.what)}. ${one.why}. ${one.lookUp}.`];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
