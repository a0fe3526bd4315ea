/** Load balance against what goes in, and stack-up against a handbook's worked example. */
import { expect, it } from 'vitest';
import { LOAD_BALANCE } from '../../src/sum/load-balance.ts';
import { OTHER_LOCKER } from '../../src/sum/other-locker.ts';
import { STACK_UP } from '../../src/sum/stack-up.ts';
import type { Reckoned } from '../../src/sum/sum.ts';
import { TIGHT_SPOT } from '../../src/sum/tight-spot.ts';

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
  expect(inch('likely')).toBe('42–58 thou');
});

it('names the part that cannot be read', () => {
  const found = STACK_UP.reckon({ parts: '10 mm ± 0.1 mm, thick' });
  expect(found.ok).toBe(false);
  if (!found.ok) expect(found.faults[0]!.why).toMatch(/"thick"/);
});

it('finds the tight spot and says what is not covered', () => {
  const found = TIGHT_SPOT.reckon(TIGHT_SPOT.example);
  if (!found.ok) throw new Error('refused');
  expect(found.lines[0]!.says).toMatch(/place 3 with 19 mm/);
  const alone = TIGHT_SPOT.reckon({ readings: '20 mm' });
  expect(alone.ok && alone.cautions.join(' ')).toMatch(/One reading is not a turn/);
  expect(TIGHT_SPOT.reckon({ readings: '20 mm', small: '24' }).ok).toBe(false);
});

it('says what high-strength locker on a small screw in aluminium means, and what none does', () => {
  const found = OTHER_LOCKER.reckon(OTHER_LOCKER.example);
  if (!found.ok) throw new Error('refused');
  expect(found.lines[0]!.metric).not.toBe('as wanted');
  expect(found.lines.map(({ says }) => says).join(' ')).toMatch(/°C|comes off cold/);
  const none = OTHER_LOCKER.reckon({ ...OTHER_LOCKER.example, used: 'none' });
  expect(none.ok && none.lines[0]!.says).toMatch(/forgotten/);
});
