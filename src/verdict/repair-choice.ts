/**
 * Which repairs to do at least expected cost, exact over every set of repairs that can pay. All costs are minutes:
 * parts are counted as the minutes their price is worth.
 *
 * A set D is done while the bike needs N. Its cost is the work in D, each cover opened once; for each repair in D that
 * was not needed, a part wrongly accused; for each repair of N left out, that work after all and what missing it
 * costs; and if anything is left out, one comeback, the covers opened again. Over the bikes that the readings leave possible:
 *
 *   cost(D) = Σ_D work + wrong·(1 − p) + covers(D) + Σ_not D p·(work + missed)
 *           + Σ_covers minutes·(1 − Z_cover(D)) + comeback·(1 − Z(D))
 *
 * with Z(D) the share of bikes that need nothing outside D, and Z_cover(D) of those that need nothing outside D behind
 * that cover. Z over all 2^n sets is a sum over subsets, n·2^(n−1) additions, so the number of bikes hardly counts.
 * A repair so unlikely that it could not pay even in the best company is left out first; that is exact, not a guess.
 *
 * 1 µs for 30 bikes and 6 repairs, 3 to 11 µs for 64 to 200 bikes and the 15 repairs of the catalogue (one thread of
 * node 20, other work running beside); 0.9 ms where all twelve repairs that one search takes are in play.
 *
 * Rejected: weighing every set against every bike, 80 to 160 µs for 30 bikes and 6 repairs (it is the yardstick of
 * test/verdict/repair-choice.test.ts).
 * Rejected: one large cost for a comeback, however much was missed. With something else still open the bike comes back
 * anyway, so nothing seemed worth doing: a battery dead at 93 in 100 was left alone until the stator was told.
 */

/** Worth of an hour of one pair of hands in the money of the parts, 1/h. A guess, no source. */
export const HOUR_WORTH = 40;
/**
 * Cost of naming a part that was sound, beyond its price and work, min: the verdict is not believed next time, and the
 * evidence is gone. A guess, no source; see docs/verdict.md for how far it moves the choice.
 */
export const WRONGLY_ACCUSED = 200;
/** Cost of leaving a needed repair out, beyond its work, min: diagnosed again, a lost evening, trust. A guess, no source. */
export const MISSED = 300;
/** Cost of coming back at all, once however much was missed, min: stranded and fetched. A guess, no source. */
export const COMEBACK = 100;

/** Repairs told apart by one search at the most, dimensionless: 2^12 sets. The likeliest are kept. */
export const MOST_REPAIRS = 12;

/** What the choice counts, repairs and covers by number. */
export interface Bill {
  /** Work and parts of each repair beyond opening covers, min, ≥ 0. At most 31 repairs. */
  readonly work: readonly number[];
  /** Covers each repair needs off, one bit each. */
  readonly covers: readonly number[];
  /** Opening and closing each cover, min, ≥ 0. At most 8 covers. */
  readonly coverMinutes: readonly number[];
  /** Fixed cost of a needless repair, min, ≥ 0. */
  readonly wronglyAccused: number;
  /** Fixed cost of each needed repair left out, min, ≥ 0. */
  readonly missed: number;
  /** Fixed cost of a comeback, min, ≥ 0. */
  readonly comeback: number;
}

/** A choice. */
export interface Chosen {
  /** Repairs to do, one bit each. */
  readonly set: number;
  /** Its expected cost times the sum of the weights, min. */
  readonly cost: number;
}

/** The choice for bikes whose needs are fixed; only their weights change. Costs scale with the sum of the weights. */
export interface RepairChoice {
  /** The set of least expected cost; between equals a smaller one. */
  readonly choose: (weights: Float64Array) => Chosen;
  /** The best set of `base` and any of `candidates` (one bit each), everything else left. */
  readonly extend: (weights: Float64Array, base: number, candidates: number) => Chosen;
  /** Expected cost of the best choice, min. */
  readonly least: (weights: Float64Array) => number;
  /** Expected cost if it were known what each bike needs, min. */
  readonly informed: (weights: Float64Array) => number;
  /** What not knowing costs, `least` − `informed`, ≥ 0, min: the loss of acting now. */
  readonly loss: (weights: Float64Array) => number;
}

