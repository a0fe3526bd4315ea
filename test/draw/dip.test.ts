/** The dip: golden at both widths, to scale, letters inside the sheet, every step of somebody's work on the line. */
import { describe, expect, it } from 'vitest';
import { type DipInput, drawDip } from '../../src/draw/dip.ts';
import { dipOfPlan } from '../../src/draw/dip-of-plan.ts';
import { attendedSteps, layTime, profileOf } from '../../src/draw/dip-plan.ts';
import { svgText } from '../../src/draw/svg.ts';
import { planJob } from '../../src/way/plan.ts';
import { plainSchedule } from '../way/plain-schedule.ts';
import { SMALL } from '../way/small-work.ts';
import { expectGolden } from './golden.ts';
import { textBoxes } from './sheet-geometry.ts';

/** An evening from six, nights from ten to seven. */
const NIGHTS = [0, 1, 2, 3].map((day) => ({ from: day * 1440 + 240, to: day * 1440 + 780 }));
const answer = planJob(
  { work: SMALL, targets: [SMALL.targets[0]!.id], people: 1, shut: NIGHTS },
  plainSchedule,
);
if (!answer.ok) throw new Error(answer.says);
const plan = answer.least;
const INPUT: DipInput = {
  steps: plan.steps,
  levels: SMALL.levels.map(({ name }) => name),
  startsAt: 18 * 60,
  now: 65,
  done: new Set(plan.steps.filter((step) => step.end <= 65).map((step) => step.id)),
  ride: { at: plan.ride.at, p50: plan.ride.at + 12, p90: plan.ride.at + 80 },
};

describe.each(['wide', 'narrow'] as const)('the dip, %s', (shape) => {
  const drawing = drawDip(INPUT, shape);
  const text = svgText(drawing);

  it('is the golden one', () =>
    expectGolden(`dip-small-${shape}`, drawing, shape === 'wide' ? 'paper' : 'slate'));

  it('keeps its letters inside the sheet', () => {
    const [, , width, height] = String(drawing.attrs.viewBox).split(' ').map(Number);
    for (const { what, x0, x1, y0, y1 } of textBoxes(drawing))
      expect(x0 >= 0 && x1 <= width! && y0 >= 0 && y1 <= height!, what).toBe(true);
  });

  it('has every step of somebody’s work on the line, and says when the bike can be ridden', () => {
    for (const { id } of attendedSteps(plan.steps)) expect(text).toContain(`data-step="${id}"`);
    expect(text).toContain('(P50)');
    expect(text).not.toMatch(/NaN|Infinity/);
  });
});

describe('laying the time out', () => {
  const scale = layTime(plan.steps, 0, plan.ride.at, 100, 2, 150);

  it('is to scale while somebody works and cut where nobody does, never backwards', () => {
    const [first, wait] = scale.stretches;
    expect(first!.cut).toBe(false);
    expect(first!.x1 - first!.x0).toBeCloseTo(2 * (first!.to - first!.from), 9);
    expect(wait!.cut).toBe(true);
    expect(wait!.x1 - wait!.x0).toBe(150);
    let last = Number.NEGATIVE_INFINITY;
    for (let at = -10; at <= plan.ride.at + 10; at += 3) {
      const x = scale.at(at);
      expect(x).toBeGreaterThanOrEqual(last);
      last = x;
    }
  });

  it('goes down to the bottom once and comes out whole', () => {
    const corners = profileOf(plan.steps, 0, plan.ride.at).flatMap((run) => run.corners);
    expect(corners[0]!.depth).toBe(0);
    expect(corners.at(-1)!.depth).toBe(0);
    expect(Math.max(...corners.map(({ depth }) => depth))).toBe(SMALL.levels.length - 1);
    corners.reduce((before, corner) => {
      expect(corner.at).toBeGreaterThanOrEqual(before.at - 1e-6);
      return corner;
    });
  });
});

it('lies flat for a machine whose file names no depths', () => {
  const work = { ...SMALL, levels: [] };
  const flat = planJob({ work, targets: [SMALL.targets[0]!.id], people: 1 }, plainSchedule);
  if (!flat.ok) throw new Error(flat.says);
  const input = dipOfPlan(flat.least, work, { p50: flat.least.ride.at, p90: flat.least.ride.at }, 0);
  expect(svgText(drawDip(input, 'wide'))).toContain('bike whole');
});

it('refuses a plan without steps, and a depth that has no name', () => {
  expect(() => drawDip({ ...INPUT, steps: [] }, 'wide')).toThrow(/steps must hold at least one/);
  expect(() => drawDip({ ...INPUT, levels: ['whole'] }, 'wide')).toThrow(/must be a level from 0 to 0/);
});
