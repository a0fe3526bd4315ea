/** Load balance against what goes in, and stack-up against a handbook's worked example. */
import { expect, it } from 'vitest';
import { LOAD_BALANCE } from '../../src/sum/load-balance.ts';
import { STACK_UP } from '../../src/sum/stack-up.ts';
import type { Reckoned } from '../../src/sum/sum.ts';

const BIKE = { phases: '3', open: '17 V', rated: '34 A', ohms: '0.21 Ω', loads: '15 A' };
function balance(more: Readonly<Record<string, string>>): Reckoned {
  const found = LOAD_BALANCE.reckon({ ...BIKE, ...more });
  if (!found.ok) throw new Error(found.faults.map(({ why }) => why).join(' '));
  return found;
}
const figures = (found: Reckoned, id: string): number[] =>
  (found.lines.find((line) => line.id === id)?.metric.match(/\d+(\.\d+)?/g) ?? []).map(Number);

it('gives the rated amps at the rated speed', () => {
  // Idle set to the rated speed: the upper end is cold, where the rating was taken.
  const [, cold] = figures(balance({ idle: '5000 rpm' }), 'idle');
  expect(Math.abs(cold! / 34 - 1)).toBeLessThan(0.04);
});

it('needs more speed for more load, and says when no speed is enough', () => {
  const [low] = figures(balance({}), 'even');
  const [high] = figures(balance({ more: '8 A' }), 'even');
  expect(high!).toBeGreaterThan(low!);
  expect(balance({ more: '30 A' }).lines.find(({ id }) => id === 'even')!.says).toMatch(/At no speed/);
});

it('refuses an alternator that cannot reach the battery’s volts', () => {
  const found = LOAD_BALANCE.reckon({ ...BIKE, open: '2 V' });
  expect(found.ok).toBe(false);
  if (!found.ok) expect(found.faults[0]!.why).toMatch(/do not even reach/);
});

// .005, .003, .002 and .005 in: worst .015, root of the squares .00794 in (worked out from the two formulas).
it('adds limits up at worst, and by the root of the squares', () => {
  const found = STACK_UP.reckon({
    parts: '0.250 ± 0.005 in, 0.120 ± 0.003 in, 0.080 ± 0.002 in, -0.400 ± 0.005 in',
  });
  if (!found.ok) throw new Error('refused');
  const inch = (id: string) => found.lines.find((line) => line.id === id)!.inch;
  expect(inch('worst')).toBe('35–65 thou');
  expect(inch('likely')).toBe('42.06–57.94 thou');
});

it('names the part that cannot be read', () => {
  const found = STACK_UP.reckon({ parts: '10 mm ± 0.1 mm, thick' });
  expect(found.ok).toBe(false);
  if (!found.ok) expect(found.faults[0]!.why).toMatch(/"thick"/);
});