function checkBill(bill: Bill): void {
  const { work, covers, coverMinutes } = bill;
  if (work.length > 31 || covers.length !== work.length)
    throw new RangeError(
      `work and covers must be equally long and at most 31, got ${work.length} and ${covers.length}`,
    );
  if (coverMinutes.length > 8)
    throw new RangeError(`coverMinutes must hold at most 8 covers, got ${coverMinutes.length}`);
  const figures = {
    wronglyAccused: [bill.wronglyAccused],
    missed: [bill.missed],
    comeback: [bill.comeback],
    work,
    coverMinutes,
  };
  for (const [name, values] of Object.entries(figures))
    for (const value of values)
      if (!(value >= 0 && value < Infinity)) throw new RangeError(`${name} must be 0 or more, got ${value}`);
}

/** Cost of opening every set of covers, min: place = the set's bits. */
function coverSums(coverMinutes: readonly number[]): Float64Array {
  const sums = new Float64Array(1 << coverMinutes.length);
  for (let set = 1; set < sums.length; set++) {
    const low = 31 - Math.clz32(set & -set);
    sums[set] = sums[set & (set - 1)]! + coverMinutes[low]!;
  }
  return sums;
}

/** Cost of work on `set` with its covers opened once, min. */
export function workCost(bill: Bill, set: number): number {
  let cost = 0;
  let covers = 0;
  for (let bits = set; bits !== 0; bits &= bits - 1) {
    const r = 31 - Math.clz32(bits & -bits);
    cost += bill.work[r]!;
    covers |= bill.covers[r]!;
  }
  for (let bits = covers; bits !== 0; bits &= bits - 1)
    cost += bill.coverMinutes[31 - Math.clz32(bits & -bits)]!;
  return cost;
}

function count(bits: number): number {
  let n = 0;
  for (let left = bits; left !== 0; left &= left - 1) n++;
  return n;
}

/** Cost of doing `done` on a bike that needs `needed`, min: the sum in the heading for one bike. */
export function costOf(bill: Bill, done: number, needed: number): number {
  const missed = needed & ~done;
  return (
    workCost(bill, done) +
    bill.wronglyAccused * count(done & ~needed) +
    (missed === 0 ? 0 : workCost(bill, missed) + bill.missed * count(missed) + bill.comeback)
  );
}

