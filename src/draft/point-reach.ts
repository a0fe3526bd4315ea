/** What can come off at all as the file is written, and which things would wait for one another in a ring. */
import type { Json } from '../machine/json-value.ts';
import { entriesAt, nameOf, off, slack, textsOf } from './pointing.ts';

/** One action as far as order goes. */
export interface Move {
  readonly id: string;
  readonly needs: readonly string[];
  readonly gives: readonly string[];
}

export function movesOf(file: Json): readonly Move[] {
  return entriesAt(file, ['work', 'actions']).map(([id, one]) => ({
    id,
    needs: textsOf(one.needs),
    gives: textsOf(one.gives),
  }));
}

/** Actions that take a thing off, in the order of the file. */
export function waysOff(file: Json, thing: string): readonly Move[] {
  return movesOf(file).filter(({ gives }) => gives.includes(off(thing)));
}

/** Actions that slacken a thing without taking it off. */
export function waysSlack(file: Json, thing: string): readonly Move[] {
  return movesOf(file).filter(({ gives }) => gives.includes(slack(thing)) && !gives.includes(off(thing)));
}

/** Facts an action makes true: what is off is slack as well. */
function allGiven({ gives }: Move): readonly string[] {
  return gives.flatMap((fact) => (fact.endsWith(' off') ? [fact, slack(fact.slice(0, -4))] : [fact]));
}

/** Facts that some order of these moves makes true. */
export function reached(moves: readonly Move[]): ReadonlySet<string> {
  return new Set(reachedAt(moves).keys());
}

/** The same with the layer of each, 0 for what waits for nothing: one below the deepest need of the highest way. */
export function reachedAt(moves: readonly Move[]): ReadonlyMap<string, number> {
  const takers = new Map<string, number[]>();
  const open = moves.map(({ needs }, n) => {
    const each = new Set(needs);
    for (const fact of each) {
      const list = takers.get(fact);
      if (list) list.push(n);
      else takers.set(fact, [n]);
    }
    return each.size;
  });
  const holds = new Map<string, number>();
  const learn = (move: Move, layer: number): void => {
    for (const fact of allGiven(move)) if (!holds.has(fact)) holds.set(fact, layer);
  };
  for (const [n, move] of moves.entries()) if (open[n] === 0) learn(move, 0);
  // What is learnt on the way joins the end, so that the layers come in order.
  for (const [fact, layer] of holds)
    for (const n of takers.get(fact) ?? []) {
      open[n]! -= 1;
      if (open[n] === 0) learn(moves[n]!, layer + 1);
    }
  return holds;
}

/** Facts in a ring behind one that cannot be reached, each waiting for the next; empty where there is none. */
function ringBehind(moves: readonly Move[], from: string, holds: ReadonlySet<string>): readonly string[] {
  const givers = new Map<string, Move[]>();
  for (const move of moves)
    for (const fact of allGiven(move)) givers.set(fact, [...(givers.get(fact) ?? []), move]);
  const trail: string[] = [];
  const left = new Set<string>();
  const walk = (fact: string): readonly string[] => {
    const start = trail.indexOf(fact);
    if (start >= 0) return trail.slice(start);
    if (left.has(fact)) return [];
    trail.push(fact);
    for (const { needs } of givers.get(fact) ?? [])
      for (const need of needs) {
        if (holds.has(need)) continue;
        const ring = walk(need);
        if (ring.length > 0) return ring;
      }
    trail.pop();
    left.add(fact);
    return [];
  };
  return walk(from);
}

/** Ids of parts that block one another by `blockedBy`; empty where none do. */
function blockedRing(file: Json): readonly string[] {
  const parts = new Map(entriesAt(file, ['parts']).map(([id, one]) => [id, textsOf(one.blockedBy)]));
  const moves = [...parts].map(([id, by]) => ({
    id,
    needs: by.filter((other) => parts.has(other)).map(off),
    gives: [off(id)],
  }));
  const holds = reached(moves);
  const stuck = [...parts.keys()].find((id) => !holds.has(off(id)));
  return stuck === undefined ? [] : ringBehind(moves, off(stuck), holds);
}

/**
 * Why a touch cannot be: what could be reached before it and no longer after it, with the ring named in words. Null when
 * nothing is lost.
 */
export function ringMade(before: Json, after: Json): string | null {
  const was = reached(movesOf(before));
  const moves = movesOf(after);
  const is = reached(moves);
  const stillThere = new Set(moves.flatMap(allGiven));
  const lost = [...was].find((fact) => !is.has(fact) && stillThere.has(fact));
  let ring: readonly string[] = [];
  if (lost !== undefined) ring = ringBehind(moves, lost, is);
  else if (blockedRing(before).length === 0) ring = blockedRing(after);
  if (ring.length > 0) return sayRing(after, ring);
  return lost === undefined ? null : `Then there would be no way to ${sayFact(after, lost)} any more.`;
}

/** A fact as a mechanic says it. */
export function sayFact(file: Json, fact: string): string {
  if (fact.endsWith(' off')) return `the ${nameOf(file, fact.slice(0, -4))}`;
  if (fact.endsWith(' slack')) return `the slackened ${nameOf(file, fact.slice(0, -6))}`;
  return `"${fact}"`;
}

function sayRing(file: Json, ring: readonly string[]): string {
  const words = ring.map((fact) => sayFact(file, fact));
  if (words.length === 1) return `That cannot be: ${words[0]} would wait for itself.`;
  const [first, ...others] = words;
  return `That cannot be: ${first} waits for ${[...others, first].join(', which waits for ')}. Take one of these back first.`;
}
