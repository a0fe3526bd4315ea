import { marker, STROKES } from './curve-marks.ts';
import { hatch } from './hatch.ts';
import { shorten, textWidth } from './measure.ts';
import { polyline, scale, thin, ticks, tickWords } from './scale.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

export interface Axis {
  /** "engine speed" */
  readonly label: string;
  /** "rpm" */
  readonly unit: string;
  readonly min?: number;
  readonly max?: number;
}

export interface Curve {
  readonly name: string;
  /** Points in order of x; a y of NaN leaves a gap. */
  readonly points: readonly (readonly [x: number, y: number])[];
}

export interface CurveBand {
  readonly name: string;
  /** Lower and upper edge over x, in order of x. */
  readonly points: readonly (readonly [x: number, low: number, high: number])[];
}

export interface CurvesInput {
  readonly title: string;
  readonly x: Axis;
  readonly y: Axis;
  readonly curves: readonly Curve[];
  readonly bands?: readonly CurveBand[];
  readonly shape: 'wide' | 'narrow';
}

const SIZES = {
  wide: { width: 760, height: 400, text: 17, columns: 9, rows: 6 },
  narrow: { width: 360, height: 330, text: 16, columns: 4, rows: 5 },
} as const;

function range(axis: Axis, values: readonly number[], name: string, pad: number): [number, number] {
  const finite = values.filter(Number.isFinite);
  const least = axis.min ?? Math.min(...bounds(finite));
  const most = axis.max ?? Math.max(...bounds(finite));
  if (!Number.isFinite(least) || !Number.isFinite(most)) {
    throw new RangeError(`curves: ${name} has no finite value to draw; give min and max`);
  }
  const room = most > least ? (most - least) * pad : Math.max(1, Math.abs(most) * 0.1);
  return [axis.min ?? least - room, axis.max ?? most + room];
}

/** Least and greatest without spreading a long series over the call stack. */
function bounds(values: readonly number[]): number[] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const v of values) {
    if (v < low) low = v;
    if (v > high) high = v;
  }
  return values.length === 0 ? [] : [low, high];
}

/** Splits a series at its gaps. */
function runs(points: Curve['points']): (readonly [number, number])[][] {
  const found: (readonly [number, number])[][] = [[]];
  for (const p of points) {
    if (Number.isFinite(p[0]) && Number.isFinite(p[1])) found.at(-1)!.push(p);
    else if (found.at(-1)!.length > 0) found.push([]);
  }
  return found.filter((run) => run.length > 0);
}

/** Moves label heights apart until each has `pitch` px, staying between `top` and `bottom` as far as they can. */
export function spread(wanted: readonly number[], pitch: number, top: number, bottom: number): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  const placed = [...wanted];
  let floor = top;
  for (const i of order) {
    placed[i] = Math.max(placed[i]!, floor);
    floor = placed[i]! + pitch;
  }
  let ceiling = bottom;
  for (const i of order.toReversed()) {
    placed[i] = Math.min(placed[i]!, ceiling);
    ceiling = placed[i]! - pitch;
  }
  return placed;
}

/**
 * Lines over a common x with bands behind them: volts over rpm, waveforms over time. Each line is told apart
 * by dash and marker and named where it ends (wide) or in a key under the plot (narrow). Throws RangeError for
 * more than six curves, or when there is nothing finite to draw.
 */
