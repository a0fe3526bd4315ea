/**
 * A drawing of room `draw` as vectors on the page of a PDF. It knows the tags and attributes that room writes and no others:
 * a general reader of SVG would bring styles, scripts and addresses with it that no drawing here has.
 */
import type { Colour } from '../draw/palette.ts';
import type { SvgNode } from '../draw/svg.ts';
import type { Face } from './pdf-lettering.ts';
import { INKS, LEADING, PAPER, ROOM, type Sheet, TALL, TEXT } from './pdf-sheet.ts';

/** Attributes that what is inside inherits. */
type Style = Readonly<Record<string, string>>;

const INHERITED: ReadonlySet<string> = new Set([
  'fill',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linecap',
  'stroke-linejoin',
  'fill-opacity',
  'stroke-opacity',
  'font-size',
  'font-weight',
  'font-family',
  'text-anchor',
]);
const SILENT: ReadonlySet<string> = new Set(['title', 'desc', 'style']);
const START: Style = { fill: '#000000', stroke: 'none', 'stroke-width': '1', 'font-size': '16' };

/** Tallest that a drawing may be, share of the page. */
const TALLEST = 0.62;
/** Points of paper for a pixel of a drawing, at most: its letters would shout. */
const LARGEST = 0.9;

export interface Sized {
  readonly width: number;
  readonly height: number;
  /** pt for a pixel. */
  readonly scale: number;
}

/** How large a drawing stands on the page, pt. */
export function sizeOfDrawing(drawing: SvgNode): Sized {
  const [, , width = 0, height = 0] = String(drawing.attrs.viewBox ?? '')
    .split(' ')
    .map(Number);
  if (!(width > 0 && height > 0))
    throw new RangeError(`drawing must have a viewBox with a size, got ${drawing.attrs.viewBox}`);
  const scale = Math.min(ROOM / width, (TALL * TALLEST) / height, LARGEST);
  return { width: width * scale, height: height * scale, scale };
}

export function drawDrawing(sheet: Sheet, drawing: SvgNode, caption: string): void {
  const { width, height, scale } = sizeOfDrawing(drawing);
  const lines = sheet.letters.lines(caption, 'hand', TEXT, ROOM);
  sheet.need(heightOfDrawing(sheet, drawing, caption));
  const [x, y] = [PAPER.side + (ROOM - width) / 2, sheet.y() + 4];
  const said = drawing.children.flatMap((child) =>
    typeof child !== 'string' && (child.tag === 'title' || child.tag === 'desc') ? child.children : [],
  );
  const figure = sheet.element(sheet.root, 'Figure', {
    alt: [...new Set([caption, ...said.map(String)])].join(' '),
    bbox: [x, y, x + width, y + height],
    placement: 'Block',
  } as object);
  sheet.mark(figure, 'Figure', () => {
    const { doc } = sheet;
    doc.save();
    doc.translate(x, y).scale(scale);
    drawNode(sheet, drawing, START);
    doc.restore();
  });
  sheet.down(height + 9);
  const words = sheet.element(figure, 'Caption');
  sheet.mark(words, 'Caption', () => {
    for (const line of lines) {
      sheet.line(`${line} `, PAPER.side, sheet.y(), 'hand', TEXT, INKS.quiet);
      sheet.down(LEADING);
    }
  });
  sheet.down(8);
}

/** Height of a drawing with its caption, pt. */
export function heightOfDrawing(sheet: Sheet, drawing: SvgNode, caption: string): number {
  const { height } = sizeOfDrawing(drawing);
  return height + 13 + sheet.letters.lines(caption, 'hand', TEXT, ROOM).length * LEADING;
}

function styleOf({ attrs }: SvgNode, outer: Style): Style {
  const own = Object.entries(attrs).flatMap(([name, value]) =>
    INHERITED.has(name) ? [[name, String(value)] as const] : [],
  );
  return own.length === 0 ? outer : { ...outer, ...Object.fromEntries(own) };
}

function colourOf(value: string): string | null {
  if (value === 'none' || value === 'transparent') return null;
  const named = /^var\(--(\w+)\)$/.exec(value);
  if (named) {
    const colour = INKS[named[1] as Colour];
    if (colour === undefined) throw new RangeError(`colour must be one of the palette, got ${value}`);
    return colour;
  }
  return value;
}

