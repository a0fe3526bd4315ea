import { describe, expect, test } from 'vitest';
import { BOUNCE_MS, ECHO_MS, FIGURE_BOUNCE_MS, guardPress, tooWide, within } from '../../src/web/press.ts';

const EDGE = { left: 100, right: 180, top: 100, bottom: 180 };

describe('a press', () => {
  test('acts when the finger lifts inside, with a little slop', () => {
    expect(within(EDGE, 140, 140)).toBe(true);
    expect(within(EDGE, 190, 140)).toBe(true);
    expect(within(EDGE, 200, 140)).toBe(false);
    const guard = guardPress({ lastLift: Number.NEGATIVE_INFINITY });
    guard.down(1, true);
    expect(guard.lift(1, true, 1000)).toBe(true);
    guard.down(1, true);
    expect(guard.lift(1, false, 2000)).toBe(false);
  });

  test('ignores a second lift that comes too soon', () => {
    const guard = guardPress({ lastLift: Number.NEGATIVE_INFINITY });
    guard.down(1, true);
    expect(guard.lift(1, true, 1000)).toBe(true);
    guard.down(1, true);
    expect(guard.lift(1, true, 1000 + BOUNCE_MS - 1)).toBe(false);
    guard.down(1, true);
    expect(guard.lift(1, true, 1000 + BOUNCE_MS)).toBe(true);
  });

  test('figure keys take the two ones of 11.5', () => {
    const guard = guardPress({ lastLift: Number.NEGATIVE_INFINITY }, FIGURE_BOUNCE_MS);
    guard.down(1, true);
    expect(guard.lift(1, true, 1000)).toBe(true);
    guard.down(1, true);
    expect(guard.lift(1, true, 1060)).toBe(false);
    guard.down(1, true);
    expect(guard.lift(1, true, 1160)).toBe(true);
  });

  test('ignores a palm, a scroll, and a finger that came down elsewhere', () => {
    const guard = guardPress({ lastLift: Number.NEGATIVE_INFINITY });
    guard.down(2, false);
    expect(guard.lift(2, true, 1000)).toBe(false);
    guard.down(1, true);
    guard.cancel();
    expect(guard.lift(1, true, 2000)).toBe(false);
    expect(guard.lift(3, true, 3000)).toBe(false);
  });

  test('a contact wider or higher than 40 px is no fingertip, and its click does not count either', () => {
    expect(tooWide({ width: 40, height: 22 })).toBe(false);
    expect(tooWide({ width: 41, height: 22 })).toBe(true);
    expect(tooWide({ width: 22, height: 41 })).toBe(true);
    // A mouse has no geometry and reports 1: Pointer Events Level 3, `width` (from memory).
    expect(tooWide({ width: 1, height: 1 })).toBe(false);
    const guard = guardPress({ lastLift: Number.NEGATIVE_INFINITY });
    guard.down(1, false);
    expect(guard.lift(1, true, 1000)).toBe(false);
    expect(guard.click(1000 + ECHO_MS - 1)).toBe(false);
    expect(guard.click(1000 + ECHO_MS)).toBe(true);
  });

  test('the click that follows a lift does nothing, even on the control that now lies there', () => {
    const touches = { lastLift: Number.NEGATIVE_INFINITY };
    const [pressed, appeared] = [guardPress(touches), guardPress(touches)];
    pressed.down(1, true);
    expect(pressed.lift(1, true, 1000)).toBe(true);
    expect(pressed.click(1005)).toBe(false);
    expect(appeared.click(1005)).toBe(false);
  });

  test('a click without a lift is a keyboard or a helper and acts', () => {
    const guard = guardPress({ lastLift: Number.NEGATIVE_INFINITY });
    expect(guard.click(1000)).toBe(true);
    expect(guard.click(1100)).toBe(false);
    expect(guard.click(1400)).toBe(true);
  });
});
