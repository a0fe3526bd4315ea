/**
 * Chains and shims against the world outside: the standards' tables, check values computed by hand from the stated
 * formula, a chain laid link by link on the sprockets' polygons, and shim choice against plain enumeration.
 */
import { describe, expect, it } from 'vitest';
import {
  centreDistance,
  type Drive,
  freeSpan,
  leastCentre,
  pitchDiameter,
  type Teeth,
  tangentLength,
  usualLength,
} from '../../src/drive/chain.ts';
import { chooseShims, type ShimSize } from '../../src/drive/choose-shims.ts';
import { repeatPitches } from '../../src/drive/cover.ts';
import { heatLoss, slackWhenCold, slackWhenHot } from '../../src/drive/heat.ts';
import { polygonEffect } from '../../src/drive/polygon.ts';
import { settingFor } from '../../src/drive/setting.ts';
import { shimForAlignment, shimForEndPlay } from '../../src/drive/shim.ts';
import { shoeTravel } from '../../src/drive/shoe.ts';
import { excessFromSlack, slackSwing } from '../../src/drive/slack.ts';
import { stackUp } from '../../src/drive/stack-up.ts';
import { chainNamed, STANDARD_CHAINS } from '../../src/drive/standard.ts';
import { lengthAtWear, wearLimit } from '../../src/drive/wear.ts';
import { openStream } from '../../src/numbers/random.ts';
import { everyStack } from '../drive/every-stack.ts';
import { laidOverAPitch } from '../drive/laid-chain.ts';

const INCH = 0.0254;
const THOU = INCH / 1000;
const mm = (metres: number) => metres * 1000;

function within(value: number, printed: number, decimals: number): void {
  expect(Math.abs(value - printed)).toBeLessThanOrEqual(0.5 * 10 ** -decimals * (1 + 1e-9));
}

describe('chain length', () => {
  // Source: computed from the formula given (tangent lines; the usual approximation of handbooks, no source named).
  it.each([
    [12.7, 24, 36, 330, 82.1089, 82.1089],
    [9.525, 25, 62, 250, 97.3203, 97.3146],
    [15.875, 17, 51, 600, 110.3666, 110.3653],
  ] as const)('%d mm, %d/%d teeth, %d mm apart', (pitch, z1, z2, c, tangent, usual) => {
    const drive: Drive = { pitch: pitch / 1000, teeth: [z1, z2], centre: c / 1000 };
    within(tangentLength(drive), tangent, 4);
    within(usualLength(drive), usual, 4);
    within(tangentLength({ ...drive, teeth: [z2, z1] }), tangent, 4);
    const back = centreDistance(drive.pitch, drive.teeth, tangentLength(drive));
    expect(back.ok && back.centre).toBeCloseTo(c / 1000, 12);
  });

  it('has PD = p/sin(π/z) (ANSI B29.1, ISO 606): the ring of rollers is a polygon with sides of one pitch', () => {
    for (const teeth of [6, 11, 24, 36, 100]) {
      const radius = pitchDiameter(0.0127, teeth) / 2;
      const chord = Math.hypot(
        radius * (1 - Math.cos((2 * Math.PI) / teeth)),
        radius * Math.sin((2 * Math.PI) / teeth),
      );
      expect(chord).toBeCloseTo(0.0127, 14);
    }
  });
});

describe('chain length against a chain laid link by link', () => {
  // Source: computed here, rollers on the corners of both sprockets' polygons, taut.
  it.each([
    [0.0127, [24, 36], 0.33],
    [0.009525, [25, 62], 0.25],
    [0.015875, [17, 51], 0.6],
    [0.0127, [20, 20], 0.2],
    [0.01905, [13, 40], 0.45],
  ] as const)('%d m, %j teeth, %d m apart', (pitch, teeth, centre) => {
    const drive: Drive = { pitch, teeth, centre };
    const { mean, swing } = laidOverAPitch(drive);
    expect(Math.abs(mean - tangentLength(drive))).toBeLessThan(0.00005);
    expect(swing).toBeLessThan(0.006);
  });

  it('gives the centre distance at which a laid chain of 82 and of 110 links is taut', () => {
    for (const [pitch, teeth, links] of [
      [0.0127, [24, 36], 82],
      [0.015875, [17, 51], 110],
    ] as const) {
      const solved = centreDistance(pitch, teeth as Teeth, links);
      if (!solved.ok) throw new Error(solved.why);
      const { mean } = laidOverAPitch({ pitch, teeth: teeth as Teeth, centre: solved.centre });
      expect(Math.abs(mean - links)).toBeLessThan(0.00005);
    }
  });

  it('agrees with a belt path added up in small steps round the pitch circles, rollers a pitch apart', () => {
    // Integrated: support function of the path, h(θ) = max over both sprockets, perimeter = ∫h dθ; each sprocket's mean
    // reach is z·p/2π, since a turn of it takes z pitches.
    const drive: Drive = { pitch: 0.0127, teeth: [24, 36], centre: 0.33 };
    const reach = drive.teeth.map((z) => (z * drive.pitch) / (2 * Math.PI));
    const N = 200_000;
    let sum = 0;
    for (let i = 0; i < N; i++) {
      const angle = (2 * Math.PI * (i + 0.5)) / N;
      sum += Math.max(reach[0]!, reach[1]! + drive.centre * Math.cos(angle));
    }
    expect((sum * 2 * Math.PI) / N / drive.pitch).toBeCloseTo(tangentLength(drive), 3);
  });
});

