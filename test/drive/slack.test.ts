/** Slack against centre distance, shoe, heat and wear: inverses, edges, refusals. */
import { describe, expect, it } from 'vitest';
import { type Drive, freeSpan, tangentLength } from '../../src/drive/chain.ts';
import { coldSlackFor, heatLoss, riseUntilTaut, slackWhenCold, slackWhenHot } from '../../src/drive/heat.ts';
import { excessHeld, offsetFromTravel, shoeTravel, slackAfterTravel } from '../../src/drive/shoe.ts';
import {
  centreForSlack,
  eccentricityFromSwing,
  excessFromSlack,
  slackAtCentre,
  slackFromExcess,
  slackOfChain,
  slackSwing,
  spanFromSlack,
} from '../../src/drive/slack.ts';
import { excessFromWear, judgeWear, lengthAtWear, wearFromLength } from '../../src/drive/wear.ts';

const FINAL: Drive = { pitch: 0.015875, teeth: [17, 51], centre: 0.6 };
const SPAN = 0.33;

describe('slack', () => {
  it('goes back and forth between slack, excess and span', () => {
    for (const slack of [0.001, 0.019, 0.08]) {
      const excess = excessFromSlack(slack, SPAN);
      expect(slackFromExcess(excess, SPAN)).toBeCloseTo(slack, 14);
      expect(spanFromSlack(slack, excess)).toBeCloseTo(SPAN, 12);
    }
    expect(excessFromSlack(0, SPAN)).toBe(0);
    expect(slackFromExcess(0, SPAN)).toBe(0);
  });

  it('keeps the chain as long as it is when the shafts move', () => {
    const moved = centreForSlack(FINAL, 0.045, 0.03);
    if (!moved.ok) throw new Error(moved.why);
    const loop = (drive: Drive, slack: number) =>
      tangentLength(drive) * drive.pitch + slack ** 2 / (2 * freeSpan(drive));
    const after = { ...FINAL, centre: moved.centre };
    expect(loop(after, 0.03)).toBeCloseTo(loop(FINAL, 0.045), 12);
    expect(moved.move).toBeGreaterThan(0);
    // Each millimetre of axle takes about two of loop.
    expect((excessFromSlack(0.045, 0.59) - excessFromSlack(0.03, 0.59)) / moved.move).toBeCloseTo(2, 1);
    const back = slackAtCentre(FINAL, 0.045, moved.centre);
    expect(back.ok && back.slack).toBeCloseTo(0.03, 9);
    const same = centreForSlack(FINAL, 0.03, 0.03);
    expect(same.ok && Math.abs(same.move)).toBeLessThan(1e-12);
  });

  it('says when a chain does not reach, hangs too far, or a wish is out of reach', () => {
    expect(slackOfChain(FINAL, 110)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/5\.82 mm .*too short/),
    });
    expect(slackOfChain(FINAL, 114)).toMatchObject({ ok: false, why: expect.stringMatching(/quarter/) });
    const fits = slackOfChain(FINAL, 111);
    expect(fits.ok && fits.excess).toBeCloseTo((111 - tangentLength(FINAL)) * 0.015875, 12);
    expect(slackAtCentre(FINAL, 0.03, 0.61)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/too short/),
    });
    expect(centreForSlack(FINAL, 0.03, 0.3)).toMatchObject({ ok: false });
  });

  it('finds the eccentricity behind a swing, and stops at taut', () => {
    const swing = slackSwing(0.019, SPAN, [0.00005, 0.00003]);
    expect(eccentricityFromSwing(swing, SPAN)).toBeCloseTo(0.00008, 12);
    expect(slackSwing(0.005, SPAN, [0.001]).low).toBe(0);
    expect(slackSwing(0.019, SPAN, [])).toEqual({
      low: expect.closeTo(0.019, 12),
      high: expect.closeTo(0.019, 12),
    });
  });

  it.each([
    [() => excessFromSlack(-0.001, SPAN), /slack must be a finite number from 0, got -0\.001/],
    [() => excessFromSlack(0.1, SPAN), /slack must be at most a quarter of the span, 0\.0825 m, got 0\.1/],
    [() => excessFromSlack(0.01, 0), /span must be a finite number above 0, got 0/],
    [() => slackFromExcess(-1, SPAN), /excess must be a finite number from 0, got -1/],
    [() => slackSwing(0.019, SPAN, [-1]), /eccentricities\[0\] must/],
    [() => eccentricityFromSwing({ low: 0.02, high: 0.01 }, SPAN), /swing\.low must not be above/],
    [() => slackOfChain(FINAL, 110.5), /links must be a whole number/],
    [() => centreForSlack({ ...FINAL, centre: 0.1 }, 0.03, 0.02), /overlap/],
  ])('throws for input that cannot be (%#)', (call, rule) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(rule);
  });
});

