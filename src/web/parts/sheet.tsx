import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Drawn, Piece } from '../draw-worker.ts';
import { inTurn } from './later.tsx';

/** Elements taken in between two frames, at most, unless one piece alone has more. */
const AT_ONCE = 40;
const SVG = 'http://www.w3.org/2000/svg';

/** A piece as an element; its text is our own drawing's, with every letter escaped. */
function elementOf(piece: Piece): Element | null {
  const holder = document.createElementNS(SVG, 'g');
  holder.innerHTML = piece.text;
  return holder.firstElementChild;
}

/** Puts a piece in its place; a part that had the keyboard keeps it. */
function place(svg: SVGSVGElement, index: number, piece: Piece): void {
  const made = elementOf(piece);
  if (!made) return;
  const old = svg.children[index];
  const held = old?.contains(document.activeElement) === true;
  if (old) old.replaceWith(made);
  else svg.append(made);
  if (held && made instanceof SVGElement) made.focus({ preventScroll: true });
}

/** Groups of places whose pieces go in together. */
function batches(pieces: readonly Piece[], changed: readonly number[]): number[][] {
  const groups: number[][] = [];
  let size = Number.POSITIVE_INFINITY;
  for (const index of changed) {
    const own = pieces[index]?.size ?? 0;
    if (size + own > AT_ONCE) {
      groups.push([]);
      size = 0;
    }
    groups.at(-1)?.push(index);
    size += own;
  }
  return groups;
}

/** A drawing taken in a few pieces at a time, and only those that changed: the page stays awake meanwhile. */
export function Sheet(props: { readonly drawn: Drawn }): JSX.Element {
  const { drawn } = props;
  const sheet = useRef<SVGSVGElement>(null);
  const shown = useRef<string[]>([]);
  useEffect(() => {
    const svg = sheet.current;
    if (!svg) return undefined;
    if (svg.children.length > drawn.pieces.length) {
      // Fewer pieces are another kind of drawing.
      svg.replaceChildren();
      shown.current = [];
    }
    const changed = drawn.pieces.flatMap(({ text }, index) => (shown.current[index] === text ? [] : [index]));
    const stops = batches(drawn.pieces, changed).map((group) =>
      inTurn(() => {
        for (const index of group) {
          const piece = drawn.pieces[index];
          if (!piece) continue;
          place(svg, index, piece);
          shown.current[index] = piece.text;
        }
      }),
    );
    return () => {
      for (const stop of stops) stop();
    };
  }, [drawn]);
  // The keyed outermost node is new for another width of sheet, whose pieces have other places.
  return <svg ref={sheet} {...(drawn.attrs as JSX.IntrinsicElements['svg'])} />;
}
