import { hatch } from './hatch.ts';
import { textWidth } from './measure.ts';
import { polyline, scale, ticks, tickWords } from './scale.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

export interface BandInput {
  /** "V" */
  readonly unit: string;
  /** What a sound bike shows, in `unit`; null when it cannot be told. */
  readonly sound: { readonly low: number; readonly high: number } | null;
  /** What was entered, in `unit`; null when nothing yet. */
  readonly value: number | null;
  readonly min: number;
  readonly max: number;
  /** What is measured, for the title: "battery volts at 3000 rpm". */
  readonly label: string;
  readonly shape: 'wide' | 'narrow';
}

const SIZES = {
  wide: { width: 520, text: 17, ticks: 6 },
  narrow: { width: 328, text: 16, ticks: 4 },
} as const;

/** Where a value lies against the band of a sound bike, in words. */
export function against(
  value: number,
  sound: { readonly low: number; readonly high: number } | null,
): 'below' | 'sound' | 'above' | 'entered' {
  if (sound === null) return 'entered';
  if (value < sound.low) return 'below';
  return value > sound.high ? 'above' : 'sound';
}

const WORDS = {
  below: 'below a sound bike',
  sound: 'as a sound bike',
  above: 'above a sound bike',
  entered: 'entered',
} as const;

/**
 * A slim scale for beside an entry field: the band of a sound bike hatched between two posts, the entered value
 * as a flag with its figure and a word. A value outside the scale is drawn at its end with an arrow. Throws
 * RangeError when min is not below max, or the band is upside down.
 */
export function drawBand(input: BandInput): SvgNode {
  const { unit, sound, value, min, max, shape } = input;
  if (!(Number.isFinite(min) && Number.isFinite(max) && min < max))
    throw new RangeError(`band: min must be below max, got ${min} and ${max}`);
  if (sound !== null && !(sound.low <= sound.high))
    throw new RangeError(`band: sound.low must not be above sound.high, got ${sound.low} and ${sound.high}`);
  const { width, text, ticks: count } = SIZES[shape];
  const how = { size: text, figure: true } as const;
  const edge = 26;
  // Room at the right end for the last figure and, after it, the unit.
  const end =
    width -
    Math.max(
      edge,
      textWidth(unit, how) + 14 + textWidth(tickWords(max, ticks(min, max, count).step), how) / 2,
    );
  const sx = scale(min, max, edge, end);
  const clamp = (v: number) => Math.min(Math.max(sx(v), edge), end);
  const line = 58;
  const { at, step } = ticks(min, max, count);
  const nodes: SvgNode[] = [];
  let clear = Number.NEGATIVE_INFINITY;
  // The unit stands in the last figure's line, at the right edge, and the figures keep clear of it.
  const limit = width - 4 - textWidth(unit, how) - 10;
  for (const v of at) {
    const words = tickWords(v, step);
    const half = textWidth(words, how) / 2;
    nodes.push(
      el('path', {
        d: polyline([
          [sx(v), line],
          [sx(v), line + 7],
        ]),
        stroke: 'var(--ink)',
        'stroke-width': 1.2,
      }),
    );
    if (sx(v) - half < Math.max(clear, 2) || sx(v) + half > limit) continue;
    clear = sx(v) + half + 9;
    nodes.push(letter(sx(v), line + 11 + text, words, { ...how, anchor: 'middle', fill: 'var(--quiet)' }));
  }
  nodes.push(letter(width - 4, line + 11 + text, unit, { ...how, anchor: 'end', fill: 'var(--quiet)' }));
  if (sound !== null) {
    const [a, b] = [clamp(sound.low), Math.max(clamp(sound.high), clamp(sound.low) + 3)];
    const corners = [
      [a, line - 15],
      [b, line - 15],
      [b, line],
      [a, line],
    ] as const;
    nodes.push(
      el('g', { class: 'sound' }, [
        ...hatch({ kind: 'outline', corners }, 2).map((n) => ({
          ...n,
          attrs: { ...n.attrs, stroke: 'var(--teal)' },
        })),
        el('path', {
          d:
            polyline([
              [a, line - 19],
              [a, line],
            ]) +
            polyline([
              [b, line - 19],
              [b, line],
            ]),
          stroke: 'var(--teal)',
          'stroke-width': 2.6,
        }),
      ]),
    );
  }
  nodes.push(
    el('path', {
      d: polyline([
        [edge - 8, line],
        [end + 8, line],
      ]),
      stroke: 'var(--ink)',
      'stroke-width': 2,
    }),
  );
  let said = 'nothing entered yet';
  if (value !== null && Number.isFinite(value)) {
    const where = against(value, sound);
    const x = clamp(value);
    const beyond = value < min ? -1 : value > max ? 1 : 0;
    const shown = `${String(Number(value.toPrecision(6))).replace('-', '−')} ${unit}`;
    said = `${shown}, ${WORDS[where]}`;
    const off = where === 'below' || where === 'above';
    const colour = off ? 'var(--danger)' : where === 'sound' ? 'var(--teal)' : 'var(--ink)';
    const wide = textWidth(shown, { ...how, bold: true }) + 8 + textWidth(WORDS[where], { size: text });
    const start = Math.min(Math.max(x - 8, 4), width - wide - 4);
    nodes.push(
      el('g', { class: `value ${where}` }, [
        // Sound: a solid disc on the line. Off the band: an open kite. Off the scale: an arrow pointing on.
        el('path', {
          d: polyline([
            [x, line - 2],
            [x, 28],
          ]),
          stroke: colour,
          'stroke-width': 2.2,
        }),
        beyond !== 0
          ? el('path', {
              d: `${polyline([
                [x + beyond * 12, line],
                [x, line - 9],
                [x, line + 9],
              ])}Z`,
              fill: colour,
            })
          : off
            ? el('path', {
                d: `${polyline([
                  [x, line - 10],
                  [x + 8, line],
                  [x, line + 10],
                  [x - 8, line],
                ])}Z`,
                fill: 'var(--paper)',
                stroke: colour,
                'stroke-width': 2.6,
              })
            : el('circle', {
                cx: x,
                cy: line,
                r: 7,
                fill: colour,
                stroke: 'var(--paper)',
                'stroke-width': 1.5,
              }),
        letter(start, text + 3, shown, { ...how, bold: true, fill: colour }),
        letter(start + textWidth(shown, { ...how, bold: true }) + 8, text + 3, WORDS[where], {
          size: text,
          fill: colour,
        }),
      ]),
    );
  } else if (sound !== null) {
    const middle = (clamp(sound.low) + clamp(sound.high)) / 2;
    const words = 'a sound bike';
    const half = textWidth(words, { size: text }) / 2;
    nodes.push(
      letter(Math.min(Math.max(middle, half + 4), width - half - 4), text + 15, words, {
        size: text,
        anchor: 'middle',
        fill: 'var(--teal)',
      }),
    );
  }
  const band =
    sound === null
      ? 'what a sound bike shows is not known'
      : `a sound bike shows ${sound.low} to ${sound.high} ${unit}`;
  return sheet(
    `band ${shape}`,
    width,
    line + 18 + text,
    input.label,
    `${input.label}: ${band}; ${said}.`,
    nodes,
  );
}
