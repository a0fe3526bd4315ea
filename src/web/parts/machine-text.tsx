import type { JSX } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { backToSaved, changed, file, text, typeText } from '../state/machine-draft.ts';
import { MachineFound } from './machine-found.tsx';
import { Press } from './press-button.tsx';

/** The file as text, with what the check finds beside it. */
export function MachineText(): JSX.Element {
  const area = useRef<HTMLTextAreaElement>(null);
  const now = text.value;
  // Set from here only when it did not come from here: comparing what is typed costs more than typing it in a large file.
  const typed = useRef<string | null>(null);
  useLayoutEffect(() => {
    if (area.current && typed.current !== now) area.current.value = now;
    typed.current = now;
  }, [now]);
  const jump = (line: number, column: number): void => {
    const field = area.current;
    if (!field) return;
    // The field's own text: a browser counts a line end of two signs as one.
    const before = field.value.split('\n').slice(0, line - 1);
    const at = before.reduce((sum, each) => sum + each.length + 1, 0) + column - 1;
    field.focus();
    field.setSelectionRange(at, at);
    // A line is 1.5 rem high; it is brought to the middle of the field.
    const high = Number.parseFloat(getComputedStyle(field).lineHeight);
    field.scrollTop = Math.max(0, (line - 1) * high - field.clientHeight / 2);
  };
  return (
    <div class="machine-halves">
      <section class="stack" aria-label="The file">
        <label class="field">
          <span>The machine file, as text</span>
          <textarea
            ref={area}
            class="file"
            spellcheck={false}
            autocapitalize="off"
            onInput={(event) => {
              typed.current = event.currentTarget.value;
              typeText(typed.current);
            }}
          />
        </label>
        <div class="row">
          <Press disabled={!changed.value || file.value?.saved === null} act={backToSaved}>
            Back to what is saved
          </Press>
        </div>
      </section>
      <section class="stack" aria-label="What the check finds">
        <MachineFound jump={jump} />
      </section>
    </div>
  );
}
