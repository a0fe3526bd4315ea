import { describe, expect, test } from 'vitest';
import { chooseWrench, planWrench, tryWrenches, type Wrench } from '../../src/joint/wrench-plan.ts';
import { fullScaleFor, nearestMark, nearestMarks } from '../../src/joint/wrench-scale.ts';
import { quantity } from '../../src/units/quantity.ts';

const inLbs = (value: number) => quantity('torque', value, 'lbf·in').si;
const ftLbs = (value: number) => quantity('torque', value, 'lbf·ft').si;

const SMALL: Wrench = {
  name: 'small',
  fullScale: inLbs(200),
  length: 0.22,
  scales: [
    { unit: 'lbf·in', low: 40, high: 200, step: 1 },
    { unit: 'N·m', low: 4.5, high: 22.5, step: 0.5 },
  ],
};
const MIDDLE: Wrench = {
  name: 'middle',
  fullScale: ftLbs(80),
  length: 0.4,
  scales: [{ unit: 'lbf·ft', low: 10, high: 80, step: 1 }],
};
const LARGE: Wrench = {
  name: 'large',
  fullScale: 340,
  length: 0.6,
  scales: [{ unit: 'N·m', low: 60, high: 340, step: 10 }],
};

describe('marks', () => {
  test('the nearest mark and what it is off by', () => {
    const mark = nearestMark(16.4, { unit: 'N·m', low: 5, high: 25, step: 0.5 });
    expect(mark).toMatchObject({ ok: true, figure: 16.5, set: 16.5 });
    expect(mark.ok && mark.error).toBeCloseTo(16.5 / 16.4 - 1, 12);
  });

  test('of two scales the one that comes nearer first, both shown', () => {
    const found = nearestMarks(inLbs(83), SMALL.scales!);
    if (!found.ok) throw new Error(found.why);
    expect(found.marks.map(({ unit, figure }) => `${figure} ${unit}`)).toEqual(['83 lbf·in', '9.5 N·m']);
  });

  test('marks are told as they are printed, without binary tails', () => {
    expect(nearestMark(0.7, { unit: 'N·m', low: 0.1, high: 2, step: 0.1 })).toMatchObject({ figure: 0.7 });
  });

  test('off the scale', () => {
    expect(nearestMark(3, { unit: 'N·m', low: 5, high: 25, step: 1 })).toMatchObject({
      ok: false,
      why: expect.stringContaining('goes from 5 to 25 N·m'),
    });
    expect(nearestMark(4.6, { unit: 'N·m', low: 5, high: 25, step: 1 })).toMatchObject({ figure: 5 });
  });

  test('scales that cannot be', () => {
    expect(() => nearestMark(5, { unit: 'N·m', low: 5, high: 4, step: 1 })).toThrow(
      'scale.high must be above',
    );
    expect(() => nearestMark(5, { unit: 'N·m', low: 0, high: 10, step: 0 })).toThrow('scale.step must be');
    expect(() => nearestMark(5, { unit: 'N·m', low: 0, high: 10, step: 1e-6 })).toThrow('100000 marks');
    expect(() => nearestMarks(5, [])).toThrow('scales must hold');
  });
});

