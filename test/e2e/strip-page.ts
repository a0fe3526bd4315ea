/** A page with nothing on it but the strip-down's editor on a file of its own, and a button that takes the last touch back. */
import { h, render } from 'preact';
import { useState } from 'preact/hooks';
import '@fontsource/atkinson-hyperlegible-next/latin-400.css';
import '@fontsource/atkinson-hyperlegible-next/latin-600.css';
import '@fontsource/atkinson-hyperlegible-next/latin-700.css';
import '@fontsource/b612-mono/latin-400.css';
import { change, openDraft, undo } from '../../src/draft/draft.ts';
import { type Json, writeJson } from '../../src/machine/json-value.ts';
import { Press } from '../../src/web/parts/press-button.tsx';
import { StripEditor } from '../../src/web/parts/strip-editor.tsx';
import '../../src/web/state/theme.ts';
import '../../src/web/style/base.css';
import '../../src/web/style/controls.css';
import '../../src/web/style/job.css';
import '../../src/web/style/theme.css';

const given = globalThis as unknown as { firstFile: Json; fileNow: string };

function Page() {
  const [draft, setDraft] = useState(() => openDraft(given.firstFile));
  given.fileNow = writeJson(draft.value);
  return h(
    'main',
    { class: 'body stack' },
    h('h1', null, 'A bike of one’s own'),
    h('h2', null, 'Parts and what holds them'),
    h(StripEditor, { value: draft.value, put: (puts) => setDraft((now) => change(now, puts)) }),
    h(Press, {
      act: () => setDraft(undo),
      disabled: draft.done.length === 0,
      children: 'Take the last touch back',
    }),
  );
}

render(h(Page, null), document.body);
