/** Parts of a stack end to end, each from where the last one ends, and how far the whole may come out, drawn larger. */
import type { Picture } from '../sum/picture.ts';
import { block, captions, type Drawn, keyTo, type Look, MARGIN } from './captions.ts';
import { shorten } from './measure.ts';
import { ink, line, WEIGHT } from './pen.ts';
import { type RangeMark, type RangeScale, rangeBars } from './range-bars.ts';
import { scale, ticks, tickWords } from './scale.ts';
import type { Room } from './sum-bench-pictures.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

type Stack = Extract<Picture, { kind: 'stack-up' }>;
type Part = Stack['parts'][number];

/** More parts than this are told in one row: the picture shows how it adds up, the list has them all. */
const MOST_DRAWN = 9;

function drawnOf(parts: readonly Part[]): readonly Part[] {
  if (parts.length <= MOST_DRAWN) return parts;
  const rest = parts.slice(MOST_DRAWN - 1);
  const sum = (end: 'low' | 'high') => rest.reduce((all, part) => all + part[end], 0);
  return [
    ...parts.slice(0, MOST_DRAWN - 1),
    { low: sum('low'), high: sum('high'), words: `the other ${rest.length} parts together` },
  ];
}

function partRows(parts: readonly Part[], top: number, { width, text: size }: Room): Drawn {
  const middle = ({ low, high }: Part) => (low + high) / 2;
  const ends: number[] = [0];
  for (const part of parts) ends.push(ends.at(-1)! + middle(part));
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  const x = scale(least, most > least ? most : least + 1e-6, MARGIN + 4, width - MARGIN - 4);
  const nodes: SvgNode[] = [];
  let y = top;
  const small = size - 1;
  parts.forEach((part, n) => {
    const [from, to] = [x(ends[n]!), x(ends[n + 1]!)];
    const takes = middle(part) < 0;
    y += small + 4;
    nodes.push(letter(MARGIN, y, shorten(part.words, width - 2 * MARGIN, { size: small }), { size: small }));
    y += 9;
    nodes.push(
      el('rect', {
        x: Math.min(from, to),
        y,
        width: Math.max(2, Math.abs(to - from)),
        height: 13,
        fill: 'var(--paper)',
        stroke: 'var(--ink)',
        'stroke-width': WEIGHT.outline,
        'stroke-dasharray': takes ? '5 4' : undefined,
      }),
    );
    y += 13;
    // Where this part ends the next one begins.
    nodes.push(
      ink(
        line([
          [to, y - 16],
          [to, y + 5],
        ]),
        WEIGHT.hair,
      ),
    );
    y += 6;
  });
  y += small + 4;
  nodes.push(
    letter(MARGIN, y, parts.some(({ high }) => high < 0) ? 'what is left of it' : 'all of it', {
      size: small,
      bold: true,
    }),
  );
  y += 9;
  const [start, end] = [x(0), x(ends.at(-1)!)];
  nodes.push(
    ...block('sure', Math.min(start, end), y, Math.max(start, end, Math.min(start, end) + 2), y + 13),
  );
  return { nodes, bottom: y + 22 };
}

/** A scale between two lengths, in mm: too fine to begin at nought. */
function fineScale(low: number, high: number, { width }: Room): RangeScale {
  const spare = Math.max((high - low) * 0.12, 1e-4);
  const [from, to] = [(low - spare) * 1000, (high + spare) * 1000];
  const { at, step } = ticks(from, to, 4);
  const x = scale(from, to, MARGIN, width - MARGIN);
  return {
    x: (metres) => x(metres * 1000),
    ticks: at.map((value) => ({ at: value / 1000, words: tickWords(value, step) })),
    words: 'mm, drawn larger',
  };
}

export function drawStackedParts({ parts, worst, likely, wanted, words }: Stack, room: Room): SvgNode {
  const head = captions(words, 4, room);
  const rows = partRows(drawnOf(parts), head.bottom, room);
  const marks: RangeMark[] = wanted
    ? [wanted.low, wanted.high].map((at) => ({ at, look: 'brass-line' as const }))
    : [];
  const bars = rangeBars(
    [
      { words: 'at worst', sure: null, perhaps: [worst.low, worst.high] },
      ...(likely.high > likely.low
        ? [{ words: 'mostly, of many', sure: null, perhaps: [likely.low, likely.high] as const }]
        : []),
    ],
    marks,
    fineScale(
      Math.min(worst.low, wanted?.low ?? worst.low),
      Math.max(worst.high, wanted?.high ?? worst.high),
      room,
    ),
    rows.bottom,
    room,
  );
  const looks: readonly (readonly [Look, string])[] = [
    ...(parts.some(({ high }) => high < 0) ? ([['dashed-frame', 'taken away']] as const) : []),
    ['perhaps', 'anywhere in here'],
    ...(wanted ? ([['brass-line', 'between these two it is wanted']] as const) : []),
  ];
  const key = keyTo(looks, bars.bottom, room);
  return sheet(`stack-up ${room.shape}`, room.width, key.bottom, 'Stack-up', `${words.join('; ')}.`, [
    ...head.nodes,
    ...rows.nodes,
    ...bars.nodes,
    ...key.nodes,
  ]);
}