/** Opens the choice for bikes that need the repairs in `needs`, one bit each. */
export function openRepairChoice(bill: Bill, needs: Uint32Array): RepairChoice {
  checkBill(bill);
  const repairs = bill.work.length;
  for (const need of needs)
    if (need >= 2 ** repairs)
      throw new RangeError(`needs must name repairs 0 to ${repairs - 1} only, got bits ${need}`);
  const covers = bill.coverMinutes.length;
  const coverCost = coverSums(bill.coverMinutes);
  /** Repairs behind each cover. */
  const behind = bill.coverMinutes.map((_, a) => {
    let bits = 0;
    for (let r = 0; r < repairs; r++) if ((bill.covers[r]! >> a) & 1) bits |= 1 << r;
    return bits;
  });
  const known = Float64Array.from(needs, (need) => workCost(bill, need));
  /** Odds below which a repair cannot pay, whatever else is done: needless work against the most a find can save. */
  const floor = bill.work.map(
    (work, r) =>
      (work + bill.wronglyAccused) / (bill.missed + bill.comeback + coverCost[bill.covers[r]!]! || 1e-300),
  );
  const needed = new Float64Array(repairs);
  const kept = new Int32Array(MOST_REPAIRS);
  let total = 0;
  // Per set of candidates: share left whole (and whole behind each cover), cost so far, covers off.
  let whole = new Float64Array(0);
  let soFar = new Float64Array(0);
  let off = new Uint8Array(0);

  const gather = (weights: Float64Array) => {
    needed.fill(0);
    let sum = 0;
    for (let h = 0; h < needs.length; h++) {
      const weight = weights[h]!;
      if (weight === 0) continue;
      sum += weight;
      for (let bits = needs[h]!; bits !== 0; bits &= bits - 1)
        needed[31 - Math.clz32(bits & -bits)]! += weight;
    }
    total = sum;
  };

  /** `gather` has run. */
  const search = (weights: Float64Array, base: number, candidates: number): Chosen => {
    let n = 0;
    for (let bits = candidates & ~base; bits !== 0; bits &= bits - 1)
      kept[n++] = 31 - Math.clz32(bits & -bits);
    const size = 1 << n;
    if (off.length < size) {
      whole = new Float64Array(size * (covers + 1));
      soFar = new Float64Array(size);
      off = new Uint8Array(size);
    }
    whole.fill(0, 0, size * (covers + 1));
    let open = base;
    for (let i = 0; i < n; i++) open |= 1 << kept[i]!;
    for (let h = 0; h < needs.length; h++) {
      const weight = weights[h]!;
      if (weight === 0) continue;
      const need = needs[h]!;
      let place = 0;
      for (let i = 0; i < n; i++) place |= ((need >>> kept[i]!) & 1) << i;
      if ((need & ~open) === 0) whole[place]! += weight;
      for (let a = 0; a < covers; a++) {
        const here = need & behind[a]!;
        if ((here & ~open) !== 0) continue;
        let at = 0;
        for (let i = 0; i < n; i++) at |= ((here >>> kept[i]!) & 1) << i;
        whole[(a + 1) * size + at]! += weight;
      }
    }
    for (let a = 0; a <= covers; a++) {
      const from = a * size;
      for (let step = 1; step < size; step <<= 1)
        for (let set = 0; set < size; set++)
          if (set & step) whole[from + set]! += whole[from + (set ^ step)]!;
    }
    let start = 0;
    let startOff = 0;
    for (let r = 0; r < repairs; r++) {
      if ((base >>> r) & 1) {
        start += bill.work[r]! * total + bill.wronglyAccused * (total - needed[r]!);
        startOff |= bill.covers[r]!;
      } else start += (bill.work[r]! + bill.missed) * needed[r]!;
    }
    soFar[0] = start;
    off[0] = startOff;
    let best = Infinity;
    let bestSet = 0;
    for (let set = 0; set < size; set++) {
      if (set !== 0) {
        const i = 31 - Math.clz32(set & -set);
        const r = kept[i]!;
        const rest = set & (set - 1);
        soFar[set] =
          soFar[rest]! +
          (bill.work[r]! + bill.wronglyAccused) * (total - needed[r]!) -
          bill.missed * needed[r]!;
        off[set] = off[rest]! | bill.covers[r]!;
      }
      let cost = soFar[set]! + coverCost[off[set]!]! * total + bill.comeback * (total - whole[set]!);
      for (let a = 0; a < covers; a++) cost += bill.coverMinutes[a]! * (total - whole[(a + 1) * size + set]!);
      if (cost < best - 1e-9 * total) {
        best = cost;
        bestSet = set;
      }
    }
    let set = base;
    for (let i = 0; i < n; i++) if ((bestSet >> i) & 1) set |= 1 << kept[i]!;
    return { set, cost: best === Infinity ? 0 : best };
  };

  /** The likeliest of the repairs in `bits`, at most as many as one search takes. */
  const likeliest = (bits: number): number => {
    let left = bits;
    for (let n = count(bits); n > MOST_REPAIRS; n--) {
      let least = 31 - Math.clz32(left);
      for (let rest = left; rest !== 0; rest &= rest - 1) {
        const r = 31 - Math.clz32(rest & -rest);
        if (needed[r]! < needed[least]!) least = r;
      }
      left &= ~(1 << least);
    }
    return left;
  };

  const choose = (weights: Float64Array): Chosen => {
    gather(weights);
    let candidates = 0;
    for (let r = 0; r < repairs; r++) if (needed[r]! > floor[r]! * (total - needed[r]!)) candidates |= 1 << r;
    return search(weights, 0, likeliest(candidates));
  };
  const informed = (weights: Float64Array): number => {
    let cost = 0;
    for (let h = 0; h < known.length; h++) cost += weights[h]! * known[h]!;
    return cost;
  };
  const least = (weights: Float64Array) => choose(weights).cost;
  return {
    choose,
    extend: (weights, base, candidates) => {
      gather(weights);
      return search(weights, base, likeliest(candidates & ~base));
    },
    least,
    informed,
    loss: (weights) => Math.max(0, least(weights) - informed(weights)),
  };
}
