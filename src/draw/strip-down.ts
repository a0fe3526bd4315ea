/**
 * The strip-down: what must be off before what, from the outside down to the bottom. A full line for what must be off, a
 * dashed one with its word for what needs only be slackened, "or" where one of several will do. Things to get to have a
 * ring and the word, what nothing takes off a dotted edge and the word; the part in hand stands in brackets. One drawing
 * for a wide screen and, as an indented list, for a phone.
 */
import { shorten, textWidth, wrap } from './measure.ts';
import { ink, line, rounded, WEIGHT } from './pen.ts';
import { layersOf, type StripPart } from './strip-layers.ts';
import {
  placeStrip,
  type StripLayout,
  type StripLine,
  type StripPlace,
  type StripShape,
  WORD_SIZE,
} from './strip-place.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

/** What is shown of a layout: the part in hand, and the stretch that is in view, px from the top. */
export interface StripView {
  readonly chosen: string | null;
  readonly from?: number;
  readonly to?: number;
}

/** Lays a strip-down out for a sheet of this width, px. Throws RangeError for a width that is too small, or an id twice. */
export function layStrip(parts: readonly StripPart[], shape: StripShape, width: number): StripLayout {
  return placeStrip(layersOf(parts), shape, width);
}

/** What the lines and marks mean, for a page that writes it below. */
export const STRIP_KEY = 'Full line: must be off. Dashed: slackening is enough. Ring: to get to.';

/** Draws what is in view of a layout. */
export function drawStrip(layout: StripLayout, view: StripView): SvgNode {
  const { layers, places, lines, width, height, shape, bands } = layout;
  const { from = 0, to = height } = view;
  const chosen = layers.parts.findIndex(({ id }) => id === view.chosen);
  const seen = (y0: number, y1: number) => y1 >= from && y0 <= to;
  const touches = (one: StripLine) => one.from === chosen || one.to === chosen;
  const drawn = lines.filter(({ points }) => {
    const ys = points.map(([, y]) => y);
    return seen(Math.min(...ys), Math.max(...ys));
  });
  // What belongs to the part in hand lies above the others.
  const sorted = [...drawn.filter((one) => !touches(one)), ...drawn.filter(touches)];
  return sheet(`strip ${shape}`, width, height, 'The strip-down', describe(layout), [
    ...bands.flatMap((y, n) => (seen(y - 60, y + 64) ? bandOf(layout, n, y) : [])),
    el(
      'g',
      { class: 'lines' },
      sorted.flatMap((one) => lineOf(one, shape, chosen < 0 ? null : touches(one))),
    ),
    ...places.flatMap((place, n) =>
      seen(place.y - 24, place.y + place.height)
        ? [shape === 'wide' ? partWide(layout, n, n === chosen) : partNarrow(layout, n, n === chosen)]
        : [],
    ),
  ]);
}

function describe({ layers: { parts, count, all, stuck } }: StripLayout): string {
  const slack = all.filter((one) => one.slack).length;
  const goals = parts.filter(({ goal }) => goal !== null).map(({ name }) => name);
  return [
    `${parts.length} parts in ${count} layers, the outside first.`,
    `${all.length - slack} times something must be off before something else, ${slack} times slackening is enough.`,
    goals.length === 0 ? 'Nothing is to be got to.' : `To get to: ${goals.slice(0, 12).join(', ')}.`,
    ...(stuck.size === 0 ? [] : [`Nothing takes off: ${[...stuck].map((n) => parts[n]!.name).join(', ')}.`]),
  ].join(' ');
}

/** The name of a layer at the left, with a dotted rule over it. */
function bandOf({ layers, width }: StripLayout, n: number, y: number): SvgNode[] {
  const stuck = layers.stuck.size > 0 && n === layers.count - 1;
  const words = stuck ? 'no way' : n === 0 ? 'outside' : `layer ${n + 1}`;
  const rule = line([
    [0, y - 50],
    [width, y - 50],
  ]);
  return [
    ...(n === 0
      ? []
      : [
          el('path', {
            d: rule,
            stroke: 'var(--rule, var(--quiet))',
            'stroke-width': WEIGHT.hair,
            'stroke-dasharray': '1 7',
          }),
        ]),
    letter(0, y + 37, words, { size: 15, bold: stuck, fill: stuck ? 'var(--danger)' : 'var(--quiet)' }),
  ];
}

