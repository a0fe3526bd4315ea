/** A bike's reading over the years as a small chart: is the stator fading? */
import type { Series, SeriesPoint } from '../bike/series.ts';
import { drawCurves } from './curves.ts';
import type { SvgNode } from './svg.ts';

const DAY = 86_400_000;
const YEAR_DAYS = 365.25;

/** Points by days since the first of them, or by years where they span more than two. */
export function drawSeries(
  series: Series,
  words: { readonly title: string; readonly unit: string },
  shape: 'wide' | 'narrow',
): SvgNode {
  const first = series.points[0]?.at;
  if (first === undefined) throw new RangeError('series must have a point');
  const span = ((series.points.at(-1)?.at ?? first) - first) / DAY;
  const years = span > 2 * YEAR_DAYS;
  const place = ({ at, value }: SeriesPoint) =>
    [(at - first) / DAY / (years ? YEAR_DAYS : 1), value] as const;
  const asFound = series.points.filter(({ repaired }) => !repaired).map(place);
  const after = series.points.filter(({ repaired }) => repaired).map(place);
  return drawCurves({
    title: words.title,
    x: {
      label: 'since the first',
      unit: years ? 'years' : 'days',
      min: 0,
      max: Math.max(1, years ? span / YEAR_DAYS : span),
    },
    y: { label: 'read', unit: words.unit },
    curves: [
      ...(asFound.length > 0 ? [{ name: 'as found', points: asFound }] : []),
      ...(after.length > 0 ? [{ name: 'repaired', points: after }] : []),
    ],
    shape,
  });
}
