/** Geometry of a thread, the table of threads, and the limits of size. */
import { describe, expect, test } from 'vitest';
import { readThread } from '../../src/joint/read-thread.ts';
import {
  makeThread,
  minorDiameter,
  pitchDiameter,
  rootDiameter,
  stressArea,
} from '../../src/joint/thread.ts';
import { threadLimits } from '../../src/joint/thread-limits.ts';
import { THREADS, threadsOfDiameter } from '../../src/joint/thread-table.ts';

describe('the table', () => {
  test('holds no thread twice, and every name is read back as itself', () => {
    expect(new Set(THREADS.map(({ name }) => name)).size).toBe(THREADS.length);
    expect(THREADS.length).toBeGreaterThan(150);
    for (const thread of THREADS) expect(readThread(thread.name)).toMatchObject({ ok: true, thread });
  });

  test('finds threads by diameter, in one system or both', () => {
    expect(threadsOfDiameter(0.00635).map(({ name }) => name)).toEqual([
      '1/4-20 UNC',
      '1/4-28 UNF',
      '1/4-32 UNEF',
    ]);
    expect(threadsOfDiameter(0.008, 'metric')).toHaveLength(3);
    expect(threadsOfDiameter(0.008, 'inch')).toEqual([]);
  });
});

describe('every thread', () => {
  test.each(THREADS.map((thread) => [thread.name, thread] as const))(
    '%s is a possible thing',
    (_, thread) => {
      const { diameter, pitch } = thread;
      expect(makeThread(diameter, pitch, thread.system)).toMatchObject({ diameter, pitch, series: 'given' });
      expect(pitchDiameter(thread)).toBeLessThan(diameter);
      expect(minorDiameter(thread)).toBeLessThan(pitchDiameter(thread));
      expect(rootDiameter(thread)).toBeLessThan(minorDiameter(thread));
      const mean = (pitchDiameter(thread) + rootDiameter(thread)) / 2;
      // ISO defines the area by this mean; the inch formula gives up to 2.1 % less.
      const share = stressArea(thread) / ((Math.PI / 4) * mean ** 2);
      expect(Math.abs(share - 1)).toBeLessThan(thread.system === 'metric' ? 1e-4 : 0.021);
      const l = threadLimits(thread);
      const rising = [
        rootDiameter(thread) - l.allowance,
        l.pitchMinExternal,
        l.pitchMaxExternal,
        l.pitchMinInternal,
        l.pitchMaxInternal,
      ];
      expect(rising).toEqual([...rising].sort((a, b) => a - b));
      expect(l.majorMinExternal).toBeLessThan(l.majorMaxExternal);
      expect(l.minorMaxInternal).toBeGreaterThan(l.minorMinInternal);
      // External and internal thread still overlap at the worst, or there would be nothing to shear.
      expect(l.minorMaxInternal).toBeLessThan(l.majorMinExternal);
    },
  );
});

describe('a thread from diameter and pitch', () => {
  test('names itself in its system', () => {
    expect(makeThread(0.0125, 0.001).name).toBe('M12.5 × 1');
    expect(makeThread(0.0254, 0.0254 / 10, 'inch').name).toBe('1 in × 10 threads an inch');
  });

  test.each([
    [0, 0.001, /diameter must be from 0.001 to 0.1, got 0/],
    [-0.006, 0.001, /diameter/],
    [Number.NaN, 0.001, /diameter/],
    [0.006, 0, /pitch must be from .* got 0/],
    [0.006, -0.001, /pitch/],
    [0.006, Number.NaN, /pitch/],
    [0.006, 0.0021, /pitch/],
    [0.006, 0.00009, /pitch/],
  ])('%d × %d throws', (diameter, pitch, message) => {
    expect(() => makeThread(diameter, pitch)).toThrow(RangeError);
    expect(() => makeThread(diameter, pitch)).toThrow(message);
  });
});
