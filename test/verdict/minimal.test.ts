import { describe, expect, it } from 'vitest';
import { minimalSets } from '../../src/verdict/minimal-sets.ts';
import { stream } from './random-model.ts';

describe('minimal fault sets', () => {
  it('finds the minimal hitting sets of random conflicts, as trying all subsets does', () => {
    const random = stream(29);
    for (let trial = 0; trial < 60; trial++) {
      const conflicts = Array.from({ length: 3 }, () => 1 + Math.floor(random() * 127));
      const hits = (mask: number) => conflicts.every((conflict) => (conflict & mask) !== 0);
      const all = Array.from({ length: 128 }, (_, mask) => mask).filter(hits);
      const minimal = all.filter((mask) => !all.some((other) => other !== mask && (other & mask) === other));
      const asked = new Set<number>();
      const found = minimalSets(7, (set) => {
        const mask = set.reduce((m, i) => m | (1 << i), 0);
        expect(asked.has(mask)).toBe(false);
        asked.add(mask);
        return hits(mask);
      });
      const masks = found.map((set) => set.reduce((m, i) => m | (1 << i), 0));
      expect(new Set(masks)).toEqual(new Set(minimal));
    }
  });

  it('needs no fault where none is consistent, and finds none beyond the size it may look at', () => {
    expect(minimalSets(4, () => true)).toEqual([[]]);
    expect(minimalSets(5, (set) => set.length === 4)).toEqual([]);
    expect(minimalSets(5, (set) => set.length === 4, 4)).toHaveLength(5);
    expect(minimalSets(0, () => false)).toEqual([]);
    expect(() => minimalSets(-1, () => true)).toThrow(RangeError);
    expect(() => minimalSets(3, () => true, 9)).toThrow(/maxSize/);
  });
});