function drawNode(sheet: Sheet, node: SvgNode, outer: Style): void {
  if (SILENT.has(node.tag)) return;
  const { doc } = sheet;
  const style = styleOf(node, outer);
  const { transform } = node.attrs;
  if (transform !== undefined) {
    doc.save();
    turn(sheet, String(transform));
  }
  const at = (name: string): number => Number(node.attrs[name] ?? 0);
  switch (node.tag) {
    case 'svg':
    case 'g':
      for (const child of node.children) if (typeof child !== 'string') drawNode(sheet, child, style);
      break;
    case 'path':
      paint(sheet, style, () => doc.path(String(node.attrs.d)));
      break;
    case 'rect':
      if (at('width') > 0 && at('height') > 0)
        paint(sheet, style, () =>
          at('rx') > 0
            ? doc.roundedRect(at('x'), at('y'), at('width'), at('height'), at('rx'))
            : doc.rect(at('x'), at('y'), at('width'), at('height')),
        );
      break;
    case 'circle':
      paint(sheet, style, () => doc.circle(at('cx'), at('cy'), at('r')));
      break;
    case 'line':
      paint(sheet, style, () => doc.moveTo(at('x1'), at('y1')).lineTo(at('x2'), at('y2')));
      break;
    case 'text':
      drawText(sheet, node, style);
      break;
    default:
      throw new RangeError(`a drawing must be of tags that paper knows, got ${node.tag}`);
  }
  if (transform !== undefined) doc.restore();
}

function turn({ doc }: Sheet, transform: string): void {
  for (const [, name, list] of transform.matchAll(/(\w+)\(([^)]*)\)/g)) {
    const [a = 0, b = 0, c = 0] = list!.split(/[ ,]+/).map(Number);
    if (name === 'translate') doc.translate(a, b);
    else if (name === 'rotate') doc.rotate(a, { origin: [b, c] });
    else if (name === 'scale') doc.scale(a, list!.trim().split(/[ ,]+/).length > 1 ? b : a);
    else throw new RangeError(`transform must be translate, rotate or scale, got ${name}`);
  }
}

function paint({ doc }: Sheet, style: Style, shape: () => unknown): void {
  const [fill, stroke] = [colourOf(style.fill!), colourOf(style.stroke!)];
  const width = Number(style['stroke-width']);
  const line = stroke !== null && width > 0;
  if (fill === null && !line) return;
  doc.save();
  shape();
  if (style['fill-opacity'] !== undefined) doc.fillOpacity(Number(style['fill-opacity']));
  if (style['stroke-opacity'] !== undefined) doc.strokeOpacity(Number(style['stroke-opacity']));
  if (line) {
    doc.lineWidth(width);
    doc.lineCap((style['stroke-linecap'] ?? 'butt') as 'butt');
    doc.lineJoin((style['stroke-linejoin'] ?? 'miter') as 'miter');
    const dashes = (style['stroke-dasharray'] ?? 'none').split(/[ ,]+/).map(Number);
    if (dashes.every((dash) => dash > 0)) doc.dash(dashes as unknown as number);
  }
  if (fill !== null && line) doc.fillAndStroke(fill, stroke);
  else if (fill !== null) doc.fill(fill);
  else doc.stroke(stroke!);
  doc.restore();
}

interface Piece {
  readonly text: string;
  readonly face: Face;
  readonly size: number;
  readonly colour: string | null;
  /** How far it is moved from where the one before it ended, px. */
  readonly shift: number;
}

function piecesOf(node: SvgNode, style: Style): readonly Piece[] {
  return node.children.flatMap((child): readonly Piece[] => {
    if (typeof child !== 'string') {
      if (SILENT.has(child.tag)) return [];
      if (child.tag !== 'tspan') throw new RangeError(`letters must be in text or tspan, got ${child.tag}`);
      const [first, ...rest] = piecesOf(child, styleOf(child, style));
      return first ? [{ ...first, shift: first.shift + Number(child.attrs.dx ?? 0) }, ...rest] : [];
    }
    const bold = Number(style['font-weight'] ?? 400) >= 600 || style['font-weight'] === 'bold';
    const figure = (style['font-family'] ?? '').includes('Mono');
    const face: Face = figure ? (bold ? 'figure-bold' : 'figure') : bold ? 'hand-bold' : 'hand';
    return [{ text: child, face, size: Number(style['font-size']), colour: colourOf(style.fill!), shift: 0 }];
  });
}

/** A letter of room `draw` at its own place on the page, pt: a figure is drawn close together as in the drawings. */
export function drawLetter(sheet: Sheet, node: SvgNode): void {
  drawText(sheet, node, styleOf(node, START));
}

function drawText({ letters }: Sheet, node: SvgNode, style: Style): void {
  const pieces = piecesOf(node, style);
  const width = pieces.reduce(
    (sum, { text, face, size, shift }) => sum + shift + letters.width(text, face, size),
    0,
  );
  const anchor = style['text-anchor'] ?? 'start';
  let x = Number(node.attrs.x ?? 0) - (anchor === 'middle' ? width / 2 : anchor === 'end' ? width : 0);
  const y = Number(node.attrs.y ?? 0);
  for (const { text, face, size, colour, shift } of pieces) {
    x += shift;
    if (colour !== null) letters.draw(text, x, y, face, size, colour);
    x += letters.width(text, face, size);
  }
}
