/** Giving a machine file away, and taking one in. */
import type { JSX } from 'preact';
import { freeTexts } from '../../draft/free-texts.ts';
import { readPath } from '../../machine/json-value.ts';
import { countWords } from '../show.ts';
import { changed, draft, file } from '../state/machine-draft.ts';
import { fieldWords } from '../words/fields.ts';
import { Fold } from './fold.tsx';
import { TakeIn } from './machine-take-in.tsx';

export function MachineShare(): JSX.Element {
  const id = file.value?.id ?? '';
  const texts = draft.value === null ? [] : freeTexts(draft.value.value);
  return (
    <div class="stack wide">
      <section class="stack" aria-labelledby="give">
        <h2 id="give">Share it</h2>
        <p>
          One zip: the file, its drawings, who says each figure, and check sums. Nothing of any job or owner
          is in it, but what you wrote into remarks is.
        </p>
        {texts.length > 0 && (
          <Fold head={`Look over what was written in words: ${countWords(texts.length, 'text', 'texts')}`}>
            {() => (
              <ul class="learned">
                {texts.map(({ path, text }) => (
                  <li key={path}>
                    <span class="quiet">
                      {(readPath(path) ?? []).map((key) => fieldWords(String(key))).join(' › ')}
                    </span>{' '}
                    {text}
                  </li>
                ))}
              </ul>
            )}
          </Fold>
        )}
        <p class="row">
          <a
            class="link main"
            href={`/api/machines/${encodeURIComponent(id)}/pack.zip`}
            download={`${id}.zip`}
          >
            Download the pack
          </a>
          {changed.value && <span>It holds what is saved. Your last changes are not in it: save first.</span>}
        </p>
      </section>
      <TakeIn />
    </div>
  );
}
