/**
 * Invented strip-downs from a seed, of several kinds:
 * bike: parts in layers, each behind one to three others, two or three ways to each state, slack cheaper than off;
 * slack: most needs are met by slack as well as by off, slack has many ways;
 * shared: much rests on a few dear preparations (raise it, drain it, take the tank off), each with substitutes;
 * knots: as bike, but blockers also from the same and deeper layers, so that parts wait for each other in circles;
 * dense: no layers at all, moves between random facts.
 */
import { openStream } from '../../src/numbers/random.ts';
import type { Move, StripDown } from '../../src/way/strip-down.ts';

export const FAMILIES = ['bike', 'slack', 'shared', 'knots', 'dense'] as const;
export type Family = (typeof FAMILIES)[number];

export function randomStrip(family: Family, parts: number, seed: number): StripDown {
  const random = openStream(seed * 7919 + parts * 31 + FAMILIES.indexOf(family));
  const below = (n: number) => Math.floor(random() * n);
  const within = (low: number, high: number) => low + below(high - low + 1);
  const pick = <T>(list: readonly T[]): T => list[below(list.length)]!;
  if (family === 'dense') return dense(parts, within, below);

  const facts: string[] = [];
  const fact = (name: string) => facts.push(name) - 1;
  const moves: Move[] = [];
  const add = (id: string, needs: readonly number[], gives: readonly number[], cost: number) =>
    moves.push({ id: `${id}-${moves.length}`, needs: [...new Set(needs)], gives, cost });

  // Preparations, each in two or three ways, some of which serve for another as well.
  const prepared = Array.from({ length: family === 'shared' ? 4 + (parts >> 3) : 3 + (parts >> 5) }, (_, n) =>
    fact(`ready-${n}`),
  );
  for (const f of prepared) {
    for (let way = within(2, 3); way > 0; way--) {
      const also = random() < 0.3 ? [pick(prepared)] : [];
      const behind = random() < 0.2 && f > 0 ? [prepared[below(prepared.indexOf(f) || 1)]!] : [];
      add(
        'ready',
        behind.filter((g) => g !== f),
        [...new Set([f, ...also])],
        within(20, family === 'shared' ? 400 : 150),
      );
    }
  }

  const layers = Math.max(2, Math.round(Math.sqrt(parts) * 0.8));
  const layerOf = Array.from({ length: parts }, (_, p) => Math.floor((p * layers) / parts));
  const slack = layerOf.map((_, p) => fact(`slack-${p}`));
  const off = layerOf.map((_, p) => fact(`off-${p}`));
  const inLayer = (l: number) => layerOf.flatMap((layer, p) => (layer === l ? [p] : []));
  const blocker = (p: number): number => {
    const l = layerOf[p]!;
    const knotted = family === 'knots' && random() < 0.3;
    const from = knotted ? Math.min(layers - 1, l + below(2)) : l - 1 - (random() < 0.3 ? below(l) : 0);
    const others = inLayer(Math.max(0, from)).filter((q) => q !== p);
    const q = others.length > 0 ? pick(others) : p === 0 ? 1 : 0;
    return random() < (family === 'slack' ? 0.7 : 0.3) ? slack[q]! : off[q]!;
  };
  const needsOf = (p: number, least: number, most: number): number[] => {
    const needs: number[] = [];
    const count = layerOf[p] === 0 ? below(2) : within(least, most);
    if (layerOf[p]! > 0 || family === 'knots') for (let k = 0; k < count; k++) needs.push(blocker(p));
    if (layerOf[p] === 0 && family === 'knots' && random() < 0.6) needs.length = 0;
    if (random() < (family === 'shared' ? 0.5 : 0.25)) needs.push(pick(prepared));
    return needs;
  };
  for (let p = 0; p < parts; p++) {
    for (let way = within(2, 3); way > 0; way--)
      add(`take-off-${p}`, needsOf(p, 1, 3), [off[p]!, slack[p]!], within(20, 300));
    for (let way = family === 'slack' ? within(2, 4) : within(1, 2); way > 0; way--)
      add(`loosen-${p}`, needsOf(p, 1, 2), [slack[p]!], within(5, 90));
    // Its screws out, after which it only has to be lifted away.
    const screws = fact(`screws-${p}`);
    for (let way = within(1, 2); way > 0; way--)
      add(`screws-${p}`, needsOf(p, 0, 2), [screws], within(10, 80));
    add(`lift-${p}`, [screws, ...needsOf(p, 0, 1)], [off[p]!, slack[p]!], within(2, 60));
    if (random() < 0.25) add(`drop-${p}`, [screws], [slack[p]!], 0);
    // As one assembly with a neighbour.
    const near = inLayer(layerOf[p]!).filter((q) => q !== p);
    if (near.length > 0 && random() < 0.5) {
      const q = pick(near);
      add(`together-${p}-${q}`, needsOf(p, 1, 3), [off[p]!, off[q]!, slack[p]!, slack[q]!], within(60, 400));
    }
  }
  const deep = inLayer(layers - 1);
  const goals = new Set<number>();
  const many = within(1, Math.min(5, deep.length));
  while (goals.size < many) goals.add(random() < 0.7 ? off[pick(deep)]! : slack[pick(deep)]!);
  return { facts, start: [], goals: [...goals], moves };
}

function dense(
  parts: number,
  within: (low: number, high: number) => number,
  below: (n: number) => number,
): StripDown {
  const count = parts * 3;
  const facts = Array.from({ length: count }, (_, f) => `fact-${f}`);
  const moves: Move[] = Array.from({ length: parts * 8 }, (_, a) => {
    const needs = new Set<number>();
    // A few moves start from nothing, the rest from anywhere.
    for (let k = a < 3 + parts / 6 ? 0 : within(1, 3); k > 0; k--) needs.add(below(count));
    const gives = new Set<number>();
    for (let k = within(1, 2); k > 0; k--) {
      const f = below(count);
      if (!needs.has(f)) gives.add(f);
    }
    return {
      id: `move-${a}`,
      needs: [...needs],
      gives: [...gives],
      cost: below(12) === 0 ? 0 : within(5, 300),
    };
  });
  const goals = Array.from({ length: within(1, 4) }, () => below(count));
  return { facts, start: Array.from({ length: 2 + (parts >> 3) }, () => below(count)), goals, moves };
}
