/** Readings over a turn of the chain: cover, tight spot, odd readings, and what to set. */
import { describe, expect, it } from 'vitest';
import { coverOf, missedShare, repeatPitches, sprocketRepeat, stepNeeded } from '../../src/drive/cover.ts';
import { coldRecord, settingFor } from '../../src/drive/setting.ts';
import { excessFromSlack } from '../../src/drive/slack.ts';
import { type SlackReading, surveySlack } from '../../src/drive/tight-spot.ts';
import { drawNormal, openStream } from '../../src/numbers/random.ts';

const LOOP = { teeth: [24, 36] as const, links: 82 };

function evenly(slacks: readonly number[], step: number): readonly SlackReading[] {
  return slacks.map((mm, i) => ({ slack: mm / 1000, turned: i * step }));
}

describe('cover', () => {
  it('knows when sprockets, chain and pattern have been round', () => {
    expect(repeatPitches(LOOP)).toBe(2952);
    expect(sprocketRepeat(LOOP.teeth)).toBe(72);
    const places = (count: number, step: number) => Array.from({ length: count }, (_, i) => i * step);
    expect(coverOf(places(4, 20.5), LOOP)).toMatchObject({
      loop: true,
      sprockets: [true, true],
      stepFineEnough: false,
    });
    expect(coverOf(places(8, 3), LOOP)).toMatchObject({
      loop: false,
      sprockets: [true, false],
      stepFineEnough: true,
    });
    expect(coverOf(places(12, 3), LOOP)).toMatchObject({ loop: false, sprockets: [true, true] });
    // 27 steps of 3 end at 78: four pitches short, more than a step. One more and it is round.
    expect(coverOf(places(27, 3), LOOP).loop).toBe(false);
    expect(coverOf(places(28, 3), LOOP)).toMatchObject({ loop: true, pattern: false });
    expect(coverOf(places(984, 3), LOOP).pattern).toBe(true);
    expect(coverOf([0, 0, 0], LOOP)).toMatchObject({ loop: false, stepFineEnough: false });
  });

  it('asks for a step that misses at most a share of a cosine between two readings', () => {
    for (const share of [0.05, 0.1, 0.3, 1]) {
      const step = stepNeeded(LOOP.teeth, share);
      // Tightest midway between two readings: counted on the cosine itself.
      const missed = (d: number) => 1 - Math.cos((2 * Math.PI * (d / 2)) / 24);
      expect(missed(step)).toBeLessThanOrEqual(share + 1e-9);
      expect(missed(step + 1)).toBeGreaterThan(share);
      expect(missedShare(step, 24)).toBeCloseTo(missed(step), 12);
    }
    expect(stepNeeded([6, 6], 0.01)).toBe(1);
    expect(missedShare(24, 24)).toBe(2);
  });

  it('throws for too few places, places below 0 and loops that cannot be', () => {
    expect(() => coverOf([0], LOOP)).toThrow(/places must hold at least 2 readings, got 1/);
    expect(() => coverOf([0, -3], LOOP)).toThrow(/places\[1\] must be a finite number from 0, got -3/);
    expect(() => coverOf([0, 3], { ...LOOP, links: 0 })).toThrow(/links must be a whole number from 10/);
    expect(() => stepNeeded(LOOP.teeth, 0)).toThrow(/share must be from/);
  });
});

