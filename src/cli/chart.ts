/** The drawing of a sweep: battery and regulator volts above, amps below, over engine speed. */
import type { OperatingPoint } from '../circuit/bike.ts';
import { type CurveBand, drawCurves } from '../draw/curves.ts';
import { standalone } from '../draw/palette.ts';
import { el, type SvgNode, sheet, svgText } from '../draw/svg.ts';

export interface SweepPoint {
  readonly rpm: number;
  readonly point: OperatingPoint;
}

/** Draws a sweep as a text of SVG, light theme, standing alone. At least one point. */
export function drawSweep(
  points: readonly SweepPoint[],
  title: string,
  circumstances: string,
  chargeVolts: readonly [number, number],
): string {
  if (points.length === 0) throw new RangeError('points must not be empty');
  const curve = (name: string, of: (point: OperatingPoint) => number) => ({
    name,
    points: points.map(({ rpm, point }) => [rpm, of(point)] as const),
  });
  const x = { label: 'engine speed', unit: 'rpm' };
  const ends = [points[0]!.rpm, points.at(-1)!.rpm];
  const book: CurveBand = {
    name: 'book, at 5000 rpm',
    points: ends.map((rpm) => [rpm, chargeVolts[0], chargeVolts[1]] as const),
  };
  const volts = drawCurves({
    title: `${title}: volts, ${circumstances}`,
    x,
    y: { label: 'volts', unit: 'V' },
    curves: [curve('battery', (p) => p.batteryVolts), curve('regulator', (p) => p.regulatorVolts)],
    bands: [book],
    shape: 'wide',
  });
  const amps = drawCurves({
    title: `${title}: amps, ${circumstances}`,
    x,
    y: { label: 'amps', unit: 'A' },
    curves: [curve('alternator', (p) => p.alternatorAmps), curve('into battery', (p) => p.batteryAmps)],
    shape: 'wide',
  });
  return svgText(standalone(stack(title, circumstances, [volts, amps]), 'paper'));
}

/** Drawings one under the other on one sheet. */
function stack(title: string, desc: string, drawings: readonly SvgNode[]): SvgNode {
  let top = 0;
  let widest = 0;
  const placed = drawings.map((drawing) => {
    const [, , width, height] = String(drawing.attrs.viewBox).split(' ').map(Number) as [
      number,
      number,
      number,
      number,
    ];
    const node = el('svg', { ...drawing.attrs, x: 0, y: top, width, height }, drawing.children);
    top += height;
    widest = Math.max(widest, width);
    return node;
  });
  return sheet('sweep', widest, top, title, desc, placed);
}