describe('shoe', () => {
  it('comes back to the slack it left, at mid-span and off it, in and out', () => {
    for (const at of [SPAN / 2, SPAN / 3]) {
      for (const [now, wanted] of [
        [0.0222, 0.0159],
        [0.0159, 0.0222],
      ] as const) {
        const shoe = { offset: 0.012, span: SPAN, at };
        const moved = shoeTravel(shoe, now, wanted);
        if (!moved.ok) throw new Error(moved.why);
        expect(Math.sign(moved.travel)).toBe(Math.sign(now - wanted));
        const after = slackAfterTravel(shoe, now, moved.travel);
        expect(after.ok && after.slack).toBeCloseTo(wanted, 12);
      }
    }
  });

  it('takes what two slanted lengths take, to 2 % at mid-span (3.3 % at a third) pushed out by a seventh', () => {
    for (const at of [SPAN / 2, SPAN / 3]) {
      const offset = SPAN / 7;
      const drawn = Math.hypot(at, offset) + Math.hypot(SPAN - at, offset) - SPAN;
      expect(Math.abs(excessHeld({ offset, span: SPAN, at }) / drawn - 1)).toBeLessThan(
        at === SPAN / 2 ? 0.021 : 0.034,
      );
    }
  });

  it('tells its own offset from one travel and two slacks', () => {
    const moved = shoeTravel({ offset: 0.015, span: SPAN }, 0.0222, 0.0159);
    if (!moved.ok) throw new Error(moved.why);
    expect(offsetFromTravel(SPAN, 0.0222, 0.0159, moved.travel)).toBeCloseTo(0.015, 9);
    expect(offsetFromTravel(SPAN, 0.0222, 0.0159, 0.02)).toBeNull();
  });

  it('refuses travel that is not there, behind the chain, or past taut', () => {
    const shoe = { offset: 0.01, span: SPAN };
    expect(shoeTravel({ ...shoe, left: 0.002 }, 0.0222, 0.0159)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/travel 2\.6\d mm .* has 2 mm .* left/),
    });
    expect(shoeTravel({ ...shoe, offset: 0.001 }, 0.01, 0.022)).toMatchObject({ ok: false });
    expect(slackAfterTravel(shoe, 0.0222, -0.011)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/back off/),
    });
    expect(slackAfterTravel(shoe, 0.0222, 0.02)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/taut after/),
    });
    expect(() => shoeTravel({ offset: -0.01, span: SPAN }, 0.02, 0.01)).toThrow(/shoe\.offset must/);
    expect(() => shoeTravel({ ...shoe, at: 0.4 }, 0.02, 0.01)).toThrow(/shoe\.at must be inside the span/);
    expect(() => slackAfterTravel(shoe, 0.02, Number.NaN)).toThrow(/travel must be a finite number, got NaN/);
  });
});

