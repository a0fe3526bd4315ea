import type { JSX } from 'preact';
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { StripThing } from '../../draft/point-strip.ts';
import { drawStrip, layStrip, STRIP_KEY } from '../../draw/strip-down.ts';
import { pictureOf } from './picture.tsx';

/** Narrower than this the strip-down is drawn as a list, px. */
const WIDE_FROM = 820;
/** What is drawn beyond the window, and the step in which it follows the scrolling, px. */
const BEYOND = 400;

/** The strip-down, drawn live in a window of its own; a touch takes the part below it in hand. */
export function StripDrawing(props: {
  readonly things: readonly StripThing[];
  readonly chosen: string | null;
  readonly choose: (thing: string) => void;
}): JSX.Element {
  const frame = useRef<HTMLElement>(null);
  const [width, setWidth] = useState(0);
  const [top, setTop] = useState(0);
  const [high, setHigh] = useState(900);
  // Before the page is painted: drawn a frame later, it would push down what stands below it.
  useLayoutEffect(() => {
    const node = frame.current;
    if (!node) return;
    const measure = (): void => {
      setWidth(Math.max(260, Math.floor(node.clientWidth)));
      setHigh(Math.ceil(node.clientHeight / BEYOND) * BEYOND);
    };
    const watch = new ResizeObserver(measure);
    watch.observe(node);
    measure();
    return () => watch.disconnect();
  }, []);
  const shape = width >= WIDE_FROM ? 'wide' : 'narrow';
  const layout = useMemo(
    () => (width === 0 ? null : layStrip(props.things, shape, width)),
    [props.things, shape, width],
  );
  // What was taken in hand elsewhere is brought into view.
  useEffect(() => {
    const at = props.things.findIndex(({ id }) => id === props.chosen);
    const place = layout?.places[at];
    const node = frame.current;
    if (!place || !node) return;
    if (place.y < node.scrollTop || place.y + place.height > node.scrollTop + node.clientHeight)
      node.scrollTop = Math.max(0, place.y - node.clientHeight / 3);
  }, [props.chosen, layout]);
  const partOf = (event: Event): string | null =>
    event.target instanceof Element
      ? (event.target.closest('[data-part]')?.getAttribute('data-part') ?? null)
      : null;
  const drawing = useMemo(() => {
    if (layout === null) return null;
    const node = drawStrip(layout, { chosen: props.chosen, from: top - BEYOND, to: top + high + BEYOND });
    return pictureOf({ ...node, attrs: { ...node.attrs, width: layout.width, height: layout.height } });
  }, [layout, props.chosen, top, high]);
  return (
    <figure>
      {/* biome-ignore-start lint/a11y: a region that scrolls must be reached by the keyboard; each part in it is a button */}
      <section
        ref={frame}
        class="strip-drawing"
        aria-label="The strip-down, the outside first"
        tabIndex={0}
        onScroll={(event) => setTop(Math.floor(event.currentTarget.scrollTop / BEYOND) * BEYOND)}
        onClick={(event) => {
          const part = partOf(event);
          if (part !== null) props.choose(part);
        }}
        onKeyDown={(event) => {
          const part = partOf(event);
          if (part === null || (event.key !== 'Enter' && event.key !== ' ')) return;
          event.preventDefault();
          props.choose(part);
        }}
      >
        {drawing}
      </section>
      {/* biome-ignore-end lint/a11y: see above */}
      <figcaption class="quiet">{STRIP_KEY}</figcaption>
    </figure>
  );
}