/** One line; `hot` null where no part is in hand. */
function lineOf(one: StripLine, shape: StripShape, hot: boolean | null): SvgNode[] {
  const stroke = hot === null ? 'var(--ink)' : hot ? 'var(--brass)' : 'var(--quiet)';
  const width = hot ? 3.4 : hot === null ? 1.9 : 1.2;
  const dashes = one.slack ? { 'stroke-dasharray': '7 5' } : {};
  const [x, y] = one.points.at(-1)!;
  const nodes = [
    ink(rounded(one.points, 7), width, { stroke, ...dashes, 'data-line': one.slack ? 'slack' : 'off' }),
  ];
  if (shape === 'narrow') return nodes;
  const head = line(
    [
      [x - 4.5, y - 8],
      [x, y + 1],
      [x + 4.5, y - 8],
    ],
    true,
  );
  nodes.push(el('path', { d: head, fill: stroke }));
  const words = one.says;
  if (words === '') return nodes;
  const how = { size: WORD_SIZE, bold: hot === true, fill: hot === false ? 'var(--quiet)' : 'var(--ink)' };
  const [wx, wy] = one.word;
  const room = textWidth(words, how);
  nodes.push(
    el('rect', { x: wx - 1, y: wy - 11, width: room + 3, height: 14, fill: 'var(--paper)' }),
    letter(wx, wy, words, how),
  );
  return nodes;
}

function group(
  layout: StripLayout,
  n: number,
  chosen: boolean,
  place: StripPlace,
  body: readonly SvgNode[],
): SvgNode {
  const part = layout.layers.parts[n]!;
  const stuck = layout.layers.stuck.has(n);
  const said = [
    part.name,
    ...(part.held > 0 ? [sayHeld(part.held)] : []),
    ...(part.goal === null ? [] : ['to get to']),
    ...(stuck ? ['no way takes it off'] : []),
    ...(chosen ? ['in hand'] : []),
  ];
  return el(
    'g',
    {
      class: `part${chosen ? ' chosen' : ''}`,
      'data-part': part.id,
      tabindex: 0,
      role: 'button',
      'aria-label': said.join(', '),
    },
    [
      el('rect', {
        x: place.x,
        y: place.y,
        width: place.width,
        height: place.height,
        fill: 'var(--paper)',
        ...(layout.shape === 'wide'
          ? {
              stroke: stuck ? 'var(--danger)' : 'var(--ink)',
              'stroke-width': stuck ? 2 : WEIGHT.detail,
              ...(stuck ? { 'stroke-dasharray': '1 5' } : {}),
            }
          : { 'fill-opacity': 0 }),
        'pointer-events': 'all',
      }),
      ...body,
      ...(chosen ? bracketsRound(place) : []),
    ],
  );
}

/** Four corners round the part in hand. */
function bracketsRound({ x, y, width, height }: StripPlace): SvgNode[] {
  const k = 14;
  const [x0, y0, x1, y1] = [x - 2, y - 2, x + width + 2, y + height + 2];
  const corners = [
    [x0, y0, 1, 1],
    [x1, y0, -1, 1],
    [x1, y1, -1, -1],
    [x0, y1, 1, -1],
  ] as const;
  const d = corners
    .map(([cx, cy, sx, sy]) =>
      line([
        [cx + sx * k, cy],
        [cx, cy],
        [cx, cy + sy * k],
      ]),
    )
    .join('');
  return [ink(d, 4, { stroke: 'var(--brass)', 'stroke-linecap': 'butt', 'stroke-linejoin': 'miter' })];
}

function sayHeld(count: number): string {
  return count === 1 ? '1 fastener' : `${count} fasteners`;
}

/** The ring of something to get to. */
function ring(x: number, y: number): SvgNode[] {
  return [
    el('circle', { cx: x, cy: y, r: 6, stroke: 'var(--teal)', 'stroke-width': 2.4 }),
    el('circle', { cx: x, cy: y, r: 1.8, fill: 'var(--teal)' }),
  ];
}

