import { describe, expect, test } from 'vitest';
import { type StageTask, stagePlan } from '../../src/joint/stages.ts';

function planned(task: StageTask) {
  const plan = stagePlan(task);
  if (!plan.ok) throw new Error(plan.why);
  return plan;
}

function why(task: StageTask): string {
  const plan = stagePlan(task);
  return plan.ok ? 'no refusal' : plan.why;
}

describe('stages by practice (ASME PCC-1, from memory)', () => {
  test('snug, 20–30 %, 50–70 %, all, then round until nothing moves', () => {
    const { stages, by } = planned({ torque: 40, screws: 8 });
    expect(stages.map(({ name, walk }) => `${name} ${walk}`)).toEqual([
      'snug order',
      'first order',
      'second order',
      'full order',
      'round round',
    ]);
    expect(by).toBe('practice');
    expect(stages[0]!.torque).toBeNull();
    expect(stages[1]!.share).toBeGreaterThanOrEqual(0.2);
    expect(stages[1]!.share).toBeLessThanOrEqual(0.3);
    expect(stages[2]!.share).toBeGreaterThanOrEqual(0.5);
    expect(stages[2]!.share).toBeLessThanOrEqual(0.7);
    expect(stages[3]!.torque).toBe(40);
    expect(stages[4]!.words).toContain('until no screw moves');
  });

  test('rounded to marks inside the bands', () => {
    const { stages, cautions } = planned({
      torque: 40.6,
      screws: 4,
      scale: { unit: 'N·m', low: 5, high: 60, step: 2.5 },
    });
    expect(stages.map(({ mark }) => mark?.figure ?? null)).toEqual([null, 10, 25, 40, 40]);
    expect(cautions).toEqual([]);
  });

  test('with an adapter the marks are divided by its factor', () => {
    const { stages } = planned({
      torque: 50,
      screws: 4,
      factor: 1.25,
      scale: { unit: 'N·m', low: 5, high: 60, step: 1 },
    });
    expect(stages.map(({ mark }) => mark?.figure ?? null)).toEqual([null, 10, 24, 40, 40]);
    expect(stages[1]!.torque).toBeCloseTo(12.5, 9);
  });

  test('a mark that is missing is told, never rounded out of its band', () => {
    const { stages, cautions } = planned({
      torque: 12,
      screws: 6,
      scale: { unit: 'N·m', low: 10, high: 60, step: 1 },
    });
    expect(stages[1]!.mark).toBeNull();
    expect(cautions).toHaveLength(2);
    expect(cautions[0]).toContain('no mark at 20 % to 30 %');
  });

  test('one screw: snug and all of it', () => {
    expect(planned({ torque: 20, screws: 1 }).stages.map(({ name }) => name)).toEqual(['snug', 'full']);
  });
});

describe("the book's stages", () => {
  test('win: case cover screws, 7 then 9 lbf·ft (common practice, no source)', () => {
    const foot = 1.3558179483314;
    const { stages, by } = planned({ torque: 9 * foot, screws: 12, book: [7 * foot, 9 * foot] });
    expect(by).toBe('book');
    expect(stages.map(({ name }) => name)).toEqual(['snug', 'book', 'book', 'round']);
    expect(stages[1]!.share).toBeCloseTo(7 / 9, 9);
  });

  test('must rise and end at the torque', () => {
    expect(why({ torque: 12, screws: 4, book: [12, 9] })).toMatch(
      /^Stage 2, .* is not above stage 1, .*must rise/,
    );
    expect(why({ torque: 12, screws: 4, book: [9, 9, 12] })).toContain('must rise');
    expect(why({ torque: 12, screws: 4, book: [6, 9] })).toContain('is not the final torque');
    expect(why({ torque: 12, screws: 4, book: [] })).toContain('none are entered');
  });

  test('two that fall on one mark are told', () => {
    const { cautions } = planned({
      torque: 10.4,
      screws: 4,
      book: [9.6, 10.4],
      scale: { unit: 'N·m', low: 4, high: 20, step: 2 },
    });
    expect(cautions.join()).toContain('Stages 1 and 2 of the book fall on one mark, 10 N·m');
  });
});

describe('bad input', () => {
  test('off the scale, not above 0, not whole', () => {
    expect(why({ torque: 80, screws: 4, scale: { unit: 'N·m', low: 5, high: 60, step: 1 } })).toContain(
      'off this scale',
    );
    expect(() => stagePlan({ torque: -1, screws: 4 })).toThrow(
      'torque must be a finite number above 0, got -1',
    );
    expect(() => stagePlan({ torque: 1, screws: 0 })).toThrow('screws must be from 1');
    expect(() => stagePlan({ torque: 1, screws: 2.5 })).toThrow('whole number');
    expect(() => stagePlan({ torque: 9, screws: 2, book: [0, 9] })).toThrow('book[0] must be');
  });
});
