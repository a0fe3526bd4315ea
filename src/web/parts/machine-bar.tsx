import type { JSX } from 'preact';
import { writeRoute } from '../route.ts';
import {
  changed,
  closeFile,
  draft,
  file,
  judged,
  keepsHere,
  redoPut,
  saveAs,
  saveFile,
  told,
  undoable,
  undoPut,
} from '../state/machine-draft.ts';
import { go } from '../state/place.ts';
import { MARK_WORDS } from '../words/marks.ts';
import { Press } from './press-button.tsx';

/** Saves it, and goes where it is now. */
async function save(): Promise<void> {
  const open = file.value;
  if (open === null) return;
  // A shipped file stays as it is: its copy is named first.
  const name = await saveFile();
  if (name === null) return;
  closeFile();
  go({ at: 'machine', machine: name, part: null, field: null });
}

/** At the foot of every page of a machine file: take back, make again, save, and how it stands. */
export function MachineBar(): JSX.Element | null {
  const open = file.value;
  if (open === null) return null;
  const note = told.value;
  return (
    <div class="machine-bar">
      <p role="status" class="machine-state">
        {note !== null ? (
          <span>
            {!note.ok && <b class="flag">▲ Caution</b>} {note.words}
          </span>
        ) : (
          <>
            <span>
              {judged.value === null ? 'Looking it over…' : MARK_WORDS[judged.value.mark]}
              {changed.value &&
                (keepsHere.value
                  ? ' · not saved yet; kept in this browser'
                  : ' · not saved yet, and this browser keeps nothing: save before you leave')}
            </span>
            {saveAs.value !== open.id && <span class="quiet">the copy is called {saveAs.value}</span>}
          </>
        )}
      </p>
      <div class="row">
        <Press disabled={!undoable.value} act={undoPut} label="Undo the last change">
          ↶ Undo
        </Press>
        <Press disabled={(draft.value?.undone.length ?? 0) === 0} act={redoPut} label="Redo it">
          ↷ Redo
        </Press>
        <Press
          class={changed.value ? 'main' : 'save'}
          disabled={open.saved !== null && !changed.value && saveAs.value === open.id}
          act={() => void save()}
        >
          {saveAs.value === open.id ? 'Save' : 'Save a copy'}
        </Press>
      </div>
    </div>
  );
}

/** Back to the file as a whole. */
export function ToWhole(props: { readonly id: string }): JSX.Element {
  return (
    <a class="link" href={writeRoute({ at: 'machine', machine: props.id, part: null, field: null })}>
      All pages of this bike
    </a>
  );
}
