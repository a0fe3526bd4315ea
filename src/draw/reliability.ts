import { textWidth } from './measure.ts';
import { polyline, scale } from './scale.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

export interface ReliabilityBin {
  /** Mean probability that was said, 0–1. */
  readonly predicted: number;
  /** How often it was so, 0–1. */
  readonly observed: number;
  readonly count: number;
}

export interface ReliabilityInput {
  readonly title: string;
  readonly bins: readonly ReliabilityBin[];
  readonly shape: 'wide' | 'narrow';
}

const SIZES = {
  wide: { width: 560, height: 540, text: 17 },
  narrow: { width: 360, height: 400, text: 16 },
} as const;

/** Normal quantile of a two-sided 90 % interval. Standard tables. */
const Z90 = 1.6449;

/** Wilson score interval of a frequency, 0–1, at 90 %. E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209. */
export function wilson(observed: number, count: number): [number, number] {
  if (!(count > 0 && observed >= 0 && observed <= 1))
    throw new RangeError(`wilson: needs a frequency 0–1 and a count above 0, got ${observed} of ${count}`);
  const z2 = Z90 * Z90;
  const mid = (observed + z2 / (2 * count)) / (1 + z2 / count);
  const half =
    (Z90 / (1 + z2 / count)) * Math.sqrt((observed * (1 - observed)) / count + z2 / (4 * count * count));
  return [Math.max(0, mid - half), Math.min(1, mid + half)];
}

/**
 * Reliability diagram: what was said against what came true, one disc a bin with a bar of its 90 % interval,
 * its area and its figure the count; the diagonal is perfect honesty. Bins with a count of 0 are left out.
 */
export function drawReliability(input: ReliabilityInput): SvgNode {
  const { width, height, text } = SIZES[input.shape];
  const figure = { size: text, figure: true } as const;
  const left = 62;
  const top = 20 + text;
  const right = width - 26;
  const bottom = height - 2 * text - 24;
  const sx = scale(0, 1, left, right);
  const sy = scale(0, 1, bottom, top);
  const bins = input.bins.filter((bin) => bin.count > 0);
  for (const bin of bins) {
    if (!(bin.predicted >= 0 && bin.predicted <= 1 && bin.observed >= 0 && bin.observed <= 1)) {
      throw new RangeError(
        `reliability: predicted and observed must be 0–1, got ${bin.predicted} and ${bin.observed}`,
      );
    }
  }
  const largest = Math.max(1, ...bins.map((bin) => bin.count));
  const nodes: SvgNode[] = [
    letter(4, text + 2, 'came true, %', { size: text }),
    letter(right, bottom + 2 * text + 18, 'was said, %', { size: text, anchor: 'end' }),
    el('path', {
      d: polyline([
        [left, top],
        [left, bottom],
        [right, bottom],
      ]),
      stroke: 'var(--ink)',
      'stroke-width': 1.6,
    }),
    el('path', {
      d: polyline([
        [left, bottom],
        [right, top],
      ]),
      stroke: 'var(--quiet)',
      'stroke-width': 1.2,
      'stroke-dasharray': '7 5',
    }),
  ];
  for (const v of [0, 0.2, 0.4, 0.6, 0.8, 1]) {
    const words = String(Math.round(v * 100));
    nodes.push(
      el('path', {
        d:
          polyline([
            [sx(v), bottom],
            [sx(v), bottom + 6],
          ]) +
          polyline([
            [left - 6, sy(v)],
            [left, sy(v)],
          ]),
        stroke: 'var(--ink)',
        'stroke-width': 1.2,
      }),
      letter(sx(v), bottom + 10 + text, words, { ...figure, anchor: 'middle', fill: 'var(--quiet)' }),
      letter(left - 10, sy(v) + text * 0.34, words, { ...figure, anchor: 'end', fill: 'var(--quiet)' }),
    );
  }
  for (const bin of bins) {
    const [x, y] = [sx(bin.predicted), sy(bin.observed)];
    const [low, high] = wilson(bin.observed, bin.count);
    const r = 3.5 + 7.5 * Math.sqrt(bin.count / largest);
    const [a, b] = [sy(low), sy(high)];
    const cap = (v: number) =>
      polyline([
        [x - 5, v],
        [x + 5, v],
      ]);
    nodes.push(
      el('path', {
        d:
          polyline([
            [x, a],
            [x, b],
          ]) +
          cap(a) +
          cap(b),
        stroke: 'var(--brass)',
        'stroke-width': 2,
      }),
      el('circle', { cx: x, cy: y, r, fill: 'var(--ink)', stroke: 'var(--paper)', 'stroke-width': 1.5 }),
    );
  }
  nodes.push(...counts(bins, sx, sy, text, left, right, bottom));
  const desc = bins
    .map(
      (bin) =>
        `said ${Math.round(bin.predicted * 100)} %, came true ${Math.round(bin.observed * 100)} % of ${bin.count}`,
    )
    .join('; ');
  return sheet(
    `reliability ${input.shape}`,
    width,
    height,
    input.title,
    desc === '' ? 'No answers yet.' : `${desc}.`,
    nodes,
  );
}

/** Counts by their discs, off every disc and bar; one that finds no place is left out, the words have all of them. */
function counts(
  bins: readonly ReliabilityBin[],
  sx: (v: number) => number,
  sy: (v: number) => number,
  text: number,
  left: number,
  right: number,
  bottom: number,
): SvgNode[] {
  type Spot = readonly [x0: number, y0: number, x1: number, y1: number];
  const taken: Spot[] = bins.map((bin) => {
    const [low, high] = wilson(bin.observed, bin.count);
    const x = sx(bin.predicted);
    return [
      x - 5,
      Math.min(sy(high), sy(bin.observed) - 10),
      x + 5,
      Math.max(sy(low), sy(bin.observed) + 10),
    ];
  });
  return bins.flatMap((bin, i) => {
    const words = String(bin.count);
    const wide = textWidth(words, { size: text, figure: true });
    const x = sx(bin.predicted);
    const level = sy(bin.observed) + text * 0.34;
    const [, high, , low] = taken[i]!;
    const beside = [
      [x + 13, level],
      [x - 13 - wide, level],
    ] as const;
    const places = [
      ...(bin.observed <= bin.predicted ? beside : beside.toReversed()),
      [x - wide / 2, low + text * 0.9],
      [x - wide / 2, high - text * 0.35],
    ] as const;
    for (const [x0, y] of places) {
      const spot: Spot = [x0, y - text * 0.76, x0 + wide, y + text * 0.2];
      const free = taken.every(
        (t) => spot[0] > t[2] + 2 || spot[2] < t[0] - 2 || spot[1] > t[3] + 1 || spot[3] < t[1] - 1,
      );
      if (!free || spot[0] < left + 2 || spot[2] > right + 22 || spot[3] > bottom - 1) continue;
      taken.push(spot);
      return [letter(x0, y, words, { size: text, figure: true, fill: 'var(--quiet)' })];
    }
    return [];
  });
}
