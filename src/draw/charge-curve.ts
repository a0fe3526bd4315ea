/** The battery's charge over a day of riding and over the month: the likely battery as a line, worn to new as a band. */
import type { InCases, RideBalance } from '../circuit/ride-balance.ts';
import type { RideLife } from '../circuit/ride-legs.ts';
import type { RideMonth } from '../circuit/ride-month.ts';
import { drawCurves } from './curves.ts';
import type { SvgNode } from './svg.ts';

type Points = readonly (readonly [number, number])[];

const BAND = 'worn to new battery';
const LINE = 'likely battery';
const STARTS = 'may not start below';
/** Points of the band along a day. */
const STEPS = 120;

/** Height of a line at x, straight between its points; `after` where it has ended. */
function heightAt(points: Points, x: number, after: number): number {
  const next = points.findIndex(([at]) => at >= x);
  if (next < 0) return after;
  const [b, a] = [points[next]!, points[Math.max(0, next - 1)]!];
  return b[0] === a[0] ? b[1] : a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
}

/** Charge over days, %: the morning of each, and the evening of the last. */
function daysOf(month: RideMonth): Points {
  const mornings = month.days.map((day, n) => [n, 100 * day.first] as const);
  const last = month.days.at(-1);
  return last ? [...mornings, [month.days.length, month.flat ? 0 : 100 * last.last]] : mornings;
}

function bandOf(
  months: InCases<Points>,
  from: number,
  to: number,
  steps: number,
): readonly (readonly [number, number, number])[] {
  return Array.from({ length: steps + 1 }, (_, n) => {
    const x = from + ((to - from) * n) / steps;
    // A line that has ended has ended flat.
    const ys = [months.worn, months.likely, months.fresh].map((points) => heightAt(points, x, 0));
    return [x, Math.min(...ys), Math.max(...ys)] as const;
  });
}

/** The level under which the engine may not start, as a line; none where even a full battery would not do. */
function starts(found: RideBalance, from: number, to: number) {
  if (found.startCharge === null) return [];
  const y = 100 * found.startCharge;
  return [
    {
      name: STARTS,
      points: [
        [from, y],
        [to, y],
      ] as const,
    },
  ];
}

/** The month, always from empty to full: how it goes is seen against what a battery has. */
export function drawChargeMonth(found: RideBalance, life: RideLife, shape: 'wide' | 'narrow'): SvgNode {
  const { worn, likely, fresh } = found.months;
  const lines = { worn: daysOf(worn), likely: daysOf(likely), fresh: daysOf(fresh) };
  return drawCurves({
    title: `Charge of the battery over ${life.days === 1 ? 'the day' : `${life.days} days`}`,
    x: { label: 'day', unit: 'd', min: 0, max: life.days },
    y: { label: 'charge', unit: '%', min: 0, max: 100 },
    curves: [{ name: LINE, points: lines.likely }, ...starts(found, 0, life.days)],
    bands: [{ name: BAND, points: bandOf(lines, 0, life.days, life.days) }],
    shape,
  });
}

/** The last day with a ride, from its first leg to an hour after its last. */
export function drawChargeDay(found: RideBalance, life: RideLife, shape: 'wide' | 'narrow'): SvgNode {
  const { worn, likely, fresh } = found.months;
  const hours = life.legs.reduce((sum, leg) => sum + leg.minutes, 0) / 60;
  const end = Math.min(24, hours + Math.max(0.2, Math.min(1, 0.15 * hours)));
  const shown = (month: RideMonth): Points => {
    const points = month.lastDay.filter(([hour], n, all) => hour <= end || (all[n - 1]?.[0] ?? 0) < end);
    const percent = points.map(([hour, full]) => [hour, 100 * full] as const);
    const last = percent.at(-1);
    // Flat on the road: from there on there is nothing.
    return month.flat && last && last[0] < end ? [...percent, [last[0], 0], [end, 0]] : percent;
  };
  const lines = { worn: shown(worn), likely: shown(likely), fresh: shown(fresh) };
  const band = bandOf(lines, 0, end, STEPS);
  const low = Math.min(...band.map(([, least]) => least));
  const high = Math.max(...band.map(([, , most]) => most));
  // Ten percent at least: a ripple must not look like a fall.
  const [least, most] = [Math.max(0, Math.floor(low / 10) * 10), Math.min(100, Math.ceil(high / 10) * 10)];
  const line = found.startCharge !== null && 100 * found.startCharge >= least ? starts(found, 0, end) : [];
  return drawCurves({
    title: 'Charge of the battery over a day with a ride, at the end',
    x: { label: 'time since setting off', unit: 'h', min: 0, max: end },
    y: { label: 'charge', unit: '%', min: least, max: Math.max(most, least + 10) },
    curves: [{ name: LINE, points: lines.likely }, ...line],
    bands: [{ name: BAND, points: band }],
    shape,
  });
}