describe('a plan', () => {
  test('drag is added at the screw, the adapter divides the sum', () => {
    const plan = planWrench({ torque: 40, drag: 4, adapter: 0.1 }, MIDDLE);
    if (!plan.ok) throw new Error(plan.why);
    expect(plan.target).toBe(44);
    expect(plan.set).toBeCloseTo(44 / 1.25, 12);
    // 35.2 N·m is 25.96 lbf·ft: mark 26, and what that gives without the drag.
    expect(plan.marks[0]).toMatchObject({ figure: 26, unit: 'lbf·ft' });
    const got = ftLbs(26) * 1.25 - 4;
    expect(plan.rounding).toBeCloseTo(got / 40 - 1, 12);
    expect(plan.torque.low).toBeCloseTo(got - 0.04 * ftLbs(26) * 1.25, 9);
    expect(plan.torque.high).toBeCloseTo(got + 0.04 * ftLbs(26) * 1.25, 9);
    expect(plan.push.force).toBeCloseTo(ftLbs(26) / 0.4, 9);
    expect(plan.cautions).toEqual([]);
  });

  test('coarse marks, hard pushes and much drag are told', () => {
    const coarse = planWrench(
      { torque: 74.9 },
      { ...LARGE, scales: [{ unit: 'N·m', low: 50, high: 340, step: 20 }] },
    );
    expect(coarse.ok && coarse.cautions.join(' ')).toMatch(
      /22 % of full scale: usable.*nearest mark gives 70 N·m/,
    );
    const hard = planWrench({ torque: 225 }, LARGE);
    expect(hard.ok && hard.cautions.join(' ')).toContain('that one hand pushes steadily');
    const dragging = planWrench({ torque: 20, drag: 15 }, MIDDLE);
    expect(dragging.ok && dragging.cautions.join(' ')).toContain('drag');
  });

  test("the book's limits against the wrench's own error", () => {
    const tight = planWrench({ torque: 40, allowed: { low: 39.5, high: 40.5 } }, MIDDLE);
    expect(tight.ok && tight.cautions.join(' ')).toContain('own error, ±4 %,');
    const wide = planWrench({ torque: 40, allowed: { low: 35, high: 45 } }, MIDDLE);
    expect(wide.ok && wide.cautions).toEqual([]);
  });
});

describe('choice', () => {
  const all = [LARGE, MIDDLE, SMALL];

  test.each([
    [12, 'small'],
    [50, 'middle'],
    [200, 'large'],
  ])('%d N·m is done with the %s one', (torque, name) => {
    expect(chooseWrench({ torque }, all)).toMatchObject({ ok: true, best: { wrench: { name } } });
  });

  test('those that cannot are told with their reason', () => {
    const found = chooseWrench({ torque: 12 }, all);
    expect(found.ok && found.unfit.map(({ wrench }) => wrench.name)).toEqual(['large', 'middle']);
    expect(found.ok && found.unfit[0]!.why).toContain('below 20 %');
  });

  test('none fits', () => {
    expect(chooseWrench({ torque: 1 }, all)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/^No wrench at hand does 1 N·m \(8\.85 lbf·in\); the nearest is small: /),
    });
    expect(chooseWrench({ torque: 1 }, [])).toMatchObject({ ok: false });
  });
});

describe('a wrench as its sheet has it', () => {
  test('its first figure and its own error go before the rule', () => {
    expect(planWrench({ torque: 12 }, { name: 'a', fullScale: 50, lowest: 15 })).toMatchObject({
      ok: false,
      why: expect.stringContaining('below the first figure of this wrench, 15 N·m'),
    });
    expect(planWrench({ torque: 15 }, { name: 'a', fullScale: 50, lowest: 15 })).toMatchObject({ ok: true });
    expect(planWrench({ torque: 20 }, { name: 'a', fullScale: 50, accuracy: 0.02 })).toMatchObject({
      accuracy: 0.02,
      torque: { low: 19.6, high: 20.4 },
    });
    expect(() => planWrench({ torque: 20 }, { name: 'a', fullScale: 50, accuracy: 4 })).toThrow('accuracy');
  });

  test('without its length no adapter goes on it, and nothing is said of the push', () => {
    const wrench = { name: 'a', fullScale: 50 };
    expect(planWrench({ torque: 20 }, wrench)).toMatchObject({ ok: true, push: null, factor: 1 });
    expect(planWrench({ torque: 20, adapter: 0.1 }, wrench)).toMatchObject({
      ok: false,
      why: expect.stringContaining('its length is not known'),
    });
  });

  test('every one that can is in the list, the best first', () => {
    const found = tryWrenches({ torque: 70 }, [LARGE, MIDDLE, SMALL]);
    expect(found.plans.map(({ wrench }) => wrench.name)).toEqual(['middle', 'large']);
    expect(found.unfit.map(({ wrench }) => wrench.name)).toEqual(['small']);
  });

  // 30–80 % of full scale is the best range (US Army TM 1-1500-204-23-9).
  test('the full scale that would put a setting in the best range', () => {
    expect(fullScaleFor(24)).toEqual({ low: 30, high: 80 });
  });
});
