/** What acting now would cost on average, against knowing what the bike needs. */
import type { RepairId } from '../fault/catalogue.ts';
import { type Costs, openChoiceOf } from './repairs.ts';
import type { Represented } from './represent.ts';

/**
 * How many times the loss of acting now is counted against minutes at the bike, 1: counted once, the odd half of the
 * practice cases ended at 93 % after 41 minutes; twice 97 % after 49, three times 97 % after 54.
 */
const CARE = 2;

/** Loss of acting at once on given weights of the hypotheses looked at, min times the sum of the weights. */
export function stopLossOf(
  { classes, names }: Represented,
  costs: Costs = {},
): (weights: Float64Array) => number {
  const lists = names.map((name) => (name ? (name.split('+') as RepairId[]) : []));
  const choice = openChoiceOf(lists, costs);
  const shares = new Float64Array(names.length);
  return (weights) => {
    shares.fill(0);
    for (let h = 0; h < weights.length; h++) shares[classes[h]!]! += weights[h]!;
    return CARE * choice.loss(shares);
  };
}
