/**
 * Facts that must be true before others: f is a mark of g when every sequence of moves that makes g true makes f true
 * on the way (Keyder, Richter and Helmert 2010: the greatest fixpoint over the and-or graph). As sets of bits.
 */

interface Given {
  readonly needs: readonly number[];
  readonly gives: readonly number[];
}

export interface Marks {
  readonly words: number;
  /** Marks of each fact, itself included, `words` words each; only where `known`. */
  readonly bits: Int32Array;
  readonly known: Uint8Array;
}

/** Marks of all facts that the moves reach from nothing. */
export function marksOf(facts: number, moves: readonly Given[]): Marks {
  const words = (facts + 31) >> 5;
  const bits = new Int32Array(facts * words);
  const known = new Uint8Array(facts);
  const takers: number[][] = Array.from({ length: facts }, () => []);
  const open = Int32Array.from(moves, ({ needs }, a) => {
    for (const f of needs) takers[f]!.push(a);
    return needs.length;
  });
  const waiting = new Uint8Array(moves.length);
  const queue: number[] = [];
  const call = (a: number) => {
    if (waiting[a]) return;
    waiting[a] = 1;
    queue.push(a);
  };
  open.forEach((left, a) => {
    if (left === 0) call(a);
  });
  const before = new Int32Array(words);
  for (let head = 0; head < queue.length; head++) {
    const a = queue[head]!;
    waiting[a] = 0;
    before.fill(0);
    for (const f of moves[a]!.needs) for (let w = 0; w < words; w++) before[w]! |= bits[f * words + w]!;
    for (const f of moves[a]!.gives) {
      const at = f * words;
      let changed = false;
      for (let w = 0; w < words; w++) {
        const own = f >> 5 === w ? 1 << (f & 31) : 0;
        const next = (known[f] ? before[w]! & bits[at + w]! : before[w]!) | own;
        if (!known[f] || next !== bits[at + w]) changed = true;
        bits[at + w] = next;
      }
      if (!changed) continue;
      if (!known[f]) for (const b of takers[f]!) open[b]! -= 1;
      known[f] = 1;
      for (const b of takers[f]!) if (open[b] === 0) call(b);
    }
  }
  return { words, bits, known };
}

/** Whether f must be true before g (or is g). */
export function isMark({ words, bits }: Marks, f: number, g: number): boolean {
  return (bits[g * words + (f >> 5)]! & (1 << (f & 31))) !== 0;
}

/** Everything that holds when all these facts do. */
export function marksOfAll({ words, bits }: Marks, facts: readonly number[]): Int32Array {
  const all = new Int32Array(words);
  for (const f of facts) for (let w = 0; w < words; w++) all[w]! |= bits[f * words + w]!;
  return all;
}