export function drawCurves(input: CurvesInput): SvgNode {
  const { curves, shape } = input;
  const bands = input.bands ?? [];
  if (curves.length > STROKES.length) {
    throw new RangeError(`curves: at most ${STROKES.length} can be told apart, got ${curves.length}`);
  }
  const size = SIZES[shape];
  const { text } = size;
  const how = { size: text };
  const xs = [
    ...curves.flatMap((c) => c.points.map((p) => p[0])),
    ...bands.flatMap((b) => b.points.map((p) => p[0])),
  ];
  const ys = [
    ...curves.flatMap((c) => c.points.map((p) => p[1])),
    ...bands.flatMap((b) => b.points.flatMap((p) => [p[1], p[2]])),
  ];
  const [xLow, xHigh] = range(input.x, xs, 'x', 0);
  const [yLow, yHigh] = range(input.y, ys, 'y', 0.08);
  const xTicks = ticks(xLow, xHigh, size.columns);
  const yTicks = ticks(yLow, yHigh, size.rows);
  const figure = { size: text, figure: true } as const;
  const names = [...curves.map((c) => c.name), ...bands.map((b) => b.name)];
  const left = 12 + Math.max(...yTicks.at.map((v) => textWidth(tickWords(v, yTicks.step), figure))) + 10;
  const right =
    shape === 'wide' ? Math.min(230, Math.max(20, ...names.map((n) => textWidth(n, how) + 42))) : 22;
  const top = 20 + text;
  const key = shape === 'narrow' ? names.length * (text + 8) + 18 : 0;
  const height = size.height + key;
  const bottom = size.height - 2 * text - 20;
  const sx = scale(xLow, xHigh, left, size.width - right);
  const sy = scale(yLow, yHigh, bottom, top);

  const grid: SvgNode[] = yTicks.at.flatMap((v) => [
    el('path', {
      d: polyline([
        [left, sy(v)],
        [size.width - right, sy(v)],
      ]),
      stroke: 'var(--quiet)',
      'stroke-width': 0.5,
      'stroke-dasharray': '1 5',
    }),
    letter(left - 8, sy(v) + text * 0.34, tickWords(v, yTicks.step), {
      ...figure,
      anchor: 'end',
      fill: 'var(--quiet)',
    }),
  ]);
  let clear = Number.NEGATIVE_INFINITY;
  const across: SvgNode[] = xTicks.at.flatMap((v) => {
    const words = tickWords(v, xTicks.step);
    const half = textWidth(words, figure) / 2;
    const mark = el('path', {
      d: polyline([
        [sx(v), bottom],
        [sx(v), bottom + 6],
      ]),
      stroke: 'var(--ink)',
      'stroke-width': 1.2,
    });
    // A figure that would touch its neighbour or leave the sheet is left out; its mark stays.
    if (sx(v) - half < clear || sx(v) + half > size.width - 2) return [mark];
    clear = sx(v) + half + 10;
    return [
      mark,
      letter(sx(v), bottom + 10 + text, words, { ...figure, anchor: 'middle', fill: 'var(--quiet)' }),
    ];
  });
  const frame = [
    el('path', {
      d: polyline([
        [left, top - 6],
        [left, bottom],
        [size.width - right + 6, bottom],
      ]),
      stroke: 'var(--ink)',
      'stroke-width': 1.6,
    }),
    letter(4, text + 2, shorten(`${input.y.label}, ${input.y.unit}`, size.width - 8, how), how),
    letter(
      size.width - right,
      bottom + 16 + 2 * text,
      shorten(`${input.x.label}, ${input.x.unit}`, size.width - 40, how),
      { ...how, anchor: 'end' },
    ),
  ];

  const inside = ([x, y]: readonly [number, number]): readonly [number, number] => [
    sx(x),
    Math.min(Math.max(sy(y), top - 6), bottom),
  ];
  const bandNodes = bands.flatMap((b) => {
    const low = b.points.map((p) => inside([p[0], p[1]]));
    const high = b.points.map((p) => inside([p[0], p[2]]));
    const corners = [...low, ...high.toReversed()];
    if (corners.length < 3) return [];
    return [
      el('g', { class: 'band', 'data-name': b.name }, [
        ...hatch({ kind: 'outline', corners }, 2).map((n) => ({
          ...n,
          attrs: { ...n.attrs, 'stroke-width': 0.8 },
        })),
        el('path', { d: polyline(low) + polyline(high), stroke: 'var(--brass)', 'stroke-width': 1.2 }),
      ]),
    ];
  });
  const curveNodes = curves.map((c, i) => {
    const stroke = STROKES[i]!;
    const thinned = runs(c.points.filter((p) => !(p[0] < xLow || p[0] > xHigh))).map((run) => thin(run, sx));
    const d = thinned.map((run) => polyline(run.map(inside))).join('');
    const flat = thinned.flat();
    // Markers about every 90 px, never on a dense series' every point.
    const marks: SvgNode[] = [];
    let next = left + 24 + i * 14;
    for (const p of flat) {
      if (sx(p[0]) < next) continue;
      marks.push(marker(stroke.marker, ...(inside(p) as [number, number]), stroke.colour));
      next = sx(p[0]) + 90;
    }
    return el('g', { class: 'curve', 'data-name': c.name }, [
      el('path', { d: d === '' ? 'M0 0' : d, stroke: 'var(--paper)', 'stroke-width': 5 }),
      el('path', {
        class: 'line',
        d: d === '' ? 'M0 0' : d,
        stroke: stroke.colour,
        'stroke-width': 2.4,
        'stroke-dasharray': stroke.dash === '' ? undefined : stroke.dash,
        'stroke-linecap': 'butt',
      }),
      ...marks,
    ]);
  });

  const ends = [
    ...curves
      .map((c) => c.points.findLast((p) => Number.isFinite(p[1]) && p[0] <= xHigh))
      .map((p) => (p === undefined ? top : inside(p)[1])),
    ...bands
      .map((b) => b.points.at(-1))
      .map((p) => (p === undefined ? top : (inside([p[0], p[1]])[1] + inside([p[0], p[2]])[1]) / 2)),
  ];
  const places =
    shape === 'wide'
      ? spread(ends, text + 4, top, bottom - 4)
      : names.map((_, i) => size.height + 16 + i * (text + 8));
  const labels = names.flatMap((name, i) => {
    const x = shape === 'wide' ? size.width - right + 12 : 12;
    const y = places[i]!;
    const stroke = STROKES[i];
    const swatch =
      i < curves.length && stroke !== undefined
        ? [
            el('path', {
              d: polyline([
                [x - (shape === 'wide' ? 6 : 0), y],
                [x + (shape === 'wide' ? 12 : 36), y],
              ]),
              stroke: stroke.colour,
              'stroke-width': 2.4,
              'stroke-linecap': 'butt',
              'stroke-dasharray': stroke.dash === '' || shape === 'wide' ? undefined : stroke.dash,
            }),
            marker(stroke.marker, x + (shape === 'wide' ? 6 : 18), y, stroke.colour),
          ]
        : hatch(
            {
              kind: 'outline',
              corners: [
                [x - 4, y - 7],
                [x + (shape === 'wide' ? 14 : 36), y - 7],
                [x + (shape === 'wide' ? 14 : 36), y + 7],
                [x - 4, y + 7],
              ],
            },
            2,
          );
    const indent = shape === 'wide' ? 19 : 46;
    return [
      ...swatch,
      letter(x + indent, y + text * 0.34, shorten(name, size.width - x - indent - 4, how), how),
    ];
  });
  const desc = `${input.y.label} in ${input.y.unit} over ${input.x.label} in ${input.x.unit}. ${curves.map(say(input)).join(' ')}`;
  return sheet(`curves ${shape}`, size.width, height, input.title, desc, [
    ...bandNodes,
    ...grid,
    ...across,
    ...frame,
    ...curveNodes,
    ...labels,
  ]);
}

function say(input: CurvesInput) {
  const round = (v: number) => String(Number(v.toPrecision(4)));
  return (curve: Curve): string => {
    const finite = curve.points.filter((p) => Number.isFinite(p[1]));
    const [first, last] = [finite[0], finite.at(-1)];
    if (first === undefined || last === undefined) return `${curve.name}: no values.`;
    return `${curve.name}: ${round(first[1])} ${input.y.unit} at ${round(first[0])} ${input.x.unit}, ${round(last[1])} ${input.y.unit} at ${round(last[0])} ${input.x.unit}.`;
  };
}
