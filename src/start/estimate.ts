/**
 * A figure worked out from little, as an interval with its reasons. Each input is a middle with the ends between which it
 * lies nineteen times in twenty; each end is put into the formula alone, and what the inputs do is added as independent
 * errors: root of the sum of squares, in ratios, times 1.25, since an input may be one of which only the ends are known
 * (for two such, evenly likely between their ends, that holds 98.7 in 100), and never more than all of them together at
 * their worst.
 */

/** What a reading or a statement gives: `middle` between `low` and `high`, in the unit of the formula. */
export interface Input {
  /** What it is, for the reasons: "engine speed by ear". */
  readonly what: string;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** What one input alone may do to the answer. */
export interface Reason {
  readonly what: string;
  readonly low: number;
  readonly high: number;
}

export interface Estimate {
  readonly ok: true;
  readonly unit: string;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  /** Widest first; inputs that do nothing are left out. */
  readonly reasons: readonly Reason[];
  readonly formula: string;
  /** Where the formula is from, and where it holds. */
  readonly source: string;
  readonly holds: string;
}

/** `why`: one sentence that says what does not fit and what to do. */
export type Estimated = Estimate | { readonly ok: false; readonly why: string };

const EVEN = 1.25;

export interface Formula {
  readonly unit: string;
  readonly formula: string;
  readonly source: string;
  readonly holds: string;
}

/** Puts inputs through a formula whose answer is above 0; null from it where the figures cannot be. */
export function propagate(
  of: (values: readonly number[]) => number | null,
  inputs: readonly Input[],
  said: Formula,
  why: string,
): Estimated {
  for (const { what, low, middle, high } of inputs)
    if (!(low <= middle && middle <= high) || !Number.isFinite(high - low))
      throw new RangeError(
        `inputs must run from low over middle to high, got ${low}, ${middle}, ${high} for ${what}`,
      );
  const middles = inputs.map(({ middle }) => middle);
  const middle = of(middles);
  if (middle === null || !(middle > 0)) return { ok: false, why };
  let [downSum, upSum, downSquare, upSquare] = [0, 0, 0, 0];
  const reasons: Reason[] = [];
  for (const [n, input] of inputs.entries()) {
    if (input.low === input.high) continue;
    const ends: number[] = [];
    for (const end of [input.low, input.high]) {
      const value = of(middles.with(n, end));
      if (value === null || !(value > 0)) return { ok: false, why };
      ends.push(value);
    }
    const [low, high] = [Math.min(...ends, middle), Math.max(...ends, middle)];
    const [down, up] = [Math.log(middle / low), Math.log(high / middle)];
    downSum += down;
    upSum += up;
    downSquare += down * down;
    upSquare += up * up;
    reasons.push({ what: input.what, low, high });
  }
  const down = Math.min(downSum, EVEN * Math.sqrt(downSquare));
  const up = Math.min(upSum, EVEN * Math.sqrt(upSquare));
  return {
    ok: true,
    ...said,
    low: middle * Math.exp(-down),
    middle,
    high: middle * Math.exp(up),
    reasons: reasons
      .filter(({ low, high }) => high / low > 1 + 1e-6)
      .sort((a, b) => b.high / b.low - a.high / a.low),
  };
}

/** A stated range as an input. */
export function between(what: string, low: number, high: number): Input {
  return { what, low, middle: (low + high) / 2, high };
}

/** A figure with its half width either way, in its own unit. */
export function about(what: string, middle: number, half: number): Input {
  return { what, low: middle - half, middle, high: middle + half };
}

/** The interval as a machine file writes it: "16.2–17.9 V AC", ends rounded outwards to three figures. */
export function writeInterval({ low, high }: Pick<Estimate, 'low' | 'high'>, unit: string): string {
  return `${outwards(low, false)}–${outwards(high, true)} ${unit}`;
}

function outwards(value: number, up: boolean): string {
  const step = 10 ** (Math.floor(Math.log10(value)) - 2);
  // A hair's breadth, so that 16.2 stays 16.2.
  const steps = up ? Math.ceil(value / step - 1e-9) : Math.floor(value / step + 1e-9);
  return String(Number((steps * step).toPrecision(3)));
}