describe('survey', () => {
  it('finds the tightest, the loosest and the mean, in any order of places', () => {
    const readings = evenly([19, 18, 17, 16, 17, 18], 3).toReversed();
    const survey = surveySlack(readings, LOOP);
    expect(survey).toMatchObject({ tightest: 2, loosest: 5, least: 0.016, most: 0.019 });
    expect(survey.mean).toBeCloseTo(0.0175, 12);
    expect(survey.says.join(' ')).toMatch(/cover 18 of 82 pitches: turn the chain on/);
  });

  it('warns that a coarse turn may hide a tighter place, by no more than was seen to swing', () => {
    const survey = surveySlack(evenly([19, 18, 17.5, 16], 20.5), LOOP);
    expect(survey.mayBeTighter).toBeGreaterThan(0.0025);
    expect(survey.mayBeTighter).toBeLessThanOrEqual(0.003);
    expect(survey.says.join(' ')).toMatch(/20\.5 pitches apart.*Read every 3 pitches/);
    expect(surveySlack(evenly(new Array(28).fill(19), 3), LOOP).mayBeTighter).toBe(0);
  });

  it('says what is not known: one reading, no places, no drive, a taut chain', () => {
    expect(surveySlack([{ slack: 0.019 }], LOOP).says.join(' ')).toMatch(/One reading is not a turn/);
    const unplaced = surveySlack([{ slack: 0.019 }, { slack: 0.018 }], LOOP);
    expect(unplaced).toMatchObject({ cover: null, mayBeTighter: null });
    expect(unplaced.says.join(' ')).toMatch(/Where the readings were taken is not recorded/);
    expect(surveySlack(evenly([19, 18], 3)).says.join(' ')).toMatch(/Teeth and links are not recorded/);
    expect(surveySlack(evenly([19, 0], 3), LOOP).says.join(' ')).toMatch(/taut at its tightest/);
    expect(() => surveySlack([])).toThrow(/readings must hold at least 1 reading, got 0/);
    expect(() => surveySlack([{ slack: -0.001 }])).toThrow(
      /readings\[0\]\.slack must be a finite number from 0/,
    );
    expect(() => surveySlack([{ slack: 0.01, turned: Number.NaN }])).toThrow(/readings\[0\]\.turned must/);
  });

  it('asks to take an odd reading again, and keeps it', () => {
    const slacks = Array.from({ length: 28 }, (_, i) => 19 + 1.5 * Math.cos((2 * Math.PI * i * 3) / 24));
    expect(surveySlack(evenly(slacks, 3), LOOP).odd).toEqual([]);
    const slipped = evenly(slacks.with(10, slacks[10]! - 6), 3);
    const survey = surveySlack(slipped, LOOP);
    expect(survey.odd.map(({ index }) => index)).toEqual([10]);
    expect(survey.odd[0]!.expected * 1000).toBeCloseTo(slacks[10]!, 0);
    expect(survey.odd[0]!.why).toMatch(/^Reading 11, .* take it again at the same place/);
    expect(survey.tightest).toBe(10);
    // Places unknown: held against all the others.
    const loose = [18, 19, 18.5, 30, 19.5, 18, 19].map((mm) => ({ slack: mm / 1000 }));
    expect(surveySlack(loose).odd.map(({ index }) => index)).toEqual([3]);
  });

  it('calls few sound turns odd and finds most slips of 7 mm (drawn turns, 0.4 mm of reading scatter)', () => {
    const stream = openStream(7);
    const rate = { falsely: 0, found: 0 };
    const RUNS = 400;
    for (let run = 0; run < RUNS; run++) {
      const [a, b, p, q] = [0.5 + 1.5 * stream(), 0.5 + 1.5 * stream(), 6.28 * stream(), 6.28 * stream()];
      const turn = () =>
        Array.from({ length: 28 }, (_, i) => {
          const angle = 2 * Math.PI * i * 3;
          return 19 + a * Math.cos(angle / 24 + p) + b * Math.cos(angle / 36 + q) + 0.4 * drawNormal(stream);
        });
      if (surveySlack(evenly(turn(), 3), LOOP).odd.length > 0) rate.falsely += 1;
      const slacks = turn();
      const at = 1 + Math.floor(26 * stream());
      const odd = surveySlack(evenly(slacks.with(at, slacks[at]! - 7), 3), LOOP).odd;
      if (odd.some(({ index }) => index === at)) rate.found += 1;
    }
    expect(rate.falsely / RUNS).toBeLessThan(0.03);
    expect(rate.found / RUNS).toBeGreaterThan(0.97);
  });
});

describe('what to set', () => {
  const book = { low: 0.015875, high: 0.022225 };
  const readings = evenly([21, 19, 18], 3);

  it.each([
    [-8, 'tight'],
    [0, 'within'],
    [-2, 'on-limit'],
    [4.3, 'on-limit'],
    [6, 'loose'],
  ])('tight spot moved by %d mm: %s', (by, state) => {
    const moved = readings.map(({ slack }) => ({ slack: slack + by / 1000 }));
    expect(settingFor({ readings: moved, book, span: 0.33 }).state).toBe(state);
  });

  it('carries the aim to the place where the chain stands by loop excess', () => {
    const setting = settingFor({ readings, book, span: 0.33, here: 0 });
    expect(setting.aim).toBeCloseTo(0.01905, 12);
    const excess = (slack: number) => excessFromSlack(slack, 0.33);
    expect(excess(setting.aimHere) - excess(setting.aim)).toBeCloseTo(excess(0.021) - excess(0.018), 14);
    expect(setting.takeUp).toBeCloseTo(excess(0.018) - excess(0.01905), 14);
    expect(setting.loosestAfter).toBeCloseTo(setting.aimHere, 12);
    expect(setting.rangeHere.low).toBeGreaterThan(book.low);
    const there = settingFor({ readings, book, span: 0.33 });
    expect(there.aimHere).toBeCloseTo(there.aim, 12);
    expect(there.rangeHere.high).toBeCloseTo(book.high, 12);
  });

  it('throws for a book upside down and a place that is not in the list', () => {
    expect(() => settingFor({ readings, book: { low: 0.02, high: 0.01 }, span: 0.33 })).toThrow(
      /book\.low must not/,
    );
    expect(() => settingFor({ readings, book, span: 0.33, here: 3 })).toThrow(
      /here must be from 0 to 2, got 3/,
    );
    expect(() => settingFor({ readings, book, span: 0.05 })).toThrow(/quarter of the span/);
  });

  it('counts a slack only with a recorded, cold case', () => {
    expect(coldRecord(undefined, 295).state).toBe('not-recorded');
    expect(coldRecord(298, 295)).toMatchObject({ state: 'cold', rise: 3 });
    expect(coldRecord(355, 295)).toMatchObject({ state: 'warm', says: expect.stringMatching(/60 K hotter/) });
    expect(() => coldRecord(-3, 295)).toThrow(/caseKelvin must be a finite number above 0, got -3/);
  });
});
