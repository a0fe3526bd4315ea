/**
 * A strip-down in the form the search works on: one goal, moves as typed lists, no fact that holds already. Made by
 * `reduceStrip` (strip-reduce.ts), which says what became of the rest.
 */
export interface Net {
  readonly facts: number;
  /** The one fact wanted. */
  readonly goal: number;
  readonly needs: readonly Int32Array[];
  readonly gives: readonly Int32Array[];
  /** Cost of each move, whole numbers; 0 is free and is never a decision. */
  readonly cost: Float64Array;
  /** For each fact the moves that give it, and that need it. */
  readonly givers: readonly Int32Array[];
  readonly takers: readonly Int32Array[];
  /** Needs of each move, count. */
  readonly asked: Int32Array;
  /** Moves that need nothing. */
  readonly openers: readonly number[];
  /** Index of each move in the problem as given, −1 for one made up here. */
  readonly origin: Int32Array;
}

/** A net from its moves. */
export function netOf(
  facts: number,
  goal: number,
  moves: readonly {
    readonly needs: readonly number[];
    readonly gives: readonly number[];
    readonly cost: number;
    readonly origin: number;
  }[],
): Net {
  const givers: number[][] = Array.from({ length: facts }, () => []);
  const takers: number[][] = Array.from({ length: facts }, () => []);
  const openers: number[] = [];
  moves.forEach(({ needs, gives }, a) => {
    for (const f of gives) givers[f]!.push(a);
    for (const f of needs) takers[f]!.push(a);
    if (needs.length === 0) openers.push(a);
  });
  return {
    facts,
    goal,
    needs: moves.map(({ needs }) => Int32Array.from(needs)),
    gives: moves.map(({ gives }) => Int32Array.from(gives)),
    cost: Float64Array.from(moves, ({ cost }) => cost),
    givers: givers.map((list) => Int32Array.from(list)),
    takers: takers.map((list) => Int32Array.from(list)),
    asked: Int32Array.from(moves, ({ needs }) => needs.length),
    openers,
    origin: Int32Array.from(moves, ({ origin }) => origin),
  };
}

/** What holds when some moves of a net are allowed, growing as more are. */
export class Holding {
  readonly net: Net;
  /** 1 for a fact that holds. */
  readonly holds: Uint8Array;
  /** 1 for a move that is allowed. */
  readonly allowed: Uint8Array;
  /** Needs of each move that do not hold yet. */
  readonly open: Int32Array;
  private readonly queue: Int32Array;

  constructor(net: Net) {
    this.net = net;
    this.holds = new Uint8Array(net.facts);
    this.allowed = new Uint8Array(net.cost.length);
    this.open = new Int32Array(net.cost.length);
    this.queue = new Int32Array(net.facts + 1);
  }

  /** Starts again: nothing holds, and the moves for which `may` is true are allowed. */
  begin(may: (move: number) => boolean): void {
    const { net, holds, allowed, open } = this;
    holds.fill(0);
    open.set(net.asked);
    for (let a = 0; a < allowed.length; a++) allowed[a] = may(a) ? 1 : 0;
    for (const a of net.openers) if (allowed[a]) this.carryOut(a);
  }

  /** Starts again: the moves that give nothing of a zone of facts, marked 1, are allowed, but those of `out`. */
  beginOutside(zone: Uint8Array, out: readonly number[]): void {
    const { net, holds, allowed, open } = this;
    holds.fill(0);
    open.set(net.asked);
    allowed.fill(1);
    for (const a of out) allowed[a] = 0;
    for (let f = 0; f < zone.length; f++) {
      if (zone[f] !== 1) continue;
      const givers = net.givers[f]!;
      for (let k = 0; k < givers.length; k++) allowed[givers[k]!] = 0;
    }
    for (const a of net.openers) if (allowed[a]) this.carryOut(a);
  }

  /** Allows one more move. */
  allow(a: number): void {
    if (this.allowed[a]) return;
    this.allowed[a] = 1;
    if (this.open[a] === 0) this.carryOut(a);
  }

  private carryOut(first: number): void {
    const { net, holds, allowed, open, queue } = this;
    let tail = 0;
    for (const f of net.gives[first]!) {
      if (!holds[f]) {
        holds[f] = 1;
        queue[tail++] = f;
      }
    }
    for (let head = 0; head < tail; head++) {
      const takers = net.takers[queue[head]!]!;
      for (let k = 0; k < takers.length; k++) {
        const a = takers[k]!;
        open[a]! -= 1;
        if (open[a] !== 0 || !allowed[a]) continue;
        const gives = net.gives[a]!;
        for (let n = 0; n < gives.length; n++) {
          const f = gives[n]!;
          if (holds[f]) continue;
          holds[f] = 1;
          queue[tail++] = f;
        }
      }
    }
  }

  /** Allows one more move unless the goal would hold then: whether it did. */
  allowUnlessDone(first: number): boolean {
    const { net, holds, allowed, open, queue } = this;
    allowed[first] = 1;
    if (open[first] !== 0) return true;
    let tail = 0;
    let head = 0;
    const carry = (a: number) => {
      for (const f of net.gives[a]!) {
        if (holds[f]) continue;
        holds[f] = 1;
        queue[tail++] = f;
      }
    };
    carry(first);
    for (; head < tail && !holds[net.goal]; head++) {
      for (const a of net.takers[queue[head]!]!) {
        open[a]! -= 1;
        if (open[a] === 0 && allowed[a]) carry(a);
      }
    }
    if (!holds[net.goal]) return true;
    // Taken back: only as much as was gone through.
    while (head-- > 0) for (const a of net.takers[queue[head]!]!) open[a]! += 1;
    while (tail-- > 0) holds[queue[tail]!] = 0;
    allowed[first] = 0;
    return false;
  }

  /** Whether the goal holds. */
  done(): boolean {
    return this.holds[this.net.goal] === 1;
  }
}
