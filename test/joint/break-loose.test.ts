import { describe, expect, test } from 'vitest';
import { type BreakLooseTask, breakLoose } from '../../src/joint/break-loose.ts';
import { chainShare, toothLoad } from '../../src/joint/lock-bar.ts';
import { tipSafety } from '../../src/joint/tip.ts';

const TASK: BreakLooseTask = {
  undo: { fitted: { low: 150, high: 150 }, locker: null },
  thread: 'right',
  bar: 0.6,
  way: 'up',
  stand: { mass: 300, halfWidth: 0.125, offset: 0.3 },
  tiedDown: true,
};

function planned(change: Partial<BreakLooseTask> = {}) {
  const plan = breakLoose({ ...TASK, ...change });
  if (!plan.ok) throw new Error(plan.why);
  return plan;
}

const ids = (change: Partial<BreakLooseTask> = {}) => planned(change).cautions.map(({ id }) => id);

describe('a plan', () => {
  test('figures follow from the torque to be ready for', () => {
    const plan = planned();
    expect(plan.undo.plan).toBeCloseTo(225, 9);
    expect(plan.force).toBeCloseTo(375, 9);
    expect(plan.safety).toBeCloseTo(2.31, 2);
    expect(plan.safe).toBe(true);
    expect(plan.turn).toBe('counter-clockwise');
    expect(plan.words).toMatch(
      /^About 83–130 N·m .*, an estimate; be ready for 225 N·m .* 375 N .* bar of 0\.6 m/,
    );
  });

  test('the bar it names is just long enough not to tip', () => {
    const narrow = { mass: 300, halfWidth: 0.1, offset: 0.3 };
    const plan = planned({ stand: narrow });
    expect(plan.safe).toBe(false);
    expect(plan.cautions[0]).toMatchObject({ id: 'tips', stops: true });
    expect(planned({ stand: narrow, bar: plan.safeBar! }).safe).toBe(true);
    expect(planned({ stand: narrow, bar: 0.99 * plan.safeBar! }).safe).toBe(false);
  });

  test('pushing down inside the support cannot tip it', () => {
    const plan = planned({ way: 'down', stand: { mass: 300, halfWidth: 0.3, offset: 0.25 } });
    expect(plan).toMatchObject({ safety: null, safeBar: null, safe: true });
  });

  test('on the bench nothing tips', () => {
    expect(planned({ stand: null })).toMatchObject({ safety: null, safe: true });
  });

  test('sideways never, along only with wheels held', () => {
    const stand = { mass: 300, halfWidth: 0.4, offset: 0.3, height: 0.5, halfLength: 0.7 };
    expect(planned({ way: 'sideways', stand }).safe).toBe(false);
    expect(ids({ way: 'sideways', stand })).toContain('sideways');
    expect(planned({ way: 'along', stand }).safe).toBe(false);
    expect(planned({ way: 'along', stand, wheelsHeld: true }).safe).toBe(true);
  });

  test('a left-hand thread comes off clockwise', () => {
    expect(planned({ thread: 'left' }).turn).toBe('clockwise');
    expect(ids({ thread: 'left' })).toContain('left-hand');
  });

  test('untied, hard to push, at the limit of the chain', () => {
    expect(ids({ tiedDown: false })).toContain('tie-down');
    expect(ids()).toContain('hard-push');
    expect(ids({ bar: 1 })).not.toContain('hard-push');
    const forty = { teeth: 24, pitch: 0.0127, tensile: 13900 };
    expect(planned({ lockBar: forty }).teeth!.share).toBeCloseTo(0.33, 2);
    expect(ids({ lockBar: forty })).not.toContain('chain');
    expect(planned({ lockBar: { ...forty, tensile: 7800 } }).safe).toBe(false);
    expect(ids({ lockBar: { ...forty, tensile: 7800 } })).toContain('chain');
  });

  test('where more than planned may be needed, it says where to stop', () => {
    const undo = { fitted: { low: 150, high: 150 }, locker: 'high', corroded: true } as const;
    const plan = planned({ undo, bar: 0.75 });
    const stop = plan.cautions.find(({ id }) => id === 'stop');
    expect(plan.stopAt).toBeCloseTo((300 * 9.80665 * 0.125 * 0.75) / (2 * 0.425), 6);
    expect(plan.stopAt).toBeGreaterThan(plan.undo.plan);
    expect(stop!.words).toMatch(/may take up to 410 N·m .*: stop at 324 N·m/);
    expect(ids({ undo, stand: null })).not.toContain('stop');
    const weak = planned({ stand: null, lockBar: { teeth: 24, pitch: 0.0127, tensile: 13900 } });
    expect(chainShare(weak.stopAt!, { teeth: 24, pitch: 0.0127, tensile: 13900 })).toBeCloseTo(0.5, 9);
  });

  test('heat for high strength, never near a magnet or a seal', () => {
    const undo = { fitted: { low: 150, high: 150 }, locker: 'high' } as const;
    expect(ids({ undo })).toContain('heat');
    expect(ids({ undo, nearMagnetOrSeal: true })).toContain('no-heat');
    expect(ids({ undo: { ...undo, heated: true } })).not.toContain('heat');
  });
});

describe('what is missing or cannot be', () => {
  test('an unknown direction stops everything', () => {
    expect(breakLoose({ ...TASK, thread: null })).toMatchObject({
      ok: false,
      why: expect.stringContaining('look it up before any bar'),
    });
  });

  test('a measure that the push needs', () => {
    const stand = { mass: 300, halfWidth: 0.2 };
    expect(tipSafety(stand, 100, 'up')).toMatchObject({ ok: false, why: expect.stringContaining('middle') });
    expect(tipSafety(stand, 100, 'sideways')).toMatchObject({
      ok: false,
      why: expect.stringContaining('high'),
    });
    expect(tipSafety({ ...stand, height: 1 }, 100, 'along')).toMatchObject({
      ok: false,
      why: expect.stringContaining('long'),
    });
  });

  test('figures that cannot be', () => {
    expect(() => breakLoose({ ...TASK, bar: 0 })).toThrow('bar must be a finite number above 0, got 0');
    expect(() => tipSafety({ mass: -1, halfWidth: 0.1, offset: 0.3 }, 10, 'up')).toThrow('mass must be');
    expect(() => toothLoad(225, 24.5, 0.0127)).toThrow('teeth must be a whole number, got 24.5');
    expect(() => chainShare(225, { teeth: 24, pitch: 0.0127, tensile: 0 })).toThrow('tensile must be');
  });
});
