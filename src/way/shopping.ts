/** Before you open it: one list of what a plan uses up and needs, summed over its steps, against what is in stock. */
import type { Plan } from './plan-shape.ts';
import type { Supply, Work } from './work.ts';

export interface ShoppingLine {
  readonly supply: Supply;
  /** In the supply's own unit. */
  readonly amount: number;
  readonly inStock: number;
  /** What is short, in the supply's own unit; 0 where enough is there. */
  readonly toGet: number;
  /** Ids of the steps that use it. */
  readonly steps: readonly string[];
}

export interface ToolLine {
  readonly id: string;
  readonly name: string;
  readonly steps: readonly string[];
}

export interface Shopping {
  /** By kind in the order of KINDS, then by name. */
  readonly lines: readonly ShoppingLine[];
  readonly tools: readonly ToolLine[];
}

const KINDS: readonly Supply['kind'][] = ['part', 'gasket', 'seal', 'fastener', 'consumable', 'fluid'];

/** The list of a plan. `stock`: what is at hand, by supply id, in its own unit. Throws RangeError for a supply or tool that the work does not list, and for amounts below 0 or that are none. */
export function shoppingOf(
  plan: Pick<Plan, 'steps'>,
  work: Pick<Work, 'supplies' | 'tools'>,
  stock: Readonly<Record<string, number>> = {},
): Shopping {
  const amounts = new Map<string, { amount: number; steps: string[] }>();
  const tools = new Map<string, string[]>();
  for (const [id, amount] of Object.entries(stock)) requireAmount(`stock of "${id}"`, amount);
  for (const step of plan.steps) {
    for (const { supply, amount } of step.step?.uses ?? []) {
      requireAmount(`amount of "${supply}" in step ${step.id}`, amount);
      const line = amounts.get(supply) ?? { amount: 0, steps: [] };
      line.amount += amount;
      line.steps.push(step.id);
      amounts.set(supply, line);
    }
    for (const tool of step.tools) tools.set(tool, [...(tools.get(tool) ?? []), step.id]);
  }
  const lines = [...amounts].map(([id, { amount, steps }]) => {
    const supply = work.supplies.find((one) => one.id === id);
    if (!supply) throw new RangeError(`step ${steps[0]} uses "${id}", which is no supply of this work`);
    const inStock = stock[id] ?? 0;
    // Sums of tenths are off in the last digits: what is short by less than a millionth is not short.
    const toGet = Math.max(0, Math.round((amount - inStock) * 1e6) / 1e6);
    return { supply, amount, inStock, toGet, steps };
  });
  lines.sort(
    (a, b) =>
      KINDS.indexOf(a.supply.kind) - KINDS.indexOf(b.supply.kind) ||
      a.supply.name.localeCompare(b.supply.name, 'en'),
  );
  return {
    lines,
    tools: [...tools].map(([id, steps]) => {
      const tool = work.tools.find((one) => one.id === id);
      if (!tool) throw new RangeError(`step ${steps[0]} uses "${id}", which is no tool of this work`);
      return { id, name: tool.name, steps };
    }),
  };
}

function requireAmount(name: string, amount: number): void {
  if (!(amount >= 0 && Number.isFinite(amount)))
    throw new RangeError(`${name} must be a finite number ≥ 0, got ${amount}`);
}

/** One line in words: "2 pieces of base gasket (single use), 1 in stock: get 1". */
export function sayShopping({ supply, amount, inStock, toGet }: ShoppingLine): string {
  const figure = (value: number) => String(Number(value.toPrecision(4)));
  const unit = supply.unit === 'piece' ? '×' : `${supply.unit} of`;
  const notes = [
    ...(supply.singleUse ? ['new each time'] : []),
    ...(supply.canWait ? ['can wait'] : []),
    ...(inStock > 0 ? [`${figure(inStock)} in stock`] : []),
  ];
  const need = `${figure(amount)} ${unit} ${supply.name}`;
  const rest = notes.length > 0 ? ` (${notes.join(', ')})` : '';
  return toGet > 0 && inStock > 0 ? `${need}${rest}: get ${figure(toGet)}` : `${need}${rest}`;
}
