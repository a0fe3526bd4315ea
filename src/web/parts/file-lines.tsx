import type { JSX } from 'preact';
import { useMemo } from 'preact/hooks';
import { lineBlocks, longestLine } from '../line-blocks.ts';

/** The place in the text under a point of the screen, letters from its start; null for none. */
function placeUnder(frame: HTMLElement, x: number, y: number): number | null {
  // Browsers differ in which of the two they have.
  const caret = document.caretPositionFromPoint?.(x, y);
  const range = caret === undefined ? document.caretRangeFromPoint?.(x, y) : null;
  const node = caret?.offsetNode ?? range?.startContainer ?? null;
  const offset = caret?.offset ?? range?.startOffset ?? 0;
  const words = node?.parentElement?.closest<HTMLElement>('[data-at]');
  if (node?.nodeType !== Node.TEXT_NODE || !words || !frame.contains(words)) return null;
  return Number(words.dataset.at) + offset;
}

/**
 * A long text to be read: numbered, and laid out only where it is in view, though searching in the page, a print and a
 * reader that speaks have all of it. `write` is asked with the place that was touched, null for the key Enter.
 */
export function FileLines(props: {
  readonly frame: { current: HTMLElement | null };
  readonly name: string;
  readonly text: string;
  readonly write: (at: number | null) => void;
}): JSX.Element {
  const { frame, name, text, write } = props;
  const blocks = useMemo(() => lineBlocks(text), [text]);
  const longest = useMemo(() => longestLine(text), [text]);
  const digits = String(blocks.reduce((sum, { lines }) => sum + lines, 0)).length;
  return (
    <section
      ref={(is) => {
        if (is) frame.current = is;
      }}
      class="file read"
      aria-label={name}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard
      tabIndex={0}
      onClick={(event) => {
        // What was drawn over with the mouse is to be copied.
        if (getSelection()?.isCollapsed === false) return;
        const at = placeUnder(event.currentTarget, event.clientX, event.clientY);
        if (at !== null) write(at);
      }}
      onKeyDown={(event) => {
        if (event.key === 'Enter') write(null);
      }}
    >
      <div class="file-blocks" style={{ '--longest': longest, '--digits': digits }}>
        {blocks.map(({ at, lines, numbers, words }) => (
          <div key={at} class="file-block" style={{ '--lines': lines }}>
            <span class="file-numbers" aria-hidden="true">
              {numbers}
            </span>
            <code data-at={at}>{words}</code>
          </div>
        ))}
      </div>
    </section>
  );
}
