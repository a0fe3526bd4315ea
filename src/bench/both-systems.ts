/** A figure as its source writes it, with the other system behind it: the rule in hand may be either. */
import { shown } from '../sum/line.ts';
import type { Kind } from '../units/kind.ts';

/** What is written so is in the metric system already. */
const METRIC = /(?:\b(?:mm|cm|m|km|µm|l|ml|cl|dl|cc|N·m|Nm|kgf·m|N|kN)|°C)$/;

/** "5/8–7/8 in (15.9–22.2 mm)"; as `shown` where the words end in no unit of either system. */
export function sayInBoth(
  kind: Kind,
  of: { readonly low: number; readonly high: number; readonly text: string },
): string {
  const both = shown(kind, of);
  const [, metric, inch] = /^(.*?) \((.*)\)$/.exec(both) ?? [];
  if (metric === undefined || inch === undefined) return of.text;
  return `${of.text} (${METRIC.test(of.text.trim()) ? inch : metric})`;
}
