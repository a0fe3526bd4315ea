/** Seeded random streams: mulberry32, a 32-bit generator good enough for demos and test bikes, not for secrets. */

export type Stream = () => number;

/** A stream of uniform numbers in [0, 1) from a seed. */
export function openStream(seed: number): Stream {
  // Signed, so that the engine keeps it as a small number: the bits are the same.
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** What each number of a stream adds to its state. */
const STRIDE = 0x6d2b79f5;

/** The seed from which a stream goes on after so many numbers of another, dimensionless: any part of one can be drawn by itself. */
export function seedAfter(seed: number, numbers: number): number {
  return (seed + Math.imul(numbers, STRIDE)) | 0;
}

/** Fills the first `many` of a list with the numbers in [0, 1) that a stream from this seed gives, dimensionless. */
export function fillUniform(into: Float64Array, many: number, seed: number): void {
  // The same steps written out: a call for each number takes more than twice as long.
  let state = seed | 0;
  for (let i = 0; i < many; i++) {
    state = (state + STRIDE) | 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    into[i] = ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }
}

/**
 * Fills `many` of a list from `at` on with `base + lesser · min(a, b) + greater · max(a, b)`, in their unit: a and b are
 * the halves, 0 to 65,535, of the 32 bits that a stream from this seed gives for each. `shape` has base, lesser and
 * greater from `of` on.
 */
export function fillHalves(
  into: Float64Array,
  at: number,
  many: number,
  shape: Float64Array,
  of: number,
  seed: number,
): void {
  const [base, lesser, greater] = [shape[of]!, shape[of + 1]!, shape[of + 2]!];
  let state = seed | 0;
  for (let i = at; i < at + many; i++) {
    state = (state + STRIDE) | 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    t ^= t >>> 14;
    const a = t & 0xffff;
    const b = t >>> 16;
    // Without a branch: which of two is the lesser is not to be guessed.
    const over = (a - b) & ((a - b) >> 31);
    into[i] = base + lesser * (b + over) + greater * (a - over);
  }
}

/** One standard normal number from a stream (Box & Muller 1958), dimensionless. */
export function drawNormal(stream: Stream): number {
  const u = 1 - stream();
  return Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * stream());
}
