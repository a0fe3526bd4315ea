/** Random bikes, random readings, some of them nonsense: no crash, no NaN, no odd probability. The long form: test/soak. */
import { expect, it } from 'vitest';
import { tryBike } from './answer-checks.ts';

it('thirty bikes of every build', { timeout: 240_000 }, () => {
  const wrong: string[] = [];
  // The running engine costs a second or two of physics a bike.
  for (let seed = 1; seed <= 30; seed++) wrong.push(...tryBike(seed, seed === 30, 1, [seed % 10]));
  expect(wrong).toEqual([]);
});
