/** The slack of a chain as it was typed, held against what its book wants. */
import type { Chain } from '../machine/definition.ts';
import { parseQuantity } from '../units/parse.ts';

export type JudgedSlack =
  /** `fits` is null where the machine file has no figure for it. */
  { readonly ok: true; readonly fits: boolean | null } | { readonly ok: false; readonly why: string };

/** Reading a rule to its last line: a slack this much beyond the book's range still counts as inside, m. */
const LAST_LINE = 0.0003;

/** `text` is a length with its unit, as in "3/4 in". */
export function judgeSlack(text: string, chain: Pick<Chain, 'slack'>): JudgedSlack {
  const read = parseQuantity(text, 'length');
  if (!read.ok) return { ok: false, why: `The slack cannot be read: ${read.why}` };
  if (chain.slack === null) return { ok: true, fits: null };
  const { low, high } = chain.slack.is;
  const { si } = read.value;
  return { ok: true, fits: si >= low - LAST_LINE && si <= high + LAST_LINE };
}
