import { expect, it } from 'vitest';
import { sayInBoth } from '../../src/bench/both-systems.ts';

const INCH = 0.0254;

it('keeps what the source writes and puts the other system behind it', () => {
  expect(sayInBoth('length', { low: (5 / 8) * INCH, high: (7 / 8) * INCH, text: '5/8–7/8 in' })).toBe(
    '5/8–7/8 in (15.9–22.2 mm)',
  );
  expect(sayInBoth('length', { low: 0.016, high: 0.022, text: '16–22 mm' })).toBe('16–22 mm (0.63–0.866 in)');
  expect(sayInBoth('length', { low: 85e-3 * INCH, high: 95e-3 * INCH, text: '85–95 thou' })).toBe(
    '85–95 thou (2.16–2.41 mm)',
  );
  expect(sayInBoth('volume', { low: 1e-3, high: 1.15e-3, text: '1.0–1.15 l' })).toMatch(
    /^1\.0–1\.15 l \(\d.* fl oz\)$/,
  );
});
