import { expect, it } from 'vitest';
import { planJob } from '../../src/way/plan.ts';
import { sayShopping, shoppingOf } from '../../src/way/shopping.ts';
import { SMALL, step } from './small-work.ts';

const supply = {
  id: 'gasket',
  name: 'cover gasket',
  kind: 'gasket',
  unit: 'piece',
  singleUse: true,
  canWait: false,
} as const;
const oil = {
  id: 'oil',
  name: 'primary oil',
  kind: 'fluid',
  unit: 'ml',
  singleUse: false,
  canWait: false,
} as const;
const work = {
  ...SMALL,
  supplies: [...SMALL.supplies, oil, supply],
  closing: [
    step('pour', 4, { uses: [{ supply: 'oil', amount: 700 }] }),
    step('seat', 4, {
      uses: [
        { supply: 'gasket', amount: 1 },
        { supply: 'oil', amount: 50 },
      ],
    }),
  ],
};
const made = planJob({ work, targets: [work.targets[0]!.id], people: 1 });
if (!made.ok) throw new Error(made.says);
const plan = made.least;

it('sums what the steps use, by kind, and takes off what is in stock', () => {
  const { lines } = shoppingOf(plan, work, { oil: 200, gasket: 3 });
  const of = (id: string) => lines.find((line) => line.supply.id === id)!;
  expect(of('oil')).toMatchObject({ amount: 750, inStock: 200, toGet: 550, steps: ['pour', 'seat'] });
  expect(of('gasket')).toMatchObject({ amount: 1, toGet: 0 });
  expect(lines.findIndex((line) => line.supply.id === 'gasket')).toBeLessThan(
    lines.findIndex((line) => line.supply.id === 'oil'),
  );
  expect(sayShopping(of('oil'))).toBe('750 ml of primary oil (200 in stock): get 550');
  expect(sayShopping(of('gasket'))).toBe('1 × cover gasket (new each time, 3 in stock)');
});

it('refuses a supply that nobody listed', () => {
  expect(() => shoppingOf(plan, { ...work, supplies: [] })).toThrow(/is no supply of this work/);
});

it.each([Number.NaN, -1, Number.POSITIVE_INFINITY])('refuses an amount or a stock of %d', (amount) => {
  expect(() => shoppingOf(plan, work, { oil: amount })).toThrow(
    `stock of "oil" must be a finite number ≥ 0, got ${amount}`,
  );
  const spoiled = plan.steps.map((each) =>
    each.id === 'pour' ? { ...each, step: step('pour', 4, { uses: [{ supply: 'oil', amount }] }) } : each,
  );
  expect(() => shoppingOf({ steps: spoiled }, work)).toThrow(
    `amount of "oil" in step pour must be a finite number ≥ 0, got ${amount}`,
  );
});