describe('heat', () => {
  const heat = { centre: SPAN, span: SPAN, caseRise: 60 };

  it('brackets: what was set cold, read hot, comes back within the interval', () => {
    const hot = slackWhenHot(0.02, heat).slack;
    expect(slackWhenCold(hot.low, heat).slack.high).toBeCloseTo(0.02, 12);
    expect(slackWhenCold(hot.high, heat).slack.low).toBeCloseTo(0.02, 12);
    const cold = coldSlackFor(0.01, heat);
    expect(slackWhenHot(cold.high, heat).slack.low).toBeCloseTo(0.01, 12);
  });

  it('finds the rise at which the loss has eaten the slack', () => {
    const found = riseUntilTaut(0.015875, { centre: SPAN, span: SPAN });
    if (!found.ok) throw new Error(found.why);
    const excess = excessFromSlack(0.015875, SPAN);
    expect(heatLoss({ ...heat, caseRise: found.rise.low }).high).toBeCloseTo(excess, 12);
    expect(heatLoss({ ...heat, caseRise: found.rise.high }).low).toBeCloseTo(excess, 12);
    const iron = riseUntilTaut(0.015875, {
      centre: SPAN,
      span: SPAN,
      caseExpansion: { low: 10e-6, high: 12e-6 },
    });
    expect(iron.ok).toBe(false);
  });

  it('says nothing changes with no rise, and carries its assumptions', () => {
    expect(heatLoss({ ...heat, caseRise: 0 })).toEqual({ low: 0, high: 0 });
    expect(slackWhenHot(0.02, { ...heat, caseRise: 0 }).slack.low).toBeCloseTo(0.02, 12);
    const advice = slackWhenHot(0.015875, heat);
    expect(advice.mayBeTaut).toBe(true);
    expect(advice.slack.low).toBe(0);
    expect(advice.says).toMatch(/may have no slack left/);
    expect(advice.assumptions.join(' ')).toMatch(/0–20 K hotter.*the book wins/s);
  });

  it.each([
    [{ ...heat, centre: 0 }, /centre must/],
    [{ ...heat, span: 0.4 }, /span must not be above the centre distance/],
    [{ ...heat, caseRise: -5 }, /caseRise must be from 0 to 250, got -5/],
    [{ ...heat, chainHotter: { low: 20, high: 0 } }, /chainHotter\.low must not be above/],
    [{ ...heat, caseExpansion: { low: 23, high: 24 } }, /caseExpansion\.low must be from 0\.000001/],
  ])('throws for input that cannot be (%#)', (bad, rule) => {
    expect(() => slackWhenHot(0.02, bad)).toThrow(RangeError);
    expect(() => slackWhenHot(0.02, bad)).toThrow(rule);
  });
});

describe('wear', () => {
  it('comes back from the length, with the error of measuring', () => {
    const found = wearFromLength({
      pitch: 0.0127,
      pitches: 12,
      length: lengthAtWear(0.0127, 12, 0.021),
      error: 0.0005,
    });
    if (!found.ok) throw new Error(found.why);
    expect(found.wear).toBeCloseTo(0.021, 12);
    expect(found.interval.high - found.wear).toBeCloseTo(0.0005 / 0.1524, 12);
    expect(excessFromWear(0.0127, 82, 0.01)).toBeCloseTo(0.010414, 12);
  });

  it.each([
    [0.1526, 0, 'good'],
    [0.1543, 0, 'near'],
    [0.1545, 0.0005, 'unsure'],
    [0.155, 0, 'worn'],
  ])('%d m over twelve pitches, ±%d m: %s', (length, error, state) => {
    const verdict = judgeWear({ pitch: 0.0127, pitches: 12, length, error }, [24, 36], false);
    expect(verdict).toMatchObject({ ok: true, state, limit: 0.015 });
  });

  it('asks to count again when the length fits another count', () => {
    const one = { pitch: 0.0127, pitches: 12 };
    const wrong = wearFromLength({ ...one, length: 0.1656 });
    expect(wrong).toMatchObject({
      ok: false,
      why: expect.stringMatching(/It would fit 13 pitches: count again/),
    });
    const short = wearFromLength({ ...one, length: 0.1403 });
    expect(short).toMatchObject({ ok: false, why: expect.stringMatching(/It would fit 11 pitches/) });
    expect(wearFromLength({ ...one, length: 0.1519 }).ok).toBe(true);
    expect(() => wearFromLength({ ...one, length: -1 })).toThrow(
      /length must be a finite number above 0, got -1/,
    );
    expect(() => wearFromLength({ ...one, pitches: 0, length: 1 })).toThrow(/pitches must be a whole number/);
  });
});
