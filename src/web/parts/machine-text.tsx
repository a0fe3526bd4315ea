/**
 * The file as text. It opens to be read and becomes a field where it is touched: a field of two thousand lines takes its
 * browser 48 ms of one core before it stands (each line is an element of its own there), at a quarter of the speed 0.2 s in
 * which nothing moves; the lines to be read take 7.
 * Rejected, each in ms of one core to stand and for a key in the twin's 1,857 lines (the field: 48 and 9): an editable element
 * with the text in one piece, 19 and 19: twice as slow where it counts; one with a block for every fifty lines, 7 and 4, but what
 * a delete over the edge of a block, a composed letter or a paste leave there is each browser's own affair, and a file must come
 * back byte for byte; letters without kerning or another face in the field, 48 and more; a field that gets its lines in pieces,
 * which lays out all it has at every piece.
 */
import type { JSX } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { backToSaved, changed, file, text, typeText } from '../state/machine-draft.ts';
import { FileLines } from './file-lines.tsx';
import { afterFrame } from './later.tsx';
import { MachineFound } from './machine-found.tsx';
import { Press } from './press-button.tsx';

const NAME = 'The machine file, as text';

/** A place in the text and how far it was scrolled, so that the same lines stay under the finger. */
interface Place {
  /** Where the cursor goes, letters from the start. */
  readonly at: number;
  /** How far the lines are scrolled, px; null brings the cursor's line to the middle. */
  readonly top: number | null;
}

/** The file as text, with what the check finds beside it. */
export function MachineText(): JSX.Element {
  // Null while the text is read.
  const [place, setPlace] = useState<Place | null>(null);
  const shown = useRef<HTMLElement | null>(null);
  const top = useRef(0);
  // The touch shows before the field is laid out.
  const write = (at: number, from: number | null): void => afterFrame(() => setPlace({ at, top: from }));
  const turn = (): void => {
    const { scrollTop } = shown.current!;
    if (place === null) write(placeOf(topLine(shown.current!), 1), scrollTop);
    else {
      top.current = scrollTop;
      setPlace(null);
    }
  };
  return (
    <div class="machine-halves">
      <section class="stack" aria-label="The file">
        {place === null ? (
          <Read shown={shown} top={top.current} write={write} />
        ) : (
          <Field shown={shown} place={place} />
        )}
        <div class="row">
          <Press act={turn}>{place === null ? 'Change the text' : 'Show line numbers'}</Press>
          <Press disabled={!changed.value || file.value?.saved === null} act={backToSaved}>
            Back to what is saved
          </Press>
        </div>
      </section>
      <section class="stack" aria-label="What the check finds">
        <MachineFound jump={(line, column) => write(placeOf(line, column), null)} />
      </section>
    </div>
  );
}

/** The number of the first line that is whole in view. */
function topLine(frame: HTMLElement): number {
  return Math.ceil(frame.scrollTop / Number.parseFloat(getComputedStyle(frame).lineHeight)) + 1;
}

/** Where a line and a column stand in the text, letters from its start. */
function placeOf(line: number, column: number): number {
  const before = asShown(text.peek())
    .split('\n')
    .slice(0, line - 1);
  return before.reduce((sum, each) => sum + each.length + 1, 0) + column - 1;
}

/** The text as a field has it: a line end of two signs counts as one there. */
function asShown(now: string): string {
  return now.replace(/\r\n?/g, '\n');
}

interface Shown {
  readonly shown: { current: HTMLElement | null };
}

function Read(
  props: Shown & { readonly top: number; readonly write: (at: number, top: number) => void },
): JSX.Element {
  const { shown, top, write } = props;
  useLayoutEffect(() => {
    if (shown.current) shown.current.scrollTop = top;
  }, []);
  return (
    <div class="field">
      <span aria-hidden="true">{NAME}</span>
      <FileLines
        frame={shown}
        name={NAME}
        text={asShown(text.value)}
        write={(at) => {
          const frame = shown.current!;
          write(at ?? placeOf(topLine(frame), 1), frame.scrollTop);
        }}
      />
    </div>
  );
}

function Field(props: Shown & { readonly place: Place }): JSX.Element {
  const { shown, place } = props;
  const area = useRef<HTMLTextAreaElement | null>(null);
  const now = text.value;
  // Set from here only when it did not come from here: comparing what is typed costs more than typing it in a large file.
  const typed = useRef<string | null>(null);
  useLayoutEffect(() => {
    if (area.current && typed.current !== now) area.current.value = now;
    typed.current = now;
  }, [now]);
  useLayoutEffect(() => {
    const field = area.current;
    if (!field) return;
    field.focus({ preventScroll: place.top !== null });
    field.setSelectionRange(place.at, place.at);
    const line = field.value.slice(0, place.at).split('\n').length - 1;
    const high = Number.parseFloat(getComputedStyle(field).lineHeight);
    field.scrollTop = place.top ?? Math.max(0, line * high - field.clientHeight / 2);
  }, [place]);
  return (
    <label class="field">
      <span>{NAME}</span>
      <textarea
        ref={(is) => {
          area.current = is;
          if (is) shown.current = is;
        }}
        class="file"
        spellcheck={false}
        autocapitalize="off"
        onInput={(event) => {
          typed.current = event.currentTarget.value;
          typeText(typed.current);
        }}
      />
    </label>
  );
}
