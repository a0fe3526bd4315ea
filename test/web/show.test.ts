import { expect, test } from 'vitest';
import { unbroken } from '../../src/web/show.ts';

test('a figure stays in one line, and the words round it do not', () => {
  expect(unbroken('1 1/4, 1 1/2 in')).toBe('1\u00a01/4, 1\u00a01/2\u00a0in');
  expect(unbroken('the chain: 5/8–7/8 in (15.9–22.2 mm) at the tight spot')).toBe(
    'the chain: 5/8\u2060–\u20607/8\u00a0in (15.9\u2060–\u206022.2\u00a0mm) at the tight spot',
  );
  expect(unbroken('hole 1 to 10: two clips')).toBe('hole 1 to 10: two clips');
});
