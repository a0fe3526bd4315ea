/** What each answer to a reading would change. */
import type { Member as LoopMember } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { normalBelow } from '../numbers/normal.ts';
import { KINDS } from '../reading/catalogue.ts';
import type { ReadingKey } from '../reading/key.ts';
import type { Branch } from './answer.ts';
import type { Outlook } from './outlook.ts';
import type { Ranked } from './rank.ts';

/** Branches of a reading: the outcome's range, its chance, and the members whose suspicion it moves most. */
export function branchesOf(
  look: readonly Ranked[],
  weights: Float64Array,
  key: ReadingKey,
  outlook: Outlook,
): Branch[] {
  const n = look.length;
  const kind = KINDS[key.kind]!;
  const cuts: { answer: string; chance: (i: number) => number }[] = [];
  if (outlook.seen) {
    cuts.push(
      { answer: 'yes', chance: (i) => outlook.other[i]! },
      { answer: 'no', chance: (i) => 1 - outlook.other[i]! },
    );
  } else {
    let opens = 0;
    for (let i = 0; i < n; i++) opens += weights[i]! * outlook.other[i]!;
    const edges = opens < 0.9 ? edgesOf(outlook, weights) : [];
    const print = (v: number) => `${Number(v.toPrecision(3))} ${kind.unit}`;
    const ranges: [number, number][] = [];
    const all = [Number.NEGATIVE_INFINITY, ...edges, Number.POSITIVE_INFINITY];
    for (let k = 0; k + 1 < all.length; k++) ranges.push([all[k]!, all[k + 1]!]);
    for (const [from, to] of ranges) {
      const answer =
        from === Number.NEGATIVE_INFINITY
          ? to === Number.POSITIVE_INFINITY
            ? 'any figure'
            : `under ${print(to)}`
          : to === Number.POSITIVE_INFINITY
            ? `over ${print(from)}`
            : `${print(from)} to ${print(to)}`;
      cuts.push({
        answer,
        chance: (i) =>
          (1 - outlook.other[i]!) *
          (normalBelow((to - outlook.means[i]!) / outlook.sds[i]!) -
            normalBelow((from - outlook.means[i]!) / outlook.sds[i]!)),
      });
    }
    if (opens > 0.01) cuts.push({ answer: 'OL or no reading', chance: (i) => outlook.other[i]! });
  }
  return cuts
    .map(({ answer, chance }) => {
      const before: Partial<Record<LoopMember, number>> = {};
      const after: Partial<Record<LoopMember, number>> = {};
      let total = 0;
      for (let i = 0; i < n; i++) total += weights[i]! * chance(i);
      for (let i = 0; i < n; i++) {
        for (const m of new Set(look[i]!.member.base.faults.map((f) => FAULTS[f].member))) {
          before[m] = (before[m] ?? 0) + weights[i]!;
          after[m] = (after[m] ?? 0) + (weights[i]! * chance(i)) / Math.max(total, 1e-9);
        }
      }
      const moves = (Object.keys(before) as LoopMember[])
        .map((member) => ({ member, from: before[member]!, to: Math.min(1, after[member] ?? 0) }))
        .sort((a, b) => Math.abs(b.to - b.from) - Math.abs(a.to - a.from))
        .slice(0, 3)
        .filter((m) => Math.abs(m.to - m.from) > 0.01);
      return { answer, probability: total, moves };
    })
    .filter((b) => b.probability > 0.01);
}

/** Two edges that cut the expected readings where the hypotheses part: the widest gaps between neighbouring means. */
function edgesOf(outlook: Outlook, weights: Float64Array): number[] {
  const order = [...weights.keys()]
    .filter((i) => outlook.other[i]! < 0.9 && weights[i]! > 0.003)
    .sort((a, b) => outlook.means[a]! - outlook.means[b]!);
  const gaps: { at: number; size: number }[] = [];
  let left = 0;
  let total = 0;
  for (const i of order) total += weights[i]!;
  for (let k = 0; k + 1 < order.length; k++) {
    const a = order[k]!;
    const b = order[k + 1]!;
    left += weights[a]!;
    const share = Math.min(left, total - left) / total;
    const gap = (outlook.means[b]! - outlook.means[a]!) / (outlook.sds[a]! + outlook.sds[b]!);
    gaps.push({
      at:
        (outlook.means[a]! * outlook.sds[b]! + outlook.means[b]! * outlook.sds[a]!) /
        (outlook.sds[a]! + outlook.sds[b]!),
      size: gap * Math.sqrt(share),
    });
  }
  gaps.sort((a, b) => b.size - a.size);
  const edges = gaps
    .slice(0, 2)
    .map((g) => g.at)
    .sort((a, b) => a - b);
  return edges.length === 2 && edges[1]! - edges[0]! < 1e-6 ? [edges[0]!] : edges;
}
