/** Leaving things on, replaying, and counting orders. */
import { describe, expect, it } from 'vitest';
import { countOrders } from '../../src/way/count-orders.ts';
import { leaveOn } from '../../src/way/leave-on.ts';
import { replay } from '../../src/way/replay.ts';
import { unitStrip } from './strip-unit.ts';

describe('leaving things on', () => {
  const problem = unitStrip();
  const at = (name: string) => problem.facts.indexOf(name);

  it('leaving the chain on costs nothing where the adjusters turn, and the clutch way where it must not go slack', () => {
    expect(leaveOn(problem, [at('chain off')])).toMatchObject({
      dearer: 0,
      proved: true,
      onlyFree: [],
      onlyLeft: [],
    });
    const tight = leaveOn(problem, [at('slack')]);
    expect(tight).toMatchObject({ dearer: 47 - 17, proved: true, without: [1, 3] });
    expect(tight.onlyFree.map((a) => problem.moves[a]!.id)).toEqual(['guard', 'adjusters', 'sprocket']);
    expect(tight.onlyLeft.map((a) => problem.moves[a]!.id)).toEqual([
      'drain',
      'cover',
      'clutch',
      'sprocket behind the clutch',
    ]);
  });

  it('says why it is impossible', () => {
    const none = leaveOn(problem, [at('slack'), at('clutch off')]);
    expect(none.dearer).toBeNull();
    expect(none.left).toMatchObject({ ok: false, unreachable: [6] });
    if (!none.left.ok) expect(none.left.missing).toEqual([at('slack'), at('clutch off')]);
    expect(leaveOn(problem, [at('sprocket off')])).toMatchObject({ contradicted: [6], dearer: null });
  });

  it('refuses facts that are none or hold already', () => {
    expect(() => leaveOn(problem, [7])).toThrow(RangeError);
    expect(() => leaveOn({ ...problem, start: [0] }, [0])).toThrow(
      /facts that do not hold yet, got "guard off"/,
    );
  });
});

describe('replaying', () => {
  it('stops at the first move whose needs do not hold', () => {
    const problem = unitStrip();
    expect(replay(problem, [0, 7])).toEqual({ ok: false, at: 1, lacks: [1] });
    expect(replay(problem, [0, 1])).toEqual({ ok: false, at: 2, lacks: [6] });
    expect(replay(problem, [0, 1, 7])).toMatchObject({ ok: true, cost: 17 });
    expect(() => replay(problem, [9])).toThrow(RangeError);
  });
});

describe('counting orders', () => {
  it('n steps free of each other have n! orders, a chain has one, a circle none', () => {
    expect(countOrders([[[]], [[]], [[]], [[]], [[]]])).toBe(120);
    expect(countOrders([[[]], [[0]], [[1]]])).toBe(1);
    expect(countOrders([[[1]], [[0]]])).toBe(0);
    expect(countOrders([])).toBe(1);
  });

  it('refuses steps that are none, and too many', () => {
    expect(() => countOrders([[[1]]])).toThrow(RangeError);
    expect(() => countOrders(Array.from({ length: 23 }, () => [[]]))).toThrow(RangeError);
  });
});
