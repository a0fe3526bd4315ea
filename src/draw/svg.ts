/**
 * Room `draw`: pictures as data. Every drawing of the product (the loop, curves, bands, bars) is a pure
 * function from numbers and words to a tree of SVG nodes; `svgText` turns the tree into text, the app turns it
 * into elements. No DOM, no clock, no measuring of the screen. Colours are custom properties (`palette.ts`)
 * used in presentation attributes, never in `style`, so that a page may forbid inline styles altogether.
 *
 * This file: the node, how it becomes text, and the few builders everything else is made of.
 */

export interface SvgNode {
  readonly tag: string;
  readonly attrs: Readonly<Record<string, string | number>>;
  readonly children: readonly (SvgNode | string)[];
}

/** The text faces, each with the fallbacks a file needs when it leaves home. */
export const FACE = {
  hand: "'Atkinson Hyperlegible Next','Atkinson Hyperlegible',sans-serif",
  figure: "'B612 Mono',ui-monospace,monospace",
} as const;

/** How far the point, what follows it, and what follows a space are pulled to the left in a figure, em. */
export const TIGHT = { before: 0.13, after: 0.19, space: 0.2 } as const;

export function el(
  tag: string,
  attrs: Readonly<Record<string, string | number | undefined>> = {},
  children: readonly (SvgNode | string)[] = [],
): SvgNode {
  const kept: Record<string, string | number> = {};
  for (const [name, value] of Object.entries(attrs)) if (value !== undefined) kept[name] = value;
  return { tag, attrs: kept, children };
}

/** A number as written into a drawing: at most two decimals, never `-0`, never an exponent. */
export function num(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`drawing: every coordinate must be finite, got ${value}`);
  const rounded = Math.round(value * 100) / 100;
  return String(rounded === 0 ? 0 : rounded);
}

/** XML 1.0 §2.2 forbids most control characters even when escaped; they become U+FFFD. */
function legal(raw: string): string {
  return (
    raw
      // biome-ignore lint/suspicious/noControlCharactersInRegex: those are exactly what must not be written
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '\ufffd')
      .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
  );
}

function escapeText(raw: string): string {
  return legal(raw).replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

function escapeAttribute(raw: string): string {
  return escapeText(raw).replaceAll('"', '&quot;').replaceAll('\n', '&#10;').replaceAll('\t', '&#9;');
}

const INLINE = new Set(['text', 'tspan', 'title', 'desc', 'style']);

/** The tree as SVG text: escaped, one element a line, the same tree always the same text. */
export function svgText(node: SvgNode): string {
  const attrs = Object.entries(node.attrs)
    .map(([name, value]) => ` ${name}="${typeof value === 'number' ? num(value) : escapeAttribute(value)}"`)
    .join('');
  if (node.children.length === 0) return `<${node.tag}${attrs}/>`;
  const inline = INLINE.has(node.tag);
  const parts = node.children.map((child) =>
    typeof child === 'string' ? escapeText(child) : svgText(child),
  );
  return inline
    ? `<${node.tag}${attrs}>${parts.join('')}</${node.tag}>`
    : `<${node.tag}${attrs}>\n${parts.join('\n')}\n</${node.tag}>`;
}

/** The outermost node: view box in drawing pixels, with what it shows in words for those who cannot see it. */
export function sheet(
  name: string,
  width: number,
  height: number,
  title: string,
  desc: string,
  children: readonly SvgNode[],
): SvgNode {
  return el(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: `drawing ${name}`,
      viewBox: `0 0 ${num(width)} ${num(height)}`,
      role: 'group',
      'aria-label': title,
      'font-family': FACE.hand,
      fill: 'none',
      'stroke-linecap': 'round',
      'stroke-linejoin': 'round',
    },
    [el('title', {}, [title]), el('desc', {}, [desc]), ...children],
  );
}

export interface Lettering {
  readonly size: number;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
  readonly figure?: boolean;
  readonly fill?: string;
}

/**
 * A figure in the fixed-pitch face in pieces that are drawn together: a full cell of air after the point would make
 * one figure look like two, and one before the unit is wider than it need be. `measure.ts` counts the same.
 */
function tightened(words: string, size: number): readonly (SvgNode | string)[] {
  const pieces = words
    .split(/(?<=\d)(\.)(?=\d)|(?<=\S[ \u00a0])(?=\S)/)
    .filter((piece) => piece !== undefined);
  return pieces.map((piece, i) => {
    const before = pieces[i - 1] ?? '';
    if (i === 0) return piece;
    const pull = piece === '.' ? TIGHT.before : before === '.' ? TIGHT.after : TIGHT.space;
    return el('tspan', { dx: num(-pull * size) }, [piece]);
  });
}

/** One line of text; its place and size are plain attributes, so that a test can measure it. */
export function letter(x: number, y: number, words: string, how: Lettering): SvgNode {
  return el(
    'text',
    {
      x,
      y,
      'font-size': how.size,
      'text-anchor': how.anchor === 'start' ? undefined : how.anchor,
      'font-weight': how.bold ? 700 : undefined,
      'font-family': how.figure ? FACE.figure : undefined,
      fill: how.fill ?? 'var(--ink)',
    },
    how.figure ? tightened(words, how.size) : [words],
  );
}

export function span(words: string, how: Omit<Lettering, 'anchor'> & { dx?: number }): SvgNode {
  return el(
    'tspan',
    {
      dx: how.dx,
      'font-weight': how.bold ? 700 : undefined,
      'font-family': how.figure ? FACE.figure : undefined,
      fill: how.fill,
    },
    how.figure ? tightened(words, how.size) : [words],
  );
}
