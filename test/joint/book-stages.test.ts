/** The book's stages as settings, and the load at a lock bar. */
import { describe, expect, test } from 'vitest';
import { bookStages, evenStages } from '../../src/joint/book-stages.ts';
import { gearRadius, loadAtRadius, sprocketRadius, toothLoad } from '../../src/joint/lock-bar.ts';

describe("the book's stages", () => {
  test('each with its setting, its share and its place in the range', () => {
    const stages = bookStages({ torques: [5, 10, 14], factor: 1.4, fullScale: 20 });
    expect(stages.map(({ set }) => Number(set.toFixed(3)))).toEqual([3.571, 7.143, 10]);
    expect(stages.map(({ step }) => step)).toEqual(['first', 'rises', 'rises']);
    expect(stages[0]!.range).toMatchObject({ ok: false });
    expect(stages[2]!).toMatchObject({ share: 1, range: { ok: true, place: 'best' } });
  });

  test('a fall and a repeat are told, not refused; the same torque in two units is a repeat', () => {
    expect(bookStages({ torques: [5, 14, 10, 10.001] }).map(({ step }) => step)).toEqual([
      'first',
      'rises',
      'falls',
      'repeats',
    ]);
  });

  test('marks where there is a scale, and none off it', () => {
    const scale = { unit: 'N·m', low: 4, high: 20, step: 1 } as const;
    const [low, high] = bookStages({ torques: [2, 10.4], scale });
    expect(low!.mark).toBeNull();
    expect(high!.mark).toMatchObject({ figure: 10 });
  });

  test('even parts of the last', () => {
    expect(evenStages(12, 3)).toEqual([4, 8, 12]);
    expect(() => evenStages(12, 2.5)).toThrow('count must be a whole number');
    expect(() => evenStages(12, 11)).toThrow('count');
    expect(() => bookStages({ torques: [] })).toThrow('at least 1 stage');
    expect(() => bookStages({ torques: [5, -1] })).toThrow('torques[1]');
  });
});

describe('a locked wheel', () => {
  // Computed: 225 N·m on 24 teeth of 12.7 mm is 4.62 kN.
  test('a sprocket', () => {
    expect(sprocketRadius(24, 0.0127)).toBeCloseTo(0.04865, 5);
    expect(toothLoad(225, 24, 0.0127) / 1000).toBeCloseTo(4.625, 2);
  });

  // ISO 53, from memory: the tip stands one module above the pitch circle.
  test('a gear of module 3 with 24 teeth', () => {
    expect(gearRadius(24, 0.078)).toBeCloseTo(0.036, 12);
    expect(loadAtRadius(36, 0.036)).toBeCloseTo(1000, 9);
  });

  test.each([
    [() => gearRadius(5, 0.078), 'teeth'],
    [() => gearRadius(24.5, 0.078), 'whole number'],
    [() => gearRadius(24, 0), 'outside'],
    [() => loadAtRadius(0, 1), 'torque'],
    [() => loadAtRadius(1, 0), 'radius'],
  ])('what cannot be throws: %s', (run, words) => expect(run).toThrow(words));
});
