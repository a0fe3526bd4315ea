import { describe, expect, it } from 'vitest';
import { balanceRide, rideMachine } from '../../src/circuit/ride-balance.ts';
import { type RideLife, usualLife } from '../../src/circuit/ride-legs.ts';
import { drawChargeDay, drawChargeMonth } from '../../src/draw/charge-curve.ts';
import type { SvgNode } from '../../src/draw/svg.ts';
import { SHIPPED, specOf } from '../machine/shipped.ts';
import { overlap, pointsAlong, textBoxes, textOf, viewBox, walk } from './sheet-geometry.ts';

const machine = rideMachine(specOf(SHIPPED[0]));
const usual = usualLife(machine.spec);
const jacket = { name: 'jacket', watts: 120, when: 'riding' as const };
const LIVES: Readonly<Record<string, RideLife>> = {
  holds: usual,
  'goes flat': {
    ...usual,
    legs: [{ name: 'crawl', rpm: 950, minutes: 90, lights: 'high' }],
    loads: [jacket],
  },
  'one day': { ...usual, days: 1 },
  'every third day': { ...usual, everyDays: 3, days: 31 },
  'a year': { ...usual, days: 366, everyDays: 7 },
  arctic: { ...usual, celsius: -30 },
};

function troubles(drawing: SvgNode): string[] {
  const [w, h] = viewBox(drawing);
  const boxes = textBoxes(drawing);
  return boxes.flatMap((a, i) => [
    ...(a.x0 < 0 || a.y0 < 0 || a.x1 > w || a.y1 > h ? [`cut: ${a.what}`] : []),
    ...boxes
      .slice(i + 1)
      .filter((b) => overlap(a, b))
      .map((b) => `overlap: ${a.what} / ${b.what}`),
  ]);
}

/** Ends of the likely battery's line, px. */
function ends(drawing: SvgNode): readonly (readonly [number, number])[] {
  const group = [...walk(drawing)].find((node) => node.attrs['data-name'] === 'likely battery')!;
  const line = [...walk(group)].find((node) => node.attrs.class === 'line')!;
  const points = pointsAlong(String(line.attrs.d));
  return [points[0]!, points.at(-1)!];
}

describe('the charge drawn', () => {
  for (const [name, life] of Object.entries(LIVES))
    for (const shape of ['wide', 'narrow'] as const)
      it(`is tidy: ${name}, ${shape}`, () => {
        const found = balanceRide(machine, life);
        expect(troubles(drawChargeMonth(found, life, shape))).toEqual([]);
        expect(troubles(drawChargeDay(found, life, shape))).toEqual([]);
      });

  it('falls to the foot of the month where it goes flat, and says in words where it ends', () => {
    const life = LIVES['goes flat']!;
    const found = balanceRide(machine, life);
    expect(found.months.likely.flat).not.toBeNull();
    const drawing = drawChargeMonth(found, life, 'wide');
    const [from, to] = ends(drawing);
    expect(to![1]).toBeGreaterThan(from![1] + 150);
    const desc = drawing.children.find(
      (child) => typeof child !== 'string' && child.tag === 'desc',
    ) as SvgNode;
    expect(textOf(desc)).toMatch(/likely battery: 95 % at 0 d, 0 % at \d+ d/);
  });

  it('shows the same figures as the month has', () => {
    const life = LIVES.holds!;
    const found = balanceRide(machine, life);
    const drawing = drawChargeMonth(found, life, 'wide');
    const desc = drawing.children.find(
      (child) => typeof child !== 'string' && child.tag === 'desc',
    ) as SvgNode;
    const last = Number((100 * found.months.likely.days.at(-1)!.last).toPrecision(4));
    expect(textOf(desc)).toContain(`${last} % at 30 d`);
  });
});
