import { useComputed } from '@preact/signals';
import type { JSX } from 'preact';
import { guessedFigures } from '../../machine/guessed-figures.ts';
import { writeRoute } from '../route.ts';
import { listWords } from '../show.ts';
import { machine } from '../state/machine.ts';

/** Says that the bands are wide where nobody has said this bike's figures, and where to look for what would help. */
export function Guessed(props: { readonly link?: boolean }): JSX.Element | null {
  const names = useComputed(() =>
    machine.value === null ? '' : listWords(guessedFigures(machine.value.machine)),
  ).value;
  const id = machine.value?.id;
  if (names === '' || id === undefined) return null;
  return (
    <div class="guessed">
      <p>
        <b class="flag">◇ Guessed</b> Nobody has said this bike’s {names}: what a sound one shows is taken
        wide, and the verdict is the less sure for it.
      </p>
      {props.link && (
        <a class="link" href={writeRoute({ at: 'machine', machine: id, part: 'sharpen', field: null })}>
          What would help most
        </a>
      )}
    </div>
  );
}
