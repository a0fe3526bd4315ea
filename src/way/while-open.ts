/**
 * What else is worth replacing while it is open. A part left in may fail within the distance one looks ahead; then it
 * costs itself, what its failure does, and the way in once more. The way in is shared: of two old parts behind one cover
 * the first that is replaced saves the way in only if the other is as well. So subsets are weighed, not parts (group
 * replacement with a shared set-up cost: Dekker, Wildeman and van der Duyn Schouten 1997, from memory).
 *
 * Parts lie at different depths: what must be gone once more is the dearest way in to any part that fails, once within the
 * horizon. Failures far apart would open it twice; that makes the figure for replacing a little low, never high.
 *
 * Lives are Weibull: F(t) = 1 − exp(−(t/η)^β); at age x the chance to fail within H is (F(x + H) − F(x))/(1 − F(x)).
 */

/** A part that could be replaced now. */
export interface WearPart {
  readonly id: string;
  readonly name: string;
  /** Shape of its life, dimensionless: 1 fails by chance alone, more than 1 wears out. */
  readonly shape: number;
  /** Distance or time at which 63 in 100 have failed, in the unit of `age` and the horizon. */
  readonly life: number;
  /** How far it has gone, in the same unit. */
  readonly age: number;
  /** Its price with the work beyond the way in, money. */
  readonly cost: number;
  /** What its failure costs beside, money: towing, a spoilt part, a lost day. */
  readonly failure: number;
  /** What the way in to it alone costs once it must be gone again, money; the common one when left out. */
  readonly access?: number;
}

/** What one part is worth. */
export interface WearLine {
  readonly part: WearPart;
  readonly replace: boolean;
  /** Chance that it fails within the horizon when left in, and when new, 0–1. */
  readonly left: number;
  readonly fresh: number;
  /** What replacing it saves against leaving it in, the others as chosen, money; negative where leaving it is cheaper. */
  readonly saves: number;
  /** Age from which replacing pays, the others as chosen, in the unit of `age`; or that it does at any age, or at none. */
  readonly turnsAt: number | 'always' | 'never';
}

export interface WhileOpen {
  readonly lines: readonly WearLine[];
  /** Expected cost of the choice and of replacing nothing, money. */
  readonly cost: number;
  readonly nothing: number;
}

/** Most parts whose subsets are all gone through, count. */
export const MOST_PARTS = 14;

/** Chance that a part of some age fails within the horizon, 0–1. */
export function failsWithin(
  { shape, life }: Pick<WearPart, 'shape' | 'life'>,
  age: number,
  horizon: number,
): number {
  const hazard = (t: number) => (t / life) ** shape;
  return -Math.expm1(hazard(age) - hazard(age + horizon));
}

function requirePart(part: WearPart, n: number): void {
  for (const name of ['shape', 'life'] as const)
    if (!(part[name] > 0 && Number.isFinite(part[name])))
      throw new RangeError(`${name} of part ${n} must be above 0, got ${part[name]}`);
  for (const name of ['age', 'cost', 'failure', 'access'] as const) {
    const value = part[name] ?? 0;
    if (!(value >= 0 && Number.isFinite(value)))
      throw new RangeError(`${name} of part ${n} must be 0 or more, got ${part[name]}`);
  }
}

/**
 * The cheapest subset of the parts to replace now. `access` is what the way in costs once it must be gone again, money;
 * `horizon` how far one looks ahead, in the unit of the ages. Throws RangeError for more than MOST_PARTS parts or figures
 * that are none.
 */
export function whileOpen(parts: readonly WearPart[], access: number, horizon: number): WhileOpen {
  if (parts.length > MOST_PARTS)
    throw new RangeError(`parts must be at most ${MOST_PARTS}, got ${parts.length}`);
  parts.forEach(requirePart);
  for (const [name, value] of Object.entries({ access, horizon }))
    if (!(value >= 0 && Number.isFinite(value)))
      throw new RangeError(`${name} must be 0 or more, got ${value}`);
  const left = parts.map((part) => failsWithin(part, part.age, horizon));
  const fresh = parts.map((part) => failsWithin(part, 0, horizon));
  const wayTo = (part: WearPart) => part.access ?? access;
  const deepest = parts.map((_, n) => n).sort((a, b) => wayTo(parts[b]!) - wayTo(parts[a]!) || a - b);
  const costOf = (chosen: number, chances: readonly number[] = left): number => {
    let cost = 0;
    // From the dearest way in to the cheapest: what of it must be gone is the first whose part fails.
    let noneYet = 1;
    for (const n of deepest) {
      const part = parts[n]!;
      const isNew = (chosen >>> n) & 1;
      const chance = isNew ? fresh[n]! : chances[n]!;
      if (isNew) cost += part.cost;
      cost += chance * (part.cost + part.failure) + noneYet * chance * wayTo(part);
      noneYet *= 1 - chance;
    }
    return cost;
  };
  let best = 0;
  for (let chosen = 1; chosen < 1 << parts.length; chosen++)
    if (costOf(chosen) < costOf(best) - 1e-9) best = chosen;
  const saving = (n: number, chances: readonly number[] = left) =>
    costOf(best & ~(1 << n), chances) - costOf(best | (1 << n), chances);
  return {
    cost: costOf(best),
    nothing: costOf(0),
    lines: parts.map((part, n) => ({
      part,
      replace: ((best >>> n) & 1) === 1,
      left: left[n]!,
      fresh: fresh[n]!,
      saves: saving(n),
      turnsAt: turningAge(part, (age) => saving(n, left.with(n, failsWithin(part, age, horizon)))),
    })),
  };
}

/** The age from which a saving is none below nought, by bisection up to five lives. */
function turningAge(part: WearPart, saves: (age: number) => number): WearLine['turnsAt'] {
  let [low, high] = [0, 5 * part.life];
  if (saves(low) >= 0) return 'always';
  // A life that does not wear gives no age at which replacing begins to pay.
  if (part.shape <= 1 || saves(high) < 0) return 'never';
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (saves(middle) >= 0) high = middle;
    else low = middle;
  }
  return high;
}
