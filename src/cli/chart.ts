/** The drawing of a sweep: battery volts above, amps below, over engine speed. */
import type { OperatingPoint } from '../circuit/bike.ts';
import { standalone } from '../draw/palette.ts';
import { el, letter, num, type SvgNode, sheet, svgText } from '../draw/svg.ts';

export interface SweepPoint {
  readonly rpm: number;
  readonly point: OperatingPoint;
}

/** A curve: its values, colour and dash. The dash tells curves apart without colour. */
interface Curve {
  readonly name: string;
  readonly colour: string;
  readonly dash?: string;
  readonly of: (point: OperatingPoint) => number;
}

/** A panel: its place on the sheet, its axis and its curves. */
interface Panel {
  readonly top: number;
  readonly height: number;
  readonly unit: string;
  readonly curves: readonly Curve[];
  /** Range drawn as a band, or null. */
  readonly band: { readonly low: number; readonly high: number; readonly words: string } | null;
  /** Smallest span of the axis. */
  readonly span: number;
}

const WIDTH = 720;
const HEIGHT = 520;
const LEFT = 62;
const RIGHT = 150;

/** Draws a sweep as a text of SVG, light theme, standing alone. At least one point. */
export function drawSweep(
  points: readonly SweepPoint[],
  title: string,
  circumstances: string,
  chargeVolts: readonly [number, number],
): string {
  if (points.length === 0) throw new RangeError('points must not be empty');
  const first = points[0]!.rpm;
  const last = Math.max(points.at(-1)!.rpm, first + 1);
  const x = (rpm: number) => LEFT + ((rpm - first) / (last - first)) * (WIDTH - LEFT - RIGHT);
  const panels: readonly Panel[] = [
    {
      top: 78,
      height: 176,
      unit: 'V',
      curves: [
        { name: 'battery', colour: 'var(--ink)', of: (p) => p.batteryVolts },
        { name: 'regulator', colour: 'var(--teal)', dash: '6 5', of: (p) => p.regulatorVolts },
      ],
      band: { low: chargeVolts[0], high: chargeVolts[1], words: 'book, 5000 rpm' },
      span: 2,
    },
    {
      top: 296,
      height: 176,
      unit: 'A',
      curves: [
        { name: 'alternator', colour: 'var(--ink)', of: (p) => p.alternatorAmps },
        { name: 'into battery', colour: 'var(--teal)', dash: '6 5', of: (p) => p.batteryAmps },
      ],
      band: null,
      span: 5,
    },
  ];
  const words = `Battery volts and amps from ${first} to ${points.at(-1)!.rpm} rpm: ${circumstances}.`;
  const drawing = sheet('sweep', WIDTH, HEIGHT, title, words, [
    letter(LEFT, 30, title, { size: 20, bold: true }),
    letter(LEFT, 52, circumstances, { size: 15, fill: 'var(--quiet)' }),
    ...panels.flatMap((panel) => drawPanel(panel, points, x)),
    ...ticksOf(first, last, 8).map((rpm) =>
      letter(x(rpm), HEIGHT - 26, String(rpm), { size: 14, anchor: 'middle', figure: true }),
    ),
    letter(WIDTH - RIGHT + 30, HEIGHT - 26, 'rpm', { size: 14 }),
  ]);
  return `${svgText(standalone(drawing, 'paper'))}\n`;
}

function drawPanel(panel: Panel, points: readonly SweepPoint[], x: (rpm: number) => number): SvgNode[] {
  const { top, height, unit, curves, band, span } = panel;
  const values = points.flatMap(({ point }) => curves.map(({ of }) => of(point)));
  if (band) values.push(band.low, band.high);
  const middle = (Math.min(...values) + Math.max(...values)) / 2;
  const half = Math.max(Math.max(...values) - middle, span / 2) * 1.08;
  const [low, high] = [middle - half, middle + half];
  const y = (value: number) => top + height - ((value - low) / (high - low)) * height;
  const right = WIDTH - RIGHT;
  const out: SvgNode[] = [];
  if (band) {
    const bandTop = y(band.high);
    out.push(
      el('rect', {
        x: LEFT,
        y: bandTop,
        width: right - LEFT,
        height: y(band.low) - bandTop,
        fill: 'var(--brass)',
        opacity: 0.18,
      }),
    );
  }
  for (const tick of ticksOf(low, high, 5)) {
    const strong = tick === 0 && unit === 'A';
    out.push(
      el('line', {
        x1: LEFT,
        y1: y(tick),
        x2: right,
        y2: y(tick),
        stroke: 'var(--quiet)',
        'stroke-width': strong ? 1.2 : 0.5,
        opacity: strong ? 1 : 0.5,
      }),
      letter(LEFT - 8, y(tick) + 5, `${String(tick).replace('-', '−')} ${unit}`, {
        size: 14,
        anchor: 'end',
        figure: true,
      }),
    );
  }
  const names: { y: number; words: string; fill: string }[] = [];
  if (band) names.push({ y: (y(band.low) + y(band.high)) / 2 + 5, words: band.words, fill: 'var(--quiet)' });
  for (const curve of curves) {
    const line = points.map(({ rpm, point }) => `${num(x(rpm))} ${num(y(curve.of(point)))}`);
    const end = points.at(-1)!;
    names.push({ y: y(curve.of(end.point)) + 5, words: curve.name, fill: curve.colour });
    if (points.length === 1) {
      out.push(el('circle', { cx: x(end.rpm), cy: y(curve.of(end.point)), r: 4, fill: curve.colour }));
      continue;
    }
    out.push(
      el('path', {
        d: `M${line.join('L')}`,
        stroke: curve.colour,
        'stroke-width': 2.2,
        'stroke-dasharray': curve.dash,
      }),
    );
  }
  // Names stand at the right end of their curves, moved apart where they would meet.
  names.sort((a, b) => a.y - b.y);
  names.forEach((name, n) => {
    const above = names[n - 1];
    if (above && name.y - above.y < 18) name.y = above.y + 18;
    out.push(letter(right + 10, name.y, name.words, { size: 15, fill: name.fill, bold: true }));
  });
  return out;
}

/** Round values inside a range, about `wanted` of them (steps of 1, 2 or 5 times a power of ten). */
export function ticksOf(low: number, high: number, wanted: number): number[] {
  const rough = (high - low) / wanted;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((times) => times * power).find((one) => one >= rough * 0.999)!;
  const ticks: number[] = [];
  for (let n = Math.ceil(low / step - 1e-9); n * step <= high + step * 1e-9; n++) {
    ticks.push(Number((n * step).toPrecision(10)));
  }
  return ticks;
}
