/** Break-loose: check values computed from the formulas, chain strengths from the standards. */
import { describe, expect, test } from 'vitest';
import { breakLoose } from '../../src/joint/break-loose.ts';
import { armFor, handForce } from '../../src/joint/hand-force.ts';
import { chainShare, toothLoad } from '../../src/joint/lock-bar.ts';
import { type PushWay, type Stand, tipSafety } from '../../src/joint/tip.ts';
import { PLAN_FACTOR, UNDO_SHARE, undoTorque } from '../../src/joint/undo-torque.ts';
import { quantity } from '../../src/units/quantity.ts';

const STAND: Stand = { mass: 300, halfWidth: 0.125, offset: 0.3, height: 0.9 };

function safety(stand: Stand, force: number, way: PushWay): number | null {
  const tip = tipSafety(stand, force, way);
  if (!tip.ok) throw new Error(tip.why);
  return tip.safety;
}

describe('300 kg bike, 225 N·m, bar plane 0.30 m off the middle (computed from statics)', () => {
  const short = handForce(225, 0.6);

  test('0.6 m bar: 375 N', () => expect(short).toBeCloseTo(375, 9));

  test('up, half-width 0.125 m: 2.31; 0.10 m: 1.96', () => {
    expect(safety(STAND, short, 'up')).toBeCloseTo(2.31, 2);
    expect(safety({ ...STAND, halfWidth: 0.1 }, short, 'up')).toBeCloseTo(1.96, 2);
  });

  test('down, half-width 0.125 m: 5.6', () => {
    expect(safety(STAND, short, 'down')).toBeCloseTo(5.6, 1);
  });

  test('1.2 m bar up: 4.6', () => {
    expect(safety(STAND, handForce(225, 1.2), 'up')).toBeCloseTo(4.6, 1);
  });

  test('400 N sideways at 0.9 m: 1.02, and it is not let through', () => {
    expect(safety(STAND, 400, 'sideways')).toBeCloseTo(1.02, 2);
    expect(tipSafety(STAND, 400, 'sideways')).toMatchObject({ enough: false });
  });

  test('moments about the edge of the support, summed another way, agree', () => {
    // At the force that just tips it, weight and hand balance about the edge.
    for (const way of ['up', 'down', 'sideways'] as const) {
      const force = safety(STAND, 1, way)!;
      const edge = { up: 0.3 + 0.125, down: 0.3 - 0.125, sideways: 0.9 }[way];
      expect(force * edge).toBeCloseTo(300 * 9.80665 * 0.125, 6);
    }
  });
});

describe('lock bar between the teeth', () => {
  const FORTY = quantity('force', 3125, 'lbf').si;

  test('computed: 225 N·m on 24 teeth of 12.7 mm: 4.62 kN', () => {
    expect(toothLoad(225, 24, 0.0127) / 1000).toBeCloseTo(4.62, 2);
  });

  test('33 % of the least tensile strength of a number 40 chain (ANSI B29.1: 3125 lbf)', () => {
    expect(chainShare(225, { teeth: 24, pitch: 0.0127, tensile: FORTY })).toBeCloseTo(0.33, 2);
  });

  test('against the pitch diameter p/sin(π/z) (ANSI B29.1)', () => {
    const radius = 0.0127 / Math.sin(Math.PI / 24) / 2;
    expect(toothLoad(225, 24, 0.0127)).toBeCloseTo(225 / radius, 6);
  });
});

describe('torque to undo', () => {
  test('VDI 2230 style sum (from memory): about 70 % of tightening without locker at a friction of 0.12', () => {
    expect((UNDO_SHARE.low + UNDO_SHARE.high) / 2).toBeCloseTo(0.7, 9);
    const { torque } = undoTorque({ fitted: { low: 26.1, high: 26.1 }, locker: null });
    expect(torque.low).toBeLessThan(0.7 * 26.1);
    expect(torque.high).toBeGreaterThan(0.7 * 26.1);
    expect(torque.high).toBeLessThan(26.1);
  });

  // d2 and P of M8×1 from ISO 724, dw and dh from memory; the sum is VDI 2230's, for frictions a garage meets.
  test.each([0.08, 0.12, 0.16, 0.2])(
    'the share of an M8×1 at a friction of %d lies in the interval',
    (mu) => {
      const [pitch, d2, bearing] = [1e-3, 7.3505e-3, (11.63e-3 + 9e-3) / 4];
      const friction = 0.577 * mu * d2 + mu * bearing;
      const share = (friction - 0.159 * pitch) / (friction + 0.159 * pitch);
      expect(share).toBeGreaterThan(UNDO_SHARE.low - 0.01);
      expect(share).toBeLessThan(UNDO_SHARE.high);
    },
  );

  test("this project's rule: plan for 1.5 times the fitted torque", () => {
    expect(PLAN_FACTOR).toBe(1.5);
    for (const locker of [null, 'low', 'medium', 'high'] as const)
      expect(undoTorque({ fitted: { low: 150, high: 165 }, locker }).plan).toBeCloseTo(1.5 * 165, 9);
  });

  test('engine sprocket nut, 165 lbf·ft with high-strength locker (common practice, no source)', () => {
    const fitted = quantity('torque', 165, 'lbf·ft').si;
    const plan = breakLoose({
      undo: { fitted: { low: fitted, high: fitted }, locker: 'high' },
      thread: 'right',
      bar: 1.2,
      way: 'down',
      stand: STAND,
      tiedDown: true,
    });
    if (!plan.ok) throw new Error(plan.why);
    expect(plan.undo.plan).toBeCloseTo(1.5 * fitted, 9);
    expect(plan.safe).toBe(true);
    expect(plan.cautions.map(({ id }) => id)).toEqual(['hard-push', 'heat']);
    expect(plan.easyBar).toBeCloseTo(armFor(plan.undo.plan), 9);
  });
});