describe('standard chains', () => {
  // Source: ANSI B29.1 and ISO 606 (read in a stored copy); ISO names from memory.
  it.each([
    ['35', '06C', 9.525, 5.08, 1758, 3 / 8],
    ['40', '08A', 12.7, 7.92, 3125, 1 / 2],
    ['50', '10A', 15.875, 10.16, 4880, 5 / 8],
    ['60', '12A', 19.05, 11.91, 7030, 3 / 4],
  ] as const)('#%s', (ansi, iso, pitch, roller, lbf, inch) => {
    const found = chainNamed(`#${ansi}`);
    if (!found.ok) throw new Error(found.why);
    expect(chainNamed(iso)).toEqual(found);
    expect(mm(found.chain.pitch)).toBeCloseTo(pitch, 12);
    expect(found.chain.pitch).toBeCloseTo(inch * INCH, 12);
    expect(mm(found.chain.roller)).toBeCloseTo(roller, 12);
    expect(found.chain.tensile / 4.4482216152605).toBeCloseTo(lbf, 8);
    expect(STANDARD_CHAINS).toContain(found.chain);
  });
});

describe('slack', () => {
  // Source: computed from the formula given; span 330 mm.
  it.each([
    [15.875, 0.382],
    [19.05, 0.55],
    [22.225, 0.748],
  ])('%d mm is a loop %d mm too long', (slack, excess) => {
    within(mm(excessFromSlack(slack / 1000, 0.33)), excess, 3);
    // A V drawn exactly, up and down by half the slack: s²/4a² of itself less, 0.12 % at most here.
    const exact = 2 * Math.hypot(0.165, slack / 2000) - 0.33;
    expect(excessFromSlack(slack / 1000, 0.33) / exact - 1).toBeCloseTo((slack / 660) ** 2, 5);
  });

  it.each([
    [10, 2.67],
    [15, 1.9],
    [20, 1.46],
  ])('a shoe %d mm out travels %d mm from 7/8 to 5/8 in', (h0, travel) => {
    // Source: computed from the formula given.
    const moved = shoeTravel({ offset: h0 / 1000, span: 0.33 }, (7 / 8) * INCH, (5 / 8) * INCH);
    if (!moved.ok) throw new Error(moved.why);
    within(mm(moved.travel), travel, 2);
    // Slanted lengths drawn exactly: within 1 % of that.
    const straight = 2 * Math.hypot(0.165, h0 / 1000);
    const vee = (slack: number) => 2 * Math.hypot(0.165, slack / 2) - 0.33;
    const taken = straight + vee((7 / 8) * INCH) - vee((5 / 8) * INCH);
    const exact = Math.sqrt((taken / 2) ** 2 - 0.165 ** 2) - h0 / 1000;
    expect(Math.abs(moved.travel / exact - 1)).toBeLessThan(0.01);
  });

  // Common practice, no source: a primary chain's cold slack is 5/8–7/8 in at mid-span, at its tightest.
  it.each([
    [1 / 2, 'tight'],
    [5 / 8, 'on-limit'],
    [3 / 4, 'within'],
    [7 / 8, 'on-limit'],
    [1, 'loose'],
  ])('%d in against 5/8–7/8 in: %s', (slack, state) => {
    const book = { low: (5 / 8) * INCH, high: (7 / 8) * INCH };
    // Looser places of the turn change nothing.
    const readings = [slack + 0.2, slack, slack + 0.1].map((inches) => ({ slack: inches * INCH }));
    const setting = settingFor({ readings, book, span: 0.33 });
    expect(setting.state).toBe(state);
    expect(setting.aim).toBeCloseTo(0.75 * INCH, 12);
  });

  it('swings from 19.05 mm to 15.2–22.2 mm with a sprocket ±0.1 mm out of true (computed from the formula given)', () => {
    const swing = slackSwing(0.01905, 0.33, [0.0001]);
    within(mm(swing.low), 15.2, 1);
    within(mm(swing.high), 22.2, 1);
  });

  it('repeats after lcm(z1, z2, X) pitches', () => {
    // Turned on tooth by tooth until all three stand as at first: counted, not computed.
    for (const [teeth, links] of [
      [[24, 36], 82],
      [[25, 62], 98],
      [[17, 51], 110],
    ] as const) {
      let pitches = 1;
      while (pitches % teeth[0] || pitches % teeth[1] || pitches % links) pitches += 1;
      expect(repeatPitches({ teeth, links })).toBe(pitches);
    }
  });
});