function partWide(layout: StripLayout, n: number, chosen: boolean): SvgNode {
  const place = layout.places[n]!;
  const { name, held, goal } = layout.layers.parts[n]!;
  const stuck = layout.layers.stuck.has(n);
  const { x, y, width } = place;
  const small = { size: 13, fill: 'var(--quiet)' };
  const below = chosen
    ? ['in hand', ...(held > 0 ? [`${held} ×`] : [])].join(' · ')
    : held > 0
      ? sayHeld(held)
      : '';
  const lines = wrap(name, width - 18, { size: 15, bold: true }, 2);
  const mark = stuck ? 'no way' : goal === null ? '' : 'get to';
  const marked = mark === '' ? 0 : textWidth(mark, { size: 13, bold: true }) + 18;
  return group(layout, n, chosen, place, [
    ...lines.map((words, k) =>
      letter(x + 9, y + (lines.length === 1 ? 27 : 19 + 17 * k), words, { size: 15, bold: true }),
    ),
    ...(below === ''
      ? []
      : [
          letter(x + 9, y + 56, shorten(below, width - 20 - marked, small), {
            ...small,
            bold: chosen,
            ...(chosen ? { fill: 'var(--ink)' } : {}),
          }),
        ]),
    ...(mark === ''
      ? []
      : [
          ...(stuck ? [] : ring(x + width - 9 - marked + 6, y + 51.5)),
          letter(x + width - 9, y + 56, mark, {
            size: 13,
            bold: true,
            anchor: 'end',
            fill: stuck ? 'var(--danger)' : 'var(--teal)',
          }),
        ]),
  ]);
}

function partNarrow(layout: StripLayout, n: number, chosen: boolean): SvgNode {
  const place = layout.places[n]!;
  const { name, held, goal } = layout.layers.parts[n]!;
  const stuck = layout.layers.stuck.has(n);
  const { x, y, width } = place;
  const right = x + width - 4;
  const left = x + 9;
  const top = [
    ...(stuck ? [{ words: 'no way', fill: 'var(--danger)' }] : []),
    ...(!stuck && goal !== null ? [{ words: 'get to', fill: 'var(--teal)' }] : []),
  ][0];
  const bold = { size: 14, bold: true };
  const used = top === undefined ? 0 : textWidth(top.words, bold) + (stuck ? 6 : 26);
  const below = [chosen ? 'in hand' : '', held > 0 ? `${held} ×` : ''].filter(Boolean).join(' · ');
  const small = { size: 14, fill: 'var(--quiet)' };
  const belowWide = below === '' ? 0 : textWidth(below, { size: 14, bold: chosen }) + 8;
  return group(layout, n, chosen, place, [
    el('path', {
      d: line([
        [left, y + place.height - 1],
        [right, y + place.height - 1],
      ]),
      stroke: 'var(--rule, var(--quiet))',
      'stroke-width': WEIGHT.hair,
      ...(stuck ? { 'stroke-dasharray': '1 5' } : {}),
    }),
    letter(left, y + 27, shorten(name, right - left - used, { size: 17, bold: true }), {
      size: 17,
      bold: true,
    }),
    letter(left, y + 49, shorten(afterWords(layout, n), right - left - belowWide, small), small),
    ...(top === undefined
      ? []
      : [
          ...(stuck ? [] : ring(right - used + 14, y + 22.5)),
          letter(right, y + 27, top.words, { ...bold, anchor: 'end', fill: top.fill }),
        ]),
    ...(below === ''
      ? []
      : [
          letter(right, y + 49, below, {
            size: 14,
            bold: chosen,
            anchor: 'end',
            fill: chosen ? 'var(--ink)' : 'var(--quiet)',
          }),
        ]),
  ]);
}

/** What a part waits for in words; what follows from others is not said twice. */
function afterWords({ layers: { parts, links, stuck }, lines }: StripLayout, n: number): string {
  const mine = links.filter(({ to }) => to === n);
  if (mine.length === 0) return stuck.has(n) ? 'nothing takes it off' : 'outside';
  const said = (one: (typeof mine)[number]) => parts[one.from]!.name;
  const words = (slack: boolean) => {
    const always = mine.filter((one) => one.slack === slack && !one.either).map(said);
    const either = mine.filter((one) => one.slack === slack && one.either).map(said);
    return [...always, ...(either.length === 0 ? [] : [either.join(' or ')])].join(', ');
  };
  const [off, slack] = [words(false), words(true)];
  const sentences = [off === '' ? '' : `after ${off}`, slack === '' ? '' : `slack: ${slack}`].filter(Boolean);
  // What its line means comes first, and the state before the names: the end may be cut off.
  if (lines.find(({ to }) => to === n)?.slack) sentences.reverse();
  return sentences.join('; ');
}
