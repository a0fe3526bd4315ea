/** What is worked out ahead or given up early says the same as the long way round. */
import { describe, expect, it } from 'vitest';
import { drawNormal, openStream, type Stream } from '../../src/numbers/random.ts';
import { readKey } from '../../src/reading/key.ts';
import { offeredKeys } from '../../src/reading/offers.ts';
import { POINT_KINDS, stateWords } from '../../src/reading/show.ts';
import { pointsIn, WARMED_STATES } from '../../src/verdict/engine-states.ts';
import { UNKNOWNS } from '../../src/verdict/latent.ts';
import { type Fit, levelSlopes } from '../../src/verdict/line.ts';
import { openProjector } from '../../src/verdict/projection.ts';
import { added, roughWeight } from '../../src/verdict/rough-weight.ts';
import { predict, type Row, weigh } from '../../src/verdict/weigh.ts';

function lineOf(stream: Stream): Fit {
  const slope = levelSlopes();
  const places: number[] = [];
  for (let k = 0; k < UNKNOWNS; k++) {
    if (stream() < 0.4) continue;
    slope[k] = drawNormal(stream);
    places.push(k);
  }
  return { middle: 10 + drawNormal(stream), slope, places, residual: 0.02 + 0.1 * stream(), open: 0 };
}

function rowsOf(stream: Stream, count: number): Row[] {
  const z = Array.from({ length: UNKNOWNS }, () => drawNormal(stream));
  return Array.from({ length: count }, (_, n) => {
    const fit = lineOf(stream);
    const value = fit.places.reduce((sum, k) => sum + fit.slope[k]! * z[k]!, fit.middle);
    // One in seven lies so far off that it is set aside.
    const away = n % 7 === 6 ? 400 : Math.sqrt(fit.residual) * drawNormal(stream);
    return {
      value: value + away,
      fit,
      scatter: fit.residual,
      mistakes: [],
      slip: 0.03,
      anything: 0.01,
      mark: n,
    };
  });
}

describe('projection', () => {
  it('foretells a further reading as solving for it anew does', () => {
    const stream = openStream(11);
    const projector = openProjector();
    const [once, again] = [new Float64Array(2), new Float64Array(2)];
    // Kept between lists of other lengths: nothing of the last list may be left.
    for (const counts of [[5, 22, 0], [1], [30, 3]]) {
      const given = counts.map((count) => weigh(rowsOf(stream, count)).given);
      projector.over(given);
      for (let n = 0; n < 20; n++) {
        const fit = lineOf(stream);
        given.forEach((each, h) => {
          predict(each, fit, once);
          projector.predict(h, fit, again);
          expect(again[0]).toBeCloseTo(once[0]!, 8);
          expect(again[1]).toBeCloseTo(once[1]!, 8);
        });
      }
    }
  });
});

describe('the rough weight', () => {
  it('is given up only where it ends under what was asked, and then names a bound', () => {
    const stream = openStream(12);
    let given = 0;
    for (let n = 0; n < 40; n++) {
      const rows = rowsOf(stream, 20);
      const whole = roughWeight(rows);
      const rest = new Float64Array(21);
      for (let k = 19; k >= 0; k--) rest[k] = rest[k + 1]! + added[k]! + 0.3;
      expect(roughWeight(rows, rest, whole - 1)).toBe(whole);
      const bound = roughWeight(rows, rest, whole + 2);
      if (bound === whole) continue;
      given++;
      expect(bound).toBeGreaterThanOrEqual(whole);
      expect(bound).toBeLessThan(whole + 2);
    }
    expect(given).toBe(40);
  });

  it('adds up what each row added', () => {
    const rows = rowsOf(openStream(13), 20);
    const whole = roughWeight(rows);
    expect(added.subarray(0, 20).reduce((sum, each) => sum + each, 0)).toBeCloseTo(whole, 9);
  });
});

it('every engine state that a reading can be offered in is worked out ahead', () => {
  for (const senses of ['output', 'wire'] as const)
    for (const text of offeredKeys({ phases: 3, senses, flooded: true })) {
      const key = readKey(text)!;
      if (!POINT_KINDS.has(key.kind)) continue;
      const words = stateWords(key);
      expect(WARMED_STATES).toContain(words);
      // As it is, and with the harness moved: such a reading may have been taken in any of these states instead.
      const points = pointsIn(words);
      expect(points.map((point) => point.words)).toEqual([words, words]);
      expect(points.map((point) => point.key.state.wiggle)).toEqual(['False', 'True']);
    }
});