describe('heat', () => {
  // Source: steel 11.7, cast aluminium 21.5–23 ×10⁻⁶/K (read in a stored copy); rows computed from the formula given.
  const heat = { centre: 0.33, span: 0.33, caseRise: 60 };
  const asHot = { ...heat, chainHotter: { low: 0, high: 0 } };

  it('takes 0.447 mm of loop at 330 mm and 60 K, 0.293 mm if the chain is 20 K hotter', () => {
    within(mm(heatLoss(asHot).high), 0.447, 3);
    const hotter = { ...heat, chainHotter: { low: 20, high: 20 } };
    within(mm(heatLoss(hotter).high), 0.293, 3);
    // The interval spans from the hotter chain in the least aluminium to the chain as hot as the case in the most.
    expect(heatLoss(heat).high).toBe(heatLoss(asHot).high);
    expect(mm(heatLoss(heat).low)).toBeCloseTo(660 * (21.5 * 60 - 11.7 * 80) * 1e-6, 9);
  });

  it.each([
    [5 / 8, 0],
    [3 / 4, 8.2],
    [7 / 8, 14.1],
  ])('leaves of %d in cold %d mm hot, at worst', (cold, hot) => {
    const advice = slackWhenHot(cold * INCH, heat);
    within(mm(advice.slack.low), hot, 1);
    expect(advice.mayBeTaut).toBe(hot === 0);
    expect(advice.kind).toBe('advisory');
  });

  it('turns 3/4 in set hot into 25.7 mm cold, at most', () => {
    within(mm(slackWhenCold(0.75 * INCH, heat).slack.high), 25.7, 1);
  });
});

describe('wear and polygon effect', () => {
  // Source: computed; limits 3 %, 1.5 % and 200/z % are common practice, no source.
  it.each([
    [0, 152.4],
    [0.02, 155.45],
    [0.03, 156.97],
  ])('twelve pitches of 12.7 mm worn by %d measure %d mm', (wear, length) => {
    within(mm(lengthAtWear(0.0127, 12, wear)), length, 2);
  });

  it('is 3 % at the most, 1.5 % on a fixed centre distance, 200/z % on a large sprocket', () => {
    expect(wearLimit([17, 51], true)).toBe(0.03);
    expect(wearLimit([24, 36], false)).toBe(0.015);
    expect(wearLimit([20, 80], true)).toBe(0.025);
    expect(wearLimit([20, 200], false)).toBe(0.01);
  });

  it.each([
    [16, 1.93],
    [24, 0.86],
    [36, 0.38],
  ])('%d teeth: speed swings by %d %%', (teeth, percent) => {
    // Source: computed from the formula given.
    within(polygonEffect(teeth) * 100, percent, 2);
    const half = Math.PI / teeth;
    expect(polygonEffect(teeth)).toBeCloseTo(half * (1 / Math.sin(half) - 1 / Math.tan(half)), 12);
  });
});

const SET = [10, 20, 30, 60];

function fromSet(count: number): readonly ShimSize[] {
  return SET.map((thou) => ({ thickness: thou * THOU, count }));
}

function wishOf(aim: number, tolerance: number) {
  return { low: (aim - tolerance) * THOU, high: (aim + tolerance) * THOU, target: aim * THOU };
}

