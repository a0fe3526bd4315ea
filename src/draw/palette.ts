import { el, type SvgNode } from './svg.ts';

export type ThemeName = 'paper' | 'slate' | 'glare';
export type Colour = 'ink' | 'paper' | 'brass' | 'teal' | 'danger' | 'quiet';
export type Theme = Readonly<Record<Colour, string>>;

/** The colours that letters may have. Brass is for hatching, rules and fills, never for letters under 24 px. */
export const LETTER_COLOURS: readonly Colour[] = ['ink', 'teal', 'danger', 'quiet'];

/**
 * The three themes. Letters stand at 7:1 or better on their paper (WCAG 2.2, 1.4.6), brass at 4.5:1 or better;
 * a test holds both. Custom properties carry them: `--ink` and so on.
 */
export const THEMES: Readonly<Record<ThemeName, Theme>> = {
  paper: {
    ink: '#16233a',
    paper: '#f6f1e4',
    brass: '#8f5e0b',
    teal: '#0b524d',
    danger: '#86230f',
    quiet: '#47505c',
  },
  slate: {
    ink: '#efe9da',
    paper: '#1c242b',
    brass: '#e0ab4b',
    teal: '#86d6c8',
    danger: '#ffab98',
    quiet: '#b7bec0',
  },
  glare: {
    ink: '#000000',
    paper: '#ffffff',
    brass: '#4d3300',
    teal: '#003f3a',
    danger: '#7d0f00',
    quiet: '#262626',
  },
};

/** `--ink:#…;--paper:#…` and so on, for a style sheet. */
export function themeVariables(theme: ThemeName): string {
  return Object.entries(THEMES[theme])
    .map(([name, value]) => `--${name}:${value}`)
    .join(';');
}

/** Rules any page showing the drawings wants: the frame round a member that has the keyboard. */
export const DRAWING_RULES =
  '.member{cursor:pointer;outline:none}.member .ring{visibility:hidden}' +
  '.member:focus-visible .ring,.member:hover .ring{visibility:visible}';

/** Style element to embed when a drawing is written to a file of its own. */
export function standaloneStyle(theme: ThemeName): SvgNode {
  return el('style', {}, [`:root{${themeVariables(theme)}}${DRAWING_RULES}`]);
}

/**
 * A drawing that stands alone in a file: theme embedded, sheet of paper underneath. The custom properties are
 * also resolved to plain colours, because many viewers of SVG files know no custom properties.
 */
export function standalone(drawing: SvgNode, theme: ThemeName): SvgNode {
  const resolve = (node: SvgNode): SvgNode => ({
    tag: node.tag,
    attrs: Object.fromEntries(
      Object.entries(node.attrs).map(([name, value]) => [
        name,
        typeof value === 'string' ? plainColour(value, theme) : value,
      ]),
    ),
    children: node.children.map((child) => (typeof child === 'string' ? child : resolve(child))),
  });
  const [, , width = '0', height = '0'] = String(drawing.attrs.viewBox ?? '').split(' ');
  const paper = el('rect', { width, height, fill: 'var(--paper)' });
  // Title and desc must stay the first children: viewers look for them there.
  const [title, desc, ...rest] = drawing.children;
  const children = [title, desc, standaloneStyle(theme), paper, ...rest].filter(
    (child) => child !== undefined,
  );
  return resolve({ ...drawing, attrs: { ...drawing.attrs, width, height }, children });
}

/** `var(--ink)` as its colour, and `var(--rule, var(--quiet))` as the first of the two that the theme has. */
function plainColour(value: string, theme: ThemeName): string {
  const [, key, otherwise] = /^var\(--(\w+)(?:,\s*(.+))?\)$/.exec(value) ?? [];
  if (key === undefined) return value;
  return THEMES[theme][key as Colour] ?? (otherwise === undefined ? value : plainColour(otherwise, theme));
}

function linear(channel: number): number {
  const c = channel / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
}

/** Contrast ratio of two `#rrggbb` colours, 1–21. WCAG 2.2, "contrast ratio" and "relative luminance". */
export function contrast(a: string, b: string): number {
  const luminance = (hex: string): number => {
    if (!/^#[0-9a-f]{6}$/i.test(hex))
      throw new RangeError(`contrast: a colour must be #rrggbb, got "${hex}"`);
    const at = (i: number) => linear(Number.parseInt(hex.slice(i, i + 2), 16));
    return 0.2126 * at(1) + 0.7152 * at(3) + 0.0722 * at(5);
  };
  const [la, lb] = [luminance(a), luminance(b)];
  return (Math.max(la, lb) + 0.05) / (Math.min(la, lb) + 0.05);
}
