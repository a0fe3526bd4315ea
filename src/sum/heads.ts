/**
 * The sums as a page shows them: names and fields, without what reckons them, which a page leaves to its worker. In the
 * app's bundle this module is its own value, put in by `vite.config.ts`.
 */
import { SUMS } from './catalogue.ts';
import type { Sum } from './sum.ts';

export type SumHead = Omit<Sum, 'reckon'>;

export const SUM_HEADS: readonly SumHead[] = SUMS.map(({ reckon: _reckon, ...head }) => head);
