/**
 * Makes a strip-down smaller without losing its cheapest cost: what holds already or for nothing, what cannot be done,
 * what no goal asks for, what another move does at least as well, what must be done in any case, and what a move gives
 * too late to matter. Repeated until nothing changes. Each step keeps at least one cheapest way.
 */
import type { StripDown } from './strip-down.ts';
import { isMark, type Marks, marksOf, marksOfAll } from './strip-marks.ts';
import { type Net, netOf } from './strip-net.ts';

interface Draft {
  needs: number[];
  gives: number[];
  cost: number;
  readonly origin: number;
}

export interface Reduced {
  /** Null when nothing is left to decide: the moves that must be are enough. */
  readonly net: Net | null;
  /** Cost of the moves that must be in every way. */
  readonly forced: number;
  /** Those moves, by index in the problem as given. */
  readonly must: readonly number[];
}

/** Facts that the moves for which `may` holds make true from nothing. */
function closure(facts: number, moves: readonly Draft[], may: (move: Draft) => boolean): Uint8Array {
  const holds = new Uint8Array(facts);
  const takers: number[][] = Array.from({ length: facts }, () => []);
  const queue: number[] = [];
  const carryOut = ({ gives }: Draft) => {
    for (const f of gives) {
      if (holds[f]) continue;
      holds[f] = 1;
      queue.push(f);
    }
  };
  const open = moves.map(({ needs }, a) => {
    for (const f of needs) takers[f]!.push(a);
    return needs.length;
  });
  for (const move of moves) if (move.needs.length === 0 && may(move)) carryOut(move);
  for (let head = 0; head < queue.length; head++) {
    for (const a of takers[queue[head]!]!) {
      open[a]! -= 1;
      if (open[a] === 0 && may(moves[a]!)) carryOut(moves[a]!);
    }
  }
  return holds;
}

/** Drops moves out of reach, facts that hold for nothing, and what leads to no goal. */
function trim(facts: number, goal: number, moves: readonly Draft[]): Draft[] {
  const reached = closure(facts, moves, () => true);
  const free = closure(facts, moves, ({ cost }) => cost === 0);
  let left: Draft[] = [];
  for (const move of moves) {
    if (move.needs.some((f) => !reached[f])) continue;
    move.needs = move.needs.filter((f) => !free[f]);
    move.gives = move.gives.filter((f) => !free[f] && !move.needs.includes(f));
    if (move.gives.length > 0) left.push(move);
  }
  const givers: Draft[][] = Array.from({ length: facts }, () => []);
  for (const move of left) for (const f of move.gives) givers[f]!.push(move);
  const wanted = new Uint8Array(facts);
  wanted[goal] = 1;
  const queue = [goal];
  for (let head = 0; head < queue.length; head++) {
    for (const move of givers[queue[head]!]!) {
      for (const f of move.needs) {
        if (wanted[f]) continue;
        wanted[f] = 1;
        queue.push(f);
      }
    }
  }
  for (const move of left) move.gives = move.gives.filter((f) => wanted[f]);
  left = left.filter(({ gives }) => gives.length > 0);
  return left;
}

/** A move gives nothing that must have been true before it, and need not name what its other needs imply. */
function sharpen(marks: Marks, moves: readonly Draft[]): boolean {
  let changed = false;
  for (const move of moves) {
    const before = marksOfAll(marks, move.needs);
    const gives = move.gives.filter((f) => (before[f >> 5]! & (1 << (f & 31))) === 0);
    const needs = move.needs.filter((f) => !move.needs.some((g) => g !== f && isMark(marks, f, g)));
    if (gives.length !== move.gives.length || needs.length !== move.needs.length) changed = true;
    move.gives = gives;
    move.needs = needs;
  }
  return changed;
}

/** Drops moves that another one replaces: gives as much, needs no more, costs no more. */
function undominated(marks: Marks, moves: readonly Draft[]): Draft[] {
  const givers = new Map<number, number[]>();
  moves.forEach(({ gives }, a) => {
    for (const f of gives) {
      const list = givers.get(f);
      if (list) list.push(a);
      else givers.set(f, [a]);
    }
  });
  const gone = new Uint8Array(moves.length);
  moves.forEach((move, a) => {
    if (move.cost === 0) return;
    const before = marksOfAll(marks, move.needs);
    for (const b of givers.get(move.gives[0] ?? -1) ?? []) {
      const other = moves[b]!;
      if (b === a || gone[b] || other.cost > move.cost) continue;
      if (!other.needs.every((f) => (before[f >> 5]! & (1 << (f & 31))) !== 0)) continue;
      if (!move.gives.every((f) => other.gives.includes(f))) continue;
      gone[a] = 1;
      return;
    }
  });
  return moves.filter(({ gives }, a) => !gone[a] && gives.length > 0);
}

/** The smaller problem. All goals must be within reach of the allowed moves. */
export function reduceStrip(problem: StripDown, may: (move: number) => boolean): Reduced {
  const goal = problem.facts.length;
  const facts = goal + 1;
  const start = new Uint8Array(facts);
  for (const f of problem.start) start[f] = 1;
  const asked = (list: readonly number[]) => [...new Set(list)].filter((f) => !start[f]);
  let moves: Draft[] = [];
  problem.moves.forEach(({ needs, gives, cost }, origin) => {
    if (may(origin)) moves.push({ needs: asked(needs), gives: asked(gives), cost, origin });
  });
  moves.push({ needs: asked(problem.goals), gives: [goal], cost: 0, origin: -1 });
  const must: number[] = [];
  let forced = 0;
  for (;;) {
    const size = moves.length;
    moves = trim(facts, goal, moves);
    if (moves.length === 0) return { net: null, forced, must };
    const marks = marksOf(facts, moves);
    let changed = sharpen(marks, moves);
    moves = undominated(marks, moves);
    const givers: Draft[][] = Array.from({ length: facts }, () => []);
    for (const move of moves) for (const f of move.gives) givers[f]!.push(move);
    for (let f = 0; f < facts; f++) {
      const [only, second] = givers[f]!;
      if (!only || second || only.cost === 0 || !isMark(marks, f, goal)) continue;
      forced += only.cost;
      must.push(only.origin);
      only.cost = 0;
      changed = true;
    }
    if (!changed && moves.length === size) break;
  }
  return { net: compacted(facts, goal, moves), forced, must };
}

function compacted(facts: number, goal: number, moves: readonly Draft[]): Net {
  const place = new Int32Array(facts).fill(-1);
  let count = 0;
  const at = (f: number): number => {
    if (place[f] === -1) place[f] = count++;
    return place[f]!;
  };
  const placed = moves.map(({ needs, gives, cost, origin }) => ({
    needs: needs.map(at),
    gives: gives.map(at),
    cost,
    origin,
  }));
  return netOf(count, at(goal), placed);
}