describe('shims', () => {
  // Source: rows computed by enumeration, the set {10, 20, 30, 60} thou is made up.
  it.each([
    [2, 3, 90, 5, [0, 0, 1, 1], 0, false],
    [2, 3, 47, 5, [0, 1, 1, 0], 3, false],
    [2, 3, 155, 5, [0, 0, 1, 2], -5, true],
    [1, 4, 123, 3, [1, 1, 1, 1], -3, true],
  ])('%d of each, at most %d: %d±%d thou', (each, most, aim, tolerance, counts, error, onLimit) => {
    const choice = chooseShims(fromSet(each), wishOf(aim, tolerance), most);
    if (!choice.ok) throw new Error(choice.why);
    expect(choice.stack.counts).toEqual(counts);
    expect(choice.stack.error / THOU).toBeCloseTo(error, 9);
    expect(choice.onLimit).toBe(onLimit);
    expect(choice.says.includes('limit')).toBe(onLimit);
  });

  it('takes t* from the old stack and the step, and from the end play', () => {
    // Source: computed from the formula given.
    const aligned = shimForAlignment(60 * THOU, 30 * THOU, 5 * THOU);
    expect(aligned.ok && aligned.wish.target / THOU).toBeCloseTo(90, 9);
    const play = shimForEndPlay(100 * THOU, { low: 5 * THOU, high: 15 * THOU });
    if (!play.ok) throw new Error(play.why);
    expect(play.wish.low / THOU).toBeCloseTo(85, 9);
    expect(play.wish.high / THOU).toBeCloseTo(95, 9);
  });

  it('stacks .005, .003, .002, .005 to .015 at worst and .00794 by RSS (computed)', () => {
    const parts = [0.005, 0.003, 0.002, 0.005].map((tolerance) => ({ share: 1, nominal: 0, tolerance }));
    expect(stackUp(parts).worst).toBeCloseTo(0.015, 12);
    within(stackUp(parts).rss, 0.00794, 5);
  });
});

describe('shim choice against enumeration', () => {
  // Source: every stack counted through, in whole micrometres.
  it('finds the same count, error and total on 600 random stocks and wishes, 12 sizes of 4 among them', () => {
    const stream = openStream(90125);
    const whole = (low: number, high: number) => low + Math.floor(stream() * (high - low + 1));
    const seen = { fits: 0, none: 0, limit: 0 };
    for (let run = 0; run < 600; run++) {
      const many = run % 100 === 0;
      const sizes = Array.from({ length: many ? 12 : whole(0, 6) }, () => ({
        thick: whole(1, 60) * 25,
        count: many ? 4 : whole(0, 4),
      }));
      const most = many ? 6 : whole(0, 6);
      // Multiples of 25 now and then, so that stacks come to lie on the limit.
      const grid = !many && run % 2 === 0 ? 25 : 1;
      const aim = grid * whole(0, (many ? 6000 : 2500) / grid);
      const tolerance = grid * whole(0, many ? 4 : 100 / grid);
      let best: { outside: number; shims: number; off: number; total: number } | null = null;
      for (const { total, shims } of everyStack(sizes, most)) {
        const off = Math.abs(total - aim);
        const stack = { outside: Math.max(0, off - tolerance), shims, off, total };
        const order =
          best &&
          (stack.outside - best.outside ||
            stack.shims - best.shims ||
            stack.off - best.off ||
            stack.total - best.total);
        if (order === null || order < 0) best = stack;
      }
      const choice = chooseShims(
        sizes.map(({ thick, count }) => ({ thickness: thick * 1e-6, count })),
        { low: (aim - tolerance) * 1e-6, high: (aim + tolerance) * 1e-6, target: aim * 1e-6 },
        most,
      );
      const stack = choice.ok ? choice.stack : choice.nearest;
      expect(choice.ok).toBe(best!.outside === 0);
      expect(stack.shims).toBe(best!.shims);
      expect(Math.round(stack.total * 1e6)).toBe(best!.total);
      expect(stack.counts.reduce((sum, n, i) => sum + n * sizes[i]!.thick, 0)).toBe(best!.total);
      expect(stack.counts.every((n, i) => n >= 0 && n <= sizes[i]!.count)).toBe(true);
      if (choice.ok) {
        expect(choice.onLimit).toBe(tolerance > 0 && best!.off === tolerance);
        seen.fits += 1;
        if (choice.onLimit) seen.limit += 1;
      } else {
        expect(Math.round(Math.abs(choice.miss) * 1e6)).toBe(best!.outside);
        expect(Math.sign(choice.miss)).toBe(Math.sign(best!.total - aim));
        seen.none += 1;
      }
    }
    // The draw holds all kinds, or it proves little.
    expect(seen.fits).toBeGreaterThan(100);
    expect(seen.none).toBeGreaterThan(100);
    expect(seen.limit).toBeGreaterThan(5);
  });
});

describe('centre distance', () => {
  it('comes back from the length of 500 random drives to 1e-12 m', () => {
    const stream = openStream(5150);
    for (let run = 0; run < 500; run++) {
      const pitch = 0.008 + 0.012 * stream();
      const teeth: Teeth = [10 + Math.floor(30 * stream()), 10 + Math.floor(60 * stream())];
      const centre = leastCentre(pitch, teeth) * (1.001 + 4 * stream());
      const drive = { pitch, teeth, centre };
      const back = centreDistance(pitch, teeth, tangentLength(drive));
      expect(back.ok && Math.abs(back.centre - centre)).toBeLessThan(1e-12);
      expect(freeSpan(drive)).toBeLessThanOrEqual(centre);
    }
  });
});
