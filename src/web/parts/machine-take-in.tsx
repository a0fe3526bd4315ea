/** A machine file from outside: what it is is said first, and nothing that is here is written over. */
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { writeRoute } from '../route.ts';
import { lookAtFile, type OutsideFile, saveMachine } from '../server.ts';
import { countWords } from '../show.ts';
import { go } from '../state/place.ts';
import { MARK_WORDS } from '../words/marks.ts';
import { Press } from './press-button.tsx';

/** Largest file that is sent, bytes: what the laptop takes. */
const MOST_BYTES = 8e6;

type Told = { readonly ok: true; readonly file: OutsideFile } | { readonly ok: false; readonly why: string };

export function TakeIn(): JSX.Element {
  const [told, tell] = useState<Told | null>(null);
  const [busy, setBusy] = useState(false);
  const look = async (file: File): Promise<void> => {
    if (file.size > MOST_BYTES) {
      tell({ ok: false, why: 'That file is over 8 MB, which no machine file is. Nothing was kept.' });
      return;
    }
    setBusy(true);
    // Some systems name a zip by its ending alone.
    const zip = /\.zip$/i.test(file.name);
    const got = await lookAtFile(new Blob([file], { type: zip ? 'application/zip' : 'application/json' }));
    setBusy(false);
    tell(got.ok ? { ok: true, file: got.body } : { ok: false, why: got.why });
  };
  const keep = async (file: OutsideFile): Promise<void> => {
    setBusy(true);
    const saved = await saveMachine(file.id, file.text);
    setBusy(false);
    if (!saved.ok) tell({ ok: false, why: `${saved.why} Nothing was kept.` });
    else go({ at: 'machine', machine: file.id, part: null, field: null });
  };
  return (
    <section class="stack" aria-labelledby="take-in">
      <h2 id="take-in">Take one in</h2>
      <label class="field form">
        <span>A machine file, or a pack somebody gave you</span>
        <input
          type="file"
          accept=".json,.zip,application/json,application/zip"
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? [];
            if (file) void look(file);
          }}
        />
      </label>
      {busy && <p>Looking at it…</p>}
      {told?.ok === false && (
        <p class="warn" role="alert">
          <b class="flag">▲ Caution</b> {told.why}
        </p>
      )}
      {told?.ok && (
        <div class="stack tight">
          <p>
            <strong>{told.file.name ?? told.file.id}</strong>
            {told.file.invented ? ' (invented bike)' : ''}: {MARK_WORDS[told.file.mark]}.
          </p>
          <p>{sayProposal(told.file)}</p>
          <div class="row">
            {told.file.is === 'same' ? (
              <a
                class="link"
                href={writeRoute({ at: 'machine', machine: told.file.id, part: null, field: null })}
              >
                Open it
              </a>
            ) : (
              <Press class="main" act={() => void keep(told.file)}>
                {told.file.is === 'new'
                  ? `Keep it as ${told.file.id}`
                  : `Keep it as the next version of ${told.file.id}`}
              </Press>
            )}
          </div>
        </div>
      )}
    </section>
  );
}

function sayProposal({ is, id, differences, versions }: OutsideFile): string {
  if (is === 'same') return `It is here already, as ${id}.`;
  if (is === 'new')
    return `None of that name is here yet${differences === null ? '' : ', but one much like it is'}.`;
  const differ = differences === null ? '' : ` It differs in ${countWords(differences, 'place', 'places')}.`;
  return `${id} is here in ${countWords(versions, 'version', 'versions')}; all of them stay, and can be laid side by side with it afterwards.${differ}`;
}
